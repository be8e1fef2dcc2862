"""The cells of a lawn as a grid that lies as the survey does."""

import math

import numpy as np
import pytest

from lawn_surveys import rectangle
from turfplan.site.survey.cells import cells_of, rotated
from turfplan.site.survey.picture_grid import grid_of

pytest.importorskip("scipy")


@pytest.mark.parametrize("turn", [0.0, 0.4, math.pi / 2, 2.0, math.pi, 4.0, 4.9, 6.0])
@pytest.mark.parametrize("lean", [(-1.0, 0.0), (1.0, 0.0)])
def test_each_place_of_the_grid_holds_the_cell_that_lies_there(
    turn: float, lean: tuple[float, float]
) -> None:
    """Whichever way the lawn lies and its frame leans: places from the first cell on, by columns
    along the angle and rows across it; what is no lawn is empty.
    """
    bed = ((2.9, 1.0), (6.1, 1.0), (6.1, 2.3), (2.9, 2.3))
    ring, hole = (
        tuple((x + 30.0, y - 7.0) for x, y in (rotated(p, turn) for p in shape))
        for shape in (rectangle(12, 3.3), bed)
    )
    middle, aside = rotated((6.0, 1.65), turn), rotated(lean, turn)
    cells = cells_of((ring,), (hole,), 33, (middle[0] + aside[0] + 30, middle[1] + aside[1] - 7))
    x, y = cells.to_survey(cells.middle_m).T
    grid = grid_of(cells, x, y, x - y, np.arange(len(x)))
    assert -math.pi / 4 - 1e-9 <= grid.angle <= math.pi / 4 + 1e-9
    assert {grid.rows, grid.columns} == {3, 12}
    assert len(grid.fill_mm) == len(grid.share) == len(grid.zone) == 36
    c, s = math.cos(grid.angle), math.sin(grid.angle)
    seen = 0
    for place, ground in enumerate(grid.ground_mm):
        row, column = divmod(place, grid.columns)
        along, up = column * grid.width_m, row * grid.depth_m
        there = grid.x_m + c * along - s * up, grid.y_m + s * along + c * up
        if ground is None:
            assert grid.target_mm[place] is None and grid.share[place] == 0.0
            continue
        seen += 1
        fill = grid.fill_mm[place]
        target = grid.target_mm[place]
        assert target is not None and fill is not None
        assert (ground, target) == pytest.approx(there, abs=0.006)
        assert fill == pytest.approx(there[0] - there[1], abs=0.006)
        number = grid.zone[place]
        assert (x[number], y[number]) == pytest.approx(there, abs=1e-6)
        assert grid.share[place] == round(float(cells.share[number]), 4)
    assert seen == len(x) == 33


def test_values_are_rounded_to_hundredths_and_shares_to_ten_thousandths() -> None:
    """A third of a cell, and two thirds of a millimetre."""
    cells = cells_of((((0.0, 0.0), (7.0, 0.0), (0.0, 3.0)),), (), 11, (2.0, 1.0))
    third = np.full(len(cells.share), 2 / 3)
    grid = grid_of(cells, third, third, third, np.zeros(len(third), dtype=np.int64))
    assert set(grid.fill_mm) - {None} == {0.67}
    assert all(share == round(share, 4) for share in grid.share)
    assert any(share != round(share, 3) for share in grid.share)
