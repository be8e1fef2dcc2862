"""The broad form of a lawn: its windows, and a fit that hollows do not pull."""

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.broad import _robust, _windows
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
