"""`turfplan why`: the reasons for one task."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from turfplan.plan import Plan, Real, Task


def why(
    brief: Path = typer.Argument(..., metavar="BRIEF", help="The brief whose plan is explained."),
    task: str = typer.Argument(..., metavar="TASK", help="A task id such as topdress.1."),
    output: Path | None = typer.Option(None, "-o", "--output", metavar="DIR", help="The folder of the plan."),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """Why a task is not earlier, not later, and why this much.

    Example: turfplan why examples/cool-overseed.toml topdress.1 -o out
    """
    from turfplan.cli.running import checked_file, output_folder
    from turfplan.errors import Problem, TurfplanError
    from turfplan.readers.book import load_book
    from turfplan.readers.journal import read_journal
    from turfplan.readers.plan_file import read_plan

    file, folder = checked_file(brief), output_folder(brief, output)
    plan = read_plan(folder)
    if plan is None:
        raise TurfplanError(
            Problem(str(folder), "holds no plan yet", hint=f"first `turfplan plan {brief} -o {folder}`")
        )
    found = _task(plan, task)
    book = load_book(plan.place.region)
    stale = file.sha256 != plan.brief_sha256 or len(read_journal(file.journal).entries) != plan.journal_entries
    facts = [book.fact_text(name) for name in found.facts if book.get(name) is not None]
    if as_json:
        _print_json(plan, found, facts, stale=stale)
    else:
        _print_words(plan, found, facts, stale=stale)


def _task(plan: "Plan", name: str) -> "Task":
    """The task of that name; a misspelt one is answered with the nearest."""
    from turfplan.errors import Problem, TurfplanError, nearest

    found = plan.task(name)
    if found is None:
        names = [t.id for t in plan.tasks]
        near = nearest(name, names)
        raise TurfplanError(Problem("TASK", "no such task", name, ", ".join(names), near and f"did you mean {near!r}?"))
    return found


def _real_years(plan: "Plan", found: "Task") -> "Real | None":
    return next((r for r in plan.real_years if r.task == found.id), None)


def _print_json(plan: "Plan", found: "Task", facts: Sequence[str], *, stale: bool) -> None:
    real = _real_years(plan, found)
    print(
        json.dumps(
            {"schema": 1, "task": found.id, "why": found.why, "not_earlier": found.not_earlier, "not_later": found.not_later,
             "amounts": [a.model_dump(mode="json") for a in found.amounts], "facts": facts, "changed_since": stale,
             "real_years": None if real is None else real.model_dump(mode="json")},
            ensure_ascii=False,
        )
    )  # fmt: skip


def _print_words(plan: "Plan", found: "Task", facts: Sequence[str], *, stale: bool) -> None:
    """The reasons in sentences, with what they rest on."""
    from turfplan.wording import amount_text, day_text, days_text

    units, window = plan.lawn.units, found.window
    print(f"{found.title}: {days_text(found.start, found.end, units)}")
    print(f"Why at all: {found.why}")
    print(f"Open from {days_text(window.start, window.end, units)}; best {day_text(found.best, units)}.")
    for head, lines in (("Why not earlier", found.not_earlier), ("Why not later", found.not_later)):
        print(f"{head}:")
        for line in lines:
            print(f"  - {line}")
    if found.amounts:
        print("Why this much:")
        for amount in found.amounts:
            print(f"  - {amount.item}: {amount_text(amount, units)}. {amount.reason}")
    real = _real_years(plan, found)
    if real is not None:
        print(f"In real years it would have worked in {real.worked} of {real.years}. {real.reason}")
    if facts:
        print("It rests on:")
        for fact in facts:
            print(f"  - {fact}")
    print(f"Dates rest on {plan.climate.source}; about {plan.climate.error_days} days either way.")
    if stale:
        print("The brief or the journal has changed since this plan was made: plan again.")
