"""Numbers of tasks that never come back once they are retired."""

from datetime import UTC, date, datetime, timedelta

import pytest

from sample_plan import sample_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.numbering import (
    feed_id,
    in_feed_words,
    in_order_of_date,
    in_rules_words,
    rules_id,
)
from turfplan.records.plan import Retired
from turfplan.records.plan_task import Task

PLAN = sample_plan()
FIRST = PLAN.tasks[0]


def task(name: str, day: int = 0, *before: str, lasts: int = 0) -> Task:
    """A task of a name, some days after the first of May."""
    start = date(2027, 5, 1) + timedelta(day)
    changes = {"id": name, "start": start, "end": start + timedelta(lasts), "depends_on": before}
    return FIRST.model_copy(update=changes)


def ids(tasks: tuple[Task, ...]) -> list[str]:
    """Their names in turn."""
    return [t.id for t in tasks]


@pytest.mark.parametrize(
    ("retired", "name"),
    [
        ((), "cut.3"),
        (("cut.2",), "cut.3"),
        (("cut.3",), "cut.3.again2"),
        (("cut.3", "cut.3.again2"), "cut.3.again3"),
        (("cut.3.again2",), "cut.3"),
        (("cut.3", "cut.3.again3"), "cut.3.again2"),
    ],
)
def test_a_task_has_the_next_name_that_is_not_retired(retired: tuple[str, ...], name: str) -> None:
    """And is found by it again; a retired one is none of the rules any more."""
    assert feed_id("cut.3", retired) == name
    assert rules_id(name, retired) == "cut.3"
    for gone in retired:
        assert rules_id(gone, retired) is None


def test_tasks_are_renamed_with_what_they_wait_for() -> None:
    """As the feed has them; without retired numbers they stay."""
    tasks = (task("cut.1"), task("cut.2", 7, "cut.1", "seed"))
    found = in_feed_words(tasks, {"cut.1"})
    assert ids(found) == ["cut.1.again2", "cut.2"]
    assert found[1].depends_on == ("cut.1.again2", "seed")
    assert in_feed_words(tasks, ()) == tasks


def test_a_plan_and_its_journal_are_read_in_the_words_of_the_rules() -> None:
    """Entries of retired tasks are left out, those of no task stay."""

    def entry(number: int, name: str | None) -> JournalEntry:
        at = datetime(2027, 5, 1, tzinfo=UTC)
        return JournalEntry(number=number, at=at, kind="note", text="x", task=name)

    journal = [entry(1, "cut.1.again2"), entry(2, "cut.1"), entry(3, None), entry(4, "cut.2")]
    tasks = (task("cut.1.again2"), task("cut.2", 7, "cut.1.again2"))
    retired = (Retired(id="cut.1", on=date(2027, 4, 1)),)
    before = PLAN.model_copy(update={"tasks": tasks, "retired": retired})
    plan, entries = in_rules_words(before, journal)
    assert plan is not None and ids(plan.tasks) == ["cut.1", "cut.2"]
    assert plan.tasks[1].depends_on == ("cut.1",)
    assert [(e.number, e.task) for e in entries] == [(1, "cut.1"), (3, None), (4, "cut.2")]
    assert in_rules_words(None, journal) == (None, tuple(journal))
    plain = PLAN.model_copy(update={"tasks": tasks, "retired": ()})
    assert in_rules_words(plain, journal) == (plain, tuple(journal))


def test_numbers_of_a_kind_are_given_out_by_date() -> None:
    """Each kind by itself, among those that are free; of one day the shorter, then the lower; what
    waits for a task keeps waiting for it.
    """
    tasks = (
        task("cut.1", 9),
        task("feed.2", 5),
        task("cut.2", 3),
        task("feed.1", 8),
        task("seed", 0, "cut.1"),
    )
    found = in_order_of_date(tasks, ())
    assert ids(found) == ["cut.2", "feed.1", "cut.1", "feed.2", "seed"]
    assert found[4].depends_on == ("cut.2",)
    kept = in_order_of_date(tasks, {"cut.1"})
    assert ids(kept) == ["cut.1", "feed.1", "cut.2", "feed.2", "seed"]
    same = (task("cut.1", 3, lasts=2), task("cut.3", 3), task("cut.2", 3))
    assert ids(in_order_of_date(same, ())) == ["cut.3", "cut.2", "cut.1"]
    ordered = (task("cut.1", 1), task("cut.2", 2))
    assert in_order_of_date(ordered, ()) == ordered
    many = (task("cut.10", 1), task("cut.9", 2))
    assert ids(in_order_of_date(many, ())) == ["cut.9", "cut.10"]
