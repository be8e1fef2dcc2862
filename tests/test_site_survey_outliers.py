"""Readings that stand apart are named with what their neighbours say."""

import numpy as np
import pytest

from lawn_surveys import EXACT, grid, slope
from turfplan.site.survey.ground import ground_of
from turfplan.site.survey.outliers import outliers_of
from turfplan.site.survey.records import SurveyPoint

pytest.importorskip("scipy")


def spiked(*spikes: tuple[int, float]) -> tuple[SurveyPoint, ...]:
    """A crowned lawn of 7 by 5 metres, with some readings off by so much."""
    points = list(grid(7, 5, 8, 6, lambda x, y: slope(1.0)(x, y) - 0.3 * (y - 2.4) ** 2))
    for number, off in spikes:
        p = points[number]
        height = (p.height_mm or 0.0) + off
        points[number] = SurveyPoint(p.x_m, p.y_m, height, p.name)
    return tuple(points)


@pytest.mark.parametrize("off", [200.0, -150.0])
def test_one_reading_far_off_is_named_with_the_plane_of_its_eight_neighbours(off: float) -> None:
    """By hand: the plane of least squares through the eight around it, at its place."""
    points = spiked((19, off))
    (found,) = outliers_of(ground_of(points, EXACT), EXACT)
    slip = points[19]
    around = sorted(points, key=lambda p: np.hypot(p.x_m - slip.x_m, p.y_m - slip.y_m))[1:9]
    basis = np.array([(1.0, p.x_m - slip.x_m, p.y_m - slip.y_m) for p in around])
    plane = np.linalg.lstsq(basis, np.array([p.height_mm for p in around]), rcond=None)[0]
    assert (found.name, found.height_mm) == (slip.name, slip.height_mm)
    assert found.expected_mm == pytest.approx(plane[0], abs=1e-6)


def test_a_lawn_as_it_lies_has_none() -> None:
    """Nor has one of so few points that none has five around it."""
    assert outliers_of(ground_of(spiked(), EXACT), EXACT) == ()
    few = tuple(spiked((0, 500.0))[n] for n in (0, 1, 2, 8, 9))
    assert outliers_of(ground_of(few, EXACT), EXACT) == ()
