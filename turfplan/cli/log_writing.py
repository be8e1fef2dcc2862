"""Writes an entry for `turfplan log`: asks back what looks like a slip, says what changes."""

import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.log_entry import Happening, LoggedEntry
    from turfplan.messages import Words


@dataclass(frozen=True, slots=True)
class LogCall:
    """What every way of logging is called with."""

    brief: Path
    output: Path | None
    as_json: bool
    yes: bool = False
    by: str = ""
    key: str | None = None
    today: datetime | None = None


def write(call: LogCall, happening: "Happening", given: str | None = None) -> None:
    """Write into the journal what happened, and say so; `given` is the quantity as typed.

    What is said is put into words first, so that nothing is written that cannot be told.
    """
    from turfplan.app.log_entry import entry_of, log_entry
    from turfplan.app.outputs import output_folder
    from turfplan.cli.journal_words import NO_TITLES, entry_told

    happening = replace(happening, by=call.by, key=call.key, given=given or "")
    entry_told(words_of_user(), entry_of(happening), NO_TITLES, given or "")
    logged = log_entry(
        call.brief,
        output_folder(call.brief, call.output),
        happening,
        today=call.today.date() if call.today else None,
        sure=_sure(yes=call.yes),
        with_effect=not call.as_json,
    )
    said = given if logged.fresh else None
    say_logged(call, logged, entry_told(logged.words, logged.entry, logged.titles, said or ""))


def take_back(call: LogCall, number: int | None) -> None:
    """Take back the entry of that number, or the last, and say which it was and what that
    changes."""
    from turfplan.app.log_entry import undo_entry, with_undo_effect
    from turfplan.app.outputs import output_folder
    from turfplan.cli.journal_words import entry_told
    from turfplan.message import as_written
    from turfplan.phrases import screen

    folder = output_folder(call.brief, call.output)
    logged, taken_back = undo_entry(call.brief, folder, number, by=call.by, key=call.key)
    if not call.as_json:
        day = call.today.date() if call.today else None
        logged = with_undo_effect(call.brief, folder, logged, day)
    was = as_written(entry_told(logged.words, taken_back, logged.titles))
    told = logged.words.text(screen.log_undo(number=taken_back.number, entry=was))
    say_logged(call, logged, told)


def on_terminal() -> bool:
    """Whether somebody is there to be asked."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def _sure(*, yes: bool) -> Callable[[Sequence[str]], bool]:
    """What says whether somebody stands by what looks like a slip: `--yes`, or who is asked."""

    def sure(questions: Sequence[str]) -> bool:
        if yes or not on_terminal():
            return yes
        from turfplan.phrases import screen, slips

        words = words_of_user()
        for question in questions:
            say(words, screen.log_asked(question=question), aside=True)
        if typer.confirm(words.text(slips.keep_asked()), default=False, err=True):
            return True
        say(words, slips.not_written(), aside=True)
        raise typer.Exit(3)

    return sure


def where(output: Path | None) -> str:
    """The option that names the folder again, where it was named."""
    return f" -o {output}" if output is not None else ""


def say_logged(call: LogCall, logged: "LoggedEntry", told: str) -> None:
    """What was written, what it changes, and the command that comes next."""
    from turfplan.cli.journal_words import effect_told
    from turfplan.message import as_written
    from turfplan.phrases import screen

    words: Words = logged.words
    for warning in logged.warnings:
        say(words, warning, aside=True)
    if call.as_json:
        print(json.dumps(_as_json(logged), ensure_ascii=False))
        return
    line = screen.log_entry if logged.fresh else screen.log_already
    say(words, line(number=logged.entry.number, entry=as_written(told)))
    if (effect := effect_told(words, logged)) is not None:
        say(words, effect)
    say(
        words,
        screen.log_next(command=f"turfplan plan {call.brief}{where(call.output)}"),
        aside=True,
    )


def _as_json(logged: "LoggedEntry") -> dict[str, Any]:
    """The entry for programs, with what a wish drags along."""
    entry = logged.entry.model_dump(mode="json", exclude_none=True)
    found = {"schema": 1, **entry, "already_written": not logged.fresh}
    if logged.effect is not None:
        found["moves"] = [
            {"task": one.task, "kind": one.kind, "start": str(one.start), "end": str(one.end)}
            for one in logged.effect
        ]
    return found
