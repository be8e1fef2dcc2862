"""What waters work in runs after it, in whatever hours the law leaves."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import Message, as_written
from turfplan.phrases import watering as phrases
from turfplan.work.watering.request import WateredGround
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage, StageName, stages
from turfplan.work.watering.water_run import WaterRun

BOOK, COOL = cases.book(), cases.cool_climate()
MONDAY = date(2027, 6, 7)
NIGHTS = ["21:00-23:59", "00:00-07:00"]


def zone(rate_mm_h: float) -> WateringZone:
    """One zone of 100 m2."""
    return WateringZone(None, as_written("lawn"), 100.0, rate_mm_h)


def ground(hours: Sequence[str], rate_mm_h: float, **water: Any) -> WateredGround:
    """Sand, which takes in all that a zone puts down, with these hours open to watering."""
    told = {
        "possible": True,
        "timer": True,
        **({"allowed_hours": list(hours)} if hours else {}),
        **water,
    }
    changes = {"zones": (zone(rate_mm_h),), "soil": "sand", "the_brief": cases.brief(water=told)}
    return cases.even_ground(4.0, **changes)


def watered_in(
    ground: WateredGround, name: StageName, *days: date
) -> tuple[list[WaterRun], tuple[Message, ...]]:
    """The first water of work that was done on these days."""
    strips = days if len(days) > 1 else ()
    stage = Stage(name, days[0], days[-1], 1, strips)
    runs, cautions = season_runs(ground, [stage])
    return list(runs), cautions


def begins(runs: Sequence[WaterRun]) -> list[tuple[int, time]]:
    """Days after the first Monday and clock times of runs."""
    return [((run.start - MONDAY).days, run.start_time) for run in runs]


def test_a_fill_that_the_evening_does_not_hold_is_wetted_in_the_night_after() -> None:
    """Half an inch at 3 mm/h takes 254 minutes: three hours before midnight hold none of it, the
    morning does, and it is that of the day after; it says whose work it is."""
    runs, cautions = watered_in(ground(NIGHTS, 3.0), "settle_fill", MONDAY)
    assert [(day, start < time(7)) for day, start in begins(runs)] == [(1, True)]
    assert [c.key for c in cautions] == ["watering.week.night_after"]
    assert [step.key for step in runs[0].steps] == ["watering.how.work_of"]


def test_an_evening_that_holds_it_is_taken() -> None:
    """At 10 mm/h it is done before midnight, and there is nothing to be told."""
    runs, cautions = watered_in(ground(NIGHTS, 10.0), "settle_fill", MONDAY)
    assert (begins(runs), cautions) == ([(0, time(21))], ())


@pytest.mark.parametrize("name", ["settle", "settle_fill", "soak", "soak_plants", "soak_relaid"])
@pytest.mark.parametrize("rate_mm_h", [0.6, 1.0, 3.0, 30.0])
@pytest.mark.parametrize("hours", [(), NIGHTS, ["21:00-23:00"], ["05:00-09:00"], ["05:00-17:30"]])
def test_no_first_water_runs_before_its_work_is_over(
    name: StageName, rate_mm_h: float, hours: Sequence[str]
) -> None:
    """Whatever the hours of the law and the length of the run."""
    runs, _ = watered_in(ground(hours, rate_mm_h), name, MONDAY)
    assert all(day > 0 or start >= time(16) for day, start in begins(runs)), begins(runs)
    assert len({run.id for run in runs}) == len(runs)


def test_plants_do_not_wait_for_the_morning_where_the_evening_holds_a_part() -> None:
    """What fits before midnight runs that evening and the rest in the morning, together the
    whole; what keeps them moist begins on the day after."""
    at = ground(NIGHTS, 4.0)
    runs, cautions = watered_in(at, "soak_plants", MONDAY)
    assert [day for day, _ in begins(runs)] == [0, 1]
    whole = BOOK.si("water.soak_plants")
    assert sum(run.depth_mm for run in runs) == pytest.approx(whole)
    assert [c.key for c in cautions] == ["watering.week.split_after_work"]
    planted = replace(at.request, planted_on=MONDAY)
    first = {stage.name: stage.start for stage in stages(planted)}
    assert first["rooting"] == MONDAY + timedelta(2)


def test_two_evenings_share_what_neither_night_holds() -> None:
    """Two hours an evening: the first part on that of the work, the rest on the next, each under a
    name of its own."""
    runs, _ = watered_in(ground(["21:00-23:00"], 4.0), "settle_fill", MONDAY)
    assert begins(runs) == [(0, time(21)), (1, time(21))]
    assert [run.id for run in runs] == [
        "water.settle.1.w1.night",
        "water.settle.1.w1.night-after",
    ]
    depth = sum(run.depth_mm for run in runs)
    assert depth == pytest.approx(BOOK.si("water.settle_fill"))


def test_a_day_without_a_next_one_takes_what_its_evening_holds() -> None:
    """Where only Mondays are open the evening is all there is; that it holds a part is told."""
    at = ground(["21:00-22:00"], 4.0, allowed_weekdays=["mon"])
    runs, cautions = watered_in(at, "settle_fill", MONDAY)
    assert [day for day, _ in begins(runs)] == [0]
    assert [c.key for c in cautions] == ["watering.week.part_fits"]


def test_strips_are_each_watered_in_the_night_after() -> None:
    """Of two days each gets its own night, and the run says that it waters the day before."""
    runs, _ = watered_in(ground(NIGHTS, 3.0), "settle_fill", MONDAY, MONDAY + timedelta(1))
    (run,) = runs
    assert run.days() == (MONDAY + timedelta(1), MONDAY + timedelta(2))
    assert phrases.how_strip_before() in run.steps


def test_zones_that_the_morning_after_does_not_hold_begin_on_the_evening_of_the_work() -> None:
    """Two zones of two hours each: three hours of evening take a part of both, the morning the
    rest; neither waits for the evening after."""
    two = tuple(
        replace(zone(6.0), key=name, name=as_written(name), area_m2=50.0) for name in ("a", "b")
    )
    hours = {"possible": True, "allowed_hours": ["19:00-22:00", "04:00-08:00"]}
    at = cases.even_ground(4.0, zones=two, soil="sand", the_brief=cases.brief(water=hours))
    stage = Stage("settle_fill", MONDAY, MONDAY, 1)
    runs, cautions = season_runs(at, [stage])
    assert {(run.start - MONDAY).days for run in runs} == {0, 1}
    assert all(run.start_time < time(8) for run in runs if run.start > MONDAY)
    assert [c.key for c in cautions][:1] == ["watering.week.split_after_work"]
