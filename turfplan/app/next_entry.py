"""The next entry of a journal: its number, its moment, its key, and what was told of its task while
it was looked at."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from pydantic import ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.files.journal import JournalFile
from turfplan.records.form_faults import form_message
from turfplan.records.journal import JournalEntry


class ToldMeanwhile(Exception):
    """Somebody wrote of the same task between the look at the journal and the writing."""


def unless_told_meanwhile(
    entry: JournalEntry, seen: JournalFile
) -> Callable[[JournalFile], JournalEntry]:
    """Makes an entry from the journal as it stands when it is written: under the next number,
    unless its key is there by now; raises `ToldMeanwhile` where that says more of its task than
    what was looked at for slips."""

    def make(found: JournalFile) -> JournalEntry:
        known = entry_of_key(entry.key, found)
        if known is None and _told_of(entry.task, found) != _told_of(entry.task, seen):
            raise ToldMeanwhile
        return known or entry.model_copy(update={"number": _next_number(found)})

    return make


def _told_of(task: str | None, journal: JournalFile) -> tuple[int, ...]:
    """The numbers of the entries of a task, and of those that take them back."""
    if task is None:
        return ()
    own = {entry.number for entry in journal.entries if entry.task == task}
    return tuple(e.number for e in journal.entries if e.number in own or e.undoes in own)


def entry_of_key(key: str | None, journal: JournalFile) -> JournalEntry | None:
    """The entry that has a key already."""
    if key is None:
        return None
    return next((entry for entry in journal.entries if entry.key == key), None)


def next_entry(fields: dict[str, Any], journal: JournalFile) -> JournalEntry:
    """An entry of some fields, with the next number and this moment."""
    at = datetime.now(UTC).replace(microsecond=0)
    try:
        return JournalEntry.model_validate({**fields, "number": _next_number(journal), "at": at})
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(map(str, e["loc"])), form_message(e))
            for e in error.errors(include_url=False)
        ) from None


def _next_number(journal: JournalFile) -> int:
    return max((entry.number for entry in journal.entries), default=0) + 1
