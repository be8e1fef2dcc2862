"""What the entries of a journal say of the tasks of a plan, entry by entry."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import cast

from turfplan.book.entries import Book
from turfplan.message import Message, Number
from turfplan.phrases import changes
from turfplan.phrases import history as phrases
from turfplan.planning.befallen import LOSSES, because_lost, looks_at, seed_lost
from turfplan.planning.lost_days import put_off_by
from turfplan.records.journal import JournalEntry, SeedLoss
from turfplan.records.past import LawnEvent, SeedLost
from turfplan.records.plan_task import Amount, Task, WhatHappened
from turfplan.work.phases.befallen import LOST_SEED, look_id, why_waits
from turfplan.work.phases.buying import MORE_SEED

# What is done about seed that was lost, and again where more of it is.
AFTER_LOSS = (f"inspect.{LOST_SEED}", f"collect.{MORE_SEED}")
# The look at which seed has come up.
GERMINATION = "inspect.germination"
# What is left of a task by rounding alone is not left to do.
HAIR = 1e-9


@dataclass(slots=True)
class JournalState:
    """What the entries of a journal have said so far, by task id.

    It grows entry by entry. Days are ordinals. `fresh` are those of which entries speak that the
    plan before did not know.
    """

    done: dict[str, int] = field(default_factory=dict)
    actual: dict[str, WhatHappened] = field(default_factory=dict)
    part: dict[str, float] = field(default_factory=dict)
    skipped: set[str] = field(default_factory=set)
    held: dict[str, int] = field(default_factory=dict)
    booked: dict[str, int] = field(default_factory=dict)
    blocked: dict[str, tuple[int, Message]] = field(default_factory=dict)
    rest_from: dict[str, tuple[int, Message]] = field(default_factory=dict)
    because: dict[str, Message] = field(default_factory=dict)
    # The number of the entry by which each reason came.
    came_by: dict[str, int] = field(default_factory=dict)
    not_done: set[str] = field(default_factory=set)
    fresh: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)
    losses: list[SeedLost] = field(default_factory=list)
    germinated: date | None = None

    @property
    def over(self) -> frozenset[str]:
        """What is done or left out."""
        return frozenset(self.skipped.union(self.done))

    def tell(self, task: str, because: Message, number: int) -> None:
        """Why a task changes, by the entry of this number."""
        self.because[task] = because
        self.came_by[task] = number

    def news(self, known: int) -> dict[str, Message]:
        """The reasons that came after so many entries: those before have done what they did."""
        last = dict.fromkeys(self.because, known + 1) | self.came_by
        return {task: why for task, why in self.because.items() if last[task] > known}


def state_of_tasks(
    book: Book, entries: Sequence[JournalEntry], tasks: Mapping[str, Task]
) -> JournalState:
    """What the entries say of tasks, in order: a later one may take back what was held before."""
    state = JournalState()
    for entry in entries:
        if entry.kind in ("done", "delivered") and entry.task and entry.on:
            _worked(state, entry, entry.task, entry.on)
        elif entry.kind == "skipped" and entry.task:
            state.skipped.add(entry.task)
        elif entry.kind == "moved" and entry.task and entry.to:
            state.held[entry.task] = entry.to.toordinal()
            state.tell(entry.task, changes.because_by_hand(), entry.number)
        elif entry.kind == "booked" and entry.task and entry.to:
            # It is asked for, and gives way to what its owner decided.
            state.booked[entry.task] = entry.to.toordinal()
            if entry.task not in state.held:
                state.tell(entry.task, changes.because_booked(), entry.number)
        elif entry.kind in ("rained_off", "refused") and entry.on:
            by_hand = state.held.keys() | state.booked.keys()
            waiting = {n: day for n, (day, _) in state.blocked.items() if n not in by_hand}
            names = put_off_by(book, entry, tasks, state.held, waiting)
            _put_off(state, entry, entry.on, names)
        elif entry.kind == "measured" and entry.quantity in LOSSES:
            _seen_of_seed(state, book, entry, tasks)
        elif entry.kind == "not_done" and entry.task:
            state.not_done.add(entry.task)
            state.tell(entry.task, changes.because_not_done(), entry.number)
            if entry.on:
                _put_off(state, entry, entry.on, (entry.task,))
    return state


def _worked(state: JournalState, entry: JournalEntry, task: str, on: date) -> None:
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
    in_part = changes.because_part_done(share=Number(share, "percent"))
    if share >= 1 - HAIR:
        state.done[task] = last.toordinal()
        state.rest_from.pop(task, None)
    else:
        # Whoever tells of a part has told of that day: the rest is for another one.
        state.rest_from[task] = (last.toordinal() + 1, in_part)
    state.refused.discard(task)
    state.held.pop(task, None)
    state.booked.pop(task, None)
    told = changes.because_done() if task in state.done else in_part
    state.tell(task, told, entry.number)


def _seen_of_seed(
    state: JournalState, book: Book, entry: JournalEntry, tasks: Mapping[str, Task]
) -> None:
    """What has become of seed that lies in the ground: it is up, or a share of it is to be sown
    again, and looked at again."""
    up = 1 - book.si("seeding.reserve")
    if entry.quantity == "germination" and (entry.value or 0) >= up and state.germinated is None:
        state.germinated = entry.on
    for sowing in [t for t in tasks.values() if t.plays("sowing") and t.id in state.done]:
        sown = date.fromordinal(state.done[sowing.id])
        _looked(state, entry, sowing, tasks)
        share = seed_lost(book, entry, sowing, sown, tasks)
        if not share or entry.on is None:
            continue
        name = cast(SeedLoss, entry.quantity)
        because = because_lost(name, entry.on, share)
        state.losses.append(SeedLost(name, entry.on, share, sowing.id))
        state.germinated = None
        # What came of an earlier loss is asked for again, too.
        for name_again in (sowing.id, *(t.id for t in looks_at(sowing, tasks)), *AFTER_LOSS):
            if state.done.pop(name_again, None) is not None:
                _take_back(state, name_again, share)
                state.blocked[name_again] = (entry.on.toordinal() + 1, because)
                state.tell(name_again, because, entry.number)


def _looked(
    state: JournalState, entry: JournalEntry, sowing: Task, tasks: Mapping[str, Task]
) -> None:
    """Who says how much has come up has looked: that is not asked once more."""
    look = next((t for t in looks_at(sowing, tasks) if t.id == GERMINATION), None)
    if look is None or entry.quantity != "germination" or entry.on is None:
        return
    if look.id not in state.done and entry.on >= look.start:
        state.done[look.id] = entry.on.toordinal()
        state.actual[look.id] = WhatHappened(start=entry.on, end=entry.on)
        state.tell(look.id, changes.because_done(), entry.number)


def look_again(state: JournalState, events: Sequence[LawnEvent]) -> None:
    """A look at what befell the lawn before is none at what has befallen it since."""
    for event in events:
        look, on = look_id(event.name), event.on.toordinal()
        if state.done.get(look, on) < on:
            del state.done[look]
            state.actual.pop(look, None)
            state.part.pop(look, None)
            state.blocked[look] = (on, why_waits(event))
            state.because[look] = why_waits(event)


def _take_back(state: JournalState, task: str, share: float) -> None:
    """A share of what was done is undone; of a look all of it is."""
    before = state.actual.pop(task, None)
    kept = 1 - share if before is not None and state.part.pop(task, 0.0) else 0.0
    if before is not None and kept > 0 and state.losses[-1].task == task:
        state.part[task] = kept
        state.actual[task] = before.model_copy(update={"share": kept, "amounts": ()})


def _put_off(state: JournalState, entry: JournalEntry, on: date, names: Sequence[str]) -> None:
    """Rain, a load that was sent back or want of time, hands or a machine takes the day from these
    tasks, and a move by hand with it."""
    because, wait = {
        "rained_off": (changes.because_rained_off(), 1),
        "refused": (changes.because_refused(), 2),
        "not_done": (changes.because_not_done(), 1),
    }[entry.kind]
    for name in names:
        state.blocked[name] = (on.toordinal() + wait, because)
        state.tell(name, because, entry.number)
        state.held.pop(name, None)
        state.booked.pop(name, None)
        if entry.kind == "refused":
            state.refused.add(name)


def _used(entry: JournalEntry, before: WhatHappened | None) -> tuple[Amount, ...]:
    """What was logged of a task so far: entries of one unit add up."""
    found = {amount.unit: amount.value for amount in (before.amounts if before is not None else ())}
    if entry.amount is not None and entry.unit is not None:
        found[entry.unit] = found.get(entry.unit, 0.0) + entry.amount
    return tuple(
        Amount.of("used", value, unit, phrases.as_logged()) for unit, value in found.items()
    )
