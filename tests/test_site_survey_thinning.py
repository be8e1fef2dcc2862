"""Very many points become means over square bins, wherever the lawn lies."""

import numpy as np
import pytest

from turfplan.site.survey.thinning import MOST_NODES, NODES_ACROSS_SPAN, thinned

pytest.importorskip("scipy")


def dense(length: float, width: float, step: float) -> np.ndarray:
    """A grid of points."""
    x, y = np.meshgrid(np.arange(0, length, step), np.arange(0, width, step))
    return np.column_stack([x.ravel(), y.ravel()])


@pytest.mark.parametrize("shift", [(0.0, 0.0), (500.0, -300.0), (-40.0, 7.0)])
@pytest.mark.parametrize(("length", "width", "step"), [(20.0, 10.0, 0.2), (300.0, 60.0, 1.0)])
def test_dense_points_become_means_of_their_bins(
    length: float, width: float, step: float, shift: tuple[float, float]
) -> None:
    """A seventh of the span wide, or wider on a large lawn, so that there are no more than three
    thousand; each mean lies among its points.
    """
    xy, span_m = dense(length, width, step) + np.array(shift), 5.0
    area = np.prod(xy.max(axis=0) - xy.min(axis=0))
    side = max(span_m / NODES_ACROSS_SPAN, np.sqrt(area / MOST_NODES))
    nodes = thinned(xy, span_m)
    bins = {tuple(b) for b in np.floor((xy - xy.min(axis=0)) / side).astype(int)}
    assert len(nodes.xy_m) == len(bins) < len(xy)
    assert np.asarray(nodes.matrix.sum(axis=1)).ravel() == pytest.approx(np.ones(len(bins)))
    assert nodes.matrix @ xy == pytest.approx(nodes.xy_m)
    assert (nodes.matrix > 0).sum(axis=0).tolist() == [[1] * len(xy)]
    for row in range(0, len(bins), 97):
        points = xy[nodes.matrix[[row]].indices]
        assert np.ptp(points, axis=0).max() <= side * (1 + 1e-9)


@pytest.mark.parametrize("shift", [0.0, 900.0])
def test_few_points_or_far_ones_stay(shift: float) -> None:
    """Less than two hundred, or a metre apart."""
    for xy in (dense(5.0, 5.0, 0.4) + shift, dense(30.0, 20.0, 1.0) + shift):
        assert thinned(xy, 5.0).xy_m is xy
