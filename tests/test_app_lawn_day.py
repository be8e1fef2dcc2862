"""What a day asks of a lawn, as plan and journal say it."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

import pytest

from planning import example
from turfplan.app.lawn_day import lawn_day, rain_hinders, tick_key
from turfplan.records.journal import EntryKind, JournalEntry

PLAN = example("cool-overseed")
SOIL_TEST, SPREADING, WATERING = date(2027, 3, 6), date(2027, 4, 11), date(2027, 9, 15)


def entry(number: int, kind: EntryKind, task: str | None = None, **more: object) -> JournalEntry:
    """An entry of the invented journal."""
    at = datetime(2027, 2, 1, tzinfo=UTC)
    given = {"number": number, "at": at, "kind": kind, "task": task} | more
    return JournalEntry.model_validate(given)


def names(tasks: Sequence[object]) -> list[str]:
    """The ids of tasks."""
    return [task.id for task in tasks]  # type: ignore[attr-defined]


def test_what_is_over_due_and_to_come_stand_apart() -> None:
    """A job is due on each of its days, over the day after, and what follows is told however far
    off it is."""
    before, on, after = (lawn_day(PLAN, (), SOIL_TEST + timedelta(days=n)) for n in (-40, 0, 1))
    assert names(before.coming) == [] and before.following is not None
    assert before.following.id == "soil_test" and not before.due and not before.overdue
    assert names(on.due) == ["soil_test"] and names(on.coming) == [
        "inspect.depth",
        "order_material.1",
    ]
    assert names(after.overdue) == ["soil_test"] and names(after.due) == ["inspect.depth"]


def test_what_is_written_is_asked_no_more_whatever_the_plan_knows() -> None:
    """Done or left out for good; put off until the plan knows of it; a part of it is no end."""
    day = SOIL_TEST
    for kind in ("done", "skipped"):
        assert not lawn_day(PLAN, (entry(1, kind, "soil_test", on=day),), day).due
    halves = tuple(entry(n, "done", "soil_test", on=day, share=0.5) for n in (1, 2))
    assert names(lawn_day(PLAN, halves[:1], day).due) == ["soil_test"]
    assert not lawn_day(PLAN, halves, day).due
    off = (entry(1, "not_done", "soil_test", on=day),)
    assert not lawn_day(PLAN, off, day).due and lawn_day(PLAN, off, day).behind
    known = PLAN.model_copy(update={"journal_entries": 1})
    assert names(lawn_day(known, off, day).due) == ["soil_test"]
    undone = (*off, entry(2, "undo", undoes=1))
    assert names(lawn_day(PLAN, undone, day).due) == ["soil_test"]
    assert lawn_day(PLAN, undone, day).entries == ()


def test_jobs_of_a_day_stand_in_their_order_and_waterings_by_their_time() -> None:
    """Waterings are no jobs, and one that rain took is told for the day."""
    day = lawn_day(PLAN, (), SPREADING)
    assert names(day.due) == ["topdress.1", "incorporate.1"]
    runs = lawn_day(PLAN, (), WATERING).waterings
    times = [run.task.series.start_time for run in runs if run.task.series]
    assert len(times) > 1 and times == sorted(times)
    rained = entry(1, "rained_off", runs[0].task.id, on=WATERING)
    told = lawn_day(PLAN, (rained,), WATERING).waterings
    assert [run.rained for run in told] == [rained, *[None] * (len(runs) - 1)]
    assert not lawn_day(PLAN, (), date(2027, 2, 1)).waterings


def test_a_tick_has_one_key_until_something_is_written_of_its_job() -> None:
    """Two people who see the same have the same key; after an undo it is another."""
    done = entry(1, "done", "soil_test", on=SOIL_TEST)
    first = tick_key((), "soil_test")
    assert first == tick_key((entry(1, "note", text="x"),), "soil_test")
    assert first != tick_key((), "roll")
    keys = {first, tick_key((done,), "soil_test")}
    keys.add(tick_key((done, entry(2, "undo", undoes=1)), "soil_test"))
    assert len(keys) == 3


@pytest.mark.parametrize(("task", "hinders"), [("soil_test", False), ("topdress.1", True)])
def test_rain_hinders_what_the_book_says(task: str, hinders: bool) -> None:
    """What can be done in rain has no day taken by it."""
    found = PLAN.task(task)
    assert found is not None and rain_hinders(PLAN, found) is hinders
