"""The place of each operation in a lawn's order of work, as the titles of its calendar show it."""

from collections.abc import Mapping, Sequence
from datetime import timedelta
from string import ascii_lowercase

from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# Jobs that follow each other within so many days may come on one, and then follow each other too.
_NEAR = timedelta(days=2)


def places_of(plan: Plan, tasks: Sequence[Task], known: Mapping[str, str]) -> dict[str, str]:
    """By operation its place as it is written before a title: 01, 02, …

    Places that were given once (`known`) stay; what joins later gets one between its neighbors
    (07b), so that no title changes because of another job. Programs that sort the jobs of a day by
    their titles then show them in the order in which they are done.
    """
    ordered = _in_order(plan, [task for task in tasks if task.series is None])
    if not known:
        return {name: f"{number:02}" for number, name in enumerate(ordered, 1)}
    places, before = dict(known), "00"
    for name in ordered:
        if name not in places:
            places[name] = _after(before, places)
        before = places[name]
    return places


def _after(place: str, places: Mapping[str, str]) -> str:
    """The next free place behind one, before the next number."""
    number, taken = place[:2], set(places.values())
    return next(
        found
        for more in ("", *(f"z{letter}" for letter in ascii_lowercase))
        for letter in ascii_lowercase[1:]
        if (found := f"{number}{more}{letter}") not in taken and found > place
    )


def _in_order(plan: Plan, tasks: Sequence[Task]) -> list[str]:
    """The operations of some tasks in the order of the book, but none before what it waits for on
    its days."""
    book = {name: rank for rank, name in enumerate(plan.names)}
    rank = {t.operation: (book.get(f"operations.{t.operation}", len(book)), t.id) for t in tasks}
    waits = _waits(tasks)
    left, ordered = sorted(rank, key=lambda name: rank[name]), []
    while left:
        # A circle cannot be ordered; then the first of the book goes.
        following = next((n for n in left if not waits.get(n, set()) & set(left)), left[0])
        left.remove(following)
        ordered.append(following)
    return ordered


def _waits(tasks: Sequence[Task]) -> dict[str, set[str]]:
    """By operation, those that come first where both fall on one day."""
    by_id = {task.id: task for task in tasks}
    waits: dict[str, set[str]] = {}
    for task in tasks:
        for name in task.depends_on:
            first = by_id.get(name)
            if first is None or first.operation == task.operation:
                continue
            if abs(task.start - first.start) <= _NEAR:
                waits.setdefault(task.operation, set()).add(first.operation)
    return waits
