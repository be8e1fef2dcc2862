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
    SIGN = "sign"
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
    Sheet.SIGN: "sign",
}
# What there is of a whole house.
_OF_HOUSE = (Sheet.WEEK, Sheet.ORDER, Sheet.WATER)
_PAPER: "dict[PaperSize, PaperName]" = {PaperSize.LETTER: "letter", PaperSize.A4: "a4"}


def paper_named(size: PaperSize | None) -> "PaperName | None":
    """The paper that was asked for; None where the place decides."""
    return _PAPER[size] if size is not None else None


def print_sheet(
    brief: Annotated[
        Path,
        typer.Argument(
            metavar="BRIEF",
            help="The brief that is printed, its plan, or the folder of its lawn, or of a house "
            "with several; `print measure` needs none.",
            callback=brief_at,
        ),
    ],
    sheet: Annotated[
        Sheet,
        typer.Argument(
            help="Weekly checklist, season book, order sheet, changes, watering card, a sign to "
            "keep off new grass, or how to measure the lawn."
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

    plan: Plan | None
    size = paper_named(paper)
    of_lawn = None if _measures_any(brief, sheet) else brief
    if sheet is Sheet.MEASURE or of_lawn is None:
        plan, folder = None, _folder_to_measure(of_lawn, output)
        html, name = _measuring(of_lawn, week, large=large, paper=size)
    else:
        plan, folder = _plan(brief, output, sheet)
        html, name = sheet_of(plan, _SHEETS[sheet], week, large=large, paper=size, brief=brief)
    target = output if output is not None and is_page(output) else folder / name
    write_page(html, target, plan, pdf=pdf)
    if plan is not None:
        from turfplan.phrases import sheet as told

        say(words_of(plan), told.printed_revision(number=plan.revision), aside=True)


def write_page(
    html: str, target: Path, plan: "Plan | None" = None, *, pdf: bool, beside: str = ""
) -> None:
    """Write the page, and a PDF beside it where one is wanted or named, and print their paths, that
    of the page with what is told `beside` it."""
    from turfplan.app.sheets import write_sheet

    written = target.with_suffix(".html") if target.suffix == ".pdf" else target
    write_sheet(written, html.encode())
    print(f"{written}{beside}")
    if pdf or target.suffix == ".pdf":
        from turfplan.export.pdf import to_pdf

        printed = written.with_suffix(".pdf")
        write_sheet(printed, to_pdf(html, plan))
        print(printed)


def _plan(brief: Path, output: Path | None, sheet: Sheet) -> tuple["Plan", Path]:
    """The plan that is printed, and its folder; of a house those of its lawns as one."""
    from turfplan.app.sheets import is_page, plan_to_print
    from turfplan.files.house_folder import house_at

    root = house_at(brief)
    if root is None:
        return plan_to_print(brief, output)
    named = output is not None and not is_page(output)
    return _of_house(root, sheet), output if output is not None and named else root


def _of_house(root: Path, sheet: Sheet) -> "Plan":
    """The plans of the lawns of a house as one; who has none is told of.

    Raises TurfplanError for a sheet that is of one lawn.
    """
    from turfplan.app.house import planned_in_house
    from turfplan.app.house_files import plan_of_house
    from turfplan.cli.speech import show_faults
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import house as phrases

    if sheet not in _OF_HOUSE:
        known = phrases.house_sheets(sheets=", ".join(_OF_HOUSE))
        raise TurfplanError(Problem("SHEET", phrases.one_lawn_sheet(), sheet.value, hint=known))
    lawns, faults = planned_in_house(root)
    show_faults(faults)
    return plan_of_house(lawns)


def _measures_any(brief: Path, sheet: Sheet) -> bool:
    """Whether `print measure` was asked for: a lawn is measured before its brief is written."""
    return sheet is Sheet.WEEK and brief == Path(Sheet.MEASURE.value) and not brief.exists()


def _folder_to_measure(brief: Path | None, output: Path | None) -> Path:
    """Where the measuring sheet goes, which needs no plan: the folder named with -o, else the one
    beside the brief, without one the present one.
    """
    from turfplan.app.outputs import output_folder
    from turfplan.app.sheets import is_page

    named = None if output is not None and is_page(output) else output
    return named or Path() if brief is None else output_folder(brief, named)


def _measuring(
    brief: Path | None, week: str | None, *, large: bool, paper: "PaperName | None"
) -> tuple[str, str]:
    """The measuring sheet and the name of its file; it is of no week."""
    from turfplan.app.lawn_measuring import measuring_sheet
    from turfplan.errors import Problem, TurfplanError

    if week is not None:
        fault = files.week_of(sheet="measure")
        raise TurfplanError(Problem("--week", fault, week, files.week_only()))
    return measuring_sheet(
        brief, large=large, paper=paper, tell=lambda said: print(said, file=sys.stderr)
    )
