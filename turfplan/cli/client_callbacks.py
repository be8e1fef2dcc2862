"""`turfplan clients callback` and `hours`: visits that no plan holds, and what work takes."""

import json
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import Folder, day_of, print_table
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from datetime import date

    from turfplan.app.client_callbacks import AskedCallback
    from turfplan.business.callback import Callback
    from turfplan.business.used_hours import OperationHours
    from turfplan.message import Message
    from turfplan.messages import Words


class CallbackAction(StrEnum):
    """What is done with a callback."""

    ADD = "add"
    DONE = "done"
    MOVE = "move"
    DROP = "drop"
    REOPEN = "reopen"
    LIST = "list"


def callback_clients(
    ctx: typer.Context,
    action: Annotated[CallbackAction, typer.Argument(help="What is done with a callback.")],
    folder: Folder,
    lawn: Annotated[
        str | None, typer.Argument(metavar="[LAWN]", help="The lawn, by its folder's name.")
    ] = None,
    text: Annotated[
        str | None, typer.Argument(metavar="[TEXT|NUMBER]", help="What for; else which.")
    ] = None,
    on: Annotated[
        str | None, typer.Option("--on", metavar="DAY", help="The day of the visit.")
    ] = None,
    hours: Annotated[
        float | None, typer.Option("--hours", min=0, max=1000, help="Of all people together.")
    ] = None,
    group: GroupOption = None,
    by: Annotated[str, typer.Option("--by", metavar="NAME", help="Who says so.")] = "",
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Write also a day that is over.")] = False,
) -> None:
    """Write what a client calls back for as a visit, which stands in lists and on crew sheets; mark
    it as done, move it, drop it, open it again, or list what is open.

    Example: turfplan clients callback add data ash "bare spot at the gate" --on 2027-06-02
    """
    from turfplan.app import client_callbacks as callbacks
    from turfplan.business.groups import group_of
    from turfplan.phrases import standing as phrases

    words, now = words_of_user(), day_of(today, "--today")
    if action is CallbackAction.LIST:
        _print_open(callbacks.list_callbacks(folder, group_of(group)), words)
        return
    if lawn is None or text is None or not text.strip():
        adds = action is CallbackAction.ADD
        fail(ctx, phrases.callback_text() if adds else phrases.callback_number())
    if action in (CallbackAction.ADD, CallbackAction.MOVE) and on is None:
        fail(ctx, phrases.callback_day())
    day = day_of(on, "--on", now)
    if action is CallbackAction.ADD:
        asked = callbacks.AskedCallback(text.strip(), day, hours or 0.0, by)
        _add(folder, lawn, asked, now, words, sure=yes)
        return
    if not (text.isascii() and text.isdigit()):
        fail(ctx, phrases.callback_number())
    _change(action, folder, lawn, int(text), day, now, hours, words)


def _add(
    folder: Path, lawn: str, asked: "AskedCallback", now: "date", words: "Words", *, sure: bool
) -> None:
    from turfplan.app.client_callbacks import add_callback

    found = add_callback(folder, lawn, asked, now, sure=sure)
    say(words, _said(lawn, found))


def _said(lawn: str, one: "Callback") -> "Message":
    from turfplan.message import Day
    from turfplan.phrases import standing as phrases
    from turfplan.plain_text import plain_text

    day = Day(one.on, weekday=True)
    return phrases.callback_added(lawn=lawn, number=one.number, text=plain_text(one.text), day=day)


def _change(
    action: CallbackAction,
    folder: Path,
    lawn: str,
    number: int,
    day: "date",
    now: "date",
    hours: float | None,
    words: "Words",
) -> None:
    from turfplan.app import client_callbacks as callbacks
    from turfplan.message import Day
    from turfplan.phrases import standing as phrases

    match action:
        case CallbackAction.DONE:
            callbacks.finish_callback(folder, lawn, number, day, now, hours)
            told = phrases.callback_done(lawn=lawn, number=number, day=Day(day, weekday=True))
        case CallbackAction.MOVE:
            callbacks.move_callback(folder, lawn, number, day)
            told = phrases.callback_moved(lawn=lawn, number=number, day=Day(day, weekday=True))
        case CallbackAction.DROP:
            callbacks.drop_callback(folder, lawn, number, now)
            told = phrases.callback_dropped(lawn=lawn, number=number)
        case _:
            callbacks.reopen_callback(folder, lawn, number)
            told = phrases.callback_reopened(lawn=lawn, number=number)
    say(words, told)


def _print_open(found: "tuple[tuple[Path, Callback], ...]", words: "Words") -> None:
    from turfplan.phrases import standing as phrases

    if not found:
        say(words, phrases.no_callbacks(), aside=True)
    for folder, one in found:
        say(words, _said(folder.name, one))


def list_hours(
    folder: Folder,
    group: GroupOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one object.")] = False,
) -> None:
    """List the hours that jobs took against those that were quoted, by operation, and propose rates
    for business.toml.

    Example: turfplan clients hours data
    """
    from turfplan.app.client_hours import list_hours as hours_of
    from turfplan.business.groups import group_of

    words = words_of_user()
    found = hours_of(folder, group_of(group))
    for note in found.notes:
        say(words, note, aside=True)
    if as_json:
        rows = [_row(one) for one in found.operations]
        print(json.dumps({"schema": 1, "hours": rows}, indent=1, ensure_ascii=False))
        return
    _print_hours(found.operations, words)


def _row(one: "OperationHours") -> dict[str, object]:
    return {
        "operation": one.operation,
        "jobs": one.jobs,
        "quoted": round(one.quoted, 2),
        "used": round(one.used, 2),
        "times": round(one.times, 2) if one.times is not None else None,
        "missing": one.missing,
        "rate": one.rate,
        "rate_now": one.rate_now,
    }


def _print_hours(operations: "tuple[OperationHours, ...]", words: "Words") -> None:
    from turfplan.business.used_hours import LEAST_JOBS
    from turfplan.message import Number
    from turfplan.phrases import standing as phrases

    known = [one for one in operations if one.jobs]
    if known:
        heads = (
            phrases.head_jobs(),
            phrases.head_quoted(),
            phrases.head_used(),
            phrases.head_times(),
            phrases.head_spread(),
            phrases.head_job(),
        )

        def number(value: float | None) -> str:
            return "" if value is None else words.value(Number(round(value, 2), "plain"))

        rows = [
            (
                str(one.jobs),
                number(one.quoted),
                number(one.used),
                number(one.times),
                f"{number(one.least)}–{number(one.most)}" if one.least is not None else "",
                one.operation,
            )
            for one in known
        ]
        print_table((tuple(map(words.text, heads)), *rows))
    else:
        say(words, phrases.no_hours(), aside=True)
    missing = sum(one.missing for one in operations)
    if missing:
        say(words, phrases.hours_missing(n=missing), aside=True)
    rated = [one for one in known if one.rate is not None]
    if not rated:
        say(words, phrases.too_few_hours(least=LEAST_JOBS), aside=True)
        return
    say(words, phrases.rates_follow(least=LEAST_JOBS), aside=True)
    print("\n[hours]")
    for one in sorted(rated, key=lambda each: each.operation):
        now = Number(one.rate_now, "plain")
        note = words.text(phrases.rate_note(factor=now, n=one.jobs))
        print(f"{one.operation} = {one.rate}  # {note}")
