"""`turfplan log`: writes into the journal what happened."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.log_entry import Happening
    from turfplan.message import Message
    from turfplan.messages import Words
    from turfplan.records.journal import JournalEntry

DAY = ["%Y-%m-%d"]
BRIEF = typer.Argument(..., metavar="BRIEF", help="The brief whose season this happened in.")
TASK = typer.Argument(..., metavar="TASK", help="A task id such as topdress.1.")
ON = typer.Option(..., "--on", formats=DAY, help="The day it happened, for example 2027-09-04.")
DIR = typer.Option(None, "-o", "--output", metavar="DIR", help="The folder of the plan.")
JSON = typer.Option(False, "--json", help="Print the entry as one JSON object.")


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
    """Write into the journal what happened; `plan` reads it.

    Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04 --amount "3 yd3"
    """


@app.command()
def done(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(
        None, "--amount", help='What was used, for example "3 yd3" or "40 lb".'
    ),
    share: float = typer.Option(
        1.0, "--share", min=0.01, max=1.0, help="The part of it that was done."
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A task was done, wholly or in part.

    Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04
    """
    from turfplan.app.log_entry import Happening, amount_of

    value, unit = amount_of(amount)
    happening = Happening("done", task=task, on=on.date(), share=share, amount=value, unit=unit)
    _write(brief, output, as_json, happening, amount)


@app.command()
def skipped(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A task is left out. Example: turfplan log lawn.toml skipped roll --on 2027-09-12"""
    from turfplan.app.log_entry import Happening

    _write(brief, output, as_json, Happening("skipped", task=task, on=on.date()))


@app.command()
def moved(
    brief: Path = BRIEF,
    task: str = TASK,
    to: datetime = typer.Option(..., "--to", formats=DAY, help="The day it is moved to."),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A task is held on a day of your choice.

    Example: turfplan log lawn.toml moved topdress.2 --to 2027-09-18
    """
    from turfplan.app.log_entry import Happening

    _write(brief, output, as_json, Happening("moved", task=task, to=to.date()))


@app.command("rained-off")
def rained_off(
    brief: Path = BRIEF,
    task: str | None = typer.Argument(
        None, metavar="[TASK]", help="One task; without it everything that needs a dry day."
    ),
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """Rain took the day. Example: turfplan log lawn.toml rained-off --on 2027-09-04"""
    from turfplan.app.log_entry import Happening

    _write(brief, output, as_json, Happening("rained_off", task=task, on=on.date()))


@app.command()
def measured(
    brief: Path = BRIEF,
    quantity: str = typer.Argument(
        ...,
        help="soil_temperature, rain, grass_height, depth_missing, germination, live_cause, "
        "cause_left, grubs.",
    ),
    value: str = typer.Argument(
        ...,
        help='With its unit: "58 F", "12 mm", "3 in"; 1 for germination seen, or a cause found.',
    ),
    on: datetime = ON,
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """Something was measured.

    Example: turfplan log lawn.toml measured soil_temperature "58 F" --on 2027-04-02
    """
    from turfplan.app.log_entry import Happening, measure_of

    known, number, unit = measure_of(quantity, value)
    happening = Happening("measured", quantity=known, value=number, unit=unit, on=on.date())
    _write(brief, output, as_json, happening, value)


@app.command()
def delivered(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What came, for example "6 yd3".'),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A load came and was taken.

    Example: turfplan log lawn.toml delivered delivery.1 --on 2027-08-28
    """
    from turfplan.app.log_entry import Happening, amount_of

    value, unit = amount_of(amount)
    happening = Happening("delivered", task=task, on=on.date(), amount=value, unit=unit)
    _write(brief, output, as_json, happening, amount)


@app.command()
def refused(
    brief: Path = BRIEF,
    task: str = TASK,
    on: datetime = ON,
    amount: str | None = typer.Option(
        None, "--amount", help='What was sent back, for example "6 yd3".'
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A load was refused. Example: turfplan log lawn.toml refused delivery.1 --on 2027-08-28"""
    from turfplan.app.log_entry import Happening, amount_of

    value, unit = amount_of(amount)
    happening = Happening("refused", task=task, on=on.date(), amount=value, unit=unit)
    _write(brief, output, as_json, happening, amount)


@app.command("not-done")
def not_done(
    brief: Path = BRIEF, task: str = TASK, output: Path | None = DIR, as_json: bool = JSON
) -> None:
    """A task that is over was not done and is still wanted.

    Example: turfplan log lawn.toml not-done mow.2
    """
    from turfplan.app.log_entry import Happening

    _write(brief, output, as_json, Happening("not_done", task=task))


@app.command()
def note(
    brief: Path = BRIEF,
    text: str = typer.Argument(..., help="Your words."),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A remark. Example: turfplan log lawn.toml note "north corner stays wet" """
    from turfplan.app.log_entry import Happening

    _write(brief, output, as_json, Happening("note", text=text))


@app.command()
def undo(
    brief: Path = BRIEF,
    number: int | None = typer.Argument(
        None, metavar="[N]", help="The entry to undo; without it the last one."
    ),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """Take back an entry, by another entry. Example: turfplan log lawn.toml undo"""
    from turfplan.app.log_entry import undo_entry
    from turfplan.app.outputs import output_folder
    from turfplan.phrases import screen

    words = words_of_user()
    written = undo_entry(brief, output_folder(brief, output), number)
    told = words.text(screen.log_undo(number=written.undoes or 0))
    _say(words, written, told, _plan_again(brief, output), as_json=as_json)


def _write(
    brief: Path, output: Path | None, as_json: bool, happening: "Happening", said: str | None = None
) -> None:
    """Write into the journal what happened, and say so; `said` is the quantity as given.

    What is said is put into words first, so that nothing is written that cannot be told.
    """
    from turfplan.app.log_entry import log_entry
    from turfplan.app.outputs import output_folder

    words = words_of_user()
    told = words.text(_told(words, happening, said))
    written = log_entry(brief, output_folder(brief, output), happening)
    _say(words, written, told, _plan_again(brief, output), as_json=as_json)


def _plan_again(brief: Path, output: Path | None) -> str:
    return f"turfplan plan {brief}" + (f" -o {output}" if output else "")


def _say(words: "Words", written: "JournalEntry", told: str, next_: str, *, as_json: bool) -> None:
    """What was written, and the command that comes next."""
    from turfplan.message import as_written
    from turfplan.phrases import screen

    if as_json:
        print(json.dumps(written.model_dump(mode="json", exclude_none=True), ensure_ascii=False))
        return
    say(words, screen.log_entry(number=written.number, entry=as_written(told)))
    say(words, screen.log_next(command=next_), aside=True)


def _told(words: "Words", happening: "Happening", said: str | None) -> "Message":
    """What happened, in plain words; `said` is the quantity as given."""
    from turfplan.message import Message, Number
    from turfplan.phrases import screen

    share = Number(happening.share, "percent")
    part = "" if happening.share >= 1 else words.text(screen.log_part(share=share))
    used = words.text(screen.log_used(amount=said or "")) if happening.amount is not None else ""
    task, on = happening.task or "", str(happening.on)
    told: dict[str, Callable[[], Message]] = {
        "done": lambda: screen.log_done(task=task, on=on, part=part, used=used),
        "skipped": lambda: screen.log_skipped(task=task),
        "moved": lambda: screen.log_moved(task=task, to=str(happening.to)),
        "rained_off": lambda: (
            screen.log_rained_off(task=task, on=on) if task else screen.log_all_rained_off(on=on)
        ),
        "measured": lambda: screen.log_measured(
            quantity=Message(f"screen.quantity.{happening.quantity}"), value=said or "", on=on
        ),
        "delivered": lambda: screen.log_delivered(task=task, on=on, used=used),
        "refused": lambda: screen.log_refused(task=task, on=on, used=used),
        "not_done": lambda: screen.log_not_done(task=task),
        "note": lambda: screen.log_note(note=happening.text or ""),
    }
    return told[happening.kind]()
