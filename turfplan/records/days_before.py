"""Remembers on which days open tasks stood, so that what is taken back of a journal gives them
back."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Final

from turfplan.records.journal import JournalEntry, taken_back
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import DaysBefore

# So many plans are remembered: an entry is taken back soon after it was written, or not at all.
REMEMBERED: Final = 4


def days_before(previous: Plan, entries: int) -> tuple[DaysBefore, ...]:
    """What is remembered once the plan before is followed by one that knows so many entries."""
    known = previous.journal_entries
    if entries <= known:
        return previous.days_before
    days = {t.id: t.start for t in previous.tasks if t.is_open and t.series is None}
    kept = (one for one in previous.days_before if one.entries < known)
    return (*kept, DaysBefore(entries=known, days=days))[-REMEMBERED:]


def days_given_back(
    previous: Plan | None, journal: Sequence[JournalEntry]
) -> Mapping[str, date] | None:
    """The days of the last plan that knew nothing of what has been taken back since the plan
    before; None where nothing has, or no such plan is remembered.

    What moved them was promised on the account of that entry alone.
    """
    if previous is None:
        return None
    back = taken_back(journal, previous.journal_entries)
    gone = [entry.number for entry in back if entry.kind != "note"]
    plans = [one for one in previous.days_before if gone and one.entries < min(gone)]
    return plans[-1].days if plans else None
