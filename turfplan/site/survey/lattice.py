"""A coarse lattice over the lawn, on which a smooth surface is reckoned for its cells."""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells

# A square of the lattice spans this many cells each way: a surface that is smooth over metres is
# straight over it.
CELLS_A_SQUARE = 2


@dataclass(frozen=True, slots=True)
class Lattice:
    """The corners in use (k, 2), m in the frame of the cells, and how the cells read from them.

    `matrix` (cells, k) is that of bilinear interpolation to the centroids of the cells.
    """

    xy_m: Floats
    matrix: csr_matrix


def lattice_of(cells: Cells) -> Lattice:
    """The lattice over the box of the cells.

    Every cell lies inside one of its squares, so nothing is extrapolated.
    """
    length, width = cells.columns * cells.width_m, cells.rows * cells.depth_m
    across = max(1, round(cells.columns / CELLS_A_SQUARE))
    up = max(1, round(cells.rows / CELLS_A_SQUARE))
    x = (cells.centroid_m[:, 0] + length / 2) / length * across
    y = (cells.centroid_m[:, 1] + width / 2) / width * up
    left = np.clip(np.floor(x), 0, across - 1).astype(np.int64)
    low = np.clip(np.floor(y), 0, up - 1).astype(np.int64)
    u, v = x - left, y - low
    corners, shares = [], []
    for right, above in ((0, 0), (1, 0), (0, 1), (1, 1)):
        corners.append((low + above) * (across + 1) + left + right)
        shares.append((u if right else 1 - u) * (v if above else 1 - v))
    used, member = np.unique(np.column_stack(corners), return_inverse=True)
    row = np.repeat(np.arange(len(x)), 4)
    matrix = csr_matrix(
        (np.column_stack(shares).ravel(), (row, member.ravel())), shape=(len(x), len(used))
    )
    places = np.column_stack(
        [used % (across + 1) / across * length, used // (across + 1) / up * width]
    )
    return Lattice(places - np.array([length / 2, width / 2]), matrix)
