"""Where water stands on a finished lawn of which each cell's height is known."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from turfplan.message import Number, Quantity, SurveySpot
from turfplan.phrases import survey as phrases
from turfplan.site.survey.cells import Cells, cells_of
from turfplan.site.survey.drainage import (
    _fall_to,
    _falls_along,
    _length,
    _own_fall,
    _standing,
    _to_swale,
    drainage,
    flooded,
    ponds,
)
from turfplan.site.survey.feature_lines import Line
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
        (0.0012, "survey.drainage.wall_little"),
        (0.0009, "survey.drainage.wall_none"),
        (0.0, "survey.drainage.wall_none"),
        (-0.0009, "survey.drainage.wall_none"),
        (-0.0012, "survey.drainage.wall_toward"),
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


def line(*places: tuple[float, float], cells: Cells, height: float = 0.0) -> Line:
    """A line through places of the survey, all at one height."""
    return Line(cells.to_frame(np.array(places)), np.full(len(places), height))


def survey_xy(cells: Cells) -> tuple[np.ndarray, np.ndarray]:
    """Where the cells lie in the survey."""
    x, y = cells.to_survey(cells.centroid_m).T
    return x, y


def test_the_fall_from_a_wall_is_read_for_each_metre_along_it() -> None:
    """Ten millimetres a metre more for each metre along; the strip is as wide as asked."""
    cells = lawn(12, 6)
    x, y = survey_xy(cells)
    finished = 500.0 - 10.0 * (x + 0.5) * y
    along = line((-0.25, 0.0), (12.25, 0.0), cells=cells)
    found = list(_falls_along(along, cells, finished, 3.0))
    assert found == pytest.approx([0.01 * metre for metre in range(1, 13)])
    bent = np.where(y > 3.0, 0.0, finished)
    assert list(_falls_along(along, cells, bent, 3.0)) == pytest.approx(found)


@pytest.mark.parametrize(("reach", "count"), [(3.0, 12), (2.4, 0), (21.9, 12), (22.1, 0)])
def test_a_fall_is_read_where_there_is_ground_enough(reach: float, count: int) -> None:
    """Three cells behind each other, and a quarter of what the rule asks."""
    cells = lawn(12, 6)
    _, y = survey_xy(cells)
    along = line((-0.25, 0.0), (12.25, 0.0), cells=cells)
    assert len(list(_falls_along(along, cells, -20.0 * y, reach))) == count


def test_ground_at_one_distance_tells_no_fall() -> None:
    """The strip beside the end of a wall: all of a metre is as far from it."""
    cells = lawn(12, 6)
    _, y = survey_xy(cells)
    short = line((-0.25, 5.5), (12.25, 5.5), cells=cells)
    assert len(list(_falls_along(short, cells, -20.0 * y, 0.6))) == 0
    alone = line((5.5, 0.4), cells=cells)
    assert list(_falls_along(alone, cells, -20.0 * y, 0.5)) == []


SWALE = replace(EXACT, fall_to_swale=0.02, fall_from_building=None, least_mm=1e6)


@pytest.mark.parametrize(("fall", "told"), [(0.0181, 0), (0.0179, 1), (0.005, 1), (0.03, 0)])
def test_a_lawn_wants_its_fall_to_its_low_side(fall: float, told: int) -> None:
    """Two percent, or nearly; what it lacks is over the eleven metres between its outer cells."""
    cells = lawn(12, 6)
    x, _ = survey_xy(cells)
    found = _to_swale((), cells, 900.0 - 1000 * fall * x, SWALE)
    assert len(found) == told
    for message in found:
        first, _ = dict(message.values)["parts"].items  # type: ignore[union-attr]
        said = dict(first.values)
        assert first.key == "survey.drainage.to_low_side"
        assert said["wanted"] == Number(0.02, "percent")
        assert said["fall"].value == pytest.approx(fall)
        assert said["lacking"].value == pytest.approx((0.02 - fall) * 11_000)


def test_no_fall_is_wanted_without_a_rule_or_to_a_string() -> None:
    """Of level ground."""
    cells = lawn(12, 6)
    level = np.zeros(len(cells.share))
    assert len(_to_swale((), cells, level, SWALE)) == 1
    assert _to_swale((), cells, level, replace(SWALE, fall_to_swale=None)) == ()
    assert _to_swale((), cells, level, replace(SWALE, target="line")) == ()


def test_with_a_swale_the_fall_is_that_to_the_swale() -> None:
    """One percent toward it, from five and a half metres away; no more to be asked of a lawn
    that lies at it.
    """
    cells = lawn(12, 6)
    _, y = survey_xy(cells)
    swale = tuple(SurveyPoint(x, 0.0, 100.0, "s", "swale") for x in (0.0, 12.0))
    (message,) = _to_swale(swale, cells, 100.0 + 10.0 * y, SWALE)
    first, _ = dict(message.values)["parts"].items  # type: ignore[union-attr]
    said = dict(first.values)
    assert first.key == "survey.drainage.to_swale"
    assert said["fall"].value == pytest.approx(0.01)
    assert said["lacking"].value == pytest.approx(0.01 * 5500)
    assert _to_swale(swale, cells, 100.0 + 20.0 * y, SWALE) == ()
    close = lawn(12, 1)
    assert _to_swale(swale, close, np.zeros(len(close.share)), SWALE) == ()


def test_each_place_falls_to_the_swale_that_is_nearest_to_it() -> None:
    """One at each long side, the second ten centimetres lower: the middle of the falls, without
    what lies within a metre.
    """
    cells = lawn(12, 6)
    _, y = survey_xy(cells)
    low = line((0.0, 6.0), (12.0, 6.0), cells=cells, height=0.0)
    high = line((0.0, 0.0), (12.0, 0.0), cells=cells, height=100.0)
    finished = np.where(y < 3, 100.0 + 20.0 * y, 20.0 * (6.0 - y))
    found = _fall_to([high, low], cells, finished)
    assert found == pytest.approx((0.02, 2.5))
    assert _fall_to([low], cells, 20.0 * (6.0 - y) + 900.0 * (y > 5)) == pytest.approx((0.02, 5.5))


def test_the_plane_of_a_lawn_counts_ground_by_its_area() -> None:
    """A spike on the smallest sliver of a triangle hardly tilts it."""
    cells = cells_of((((0.0, 0.0), (8.0, 0.0), (0.0, 6.0)),), (), 60, (2.0, 2.0))
    x, y = survey_xy(cells)
    finished = 300.0 - 12.0 * x + 16.0 * y
    finished[cells.share.argmin()] += 50.0
    fall, reach = _own_fall(cells, finished)
    assert fall == pytest.approx(0.02, rel=1e-3)
    along = -0.6 * x + 0.8 * y
    assert reach == pytest.approx(np.ptp(along), rel=1e-2)


def test_a_lawn_reaches_along_its_fall() -> None:
    """Eleven metres one way, five the other; along its length where it is level."""
    cells = lawn(12, 6)
    assert _length(cells, np.array([0.0, 0.0])) == pytest.approx(11.0)
    assert _length(cells, np.array([0.03, 0.0])) == pytest.approx(11.0)
    assert _length(cells, np.array([0.0, -0.03])) == pytest.approx(5.0)
    assert _length(cells, np.array([0.03, 0.04])) == pytest.approx(0.6 * 11 + 0.8 * 5)


@pytest.mark.parametrize(
    ("settings", "told"),
    [
        ({}, (1.1,)),
        ({"instrument_error_mm": 3.0}, (6.1,)),
        ({"least_mm": 8.0}, (8.1,)),
        ({"instrument_error_mm": 0.4, "least_mm": 0.5}, (1.1,)),
    ],
)
def test_pools_are_told_that_are_deeper_than_readings_and_the_least(
    settings: dict[str, float], told: tuple[float, ...]
) -> None:
    """Twice the error of a reading, the least fill, a millimetre at least: so much is none."""
    cells = lawn(7, 5)
    chosen = replace(EXACT, fall_to_swale=None, fall_from_building=None, **settings)  # type: ignore[arg-type]
    for deep, pools in ((told[0], told), (round(told[0] - 0.1), ())):
        found = _standing((), cells, heights(cells, {(2, 3): LEVEL_MM - deep}), chosen)
        depths = [dict(message.values)["depth"].value for message in found]  # type: ignore[union-attr]
        assert depths == pytest.approx(list(pools))


def test_a_pool_is_told_where_it_is_deepest_and_not_when_it_is_tiny() -> None:
    """Two cells of a square metre; then of a quarter of one, of which two are half a metre."""
    cells = lawn(7, 5)
    finished = heights(cells, {(2, 2): 70.0, (2, 3): 60.0})
    (pool,) = _standing((), cells, finished, EXACT)
    x, y = survey_xy(cells)
    (deepest,) = np.nonzero(finished == 60.0)[0]
    assert dict(pool.values)["place"] == SurveySpot(x[deepest], y[deepest])
    small = cells_of((rectangle(7, 5),), (), 140, (3.1, 2.5))
    assert small.each_m2 == pytest.approx(np.full(140, 0.25))
    for size, told in ((1, 0), (2, 1)):
        spots = {(4, 5 + n): 50.0 for n in range(size)}
        assert len(_standing((), small, heights(small, spots), EXACT)) == told


def test_water_does_not_run_off_through_a_wall() -> None:
    """A lawn that falls to it by ten millimetres a row stands ten deep at it, below the sides; a
    wall further off than a cell and a half holds nothing.
    """
    cells = lawn(7, 5)
    _, y = survey_xy(cells)
    finished = 10.0 * (y - 0.5)
    for away, deep in ((0.0, 10.0), (-0.9, 10.0), (-1.1, 0.0)):
        wall = tuple(SurveyPoint(x, away, 0.0, "w", "wall") for x in (-1.0, 8.0))
        pond = ponds(wall, cells, finished)
        assert pond[y < 1] == pytest.approx(np.full(7, deep))
        assert pond[y > 1] == pytest.approx(np.zeros(28))
    assert ponds((), cells, finished) == pytest.approx(np.zeros(35))


def test_water_walled_in_all_round_is_none() -> None:
    """Without any way out nothing is told of it."""
    cells = lawn(4, 3)
    corners = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0), (0.0, 0.0))
    wall = tuple(SurveyPoint(x, y, 0.0, "w", "wall") for x, y in corners)
    assert ponds(wall, cells, np.arange(12.0)).tolist() == [0.0] * 12


def test_a_grid_is_flooded_from_its_outlets() -> None:
    """Over the lowest rims, corners too; no ground has no water, and what no outlet reaches has
    it without end.
    """
    no = np.inf
    height = np.array(
        [
            [no, no, no, no, no, no],
            [no, 5.0, 9.0, 1.0, 9.0, no],
            [no, 9.0, 2.0, 9.0, 7.0, no],
            [no, no, no, no, no, no],
        ]
    )
    outlet = np.zeros(height.shape, dtype=bool)
    outlet[1, 1] = True
    water = flooded(height, outlet)
    assert water[1, 1:5].tolist() == [5.0, 9.0, 5.0, 9.0]
    assert water[2, 1:5].tolist() == [9.0, 5.0, 9.0, 7.0]
    assert np.isinf(water[0]).all() and np.isinf(water[3]).all()
    assert np.isinf(flooded(height, np.zeros(height.shape, dtype=bool))).all()
