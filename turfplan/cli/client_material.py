"""`turfplan clients material`: what the lawns of a business buy."""

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import (
    Folder,
    day_of,
    print_table,
    print_waiting,
    waiting_object,
)
from turfplan.cli.printing import PaperSize, paper_named
from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.client_material import MaterialList
    from turfplan.messages import Words


def list_material(
    folder: Folder,
    week: Annotated[
        str | None,
        typer.Option(
            "--week", metavar="DAY", help="What is ordered or comes in the week of a day."
        ),
    ] = None,
    group: GroupOption = None,
    output: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--output",
            metavar="FILE",
            help="A table (.csv) or a page (.html, .pdf) instead of the list.",
        ),
    ] = None,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
    told: Annotated[
        bool, typer.Option("--told", help="The suppliers were told of what is listed.")
    ] = False,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one object.")] = False,
) -> None:
    """List what all lawns need by supplier and truckload, shared by lawns, with its days to order;
    and deliveries that are no longer as their suppliers were told.

    Example: turfplan clients material data --week this
    """
    from turfplan.app import client_material
    from turfplan.app.sheets import write_sheet
    from turfplan.business.groups import group_of
    from turfplan.export.tables.material_csv import material_csv, material_object
    from turfplan.phrases import material as phrases

    now, user = day_of(today, "--today"), words_of_user()
    if output is not None:
        _refuse_other_files(output)
    asked = day_of(week, "--week", now) if week is not None else None
    wanted = group_of(group)
    found = client_material.list_material(folder, asked, wanted, now, tell=told)
    for note in found.notes:
        say(user, note, aside=True)
    if as_json:
        listed = material_object(found.loads, found.moved)
        listed["waiting"] = [waiting_object(one) for one in found.waiting]
        print(json.dumps(listed, indent=1, ensure_ascii=False))
    elif output is None:
        _print_list(found, user)
        print_waiting(found.waiting, user)
    elif output.suffix.lower() == ".csv":
        write_sheet(output, material_csv(found.loads, found.moved))
        print(output)
    else:
        size = paper_named(paper)
        html = client_material.material_page(found, folder.name, now, size)
        _write_page(output, html)
    if told:
        say(user, phrases.counted_told(), aside=True)


def _refuse_other_files(output: Path) -> None:
    from turfplan.app.sheets import PAGE_SUFFIXES
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import material as phrases

    if output.suffix.lower() not in (".csv", *PAGE_SUFFIXES):
        fault = phrases.what_file()
        raise TurfplanError(Problem("--output", fault, str(output), phrases.such_a_file()))


def _write_page(output: Path, html: str) -> None:
    """Write a page, and print it where a PDF was asked for."""
    from turfplan.app.sheets import write_sheet
    from turfplan.export.pdf import to_pdf

    content = to_pdf(html, None) if output.suffix.lower() == ".pdf" else html.encode()
    write_sheet(output, content)
    print(output, file=sys.stdout)


def _print_list(found: "MaterialList", user: "Words") -> None:
    from turfplan.export.sheets.material_page import load_view, moved_text
    from turfplan.phrases import material as phrases
    from turfplan.plain_text import plain_text

    words = found.words.on_terminal()
    if found.moved:
        say(user, phrases.moved_since(n=len(found.moved)))
        for one in found.moved:
            supplier = (
                plain_text(one.supplier) if one.supplier else words.text(phrases.no_supplier())
            )
            print(f"  {supplier}: {words.text(moved_text(one))}")
    if not found.loads:
        say(user, phrases.nothing(), aside=True)
        return
    heads = (
        phrases.head_order(),
        phrases.head_deliver(),
        phrases.head_supplier(),
        phrases.head_material(),
        phrases.head_amount(),
        phrases.head_to(),
        phrases.head_left(),
        phrases.head_lawns(),
    )
    rows = []
    for load in sorted(found.loads, key=lambda load: (load.order_by, load.deliver_on)):
        view = load_view(load, found.clients, words)
        supplier = plain_text(load.supplier) if load.supplier else words.text(phrases.no_supplier())
        days = (load.order_by.isoformat(), load.deliver_on.isoformat())
        what = (plain_text(view.material), view.amount, view.to, view.left)
        notes = tuple(note for note in (view.late, view.estimate) if note)
        rows.append((*days, supplier, *what, "; ".join((view.shares, *notes))))
    print_table((tuple(map(words.text, heads)), *rows))
