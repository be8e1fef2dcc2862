"""What the journal and the calendar say about the tasks of the plan before: done, skipped, held,
overdue, still open."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from turfplan.book.entries import Book
from turfplan.message import Message, Number
from turfplan.phrases import changes
from turfplan.phrases import history as phrases
from turfplan.planning.lost_days import put_off_by, rained_days
from turfplan.records.constraints import Allowed, Constraint, DaySet, Reason, Strength
from turfplan.records.journal import JournalEntry, standing
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount, Role, Task, WhatHappened
from turfplan.work.drafts import Draft, SeasonDraft

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


@dataclass(slots=True)
class _JournalState:
    """What the entries of a journal have said so far, by task id.

    It grows entry by entry. Days are ordinals.
    """

    done: dict[str, int] = field(default_factory=dict)
    actual: dict[str, WhatHappened] = field(default_factory=dict)
    part: dict[str, float] = field(default_factory=dict)
    skipped: set[str] = field(default_factory=set)
    held: dict[str, int] = field(default_factory=dict)
    booked: dict[str, int] = field(default_factory=dict)
    blocked: dict[str, tuple[int, Message]] = field(default_factory=dict)
    because: dict[str, Message] = field(default_factory=dict)
    not_done: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)


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
    state = _state_of(book, entries, tasks)
    over = state.done.keys() | state.skipped
    held = {name: day for name, day in state.held.items() if name not in over}
    booked = {name: day for name, day in state.booked.items() if name not in over | held.keys()}
    still_open = [task for task in tasks.values() if task.is_open and task.id not in over]
    return TaskHistory(
        done=state.done,
        actual=state.actual,
        part_done={name: share for name, share in state.part.items() if share < 1 - 1e-9},
        skipped=frozenset(state.skipped),
        overdue={} if assume_not_done else _overdue(still_open, state, today),
        held=held,
        booked=booked,
        not_before=state.blocked,
        published={t.id: t.start.toordinal() for t in still_open if t.series is None} | booked,
        germinated=next((e.on for e in entries if e.quantity == "germination" and e.value), None),
        missing_mm=next(
            (e.value for e in reversed(entries) if e.quantity == "depth_missing"), None
        ),
        alive_on=_alive_on(book, entries),
        refused=frozenset(state.refused),
        planned={t.id: t.end.toordinal() for t in tasks.values()},
        soil=tuple(_measured(entries, "soil_temperature")),
        rain=dict(_measured(entries, "rain")),
        because=state.because,
        rained=rained_days(entries),
    )


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


def _state_of(
    book: Book, entries: Sequence[JournalEntry], tasks: Mapping[str, Task]
) -> _JournalState:
    """What the entries say of tasks, in order: a later one may take back what was held before."""
    state = _JournalState()
    for entry in entries:
        if entry.kind in ("done", "delivered") and entry.task and entry.on:
            _worked(state, entry, entry.task, entry.on)
        elif entry.kind == "skipped" and entry.task:
            state.skipped.add(entry.task)
        elif entry.kind == "moved" and entry.task and entry.to:
            state.held[entry.task] = entry.to.toordinal()
            state.because[entry.task] = changes.because_by_hand()
        elif entry.kind == "booked" and entry.task and entry.to:
            # It is asked for, and gives way to what its owner decided.
            state.booked[entry.task] = entry.to.toordinal()
            if entry.task not in state.held:
                state.because[entry.task] = changes.because_booked()
        elif entry.kind in ("rained_off", "refused") and entry.on:
            _put_off(state, entry.kind, entry.on, put_off_by(book, entry, tasks, state.held))
        elif entry.kind == "not_done" and entry.task:
            state.not_done.add(entry.task)
            if entry.on:
                _put_off(state, entry.kind, entry.on, (entry.task,))
    return state


def _worked(state: _JournalState, entry: JournalEntry, task: str, on: date) -> None:
    """A task was worked on for a day: shares, days and amounts add up, and it is over when all of
    it is done."""
    before = state.actual.get(task)
    share = min(1.0, state.part.get(task, 0.0) + entry.share)
    # Entries may be written out of order: the work lasted from its earliest to its latest day.
    first, last = (min(before.start, on), max(before.end, on)) if before is not None else (on, on)
    state.part[task] = share
    state.actual[task] = WhatHappened(
        start=first, end=last, amounts=_used(entry, before), share=share
    )
    if share >= 1 - 1e-9:
        state.done[task] = last.toordinal()
    state.refused.discard(task)
    state.held.pop(task, None)
    state.booked.pop(task, None)
    state.because[task] = (
        changes.because_done()
        if task in state.done
        else changes.because_part_done(share=Number(share, "percent"))
    )


def _put_off(state: _JournalState, kind: str, on: date, names: Sequence[str]) -> None:
    """Rain, a load that was sent back or want of time, hands or a machine takes the day from these
    tasks, and a move by hand with it."""
    because, wait = {
        "rained_off": (changes.because_rained_off(), 1),
        "refused": (changes.because_refused(), 2),
        "not_done": (changes.because_not_done(), 1),
    }[kind]
    for name in names:
        state.blocked[name] = (on.toordinal() + wait, because)
        state.because[name] = because
        state.held.pop(name, None)
        state.booked.pop(name, None)
        if kind == "refused":
            state.refused.add(name)


def _overdue(still_open: Sequence[Task], state: _JournalState, today: date) -> dict[str, int]:
    """The last day of every open task that is over without a word of it in the journal.

    Waterings are not asked about, nor what waits for work that was put off.
    """
    over = {
        t.id: (t.actual.end if t.actual and t.actual.share >= 1 else t.end).toordinal()
        for t in still_open
        if t.end < today
        and t.id not in state.not_done
        and t.id not in state.blocked
        and t.id not in state.held
        and t.series is None
    }
    for name in _waiting(still_open, state, over):
        del over[name]
    return over


def _waiting(
    still_open: Sequence[Task], state: _JournalState, over: Mapping[str, int]
) -> frozenset[str]:
    """Those tasks that seem over but follow work which was put off to a later day, or what follows
    such work: nobody can have done them. `over` holds the last day by task."""
    last = max(over.values(), default=0)
    put_off = {
        t.id: state.held.get(t.id, last + 1)
        for t in still_open
        if t.plays(*FOLLOWED)
        and (t.id in state.blocked or t.id in state.not_done or t.id in state.held)
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


def _used(entry: JournalEntry, before: WhatHappened | None) -> tuple[Amount, ...]:
    """What was logged of a task so far: entries of one unit add up."""
    found = {amount.unit: amount.value for amount in (before.amounts if before is not None else ())}
    if entry.amount is not None and entry.unit is not None:
        found[entry.unit] = found.get(entry.unit, 0.0) + entry.amount
    return tuple(
        Amount.of("used", value, unit, phrases.as_logged()) for unit, value in found.items()
    )


def fixed_nodes(season: SeasonDraft, history: TaskHistory) -> dict[str, int]:
    """Start and end nodes of what is done, overdue or held."""
    fixed: dict[str, int] = {}
    for draft in season.drafts:
        day = history.fixed.get(draft.id)
        if day is None:
            continue
        if draft.id in history.held and draft.id not in history.done:
            # A job of several days is moved whole: how long it takes says where it ends.
            fixed[draft.start_node] = day
            continue
        fixed[draft.end_node] = day
        if draft.duration_days > 1:
            began = (
                history.actual[draft.id].start.toordinal()
                if draft.id in history.actual
                else history.published.get(draft.id, day)
            )
            fixed[draft.start_node] = min(began, day)
    return fixed


def history_constraints(
    history: TaskHistory, drafts: Sequence[Draft], today: date, last_day: int
) -> tuple[Constraint, ...]:
    """Open tasks lie on or after today, and after the day that rain or a refusal took from them."""
    found: list[Constraint] = []
    fixed = history.fixed
    for draft in drafts:
        if draft.id in fixed:
            continue
        first = today.toordinal()
        found.append(
            Allowed(
                f"today:{draft.id}",
                draft.start_node,
                DaySet.of([(first, last_day)]),
                Strength.HARD,
                Reason("history.today", phrases.still_to_do()),
            )
        )
        if draft.id in history.not_before:
            day, words = history.not_before[draft.id]
            found.append(
                Allowed(
                    f"put_off:{draft.id}",
                    draft.start_node,
                    DaySet.of([(day, last_day)]),
                    Strength.HARD,
                    Reason("history.put_off", words),
                )
            )
    return tuple(found)


def looked_again(history: TaskHistory, book: Book) -> int | None:
    """The day (an ordinal) on which a cause that was found alive is looked for again."""
    if history.alive_on is None:
        return None
    return history.alive_on.toordinal() + round(book.si("site.recheck"))
