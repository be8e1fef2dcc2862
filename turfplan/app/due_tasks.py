"""Lists what of a plan was due and has no entry, and the entries that stand."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan.app.inputs import checked_file
from turfplan.app.lawn_day import open_jobs
from turfplan.app.lawn_journal import journal_of_lawn
from turfplan.app.log_entry import day_of_log, log_words, titles_of
from turfplan.app.outputs import plan_in
from turfplan.files.journal import JournalFile
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.messages import Words
from turfplan.records.journal import JournalEntry, standing


@dataclass(frozen=True, slots=True)
class DueTask:
    """A task that was due, by its id and title, with the days that it had; a `look` changes nothing
    of the lawn by itself."""

    task: str
    title: str
    start: date
    end: date
    look: bool = False


@dataclass(frozen=True, slots=True)
class JournalSoFar:
    """The entries that stand, what was found damaged but harmless, and what the plan calls its
    tasks, by id."""

    entries: tuple[JournalEntry, ...]
    warnings: tuple[Message, ...]
    words: Words
    titles: Mapping[str, str]


def due_tasks(brief: Path, folder: Path, today: date | None) -> tuple[tuple[DueTask, ...], Words]:
    """What was due until today and has no entry, in order of its days; waterings are not asked
    about.

    Raises TurfplanError for a brief, a journal or a plan that cannot be used.
    """
    file, plan = checked_file(brief), plan_in(folder, brief)
    entries = journal_of_lawn(file.journal, folder).entries
    # Of what was begun, put off or sent back the plan knows until when: that is asked for again.
    answered = {entry.task for entry in standing(entries) if entry.number > plan.journal_entries}
    until = day_of_log(plan, today)
    due = [
        DueTask(task.id, str(task.title), task.start, task.end, task.plays("looking"))
        for task in open_jobs(plan, entries)
        if task.end <= until and task.id not in answered
    ]
    return tuple(sorted(due, key=lambda one: (one.end, one.start, one.task))), log_words(plan)


def journal_so_far(brief: Path, folder: Path) -> JournalSoFar:
    """The standing entries of the journal beside a brief; raises TurfplanError for a brief or a
    journal that cannot be used."""
    found: JournalFile = journal_of_lawn(checked_file(brief).journal, folder)
    plan = read_plan(folder)
    return JournalSoFar(standing(found.entries), found.warnings, log_words(plan), titles_of(plan))
