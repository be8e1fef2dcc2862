"""The frame that a lawn is cut into cells in."""

import math

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.cells import cells_of, least_box

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
