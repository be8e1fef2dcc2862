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


class PaperSize(StrEnum):
    """The paper to print on."""

    LETTER = "letter"
    A4 = "a4"


def print_sheet(
    brief: Annotated[Path, typer.Argument(metavar="BRIEF", help="The brief whose plan is printed.")],
    sheet: Annotated[Sheet, typer.Argument(help="Weekly checklist, season book, order sheet or changes.")] = Sheet.WEEK,
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
