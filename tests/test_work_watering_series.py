"""Stages as calendar series: whole weeks, few sessions a day, zones that share a series."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import as_written
from turfplan.work.watering.bounds import Watered, part_fits
from turfplan.work.watering.intake import Intake
from turfplan.work.watering.request import WateredGround, ground_of
from turfplan.work.watering.run_times import WateringZone, applied_mm
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage, StageName

BOOK, COOL = cases.book(), cases.cool_climate()
START = date(2027, 6, 9)


def ground(**changes: Any) -> WateredGround:
    """A loam lawn of 2027 with one zone of 30 mm/h, or others."""
    lawn = WateringZone(None, as_written("lawn"), 100.0, 30.0)
    return ground_of(cases.request(BOOK, COOL, **{"zones": (lawn,), **changes}))


@pytest.mark.parametrize("name", ["germination", "recover", "weaning"])
def test_a_stage_is_cut_into_weeks_from_its_first_day(name: StageName) -> None:
    """Two weeks and three days are three series one after the other, the last of three days."""
    end = START + timedelta(16)
    runs, _ = season_runs(ground(), [Stage(name, START, end)])
    weeks = {run.id.split(".")[2]: run for run in runs}
    assert list(weeks) == ["w1", "w2", "w3"]
    for number, run in enumerate(weeks.values()):
        first = START + timedelta(7 * number)
        assert run.start == first, "the first day of a week is watered"
        assert run.days()[0] == first and run.end == run.days()[-1]
        assert run.end <= min(end, first + timedelta(6))
    if name == "germination":
        assert [run.end for run in weeks.values()] == [
            START + timedelta(6),
            START + timedelta(13),
            end,
        ]


def test_a_winter_is_cut_into_four_weeks_at_a_time() -> None:
    """Its weeks are alike: one series keeps the weekdays of the first until the fourth is over."""
    wet = ground(season="warm", sown_season="cool", climate=cases.warm_climate())
    dry = replace(wet, usable_rain_mm=(0.0,) * len(wet.rain_mm))
    runs, _ = season_runs(dry, [Stage("winter", date(2027, 10, 4), date(2027, 11, 28))])
    assert [run.start for run in runs] == [date(2027, 10, 4), date(2027, 11, 1)]
    for run in runs:
        assert run.start + timedelta(21) <= run.end <= run.start + timedelta(27)
        assert len({day.weekday() for day in run.days()}) == len(run.weekdays)


# Ground that lets 1.5 mm stand and takes in nothing to speak of: a session of 60 mm/h runs for one
# minute.
SEALED = Intake((), 0.6, 1.5, 30.0, 1)


@pytest.mark.parametrize(("name", "most"), [("recover", 2), ("weaning", 2), ("germination", 4)])
def test_rooted_grass_is_watered_twice_a_day_at_most(name: StageName, most: int) -> None:
    """Where that does not put the water on without runoff, a part is left out and told; what must
    not dry out is watered up to four times.
    """
    sealed = replace(
        ground(zones=(WateringZone(None, as_written("lawn"), 100.0, 60.0),)), intake=SEALED
    )
    dry = replace(sealed, usable_rain_mm=(0.0,) * len(sealed.rain_mm))
    stage = Stage(name, START, START + timedelta(6))
    runs, cautions = season_runs(dry, [stage])
    assert len({run.start_time for run in runs}) == most
    assert {run.minutes for run in runs} == {1}
    what: Watered = "young" if name == "germination" else "grass"
    told = {part_fits("ground", stage.title, part / 10, what) for part in range(1, 10)}
    assert told & set(cautions)


def test_zones_share_a_series_where_each_of_its_own_would_crowd_the_calendar() -> None:
    """One run after the other: the minutes add up, the depth is the mean by area, and each zone
    has its line.
    """
    areas, rates = (100.0, 50.0, 150.0), (30.0, 20.0, 40.0)
    zones = tuple(
        WateringZone(f"z{n}", as_written(f"zone {n}"), area, rate)
        for n, (area, rate) in enumerate(zip(areas, rates, strict=True), 1)
    )
    week = [Stage("germination", START, START + timedelta(6))]
    apart, _ = season_runs(ground(zones=zones), week)
    assert {run.zone for run in apart} == {"z1", "z2", "z3"}
    season = [Stage("germination", START, START + timedelta(7 * 12 - 1))]
    shared, _ = season_runs(ground(zones=zones), season)
    first, singles = shared[0], [run for run in apart if run.session == apart[0].session]
    assert {run.zone for run in shared} == {None}
    assert first.minutes == sum(run.minutes for run in singles)
    assert (first.when.cycles, first.when.soak_min, first.when.settings) == (1, 0, 1)
    assert first.area_m2 == 300
    assert first.depth_mm == pytest.approx(singles[0].depth_mm)
    down = sum(
        applied_mm(run.minutes, rate) * area
        for run, rate, area in zip(singles, rates, areas, strict=True)
    )
    assert first.applied_mm == pytest.approx(down / 300)
    assert len(first.steps) == 3
