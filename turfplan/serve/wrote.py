"""Tells in a reader's words what an entry of the journal says."""

from collections.abc import Callable

from turfplan.message import Day, Message, Number, Sold
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.records.journal import EntryKind, JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve.befell import befell_sentence
from turfplan.units import us_twin


def entry_sentence(plan: Plan, entry: JournalEntry, words: Words) -> str:
    """What an entry says, with who wrote it where they said so."""
    told = _TOLD[entry.kind](entry, _title(plan, entry))
    if entry.by:
        told = phrases.wrote_by(entry=told, by=entry.by)
    return words.text(told)


def _title(plan: Plan, entry: JournalEntry) -> str:
    """What the plan calls a task; one that has left the plan by its id."""
    task = plan.task(entry.task) if entry.task else None
    return str(task.title) if task is not None else entry.task or ""


def _day(entry: JournalEntry) -> Day:
    day = entry.to if entry.kind in ("moved", "booked") else entry.on
    return Day(day or entry.at.date(), year=False)


def _worked(entry: JournalEntry, title: str) -> Message:
    if entry.share < 1:
        share = Number(entry.share, "percent")
        return phrases.wrote_part(title=title, on=_day(entry), share=share)
    return phrases.wrote_done(title=title, on=_day(entry))


def _rained(entry: JournalEntry, title: str) -> Message:
    if not title:
        return phrases.wrote_all_rained(on=_day(entry))
    return phrases.wrote_rained(title=title, on=_day(entry))


def _not_done(entry: JournalEntry, title: str) -> Message:
    if entry.on is None:
        return phrases.wrote_not_done(title=title)
    return phrases.wrote_put_off(title=title, on=_day(entry))


def _measured(entry: JournalEntry, title: str) -> Message:
    if (told := befell_sentence(entry, _day(entry))) is not None:
        return told
    value, unit = entry.value or 0.0, entry.unit or ""
    value_us, unit_us = us_twin(value, unit)
    what = Message(f"screen.quantity.{entry.quantity}")
    sold = Sold(value, unit, value_us, unit_us)
    return phrases.wrote_measured(what=what, value=sold, on=_day(entry))


def _noted(entry: JournalEntry, title: str) -> Message:
    if entry.on is None:
        return phrases.wrote_note(note=entry.text or "")
    return phrases.wrote_note_of(note=entry.text or "", on=_day(entry))


_TOLD: dict[EntryKind, Callable[[JournalEntry, str], Message]] = {
    "done": _worked,
    "delivered": _worked,
    "skipped": lambda entry, title: phrases.wrote_skipped(title=title),
    "moved": lambda entry, title: phrases.wrote_moved(title=title, to=_day(entry)),
    "booked": lambda entry, title: phrases.wrote_moved(title=title, to=_day(entry)),
    "rained_off": _rained,
    "refused": lambda entry, title: phrases.wrote_refused(title=title, on=_day(entry)),
    "not_done": _not_done,
    "note": _noted,
    "measured": _measured,
    "undo": lambda entry, title: phrases.wrote_undo(number=entry.undoes or 0),
}
