"""The lawn's own fall: which points speak for a place, and what is fitted to them."""

import math

import numpy as np
import pytest
from scipy.sparse import csr_matrix

from lawn_surveys import rectangle, slope
from turfplan.site.survey.cells import Cells, cells_of
from turfplan.site.survey.target import (
    _fit_matrix,
    _medians,
    _moved,
    _normal,
    _reaches,
    _residuals,
    _robust_weights,
    _solve,
    neighbours,
    own_fall_matrix,
    plane_of,
    straightedge,
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


def test_a_plane_of_least_squares_is_weighted_by_area() -> None:
    """By numpy, far from the origin; ground without area has no say."""
    random = np.random.default_rng(5)
    places = random.uniform(0, 10, (30, 2)) + np.array([100.0, -40.0])
    area, height = random.uniform(0.2, 2.0, 30), random.normal(0, 5, 12)
    area[:5] = 0.0
    read = csr_matrix(random.dirichlet(np.ones(12), 30))
    basis, terms = plane_of(read, places, area)
    assert basis.shape == (30, 3) and terms.shape == (3, 12)
    raw = np.column_stack([np.ones(30), places])
    root = np.sqrt(area)
    wanted = np.linalg.lstsq(raw * root[:, None], (read @ height) * root, rcond=None)[0]
    assert basis @ (terms @ height) == pytest.approx(raw @ wanted)


def weighted_plane(offset: np.ndarray, weight: np.ndarray, value: np.ndarray) -> np.ndarray:
    """Height and falls at the origin, by numpy."""
    basis, root = np.column_stack([np.ones(len(value)), offset]), np.sqrt(weight)
    found: np.ndarray = np.linalg.lstsq(basis * root[:, None], value * root, rcond=None)[0]
    return found


def test_a_node_has_the_plane_of_its_own_points() -> None:
    """Fitted with any weights, and read with what is left over at each point."""
    near = neighbours(NODES, POINTS, 3.0)
    value, weight = RANDOM.normal(0, 9, len(near.node)), RANDOM.uniform(0.1, 2, len(near.node))
    found = _solve(near, weight, value)
    rest = _residuals(near, found, value)
    matrix = _fit_matrix(near, weight, len(NODES), len(POINTS))
    height = RANDOM.normal(0, 9, len(POINTS))
    for number in range(len(NODES)):
        here = near.node == number
        wanted = weighted_plane(near.offset_m[here], weight[here], value[here])
        assert found[number] == pytest.approx(wanted, rel=1e-6)
        fitted = wanted[0] + near.offset_m[here] @ wanted[1:]
        assert rest[here] == pytest.approx(value[here] - fitted, rel=1e-6, abs=1e-6)
        alone = weighted_plane(near.offset_m[here], weight[here], height[near.point[here]])
        assert (matrix @ height)[number] == pytest.approx(alone[0], rel=1e-6)


@pytest.mark.parametrize("floor_mm", [0.0, 1.0, 8.0, 60.0])
def test_the_weights_of_a_robust_fit_end_where_its_steps_lead(floor_mm: float) -> None:
    """Twelve steps by least absolute deviations, four by the biweight, whose scale is taken at the
    first and the third: as reckoned node by node otherwise.
    """
    height = 3.0 * POINTS[:, 0] + RANDOM.normal(0, 2, len(POINTS))
    height[::9] -= 50.0
    near = neighbours(NODES, POINTS, 5.0)
    found = _robust_weights(near, height, floor_mm)
    tiny = max(0.05 * floor_mm, 1e-4)
    for number in range(len(NODES)):
        here = near.node == number
        offset, base = near.offset_m[here], near.weight[here]
        value = height[near.point[here]] - height[near.nearest[number]]

        def rest_of(
            weight: np.ndarray, offset: np.ndarray = offset, value: np.ndarray = value
        ) -> np.ndarray:
            plane = weighted_plane(offset, weight, value)
            return np.asarray(value - plane[0] - offset @ plane[1:])

        weight, scale = base, 1.0
        for _ in range(12):
            weight = base / np.maximum(np.abs(rest_of(weight)), tiny)
        for step in range(4):
            rest = rest_of(weight)
            if step in (0, 2):
                scale = max(1.4826 * float(np.median(np.abs(rest[base > 0.5]))), floor_mm, tiny)
            weight = base * np.clip(1 - (rest / (4.685 * scale)) ** 2, 0, None) ** 2
        assert found[here] == pytest.approx(weight, rel=1e-3, abs=1e-5)


def test_a_few_points_speak_for_every_place() -> None:
    """Where there are less than twelve, all of them."""
    near = neighbours(NODES[:2], POINTS[:5], 0.1)
    assert [int((near.node == n).sum()) for n in (0, 1)] == [5, 5]
    assert near.starts.tolist() == [0, 5]


def chord_surface(cells: Cells, height: np.ndarray, length_m: float) -> np.ndarray:
    """At each cell the highest chord between two cells in line with it, by trying all pairs."""
    spot = {(r, c): z for r, c, z in zip(cells.row, cells.column, height, strict=True)}
    best = dict(spot)
    for (r0, c0), z0 in spot.items():
        for (r1, c1), z1 in spot.items():
            up, right = r1 - r0, c1 - c0
            parts = math.gcd(up, right)
            if parts < 2 or max(abs(up), abs(right)) // parts > 2:
                continue
            if math.hypot(right * cells.width_m, up * cells.depth_m) > length_m + 1e-6:
                continue
            for n in range(1, parts):
                at = (r0 + up // parts * n, c0 + right // parts * n)
                if at in best:
                    best[at] = max(best[at], z0 + (z1 - z0) * n / parts)
    return np.array([best[r, c] for r, c in zip(cells.row, cells.column, strict=True)])


@pytest.mark.parametrize(
    ("length_m", "seed"), [(1.4, 1), (2.0, 2), (2.9, 3), (5.0, 4), (5.0, 5), (5.0, 6)]
)
def test_a_straightedge_leaves_the_highest_chords(length_m: float, seed: int) -> None:
    """On rough ground with a bed in it, of cells that are no squares: in sixteen directions."""
    bed = ((3.0, 1.0), (5.0, 1.0), (5.0, 2.4), (3.0, 2.4))
    cells = cells_of((rectangle(9.0, 7.3),), (bed,), 58, (4.6, 3.6))
    assert cells.width_m != pytest.approx(cells.depth_m)
    # A few stakes stand far above the rest: chords in every direction are the highest somewhere.
    height = np.random.default_rng(seed).exponential(1.0, len(cells.share)) ** 4
    found = straightedge(cells, height, length_m)
    assert found == pytest.approx(chord_surface(cells, height, length_m))
    assert (found > height + 1).any() == (length_m >= 2.0) and (found >= height).all()


def test_a_straightedge_does_not_rest_on_what_was_not_measured() -> None:
    """Between two places at ten it lies at ten; where one bears nothing it leans to the ground."""
    cells = cells_of((rectangle(5.0, 1.0),), (), 5, (2.6, 0.5))
    height = np.array([10.0, 0.0, 0.0, 0.0, 10.0])
    assert straightedge(cells, height, 4.0) == pytest.approx([10.0] * 5)
    height[4] = -np.inf
    assert straightedge(cells, height, 4.0) == pytest.approx([10.0, 20 / 3, 10 / 3, 0.0, -np.inf])
    assert straightedge(cells, np.array([10.0, 0.0, 0.0, 0.0, 10.0]), 3.9) == pytest.approx(
        [10.0, 20 / 3, 10 / 3, 20 / 3, 10.0]
    )


def test_a_grid_is_read_some_columns_and_rows_away() -> None:
    """What would lie beyond its edge is not there."""
    full = np.arange(6.0).reshape(2, 3)
    no = -np.inf
    assert _moved(full, 1, 0).tolist() == [[1, 2, no], [4, 5, no]]
    assert _moved(full, -1, 1).tolist() == [[no, 3, 4], [no, no, no]]
    assert _moved(full, 2, -1).tolist() == [[no, no, no], [2, no, no]]
    assert _moved(full, 0, 0).tolist() == full.tolist()
    for right, up in ((3, 0), (-3, 0), (0, 2), (0, -2)):
        assert (_moved(full, right, up) == no).all()
