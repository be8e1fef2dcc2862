"""`turfplan clients list` and `print`: the jobs of many lawns."""

import json
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.printing import PaperSize, paper_named, write_page
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from turfplan.app.client_lists import JobList, ListKind, WaitingLawn
    from turfplan.business.lawn_glance import GlancedJob
    from turfplan.messages import Words

# A cell of the table shows so many letters.
CELL = 56
Folder = Annotated[Path, typer.Argument(metavar="DIR", help="The data folder.")]
ByOption = Annotated[
    str | None,
    typer.Option(
        "--by",
        metavar="COLUMN",
        help="A column of your own by which lawns are put in order; else where they lie.",
    ),
]


class CrewSheet(StrEnum):
    """What can be printed for many lawns."""

    DAY = "day"
    WEEK = "week"


def list_clients(
    ctx: typer.Context,
    folder: Folder,
    on: Annotated[
        str | None, typer.Option("--on", metavar="DAY", help="Jobs of a day; `this` is today.")
    ] = None,
    week: Annotated[
        str | None, typer.Option("--week", metavar="DAY", help="Jobs of the week of a day.")
    ] = None,
    overdue: Annotated[
        bool, typer.Option("--overdue", help="Jobs that are over and that nobody has logged.")
    ] = False,
    last_days: Annotated[
        bool,
        typer.Option(
            "--last-days",
            help="Main jobs whose last safe day is near.",
        ),
    ] = False,
    waiting: Annotated[
        bool, typer.Option("--waiting", help="What waits for the answer to a quote, until when.")
    ] = False,
    quotes: Annotated[bool, typer.Option("--quotes", help="All quotes with their states.")] = False,
    group: GroupOption = None,
    by: ByOption = None,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one object.")] = False,
) -> None:
    """List the jobs of all lawns of a data folder; those of this week, if nothing else is said.

    Example: turfplan clients list data --week this
    """
    from turfplan.app.client_lists import AskedList, list_jobs
    from turfplan.business.groups import group_of
    from turfplan.phrases import clients as phrases
    from turfplan.phrases import quotes as of_quotes

    if sum((on is not None, week is not None, overdue, last_days, waiting, quotes)) > 1:
        fail(ctx, phrases.one_list())
    now = day_of(today, "--today")
    if quotes:
        from turfplan.cli.client_quotes import print_quotes

        print_quotes(folder, group, now, words_of_user(), as_json=as_json)
        return
    wanted = group_of(group)
    if on is not None:
        asked = AskedList("day", day_of(on, "--on", now), wanted, by)
    elif overdue or last_days or waiting:
        kind: ListKind = "overdue" if overdue else "last-days" if last_days else "waiting"
        asked = AskedList(kind, now, wanted, by)
    else:
        asked = AskedList("week", day_of(week, "--week", now), wanted, by)
    found, words = list_jobs(folder, asked), words_of_user()
    for note in found.notes:
        say(words, note, aside=True)
    if as_json:
        print(json.dumps(_as_object(found), indent=1, ensure_ascii=False))
        return
    if not waiting:
        _print_list(found, words)
        _print_hours(found, words)
    elif not found.waiting:
        say(words, of_quotes.none_waiting(), aside=True)
    print_waiting(found.waiting, words)


def day_of(text: str | None, option: str, now: date | None = None) -> date:
    """The day that is meant; today where none is, or `this`."""
    from turfplan.app.lawn_day import today_here
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import clients as phrases

    if text is None or text == "this":
        return now or today_here()
    try:
        return date.fromisoformat(text)
    except ValueError:
        fault = Problem(option, phrases.not_a_day(), repr(text), phrases.such_a_day())
        raise TurfplanError(fault) from None


def _print_list(found: "JobList", words: "Words") -> None:
    from turfplan.phrases import clients as phrases
    from turfplan.plain_text import plain_text

    if not found.lawns:
        say(words, phrases.no_jobs(), aside=True)
        return
    heads = (
        phrases.head_lawn(),
        phrases.head_name(),
        phrases.head_days(),
        phrases.head_hours(),
        phrases.head_alone(),
        phrases.head_last(),
        phrases.head_job(),
    )
    rows = [
        (lawn.id, plain_text(lawn.name), *_visit_cells(jobs, words))
        for lawn in found.lawns
        for jobs in _visits(lawn.jobs)
    ]
    print_table((tuple(map(words.text, heads)), *rows))


def _visits(jobs: "Sequence[GlancedJob]") -> "Iterable[list[GlancedJob]]":
    """The jobs of a lawn by their days, each of which is one visit."""
    found: dict[tuple[date, date], list[GlancedJob]] = {}
    for job in jobs:
        found.setdefault((job.start, job.end), []).append(job)
    return found.values()


def _visit_cells(jobs: "Sequence[GlancedJob]", words: "Words") -> tuple[str, ...]:
    """Of a visit its days, its hours, the nearest last days of its main jobs, and the jobs."""
    from turfplan.message import Number
    from turfplan.plain_text import plain_text

    start, end = jobs[0].start.isoformat(), jobs[0].end.isoformat()
    main = [job for job in jobs if job.main]
    alone = min((job.alone for job in main if job.alone is not None), default=None)
    last = min((job.last for job in main), default=None)
    return (
        start if start == end else f"{start}..{end}",
        words.value(Number(round(sum(job.hours for job in jobs), 1), "plain")),
        alone.isoformat() if alone is not None else "",
        last.isoformat() if last is not None else "",
        "; ".join(plain_text(job.title) for job in jobs),
    )


def print_table(table: "tuple[tuple[str, ...], ...]") -> None:
    """Print rows in columns as wide as their cells, which show the first letters alone; the last
    column whole."""
    widths = [min(CELL, max(map(len, column))) for column in zip(*table, strict=True)]
    for row in table:
        *cells, last = row
        shown = (cell[:CELL].ljust(width) for cell, width in zip(cells, widths, strict=False))
        print("  ".join((*shown, last)).rstrip())


def _print_hours(found: "JobList", words: "Words") -> None:
    """Say of each day with work how many hours it takes and how many are there."""
    from turfplan.app.client_lists import told_hours

    for day in found.hours:
        if day.needed:
            say(words, told_hours(day))


def print_waiting(lawns: "Sequence[WaitingLawn]", words: "Words") -> None:
    """Print what waits for the answer to a quote: when it would begin, and by when the answer must
    come, because of what is too late after it."""
    from turfplan.cli.client_quotes import state_name
    from turfplan.phrases import clients as phrases
    from turfplan.phrases import quotes as of_quotes
    from turfplan.plain_text import plain_text

    if not lawns:
        return
    say(words, of_quotes.waiting())
    heads = (
        phrases.head_lawn(),
        phrases.head_name(),
        of_quotes.head_number(),
        of_quotes.head_state(),
        of_quotes.head_begins(),
        of_quotes.head_by(),
        of_quotes.head_lost(),
    )
    rows = [
        (
            one.id,
            plain_text(one.name),
            one.waits.quote.number,
            words.text(state_name(one.waits.state)),
            one.waits.begins.isoformat() if one.waits.begins is not None else "",
            one.waits.by.isoformat() if one.waits.by is not None else "",
            plain_text(one.waits.first_lost),
        )
        for one in lawns
    ]
    print_table((tuple(map(words.text, heads)), *rows))


def waiting_object(one: "WaitingLawn") -> dict[str, object]:
    """What waits for an answer as one object."""
    waits = one.waits
    return {
        "id": one.id,
        "name": one.name,
        "quote": waits.quote.number,
        "state": waits.state,
        "begins": waits.begins.isoformat() if waits.begins is not None else None,
        "answer_by": waits.by.isoformat() if waits.by is not None else None,
        "first_lost": waits.first_lost,
        "jobs": [job.model_dump(mode="json", exclude={"overdue"}) for job in waits.jobs],
    }


def _as_object(found: "JobList") -> dict[str, object]:
    """A list as one object."""
    return {
        "schema": 1,
        "list": found.asked.kind,
        "day": found.asked.day.isoformat(),
        "lawns": [
            {
                "id": lawn.id,
                "name": lawn.name,
                "address": lawn.client.address,
                "jobs": [job.model_dump(mode="json", exclude={"overdue"}) for job in lawn.jobs],
            }
            for lawn in found.lawns
        ],
        "waiting": [waiting_object(one) for one in found.waiting],
        "hours": [
            {
                "day": day.day.isoformat(),
                "needed": round(day.needed, 2),
                "there": day.there if day.there is None else round(day.there, 2),
            }
            for day in found.hours
        ],
    }


def print_clients(
    what: Annotated[CrewSheet, typer.Argument(help="The sheet of a day, or of its week.")],
    folder: Folder,
    on: Annotated[
        str | None, typer.Option("--on", metavar="DAY", help="The day, or one of the week.")
    ] = None,
    group: GroupOption = None,
    by: ByOption = None,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE", help="Where to; else into the data folder."),
    ] = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="A PDF beside it.")] = False,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
) -> None:
    """Write the crew's sheet of all lawns that are due as one file: order, access, jobs, amounts.

    Example: turfplan clients print week data --group crew=north
    """
    from turfplan.app.client_lists import AskedList
    from turfplan.app.client_sheets import crew_sheet
    from turfplan.app.sheets import is_page
    from turfplan.business.groups import group_of

    words = words_of_user()
    wanted = group_of(group)
    asked = AskedList("day" if what is CrewSheet.DAY else "week", day_of(on, "--on"), wanted, by)
    html, name, notes = crew_sheet(folder, asked, paper_named(paper))
    for note in notes:
        say(words, note, aside=True)
    named = output is not None and is_page(output)
    target = output if output is not None and named else (output or folder) / name
    write_page(html, target, pdf=pdf)
