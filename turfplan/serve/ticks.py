"""A tick on a page becomes an entry of the journal, and the lawn is planned again."""

from collections.abc import Mapping
from datetime import date, datetime
from multiprocessing import get_context
from pathlib import Path
from zoneinfo import ZoneInfo

from turfplan.app.lawn_journal import adopted_journal, refuse_lost_entries
from turfplan.app.log_entry import Happening, tick_entry
from turfplan.errors import TurfplanError
from turfplan.files.index import ServedLawn
from turfplan.files.journal import read_journal
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message, said
from turfplan.phrases import page as phrases


def tick(folder: Path, brief: Path, form: Mapping[str, str], now: datetime) -> dict[str, Message]:
    """Writes `done` for a task on a day; returns the message of each field that is wrong, or that
    looks like a slip and is not kept (`keep`), and writes nothing then. `now` is aware.

    A form that is sent twice has the same `key`, and counts once.
    """
    errors: dict[str, Message] = {}
    try:
        plan = read_plan(folder)
    except TurfplanError as error:
        return {"task": _said(error)}
    task = plan.task(form.get("task", "")) if plan is not None else None
    if task is None:
        errors["task"] = phrases.choose_job()
    elif task.closed is not None:
        errors["task"] = phrases.closed_job()
    day: date | None = None
    try:
        day = date.fromisoformat(form.get("on", ""))
    except ValueError:
        errors["on"] = phrases.write_day(example="2027-09-04")
    if errors or plan is None or task is None or day is None:
        return errors
    done = Happening("done", task=task.id, on=day, way="page", key=form.get("key") or None)
    today = now.astimezone(ZoneInfo(plan.timezone)).date()
    try:
        journal = journal_beside(brief)
        adopted_journal(journal, folder)
        refuse_lost_entries(journal, read_journal(journal), folder, plan)
        slips = tick_entry(journal, plan, done, today, sure=form.get("keep") == "yes")
    except TurfplanError as error:
        return {"task": _said(error)}
    return {slip.field: slip.what for slip in slips}


def _said(error: TurfplanError) -> Message:
    """What is wrong, without its place: the page has no fields for files."""
    return said(error.problems[0].message)


def replan_apart(lawn: ServedLawn) -> None:
    """Plan a lawn again after a tick, in a process of its own: seconds of work that hold up no
    feed.
    """
    if lawn.brief is None:
        return
    # Started anew, not forked: a fork would take the server's threads' locks along in whatever
    # state they are.
    worker = get_context("spawn").Process(target=_replan, args=(lawn.brief, lawn.folder))
    worker.start()
    worker.join()
    worker.close()


def _replan(brief: Path, folder: Path) -> None:
    """Plan in this process; what cannot be planned from leaves the last good plan in place and is
    told to who serves.
    """
    import sys

    from turfplan.app.inputs import language_of
    from turfplan.app.plan_lawn import replan_lawn
    from turfplan.messages.problems import problem_lines, words_for_errors

    try:
        replan_lawn(brief, folder, tell=lambda _: None)
    except TurfplanError as error:
        words = words_for_errors(language_of(None))
        for problem in error.problems:
            for line in problem_lines(problem, words):
                print(line, file=sys.stderr)
