"""`turfplan why`: the reasons for one task."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import brief_at, say, words_of

if TYPE_CHECKING:
    from turfplan.app.explain_task import Explanation


def why(
    brief: Path = typer.Argument(
        ...,
        metavar="BRIEF",
        help="The brief whose plan is explained, or the folder of its lawn.",
        callback=brief_at,
    ),
    task: str = typer.Argument(..., metavar="TASK", help="A task id such as topdress.1."),
    output: Path | None = typer.Option(
        None, "-o", "--output", metavar="DIR", help="The folder of the plan."
    ),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """Why a task is not earlier, not later, and why this much.

    Example: turfplan why examples/cool-overseed.toml topdress.1 -o out
    """
    from turfplan.app.explain_task import explain_task
    from turfplan.app.outputs import output_folder

    told = explain_task(brief, output_folder(brief, output), task)
    if as_json:
        _print_json(told)
    else:
        _print_words(told)


def _print_json(told: "Explanation") -> None:
    found, real, made = told.task, told.real_years, told.generated_years
    print(
        json.dumps(
            {
                "schema": 1,
                "task": found.id,
                "why": str(found.why),
                "not_earlier": [str(reason) for reason in found.not_earlier],
                "not_later": [str(reason) for reason in found.not_later],
                "amounts": [a.model_dump(mode="json") for a in found.amounts],
                "facts": told.facts,
                "changed_since": told.changed_since,
                "real_years": None if real is None else real.model_dump(mode="json"),
                "generated_years": None if made is None else made.model_dump(mode="json"),
            },
            ensure_ascii=False,
        )
    )


def _print_words(told: "Explanation") -> None:
    """The reasons in sentences, with what they rest on."""
    from turfplan.export.sheets.slips import slip_text
    from turfplan.message import Day, Days
    from turfplan.messages.entry import item_name, measured
    from turfplan.phrases import screen

    plan, found, real = told.plan, told.task, told.real_years
    words, window = words_of(plan), found.window
    say(words, screen.why_title(title=str(found.title), days=Days(found.start, found.end)))
    say(words, screen.why_at_all(why=str(found.why)))
    say(words, screen.why_open(days=Days(window.start, window.end), best=Day(found.best)))
    if slip := slip_text(plan, found, words):
        say(words, screen.below(line=slip))
    for head, lines in (
        (screen.why_not_earlier(), found.not_earlier),
        (screen.why_not_later(), found.not_later),
    ):
        say(words, head)
        for line in lines:
            say(words, screen.point(line=str(line)))
    if found.amounts:
        say(words, screen.why_this_much())
        for amount in found.amounts:
            value, reason = measured(amount), str(amount.reason)
            say(words, screen.why_amount(item=item_name(amount.item), amount=value, reason=reason))
    if real is not None:
        worked, reason = real.worked, str(real.reason)
        say(words, screen.why_real_years(worked=worked, years=real.years, reason=reason))
    if told.generated_years is not None:
        made = told.generated_years
        worked, reason = made.worked, str(made.reason)
        say(words, screen.why_generated_years(worked=worked, years=made.years, reason=reason))
    if told.facts:
        say(words, screen.why_facts())
        for fact in told.facts:
            say(words, screen.point(line=fact))
    source, days = str(plan.climate.source), plan.climate.error_days
    say(words, screen.why_rests_on(source=source, n=days))
    if told.changed_since:
        say(words, screen.why_changed_since())
