"""Lets a plan stand until there is news, whichever program or book made it."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from turfplan.book.entries import Book
from turfplan.planning.heap_again import as_if_open
from turfplan.planning.history import read_history
from turfplan.planning.plan_sources import KnownPlace, SoFar
from turfplan.planning.task_roles import with_roles
from turfplan.records.journal import JournalEntry, says_more
from turfplan.records.numbering import in_rules_words
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def standing_plan(
    book: Book, place: KnownPlace, so_far: SoFar, *, now: datetime, brief_sha256: str
) -> Plan | None:
    """The plan before as the draft of this run, or None where it has to be planned again.

    A plan stands where nothing is new: the same brief and files that it names (a plan of 0.1 does
    not know its files), no entry of the journal that changes something, no weather, nothing taken
    for not done. So
    neither a newer program nor a day that goes by moves a day by itself, and a plan made twice is
    the same. Program and book stay those of the plan before, which thus stands until there is news;
    only what is over, and the words, are told anew. `now` is aware.
    """
    previous = so_far.previous
    if previous is None or not _stands(previous, place, so_far, brief_sha256):
        return None
    moment = now.astimezone(UTC).replace(microsecond=0)
    today = now.astimezone(ZoneInfo(previous.timezone)).date()
    return _as_draft(with_roles(previous, book), book, so_far.journal, moment, today)


def _stands(previous: Plan, place: KnownPlace, so_far: SoFar, brief_sha256: str) -> bool:
    """Whether there is a plan before, and no news."""
    return (
        previous.conflict is None
        and previous.brief_sha256 == brief_sha256
        and not says_more(so_far.journal, previous.journal_entries)
        and previous.files_sha256 in (None, place.files_sha256)
        and place.weather is None
        and not so_far.assume_not_done
    )


def _as_draft(
    previous: Plan, book: Book, journal: Sequence[JournalEntry], moment: datetime, today: date
) -> Plan:
    """The plan before in the words of the rules, with what has happened to its tasks."""
    known, entries = in_rules_words(previous, journal)
    assert known is not None  # there is a plan before
    past = read_history(book, entries, known, today)
    # A day chosen by hand that had to give way has done so.
    kept = {task.id for task in known.tasks if task.held}
    past = replace(past, held={name: day for name, day in past.held.items() if name in kept})
    past = _settled(past, known)
    update = {
        "tasks": tuple(task for task in known.tasks if _is_drafted(task)),
        "stamp": moment,
        "now": moment,
        "past": past,
        "journal_entries": len(journal),
    }
    return known.model_copy(update=update)


def _settled(past: TaskHistory, known: Plan) -> TaskHistory:
    """The past with what the plan took as done, since work that hung on it was, and without what it
    asks for anew."""
    past = as_if_open(past, {t.id for t in known.tasks if t.is_open and t.id in past.done})
    done = {t.id: t.end.toordinal() for t in known.tasks if t.closed == "done"}
    overdue = {name: day for name, day in past.overdue.items() if name not in done}
    return replace(past, done={**done, **past.done}, overdue=overdue)


def _is_drafted(task: Task) -> bool:
    """Whether the rules that made a plan still asked for a task: what was skipped or dropped is
    history of the feed alone."""
    return task.closed in (None, "done") and task.status != "CANCELLED"
