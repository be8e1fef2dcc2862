"""Says which work rain on a day, or a load that was sent back, has put off."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date

from turfplan.book.entries import Book
from turfplan.records.journal import JournalEntry
from turfplan.records.plan_task import Task


def put_off_by(
    book: Book, entry: JournalEntry, tasks: Mapping[str, Task], held: Mapping[str, int]
) -> list[str]:
    """The tasks that rain on a day, or a refused load, has put off; `held` are days chosen by hand,
    as ordinals. A series goes on, less the day (`rained_days`).
    """
    if entry.task:
        named = tasks.get(entry.task)
        return [entry.task] if named is None or named.series is None else []
    found = []
    for task in tasks.values():
        day = held.get(task.id)
        starts = date.fromordinal(day) if day is not None else task.start
        ends = starts + (task.end - task.start)
        wet = task.operation in book.operations and book.operations[task.operation].weather in (
            "dry",
            "dry_ground",
        )
        if entry.on and starts <= entry.on <= ends and wet and task.closed is None:
            found.append(task.id)
    return found


def rained_days(entries: Iterable[JournalEntry]) -> dict[str, frozenset[date]]:
    """The days that rain took, by the task that was named."""
    found: dict[str, set[date]] = defaultdict(set)
    for entry in entries:
        if entry.kind == "rained_off" and entry.task and entry.on:
            found[entry.task].add(entry.on)
    return {task: frozenset(days) for task, days in found.items()}
