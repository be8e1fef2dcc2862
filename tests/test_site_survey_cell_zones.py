"""Which zone each cell of a lawn belongs to."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from turfplan.site.survey.cell_zones import REST, zone_of_cells
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.records import SurveyPoint, ZoneOutline

pytest.importorskip("scipy")
CELLS = cells_of((rectangle(6, 4),), (), 24, (2.9, 2.0))
X, Y = CELLS.to_survey(CELLS.centroid_m).T


def test_without_zones_all_is_the_lawn() -> None:
    """Points that name none do not matter."""
    names, member = zone_of_cells(CELLS, (SurveyPoint(1.0, 1.0, 5.0),), EXACT)
    assert names == (REST,) and member.tolist() == [0] * 24


def test_drawn_zones_hold_what_lies_in_them_the_first_before_later_ones() -> None:
    """What no outline holds is the rest; a cell whose middle lies on a side belongs to its zone."""
    left = ZoneOutline("left", rectangle(2, 4))
    wide = ZoneOutline("wide", ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0)))
    names, member = zone_of_cells(CELLS, (), replace(EXACT, zones=(left, wide)))
    assert names == ("left", "wide", REST)
    wanted = np.where(X < 2, 0, np.where((X < 4) & (Y < 2), 1, 2))
    assert member.tolist() == wanted.tolist()
    swapped = zone_of_cells(CELLS, (), replace(EXACT, zones=(wide, left)))
    assert swapped[1].tolist() == np.where((X < 4) & (Y < 2), 0, np.where(X < 2, 1, 2)).tolist()
    half = ZoneOutline("half", rectangle(2.5, 4))
    _, on_side = zone_of_cells(CELLS, (), replace(EXACT, zones=(half,)))
    assert on_side.tolist() == np.where(X < 3, 0, 1).tolist()


def test_a_zone_of_two_outlines_is_one() -> None:
    """By its name."""
    ends = [ZoneOutline("ends", tuple((x + dx, y) for x, y in rectangle(1, 4))) for dx in (0, 5)]
    names, member = zone_of_cells(CELLS, (), replace(EXACT, zones=tuple(ends)))
    assert names == ("ends", REST)
    assert member.tolist() == np.where((X < 1) | (X > 5), 0, 1).tolist()


def test_zones_named_by_points_hold_what_is_nearest_to_them() -> None:
    """In the order of the points, those without a name aside."""
    points = (
        SurveyPoint(2.0, 2.0, 0.0),
        SurveyPoint(6.0, 2.0, 0.0, zone="sun"),
        SurveyPoint(0.0, 2.0, 0.0, zone="shade"),
        SurveyPoint(6.0, 0.0, 0.0, zone="sun"),
    )
    names, member = zone_of_cells(CELLS, points, EXACT)
    assert names == ("sun", "shade")
    assert member.tolist() == np.where(X > 3, 0, 1).tolist()
