"""Days that known rain turns off."""

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import as_written
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.replan import (
    _days_off,
    _given_mm,
    settle_with,
    skip_for_rain,
    without_rained,
)
from turfplan.work.watering.request import KnownSeries, WeatherDay, ground_of
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stages import Stage
from turfplan.work.watering.water_run import WaterRun

START = date(2027, 6, 9)
EVERY_HOUR = law_of(cases.brief().water)
ZONE = WateringZone(None, as_written("lawn"), 100.0, 30.0)


def kept(rain: dict[int, float], days: int) -> list[int]:
    """The days of recovery from the start that are still watered, with rain on days from it."""
    weather = {START + timedelta(n): WeatherDay(rain_mm=mm) for n, mm in rain.items()}
    request = cases.request(
        cases.book(), cases.cool_climate(), zones=(ZONE,), area_m2=100.0, weather=weather
    )
    ground = ground_of(request)
    runs, _ = season_runs(ground, [Stage("recover", START, START + timedelta(days - 1))])
    return [
        (day - START).days
        for run in skip_for_rain(ground, runs)
        for day in run.days()
        if day not in run.skip
    ]


BOOK = cases.book()
MONDAY = date(2027, 6, 7)
WEEK = (MONDAY, MONDAY + timedelta(6))


def weekly(**changes: Any) -> WaterRun:
    """A run of 28 minutes on Monday and Friday, of 14 mm on 100 m2 each."""
    ground = cases.even_ground(4.0, zones=(ZONE,))
    ground = replace(ground, intake=replace(ground.intake, rate_mm_h=500.0))
    (run,) = season_runs(ground, [Stage("weaning", *WEEK)])[0]
    assert (run.minutes, run.weekdays) == (28, ("mon", "fri"))
    return replace(run, **changes)


def known(**changes: Any) -> KnownSeries:
    """The same run as the calendar has it, with changes."""
    run = weekly()
    same = KnownSeries(run.start, run.end, run.start_time, run.minutes, run.weekdays, run.skip)
    return replace(same, **changes)


def settled(old: KnownSeries, today: date, run: WaterRun | None = None) -> WaterRun:
    """The run as it is fitted to the calendar."""
    run = run or weekly()
    (found,) = settle_with({run.id: old}, [run], today, 0.15, EVERY_HOUR)
    return found


def test_a_week_that_is_over_stays_as_it_was() -> None:
    """With its minutes, cycles and days off; to the day after its end."""
    old = known(minutes=56, cycles=2, soak_min=30, settings=1, skip=(MONDAY,))
    found = settled(old, MONDAY + timedelta(5))
    assert (found.minutes, found.cycles, found.when.soak_min, found.skip) == (56, 2, 30, (MONDAY,))
    assert (found.depth_mm, found.applied_mm) == (pytest.approx(28), pytest.approx(28))
    # Twice as long on one of two days.
    assert found.amounts[0].value == pytest.approx(2800)
    assert found.puts_down is None and settled(known(), MONDAY + timedelta(9)).puts_down


def test_what_follows_work_that_has_moved_on_moves_with_it() -> None:
    """From a week that is over, and from a running one that would end too soon; not where it still
    begins within the days of the calendar, or is over itself."""
    later = weekly(start=MONDAY + timedelta(14), end=MONDAY + timedelta(18))
    for today in (8, 13, 14, 16):
        assert settled(known(), MONDAY + timedelta(today), later) is later
    soon = weekly(start=MONDAY + timedelta(4), end=MONDAY + timedelta(8))
    assert settled(known(), MONDAY + timedelta(2), soon) is soon
    assert settled(known(), MONDAY + timedelta(4), soon).start == MONDAY
    assert settled(known(), MONDAY + timedelta(30), later).start == MONDAY


def test_the_running_week_keeps_its_days_and_only_loses_some() -> None:
    """From today on, those that are not wanted any more."""
    run = weekly(weekdays=("fri",), start=MONDAY + timedelta(4))
    assert settled(known(), MONDAY + timedelta(1), run).skip == ()
    both = settled(known(minutes=30), MONDAY, run)
    assert (both.skip, both.minutes, both.weekdays) == ((MONDAY,), 30, ("mon", "fri"))
    tuesday = weekly(weekdays=("tue",), start=MONDAY + timedelta(1), end=MONDAY + timedelta(1))
    found = settled(known(skip=(MONDAY,)), MONDAY, tuesday)
    assert found.skip == (MONDAY, MONDAY + timedelta(4))
    assert settled(known(), MONDAY + timedelta(4)).weekdays == ("mon", "fri")


def test_a_coming_week_keeps_its_minutes_where_the_new_ones_are_near() -> None:
    """By a share of them, either way; not where the days are others."""
    before = MONDAY - timedelta(1)
    kept = [settled(known(minutes=n), before).minutes for n in (24, 25, 32, 33)]
    assert kept == [28, 25, 32, 28]
    other = settled(known(minutes=27, weekdays=("mon", "thu")), before)
    assert (other.minutes, other.weekdays) == (28, ("mon", "fri"))
    new = weekly()
    assert settle_with({}, [new], before, 0.15, EVERY_HOUR) == (new,)


def test_nothing_is_kept_at_hours_that_the_law_has_closed_since() -> None:
    """What is over stays as it was; the running week and those to come move into lawful hours."""
    run, late = weekly(), time(20, 0)
    law = law_of(cases.brief(water={"allowed_hours": ["04:00-09:00"]}).water)
    old = {run.id: known(start_time=late)}
    for today, begun in ((-1, run.start_time), (2, run.start_time), (9, late)):
        (found,) = settle_with(old, [run], MONDAY + timedelta(today), 0.15, law)
        assert found.start_time == begun, today
    (found,) = settle_with(old, [run], MONDAY, 0.15, EVERY_HOUR)
    assert found.start_time == late


def test_amounts_of_a_run_follow_its_minutes_in_both_units() -> None:
    """The one from the other."""
    found = settled(known(minutes=27), MONDAY - timedelta(1))
    litres = 2800 * 27 / 28
    amount = found.amounts[0]
    assert (amount.value, amount.value_us) == (
        pytest.approx(litres, abs=0.05),
        pytest.approx(litres / 3.785411784, abs=0.05),
    )


def test_what_is_given_on_a_day_is_the_mean_of_the_lawn() -> None:
    """Of all runs that day, by their area."""
    run = weekly()
    given = _given_mm([run, replace(run, area_m2=50.0)], 200.0)
    assert given == {
        MONDAY: pytest.approx(14 * 150 / 200),
        MONDAY + timedelta(4): pytest.approx(10.5),
    }


def off(rain: dict[int, float], *, et0_mm: float = 4.0, given: Any = (0, 4)) -> list[int]:
    """The watered days that rain turns off, by number from Monday; loam 203 mm deep."""
    ground = cases.even_ground(et0_mm)
    # A young stand uses 0.9 of the 4 mm, and 0.456 of 26.4 mm are given freely: 12 mm.
    days = {MONDAY + timedelta(n): 14.0 for n in given}
    fallen = {MONDAY + timedelta(n): mm for n, mm in rain.items()}
    return sorted((day - MONDAY).days for day in _days_off(ground, days, fallen, set()))


def test_a_day_is_off_where_rain_of_its_week_holds_to_the_next_run() -> None:
    """Four days to it: 14.4 mm; what lies above field capacity helps for a day."""
    assert off({}) == []
    assert off({0: 2.4}) == [0] and off({0: 2.2}) == []
    # On Friday 3 x 3.6 mm are missing, and the last run waits a day: 14.4 mm with it.
    assert off({4: 2.5}) == [4] and off({4: 2.2}) == []
    assert off({0: 99.0}) == [0], "by Friday it has drained"
    # Rain of a week before is no reason any more.
    assert off({0: 0.1}, et0_mm=0.1, given=(0, 7)) == [0]
    assert off({0: 0.1}, et0_mm=0.1, given=(0, 6)) == [0, 6]
    assert off({1: 0.1}, et0_mm=0.1, given=(0, 7)) == [7]


@pytest.mark.parametrize("days", [1, 7])
def test_a_soaking_rain_turns_off_the_day_on_which_it_falls(days: int) -> None:
    """The first day of all too, and one that is alone."""
    every = kept({}, days)
    assert every[0] == 0 and len(every) == (1 if days == 1 else 2)
    assert kept({0: 40.0}, days) == every[1:]


def test_no_day_is_turned_off_before_the_rain_nor_for_a_drizzle() -> None:
    """Rain of the second watered day leaves the first as it was."""
    first, second = kept({}, 7)
    assert kept({second: 40.0}, 7) == [first]
    assert kept({first: 0.2}, 7) == [first, second]


def test_rain_that_somebody_saw_turns_off_that_run_on_that_day() -> None:
    """Only a day that the run has, only of the run that is named, beside what is off already."""
    friday = MONDAY + timedelta(4)
    run, other = weekly(skip=(MONDAY,)), weekly(id="other")
    seen = frozenset({friday, MONDAY + timedelta(1)})
    found = without_rained((run, other), {run.id: seen})
    assert [one.skip for one in found] == [(MONDAY, friday), ()]
    assert found[0].days() == () and without_rained((run,), {}) == (run,)
