"""`turfplan clients import` and `export`: the client file of a business, in and out."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.speech import say, show_faults, words_of_user

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turfplan.app.import_clients import ClientImport
    from turfplan.message import Message, Value
    from turfplan.messages import Words

# So many lawns are named of each state; the others are counted.
NAMED = 12
GroupOption = Annotated[
    str | None,
    typer.Option(
        "--group",
        metavar="COLUMN=VALUE",
        help="Only clients with this value in a column of your own, such as route=north.",
    ),
]


def import_clients(
    file: Annotated[
        Path,
        typer.Argument(
            metavar="FILE.csv",
            help="One row a lawn: id, keys of the brief, keys of the client, columns of your own.",
        ),
    ],
    output: Annotated[Path, typer.Option("-o", "--output", metavar="DIR", help="The data folder.")],
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Only say what would change, and every fault.")
    ] = False,
    only_good: Annotated[
        bool, typer.Option("--only-good", help="Bring in the good rows though others are bad.")
    ] = False,
    archive: Annotated[
        bool,
        typer.Option(
            "--archive", help="Put lawns away that the file no longer holds; addresses end."
        ),
    ] = False,
    group: GroupOption = None,
) -> None:
    """Bring the client file of a business into its data folder; nothing is planned yet.

    Example: turfplan clients import examples/clients.csv -o data --dry-run
    """
    from turfplan.app.import_clients import ImportRun
    from turfplan.app.import_clients import import_clients as bring
    from turfplan.business.groups import group_of

    words = words_of_user()
    wanted = group_of(group)
    run = ImportRun(dry_run, only_good, archive, wanted)
    found = bring(file, output, run)
    _tell(found, words, dry=dry_run)
    if found.counted("bad row", "not written"):
        raise typer.Exit(3)


def _tell(found: "ClientImport", words: "Words", *, dry: bool) -> None:
    """Say every fault with its line and column, then what is new, changed, gone."""
    from turfplan.message import listed
    from turfplan.phrases import clients as phrases

    _tell_faults(found)
    told = (
        ("new", phrases.new),
        ("changed", phrases.changed),
        ("unchanged", phrases.unchanged),
        ("back", phrases.back),
        ("left", phrases.left),
    )
    states = [make(n=n) for state, make in told if (n := found.counted(state))]  # type: ignore[arg-type]
    bad = found.counted("bad row", "not written")
    states += [phrases.bad(n=bad)] if bad else []
    say(
        words,
        phrases.counted(rows=phrases.rows(n=len(found.rows)), states=listed(states, "comma")),
    )
    for state, make in told:
        names = [row.client for row in found.rows if row.state == state]
        if state != "unchanged" and names:
            _tell_names(make(n=len(names)), names, words)
    if found.gone:
        _tell_names(phrases.gone(n=len(found.gone)), found.gone, words)
    if found.archived:
        _tell_names(phrases.archived(n=len(found.archived)), found.archived, words)
    for note in found.notes:
        say(words, note, aside=True)
    if not found.written:
        end = phrases.nothing_written() if dry or not bad else phrases.take_good()
        say(words, end, aside=True)


def _tell_names(state: "Message", names: "Sequence[str]", words: "Words") -> None:
    from turfplan.message import listed
    from turfplan.phrases import clients as phrases

    shown: list[Value] = list(names[:NAMED])
    if len(names) > NAMED:
        shown.append(phrases.and_more(n=len(names) - NAMED))
    say(words, phrases.of_state(state=state, clients=listed(shown, "comma")))


def _tell_faults(found: "ClientImport") -> None:
    from turfplan.app.client_rows import at_line
    from turfplan.errors import TurfplanError

    for row in found.rows:
        if row.problems:
            faults = (at_line(problem, row.line, row.client) for problem in row.problems)
            show_faults([TurfplanError(faults)])


def export_clients(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="The data folder.")],
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE.csv", help="Where to; else to stdout."),
    ] = None,
    group: GroupOption = None,
) -> None:
    """Write the clients of a data folder as the file in which they came.

    Example: turfplan clients export data -o clients.csv
    """
    from turfplan.app.export_clients import export_clients as table_of
    from turfplan.app.sheets import write_sheet
    from turfplan.business.groups import group_of
    from turfplan.phrases import clients as phrases

    words = words_of_user()
    table = table_of(folder, group_of(group))
    for note in table.notes:
        say(words, note, aside=True)
    if output is None:
        sys.stdout.buffer.write(table.content)
        return
    write_sheet(output, table.content)
    say(words, phrases.exported(n=table.clients, file=str(output)), aside=True)
