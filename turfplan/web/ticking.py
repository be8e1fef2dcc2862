"""A tick on a page becomes an entry of the journal."""

from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from turfplan.errors import TurfplanError
from turfplan.journal import JournalEntry
from turfplan.readers.journal import append_entry
from turfplan.readers.plan_file import read_plan

if TYPE_CHECKING:
    from turfplan.readers.journal import JournalFile


def tick(folder: Path, brief: Path, form: Mapping[str, str]) -> dict[str, str]:
    """Writes `done` for a task on a day; returns the message of each field that is wrong, and writes nothing then."""
    errors: dict[str, str] = {}
    plan = read_plan(folder)
    task = plan.task(form.get("task", "")) if plan is not None else None
    if task is None:
        errors["task"] = "Choose one of the jobs on this page."
    elif task.closed is not None:
        errors["task"] = "This job is closed already."
    day: date | None = None
    try:
        day = date.fromisoformat(form.get("on", ""))
    except ValueError:
        errors["on"] = "Write the day as year-month-day, for example 2027-09-04."
    if errors or task is None or day is None:
        return errors

    def make(journal: "JournalFile") -> JournalEntry:
        number = max((e.number for e in journal.entries), default=0) + 1
        return JournalEntry(
            number=number, at=datetime.now(UTC).replace(microsecond=0), kind="done", task=task.id, on=day
        )

    try:
        append_entry(brief.with_suffix(".journal.jsonl"), make)
    except TurfplanError as error:
        errors["task"] = str(error.problems[0].message)
    return errors
