"""The coarse lattice on which a smooth surface is reckoned."""

from itertools import product

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.lattice import lattice_of

pytest.importorskip("scipy")


@pytest.mark.parametrize(
    ("length", "width", "each", "across", "up"),
    [(8, 6, 1.0, 4, 3), (4, 3, 0.5, 4, 3), (7, 4, 1.0, 4, 2), (6, 4, 2.0, 2, 1), (1, 1, 1.0, 1, 1)],
)
def test_a_square_of_the_lattice_spans_two_cells_each_way(
    length: int, width: int, each: float, across: int, up: int
) -> None:
    """Its corners lie over the box of the cells, from edge to edge; one square at least."""
    wanted = round(length * width / each**2)
    cells = cells_of((rectangle(length, width),), (), wanted, (length / 2 - 0.1, width / 2))
    lattice = lattice_of(cells)
    corners = [
        (length * (i / across - 0.5), width * (j / up - 0.5))
        for j, i in product(range(up + 1), range(across + 1))
    ]
    assert lattice.xy_m == pytest.approx(np.array(corners))
    assert lattice.matrix.shape == (wanted, len(corners))


def test_cells_read_a_twisted_surface_from_the_corners_of_their_square() -> None:
    """Bilinear: their shares make one, none is below nought, and a twist is met exactly."""
    triangle = ((0.0, 0.0), (9.0, 0.0), (0.0, 6.0))
    cells = cells_of((triangle,), (), 60, (2.0, 2.0))
    lattice = lattice_of(cells)
    x, y = cells.centroid_m.T
    shares = lattice.matrix.toarray()
    assert shares.sum(axis=1) == pytest.approx(np.ones(len(x)))
    assert shares.min() >= -1e-12 and ((shares > 1e-12).sum(axis=1) <= 4).all()
    at = lattice.xy_m
    twisted = 3.0 - 2.0 * at[:, 0] + 5.0 * at[:, 1] + 0.7 * at[:, 0] * at[:, 1]
    assert lattice.matrix @ twisted == pytest.approx(3.0 - 2.0 * x + 5.0 * y + 0.7 * x * y)
    # Corners that no cell reads from are not reckoned on.
    assert (shares > 0).any(axis=0).sum() >= shares.shape[1] - 2
