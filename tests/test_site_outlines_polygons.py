"""Outlines that cross themselves or lie on each other."""

from turfplan.site.outlines.polygons import crossing_sides, rings_cross, signed_area

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
