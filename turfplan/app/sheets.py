"""Makes one sheet of a plan, or the sheet for measuring a lawn, and writes it."""

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Literal
from zoneinfo import ZoneInfo

from turfplan.app.inputs import checked_file, language_of
from turfplan.app.outputs import output_folder, words_of
from turfplan.errors import MissingToolError, Problem, TurfplanError, problem_message
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.message import listed
from turfplan.messages import words_for
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.records.plan import Plan

SheetName = Literal["week", "book", "order", "changes", "water"]
PaperName = Literal["letter", "a4"]
PAGE_SUFFIXES = (".html", ".htm", ".pdf")


def is_page(path: Path) -> bool:
    """Whether a path names a page to write, not a folder."""
    return path.suffix.lower() in PAGE_SUFFIXES and not path.is_dir()


def plan_to_print(brief: Path, output: Path | None) -> tuple[Plan, Path]:
    """The plan and its folder.

    It is the one that `output` names, the one a named page lies in, or the one beside the brief.
    Raises TurfplanError where none of them holds a plan.
    """
    folders = (
        [output_folder(brief, None), output.parent]
        if output is not None and is_page(output)
        else []
    )
    folders = folders or [output_folder(brief, output)]
    for folder in folders:
        plan = read_plan(folder)
        if plan is not None:
            return plan, folder
    hint = errors.make_plan_first(command=f"turfplan plan {brief} -o {folders[0]}")
    raise TurfplanError(Problem(str(folders[0]), phrases.no_plan_yet(), hint=hint))


def sheet_of(
    plan: Plan, sheet: SheetName, week: str | None, *, large: bool, paper: PaperName | None
) -> tuple[str, str]:
    """A sheet as HTML, and the name of its file.

    `week` is the day whose week is printed alone, or `this`. Raises TurfplanError for a week that
    is no day, or that the sheet says nothing about.
    """
    from turfplan.export.sheets.changes_page import changes_html
    from turfplan.export.sheets.checklist import checklist_html
    from turfplan.export.sheets.look import monday_of
    from turfplan.export.sheets.order_sheet import order_html
    from turfplan.export.sheets.season_book import book_html
    from turfplan.export.sheets.watering_card import water_html

    words, day = words_of(plan), _day(week, plan)
    if day is not None and sheet != "week":
        raise TurfplanError(
            Problem("--week", phrases.week_of(sheet=sheet), day.isoformat(), phrases.week_only())
        )
    suffix = "-large" if large else ""
    if sheet == "week":
        stem = f"week-{monday_of(day).isoformat()}" if day is not None else "checklist"
        return checklist_html(plan, words, day, large, paper), f"{stem}{suffix}.html"
    writers = {
        "book": (book_html, "season-book"),
        "order": (order_html, "order"),
        "changes": (changes_html, "changes"),
        "water": (water_html, "watering-card"),
    }
    write, stem = writers[sheet]
    return write(plan, words, paper, large), f"{stem}{suffix}.html"


def _day(week: str | None, plan: Plan) -> date | None:
    """The day that is meant, in the lawn's zone."""
    if week is None:
        return None
    if week == "this":
        return datetime.now(ZoneInfo(plan.timezone)).date()
    try:
        return date.fromisoformat(week)
    except ValueError:
        raise TurfplanError(
            Problem("--week", phrases.not_a_day(), repr(week), phrases.such_a_day())
        ) from None


def measuring_sheet(
    brief: Path, *, large: bool, paper: PaperName | None, tell: Callable[[str], None]
) -> tuple[str, str]:
    """How to measure this lawn, with how many points for which accuracy, and its file's name.

    It needs no plan. Without numpy and scipy that table is left out, as `tell` hears. Raises
    TurfplanError for a brief that cannot be used.
    """
    from turfplan.export.sheets.look import paper_for
    from turfplan.export.sheets.measuring_sheet import measuring_html
    from turfplan.files.reading.book import load_book
    from turfplan.files.reading.ground import lawn_area_m2
    from turfplan.files.reading.survey import settings_of
    from turfplan.site.survey.methods import METHODS, accuracies, spacings_for
    from turfplan.site.survey.records import Survey
    from turfplan.work.lawn import country_of, units_of

    file, book = checked_file(brief), load_book()
    area, settings = lawn_area_m2(file.brief, file.folder), settings_of(file.brief, book, Survey())
    country = country_of(file.brief)
    words = words_for(language_of(file.brief), units_of(file.brief), country=country)
    try:
        table = accuracies(area, settings, spacings_for(area))
    except MissingToolError as error:
        faults = listed(map(problem_message, error.problems), "semicolon")
        tell(words.text(phrases.no_accuracy(faults=faults)))
        table = ()
    errors = {method.error: book.si(method.error) for method in METHODS}
    size = paper_for(country, words.system, paper)
    html = measuring_html(words, errors, table, area, size, large=large)
    return html, f"measure{'-large' if large else ''}.html"


def write_sheet(path: Path, content: bytes) -> None:
    """Write a page or PDF whole, into a folder that is made where it is missing.

    Raises TurfplanError.
    """
    try:
        write_into_folders({path: content})
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from error
