"""Where water stands on a finished lawn of which each cell's height is known."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from turfplan.message import Quantity
from turfplan.site.survey.cells import Cells, cells_of
from turfplan.site.survey.drainage import drainage, ponds

pytest.importorskip("scipy")
LEVEL_MM = 100.0


def lawn(across: int, up: int) -> Cells:
    """Cells of one metre."""
    return cells_of((rectangle(across, up),), (), across * up, (across / 2 - 0.4, up / 2))


def heights(cells: Cells, lower: dict[tuple[int, int], float]) -> np.ndarray:
    """A level lawn but for some cells, by row and column."""
    whole = np.full((cells.rows, cells.columns), LEVEL_MM)
    for place, height in lower.items():
        whole[place] = height
    return whole[cells.row, cells.column]


def test_water_stands_up_to_the_lowest_way_out() -> None:
    """A pit behind a rim, which has a gap on one side: water stands as high as the gap,
    whichever side it is.
    """
    cells = lawn(7, 5)
    rim = {(row, column): 200.0 for row in (1, 2, 3) for column in (2, 3, 4)}
    for gap in ((2, 2), (2, 4), (1, 3), (3, 3)):
        finished = heights(cells, {**rim, (2, 3): 80.0, gap: 110.0})
        pond = ponds((), cells, finished)
        assert pond[(cells.row == 2) & (cells.column == 3)] == pytest.approx([30.0])
        assert pond.sum() == pytest.approx(30.0)


def test_the_three_deepest_pools_are_told() -> None:
    """Of four, each a cell of its own; not what stays below a millimetre."""
    cells = lawn(13, 5)
    depths = {(2, 2): 40.0, (2, 4): 10.0, (2, 6): 30.0, (2, 8): 20.0, (2, 10): 0.9}
    finished = heights(cells, {place: LEVEL_MM - deep for place, deep in depths.items()})
    told = drainage(
        (), cells, finished, replace(EXACT, fall_to_swale=None, fall_from_building=None)
    )
    pools = [dict(message.values) for message in told]
    assert [pool["depth"] for pool in pools] == [
        Quantity(d, "depth", "up") for d in (40.0, 30.0, 20.0)
    ]
    assert [pool["area"].value for pool in pools] == pytest.approx([1.0] * 3)


def test_pools_that_touch_at_a_corner_are_one() -> None:
    """Its depth is that of its deepest cell."""
    cells = lawn(7, 6)
    finished = heights(cells, {(2, 2): 70.0, (3, 3): 80.0})
    (one,) = drainage((), cells, finished, replace(EXACT, fall_to_swale=None))
    assert dict(one.values)["area"].value == pytest.approx(2.0)
