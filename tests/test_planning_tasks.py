"""Tasks as they leave the planner: dates, windows, fallbacks and amounts against the brief and one
another.
"""

from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from planning import POSSIBLE, example, example_brief, kind, plan_of
from test_work_campaigns import days_of, plain
from turfplan.calendar_days import WEEKDAYS
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.phrases import reasons as because
from turfplan.planning.tasks import (
    _best,
    _depends,
    _facts,
    _fallback,
    _reasons,
    _season_of,
    _strongest,
    _window,
)
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.records.plan_task import Task, TaskWindow
from turfplan.units import System
from turfplan.work.drafts import Draft

BOOK = load_book()
DAY = timedelta(days=1)
QUICK = ("british-metric", "deep-two-inches")


def jobs(name: str) -> list[Task]:
    """The tasks of an example that are no waterings."""
    return [t for t in example(name).tasks if t.series is None]


def next_working_day(name: str, task: Task) -> date | None:
    """The first day after a task on which its brief lets it be done, by the brief's own weekdays;
    None beyond the plan. Shops are called and gone to on any of those days but Sundays.
    """
    brief = example_brief(name)
    days: tuple[str, ...] = tuple(brief.calendar.weekdays or ("sat", "sun"))
    if task.plays("delivery") and brief.delivery.allowed_weekdays:
        days = tuple(brief.delivery.allowed_weekdays)
    if task.plays("collecting", "calling"):
        days = tuple(day for day in days if day != "sun")
    for count in range(1, 60):
        day = task.end + count * DAY
        kept = example(name).holidays
        free = any(s.start <= day <= s.end for s in brief.calendar.unavailable)
        free = free or (kept is not None and day in kept.days)
        if WEEKDAYS[day.weekday()] in days and not free:
            return day
    return None


@pytest.mark.full
@pytest.mark.parametrize("name", QUICK)
def test_a_fallback_is_the_next_working_day_of_the_window(name: str) -> None:
    """The very next one where it still lies in the window, else none; orders, deliveries, marks and
    permits, which keep to days of business, apart.
    """
    seen = 0
    for task in jobs(name):
        if task.plays("delivery", "ordering", "marking") or task.operation == "permit":
            continue
        following = next_working_day(name, task)
        expected = following if following is not None and following <= task.window.end else None
        assert task.fallback_day == expected, task.id
        seen += expected is not None
    assert seen > 5


@pytest.mark.full
@pytest.mark.parametrize("name", POSSIBLE)
def test_windows_hold_the_work(name: str) -> None:
    """The first day and the best one lie in the window; what must come first is over, and stands in
    the plan.
    """
    plan = example(name)
    ends = {t.id: t.end for t in plan.tasks}
    for task in jobs(name):
        assert task.window.start <= task.start <= task.window.end, task.id
        assert task.window.start <= task.best <= task.window.end, task.id
        assert task.id not in task.depends_on and all(
            ends[before] <= task.end for before in task.depends_on
        ), task.id
    starts = [(t.start, t.id) for t in plan.tasks]
    assert starts == sorted(starts)


@pytest.mark.full
@pytest.mark.parametrize("name", QUICK)
def test_orders_and_deliveries_carry_the_load_that_is_bought(name: str) -> None:
    """Task, title and line say one volume, an order that of all its deliveries; they cover the
    passes.
    """
    plan = example(name)
    lines = [line for line in plan.order if line.item == "mix"]
    assert lines
    for number, line in enumerate(lines, 1):
        task = plan.task(f"delivery.{number}")
        assert task is not None
        assert [a.value for a in task.amounts if a.item == "volume"] == [line.value]
        us = plan.lawn.units is System.US
        assert f"{line.value_us if us else line.value:g} {'yd³' if us else 'm³'}" in str(task.title)
    asked = [a.value for t in kind(plan, "order_material") for a in t.amounts]
    assert sum(asked) == pytest.approx(sum(line.value for line in lines if line.loads))
    taken = sum(a.value for t in kind(plan, "topdress") for a in t.amounts if a.item == "volume")
    assert sum(line.value for line in lines) >= taken


@pytest.mark.full
def test_titles_tell_how_much() -> None:
    """20 lb of seed for 5,000 ft2 at 4 lb, rounded up as it is bought; no word in braces is
    left.
    """
    plan = plan_of()
    (sown,) = kind(plan, "overseed")
    assert "20 lb" in str(sown.title)
    texts = [
        str(text) for t in plan.tasks for text in (t.title, t.go or "", t.fallback or "", *t.how)
    ]
    assert not [text for text in texts if "{" in text]


WHY = Reason("rule", as_written("why"), ("topdress.sand_limit",))
FIRST = plain().first_day
TASK = Draft("topdress.1", "topdress", "level", as_written(""), 1, facts=("seeding.reserve",))


def allowed(strength: Strength, *ranges: tuple[int, int], **more: Any) -> Allowed:
    """Days that a rule leaves to the pass, counted from the first of the plan."""
    days = DaySet.of([(FIRST + a, FIRST + b) for a, b in ranges])
    return Allowed(more.pop("id", "a"), "topdress.1", days, strength, WHY, **more)


def placed(*dropped: Any, low: int = 10, high: int = 20) -> Any:
    """A candidate whose pass may lie between two days; rules that were given up."""
    earliest, latest = {"topdress.1": FIRST + low}, {"topdress.1": FIRST + high}
    bounds = SimpleNamespace(earliest=earliest, latest=latest)
    dated = SimpleNamespace(dropped=dropped, schedule=SimpleNamespace(bounds=bounds))
    return SimpleNamespace(dated=dated, season=SimpleNamespace(drafts=()))


def span(candidate: Any, chosen: int, *bound: Any) -> tuple[int, int]:
    """The window of the pass on a day, from the first of the plan."""
    found = _window(plain(), candidate, TASK, FIRST + chosen, bound)
    return found.start.toordinal() - FIRST, found.end.toordinal() - FIRST


def test_the_window_of_a_task_is_the_open_stretch_that_holds_its_day() -> None:
    """From the first day of the plan; of rules that open days, and were not given up; else from its
    earliest to its latest day, and to the chosen one."""
    opens = allowed(Strength.STRONG, (-9, 5), (8, 15), opens=True)
    assert span(placed(), 5, opens) == (0, 5) and span(placed(), 8, opens) == (8, 15)
    assert span(placed(), 15, opens) == (8, 15) and span(placed(), 16, opens) == (10, 20)
    assert span(placed(opens), 12, opens) == (10, 20)
    assert span(placed(), 12, allowed(Strength.STRONG, (8, 15))) == (10, 20)
    assert span(placed(), 3) == (3, 20) and span(placed(), 25) == (10, 25)


def test_the_best_day_lies_in_the_window() -> None:
    """Its wished day, or the nearest end."""
    first = date.fromordinal(FIRST)
    window = TaskWindow(start=first, end=first + 9 * DAY)
    assert _best(window, FIRST + 4) == first + 4 * DAY
    assert (_best(window, FIRST - 1), _best(window, FIRST + 10)) == (first, first + 9 * DAY)


def test_a_fallback_is_the_next_day_of_work_in_the_window() -> None:
    """On its last day still; never the day itself."""
    days = DaySet.from_days([FIRST + n for n in (3, 5)])
    calendar = replace(plain().calendar, work=days, machines=days, household=days)
    setting, first = replace(plain(), calendar=calendar), date.fromordinal(FIRST)

    def after(end: int, last: int) -> date | None:
        window = TaskWindow(start=first, end=first + last * DAY)
        return _fallback(setting, TASK, FIRST + end, window)

    assert after(3, 5) == first + 5 * DAY and after(2, 5) == first + 3 * DAY
    assert after(3, 4) is None and after(5, 9) is None


def test_a_task_is_as_strong_as_the_strongest_rule_of_its_days() -> None:
    """Advice without one; what shares the days of another is bound to them."""
    rules = [allowed(Strength.ADVICE, (0, 1)), allowed(Strength.STRONG, (0, 1))]
    lag = Lag("l", "mow", "topdress.1", Strength.HARD, WHY, DayStep(1))
    assert _strongest(TASK, [*rules, lag]) is Strength.STRONG
    assert _strongest(TASK, [lag]) is Strength.ADVICE
    assert _strongest(replace(TASK, beside="mow"), rules) is Strength.HARD
    assert _facts(TASK, [*rules, lag]) == ("seeding.reserve", "topdress.sand_limit")


def test_a_task_hangs_on_what_is_done_before_it() -> None:
    """Not on itself, on rules given up, on what goes alongside, nor twice on one."""

    def lag(name: str, before: str, **more: Any) -> Lag:
        return Lag(name, before, "topdress.1", Strength.HARD, WHY, DayStep(1), **more)

    gone = lag("gone", "roll")
    bound = [
        lag("one", "mow_low.1@end"),
        lag("two", "mow_low.1"),
        lag("own", "topdress.1@end"),
        lag("beside", "dethatch", alongside=True),
        gone,
        allowed(Strength.HARD, (0, 1)),
    ]
    assert _depends(placed(gone), TASK, bound) == ("mow_low.1",)


def test_only_passes_seed_and_plants_have_a_season_to_keep() -> None:
    """A pass that of its own session."""
    windows = [days_of("topdress", date(2027, m, 1), date(2027, m, 9)) for m in (4, 9)]
    sow = days_of("overseed", date(2027, 9, 1), date(2027, 9, 9))
    sessions = tuple(SimpleNamespace(window=window) for window in windows)
    candidate: Any = SimpleNamespace(campaign=SimpleNamespace(sessions=sessions, sow_window=sow))
    assert _season_of(candidate, replace(TASK, session=1)) == windows[0]
    assert _season_of(candidate, replace(TASK, session=2)) == windows[1]
    for operation in ("overseed", "plant", "dormant_seed"):
        assert _season_of(candidate, replace(TASK, operation=operation)) == sow  # type: ignore[arg-type]
    assert _season_of(candidate, replace(TASK, operation="mow")) is None


def test_a_day_that_nothing_holds_is_the_first_or_the_last_that_there_is() -> None:
    """By the way that it is asked about."""
    schedule = SimpleNamespace(not_earlier=lambda node: (), not_later=lambda node: ())
    free: Any = SimpleNamespace(dated=SimpleNamespace(schedule=schedule))
    assert _reasons(free, TASK, {}, earlier=True) == (because.first_day(),)
    assert _reasons(free, TASK, {}, earlier=False) == (because.last_day(),)
