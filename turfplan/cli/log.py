"""`turfplan log`: writes into the journal what happened."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import typer
from typer.core import TyperGroup

from turfplan.cli.log_writing import LogCall, on_terminal, take_back, where, write
from turfplan.cli.speech import brief_at, fail, say

DAY = ["%Y-%m-%d"]
BRIEF = typer.Argument(
    ...,
    metavar="BRIEF",
    help="The brief whose season this happened in, or the folder of its lawn.",
    callback=brief_at,
)
TASK = typer.Argument(..., metavar="TASK", help="A task id such as topdress.1.")
ON = typer.Option(..., "--on", formats=DAY, help="The day it happened, for example 2027-09-04.")
TO = typer.Option(..., "--to", formats=DAY, help="The day it is wished for.")
DIR = typer.Option(None, "-o", "--output", metavar="DIR", help="The folder of the plan.")
JSON = typer.Option(False, "--json", help="Print one JSON object.")
YES = typer.Option(False, "--yes", help="Write it, also where it looks like a slip.")
BY = typer.Option("", "--by", metavar="NAME", help="Who writes it.")
KEY = typer.Option(
    None, "--key", metavar="KEY", help="For programs: entries of one key count once."
)
TODAY = typer.Option(None, "--today", formats=DAY, help="Log as if it were this day.")


class BriefFirst(TyperGroup):
    """`turfplan log BRIEF done TASK`: the brief stands before the word that says what happened."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Moves the brief behind the word, where each command reads it; without a known word, says
        which there are.
        """
        words = set(self.commands)
        if args and args[0] not in words and not args[0].startswith("-"):
            if len(args) < 2 or args[1] not in words:
                self._no_such_word(ctx, args[1] if len(args) > 1 else None)
            args = [args[1], args[0], *args[2:]]
        return list(super().parse_args(ctx, args))

    def _no_such_word(self, ctx: Any, word: str | None) -> None:
        from turfplan.phrases import commands

        known = ", ".join(self.commands)
        if word is None:
            fail(ctx, commands.nothing_to_log(known=known))
        fail(ctx, commands.unloggable(word=repr(word), known=known), word, self.commands)


app = typer.Typer(cls=BriefFirst, add_completion=False, rich_markup_mode=None, no_args_is_help=True)


@app.callback()
def _log() -> None:
    """Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04 --amount "3 yd3"

    Write into the journal what happened; `plan` reads it. What looks like a slip is asked back.
    """


@app.command(short_help="A task was done, wholly or in part.")
def done(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What was used, for example "3 yd3".'),
    share: str = typer.Option("1", "--share", help="The part of it that was done: 0.5, or 50 %."),
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04

    A task was done, wholly or in part.
    """
    from turfplan.app.log_entry import Happening
    from turfplan.app.typed_amounts import amount_of, share_of

    value, unit = amount_of(amount)
    what = Happening("done", task, on.date(), share=share_of(share), amount=value, unit=unit)
    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, what, amount)


@app.command(short_help="A task is left out.")
def skipped(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml skipped roll --on 2027-09-12

    A task is left out.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("skipped", task, on.date()))


@app.command(short_help="A task is held on a day of your choice.")
def moved(
    brief: Path = BRIEF,
    task: str = TASK,
    to: datetime = TO,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml moved topdress.2 --to 2027-09-18

    A task is held on a day of your choice, if its rules allow the day.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("moved", task, to=to.date()))


@app.command(short_help="A task is asked for on a day; it gives way to rules.")
def booked(
    brief: Path = BRIEF,
    task: str = TASK,
    to: datetime = TO,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml booked topdress.2 --to 2027-09-18

    A task is asked for on a day, as a crew does: softer than moved, it gives way to rules.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("booked", task, to=to.date()))


@app.command("rained-off", short_help="Rain took the day.")
def rained_off(
    brief: Path = BRIEF,
    task: str | None = typer.Argument(
        None, metavar="[TASK]", help="One task; without it everything that needs a dry day."
    ),
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml rained-off --on 2027-09-04

    Rain took the day.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("rained_off", task, on.date()))


@app.command(short_help="Something was measured, or has befallen the lawn.")
def measured(
    brief: Path = BRIEF,
    quantity: str = typer.Argument(
        ...,
        help="soil_temperature, rain, grass_height, depth_missing, germination, seed_washed, "
        "animals, tips_buried, burned, heat_stress, sickness, weed_killer, green_up, heap_wet, "
        "water_ban, live_cause, cause_left, grubs.",
    ),
    value: str = typer.Argument(
        ...,
        help='With its unit: "58 F", "12 mm", "14 days"; 1 for what is so, 0 for what is over; the '
        "part of the seed: 0.3.",
    ),
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml measured soil_temperature "58 F" --on 2027-04-02

    Something was measured, or has befallen the lawn.
    """
    from turfplan.app.log_entry import Happening
    from turfplan.app.typed_amounts import measure_of

    known, number, unit = measure_of(quantity, value)
    what = Happening("measured", on=on.date(), quantity=known, value=number, unit=unit)
    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, what, value)


@app.command(short_help="A load came and was taken.")
def delivered(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What came, for example "6 yd3".'),
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml delivered delivery.1 --on 2027-08-28

    A load came and was taken.
    """
    from turfplan.app.log_entry import Happening
    from turfplan.app.typed_amounts import amount_of

    value, unit = amount_of(amount)
    what = Happening("delivered", task, on.date(), amount=value, unit=unit)
    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, what, amount)


@app.command(short_help="A load was refused.")
def refused(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(
        None, "--amount", help='What was sent back, for example "6 yd3".'
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml refused delivery.1 --on 2027-08-28

    A load was refused.
    """
    from turfplan.app.log_entry import Happening
    from turfplan.app.typed_amounts import amount_of

    value, unit = amount_of(amount)
    what = Happening("refused", task, on.date(), amount=value, unit=unit)
    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, what, amount)


@app.command("not-done", short_help="A task was not done, and is still wanted.")
def not_done(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime | None = typer.Option(
        None,
        "--on",
        formats=DAY,
        help="The day on which there was no time, no helper or no machine; it waits for the next.",
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml not-done topdress.2 --on 2027-09-18

    A task was not done and is still wanted: it is over, or on a day somebody, or the machine, was
    not there.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("not_done", task, on.date() if on else None))


@app.command(short_help="A remark.")
def note(
    brief: Path = BRIEF,
    text: str = typer.Argument(..., help="Your words."),
    on: datetime | None = typer.Option(
        None, "--on", formats=DAY, help="The day that it is about, where it is about one."
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml note "north corner stays wet"

    A remark.
    """
    from turfplan.app.log_entry import Happening

    call = LogCall(brief, output, as_json, yes, by, key, today)
    write(call, Happening("note", on=on.date() if on else None, text=text))


@app.command(short_help="Take back an entry.")
def undo(
    brief: Path = BRIEF,
    number: int | None = typer.Argument(
        None, metavar="[N]", help="The entry to undo; without it the last one."
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
    by: str = BY,
    key: str | None = KEY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml undo

    Take back an entry, by another entry.
    """
    take_back(LogCall(brief, output, as_json, by=by, key=key, today=today), number)


@app.command("list", short_help="The entries that stand.")
def list_entries(brief: Path = BRIEF, output: Path | None = DIR, as_json: bool = JSON) -> None:
    """Example: turfplan log lawn.toml list

    The entries that stand, with their numbers.
    """
    from turfplan.app.due_tasks import journal_so_far
    from turfplan.app.outputs import output_folder
    from turfplan.cli.journal_words import tell_entry
    from turfplan.phrases import screen

    found = journal_so_far(brief, output_folder(brief, output))
    for warning in found.warnings:
        say(found.words, warning, aside=True)
    if as_json:
        rows = [entry.model_dump(mode="json", exclude_none=True) for entry in found.entries]
        print(json.dumps({"schema": 1, "entries": rows}, ensure_ascii=False))
        return
    if not found.entries:
        say(found.words, screen.log_empty())
    for entry in found.entries:
        print(tell_entry(found.words, entry, found.titles))


@app.command("today", short_help="Go through what was due.")
def today_s_tasks(
    brief: Path = BRIEF,
    output: Path | None = DIR,
    as_json: bool = JSON,
    yes: bool = YES,
    by: str = BY,
    today: datetime | None = TODAY,
) -> None:
    """Example: turfplan log lawn.toml today

    Go through what was due and has no entry: on a terminal a question each, else the commands.
    """
    from turfplan.app.due_tasks import due_tasks
    from turfplan.app.outputs import output_folder
    from turfplan.cli.log_house import went_through_house
    from turfplan.cli.log_today import ask_due, print_due

    call = LogCall(brief, output, as_json, yes, by, None, today)
    day = today.date() if today else None
    if went_through_house(call, day):
        return
    due, words = due_tasks(brief, output_folder(brief, output), day)
    if on_terminal() and not as_json:
        ask_due(words, due, lambda happening: write(call, happening))
    else:
        print_due(words, due, brief, where(output), as_json=as_json)
