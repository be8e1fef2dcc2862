"""The lawn's own fall: which points speak for a place, and what is fitted to them."""

import numpy as np
import pytest

from lawn_surveys import slope
from turfplan.site.survey.target import (
    _medians,
    _normal,
    _reaches,
    neighbours,
    own_fall_matrix,
)

pytest.importorskip("scipy")
RANDOM = np.random.default_rng(7)
POINTS = RANDOM.uniform(0, 12, (60, 2))
NODES = RANDOM.uniform(0, 12, (9, 2))


@pytest.mark.parametrize("span_m", [0.5, 3.0, 6.0])
def test_points_near_a_place_speak_for_it_by_their_distance(span_m: float) -> None:
    """All within the span, and at least a quarter further than the twelfth: whole up to eight
    tenths of that, then falling to nothing at its end.
    """
    near = neighbours(NODES, POINTS, span_m)
    assert near.starts.tolist() == np.searchsorted(near.node, range(len(NODES))).tolist()
    for number, node in enumerate(NODES):
        away = np.linalg.norm(POINTS - node, axis=1)
        reach = max(span_m, 1.25 * float(np.sort(away)[11]))
        wanted = np.nonzero(away <= reach)[0]
        here = near.node == number
        order = np.argsort(near.point[here])
        assert near.point[here][order].tolist() == wanted.tolist()
        assert near.offset_m[here][order] == pytest.approx(POINTS[wanted] - node)
        fade = np.clip((away[wanted] / reach - 0.8) / 0.2, 0, None)
        assert near.weight[here][order] == pytest.approx((1 - fade**2) ** 2)
        assert near.nearest[number] == np.argmin(away)


@pytest.mark.parametrize(("east", "north"), [(0.0, 0.0), (2.0, 0.0), (0.0, -3.0), (1.5, 2.5)])
def test_a_plane_is_its_own_fall_whatever_lies_in_it(east: float, north: float) -> None:
    """A pit of one point and a hollow of four, in a lawn of 121: the fall beside and in them is
    that of the plane.
    """
    side = np.arange(0.0, 11.0)
    x, y = (a.ravel() for a in np.meshgrid(side, side))
    xy, plane = np.column_stack([x, y]), np.asarray(slope(east, north)(x, y), dtype=np.float64)
    height = plane.copy()
    height[(x == 3) & (y == 3)] -= 80.0
    height[(x >= 7) & (x <= 8) & (y >= 6) & (y <= 7)] -= 40.0
    nodes = np.array([(3.0, 3.0), (7.5, 6.5), (0.0, 0.0), (10.0, 2.5), (5.2, 8.1)])
    wanted = slope(east, north)(nodes[:, 0], nodes[:, 1])
    found = own_fall_matrix(nodes, xy, height, 5.0, 1.0) @ height
    assert found == pytest.approx(np.broadcast_to(wanted, 5), abs=0.05)


@pytest.mark.parametrize("along", [(1.0, 0.0), (0.0, 1.0), (0.6, 0.8)])
def test_points_in_one_line_leave_no_fall_across_it(along: tuple[float, float]) -> None:
    """On the line the fall is that of the points; beside it the ground is as high as there."""
    way = np.linspace(0, 10, 21)
    xy = way[:, None] * np.array(along)
    height = 20.0 * way
    across = np.array([-along[1], along[0]])
    nodes = np.array([5.0 * np.array(along), 5.0 * np.array(along) + 0.5 * across])
    found = own_fall_matrix(nodes, xy, height, 4.0, 1.0) @ height
    assert found == pytest.approx([100.0, 100.0], abs=0.1)


def test_a_fall_that_nothing_tells_is_held_by_a_hair_to_none() -> None:
    """However the points lie, what is added to the sums of squares is positive and tiny."""
    for sxx, syy in ((4.0, 0.0), (0.0, 4.0), (1.0, 3.0), (0.0, 0.0)):
        terms = (np.array([v]) for v in (2.0, 0.0, 0.0, sxx, 0.0, syy))
        normal = _normal(*terms)[0]
        added = normal[1, 1] - sxx, normal[2, 2] - syy
        assert all(0 <= hair <= 1e-8 for hair in added)
        assert np.linalg.det(normal) > 0 or sxx == syy == 0
        assert normal[1, 1] > 0 and normal[2, 2] > 0


def test_medians_are_of_each_place_alone() -> None:
    """Of what is used: the middle one, or the mean of the middle two."""
    near = neighbours(NODES, POINTS, 3.0)
    values = RANDOM.normal(size=len(near.node))
    for use in (np.ones(len(values), dtype=bool), near.weight > 0.5):
        wanted = [np.median(values[(near.node == n) & use]) for n in range(len(NODES))]
        assert _medians(near, values, use) == pytest.approx(wanted)


@pytest.mark.parametrize(
    ("most", "reaches"),
    [
        (0, []),
        (1, [1]),
        (8, list(range(1, 9))),
        (15, list(range(1, 16))),
        (19, [*range(1, 17), 18, 19]),
        (40, [*range(1, 17), *range(18, 33, 2), 36, 40]),
        (70, [*range(1, 17), *range(18, 33, 2), *range(36, 65, 4), 70]),
    ],
)
def test_a_straightedge_is_looked_along_ever_more_coarsely(most: int, reaches: list[int]) -> None:
    """Each cell up to sixteen, then each second, each fourth; its own end always."""
    assert _reaches(most) == reaches
