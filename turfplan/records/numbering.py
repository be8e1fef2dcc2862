"""Hands out task numbers once: one that has left the feed never comes back.

Rules name their tasks alike each time; a feed remembers. With `topdress.3` retired, what the rules
call `topdress.3` is `topdress.3.again2` in the feed, an entry of its own; every other task keeps
the name it has. So is a fresh load in place of one that has spoiled: what is retired and stays in
the feed is not there for the rules.
"""

import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import Any

from turfplan.records.dropped_tasks import counted_as
from turfplan.records.journal import JournalEntry
from turfplan.records.lawn_state import LawnState
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan, Retired
from turfplan.records.plan_task import Task

_NUMBERED = re.compile(r"(?P<kin>.+)\.(?P<number>\d+)")
_AGAIN = re.compile(r"(?P<name>.+)\.again\d+")
# What a history holds by task, of all that a revision asks it for.
_OF_TASKS = ("done", "actual", "part_done", "overdue", "held", "booked", "because")


def feed_id(rules_id: str, retired: Collection[str]) -> str:
    """What the feed calls a task that the rules call `rules_id`."""
    name, turn = rules_id, 1
    while name in retired:
        turn += 1
        name = f"{rules_id}.again{turn}"
    return name


def rules_id(feed_id: str, retired: Collection[str]) -> str | None:
    """What the rules call a task that the feed calls `feed_id`: the inverse of `feed_id`.

    None for a retired task.
    """
    if feed_id in retired:
        return None
    again = _AGAIN.fullmatch(feed_id)
    return again["name"] if again else feed_id


def in_rules_words(
    previous: Plan | None, journal: Sequence[JournalEntry]
) -> tuple[Plan | None, tuple[JournalEntry, ...]]:
    """The plan before and the journal with the ids that the rules give.

    Work on dropped tasks counts as that of their kind; other entries about retired tasks are left
    out.
    """
    if previous is not None:
        journal = counted_as(previous, journal)
    if previous is None or not previous.retired:
        return previous, tuple(journal)
    retired = {task.id for task in previous.retired}
    plan = previous.model_copy(
        update={
            "tasks": tuple(
                _renamed(t, {name: rules_id(name, retired) or name for name in _names(t)})
                for t in previous.tasks
                if t.id not in retired
            ),
            "state": _state_renamed(previous.state, lambda name: rules_id(name, retired) or name),
        }
    )
    entries = [
        entry
        if entry.task is None
        else entry.model_copy(update={"task": rules_id(entry.task, retired)})
        for entry in journal
        if entry.task is None or rules_id(entry.task, retired) is not None
    ]
    return plan, tuple(entries)


def in_feed_words(tasks: Iterable[Task], retired: Collection[str]) -> tuple[Task, ...]:
    """The tasks of the rules with the ids of the feed."""
    if not retired:
        return tuple(tasks)
    return tuple(_renamed(t, {name: feed_id(name, retired) for name in _names(t)}) for t in tasks)


def state_in_feed_words(state: LawnState | None, retired: Collection[str]) -> LawnState | None:
    """The state of a lawn with the ids of the feed."""
    return _state_renamed(state, lambda name: feed_id(name, retired)) if retired else state


def past_in_feed_words(
    past: TaskHistory, retired: Collection[str], numbers: Iterable[Retired]
) -> TaskHistory:
    """What has happened, as far as a revision asks for it, with the ids of a feed that has retired
    some; of the `numbers` that are retired and stay there, what was done under them."""
    if not retired:
        return past
    renamed: dict[str, Any] = {
        name: {feed_id(task, retired): value for task, value in getattr(past, name).items()}
        for name in _OF_TASKS
    }
    stays = [r for r in numbers if r.stays]
    renamed["actual"] |= {r.id: r.actual for r in stays if r.actual is not None}
    for r in stays:
        renamed["done"][r.id] = (r.on if r.actual is None else r.actual.end).toordinal()
    skipped = frozenset(feed_id(name, retired) for name in past.skipped)
    return TaskHistory(**renamed, skipped=skipped)


def _state_renamed(state: LawnState | None, renamed: Callable[[str], str]) -> LawnState | None:
    if state is None:
        return None
    facts = tuple(
        fact if fact.task is None else fact.model_copy(update={"task": renamed(fact.task)})
        for fact in state.facts
    )
    return state.model_copy(update={"facts": facts})


def in_order_of_date(tasks: Sequence[Task], fixed: Collection[str]) -> tuple[Task, ...]:
    """The tasks with the numbers of each kind given out by date.

    `fixed` ones (done, held, in the journal) keep theirs.
    """
    kinds: dict[str, list[Task]] = {}
    for task in tasks:
        match = _NUMBERED.fullmatch(task.id)
        if match is not None and task.id not in fixed:
            kinds.setdefault(match["kin"], []).append(task)
    new: dict[str, str] = {}
    for kin, free in kinds.items():
        numbers = sorted(_number(t.id) for t in free)
        ordered = sorted(free, key=lambda t: (t.start, t.end, _number(t.id)))
        new |= {task.id: f"{kin}.{number}" for task, number in zip(ordered, numbers, strict=True)}
    if all(old == name for old, name in new.items()):
        return tuple(tasks)
    return tuple(_renamed(task, new) for task in tasks)


def _number(task_id: str) -> int:
    return int(task_id.rsplit(".", 1)[1])


def _names(task: Task) -> tuple[str, ...]:
    return (task.id, *task.depends_on)


def _renamed(task: Task, names: Mapping[str, str]) -> Task:
    depends_on = tuple(names.get(name, name) for name in task.depends_on)
    return task.model_copy(update={"id": names.get(task.id, task.id), "depends_on": depends_on})
