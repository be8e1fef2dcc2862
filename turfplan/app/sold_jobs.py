"""Tells the jobs of a lawn that are sold from those of which no quote was accepted."""

from collections.abc import Sequence
from pathlib import Path

from turfplan.app.lawn_day import open_jobs
from turfplan.business.unanswered import unsold_tasks
from turfplan.files.lawn_standing import read_quotes
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def sold_jobs(folder: Path, plan: Plan, entries: Sequence[JournalEntry]) -> tuple[Task, ...]:
    """The open jobs of a lawn that its client has bought, all where nothing was offered.

    Raises TurfplanError for quotes that cannot be read.
    """
    jobs = open_jobs(plan, entries)
    unsold = unsold_tasks(read_quotes(folder), [task.id for task in jobs])
    return tuple(task for task in jobs if task.id not in unsold)


def is_unsold(folder: Path, plan: Plan, entries: Sequence[JournalEntry]) -> bool:
    """Whether a lawn has open jobs, and none of them is sold. Raises as `sold_jobs` does."""
    return bool(open_jobs(plan, entries)) and not sold_jobs(folder, plan, entries)
