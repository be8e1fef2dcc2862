"""`turfplan clients`: one plan for each row of a file."""

import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from turfplan.app.client_rows import ClientSeason
    from turfplan.messages import Words

app = typer.Typer(add_completion=False, rich_markup_mode=None, no_args_is_help=True)


@app.callback()
def _clients() -> None:
    """Plan for every client of a file.

    Example: turfplan clients plan examples/clients.csv -o out
    """


@app.command("plan")
def plan_clients(
    file: Path = typer.Argument(
        ...,
        metavar="CLIENTS.csv",
        help="One row a lawn; columns are the brief's keys, dotted, plus id.",
    ),
    output: Path = typer.Option(
        ...,
        "-o",
        "--output",
        metavar="DIR",
        help="The data folder: each row's lawn lies in its `lawns`, or, where it has none, in it.",
    ),
    today: datetime | None = typer.Option(
        None, "--today", formats=["%Y-%m-%d"], help="Plan as if it were this day."
    ),
    forget: bool = typer.Option(
        False, "--forget", help="Plan without the entries that a journal has lost."
    ),
    processes: int = typer.Option(
        2, "--processes", min=1, max=16, help="How many plans are made at once."
    ),
) -> None:
    """Bring every row of a file into a folder of its own as a brief, and plan it there, with a
    summary table; a bad row never stops the rest.

    Example: turfplan clients plan examples/clients.csv -o out
    """
    from turfplan.app.client_rows import plan_clients
    from turfplan.app.plan_lawn import PlanRun
    from turfplan.phrases import screen

    shows, words = sys.stderr.isatty(), words_of_user()
    run = PlanRun(today.date() if today else None, forget=forget)
    seen = _teller(words, shows=shows)
    seasons = plan_clients(file, output, seen=seen, run=run, processes=processes)
    if shows:
        print(file=sys.stderr)
    _print_table(seasons, words)
    planned = sum(season.state == "planned" for season in seasons)
    counted = screen.clients_planned(planned=planned, rows=len(seasons), folder=str(output))
    say(words, counted, aside=True)
    if planned < len(seasons):
        raise typer.Exit(3)


def _teller(words: "Words", *, shows: bool) -> "Callable[[ClientSeason, int, int], None]":
    """What tells each row as it ends: its notes, its fault, and with `shows` how many are done."""
    from turfplan.phrases import screen

    def seen(season: "ClientSeason", done: int, rows: int) -> None:
        for note in season.notes:
            say(words, screen.client_note(client=season.client, note=note), aside=True)
        if season.state != "planned":
            client = season.client or words.text(screen.clients_no_id())
            fault = screen.clients_fault(line=season.line, client=client, fault=season.campaign)
            say(words, fault, aside=True)
        if shows:
            progress = words.text(screen.clients_progress(done=done, rows=rows))
            print(f"\r{progress}", end="", file=sys.stderr, flush=True)

    return seen


def _print_table(seasons: "Sequence[ClientSeason]", words: "Words") -> None:
    """Print a line for each row as in the summary, whose heads and states are names for programs,
    in the reader's words; a cell shows 60 letters.
    """
    from turfplan.phrases import screen

    heads = (
        screen.clients_client(),
        screen.clients_state(),
        screen.clients_campaign(),
        screen.clients_first_work(),
        screen.clients_main_work(),
        screen.clients_order(),
    )
    states = {
        "planned": screen.clients_is_planned(),
        "not possible": screen.clients_not_possible(),
        "bad row": screen.clients_bad_row(),
        "not written": screen.clients_not_written(),
    }
    rows = [
        (client, words.text(states[state]), *rest)
        for client, state, *rest in (season.cells for season in seasons)
    ]
    table = (tuple(map(words.text, heads)), *rows)
    widths = [max(len(row[k]) for row in table) for k in range(len(heads))]
    for row in table:
        print(
            "  ".join(
                cell[:60].ljust(min(width, 60)) for cell, width in zip(row, widths, strict=True)
            ).rstrip()
        )
