"""What the journal and the calendar say about the tasks of the plan before: done, skipped, held,
overdue, still open."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date

from turfplan.book.entries import Book
from turfplan.message import Message
from turfplan.phrases import changes
from turfplan.planning.befallen import (
    bans_of,
    events_of,
)
from turfplan.planning.feedings_before import ADDED
from turfplan.planning.journal_state import HAIR, JournalState, look_again, state_of_tasks
from turfplan.planning.lost_days import rained_days
from turfplan.planning.ordered_before import orders_of_deliveries
from turfplan.records.journal import JournalEntry, standing, taken_back
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task

# Work that what comes after it cannot do without.
FOLLOWED: tuple[Role, ...] = (
    "collecting",
    "delivery",
    "low_cut",
    "thatching",
    "coring",
    "spreading",
    "sowing",
    "planting",
    "relaying",
)


def read_history(
    book: Book,
    journal: Sequence[JournalEntry],
    previous: Plan | None,
    today: date,
    *,
    assume_not_done: bool = False,
) -> TaskHistory:
    """The standing entries of a journal against the plan before."""
    entries = standing(journal)
    tasks = {t.id: t for t in previous.tasks} if previous is not None else {}
    state, events = state_of_tasks(book, entries, tasks), events_of(entries)
    known = previous.journal_entries if previous is not None else 0
    state.fresh.update(e.task for e in entries if e.task and e.number > known)
    look_again(state, events)
    _without_void(state, tasks.values(), today)
    still_open = [t for t in tasks.values() if t.is_open and t.id not in state.over]
    over = set(state.over)
    # Of a day that was chosen and is over it is asked whether the work was done, as of any other.
    over |= {t.id for t in tasks.values() if _held_no_more(t, state, today)}
    late = _overdue(still_open, state, today)
    back = (entry.task for entry in taken_back(journal, known))
    because = {name: changes.because_taken_back() for name in back if name} | state.news(known)
    if assume_not_done:
        because = dict.fromkeys(late, changes.because_not_done()) | because
    held = {name: day for name, day in state.held.items() if name not in over}
    booked = {name: day for name, day in state.booked.items() if name not in over | held.keys()}
    return TaskHistory(
        done=state.done,
        actual=state.actual,
        part_done={name: share for name, share in state.part.items() if share < 1 - HAIR},
        skipped=frozenset(state.skipped),
        overdue={} if assume_not_done else late,
        held=held,
        booked=booked,
        not_before=_later(state.rest_from, state.blocked),
        published={t.id: t.start.toordinal() for t in still_open if t.series is None} | booked,
        germinated=state.germinated,
        missing_mm=next(
            (e.value for e in reversed(entries) if e.quantity == "depth_missing"), None
        ),
        alive_on=_alive_on(book, entries),
        refused=frozenset(state.refused),
        planned={t.id: t.end.toordinal() for t in tasks.values()},
        settled=frozenset(t.id for t in tasks.values() if t.closed == "done" and t.actual is None),
        planned_m3=_planned(tasks.values(), "volume", "m3"),
        planned_mm=_planned(tasks.values(), "depth", "mm"),
        soil=tuple(_measured(entries, "soil_temperature")),
        rain=dict(_measured(entries, "rain")),
        because=because,
        told=frozenset(state.because),
        rained=rained_days(entries),
        events=events,
        bans=bans_of(entries),
        losses=tuple(state.losses),
        ordered_by=orders_of_deliveries(tasks),
        nutrients=frozenset(
            ADDED[a.item] for t in tasks.values() for a in t.amounts if a.item in ADDED
        ),
    )


def _later(
    one: Mapping[str, tuple[int, Message]], other: Mapping[str, tuple[int, Message]]
) -> dict[str, tuple[int, Message]]:
    """The later of two days of each task, with why."""
    later = {n: day for n, day in one.items() if n not in other or day[0] > other[n][0]}
    return {**other, **later}


def _planned(tasks: Iterable[Task], item: str, unit: str) -> dict[str, float]:
    """What the tasks of a plan have of an item, by id."""
    return {
        task.id: amount.value
        for task in tasks
        for amount in task.amounts
        if amount.item == item and amount.unit == unit
    }


def _measured(entries: Sequence[JournalEntry], quantity: str) -> Iterator[tuple[date, float]]:
    """What was measured of a quantity, by day, in the order of the entries."""
    for entry in entries:
        if entry.quantity == quantity and entry.on and entry.value is not None:
            yield entry.on, entry.value


def _alive_on(book: Book, entries: Sequence[JournalEntry]) -> date | None:
    """The day on which a cause was last found at work, unless it was found to be over later: one
    that lives or is left as 1 or 0, grubs by their number."""
    limits = {"live_cause": 0.0, "cause_left": 0.0, "grubs": book.si("site.grubs_most")}
    found = [
        (entry.on, entry.value > limits[entry.quantity])
        for entry in entries
        if entry.quantity in limits and entry.on is not None and entry.value is not None
    ]
    return found[-1][0] if found and found[-1][1] else None


def _overdue(still_open: Sequence[Task], state: JournalState, today: date) -> dict[str, int]:
    """The last day of every open task that is over without a word of it in the journal.

    Waterings are not asked about, nor what waits for work that was put off. Of what was done in
    part on its last day, or later, somebody has said that the rest is still to do.
    """
    over = {
        t.id: max(
            (t.actual.end if t.actual and t.actual.share >= 1 else t.end).toordinal(),
            state.held.get(t.id, 0),
        )
        if t.end < today
        else _held_until(t, state)
        for t in still_open
        if (t.end < today and t.id not in state.held) or _held_no_more(t, state, today)
        if t.series is None and not _is_put_off(t, state)
    }
    for name in _waiting(still_open, state, over):
        del over[name]
    return over


def _held_no_more(task: Task, state: JournalState, today: date) -> bool:
    """Whether the days that a task was held on are over: by the plan before, or at once."""
    held = task.id in state.held and _held_until(task, state) < today.toordinal()
    return held and (task.end < today or task.id in state.fresh)


def _without_void(state: JournalState, tasks: Iterable[Task], today: date) -> None:
    """Forget the days chosen by hand that are over, and that the plan before knew and did not
    keep."""
    for task in tasks:
        day = state.held.get(task.id, today.toordinal())
        other = task.start.toordinal() != day and task.end >= today
        if day < today.toordinal() and other and task.id not in state.fresh:
            del state.held[task.id]


def _held_until(task: Task, state: JournalState) -> int:
    """The last day (an ordinal) of a task that is held on a day."""
    return state.held[task.id] + (task.end - task.start).days


def _is_put_off(task: Task, state: JournalState) -> bool:
    """Whether an entry says that a task, or the rest of it, is still to come later than the plan
    before had it; a plan that knew the entry has given it another day."""
    blocked = state.blocked.get(task.id)
    if blocked is not None and task.start.toordinal() < blocked[0]:
        return True
    so_far = state.actual.get(task.id)
    left = so_far is not None and so_far.share < 1 - HAIR and so_far.end >= task.end
    return task.id in state.fresh and (left or blocked is not None or task.id in state.not_done)


def _waiting(
    still_open: Sequence[Task], state: JournalState, over: Mapping[str, int]
) -> frozenset[str]:
    """Those tasks that seem over but follow work which was put off to a later day, or what follows
    such work: nobody can have done them. `over` holds the last day by task."""
    last = max(over.values(), default=0)
    put_off = {
        t.id: state.held.get(t.id, last + 1)
        for t in still_open
        if t.plays(*FOLLOWED) and (t.id in state.held or _is_put_off(t, state))
    }
    following = [t for t in still_open if t.id in over and not (t.actual and t.actual.share > 0)]
    steps = [(before, t.id) for t in following for before in t.depends_on]
    first = {after for before, after in steps if put_off.get(before, 0) > over[after]}
    return with_followers(first, steps)


def with_followers(first: Collection[str], steps: Sequence[tuple[str, str]]) -> frozenset[str]:
    """Some tasks and all that come after them, by steps from one task to the next."""
    found = set(first)
    while further := {after for before, after in steps if before in found} - found:
        found |= further
    return frozenset(found)


def still_missing_mm(history: TaskHistory, previous: Plan | None) -> float | None:
    """The depth that was last measured as missing, once every pass is done.

    None before, or where nothing was measured.
    """
    passes = (
        [t.id for t in previous.tasks if t.plays("spreading") and t.status != "CANCELLED"]
        if previous
        else []
    )
    over = bool(passes) and all(name in history.done or name in history.skipped for name in passes)
    return history.missing_mm if over else None


def looked_again(history: TaskHistory, book: Book) -> int | None:
    """The day (an ordinal) on which a cause that was found alive is looked for again."""
    if history.alive_on is None:
        return None
    return history.alive_on.toordinal() + round(book.si("site.recheck"))
