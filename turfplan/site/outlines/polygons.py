"""Plane outlines: their area, and sides that cross."""

# Own code, since typed lawns and their shapes are planned without the extra that brings shapely.
from collections.abc import Sequence

Point = tuple[float, float]
Ring = tuple[Point, ...]


def signed_area(ring: Sequence[Point]) -> float:
    """Area inside a closed outline, positive where it runs against the clock (shoelace formula)."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def crossing_sides(ring: Sequence[Point]) -> tuple[int, int] | None:
    """The numbers (from 1) of the first two sides that cross or lie on each other, if any."""
    sides = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    for i, first in enumerate(sides):
        for j in range(i + 1, len(sides)):
            neighbours = j == i + 1 or (i, j) == (0, len(sides) - 1)
            if (_folds_back(first, sides[j]) if neighbours else _meet(*first, *sides[j])) and len(
                sides
            ) > 3:
                return i + 1, j + 1
    return None


def rings_cross(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """True where a side of one outline passes through one of the other; touching is no crossing."""
    others = list(zip(second, (*second[1:], second[0]), strict=True))
    return any(
        _cross(a, b, c, d)
        for a, b in zip(first, (*first[1:], first[0]), strict=True)
        for c, d in others
    )


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True where two sides cross, touch or lie on each other."""
    if _cross(a, b, c, d):
        return True
    return any(
        _turn(p, q, r) == 0 and _between(p, q, r)
        for p, q, r in ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    )


def _between(a: Point, b: Point, p: Point) -> bool:
    return min(a[0], b[0]) <= p[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])


def _folds_back(first: tuple[Point, Point], second: tuple[Point, Point]) -> bool:
    """True where the next side runs back over the one before."""
    corner = first[1] if first[1] == second[0] else first[0]
    a = first[0] if corner == first[1] else first[1]
    b = second[1] if corner == second[0] else second[0]
    away = (a[0] - corner[0]) * (b[0] - corner[0]) + (a[1] - corner[1]) * (b[1] - corner[1]) > 0
    return _turn(a, corner, b) == 0 and away
