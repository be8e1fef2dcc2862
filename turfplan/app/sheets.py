"""Makes one sheet of a plan, or the sheet for measuring a lawn, and writes it."""

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Literal
from zoneinfo import ZoneInfo

from turfplan.app.outputs import output_folder, words_of
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.plan import read_plan
from turfplan.files.system_faults import unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.messages import Words
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.records.plan import Plan

if TYPE_CHECKING:
    from turfplan.export.sheets.what_i_did import Photo

SheetName = Literal["week", "book", "order", "changes", "water", "sign"]
PaperName = Literal["letter", "a4"]
PageWriter = Callable[[Plan, Words, PaperName | None, bool], str]
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
        plan = read_plan(folder, to_show=True)
        if plan is not None:
            return plan, folder
    hint = errors.make_plan_first(command=f"turfplan plan {brief} -o {folders[0]}")
    raise TurfplanError(Problem(str(folders[0]), phrases.no_plan_yet(), hint=hint))


def sheet_of(
    plan: Plan,
    sheet: SheetName,
    week: str | None,
    *,
    large: bool,
    paper: PaperName | None,
    brief: Path | None = None,
) -> tuple[str, str]:
    """A sheet as HTML, and the name of its file.

    The book takes the pictures beside the `brief`, where one is given. `week` is the day whose
    week is printed alone, or `this`. Raises TurfplanError for a week that is no day, or that the
    sheet says nothing about.
    """
    words, day = words_of(plan), _day(week, plan)
    if day is not None and sheet != "week":
        raise TurfplanError(
            Problem("--week", phrases.week_of(sheet=sheet), day.isoformat(), phrases.week_only())
        )
    suffix = "-large" if large else ""
    if sheet == "week":
        from turfplan.export.sheets.checklist import checklist_html
        from turfplan.export.sheets.look import monday_of

        stem = f"week-{monday_of(day).isoformat()}" if day is not None else "checklist"
        return checklist_html(plan, words, day, large, paper), f"{stem}{suffix}.html"
    if sheet == "book":
        from turfplan.export.sheets.season_book import book_html

        photos = _photos(brief) if brief is not None else ()
        return book_html(plan, words, paper, large, photos), f"season-book{suffix}.html"
    write, stem = _writer(sheet)
    return write(plan, words, paper, large), f"{stem}{suffix}.html"


def _writer(sheet: Literal["order", "changes", "water", "sign"]) -> tuple[PageWriter, str]:
    """What writes a sheet that is of no week and holds no pictures, and how its file is called.

    Only the writer that is asked for is imported: each brings its templates and charts.
    """
    match sheet:
        case "order":
            from turfplan.export.sheets.order_sheet import order_html

            return order_html, "order"
        case "changes":
            from turfplan.export.sheets.changes_page import changes_html

            return changes_html, "changes"
        case "water":
            from turfplan.export.sheets.watering_card import water_html

            return water_html, "watering-card"
        case "sign":
            from turfplan.export.sheets.keep_off_sign import sign_html

            return sign_html, "keep-off-sign"


def _photos(brief: Path) -> "tuple[Photo, ...]":
    """The pictures beside a brief, for the frames of the book."""
    from turfplan.export.sheets.what_i_did import Photo
    from turfplan.files.reading.photos import photos_beside

    return tuple(Photo(called, address) for called, address in photos_beside(brief))


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


def write_sheet(path: Path, content: bytes) -> None:
    """Write a page or PDF whole, into a folder that is made where it is missing.

    Raises TurfplanError.
    """
    try:
        write_into_folders({path: content})
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from error
