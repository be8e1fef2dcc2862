"""Where water stands on a finished lawn of which each cell's height is known."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from turfplan.message import Number, Quantity
from turfplan.phrases import survey as phrases
from turfplan.site.survey.cells import Cells, cells_of
from turfplan.site.survey.drainage import drainage, ponds
from turfplan.site.survey.records import SurveyPoint

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


WALL = tuple(SurveyPoint(float(x), 0.0, None, f"w{x}", "wall") for x in (0, 6, 12))
FROM_WALL = replace(
    EXACT, fall_from_building=0.05, fall_distance_m=3.0, fall_to_swale=None, least_mm=1e6
)


@pytest.mark.parametrize(
    ("fall", "fault"),
    [
        (0.08, None),
        (0.05, None),
        (0.049, None),
        (0.03, "survey.drainage.wall_little"),
        (0.0, "survey.drainage.wall_none"),
        (-0.02, "survey.drainage.wall_toward"),
    ],
)
def test_a_wall_wants_its_fall(fall: float, fault: str | None) -> None:
    """Five percent away from it over ten feet; what is less is told, with what it lacks; a lawn
    without a wall, or a book without a rule, says nothing.
    """
    cells = lawn(12, 6)
    finished = 500.0 - 1000 * fall * cells.to_survey(cells.centroid_m)[:, 1]
    assert drainage((), cells, finished, FROM_WALL) == ()
    assert drainage(WALL, cells, finished, replace(FROM_WALL, fall_from_building=None)) == ()
    told = drainage(WALL, cells, finished, FROM_WALL)
    assert len(told) == (fault is not None)
    for message in told:
        first, work = dict(message.values)["parts"].items  # type: ignore[union-attr]
        assert (first.key, work) == (fault, phrases.drainage_other_work())
        said = dict(first.values)
        assert said["wanted"] == Number(0.05, "percent")
        assert said["lacking"].value == pytest.approx((0.05 - fall) * 3000)
        if "fall" in said:
            assert said["fall"].value == pytest.approx(abs(fall))
