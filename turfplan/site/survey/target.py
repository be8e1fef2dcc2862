"""Target surfaces: the lawn's own fall, the plane of least squares, the straightedge, the string.

Each target is linear in the measured heights (`Smoother`), except the straightedge, which takes
the highest of many chords.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_matrix
from scipy.spatial import cKDTree

from turfplan.site.survey.arrays import Floats, Ints
from turfplan.site.survey.cells import Cells

# Tukey's biweight: the constant that keeps 95 % efficiency on sound readings (Mosteller and Tukey,
# Data Analysis and Regression, 1977), and the factor that makes the median deviation a standard
# deviation.
BIWEIGHT = 4.685
MEDIAN_TO_SIGMA = 1.4826
LEAST_NEIGHBOURS = 12
FLAT_SHARE = 0.8


@dataclass(frozen=True, slots=True)
class Near:
    """Pairs (n) of a node and a point near it: offsets (n, 2) in m, weights (n) by distance.

    `starts` is where the pairs of each node begin. `nearest` is the point nearest to each node;
    heights are reckoned from it, so that no digits are lost.
    """

    node: Ints
    point: Ints
    nearest: Ints
    offset_m: Floats
    weight: Floats
    starts: Ints


def plane_of(ground: csr_matrix, places: Floats, area: Floats) -> tuple[Floats, Floats]:
    """The plane of least squares over the lawn's area as two matrices, (cells, 3) and (3, points).

    Their product with the measured heights is the plane at the cells; it is weighted by area, so
    that places where points crowd do not count more.
    """
    centre = np.average(places, axis=0, weights=area)
    basis = np.column_stack([np.ones(len(places)), places - centre])
    normal = basis.T @ (basis * area[:, None])
    terms = np.linalg.lstsq(normal, (basis * area[:, None]).T, rcond=None)[0]
    return basis, np.asarray((ground.T @ terms.T).T)


def own_fall_matrix(
    nodes: Floats, xy: Floats, height: Floats, span_m: float, floor_mm: float
) -> csr_matrix:
    """The lawn's own fall at the nodes, as a matrix on the measured heights.

    At each node a plane is fitted to the points within `span_m` (or the nearest twelve), first by
    least absolute deviations, then by Tukey's biweight, so that hollows and rises that take up
    less than half of that ground do not pull it. The scale of the biweight is the median deviation
    of the same ground, at least `floor_mm`.
    """
    near = neighbours(nodes, xy, span_m)
    weight = _robust_weights(near, height, floor_mm)
    return _fit_matrix(near, weight, len(nodes), len(xy))


def neighbours(nodes: Floats, xy: Floats, span_m: float) -> Near:
    """Every node's points.

    Full weight up to eight tenths of the span, falling to none at its end.
    """
    tree = cKDTree(xy)
    most = min(LEAST_NEIGHBOURS, len(xy))
    away, index = (np.asarray(part).reshape(len(nodes), -1) for part in tree.query(nodes, k=most))
    # A little beyond the twelfth neighbour, so that it keeps some weight.
    reach = np.maximum(span_m, 1.25 * away[:, -1])
    lists = tree.query_ball_point(nodes, reach)
    sizes = np.array([len(here) for here in lists])
    point = np.concatenate([np.array(here, dtype=np.int64) for here in lists])
    node = np.repeat(np.arange(len(nodes)), sizes)
    offset = xy[point] - nodes[node]
    share = np.linalg.norm(offset, axis=1) / reach[node]
    fade = np.clip((share - FLAT_SHARE) / (1 - FLAT_SHARE), 0.0, 1.0)
    weight = (1 - fade**2) ** 2
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(np.int64)
    return Near(node, point, index[:, 0].astype(np.int64), offset, weight, starts)


def _solve(near: Near, weight: Floats, value: Floats) -> Floats:
    """The weighted plane at each node: its height there and its falls in x and y."""
    dx, dy = near.offset_m[:, 0], near.offset_m[:, 1]
    terms = (weight, weight * dx, weight * dy, weight * dx * dx, weight * dx * dy, weight * dy * dy)
    s0, sx, sy, sxx, sxy, syy = (np.add.reduceat(term, near.starts) for term in terms)
    v0, vx, vy = (np.add.reduceat(term * value, near.starts) for term in terms[:3])
    return np.linalg.solve(
        _normal(s0, sx, sy, sxx, sxy, syy), np.stack([v0, vx, vy], axis=-1)[..., None]
    )[..., 0]


def _normal(s0: Floats, sx: Floats, sy: Floats, sxx: Floats, sxy: Floats, syy: Floats) -> Floats:
    normal = np.stack(
        [np.stack([s0, sx, sy], -1), np.stack([sx, sxx, sxy], -1), np.stack([sy, sxy, syy], -1)], -2
    )
    # Neighbours in one line leave the fall across it open: a hair of weight on no fall closes it.
    hair = 1e-10 * (sxx + syy) + 1e-300
    normal[:, 1, 1] += hair
    normal[:, 2, 2] += hair
    return normal


def _residuals(near: Near, plane: Floats, value: Floats) -> Floats:
    fitted = (
        plane[near.node, 0]
        + plane[near.node, 1] * near.offset_m[:, 0]
        + plane[near.node, 2] * near.offset_m[:, 1]
    )
    return np.asarray(value - fitted)


def _medians(near: Near, values: Floats, use: npt.NDArray[np.bool_]) -> Floats:
    """The median of each node's values where `use` holds."""
    node, chosen = near.node[use], values[use]
    order = np.lexsort((chosen, node))
    count = np.bincount(node, minlength=len(near.starts))
    first = np.concatenate([[0], np.cumsum(count)[:-1]])
    ordered = chosen[order]
    return np.asarray((ordered[first + (count - 1) // 2] + ordered[first + count // 2]) / 2)


def _robust_weights(
    near: Near, height: Floats, floor_mm: float, absolute: int = 12, biweight: int = 4
) -> Floats:
    value = height[near.point] - height[near.nearest[near.node]]
    tiny = max(floor_mm * 0.05, 1e-4)
    weight = near.weight
    residual = _residuals(near, _solve(near, weight, value), value)
    for _ in range(absolute):
        weight = near.weight / np.maximum(np.abs(residual), tiny)
        residual = _residuals(near, _solve(near, weight, value), value)
    inner = near.weight > 0.5
    for step in range(biweight):
        if step in (0, 2):
            scale = np.maximum(
                MEDIAN_TO_SIGMA * _medians(near, np.abs(residual), inner), max(floor_mm, tiny)
            )
        weight = (
            near.weight
            * np.clip(1 - (residual / (BIWEIGHT * scale[near.node])) ** 2, 0.0, None) ** 2
        )
        residual = _residuals(near, _solve(near, weight, value), value)
    return weight


def _fit_matrix(near: Near, weight: Floats, nodes: int, points: int) -> csr_matrix:
    """The height of each node's plane at the node, as weights on its points."""
    dx, dy = near.offset_m[:, 0], near.offset_m[:, 1]
    terms = (weight, weight * dx, weight * dy, weight * dx * dx, weight * dx * dy, weight * dy * dy)
    sums = [np.add.reduceat(term, near.starts) for term in terms]
    unit = np.zeros((nodes, 3, 1))
    unit[:, 0] = 1.0
    row = np.linalg.solve(_normal(*sums), unit)[..., 0][near.node]
    values = weight * (row[:, 0] + row[:, 1] * dx + row[:, 2] * dy)
    return csr_matrix((values, (near.node, near.point)), shape=(nodes, points))


def straightedge(cells: Cells, height: Floats, length_m: float) -> Floats:
    """The surface that a straightedge of `length_m` leaves when every gap below it is filled.

    At each cell: the highest chord through it between two places of the ground no further apart
    than the straightedge, in sixteen directions. `height` is that of the cells' middles, minus
    infinity where it may not rest; never below it.
    """
    full = np.full((cells.rows, cells.columns), -np.inf)
    full[cells.row, cells.column] = height
    best = full.copy()
    for right, up in ((1, 0), (0, 1), (1, 1), (1, -1), (2, 1), (1, 2), (2, -1), (1, -2)):
        step = math.hypot(right * cells.width_m, up * cells.depth_m)
        most = int(length_m / step + 1e-9)
        for ahead in _reaches(most - 1):
            for behind in _reaches(most - ahead):
                chord = (
                    behind * _moved(full, right * ahead, up * ahead)
                    + ahead * _moved(full, -right * behind, -up * behind)
                ) / (ahead + behind)
                np.maximum(best, chord, out=best)
    return np.asarray(best[cells.row, cells.column])


def _reaches(most: int) -> list[int]:
    """Distances in cells to look along a line.

    Each of the first eight, then ever fewer, and the last.
    """
    reaches = [
        n for n in range(1, most + 1) if n <= 8 or n % (1 << max(0, n.bit_length() - 4)) == 0
    ]
    return reaches if not reaches or reaches[-1] == most else [*reaches, most]


def _moved(full: Floats, right: int, up: int) -> Floats:
    """The grid read `right` columns and `up` rows away; nothing lies beyond its edge."""
    rows, columns = full.shape
    moved = np.full_like(full, -np.inf)
    if abs(right) < columns and abs(up) < rows:
        to_rows, from_rows = _slices(rows, up)
        to_columns, from_columns = _slices(columns, right)
        moved[to_rows, to_columns] = full[from_rows, from_columns]
    return moved


def _slices(size: int, move: int) -> tuple[slice, slice]:
    return (
        (slice(0, size - move), slice(move, size))
        if move >= 0
        else (slice(-move, size), slice(0, size + move))
    )
