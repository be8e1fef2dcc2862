"""`turfplan clients`: a business's lawns, planned, listed, brought in and given out."""

import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.client_callbacks import callback_clients, list_hours
from turfplan.cli.client_files import GroupOption, export_clients, import_clients
from turfplan.cli.client_letters import list_messages, write_letters
from turfplan.cli.client_lists import list_clients, print_clients
from turfplan.cli.client_log import log_clients, record_clients
from turfplan.cli.client_material import list_material
from turfplan.cli.client_operators import keep_operators
from turfplan.cli.client_quotes import quote_client, visit_clients
from turfplan.cli.client_standing import leave_client, pause_clients, rule_clients, sell_lawn
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turfplan.app.client_season import ClientSeason
    from turfplan.app.plan_clients import PlannedClients
    from turfplan.message import Value
    from turfplan.messages import Words

app = typer.Typer(add_completion=False, rich_markup_mode=None, no_args_is_help=True)


@app.callback()
def _clients() -> None:
    """Work for all lawns of a business.

    Example: turfplan clients plan examples/clients.csv -o out
    """


app.command("import")(import_clients)
app.command("export")(export_clients)
app.command("list")(list_clients)
app.command("print")(print_clients)
app.command("log")(log_clients)
app.command("record")(record_clients)
app.command("material")(list_material)
app.command("quote")(quote_client)
app.command("visit")(visit_clients)
app.command("letter")(write_letters)
app.command("messages")(list_messages)
app.command("pause")(pause_clients)
app.command("leave")(leave_client)
app.command("sell")(sell_lawn)
app.command("rule")(rule_clients)
app.command("callback")(callback_clients)
app.command("hours")(list_hours)
app.command("operators")(keep_operators)


@app.command("plan")
def plan_clients(
    ctx: typer.Context,
    source: Path = typer.Argument(
        ...,
        metavar="CLIENTS.csv|DIR",
        help="A client file to bring in first, one row a lawn; or the data folder alone.",
    ),
    output: Path | None = typer.Option(
        None,
        "-o",
        "--output",
        metavar="DIR",
        help="The data folder: each row's lawn lies in its `lawns`, or, where it has none, in it.",
    ),
    group: GroupOption = None,
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
    """Bring every good row of a file into a folder of its own, and plan each lawn that has news,
    with a summary table; nothing that befalls one lawn stops the rest.

    Example: turfplan clients plan examples/clients.csv -o out
    """
    from turfplan.app.client_season import GOOD_STATES
    from turfplan.app.plan_clients import plan_clients
    from turfplan.app.plan_lawn import PlanRun
    from turfplan.business.groups import group_of
    from turfplan.phrases import clients as phrases

    if output is None and not source.is_dir():
        fail(ctx, phrases.output_needed())
    file, folder = (source, output) if output is not None else (None, source)
    wanted = group_of(group)
    shows, words = sys.stderr.isatty(), words_of_user()
    run = PlanRun(today.date() if today else None, forget=forget)
    told = _Teller(words, shows=shows)
    try:
        found = plan_clients(
            file, folder, seen=told.seen, run=run, processes=processes, group=wanted
        )
    except KeyboardInterrupt:
        say(words, phrases.stopped(n=told.planned), aside=True)
        raise typer.Exit(130) from None
    if shows:
        print(file=sys.stderr)
    if found.problem is not None and all(one.state == "not written" for one in found.seasons):
        raise found.problem
    _print_table(found.seasons, words)
    _tell_news(found, folder, words)
    if found.problem is not None:
        raise found.problem
    if any(season.state not in GOOD_STATES for season in found.seasons):
        raise typer.Exit(3)


class _Teller:
    """Tells each lawn as it ends: its notes, its fault, and with `shows` how many are done."""

    def __init__(self, words: "Words", *, shows: bool) -> None:
        """In some words."""
        self._words, self._shows, self.planned = words, shows, 0

    def seen(self, season: "ClientSeason", done: int, rows: int) -> None:
        """Tell a lawn, of which `done` of `rows` have ended."""
        from turfplan.app.client_season import GOOD_STATES
        from turfplan.phrases import clients as phrases
        from turfplan.phrases import screen

        words = self._words
        self.planned += season.state == "planned"
        for note in season.notes:
            say(words, screen.client_note(client=season.client, note=note), aside=True)
        if season.state not in GOOD_STATES:
            client = season.client or words.text(screen.clients_no_id())
            text = season.campaign
            fault = screen.clients_fault(line=season.line, client=client, fault=text)
            if not season.line:
                fault = phrases.fault_of(client=client, fault=text)
            say(words, fault, aside=True)
        if self._shows:
            progress = words.text(screen.clients_progress(done=done, rows=rows))
            print(f"\r{progress}", end="", file=sys.stderr, flush=True)


def _tell_news(found: "PlannedClients", folder: Path, words: "Words") -> None:
    """Say what changed, lawns with the same news in one line, how many were planned, what is
    overdue, and what can soon no longer be done."""
    from turfplan.app.client_letters import waiting_command
    from turfplan.app.plan_clients import NEAR_DAYS
    from turfplan.message import listed
    from turfplan.phrases import clients as phrases
    from turfplan.phrases import quotes as of_quotes
    from turfplan.phrases import screen

    seasons, today = found.seasons, found.today
    alike: dict[tuple[str, ...], list[Value]] = {}
    for season in seasons:
        if season.changes:
            alike.setdefault(season.changes, []).append(season.client)
    for same, names in alike.items():
        changes, clients = listed(same, "semicolon"), words.value(listed(names, "comma"))
        say(words, phrases.changes_of(client=clients, changes=changes), aside=True)
    planned = sum(season.state == "planned" for season in seasons)
    counted = screen.clients_planned(planned=planned, rows=len(seasons), folder=str(folder))
    say(words, counted, aside=True)
    sold = [season for season in seasons if season.client not in found.unsold]
    glances = [season.glance for season in sold if season.glance is not None]
    late = [over for glance in glances if (over := glance.overdue(today))]
    if late:
        command, jobs = f"turfplan clients list {folder} --overdue", sum(map(len, late))
        say(words, phrases.overdue(n=len(late), jobs=jobs, command=command), aside=True)
    near = sum(bool(glance.near_last(today, NEAR_DAYS)) for glance in glances)
    if near:
        command = f"turfplan clients list {folder} --last-days"
        say(words, phrases.near_last(n=near, days=NEAR_DAYS, command=command), aside=True)
    if found.unsold:
        command = waiting_command(folder)
        say(words, of_quotes.left_out(n=len(found.unsold), command=command), aside=True)


def _print_table(seasons: "Sequence[ClientSeason]", words: "Words") -> None:
    """Print a line for each lawn that was planned for the first time, or that has no plan, as in
    the summary, whose heads and states are names for programs, in the reader's words; a cell shows
    60 letters. What changed for the others is told, and all stand in the summary.
    """
    from turfplan.phrases import clients as phrases
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
        "paused": phrases.is_paused(),
        "left": phrases.has_left(),
        "not possible": screen.clients_not_possible(),
        "bad row": screen.clients_bad_row(),
        "not written": screen.clients_not_written(),
        "fault": phrases.is_fault(),
    }
    rows = [
        (client, words.text(states[state]), *rest)
        for client, state, *rest in (
            season.cells
            for season in seasons
            if season.news == "first" or season.state != "planned"
        )
    ]
    if not rows:
        return
    table = (tuple(map(words.text, heads)), *rows)
    widths = [max(len(row[k]) for row in table) for k in range(len(heads))]
    for row in table:
        print(
            "  ".join(
                cell[:60].ljust(min(width, 60)) for cell, width in zip(row, widths, strict=True)
            ).rstrip()
        )
