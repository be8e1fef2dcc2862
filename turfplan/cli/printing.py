"""`turfplan print`: one sheet of a plan, as HTML and on request as PDF."""

import os
import sys
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from turfplan.plan import Plan

PAGE_SUFFIXES = (".html", ".htm", ".pdf")


class Sheet(StrEnum):
    """What can be printed."""

    WEEK = "week"
    BOOK = "book"
    ORDER = "order"
    CHANGES = "changes"
    MEASURE = "measure"


class PaperSize(StrEnum):
    """The paper to print on."""

    LETTER = "letter"
    A4 = "a4"


def print_sheet(
    brief: Annotated[Path, typer.Argument(metavar="BRIEF", help="The brief that is printed, or its plan.")],
    sheet: Annotated[
        Sheet, typer.Argument(help="Weekly checklist, season book, order sheet, changes, or how to measure the lawn.")
    ] = Sheet.WEEK,
    week: Annotated[
        str | None,
        typer.Option(
            "--week", metavar="DATE|this", help="Only the week that holds this day; `this` is the present one."
        ),
    ] = None,
    large: Annotated[bool, typer.Option("--large", help="Large print.")] = False,
    paper: Annotated[
        PaperSize | None, typer.Option("--paper", help="Letter in the United States and Canada, A4 elsewhere.")
    ] = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="Write a PDF beside the page (needs the extra pdf).")] = False,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE|DIR", help="The folder of the plan, or the file to write."),
    ] = None,
) -> None:
    """Print a sheet of the plan: open the page in a browser and print it, or ask for a PDF.

    Example: turfplan print examples/cool-overseed.toml week --week this --large -o out
    """
    plan: Plan | None
    if sheet is Sheet.MEASURE:
        plan, folder = None, _folder_to_measure(brief, output)
        html, name = _measuring(brief, week, large=large, paper=paper), f"measure{'-large' if large else ''}.html"
    else:
        plan, folder = _plan(brief, output)
        html, name = _page(plan, sheet, _day(week, plan), large=large, paper=paper)
    target = output if output is not None and _is_page(output) else folder / name
    written = target.with_suffix(".html") if target.suffix == ".pdf" else target
    _write(written, html.encode())
    print(written)
    if pdf or target.suffix == ".pdf":
        from turfplan.export.pdf import to_pdf

        printed = written.with_suffix(".pdf")
        _write(printed, to_pdf(html, plan))
        print(printed)
    if plan is not None:
        print(f"Revision {plan.revision} of the plan.", file=sys.stderr)


def _write(path: Path, content: bytes) -> None:
    """A whole file or none: written beside its place, then moved there."""
    from turfplan.errors import Problem, TurfplanError

    temporary = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        temporary.write_bytes(content)
        temporary.replace(path)
    except OSError as error:
        temporary.unlink(missing_ok=True)
        raise TurfplanError(Problem(str(path), f"cannot be written ({error.strerror})")) from error


def _is_page(path: Path) -> bool:
    return path.suffix.lower() in PAGE_SUFFIXES and not path.is_dir()


def _plan(brief: Path, output: Path | None) -> tuple["Plan", Path]:
    """The plan and its folder: the one named with -o, the one a named file lies in, or the one beside the brief."""
    from turfplan.cli.running import output_folder
    from turfplan.errors import Problem, TurfplanError
    from turfplan.readers.plan_file import read_plan

    folders = [output_folder(brief, None), output.parent] if output is not None and _is_page(output) else []
    folders = folders or [output_folder(brief, output)]
    for folder in folders:
        plan = read_plan(folder)
        if plan is not None:
            return plan, folder
    raise TurfplanError(
        Problem(str(folders[0]), "holds no plan yet", hint=f"first `turfplan plan {brief} -o {folders[0]}`")
    )


def _folder_to_measure(brief: Path, output: Path | None) -> Path:
    """Where the measuring sheet goes, which needs no plan: the folder named with -o, else the one beside the brief."""
    from turfplan.cli.running import output_folder

    return output_folder(brief, None if output is not None and _is_page(output) else output)


def _measuring(brief: Path, week: str | None, *, large: bool, paper: PaperSize | None) -> str:
    """How to measure this lawn, with how many points for which accuracy; without numpy and scipy that table is left out."""
    from turfplan.cli.running import checked_file
    from turfplan.errors import MissingToolError, Problem, TurfplanError
    from turfplan.export.measuring import measuring_html
    from turfplan.export.sheets import paper_for
    from turfplan.readers.book import load_book
    from turfplan.readers.ground import lawn_area_m2
    from turfplan.readers.survey import settings_of
    from turfplan.rules.setting import country_of
    from turfplan.site.measuring import METHODS, accuracies, spacings_for
    from turfplan.site.records import Survey

    if week is not None:
        raise TurfplanError(Problem("--week", "says nothing about measure", week, "with week only"))
    file, book = checked_file(brief), load_book()
    area, settings = lawn_area_m2(file.brief, file.folder), settings_of(file.brief, book, Survey())
    try:
        table = accuracies(area, settings, spacings_for(area))
    except MissingToolError as error:
        print(f"The table of accuracy is left out: {error}.", file=sys.stderr)
        table = ()
    errors = {method.error: book.si(method.error) for method in METHODS}
    size = paper_for(country_of(file.brief), settings.system, paper.value if paper is not None else None)
    return measuring_html(settings.system, errors, table, area, size, large=large)


def _day(week: str | None, plan: "Plan") -> date | None:
    """The day that --week means, in the lawn's zone."""
    from zoneinfo import ZoneInfo

    from turfplan.errors import Problem, TurfplanError

    if week is None:
        return None
    if week == "this":
        return datetime.now(ZoneInfo(plan.timezone)).date()
    try:
        return date.fromisoformat(week)
    except ValueError:
        raise TurfplanError(
            Problem("--week", "is not a day", repr(week), "a date such as 2027-08-14, or this")
        ) from None


def _page(plan: "Plan", sheet: Sheet, day: date | None, *, large: bool, paper: PaperSize | None) -> tuple[str, str]:
    """The page and the name of its file."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.export.book import book_html
    from turfplan.export.changes import changes_html
    from turfplan.export.checklist import checklist_html
    from turfplan.export.order import order_html
    from turfplan.export.sheets import monday_of

    if day is not None and sheet is not Sheet.WEEK:
        raise TurfplanError(Problem("--week", f"says nothing about {sheet.value}", day.isoformat(), "with week only"))
    size = paper.value if paper is not None else None
    suffix = "-large" if large else ""
    if sheet is Sheet.WEEK:
        stem = f"week-{monday_of(day).isoformat()}" if day is not None else "checklist"
        return checklist_html(plan, day, large, size), f"{stem}{suffix}.html"
    writers = {
        Sheet.BOOK: (book_html, "season-book"),
        Sheet.ORDER: (order_html, "order"),
        Sheet.CHANGES: (changes_html, "changes"),
    }
    write, stem = writers[sheet]
    return write(plan, size, large), f"{stem}{suffix}.html"
