"""Reads all that planning a lawn needs: brief, book, climate, ground and weather."""

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from turfplan.app.house_hours import HouseHours, hours_beside
from turfplan.app.reader_language import language_faults, language_of
from turfplan.book.entries import Book
from turfplan.business.business_days import with_business_days
from turfplan.business.client_record import without_barred
from turfplan.business.place_rules import rules_for, with_rules
from turfplan.climate.real_years import RealYear
from turfplan.climate.record import Climate
from turfplan.errors import FormError, Problem, TurfplanError, within
from turfplan.files.data_folder import BRIEF, CLIENT, root_of
from turfplan.files.lawn_standing import read_rules
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import BriefFile, FaultyBriefError, read_brief
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.ground import read_ground
from turfplan.files.reading.place import Located, located
from turfplan.files.reading.region import region_of
from turfplan.files.reading.towns import country_near, with_town
from turfplan.files.reading.value_digests import (
    digest_of_brief,
    digest_of_files,
    earlier_digest_of_files,
    earlier_digests,
)
from turfplan.message import Worded
from turfplan.messages.catalog import SOURCE
from turfplan.planning import LawnGround, Weather, check_brief
from turfplan.records.brief import Brief, Place
from turfplan.work.called_grass import with_book_grasses
from turfplan.work.lawn import country_of


@dataclass(frozen=True, slots=True)
class PlanInputs:
    """A brief with everything that planning it reads; `sha256` is the digest of its values,
    `files_sha256` that of what the files say that it names; `earlier_sha256` and
    `earlier_files_sha256` are those that older plans hold of the same.

    `notes` are what the user must know of the climate and the weather that were read; `others` are
    the hours that the other lawns of the house have promised.
    """

    brief: Brief
    sha256: str
    book: Book
    climate: Climate
    ground: LawnGround | None
    real_years: tuple[RealYear, ...] = ()
    weather: Weather | None = None
    notes: tuple[Worded, ...] = ()
    language: str = SOURCE
    files_sha256: str | None = None
    earlier_sha256: frozenset[str] = frozenset()
    earlier_files_sha256: str | None = None
    others: HouseHours = ()


def input_of(
    brief: Brief,
    folder: Path,
    *,
    fall_back: bool = False,
    language: str | None = None,
    of_client: bool = False,
) -> PlanInputs:
    """The book of the brief's region, the climate of its place, its shapes or survey; file names
    start from `folder`.

    Faults of names and of the place are reported together. With `fall_back` the world grid stands
    in for a climate file that cannot be used. `language` is spoken where the brief names none. Of
    a client's lawn the lawns beside it are not looked at. Raises TurfplanError.
    """
    written = brief
    brief, place, problems = _place_and_faults(brief, folder, fall_back=fall_back)
    if problems or place is None:
        raise TurfplanError(problems)
    book = load_book(region_of(brief, place.climate))
    ground = read_ground(brief, folder, book, place.climate)
    others, told = ((), ()) if of_client or folder is None else hours_beside(folder, brief)
    return PlanInputs(
        brief,
        digest_of_brief(written),
        book,
        place.climate,
        ground,
        place.years,
        notes=(*place.notes, *told),
        language=language_of(brief, language),
        files_sha256=digest_of_files(brief, folder),
        earlier_sha256=earlier_digests(written),
        earlier_files_sha256=earlier_digest_of_files(brief, folder),
        others=others,
    )


def _place_and_faults(
    brief: Brief, folder: Path, *, fall_back: bool
) -> tuple[Brief, Located | None, list[Problem]]:
    """The brief in the book's names, its place, and every fault of its names and its place."""
    problems: list[Problem] = []
    try:
        brief = with_town(brief)
    except TurfplanError as error:
        problems += error.problems
    brief = in_book_names(brief)
    problems = [*check_brief(brief, load_book()), *language_faults(brief.language), *problems]
    if brief.place.town is not None and brief.place.latitude is None:
        return brief, None, problems
    try:
        return brief, _located(brief.place, folder, fall_back=fall_back), problems
    except TurfplanError as error:
        return brief, None, problems + list(error.problems)


def _located(place: Place, folder: Path, *, fall_back: bool) -> Located:
    """A place as it is found; many lawns of a business share one that names no file."""
    if place.normals is not None:
        return located(place, folder, fall_back=fall_back)
    return _located_by_grid(place)


@lru_cache(maxsize=128)
def _located_by_grid(place: Place) -> Located:
    return located(place, Path())


def faults_of_names(brief: Brief, folder: Path) -> tuple[Problem, ...]:
    """Every fault of the names and of the place of a brief; file names start from `folder`."""
    return tuple(_place_and_faults(brief, folder, fall_back=False)[2])


def in_book_names(brief: Brief) -> Brief:
    """The brief with the book's grasses for what they are called in its country; without one, in
    that of the town nearest to its coordinates."""
    country = country_of(brief) or country_near(brief.place)
    return with_book_grasses(brief, load_book(), country)


def read_input(
    path: Path,
    *,
    weather_file: Path | None = None,
    weather_url: str | None = None,
    fall_back: bool = False,
    language: str | None = None,
    of_client: bool = False,
) -> PlanInputs:
    """A brief file with everything that planning it reads, and weather where there is any.

    Raises TurfplanError.
    """
    file = _well_formed(path, fall_back=fall_back)
    try:
        given = input_of(
            file.brief,
            file.folder,
            fall_back=fall_back,
            language=language,
            of_client=of_client,
        )
    except TurfplanError as error:
        raise error.located(str(path)) from None
    given = replace(given, earlier_sha256=file.earlier_sha256)
    if weather_file is None and weather_url is None:
        return given
    from turfplan.files.reading.weather import read_weather

    weather, warnings = read_weather(given.climate, weather_file, weather_url)
    return replace(given, weather=weather, notes=(*given.notes, *warnings))


def checked_file(path: Path) -> BriefFile:
    """A brief file for what does not plan: its faults are told as planning tells them, all at once
    (TurfplanError).
    """
    file = _well_formed(path)
    brief = in_book_names(file.brief)
    if check_brief(brief, load_book()):
        raise TurfplanError(_place_and_faults(file.brief, file.folder, fall_back=False)[2]).located(
            str(path)
        )
    return replace(file, brief=brief)


def _well_formed(path: Path, *, fall_back: bool = False) -> BriefFile:
    """A brief file; faults of its form are told together with those of names and place in what is
    left without them.
    """
    try:
        return _without_barred_days(read_brief(path))
    except FaultyBriefError as error:
        rest = (
            _place_and_faults(error.rest, path.parent, fall_back=fall_back)[2] if error.rest else []
        )
        # An entry that was taken out for its form is not told again as missing.
        told = {problem.where for problem in error.problems}
        more = [
            problem
            for problem in TurfplanError(rest).located(str(path)).problems
            if problem.where not in told
        ]
        raise TurfplanError([*error.problems, *more]) from None


def _without_barred_days(file: BriefFile) -> BriefFile:
    """A brief as its business has it: on the days of the business, without the weekdays that its
    client bars, with the rules of its group and its place.

    Raises TurfplanError for records beside it that cannot be used, or that leave no day.
    """
    if file.path.name != BRIEF:
        return file
    return replace(file, brief=brief_of_client(file.brief, file.folder))


def brief_of_client(brief: Brief, folder: Path) -> Brief:
    """The brief of a lawn's folder with the days of its business, what its client bars, and what
    holds for its group or its place; raises TurfplanError for records that cannot be used, or that
    leave no day."""
    rules, business = read_rules(root_of(folder)), read_business(root_of(folder))
    if not rules and business is None and not (folder / CLIENT).is_file():
        return brief
    client = read_client(folder)
    if business is not None:
        brief = with_business_days(brief, client, business)
    try:
        return without_barred(with_rules(brief, rules_for(rules, brief, client)), client)
    except FormError as error:
        where = within(str(folder / CLIENT), "barred_weekdays")
        raise TurfplanError(Problem(where, error.message, hint=error.hint)) from None
