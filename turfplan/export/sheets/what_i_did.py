"""The last pages of the season book: what was done, with pictures, and when it goes on."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from turfplan.export.sheets.look import shown, span_text
from turfplan.export.sheets.names import operation_name
from turfplan.message import Day, Message, Number, as_written, listed
from turfplan.messages import Words
from turfplan.messages.entry import amount_value, item_name
from turfplan.phrases import season_book as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task

# Lines to write on below what is known, and the least number of frames for pictures.
BLANK_LINES, LEAST_LINES = 4, 7
# The kinds of work that a season can begin with.
BEGINNING: Final[tuple[Role, ...]] = ("low_cut", "digging", "spreading", "sowing", "planting")


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture as an address that holds it, and what it is called."""

    caption: str
    address: str


@dataclass(frozen=True, slots=True)
class DoneLine:
    """One thing that was done: when, what, and what it took."""

    when: str
    what: str
    used: str


@dataclass(frozen=True, slots=True)
class DoneRecord:
    """What was done, lines to go on with, pictures and frames for more, and how it goes on; where
    it `measures_gap`, lines for what a straightedge shows before and after."""

    lines: tuple[DoneLine, ...]
    blank: range
    photos: tuple[Photo, ...]
    frames: tuple[str, ...]
    next_first: str
    measures_gap: bool = True


def record_of(plan: Plan, words: Words, photos: tuple[Photo, ...]) -> DoneRecord:
    """What the plan knows of what was done, with the pictures that lie beside its brief."""
    done = [task for task in shown(plan.tasks) if task.closed == "done"]
    lines = tuple(_line(task, words) for task in done)
    named = (
        phrases.frame_before(),
        phrases.frame_after(),
        *(() if plan.care_alone else (phrases.frame_gap(),)),
        phrases.frame_year(),
    )
    return DoneRecord(
        lines=lines,
        blank=range(max(BLANK_LINES, LEAST_LINES - len(lines))),
        photos=photos,
        frames=tuple(words.text(name) for name in named[len(photos) :]),
        measures_gap=not plan.care_alone,
        next_first=words.text(_next(plan, words)),
    )


def _line(task: Task, words: Words) -> DoneLine:
    start, end = task.days
    used = words.value(listed(_used(task), "comma"))
    return DoneLine(span_text(start, end, words, year=True), task.title.text, used)


def _used(task: Task) -> Iterator[Message]:
    """What was used, and the share that was done where it is not all."""
    happened = task.actual
    if happened is None:
        return
    for amount in happened.amounts:
        yield phrases.used(amount=amount_value(amount), item=item_name(amount.item))
    if happened.share < 1:
        yield phrases.share_done(share=Number(happened.share, "percent"))


def _next(plan: Plan, words: Words) -> Message:
    """When the next season begins: what is handed over, else the first window after the last day
    in which work of this season that a season can begin with is open. None begins with a feeding,
    since its law and what was given before say when it may come, with mending, which a look asks
    for, nor with what ends a season.
    """
    tasks = shown(plan.tasks)
    if plan.handover:
        first = min(plan.handover, key=lambda later: later.start)
        return _begins(first.start, first.title)
    last = max((task.end for task in tasks), default=None)
    used = {task.operation for task in tasks if task.plays(*BEGINNING)}
    later = [w for w in plan.windows if last and w.start > last and w.operation in used]
    if not later:
        return phrases.next_unknown()
    window = min(later, key=lambda w: (w.start, w.operation))
    return _begins(window.start, as_written(operation_name(plan, window.operation, words)))


def _begins(day: date, what: Message) -> Message:
    return phrases.next_first(day=Day(day), what=what)
