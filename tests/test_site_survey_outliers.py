"""Readings that stand apart are named with what their neighbours say."""

from dataclasses import replace

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


def flat(off: dict[int, float]) -> tuple[SurveyPoint, ...]:
    """A level lawn of seven by five metres, with some readings off by so much."""
    points = grid(7, 5, 8, 6, lambda x, y: 0 * x)
    return tuple(SurveyPoint(p.x_m, p.y_m, off.get(n, 0.0), p.name) for n, p in enumerate(points))


@pytest.mark.parametrize(("off", "named"), [(12.1, True), (11.9, False), (-12.1, True)])
def test_a_reading_is_named_from_six_of_its_errors_on(off: float, *, named: bool) -> None:
    """Of two millimetres, where its neighbours lie in a plane."""
    settings = replace(EXACT, instrument_error_mm=2.0)
    found = outliers_of(ground_of(flat({19: off}), settings), settings)
    assert [o.name for o in found] == (["P20"] if named else [])


@pytest.mark.parametrize(("off", "named"), [(3.1, True), (2.9, False)])
def test_a_reading_is_named_from_three_spreads_of_its_neighbours_on(
    off: float, *, named: bool
) -> None:
    """Ground that goes up and down by a millimetre from point to point."""
    rough = {n: (-1.0) ** (n // 8 + n % 8) for n in range(48)}
    found = outliers_of(ground_of(flat({**rough, 27: off}), EXACT), EXACT)
    assert [o.name for o in found] == (["P28"] if named else [])


def test_five_neighbours_are_enough() -> None:
    """A ring of five around one that is off; a ring of four is not."""
    for count, named in ((5, True), (4, False)):
        turns = [2 * np.pi * n / count for n in range(count)]
        ring = tuple(SurveyPoint(np.cos(t), np.sin(t), 0.0, "r") for t in turns)
        settings = replace(EXACT, instrument_error_mm=1.0)
        points = (*ring, SurveyPoint(0.0, 0.0, 90.0, "m"))
        found = outliers_of(ground_of(points, settings), settings)
        assert [o.name for o in found if o.name == "m"] == (["m"] if named else [])
