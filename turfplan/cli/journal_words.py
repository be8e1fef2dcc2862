"""Says in words what an entry of the journal says, and what it changes."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from turfplan.app.entry_effect import Effect, MovedTask
    from turfplan.app.log_entry import LoggedEntry
    from turfplan.message import Message
    from turfplan.messages import Words
    from turfplan.records.journal import JournalEntry

# What the newest plan calls its tasks, by their ids.
Titles = Mapping[str, str]
NO_TITLES: Titles = MappingProxyType({})
# So many moved jobs are named in the lines after an entry; the plan tells all.
NAMED = 6


def entry_told(
    words: "Words", entry: "JournalEntry", titles: Titles = NO_TITLES, given: str = ""
) -> str:
    """What an entry says, in plain words: its task as `titles` call it, by its id alone where they
    know none; `given` is its quantity as it was typed, else it is told in the reader's units."""
    from turfplan.message import Message, Number
    from turfplan.phrases import screen

    value = entry.value if entry.kind == "measured" else entry.amount
    said = given or _quantity(words, value, entry.unit)
    share = Number(entry.share, "percent")
    part = "" if entry.share >= 1 else words.text(screen.log_part(share=share))
    used = words.text(screen.log_used(amount=said)) if entry.amount is not None else ""
    task, on, to = entry.task or "", str(entry.on), str(entry.to)
    if task in titles:
        task = words.text(screen.log_job(title=titles[task], task=task))
    told: dict[str, Callable[[], Message]] = {
        "done": lambda: screen.log_done(task=task, on=on, part=part, used=used),
        "skipped": lambda: screen.log_skipped(task=task),
        "moved": lambda: screen.log_moved(task=task, to=to),
        "booked": lambda: screen.log_booked(task=task, to=to),
        "rained_off": lambda: (
            screen.log_rained_off(task=task, on=on) if task else screen.log_all_rained_off(on=on)
        ),
        "measured": lambda: screen.log_measured(
            quantity=Message(f"screen.quantity.{entry.quantity}"), value=said, on=on
        ),
        "delivered": lambda: screen.log_delivered(task=task, on=on, used=used),
        "refused": lambda: screen.log_refused(task=task, on=on, used=used),
        "not_done": lambda: (
            screen.log_put_off(task=task, on=on)
            if entry.on is not None
            else screen.log_not_done(task=task)
        ),
        "note": lambda: (
            screen.log_note_of(note=entry.text or "", on=on)
            if entry.on is not None
            else screen.log_note(note=entry.text or "")
        ),
        "undo": lambda: screen.log_undone(number=entry.undoes or 0),
    }
    return words.text(told[entry.kind]())


def _quantity(words: "Words", value: float | None, unit: str | None) -> str:
    """A quantity of an entry in the reader's units."""
    from turfplan.message import Number, Sold
    from turfplan.units import dimension_of, us_twin

    if value is None:
        return ""
    if dimension_of(unit or "") == "days":
        # What is counted says its name already.
        return words.value(Number(value, "grouped"))
    value_us, unit_us = us_twin(value, unit or "")
    return words.value(Sold(value, unit or "", value_us, unit_us))


def tell_entry(words: "Words", entry: "JournalEntry", titles: Titles) -> str:
    """An entry with its number, and who wrote it where they said so."""
    from turfplan.message import as_written
    from turfplan.phrases import screen

    told = as_written(entry_told(words, entry, titles))
    if entry.by:
        told = screen.log_by(entry=told, by=entry.by)
    return words.text(screen.log_entry(number=entry.number, entry=told))


def effect_told(words: "Words", logged: "LoggedEntry") -> "Message | None":
    """What an entry changes, in one sentence; a wish names all that it drags along."""
    from turfplan.message import Listed, as_written, sentences
    from turfplan.phrases import screen
    from turfplan.records.journal import WISHES

    effect: Effect | None = logged.effect
    if effect is None:
        return None
    if not effect:
        nothing = screen.log_moves_nothing() if logged.entry.task else screen.log_moves_none()
        return sentences(nothing, logged.reason)
    wished = logged.entry.kind in WISHES
    # Waterings stand last, and are one line.
    watered = tuple(move for move in effect if move.kind == "watered")
    jobs = tuple(move for move in effect if move.kind != "watered")
    named = (*(jobs if wished else jobs[:NAMED]), *watered)
    lines = [as_written(words.text(_moved(move))) for move in named]
    if len(named) < len(effect):
        lines.append(as_written(words.text(screen.log_move_more(n=len(effect) - len(named)))))
    tasks = Listed(tuple(lines), "semicolon")
    told = screen.log_drags(tasks=tasks) if wished else screen.log_moves(tasks=tasks)
    return sentences(told, logged.reason)


def _moved(move: "MovedTask") -> "Message":
    from turfplan.message import Days, Message
    from turfplan.phrases import screen

    days = Days(move.start, move.end, year=False)
    if move.kind == "watered":
        return screen.log_move_watered(days=days)
    values = (("title", move.title), ("task", move.task), ("days", days))
    return Message(f"screen.log.move.{move.kind}", values)
