"""The broad form of a lawn: its windows, and a fit that hollows do not pull."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, rectangle
from turfplan.site.survey.broad import _robust, _windows, broad_fall
from turfplan.site.survey.cells import cells_of

pytest.importorskip("scipy")


@pytest.mark.parametrize(
    ("length", "stretch_m", "count"),
    [(10.0, 16.0, 1), (16.0, 16.0, 1), (20.0, 16.0, 2), (24.0, 16.0, 2), (60.0, 16.0, 7)],
)
def test_a_long_lawn_has_windows_that_overlap_by_half(
    length: float, stretch_m: float, count: int
) -> None:
    """From one end to the other, each as long as a stretch, as few as half an overlap allows; at
    each place their shares make one.
    """
    cells = cells_of((rectangle(length, 9.0),), (), round(length * 9), (length / 2 - 0.1, 4.5))
    windows = _windows(cells, stretch_m)
    half = min(stretch_m, length) / 2
    assert len(windows) == count and {window.half_m for window in windows} == {half}
    middles = [window.middle_m for window in windows]
    assert middles[0] - half == pytest.approx(-length / 2)
    assert middles[-1] + half == pytest.approx(length / 2)
    steps = np.diff(middles)
    assert (steps <= half + 1e-6).all() and steps == pytest.approx(np.full(count - 1, steps[:1]))
    places = np.column_stack([np.linspace(-length / 2, length / 2, 41), np.zeros(41)])
    assert sum(window.share(places) for window in windows) == pytest.approx(np.ones(41))


def test_a_form_is_told_by_most_of_its_ground() -> None:
    """A quadratic of 121 points, a fifth of which lie in a hollow, is met to a tenth of a
    millimetre.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(-1, 1, 11), np.linspace(-1, 1, 11)))
    basis = np.column_stack([np.ones(len(x)), x, y, x * x, x * y, y * y])
    terms = np.array([100.0, 20.0, -5.0, 15.0, 8.0, -12.0])
    height = basis @ terms
    height[(np.abs(x) < 0.45) & (np.abs(y - 0.2) < 0.45)] -= 60.0
    assert 0.1 < (height < basis @ terms - 1).mean() < 0.25
    found = _robust(basis, height, np.ones(len(x)), 1.0) @ height
    assert found == pytest.approx(terms, abs=0.1)


@pytest.mark.parametrize(("deep_mm", "is_hollow"), [(11.0, False), (40.0, True)])
def test_what_is_filled_stands_out_of_the_spread_fourfold(
    deep_mm: float, *, is_hollow: bool
) -> None:
    """Ground that is two millimetres below its form on one side and above it on the other spreads
    by three: eleven may be a hollow, which the form is not fitted to, and is filled by none; forty
    are one.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(0, 26, 14), np.linspace(0, 16, 9)))
    xy = np.column_stack([x, y])
    cells = cells_of((rectangle(26.0, 16.0),), (), 416, (12.9, 8.0))
    places = cells.to_survey(cells.centroid_m)
    low = np.where(places[:, 0] < 13, 2.0, -2.0)
    low[np.hypot(places[:, 0] - 19.5, places[:, 1] - 8.0) < 4] += deep_mm
    settings = replace(BOOK_LIKE, instrument_error_mm=1.0)
    found = broad_fall(cells.to_frame(xy), np.zeros(len(xy)), cells, -low, settings)
    assert found is not None
    assert found.hollow.any() == is_hollow
    away = np.hypot(x - 19.5, y - 8.0)
    assert not found.hollow[away > 8].any()
