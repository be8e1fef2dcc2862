"""Measured features as lines, and how places lie to them."""

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.feature_lines import Line, lines_of, nearest
from turfplan.site.survey.records import SurveyPoint

pytest.importorskip("scipy")
CELLS = cells_of((rectangle(10, 6),), (), 60, (4.9, 3.0))


def test_points_of_a_feature_that_follow_each_other_are_one_line() -> None:
    """Ground between them begins another; a height that nobody measured is nought."""
    points = (
        SurveyPoint(0.0, 0.0, 12.0, "a", "wall"),
        SurveyPoint(4.0, 0.0, 0.0, "b", "wall"),
        SurveyPoint(5.0, 3.0, 7.0, "c"),
        SurveyPoint(0.0, 6.0, None, "d", "wall"),
        SurveyPoint(5.0, 5.0, 3.0, "e", "swale"),
    )
    first, second = lines_of(points, "wall", CELLS)
    assert first.height_mm.tolist() == [12.0, 0.0] and second.height_mm.tolist() == [0.0]
    assert CELLS.to_survey(first.xy_m) == pytest.approx(np.array([(0.0, 0.0), (4.0, 0.0)]))
    assert [line.height_mm.tolist() for line in lines_of(points, "swale", CELLS)] == [[3.0]]
    assert lines_of(points, "trunk", CELLS) == []


def test_a_place_has_its_foot_on_the_nearest_side() -> None:
    """By hand: along a corner of 4 m and 3 m, with heights 0, 40 and 100."""
    corner = Line(np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)]), np.array([0.0, 40.0, 100.0]))
    places = np.array([(1.0, 2.0), (-3.0, -4.0), (4.5, 1.5), (5.0, 7.0)])
    away, along, height = nearest(corner, places)
    assert away == pytest.approx([2.0, 5.0, 0.5, np.hypot(1.0, 4.0)])
    assert along == pytest.approx([1.0, 0.0, 5.5, 7.0])
    assert height == pytest.approx([10.0, 0.0, 70.0, 100.0])
    alone = Line(np.array([(1.0, 1.0)]), np.array([5.0]))
    assert [part.tolist() for part in nearest(alone, np.array([(1.0, 3.0)]))] == [
        [2.0],
        [0.0],
        [5.0],
    ]


def test_a_slanted_line_away_from_the_origin_has_its_feet_too() -> None:
    """Three, four, five: halfway along the first side and a metre off, then two metres along the
    second and as far off.
    """
    bent = Line(np.array([(1.0, 1.0), (4.0, 5.0), (8.0, 2.0)]), np.array([10.0, 20.0, 45.0]))
    away, along, height = nearest(bent, np.array([(1.7, 3.6), (6.8, 5.4), (8.0, 1.0)]))
    assert away == pytest.approx([1.0, 2.0, 1.0])
    assert along == pytest.approx([2.5, 7.0, 10.0])
    assert height == pytest.approx([15.0, 30.0, 45.0])
    twice = Line(np.array([(1.0, 1.0), (1.0, 1.0), (1.0, 4.0)]), np.array([5.0, 5.0, 8.0]))
    assert [float(part[0]) for part in nearest(twice, np.array([(3.0, 2.0)]))] == [2.0, 1.0, 6.0]
