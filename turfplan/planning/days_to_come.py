"""Says of an entry for a day to come whether that can be so."""

from datetime import date

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.records.journal import EntryKind, JournalEntry

# Who leaves a task out may say so for a day to come, and who notes something too.
MAY_COME: tuple[EntryKind, ...] = ("skipped", "note")
# What is known ahead: that nobody is there, and a ban of watering that was announced.
_KNOWN_AHEAD: tuple[EntryKind, ...] = ("not_done",)


def can_be_so(entry: JournalEntry, today: date) -> bool:
    """Whether what an entry says of a day to come can be so: what is told as over of a day more
    than half a year ahead is a slip of the year, whatever the clock of its writer says."""
    if entry.on is None or entry.kind in (*MAY_COME, *_KNOWN_AHEAD):
        return True
    return entry.quantity == "water_ban" or (entry.on - today).days <= HALF_A_YEAR
