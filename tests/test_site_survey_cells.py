"""The frame that a lawn is cut into cells in."""

import math
from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import rectangle
from told_errors import refused
from turfplan.errors import TurfplanError
from turfplan.site.outlines.polygons import Ring
from turfplan.site.survey.cells import cells_of, check_rings, hull, least_box, rotated

pytest.importorskip("scipy")


def test_the_long_side_of_a_tall_lawn_points_up() -> None:
    """By a quarter turn, so that its first row begins at the right below."""
    angle, centre, length, width = least_box(rectangle(4, 10))
    assert (angle, length, width) == pytest.approx((math.pi / 2, 10.0, 4.0))
    assert centre == pytest.approx((2.0, 5.0))
    cells = cells_of((rectangle(4, 10),), (), 40, centre)
    assert cells.to_survey(cells.centroid_m[:1])[0] == pytest.approx([3.5, 0.5])


def test_the_end_where_the_points_lie_comes_last() -> None:
    """A frame turned by half a circle cuts the same cells."""
    cells = cells_of((rectangle(4, 10),), (), 40, (2.0, 1.0))
    assert cells.to_survey(cells.centroid_m[:1])[0] == pytest.approx([0.5, 9.5])
    assert cells.area_m2 == pytest.approx(40.0)


def test_cells_at_the_edge_hold_the_part_that_is_lawn() -> None:
    """A triangle is half of its box, and so are its cells together."""
    cells = cells_of((((0.0, 0.0), (8.0, 0.0), (0.0, 6.0)),), (), 60, (2.0, 2.0))
    assert cells.area_m2 == pytest.approx(24.0)
    assert np.all(cells.share <= 1.0) and cells.share.min() < 0.9


@pytest.mark.parametrize("angle", [0.0, 0.4, 1.2, -0.7, 2.5])
def test_the_frame_turns_places_there_and_back(angle: float) -> None:
    """The long side of a turned lawn lies along it, its corners half of its sides from the middle;
    back they are where they were.
    """
    ring = tuple(rotated(point, angle) for point in rectangle(10, 4))
    middle = rotated((5.0, 2.0), angle)
    cells = cells_of((ring,), (), 40, rotated((4.9, 2.0), angle))
    corners = np.array(ring)
    framed = cells.to_frame(corners)
    assert np.abs(framed) == pytest.approx(np.tile([5.0, 2.0], (4, 1)))
    assert len({(round(x), round(y)) for x, y in framed}) == 4
    assert cells.to_survey(framed) == pytest.approx(corners)
    assert cells.to_frame(np.array([middle]))[0] == pytest.approx([0.0, 0.0], abs=1e-9)


@pytest.mark.parametrize("wanted", [40, 60, 160, 1000])
def test_cells_are_squares_as_many_as_are_wanted(wanted: int) -> None:
    """As nearly as the sides allow; a whole cell has its lawn in its middle."""
    cells = cells_of((rectangle(10, 4),), (), wanted, (4.9, 2.0))
    assert len(cells.share) == cells.rows * cells.columns == pytest.approx(wanted, rel=0.1)
    assert cells.width_m == pytest.approx(cells.depth_m, rel=0.15)
    assert cells.columns * cells.width_m == pytest.approx(10.0)
    assert cells.rows * cells.depth_m == pytest.approx(4.0)
    assert cells.middle_m == pytest.approx(cells.centroid_m)


def test_a_point_is_turned_against_the_clock() -> None:
    """A quarter turn takes east to north and north to west; three, four, five tell the rest."""
    assert rotated((1.0, 0.0), math.pi / 2) == pytest.approx((0.0, 1.0))
    assert rotated((0.0, 1.0), math.pi / 2) == pytest.approx((-1.0, 0.0))
    assert rotated((10.0, 5.0), math.atan2(3, 4)) == pytest.approx((5.0, 10.0))


def test_the_frame_is_turned_about_its_middle() -> None:
    """By hand: three, four, five."""
    cells = replace(CELLS, angle=math.atan2(3, 4), centre_m=(2.0, 1.0))
    assert cells.to_frame(np.array([(12.0, 6.0)]))[0] == pytest.approx([11.0, -2.0])
    assert cells.to_survey(np.array([(11.0, -2.0)]))[0] == pytest.approx([12.0, 6.0])


CELLS = cells_of((((0.0, 0.0), (8.0, 0.0), (0.0, 6.0)),), (), 24, (2.0, 2.0))


def test_each_cell_has_its_place_its_middle_and_its_lawn() -> None:
    """A triangle along its two shorter sides: the shares of whole cells are one, and each lies
    where its row and column say.
    """
    cells = CELLS
    assert (cells.columns, cells.rows) == (8, 6)
    assert (cells.width_m, cells.depth_m) == pytest.approx((1.0, 1.0))
    assert cells.middle_m[:, 0] == pytest.approx(-4.0 + (cells.column + 0.5))
    assert cells.middle_m[:, 1] == pytest.approx(-3.0 + (cells.row + 0.5))
    assert cells.each_m2.sum() == pytest.approx(24.0) == cells.area_m2
    assert cells.each_m2 == pytest.approx(cells.share)
    whole = cells.share == 1.0
    assert whole.any() and cells.middle_m[whole] == pytest.approx(cells.centroid_m[whole])
    assert np.abs(cells.middle_m - cells.centroid_m)[~whole].max() > 0.05
    assert cells.share.min() > 0


def test_holes_are_no_part_of_the_lawn() -> None:
    """Cells inside one are left out, those at its edge hold the rest."""
    bed = ((2.0, 1.0), (5.0, 1.0), (5.0, 2.5), (2.0, 2.5))
    cells = cells_of((rectangle(10, 4),), (bed,), 36, (6.0, 2.0))
    assert cells.area_m2 == pytest.approx(40 - 4.5)
    x, y = cells.to_survey(cells.middle_m).T
    assert not ((x > 2) & (x < 5) & (y > 1) & (y < 2)).any()
    half = (x > 2) & (x < 5) & (y > 2) & (y < 3)
    assert half.sum() == 3 and cells.share[half] == pytest.approx([0.5] * 3)
    with refused("no lawn"):
        cells_of((rectangle(10, 4),), (rectangle(10, 4),), 40, (5.0, 2.0))


def test_two_outlines_are_cut_in_one_frame() -> None:
    """The box is around both; nothing lies between them."""
    right = tuple((x + 7.0, y) for x, y in rectangle(3, 4))
    cells = cells_of((rectangle(4, 4), right), (), 28, (6.0, 2.0))
    assert cells.area_m2 == pytest.approx(28.0)
    x, _ = cells.to_survey(cells.centroid_m).T
    assert not ((x > 4) & (x < 7)).any()
    assert cells.columns * cells.width_m == pytest.approx(10.0)


@pytest.mark.parametrize("angle", [0.0, 0.3, 1.2, 2.0])
def test_the_least_box_lies_along_the_lawn(angle: float) -> None:
    """Of a lawn of five corners: its length, width and middle turn with it."""
    corners = [(0.0, 0.0), (9.0, 0.0), (9.0, 3.0), (5.0, 4.0), (0.0, 4.0)]
    turn, centre, length, width = least_box([rotated(p, angle) for p in corners])
    assert (length, width) == pytest.approx((9.0, 4.0))
    assert centre == pytest.approx(rotated((4.5, 2.0), angle))
    assert math.sin(turn - angle) == pytest.approx(0.0, abs=1e-9)


def test_a_hull_runs_against_the_clock_from_the_left() -> None:
    """Each corner once; a point inside is none."""
    places = np.array([(3.0, 3.0), (0.0, 1.0), (4.0, 0.0), (2.0, 1.5), (1.0, 4.0)])
    assert hull(places) == ((0.0, 1.0), (4.0, 0.0), (3.0, 3.0), (1.0, 4.0))


BOW = ((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0))
FLAT = ((0.0, 0.0), (4.0, 0.0), (8.0, 0.0))


@pytest.mark.parametrize(
    ("outline", "holes", "words"),
    [
        ((rectangle(9, 9), BOW), (), "outline 2: crosses itself; got (.*)1(.*)3"),
        ((rectangle(9, 9),), (rectangle(1, 1), BOW), "hole 2: crosses itself"),
        ((FLAT[:2],), (), "outline 1: (.*)2 "),
        (((*FLAT[:2], FLAT[0]),), (), "outline 1: (.*)2 "),
    ],
)
def test_outlines_that_enclose_nothing_are_told_by_number(
    outline: tuple[Ring, ...], holes: tuple[Ring, ...], words: str
) -> None:
    """Holes too, with the sides that cross or the corners there are."""
    with refused(words):
        check_rings(outline, holes)


def test_sound_outlines_pass_and_all_faults_are_told_at_once() -> None:
    """A triangle is enough."""
    check_rings((rectangle(9, 9), ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), (rectangle(1, 1),))
    check_rings((), ())
    with pytest.raises(TurfplanError) as caught:
        check_rings((BOW, FLAT), (BOW,))
    assert len(caught.value.problems) == 3
