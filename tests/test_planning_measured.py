"""A soil temperature in the journal moves the windows and the growth of its year, and of no
other.
"""

from datetime import date, timedelta

import pytest

from planning import EXAMPLES, brief_of
from test_seasons import Season, begun, done_until
from turfplan.app.inputs import input_of
from turfplan.climate.record import Climate
from turfplan.planning.window_dates import measured_climate

CHANGE = {"calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}}
DAY = date(2027, 4, 10)


def measured(season: Season, over_c: float, day: date) -> None:
    """Log a soil temperature so many degrees over (below zero: under) the usual one of a day."""
    usual = input_of(season.brief, EXAMPLES).climate.soil_c(day)
    season.log("measured", quantity="soil_temperature", value=usual + over_c, unit="C", on=day)


def climate(over_c: float, day: date = DAY) -> tuple[Climate, Climate]:
    """The usual climate, and the one of a year that was measured."""
    given = input_of(brief_of(), EXAMPLES)
    soil = (
        (day - timedelta(days=30), 0.0),
        (day, given.climate.soil_c(day) + over_c),
        (day + timedelta(days=9), 40.0),
    )
    return given.climate, measured_climate(
        given.climate, given.book, soil, today=day + timedelta(days=1)
    )


@pytest.mark.parametrize("over_c", [4.0, -4.0])
def test_the_last_measurement_counts_and_fades(over_c: float) -> None:
    """On its day the climate is as measured, three weeks on a third of it is left, next year
    nothing; entries of days to come wait.
    """
    usual, now = climate(over_c)
    assert now.soil_c(DAY) == pytest.approx(usual.soil_c(DAY) + over_c)
    assert now.air_c(DAY + timedelta(days=20)) - usual.air_c(
        DAY + timedelta(days=20)
    ) == pytest.approx(over_c / 2.718, abs=0.01)
    assert (
        abs(now.soil_c(DAY + timedelta(days=365)) - usual.soil_c(DAY + timedelta(days=365))) < 1e-6
    )
    assert (now.growth_potential(DAY, "cool") > usual.growth_potential(DAY, "cool")) == (over_c > 0)
    assert now.growth_curve("cool") == usual.growth_curve("cool")
    assert now.year_measured().air_mean_c[99] - usual.air_mean_c[99] == pytest.approx(
        over_c, abs=0.25
    )


@pytest.mark.full
@pytest.mark.parametrize(("over_c", "sign"), [(5.0, -1), (-5.0, 1)])
def test_spring_windows_come_earlier_or_later(over_c: float, sign: int) -> None:
    """A warm spring opens the window of the last spring task earlier, a cold one later; the reason
    says what was measured.
    """
    season = begun(CHANGE, {"season": {"from": date(2027, 3, 1)}, "leveling": {"depth": "1 in"}})
    day = date(2027, 3, 20)
    before = season.plan.task("core_aerate.1")
    assert before is not None and before.start < date(2027, 6, 1)
    measured(season, over_c, day)
    season.make(day)
    after = season.plan.task("core_aerate.1")
    assert after is not None
    assert sign * (after.window.start - before.window.start).days > 0
    later = {t.id: t for t in season.versions[-2].tasks}
    for task in season.plan.tasks:
        # A feeding more or less in this spring numbers those of the next anew.
        if task.series or task.id not in later or task.operation == "feed_nitrogen":
            continue
        if min(task.start, later[task.id].start) > date(2027, 11, 1):
            assert (task.start, task.window) == (later[task.id].start, later[task.id].window)


@pytest.mark.full
def test_a_task_moves_when_its_window_does() -> None:
    """A cold spring closes the day a task was planned on: it moves, and both report and feed say
    that soil was measured.
    """
    season = begun(CHANGE, {"season": {"from": date(2027, 3, 1)}, "leveling": {"depth": "1 in"}})
    day = season.day("core_aerate.1") - timedelta(days=4)
    done_until(season, day)
    season.make(day)
    measured(season, -7.0, day)
    season.make(day, 18)
    moved = [c for c in season.plan.changes if c.kind == "moved" and "measured" in str(c.because)]
    assert moved, season.plan.changes
    assert "13 °F colder than usual on " in str(moved[0].because)
    task = season.plan.task(moved[0].task)
    assert (
        task is not None
        and task.published is not None
        and "colder than usual" in task.published.description
    )


@pytest.mark.full
def test_an_undone_measurement_moves_nothing() -> None:
    """Taken back, the measurement leaves the dates as they were published."""
    season = begun()
    first = {t.id: (t.start, t.window) for t in season.plan.tasks}
    measured(season, 6.0, date(2027, 2, 20))
    season.log("undo", undoes=1)
    season.make(date(2027, 2, 21))
    assert {t.id: (t.start, t.window) for t in season.plan.tasks} == first
