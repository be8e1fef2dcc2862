"""The area of a lawn drawn from simple shapes, with holes for beds, trees and buildings."""

import math
from collections.abc import Sequence

from turfplan.brief import Shape
from turfplan.errors import Problem, TurfplanError

Point = tuple[float, float]


def area_of_shapes(shapes: Sequence[Shape]) -> float:
    """Area in m2 of all shapes less all holes; raises TurfplanError for crossing polygons and for holes that take all."""
    faults: list[Problem] = []
    total = 0.0
    for number, shape in enumerate(shapes, 1):
        where = f"lawn.shape.{number}"
        if shape.kind == "polygon" and (fault := _crossing(shape.points_mm)):
            faults.append(
                Problem(
                    where, "the outline crosses itself", fault, None, "give the corners in order, all the way round"
                )
            )
        total += (-1 if shape.hole else 1) * area_of_shape(shape)
    if total <= 0:
        faults.append(Problem("lawn.shape", "no lawn is left once the holes are taken out", f"{total:.1f} m2"))
    if faults:
        raise TurfplanError(faults)
    return total


def area_of_shape(shape: Shape) -> float:
    """Area of one shape in m2."""
    if shape.kind == "rectangle":
        return (shape.length_mm or 0.0) * (shape.width_mm or 0.0) / 1e6
    if shape.kind == "circle":
        return math.pi * (shape.radius_mm or 0.0) ** 2 / 1e6
    if shape.kind == "triangle":
        return (shape.base_mm or 0.0) * (shape.height_mm or 0.0) / 2e6
    return polygon_area(shape.points_mm) / 1e6


def polygon_area(points: Sequence[Point]) -> float:
    """Area inside a closed outline by the shoelace formula, whatever its direction, in the square of its unit."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _crossing(points: Sequence[Point]) -> str | None:
    """The two sides that cross, in words, or None for a simple outline."""
    sides = list(zip(points, (*points[1:], points[0]), strict=True))
    for i, first in enumerate(sides):
        for j in range(i + 2, len(sides)):
            if (i, j) != (0, len(sides) - 1) and _cross(*first, *sides[j]):
                return f"side {i + 1} and side {j + 1}"
    return None


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0
