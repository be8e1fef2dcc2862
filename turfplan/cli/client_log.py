"""`turfplan clients log` and `record`: what happened at many lawns, written, taken back, told."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import Folder, day_of
from turfplan.cli.printing import PaperSize, paper_named, write_page
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.log_clients import BulkLog
    from turfplan.messages import Words


class OfAll(StrEnum):
    """What can be said of all jobs of a day."""

    DONE = "done"
    RAINED_OFF = "rained-off"


def log_clients(
    ctx: typer.Context,
    folder: Folder,
    file: Annotated[
        Path | None,
        typer.Argument(
            metavar="[FILE.csv]",
            help="One row an entry: lawn, task, day; kind, amount, hours, by, note.",
        ),
    ] = None,
    on: Annotated[
        str | None, typer.Option("--on", metavar="DAY", help="The day that --all is about.")
    ] = None,
    of_all: Annotated[
        OfAll | None, typer.Option("--all", help="What all jobs of the day are: done, rained-off.")
    ] = None,
    but: Annotated[
        list[str] | None,
        typer.Option(
            "--except", metavar="LAWN[:TASK]", help="But not this lawn, or this task of it."
        ),
    ] = None,
    group: GroupOption = None,
    undo: Annotated[
        str | None, typer.Option("--undo", metavar="NAME", help="Take back all of one such call.")
    ] = None,
    by: Annotated[str, typer.Option("--by", metavar="NAME", help="Who says so.")] = "",
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Write also what looks like a slip.")] = False,
) -> None:
    """Write what happened at many lawns into their journals: a file of it, or all jobs of a day but
    some; nothing while anything of it is faulty.

    Example: turfplan clients log data --on 2027-09-07 --all done --except ash-01
    """
    from turfplan.app.log_clients import KINDS, DayLog, log_day, log_file, undo_batch
    from turfplan.business.groups import group_of
    from turfplan.phrases import clients as phrases

    words, now = words_of_user(), day_of(today, "--today")
    wanted = group_of(group)
    said = sum((file is not None, of_all is not None, undo is not None))
    if said != 1 or (on is None) != (of_all is None) or (file is not None and wanted is not None):
        fail(ctx, phrases.one_log())
    if undo is not None:
        found = undo_batch(folder, undo, by=by, group=wanted)
        say(words, phrases.taken_back(n=found.written, lawns=found.lawns), aside=True)
    elif file is not None:
        _tell(log_file(file, folder, now, sure=yes), folder, words)
    elif of_all is not None:
        kind = KINDS[of_all.value]
        day = DayLog(day_of(on, "--on", now), kind, tuple(but or ()), wanted, by)
        _tell(log_day(folder, day, now, sure=yes), folder, words)


def _tell(found: "BulkLog", folder: Path, words: "Words") -> None:
    from turfplan.phrases import clients as phrases

    for note in found.notes:
        say(words, note, aside=True)
    say(words, phrases.logged(n=found.written, lawns=found.lawns), aside=True)
    if found.known:
        say(words, phrases.stood(n=found.known), aside=True)
    if found.written:
        command = f"turfplan clients log {folder} --undo {found.batch}"
        say(words, phrases.take_back(command=command), aside=True)
        say(words, phrases.plan_again(command=f"turfplan clients plan {folder}"), aside=True)


def record_clients(
    folder: Folder,
    output: Annotated[
        Path,
        typer.Option(
            "-o", "--output", metavar="FILE", help="A table (.csv), or a page (.html or .pdf)."
        ),
    ],
    group: GroupOption = None,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
) -> None:
    """Write the record of what was spread and sprayed: product, amount, area, day, wind, who; also
    of clients that are gone.

    Example: turfplan clients record data -o spreading.csv
    """
    from turfplan.app.sheets import is_page, write_sheet
    from turfplan.app.spreading_record import record_page, spreading_record
    from turfplan.business.groups import group_of
    from turfplan.phrases import clients as phrases

    found = spreading_record(folder, group_of(group))
    if is_page(output):
        page = record_page(found, day_of(today, "--today"), paper_named(paper))
        write_page(page, output, pdf=False)
    else:
        write_sheet(output, found.content)
    told = phrases.recorded(n=found.rows, unnamed=found.unnamed, file=str(output))
    say(words_of_user(), told, aside=True)
