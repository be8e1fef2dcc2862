"""`turfplan log BRIEF today`: goes through what was due and has no entry."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import say

if TYPE_CHECKING:
    from turfplan.app.due_tasks import DueTask
    from turfplan.app.log_entry import Happening
    from turfplan.messages import Words

Write = Callable[["Happening"], None]


def print_due(
    words: "Words", due: "tuple[DueTask, ...]", brief: Path, where: str, *, as_json: bool
) -> None:
    """What was due, with the commands that answer for each."""
    from turfplan.message import Days
    from turfplan.phrases import screen

    if as_json:
        print(json.dumps({"schema": 1, "due": due_rows(due)}, ensure_ascii=False))
        return
    if not due:
        say(words, screen.log_nothing_due())
    for one in due:
        say(words, screen.log_due(title=one.title, days=Days(one.start, one.end)))
        for answer in (
            f"done {one.task} --on {one.end}",
            f"skipped {one.task} --on {one.end}",
            f"not-done {one.task}",
        ):
            say(words, screen.command(command=f"turfplan log {brief} {answer}{where}"))


def due_rows(due: "tuple[DueTask, ...]") -> list[dict[str, str]]:
    """What was due, as one object a task."""
    return [
        {"task": d.task, "title": d.title, "start": str(d.start), "end": str(d.end)} for d in due
    ]


def ask_due(words: "Words", due: "tuple[DueTask, ...]", write: Write) -> None:
    """Asks of each task that was due what became of it, and writes the answer.

    What an answer cannot be written for is told, and the next one asked. Several looks are asked of
    at once, or one by one.
    """
    from turfplan.app.log_entry import Happening
    from turfplan.errors import TurfplanError
    from turfplan.messages.problems import problem_lines
    from turfplan.phrases import screen

    if not due:
        say(words, screen.log_nothing_due())
    made = _looks_made(words, [one for one in due if one.look])
    for one in due:
        happening = (
            Happening("done", task=one.task, on=one.end) if one in made else _answer(words, one)
        )
        if happening is None:
            continue
        try:
            write(happening)
        except TurfplanError as error:
            for problem in error.problems:
                for line in problem_lines(problem, words):
                    typer.echo(line, err=True)


def _looks_made(words: "Words", looks: "list[DueTask]") -> "list[DueTask]":
    """The looks of which somebody says at once that all were made as planned."""
    from turfplan.message import as_written, listed
    from turfplan.phrases import screen

    if len(looks) < 2:
        return []
    titles = listed((as_written(one.title) for one in looks), "semicolon")
    question = words.text(screen.log_looks(n=len(looks), titles=titles))
    while True:
        said = str(typer.prompt(question, default="", show_default=False, err=True)).strip().lower()
        if said in ("", "d"):
            return looks if said else []
        say(words, screen.log_answers(), aside=True)


def _answer(words: "Words", one: "DueTask") -> "Happening | None":
    """What somebody says of a task that was due; None where they say nothing."""
    from turfplan.app.log_entry import Happening
    from turfplan.message import Days
    from turfplan.phrases import screen

    days = Days(one.start, one.end)
    question = words.text(screen.log_was_done(title=one.title, days=days))
    while True:
        said = str(typer.prompt(question, default="", show_default=False, err=True)).strip().lower()
        if said in ("", "d", "o", "n"):
            break
        say(words, screen.log_answers(), aside=True)
    if said == "d":
        return Happening("done", task=one.task, on=one.end)
    if said == "o":
        return Happening("done", task=one.task, on=_day(words, one.end))
    return Happening("not_done", task=one.task) if said == "n" else None


def _day(words: "Words", example: date) -> date:
    """The day that somebody names."""
    from turfplan.phrases import screen

    question = words.text(screen.log_which_day(example=str(example)))
    while True:
        try:
            return date.fromisoformat(str(typer.prompt(question, err=True)).strip())
        except ValueError:
            say(words, screen.log_no_day(), aside=True)
