"""What several commands share: read a brief with all that belongs to it, plan it, and write its folder."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

if TYPE_CHECKING:
    from turfplan.agronomy import Book
    from turfplan.brief import Brief
    from turfplan.climate.real_years import RealYear
    from turfplan.climate.record import Climate
    from turfplan.errors import Problem
    from turfplan.plan import Plan
    from turfplan.planner import Ground, Weather
    from turfplan.readers.brief import BriefFile
    from turfplan.readers.place import Located


@dataclass(frozen=True, slots=True)
class Given:
    """Everything beside the brief that planning it reads."""

    book: "Book"
    climate: "Climate"
    ground: "Ground | None"
    real_years: "tuple[RealYear, ...]" = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Input:
    """A brief's file with everything that planning it reads."""

    file: "BriefFile"
    book: "Book"
    climate: "Climate"
    ground: "Ground | None"
    weather: "Weather | None"
    warnings: tuple[str, ...]
    real_years: "tuple[RealYear, ...]" = ()


def input_of(brief: "Brief", folder: Path, *, fall_back: bool = False) -> Given:
    """The book of the brief's region, the climate of its place, its shapes or survey; file names start from `folder`.

    Faults of names and of the place are reported together. With `fall_back` the world grid stands in for a climate file
    that cannot be used.
    """
    from turfplan.errors import TurfplanError
    from turfplan.readers.book import load_book
    from turfplan.readers.ground import read_ground
    from turfplan.readers.region import region_of

    place, problems = _place_and_faults(brief, folder, fall_back=fall_back)
    if problems or place is None:
        raise TurfplanError(problems)
    book = load_book(region_of(brief, place.climate))
    return Given(book, place.climate, read_ground(brief, folder, book, place.climate), place.years, place.notes)


def _place_and_faults(brief: "Brief", folder: Path, *, fall_back: bool) -> "tuple[Located | None, list[Problem]]":
    """The place of a brief, and every fault of its names and its place."""
    from turfplan.errors import TurfplanError
    from turfplan.planner import check_brief
    from turfplan.readers.book import load_book
    from turfplan.readers.place import located

    problems = list(check_brief(brief, load_book()))
    try:
        return located(brief.place, folder, fall_back=fall_back), problems
    except TurfplanError as error:
        return None, problems + list(error.problems)


def read_input(
    path: Path, *, weather_file: Path | None = None, weather_url: str | None = None, fall_back: bool = False
) -> Input:
    """A brief file with everything that planning it reads, and weather where there is any."""
    from turfplan.errors import TurfplanError
    from turfplan.readers.weather import read_weather

    file = _well_formed(path, fall_back=fall_back)
    try:
        given = input_of(file.brief, file.folder, fall_back=fall_back)
    except TurfplanError as error:
        raise error.located(str(path)) from None
    weather, warnings = read_weather(given.climate, weather_file, weather_url)
    return Input(file, given.book, given.climate, given.ground, weather, (*given.notes, *warnings), given.real_years)


def checked_file(path: Path) -> "BriefFile":
    """A brief file for commands that do not plan: what is wrong with it is told as `plan` tells it, all at once."""
    from turfplan.errors import TurfplanError
    from turfplan.planner.briefing import check_brief
    from turfplan.readers.book import load_book

    file = _well_formed(path)
    if check_brief(file.brief, load_book()):
        raise TurfplanError(_place_and_faults(file.brief, file.folder, fall_back=False)[1]).located(str(path))
    return file


def _well_formed(path: Path, *, fall_back: bool = False) -> "BriefFile":
    """A brief file; faults of its form are told together with those of names and place in what is left without them."""
    from turfplan.errors import TurfplanError
    from turfplan.readers.brief import FaultyBriefError, read_brief

    try:
        return read_brief(path)
    except FaultyBriefError as error:
        rest = _place_and_faults(error.rest, path.parent, fall_back=fall_back)[1] if error.rest else []
        # An entry that was taken out for its form is not told again as missing.
        told = {problem.where for problem in error.problems}
        more = [problem for problem in TurfplanError(rest).located(str(path)).problems if problem.where not in told]
        raise TurfplanError([*error.problems, *more]) from None


def now_of(today: date | None, timezone: str) -> datetime:
    """The moment a plan is made: the given day's midnight in the lawn's zone, else this moment."""
    if today is None:
        return datetime.now(UTC)
    return datetime.combine(today, time(), ZoneInfo(timezone))


def outputs(plan: "Plan") -> Mapping[str, bytes]:
    """The files of a plan's folder by name: pure functions of the plan."""
    from turfplan.export.calendar import season_ics
    from turfplan.export.changes import changes_html
    from turfplan.export.checklist import checklist_html
    from turfplan.export.order import order_html
    from turfplan.export.plan_json import plan_to_json
    from turfplan.export.table import order_csv, tasks_csv

    files = {
        "plan.json": plan_to_json(plan),
        "season.ics": season_ics(plan),
        "checklist.html": checklist_html(plan).encode(),
        "order.html": order_html(plan).encode(),
        "tasks.csv": tasks_csv(plan).encode(),
        "order.csv": order_csv(plan).encode(),
    }
    if plan.revision > 1:
        files["changes.html"] = changes_html(plan).encode()
    return files


def output_folder(brief: Path, chosen: Path | None) -> Path:
    """Where the outputs of a brief go: the folder that was named, else one beside the brief under its name."""
    return chosen if chosen is not None else brief.with_suffix("")
