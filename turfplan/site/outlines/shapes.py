"""The area of a lawn drawn from simple shapes, with holes for beds, trees and buildings."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message, said
from turfplan.phrases import ground as phrases
from turfplan.records.brief import Shape
from turfplan.site.outlines.polygons import Point, Ring, crossing_sides, rings_cross, signed_area

CIRCLE_CORNERS = 96


def area_of_shapes(shapes: Sequence[Shape]) -> float:
    """Area in m2 of all shapes less all holes; raises TurfplanError with every fault of theirs.

    Faults are outlines that cross themselves, triangles whose sides do not meet, drawn polygons
    that overlap (their area would count twice), holes outside the lawn, and holes that take all of
    it.
    """
    faults = [
        fault
        for number, shape in enumerate(shapes, 1)
        for fault in _faults(f"lawn.shape.{number}", shape)
    ]
    if faults:
        raise TurfplanError(faults)
    faults = _misplaced(shapes)
    total = sum((-1 if shape.hole else 1) * area_of_shape(shape) for shape in shapes)
    if total <= 0:
        faults.append(Problem("lawn.shape", phrases.fault_no_lawn(), f"{total:.1f} m2"))
    if faults:
        raise TurfplanError(faults)
    return total


@dataclass(frozen=True, slots=True)
class LawnZone:
    """A part of the lawn that was drawn by itself: its area less its holes.

    `name` is what it was called, else its number; depth, grass and sun are None where not said.
    """

    name: Message
    area_m2: float
    share: float
    depth_mm: float | None
    grass: str | None
    sun: str | None


def zones_of_shapes(shapes: Sequence[Shape]) -> tuple[LawnZone, ...]:
    """Every lawn shape as a zone; their shares of the area add up to 1.

    A hole that was placed is taken out of the zone around it; what the other holes take is shared
    out by area. Raises TurfplanError as `area_of_shapes` does.
    """
    total = area_of_shapes(shapes)
    lawns = [shape for shape in shapes if not shape.hole]
    areas = [area_of_shape(shape) for shape in lawns]
    loose = 0.0
    for hole in (shape for shape in shapes if shape.hole):
        around = [
            n
            for n, lawn in enumerate(lawns)
            if is_placed(hole) and is_placed(lawn) and holds(ring_of_m(lawn), ring_of_m(hole))
        ]
        if around:
            areas[around[0]] -= area_of_shape(hole)
        else:
            loose += area_of_shape(hole)
    left = sum(areas)
    return tuple(
        LawnZone(
            said(shape.name) if shape.name else phrases.zone(number=number),
            area * (1 - loose / left),
            area / left * (left - loose) / total,
            shape.depth_mm,
            shape.grass,
            shape.sun,
        )
        for number, (shape, area) in enumerate(zip(lawns, areas, strict=True), 1)
    )


def area_of_shape(shape: Shape) -> float:
    """Area of one shape in m2.

    A triangle by base and height, or by its three sides (Heron's formula).
    """
    if shape.kind == "rectangle":
        return _given(shape.length_mm) * _given(shape.width_mm) / 1e6
    if shape.kind == "circle":
        return math.pi * radius_mm(shape) ** 2 / 1e6
    if shape.kind == "triangle":
        sides = _sides(shape)
        return (
            heron_area(*sides) / 1e6
            if sides
            else _given(shape.base_mm) * _given(shape.height_mm) / 2e6
        )
    return polygon_area(shape.points_mm) / 1e6


def polygon_area(points: Sequence[Point]) -> float:
    """Area inside a closed outline, whatever its direction, in the square of its unit."""
    return abs(signed_area(points))


def heron_area(a: float, b: float, c: float) -> float:
    """Area of a triangle from its sides, by Kahan's arrangement of Heron's formula.

    It stays exact for thin triangles.
    """
    c, b, a = sorted((a, b, c))
    return math.sqrt(max(0.0, (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c)))) / 4


def radius_mm(shape: Shape) -> float:
    """The radius of a circle, whether its radius or its diameter was given."""
    return shape.radius_mm if shape.radius_mm else _given(shape.diameter_mm) / 2


def ring_of_m(shape: Shape) -> Ring:
    """The outline of a shape in m, in the coordinates of the survey.

    It begins at `at` (its corner; a circle's centre), else at 0, 0. A circle is drawn with corners
    moved out a little, so that its area is exact.
    """
    x, y = ((v / 1000) for v in (shape.at_mm or (0.0, 0.0)))
    if shape.kind == "polygon":
        return tuple((x + px / 1000, y + py / 1000) for px, py in shape.points_mm)
    if shape.kind == "circle":
        turn = 2 * math.pi / CIRCLE_CORNERS
        reach = radius_mm(shape) / 1000 * math.sqrt(turn / math.sin(turn))
        return tuple(
            (x + reach * math.cos(n * turn), y + reach * math.sin(n * turn))
            for n in range(CIRCLE_CORNERS)
        )
    if shape.kind == "rectangle":
        length, width = _given(shape.length_mm) / 1000, _given(shape.width_mm) / 1000
        return ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    sides = _sides(shape)
    if sides is None:
        return (
            (x, y),
            (x + _given(shape.base_mm) / 1000, y),
            (x, y + _given(shape.height_mm) / 1000),
        )
    a, b, c = (side / 1000 for side in sides)
    across = (a * a + c * c - b * b) / (2 * a)
    return ((x, y), (x + a, y), (x + across, y + math.sqrt(max(0.0, c * c - across * across))))


def is_placed(shape: Shape) -> bool:
    """True where the brief says where a shape lies: a polygon by its points, any other by `at`."""
    return shape.kind == "polygon" or shape.at_mm is not None


def _given(side: float | None) -> float:
    """A side that a shape of its kind has: the brief refuses one without."""
    assert side is not None
    return side


def _sides(shape: Shape) -> tuple[float, float, float] | None:
    if shape.a_mm and shape.b_mm and shape.c_mm:
        return shape.a_mm, shape.b_mm, shape.c_mm
    return None


def _faults(where: str, shape: Shape) -> list[Problem]:
    """What is wrong with one shape by itself."""
    if shape.kind == "triangle" and (sides := _sides(shape)) and 2 * max(sides) >= sum(sides):
        return [
            Problem(where, phrases.fault_triangle(), None, phrases.fault_triangle_sides()),
        ]
    if shape.kind != "polygon":
        return []
    if len(set(shape.points_mm)) < 3:
        return [Problem(where, phrases.fault_few_corners())]
    if crossing := crossing_sides(shape.points_mm):
        return [
            Problem(
                where,
                phrases.fault_outline_crosses(),
                phrases.fault_sides(first=crossing[0], second=crossing[1]),
                None,
                phrases.fault_in_order(),
            )
        ]
    if polygon_area(shape.points_mm) == 0:
        return [Problem(where, phrases.fault_one_line())]
    return []


def _misplaced(shapes: Sequence[Shape]) -> list[Problem]:
    """Drawn lawns that overlap and drawn holes that lie outside of every drawn lawn."""
    placed = [
        (f"lawn.shape.{n}", shape, ring_of_m(shape))
        for n, shape in enumerate(shapes, 1)
        if is_placed(shape)
    ]
    lawns = [(where, ring) for where, shape, ring in placed if not shape.hole]
    holes = [(where, ring) for where, shape, ring in placed if shape.hole]
    all_drawn = len(lawns) == sum(not shape.hole for shape in shapes)
    return [
        *(
            Problem(where, phrases.fault_overlaps(), other, None, phrases.fault_overlaps_hint())
            for where, other in _overlapping(lawns)
        ),
        *(_holes_outside(lawns, holes) if all_drawn else ()),
        *(
            Problem(where, phrases.fault_holes_overlap(), other)
            for where, other in _overlapping(holes)
        ),
    ]


def _overlapping(rings: Sequence[tuple[str, Ring]]) -> Iterator[tuple[str, str]]:
    """The places of every two outlines that share area."""
    for n, (where, ring) in enumerate(rings):
        yield from ((where, other) for other, second in rings[:n] if overlap(ring, second))


def _holes_outside(
    lawns: Sequence[tuple[str, Ring]], holes: Sequence[tuple[str, Ring]]
) -> Iterator[Problem]:
    for where, ring in holes:
        if not any(holds(lawn, ring) for _, lawn in lawns):
            yield Problem(
                where,
                phrases.fault_hole_outside(),
                None,
                None,
                phrases.fault_hole_outside_hint(),
            )


def overlap(first: Ring, second: Ring) -> bool:
    """True where two outlines share area; sharing a side is no overlap."""
    return rings_cross(first, second) or any(
        min(b, d) - max(a, c) > _touch(first)
        for at in _levels(first, second)
        for a, b in spans(first, at)
        for c, d in spans(second, at)
    )


def holds(outer: Ring, inner: Ring) -> bool:
    """True where the inner outline lies within the outer one, or shares sides with it."""
    slack = _touch(outer)
    return not rings_cross(outer, inner) and all(
        any(c <= a + slack and b <= d + slack for c, d in spans(outer, at))
        for at in _levels(outer, inner)
        for a, b in spans(inner, at)
    )


def spans(ring: Ring, level: float) -> list[tuple[float, float]]:
    """The stretches of the line y = `level` that lie inside an outline, from left to right."""
    crossings = sorted(
        x0 + (level - y0) * (x1 - x0) / (y1 - y0)
        for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (y0 > level) != (y1 > level)
    )
    return list(zip(crossings[::2], crossings[1::2], strict=False))


def _levels(first: Ring, second: Ring) -> list[float]:
    """Level lines halfway between neighbouring corners: between them no side begins or ends."""
    ys = sorted({y for _, y in (*first, *second)})
    return [(a + b) / 2 for a, b in itertools.pairwise(ys)]


def _touch(ring: Ring) -> float:
    """Less than this, in the outline's unit, is touching: a millionth of its reach."""
    xs = [x for x, _ in ring]
    return 1e-6 * (max(xs) - min(xs))
