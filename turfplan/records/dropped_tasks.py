"""Work that was written down under the id of a task which the plan has dropped counts as the task
of the same kind that is still in it: what was spread was spread, whatever it was called."""

import re
from collections.abc import Collection, Sequence
from datetime import date

from turfplan.records.book_names import COLLECTIVES
from turfplan.records.journal import JournalEntry, standing
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# Tasks of one kind are told apart by their numbers.
_NUMBERED = re.compile(r"(?P<kind>[a-z_]+)\.(?P<number>\d+)(?:\.again\d+)?")
WORKED = ("done", "delivered")
NEAR_DAYS = 60


def counted_as(previous: Plan, journal: Sequence[JournalEntry]) -> tuple[JournalEntry, ...]:
    """The entries, those of work on a dropped task under the id of the task that they count as.

    That is the one that the plan before has counted them as, else the open one whose days are the
    nearest; an entry for which there is none stays as it was written.
    """
    # Of work that was known when its task was dropped nothing changes.
    dropped = {t.id for t in previous.tasks if t.closed == "dropped" and t.actual is None}
    retired = {task.id for task in previous.retired if not task.stays}
    dropped |= retired
    stands = standing(journal)
    lost = [e for e in stands if e.kind in WORKED and e.task in dropped and e.on is not None]
    if not lost:
        return tuple(journal)
    taken = {e.task for e in stands if e.kind in WORKED and e.task is not None}
    names: dict[str, str] = {}
    for entry in lost:
        if entry.task is None or entry.on is None or entry.task in names:
            continue
        task = same_kind(previous, entry.task, entry.on, taken)
        if task is not None and (task.actual is not None or entry.task not in retired):
            names[entry.task] = task.id
            taken.add(task.id)
    return tuple(
        entry.model_copy(update={"task": names[entry.task]})
        if entry.kind in WORKED and entry.task in names
        else entry
        for entry in journal
    )


def same_kind(plan: Plan, dropped: str, on: date, taken: Collection[str] = ()) -> Task | None:
    """The task as which work on a day counts that was written down under a dropped id: none of
    those that are `taken` by entries of their own."""
    kind = _NUMBERED.fullmatch(dropped)
    if kind is None:
        return None
    alike = [
        task
        for task in plan.tasks
        if task.id not in taken and task.closed in (None, "done") and task.status != "CANCELLED"
        if (other := _NUMBERED.fullmatch(task.id)) and other["kind"] == kind["kind"]
    ]
    known = [t for t in alike if t.actual is not None and t.actual.start <= on <= t.actual.end]
    # What is spread is spread whenever it was; other work belongs to its own days.
    most = None if kind["kind"] in COLLECTIVES["spreading"] else NEAR_DAYS
    near = (t for t in alike if most is None or abs((t.start - on).days) <= most)
    still = known or [t for t in near if t.is_open]
    return min(still, key=lambda t: (abs((t.start - on).days), t.id), default=None)
