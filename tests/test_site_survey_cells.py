"""The frame that a lawn is cut into cells in."""

import math

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.cells import cells_of, least_box, rotated

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
