"""Outlines that cross themselves or lie on each other."""

from collections import Counter
from random import Random

import pytest

from turfplan.site.outlines.polygons import Ring, crossing_sides, rings_cross, signed_area

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))


def test_area_has_the_sign_of_its_direction() -> None:
    """Against the clock is positive."""
    assert (signed_area(SQUARE), signed_area(SQUARE[::-1])) == (16.0, -16.0)


def test_a_plain_outline_has_no_crossing() -> None:
    """A corner on the line of a side far away, and a side in line with the one before, are none."""
    assert crossing_sides(SQUARE) is None
    assert crossing_sides(((0, 0), (2, 0), (4, 0), (4, 4), (0, 4))) is None
    # The last corner lies in line with the side from (2, 0) to (2, 2), but beyond it.
    steps = ((0, 0), (2, 0), (2, 2), (4, 2), (4, 5), (2, 5), (0, 4))
    assert crossing_sides(steps) is None
    # The same with the axes changed, in line with an upper side.
    assert crossing_sides(tuple((y, x) for x, y in steps)) is None


def test_the_first_two_sides_that_meet_are_told() -> None:
    """A bow tie by its two crossing sides; a corner that lies on another side; a side that runs
    back.
    """
    assert crossing_sides(((0, 0), (4, 4), (4, 0), (0, 4))) == (1, 3)
    assert crossing_sides(((0, 0), (6, 0), (6, 3), (3, 0), (0, 3))) == (1, 3)
    assert crossing_sides(((0, 0), (4, 0), (4, 6), (4, 2), (0, 2))) == (2, 3)
    assert crossing_sides(((0, 0), (6, 2), (3, 1), (0, 4))) == (1, 2)


def test_a_side_that_turns_off_does_not_run_back() -> None:
    """Straight on is not back, away from the origin or not."""
    straight = ((5, 5), (7, 7), (9, 9), (5, 9))
    assert crossing_sides(straight) is None
    assert crossing_sides(tuple((-x, -y) for x, y in straight)) is None


def test_outlines_that_only_touch_do_not_cross() -> None:
    """Through each other they do, in either order."""
    beside = tuple((x + 4, y) for x, y in SQUARE)
    through = tuple((x + 2, y + 1) for x, y in SQUARE)
    assert not rings_cross(SQUARE, beside)
    assert rings_cross(SQUARE, through) and rings_cross(through, SQUARE)


def drawn(random: Random, corners: int) -> Ring:
    """Different corners on a small grid, where many sides touch and lie in line."""
    places = [(float(x), float(y)) for x in range(4) for y in range(4)]
    return tuple(random.sample(places, corners))


def test_outlines_cross_themselves_where_they_are_not_simple() -> None:
    """Four hundred of four to seven corners, by shapely's judgement."""
    shapely = pytest.importorskip("shapely")
    random = Random(12)
    seen = Counter[bool]()
    for _ in range(400):
        ring = drawn(random, random.randint(4, 7))
        simple = bool(shapely.LinearRing(ring).is_simple)
        assert (crossing_sides(ring) is None) == simple, ring
        seen[simple] += 1
    assert min(seen.values()) > 40


def test_outlines_cross_each_other_where_a_side_does() -> None:
    """Two hundred pairs: where the insides of two sides share a point and no more."""
    shapely = pytest.importorskip("shapely")
    random = Random(13)
    for _ in range(200):
        first, second = drawn(random, 3), drawn(random, 4)
        sides = [
            [shapely.LineString(side) for side in zip(ring, (*ring[1:], ring[0]), strict=True)]
            for ring in (first, second)
        ]
        expected = any(a.crosses(b) for a in sides[0] for b in sides[1])
        assert rings_cross(first, second) == expected, (first, second)


def test_the_area_of_an_outline_by_its_corners() -> None:
    """Of one that does not lie at the origin, with a corner that points inward."""
    ring = ((2.0, 1.0), (8.0, 2.0), (7.0, 6.0), (5.0, 3.0), (3.0, 7.0))
    shapely = pytest.importorskip("shapely")
    assert signed_area(ring) == pytest.approx(shapely.Polygon(ring).area)


def test_a_triangle_cannot_cross_itself() -> None:
    """Not even one whose corners lie in line: it encloses nothing, which is told otherwise."""
    assert crossing_sides(((0, 0), (4, 0), (2, 0))) is None


def test_the_numbers_of_two_sides_count_from_one() -> None:
    """The last side and the first are neighbours; the second and the last are not."""
    assert crossing_sides(((0, 0), (4, 0), (4, 4), (2, -2))) == (1, 3)
    assert crossing_sides(((0, 0), (2, 0), (2, 2), (0, 2), (4, 0))) == (1, 5)
    assert crossing_sides(((4, 4), (6, 0), (2, 0), (6, 2), (0, 1))) == (1, 3)
