"""Tasks as they leave the planner: dates, windows, fallbacks and amounts against the brief and one
another.
"""

from datetime import date, timedelta

import pytest

from planning import POSSIBLE, example, example_brief, kind, plan_of
from turfplan.calendar_days import WEEKDAYS
from turfplan.files.reading.book import load_book
from turfplan.records.plan_task import Task
from turfplan.units import System

BOOK = load_book()
DAY = timedelta(days=1)
QUICK = ("british-metric", "deep-two-inches")


def jobs(name: str) -> list[Task]:
    """The tasks of an example that are no waterings."""
    return [t for t in example(name).tasks if t.series is None]


def next_working_day(name: str, task: Task) -> date | None:
    """The first day after a task on which its brief lets it be done, by the brief's own weekdays;
    None beyond the plan.
    """
    brief = example_brief(name)
    days: tuple[str, ...] = tuple(brief.calendar.weekdays or ("sat", "sun"))
    if task.plays("delivery") and brief.delivery.allowed_weekdays:
        days = tuple(brief.delivery.allowed_weekdays)
    for count in range(1, 60):
        day = task.end + count * DAY
        kept = example(name).holidays
        free = any(s.start <= day <= s.end for s in brief.calendar.unavailable)
        free = free or (kept is not None and day in kept.days)
        if WEEKDAYS[day.weekday()] in days and not free:
            return day
    return None


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
