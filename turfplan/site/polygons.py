"""Plane outlines: area, crossing sides, what lies inside, and cutting to a box."""

import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Ring = tuple[Point, ...]


def signed_area(ring: Sequence[Point]) -> float:
    """Area inside a closed outline by the shoelace formula, positive where it runs against the clock."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def crossing_sides(ring: Sequence[Point]) -> tuple[int, int] | None:
    """The numbers (from 1) of the first two sides that cross or lie on each other, or None for a simple outline."""
    sides = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    for i, first in enumerate(sides):
        for j in range(i + 1, len(sides)):
            neighbours = j == i + 1 or (i, j) == (0, len(sides) - 1)
            if (_folds_back(first, sides[j]) if neighbours else _meet(*first, *sides[j])) and len(sides) > 3:
                return i + 1, j + 1
    return None


def rings_cross(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """True where a side of one outline passes through a side of the other; touching is no crossing."""
    others = list(zip(second, (*second[1:], second[0]), strict=True))
    return any(_cross(a, b, c, d) for a, b in zip(first, (*first[1:], first[0]), strict=True) for c, d in others)


def inside(ring: Sequence[Point], x: float, y: float) -> bool:
    """True for a point within the outline (even-odd rule)."""
    found = False
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            found = not found
    return found


def centroid(ring: Sequence[Point]) -> Point:
    """The centre of gravity of the area inside an outline; its first corner where it has no area."""
    area = signed_area(ring)
    if area == 0:
        return ring[0]
    x = y = 0.0
    # About the first corner, so that a lawn far from the origin loses no digits.
    ox, oy = ring[0]
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        part = (x0 - ox) * (y1 - oy) - (x1 - ox) * (y0 - oy)
        x += (x0 + x1 - 2 * ox) * part
        y += (y0 + y1 - 2 * oy) * part
    return ox + x / (6 * area), oy + y / (6 * area)


def clip_to_box(ring: Sequence[Point], left: float, bottom: float, right: float, top: float) -> list[Point]:
    """The part of an outline inside a box (Sutherland and Hodgman's clipping, one side of the box at a time).

    Pieces that hang apart stay joined by sides that enclose no area, so area and centroid are right.
    """
    cut = list(ring)
    for axis, limit, keep_above in ((0, left, True), (0, right, False), (1, bottom, True), (1, top, False)):
        if not cut:
            break
        cut = _clip_half(cut, axis, limit, keep_above)
    return cut


def _clip_half(ring: Sequence[Point], axis: int, limit: float, keep_above: bool) -> list[Point]:
    kept: list[Point] = []
    sign = 1.0 if keep_above else -1.0
    before = ring[-1]
    for point in ring:
        here, there = sign * (point[axis] - limit), sign * (before[axis] - limit)
        if (here >= 0) != (there >= 0):
            share = there / (there - here)
            kept.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
        if here >= 0:
            kept.append(point)
        before = point
    return kept


def hull(points: Iterable[Point]) -> Ring:
    """The convex hull against the clock (Andrew's monotone chain)."""
    found = sorted(set(points))
    if len(found) < 3:
        return tuple(found)

    def half(ordered: Iterable[Point]) -> list[Point]:
        chain: list[Point] = []
        for point in ordered:
            while len(chain) >= 2 and _turn(chain[-2], chain[-1], point) <= 0:
                chain.pop()
            chain.append(point)
        return chain[:-1]

    return (*half(found), *half(reversed(found)))


def least_box(points: Iterable[Point]) -> tuple[float, Point, float, float]:
    """The smallest box around the points: the angle of its long side in radians, its centre, its length and width."""
    ring = hull(points)
    best: tuple[float, float, Point, float, float] | None = None
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        angle = math.atan2(y1 - y0, x1 - x0)
        turned = [rotated(point, -angle) for point in ring]
        xs, ys = [x for x, _ in turned], [y for _, y in turned]
        length, width = max(xs) - min(xs), max(ys) - min(ys)
        centre = rotated(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2), angle)
        if width > length:
            angle, length, width = angle + math.pi / 2, width, length
        # Equal boxes (a rectangle has four) must give one answer whatever the rounding: a hair smaller is not smaller.
        if best is None or length * width < best[0] * (1 - 1e-9):
            best = (length * width, angle, centre, length, width)
    if best is None:
        raise ValueError("no points")
    return best[1], best[2], best[3], best[4]


def rotated(point: Point, angle: float) -> Point:
    """A point turned about the origin by an angle in radians, against the clock."""
    c, s = math.cos(angle), math.sin(angle)
    return c * point[0] - s * point[1], s * point[0] + c * point[1]


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True where two sides cross, touch or lie on each other."""
    if _cross(a, b, c, d):
        return True
    return any(_turn(p, q, r) == 0 and _between(p, q, r) for p, q, r in ((a, b, c), (a, b, d), (c, d, a), (c, d, b)))


def _between(a: Point, b: Point, p: Point) -> bool:
    return min(a[0], b[0]) <= p[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])


def _folds_back(first: tuple[Point, Point], second: tuple[Point, Point]) -> bool:
    """True where the next side runs back over the one before."""
    corner = first[1] if first[1] == second[0] else first[0]
    a = first[0] if corner == first[1] else first[1]
    b = second[1] if corner == second[0] else second[0]
    away = (a[0] - corner[0]) * (b[0] - corner[0]) + (a[1] - corner[1]) * (b[1] - corner[1]) > 0
    return _turn(a, corner, b) == 0 and away
