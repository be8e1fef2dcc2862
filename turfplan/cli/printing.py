"""`turfplan print`: one sheet of a plan, as HTML and on request as PDF."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.speech import brief_at, say, words_of
from turfplan.phrases import files

if TYPE_CHECKING:
    from turfplan.app.sheets import PaperName, SheetName
    from turfplan.records.plan import Plan


class Sheet(StrEnum):
    """What can be printed."""

    WEEK = "week"
    BOOK = "book"
    ORDER = "order"
    CHANGES = "changes"
    WATER = "water"
    MEASURE = "measure"


class PaperSize(StrEnum):
    """The paper to print on."""

    LETTER = "letter"
    A4 = "a4"


_SHEETS: "dict[Sheet, SheetName]" = {
    Sheet.WEEK: "week",
    Sheet.BOOK: "book",
    Sheet.ORDER: "order",
    Sheet.CHANGES: "changes",
    Sheet.WATER: "water",
}
_PAPER: "dict[PaperSize, PaperName]" = {PaperSize.LETTER: "letter", PaperSize.A4: "a4"}


def print_sheet(
    brief: Annotated[
        Path,
        typer.Argument(
            metavar="BRIEF",
            help="The brief that is printed, its plan, or the folder of its lawn.",
            callback=brief_at,
        ),
    ],
    sheet: Annotated[
        Sheet,
        typer.Argument(
            help="Weekly checklist, season book, order sheet, changes, watering card, or how to "
            "measure the lawn."
        ),
    ] = Sheet.WEEK,
    week: Annotated[
        str | None,
        typer.Option(
            "--week",
            metavar="DATE|this",
            help="Only the week that holds this day; `this` is the present one.",
        ),
    ] = None,
    large: Annotated[bool, typer.Option("--large", help="Large print.")] = False,
    paper: Annotated[
        PaperSize | None,
        typer.Option("--paper", help="Letter in the United States and Canada, A4 elsewhere."),
    ] = None,
    pdf: Annotated[
        bool, typer.Option("--pdf", help="Write a PDF beside the page (needs the extra pdf).")
    ] = False,
    output: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--output",
            metavar="FILE|DIR",
            help="The folder of the plan, or the file to write.",
        ),
    ] = None,
) -> None:
    """Print a sheet of the plan: open the page in a browser and print it, or ask for a PDF.

    Example: turfplan print examples/cool-overseed.toml week --week this --large -o out
    """
    # Longer than most functions: its options stand one a line.
    from turfplan.app.sheets import is_page, sheet_of
    from turfplan.phrases import screen

    plan: Plan | None
    size = _PAPER[paper] if paper is not None else None
    if sheet is Sheet.MEASURE:
        plan, folder = None, _folder_to_measure(brief, output)
        html, name = _measuring(brief, week, large=large, paper=size)
    else:
        plan, folder = _plan(brief, output)
        html, name = sheet_of(plan, _SHEETS[sheet], week, large=large, paper=size)
    target = output if output is not None and is_page(output) else folder / name
    _write(html, target, plan, pdf=pdf)
    if plan is not None:
        say(words_of(plan), screen.print_revision(number=plan.revision), aside=True)


def _write(html: str, target: Path, plan: "Plan | None", *, pdf: bool) -> None:
    """Write the page, and a PDF beside it where one is wanted or named, and print their paths."""
    from turfplan.app.sheets import write_sheet

    written = target.with_suffix(".html") if target.suffix == ".pdf" else target
    write_sheet(written, html.encode())
    print(written)
    if pdf or target.suffix == ".pdf":
        from turfplan.export.pdf import to_pdf

        printed = written.with_suffix(".pdf")
        write_sheet(printed, to_pdf(html, plan))
        print(printed)


def _plan(brief: Path, output: Path | None) -> tuple["Plan", Path]:
    """The plan that is printed, and its folder."""
    from turfplan.app.sheets import plan_to_print

    return plan_to_print(brief, output)


def _folder_to_measure(brief: Path, output: Path | None) -> Path:
    """Where the measuring sheet goes, which needs no plan: the folder named with -o, else the one
    beside the brief.
    """
    from turfplan.app.outputs import output_folder
    from turfplan.app.sheets import is_page

    return output_folder(brief, None if output is not None and is_page(output) else output)


def _measuring(
    brief: Path, week: str | None, *, large: bool, paper: "PaperName | None"
) -> tuple[str, str]:
    """The measuring sheet and the name of its file; it is of no week."""
    from turfplan.app.sheets import measuring_sheet
    from turfplan.errors import Problem, TurfplanError

    if week is not None:
        fault = files.week_of(sheet="measure")
        raise TurfplanError(Problem("--week", fault, week, files.week_only()))
    return measuring_sheet(
        brief, large=large, paper=paper, tell=lambda said: print(said, file=sys.stderr)
    )
