"""`turfplan log`: writes into the journal what happened."""

import json
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

if TYPE_CHECKING:
    from turfplan.journal import JournalEntry
    from turfplan.readers.journal import JournalFile

DAY = ["%Y-%m-%d"]
BRIEF = typer.Argument(..., metavar="BRIEF", help="The brief whose season this happened in.")
TASK = typer.Argument(..., metavar="TASK", help="A task id such as topdress.1.")
ON = typer.Option(..., "--on", formats=DAY, help="The day it happened, for example 2027-09-04.")
DIR = typer.Option(None, "-o", "--output", metavar="DIR", help="The folder of the plan.")
JSON = typer.Option(False, "--json", help="Print the entry as one JSON object.")


class BriefFirst(TyperGroup):
    """`turfplan log BRIEF done TASK`: the brief stands before the word that says what happened."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Moves the brief behind the word, where each command reads it; without a known word, says which there are."""
        words = set(self.commands)
        if args and args[0] not in words and not args[0].startswith("-"):
            if len(args) < 2 or args[1] not in words:
                self._no_such_word(ctx, args[1] if len(args) > 1 else None)
            args = [args[1], args[0], *args[2:]]
        return list(super().parse_args(ctx, args))

    def _no_such_word(self, ctx: Any, word: str | None) -> None:
        from turfplan.errors import nearest

        known = ", ".join(self.commands)
        near = nearest(word, self.commands) if word else None
        said = f"{word!r} is not something to log." if word else "What happened is missing after the brief."
        ctx.fail(f"{said} Known: {known}." + (f" Did you mean {near!r}?" if near else ""))


app = typer.Typer(cls=BriefFirst, add_completion=False, rich_markup_mode=None, no_args_is_help=True)


@app.callback()
def _log() -> None:
    """Write into the journal what happened; `plan` reads it.

    Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04 --amount "3 yd3"
    """


@app.command()
def done(
    brief: Path = BRIEF, task: str = TASK, on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What was used, for example "3 yd3" or "40 lb".'),
    share: float = typer.Option(1.0, "--share", min=0.01, max=1.0, help="The part of it that was done."),
    output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """A task was done, wholly or in part. Example: turfplan log lawn.toml done topdress.1 --on 2027-09-04"""
    value, unit = _amount(amount)
    _write(
        brief, output, as_json, kind="done", task=task, on=on.date(), share=share, amount=value, unit=unit, said=amount
    )


@app.command()
def skipped(
    brief: Path = BRIEF, task: str = TASK, on: datetime = ON, output: Path | None = DIR, as_json: bool = JSON
) -> None:
    """A task is left out. Example: turfplan log lawn.toml skipped roll --on 2027-09-12"""
    _write(brief, output, as_json, kind="skipped", task=task, on=on.date())


@app.command()
def moved(
    brief: Path = BRIEF, task: str = TASK,
    to: datetime = typer.Option(..., "--to", formats=DAY, help="The day it is moved to."),
    output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """A task is held on a day of your choice. Example: turfplan log lawn.toml moved topdress.2 --to 2027-09-18"""
    _write(brief, output, as_json, kind="moved", task=task, to=to.date())


@app.command("rained-off")
def rained_off(
    brief: Path = BRIEF,
    task: str | None = typer.Argument(None, metavar="[TASK]", help="One task; without it everything that needs a dry day."),
    on: datetime = ON, output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """Rain took the day. Example: turfplan log lawn.toml rained-off --on 2027-09-04"""
    _write(brief, output, as_json, kind="rained_off", task=task, on=on.date())


@app.command()
def measured(
    brief: Path = BRIEF,
    quantity: str = typer.Argument(..., help="soil_temperature, rain, grass_height, depth_missing or germination."),
    value: str = typer.Argument(..., help='With its unit: "58 F", "12 mm", "3 in"; 1 for germination seen.'),
    on: datetime = ON, output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """Something was measured. Example: turfplan log lawn.toml measured soil_temperature "58 F" --on 2027-04-02"""
    number, unit = _measure(quantity, value)
    _write(
        brief, output, as_json, kind="measured", quantity=quantity, value=number, unit=unit, on=on.date(), said=value
    )


@app.command()
def delivered(
    brief: Path = BRIEF, task: str = TASK, on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What came, for example "6 yd3".'),
    output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """A load came and was taken. Example: turfplan log lawn.toml delivered delivery.1 --on 2027-08-28"""
    value, unit = _amount(amount)
    _write(brief, output, as_json, kind="delivered", task=task, on=on.date(), amount=value, unit=unit, said=amount)


@app.command()
def refused(
    brief: Path = BRIEF, task: str = TASK, on: datetime = ON,
    amount: str | None = typer.Option(None, "--amount", help='What was sent back, for example "6 yd3".'),
    output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """A load was refused. Example: turfplan log lawn.toml refused delivery.1 --on 2027-08-28"""
    value, unit = _amount(amount)
    _write(brief, output, as_json, kind="refused", task=task, on=on.date(), amount=value, unit=unit, said=amount)


@app.command("not-done")
def not_done(brief: Path = BRIEF, task: str = TASK, output: Path | None = DIR, as_json: bool = JSON) -> None:
    """A task that is over was not done and is still wanted. Example: turfplan log lawn.toml not-done mow.2"""
    _write(brief, output, as_json, kind="not_done", task=task)


@app.command()
def note(
    brief: Path = BRIEF,
    text: str = typer.Argument(..., help="Your words."),
    output: Path | None = DIR,
    as_json: bool = JSON,
) -> None:
    """A remark. Example: turfplan log lawn.toml note "north corner stays wet" """
    _write(brief, output, as_json, kind="note", text=text)


@app.command()
def undo(
    brief: Path = BRIEF,
    number: int | None = typer.Argument(None, metavar="[N]", help="The entry to undo; without it the last one."),
    output: Path | None = DIR, as_json: bool = JSON,
) -> None:  # fmt: skip
    """Take back an entry, by another entry. Example: turfplan log lawn.toml undo"""
    _write(brief, output, as_json, kind="undo", undoes=number)


def _amount(text: str | None) -> tuple[float | None, str | None]:
    """An amount in SI with its unit: volume in m3 or mass in kg."""
    if text is None:
        return None, None
    from turfplan.errors import Problem, TurfplanError
    from turfplan.units import dimension_of, inside_unit, parse_quantity

    unit = text.strip().lstrip("0123456789./ ")
    dimension = dimension_of(unit)
    if dimension not in ("volume", "mass", "area"):
        raise TurfplanError(
            Problem("--amount", "is not a volume, mass or area", repr(text), 'for example "3 yd3", "2 m3", "40 lb"')
        )
    return parse_quantity(text, dimension), inside_unit(dimension)


def _measure(quantity: str, text: str) -> tuple[float, str]:
    """A measured value in the inside unit of its quantity."""
    from turfplan.errors import Problem, TurfplanError, nearest
    from turfplan.units import inside_unit, parse_quantity

    dimensions = {
        "soil_temperature": "temperature", "rain": "length", "grass_height": "length", "depth_missing": "length", "germination": "share",
    }  # fmt: skip
    if quantity not in dimensions:
        near = nearest(quantity, dimensions)
        raise TurfplanError(
            Problem("QUANTITY", "is not known", quantity, ", ".join(dimensions), near and f"did you mean {near!r}?")
        )
    try:
        return parse_quantity(text, dimensions[quantity]), inside_unit(dimensions[quantity])
    except TurfplanError as error:
        raise error.located("VALUE") from None


def _write(brief: Path, output: Path | None, as_json: bool, said: str | None = None, **entry: Any) -> None:
    """Check the entry against the plan, add it to the journal, and say what was written; `said` is the quantity as given."""
    from turfplan.cli.running import checked_file, output_folder
    from turfplan.journal import JournalEntry
    from turfplan.readers.journal import append_entry
    from turfplan.readers.plan_file import read_plan

    file = checked_file(brief)
    plan = read_plan(output_folder(brief, output))
    _check_task(entry.get("task"), plan, brief)

    def make(journal: "JournalFile") -> "JournalEntry":
        if entry["kind"] == "undo":
            entry["undoes"] = _to_undo(entry.get("undoes"), journal)
        number = max((e.number for e in journal.entries), default=0) + 1
        return JournalEntry(number=number, at=datetime.now(UTC).replace(microsecond=0), **entry)

    written = append_entry(file.journal, make)
    if as_json:
        print(json.dumps(written.model_dump(mode="json", exclude_none=True), ensure_ascii=False))
        return
    print(f"Entry {written.number}: {_sentence(written, said)}")
    print(f"Next: turfplan plan {brief}" + (f" -o {output}" if output else ""), file=sys.stderr)


def _check_task(task: str | None, plan: Any, brief: Path) -> None:
    from turfplan.errors import Problem, TurfplanError, nearest

    if task is None:
        return
    if plan is None:
        raise TurfplanError(
            Problem("TASK", "there is no plan yet to log against", task, None, f"first `turfplan plan {brief}`")
        )
    names = [t.id for t in plan.tasks]
    if task not in names:
        near = nearest(task, names)
        jobs = ", ".join(t.id for t in plan.tasks if t.series is None and t.closed is None)
        raise TurfplanError(Problem("TASK", "no such task", task, jobs, near and f"did you mean {near!r}?"))


def _to_undo(number: int | None, journal: "JournalFile") -> int:
    from turfplan.errors import Problem, TurfplanError
    from turfplan.journal import standing

    counting = {e.number for e in standing(journal.entries)} | {e.number for e in journal.entries if e.kind == "undo"}
    if number is None:
        last = max((e.number for e in standing(journal.entries)), default=None)
        if last is None:
            raise TurfplanError(Problem("undo", "there is nothing to undo"))
        return last
    if number not in counting:
        raise TurfplanError(
            Problem("N", "is not an entry that stands", str(number), ", ".join(map(str, sorted(counting))) or "none")
        )
    return number


def _sentence(entry: "JournalEntry", said: str | None) -> str:
    """What was written, in plain words."""
    part = "" if entry.share >= 1 else f" ({entry.share:.0%} of it)"
    used = f", {said}" if entry.amount is not None else ""
    words: dict[str, Callable[[], str]] = {
        "done": lambda: f"{entry.task} done on {entry.on}{part}{used}.",
        "skipped": lambda: f"{entry.task} skipped.",
        "moved": lambda: f"{entry.task} held on {entry.to}.",
        "rained_off": lambda: f"{entry.task or 'everything that needs a dry day'} rained off on {entry.on}.",
        "measured": lambda: f"{(entry.quantity or '').replace('_', ' ')}: {said} on {entry.on}.",
        "delivered": lambda: f"{entry.task} delivered on {entry.on}{used}.",
        "refused": lambda: f"{entry.task} refused on {entry.on}{used}.",
        "not_done": lambda: f"{entry.task} was not done; it is planned again.",
        "note": lambda: f"noted: {entry.text}",
        "undo": lambda: f"entry {entry.undoes} no longer counts.",
    }
    return words[entry.kind]()
