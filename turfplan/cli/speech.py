"""Says what a command has to say in the words of its reader."""

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from typer import Context

    from turfplan.errors import TurfplanError
    from turfplan.message import Message
    from turfplan.messages import Words
    from turfplan.records.plan import Plan


def words_of(plan: "Plan") -> "Words":
    """The words in which a plan was published, as a terminal tells them."""
    from turfplan.app import outputs

    return outputs.words_of(plan).on_terminal()


def words_of_user() -> "Words":
    """The words of somebody who runs a command without a plan at hand; raises TurfplanError for an
    unknown language.
    """
    from turfplan.app import outputs

    return outputs.words_of_user()


def say(words: "Words", message: "Message", *, aside: bool = False) -> None:
    """Print a message: on stdout, or on stderr what is no data."""
    print(words.text(message), file=sys.stderr if aside else sys.stdout)


def fault_lines(error: "TurfplanError") -> list[str]:
    """Every fault of an error as lines, for a command that goes on after it; what the book calls
    things too."""
    from turfplan.app.reader_language import language_of
    from turfplan.messages.problems import problem_lines, words_for_errors

    words = words_for_errors(language_of(None))
    return [line for problem in error.problems for line in problem_lines(problem, words)]


def show_faults(errors: "Iterable[TurfplanError]") -> None:
    """Print every fault of some errors on stderr."""
    for error in errors:
        for line in fault_lines(error):
            print(line, file=sys.stderr)


def brief_at(path: Path) -> Path:
    """The brief that was named, by itself or by the folder of its lawn."""
    from turfplan.files import data_folder

    return data_folder.brief_at(path)


def fail(
    ctx: "Context", fault: "Message", word: str | None = None, known: Iterable[str] = ()
) -> NoReturn:
    """End a command that was called with words it does not know, with the nearest known one to
    `word`.
    """
    from turfplan.errors import did_you_mean
    from turfplan.phrases import commands

    near = did_you_mean(word, known) if word else None
    message = fault if near is None else commands.with_hint(fault=fault, hint=near)
    ctx.fail(words_of_user().text(message))
