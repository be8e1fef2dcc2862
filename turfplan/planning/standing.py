"""Lets a plan that another program, or the same with another book, made stand until there is
news."""

from collections.abc import Sequence
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from turfplan import __version__
from turfplan.book.entries import Book
from turfplan.planning.history import read_history
from turfplan.planning.plan_sources import KnownPlace, SoFar
from turfplan.planning.repair import with_roles
from turfplan.records.journal import JournalEntry
from turfplan.records.numbering import in_rules_words
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def standing_plan(
    book: Book, place: KnownPlace, so_far: SoFar, *, now: datetime, brief_sha256: str
) -> Plan | None:
    """The plan before as the draft of this run, or None where it has to be planned again.

    A plan stands where other rules made it and nothing else is new: the same brief, as many entries
    of the journal, no weather, nothing taken for not done. So a newer program moves no day by
    itself. Program and book stay those of the plan before, which thus stands until there is news;
    only what is over, and the words, are told anew. `now` is aware.
    """
    previous = so_far.previous
    if previous is None or not _stands(previous, book, place, so_far, brief_sha256):
        return None
    moment = now.astimezone(UTC).replace(microsecond=0)
    today = now.astimezone(ZoneInfo(previous.timezone)).date()
    return _as_draft(with_roles(previous, book), book, so_far.journal, moment, today)


def _stands(
    previous: Plan, book: Book, place: KnownPlace, so_far: SoFar, brief_sha256: str
) -> bool:
    """Whether other rules made the plan before, and there is no other news."""
    ours = (f"turfplan {__version__}", book.version)
    return (
        (previous.program, previous.data_version) != ours
        and previous.conflict is None
        and (previous.brief_sha256, previous.journal_entries) == (brief_sha256, len(so_far.journal))
        and place.weather is None
        and not so_far.assume_not_done
    )


def _as_draft(
    previous: Plan, book: Book, journal: Sequence[JournalEntry], moment: datetime, today: date
) -> Plan:
    """The plan before in the words of the rules, with what has happened to its tasks."""
    known, entries = in_rules_words(previous, journal)
    assert known is not None  # there is a plan before
    update = {
        "tasks": tuple(task for task in known.tasks if _is_drafted(task)),
        "stamp": moment,
        "now": moment,
        "past": read_history(book, entries, known, today),
    }
    return known.model_copy(update=update)


def _is_drafted(task: Task) -> bool:
    """Whether the rules that made a plan still asked for a task: what was skipped or dropped is
    history of the feed alone."""
    return task.closed in (None, "done") and task.status != "CANCELLED"
