"""Says which work rain on a day, or a load that was sent back, has put off."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType

from turfplan.book.entries import Book
from turfplan.records.journal import JournalEntry
from turfplan.records.plan_task import Task


def put_off_by(
    book: Book,
    entry: JournalEntry,
    tasks: Mapping[str, Task],
    held: Mapping[str, int],
    waiting: Mapping[str, int] = MappingProxyType({}),
) -> list[str]:
    """The tasks that rain on a day, or a refused load, has put off; `held` are days chosen by hand,
    as ordinals, `waiting` the first days left to what was put off before: rain on a day after that
    takes it too as long as the plan has given it no other. A series goes on, less the day
    (`rained_days`).
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
        if not entry.on or not wet or task.closed is not None:
            continue
        since = waiting.get(task.id) if day is None else None
        waits = since is not None and starts.toordinal() < since <= entry.on.toordinal()
        if starts <= entry.on <= ends or waits:
            found.append(task.id)
    return found


def rained_days(entries: Iterable[JournalEntry]) -> dict[str, frozenset[date]]:
    """The days that rain took, by the task that was named."""
    found: dict[str, set[date]] = defaultdict(set)
    for entry in entries:
        if entry.kind == "rained_off" and entry.task and entry.on:
            found[entry.task].add(entry.on)
    return {task: frozenset(days) for task, days in found.items()}
