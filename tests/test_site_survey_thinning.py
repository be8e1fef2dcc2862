"""Very many points become means over square bins, wherever the lawn lies."""

import numpy as np
import pytest

from turfplan.site.survey.thinning import MOST_NODES, NODES_ACROSS_SPAN, thinned

pytest.importorskip("scipy")


def dense(length: float, width: float, step: float) -> np.ndarray:
    """A grid of points."""
    x, y = np.meshgrid(np.arange(0, length, step), np.arange(0, width, step))
    return np.column_stack([x.ravel(), y.ravel()])


@pytest.mark.full
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


def even(length: float, width: float, across: int, up: int) -> np.ndarray:
    """A grid of points from corner to corner."""
    x, y = np.meshgrid(np.linspace(0, length, across), np.linspace(0, width, up))
    return np.column_stack([x.ravel(), y.ravel()])


@pytest.mark.parametrize(
    ("xy", "kept"),
    [
        (even(20, 20, 24, 24), True),
        (even(20, 20, 25, 25), False),
        (even(5, 5, 14, 14), True),
        (even(5, 5, 20, 10), False),
        (even(30, 10, 22, 20), True),
        (even(30, 10, 23, 20), False),
    ],
)
def test_points_are_thinned_from_one_and_a_half_to_a_node_on(xy: np.ndarray, *, kept: bool) -> None:
    """A span of seven metres has nodes a metre apart; less than two hundred points are few."""
    assert (thinned(xy, 7.0).xy_m is xy) == kept


def test_a_large_lawn_has_three_thousand_nodes() -> None:
    """Three hectares: 4,500 points stay, one more is thinned."""
    random = np.random.default_rng(3)
    corners = np.array([(0.0, 0.0), (300.0, 100.0)])
    for count, kept in ((4499, True), (4501, False)):
        inner = random.uniform((0, 0), (300, 100), (count - 2, 2))
        xy = np.vstack([corners, inner])
        assert (thinned(xy, 7.0).xy_m is xy) == kept


def test_each_point_belongs_to_the_square_it_lies_in() -> None:
    """By hand: five columns and four rows of a metre, each square with its own mean."""
    random = np.random.default_rng(9)
    xy = np.vstack([[(10.0, 20.0), (15.0, 24.0)], random.uniform((10, 20), (15, 24), (400, 2))])
    nodes = thinned(xy, 7.0)
    squares = np.floor(xy - xy.min(axis=0)).astype(int)
    means = [
        xy[(squares == place).all(axis=1)].mean(axis=0) for place in np.unique(squares, axis=0)
    ]
    assert nodes.xy_m == pytest.approx(np.array(means))
