"""Days that somebody wishes for: a job is moved whole, what is booked gives way to rules."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import TODAY, example, example_brief, first, kind, plan_brief, plan_of
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

COOL = "cool-overseed"


def again(before: Plan, name: str, *entries: dict[str, Any]) -> Plan:
    """An example planned again with entries of the journal."""
    at = datetime(2027, 2, 1, tzinfo=UTC)
    journal = tuple(JournalEntry(number=n, at=at, **entry) for n, entry in enumerate(entries, 1))
    return plan_brief(example_brief(name), journal=journal, previous=before, now=TODAY)


def wished(plan: Plan, task: Task, day: date, name: str = COOL, kind_of: str = "moved") -> Task:
    """A task after it was wished for a day."""
    made = again(plan, name, {"kind": kind_of, "task": task.id, "to": day})
    assert made.conflict is None
    found = made.task(task.id)
    assert found is not None
    return found


def long_pass(plan: Plan) -> Task:
    """A pass of two days or more."""
    return next(t for t in kind(plan, "topdress") if t.duration_days > 1)


@pytest.mark.parametrize("kind_of", ["moved", "booked"])
@pytest.mark.parametrize("later", [7, 3])
def test_a_job_of_several_days_is_moved_whole(kind_of: str, later: int) -> None:
    """To the next week-end, or to a Tuesday and the day after: as many days as before."""
    plan = example(COOL)
    task = long_pass(plan)
    day = task.start + timedelta(days=later)
    found = wished(plan, task, day, kind_of=kind_of)
    assert (found.start, found.end) == (day, day + (task.end - task.start))
    assert (found.held, found.booked) == (kind_of == "moved", kind_of == "booked")


def test_what_goes_with_a_pass_goes_with_it_on_a_day_off() -> None:
    """The mix is worked in on the Tuesday of the pass, though nobody works on Tuesdays."""
    plan = example(COOL)
    task = first(plan, "topdress")
    tuesday = task.start + timedelta(days=2)
    made = again(plan, COOL, {"kind": "moved", "task": task.id, "to": tuesday})
    worked = made.task(task.id.replace("topdress", "incorporate"))
    assert worked is not None and worked.start == tuesday
    others = [t for t in made.tasks if t.closed is None and t.series is None and t.id != task.id]
    assert {t.start for t in others if t.start.weekday() == 1} <= {tuesday} | {
        t.start for t in plan.tasks
    }


def test_a_booking_gives_way_to_its_season_and_a_move_goes_before_it() -> None:
    """Booked for July a pass stays in spring; booked after it was moved, or before, it stays where
    its owner held it."""
    plan = example(COOL)
    task = first(plan, "topdress")
    july, week = date(2027, 7, 3), task.start + timedelta(days=7)
    kept = wished(plan, task, july, kind_of="booked")
    assert kept.start == task.start and not kept.booked and not kept.held
    moved = {"kind": "moved", "task": task.id, "to": week}
    booked = {"kind": "booked", "task": task.id, "to": week + timedelta(days=7)}
    for entries in ((moved, booked), (booked, moved)):
        found = again(plan, COOL, *entries).task(task.id)
        assert found is not None and found.start == week and found.held, entries


def test_a_booking_ends_with_what_is_done_or_rained_off() -> None:
    """Done on another day it is over; rained off it is free again."""
    plan = example(COOL)
    task = first(plan, "topdress")
    day = task.start + timedelta(days=2)
    booked = {"kind": "booked", "task": task.id, "to": day}
    done = again(plan, COOL, booked, {"kind": "done", "task": task.id, "on": task.start})
    over = done.task(task.id)
    assert over is not None and over.closed == "done" and not over.booked
    rained = again(plan, COOL, booked, {"kind": "rained_off", "task": task.id, "on": day})
    free = rained.task(task.id)
    assert free is not None and free.start > day and not free.booked


def test_a_booking_is_planned_again_to_the_same_days() -> None:
    """Nothing new, nothing moved: the same plan, and the booking in its file."""
    plan = example(COOL)
    task = long_pass(plan)
    entry = {"kind": "booked", "task": task.id, "to": task.start + timedelta(days=3)}
    once = again(plan, COOL, entry)
    twice = again(once, COOL, entry)
    assert twice.revision == once.revision
    assert [(t.id, t.start, t.end) for t in twice.tasks] == [
        (t.id, t.start, t.end) for t in once.tasks
    ]
    there = once.task(task.id)
    assert there is not None and there.model_dump(mode="json")["booked"] is True
    assert "booked" not in task.model_dump(mode="json")


def test_machines_rest_on_quiet_days_whatever_is_booked() -> None:
    """Where Sundays are quiet a booking does not open one to the tines, and opens a Tuesday."""
    quiet = {"local": {"quiet_days": ["sun"]}, "calendar": {"weekdays": ["fri", "sat"]}}
    plan = plan_of(quiet)
    task = first(plan, "core_aerate")
    at = datetime(2027, 2, 1, tzinfo=UTC)
    for ahead, kept in ((6, False), (1, True)):
        day = task.start + timedelta(days=(ahead - task.start.weekday()) % 7 - 7)
        entry = JournalEntry(number=1, at=at, kind="booked", task=task.id, to=day)
        found = plan_of(quiet, journal=(entry,), previous=plan).task(task.id)
        assert found is not None and (found.start == day) == kept, (day, found.start)


@pytest.mark.parametrize("kind_of", ["moved", "booked"])
def test_a_pass_that_is_held_keeps_what_goes_before_it(kind_of: str) -> None:
    """The first pass of a session, held a month later than the second was to be: the low cut and
    the cores come before it, and not after."""
    plan = example(COOL)
    task, second = kind(plan, "topdress")[:2]
    day = second.start + timedelta(days=1)
    made = again(plan, COOL, {"kind": kind_of, "task": task.id, "to": day})
    found = made.task(task.id)
    assert found is not None and found.start == day
    before = [
        t
        for t in made.tasks
        if t.operation in ("mow_low", "core_aerate") and t.end <= day and t.closed is None
    ]
    assert {t.operation for t in before} == {"mow_low", "core_aerate"}


@pytest.mark.parametrize("name", ["southern-hemisphere", "transition-fescue", "st-augustine-plugs"])
@pytest.mark.parametrize("kind_of", ["moved", "booked"])
def test_a_wish_that_is_not_met_opens_no_day(name: str, kind_of: str) -> None:
    """Booked, or moved, onto the first weekday that its rules are against: what is planned instead
    lies on days of work, and the judge finds no fault."""
    plan = example(name)
    for operation in ("core_aerate", "incorporate", "feed_nitrogen"):
        for task in kind(plan, operation)[:1]:
            for ahead in (2, 3, 100):
                day = task.start + timedelta(days=ahead)
                made = again(plan, name, {"kind": kind_of, "task": task.id, "to": day})
                found = made.task(task.id)
                assert made.conflict is None and found is not None
                assert (found.held or found.booked) <= (found.start == day)
