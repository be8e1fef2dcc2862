"""A done task stands on the days on which it was done: on the screen, in tables, on sheets, and in
the feed as long as its days are not over.
"""

import csv
import io
from datetime import UTC, date, datetime, timedelta

from planning import example, example_brief, plan_brief
from printed import book_html, english, season_ics, unset
from turfplan.export.sheets.look import in_order_of_work, near_text
from turfplan.export.tables.csv_tables import tasks_csv
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

NAME, TASK = "cool-overseed", "soil_test"


def done_on(day: date, now: datetime) -> tuple[Plan, Task]:
    """The example with its soil sample taken on a day, planned again at a time."""
    first = example(NAME)
    entry = JournalEntry(number=1, at=now, kind="done", task=TASK, on=day)
    plan = plan_brief(example_brief(NAME), now=now, journal=(entry,), previous=first)
    task = plan.task(TASK)
    assert task is not None and task.closed == "done"
    return plan, task


def test_a_task_done_late_is_listed_on_its_day() -> None:
    """Eight days late: lists have the day, the feed's entry of a day that is over stays."""
    planned = example(NAME).task(TASK)
    assert planned is not None
    day = planned.start + timedelta(8)
    now = datetime(day.year, day.month, day.day, 12, tzinfo=UTC) + timedelta(days=1)
    plan, task = done_on(day, now)
    assert task.start == planned.start and task.days == (day, day)
    rows = {row["id"]: row for row in csv.DictReader(io.StringIO(tasks_csv(plan, english(plan))))}
    assert rows[TASK]["start"] == rows[TASK]["end"] == day.isoformat()
    assert near_text(day, english(plan)) in unset(book_html(plan))
    ordered = [t.days[0] for t in in_order_of_work(plan.tasks)]
    assert ordered == sorted(ordered)
    before = season_ics(example(NAME)).decode()
    entry = f"DTSTART;VALUE=DATE:{planned.start:%Y%m%d}"
    assert entry in before and entry in season_ics(plan).decode()


def test_a_task_done_early_moves_in_the_feed() -> None:
    """Five days before its day: its entry is not history yet, and moves to the day it was done."""
    planned = example(NAME).task(TASK)
    assert planned is not None
    day = planned.start - timedelta(5)
    now = datetime(day.year, day.month, day.day, 20, tzinfo=UTC)
    plan, task = done_on(day, now)
    assert task.days == (task.start, task.end) == (day, day)
    assert f"DTSTART;VALUE=DATE:{day:%Y%m%d}" in season_ics(plan).decode()


def test_what_is_done_in_part_spans_what_is_left() -> None:
    """From the day on which it was begun to the last that is planned."""
    planned = example(NAME).task(TASK)
    assert planned is not None
    begun = planned.start - timedelta(3)
    now = datetime(begun.year, begun.month, begun.day, 20, tzinfo=UTC)
    entry = JournalEntry(number=1, at=now, kind="done", task=TASK, on=begun, share=0.5)
    plan = plan_brief(example_brief(NAME), now=now, journal=(entry,), previous=example(NAME))
    task = plan.task(TASK)
    assert task is not None and task.closed is None
    assert task.days == (begun, max(task.end, begun))
