"""`turfplan clients operators`: who may sign in at the office page."""

import sys
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_lists import Folder, day_of
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.operators import Operator
    from turfplan.message import Message


class OperatorAction(StrEnum):
    """What is done with operators."""

    ADD = "add"
    LIST = "list"
    CHANGE = "change"
    PASSWORD = "password"
    WITHDRAW = "withdraw"


def keep_operators(
    ctx: typer.Context,
    action: Annotated[OperatorAction, typer.Argument(help="What is done with operators.")],
    folder: Folder,
    name: Annotated[
        str | None, typer.Argument(metavar="[NAME]", help="By which somebody signs in.")
    ] = None,
    crew: Annotated[
        str | None,
        typer.Option(
            "--crew",
            metavar="CREW",
            help="A crew, as the column `crew` names it; it sees the lawns of its day alone. Else "
            "the office.",
        ),
    ] = None,
    until: Annotated[
        str | None, typer.Option("--until", metavar="DAY", help="The last day; else no end.")
    ] = None,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
) -> None:
    """Let somebody sign in at the office page, give other terms, set a lost password anew, end it,
    or list who may; a password is asked for, or read from the first line that is piped in.

    `change` says all terms anew: what it does not say is the office's, or has no end.

    Example: turfplan clients operators add data "Ana" --crew north --until 2027-10-31
    """
    from turfplan.app import operators as kept
    from turfplan.phrases import office as phrases

    now, words = day_of(today, "--today"), words_of_user()
    if action is OperatorAction.LIST:
        _list_operators(folder, now)
        return
    if name is None:
        fail(ctx, phrases.which_name())
    terms = kept.OperatorTerms(crew, day_of(until, "--until", now) if until else None)
    match action:
        case OperatorAction.ADD:
            made = kept.add_operator(folder, name, terms, _typed_password(), now)
            say(words, phrases.operator_added(name=made.name, right=_right(made, now)))
        case OperatorAction.CHANGE:
            made = kept.change_operator(folder, name, terms, now)
            say(words, phrases.operator_changed(name=made.name, right=_right(made, now)))
        case OperatorAction.PASSWORD:
            made = kept.set_password(folder, name, _typed_password())
            say(words, phrases.operator_password(name=made.name))
        case OperatorAction.WITHDRAW:
            gone = kept.withdraw_operator(folder, name)
            say(words, phrases.operator_gone(name=gone.name))


def _list_operators(folder: Path, now: date) -> None:
    from turfplan.app.operators import operators_of
    from turfplan.phrases import office as phrases

    words, known = words_of_user(), operators_of(folder)
    if not known:
        say(words, phrases.operators_none(), aside=True)
    for one in known:
        print(f"{one.name}\t{words.text(_right(one, now))}")


def _right(operator: "Operator", now: date) -> "Message":
    """What an operator may do, and until when."""
    from turfplan.message import Day
    from turfplan.phrases import office as phrases

    of_crew = operator.kind == "crew"
    right = phrases.right_crew(crew=operator.crew) if of_crew else phrases.right_office()
    if operator.ends is None:
        return right
    day = Day(operator.ends)
    if operator.has_ended(now):
        return phrases.right_ended(right=right, day=day)
    return phrases.right_until(right=right, day=day)


def _typed_password() -> str:
    """The password as it is typed twice without being shown, or as the first line has it that is
    piped in: on a command line others would read it. Raises TurfplanError where none comes, or two
    that differ.
    """
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import office as phrases

    words = words_of_user()
    if sys.stdin is None or not sys.stdin.isatty():
        try:
            line = sys.stdin.readline().rstrip("\r\n") if sys.stdin is not None else ""
        except OSError:
            # Nothing is connected that could be read.
            line = ""
        if not line:
            raise TurfplanError(Problem("PASSWORD", phrases.no_password()))
        return line
    from getpass import getpass

    first = getpass(f"{words.text(phrases.ask_password())}: ")
    if getpass(f"{words.text(phrases.ask_again())}: ") != first:
        raise TurfplanError(Problem("PASSWORD", phrases.not_same()))
    return first
