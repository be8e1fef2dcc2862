"""Reads all that planning a lawn needs: brief, book, climate, ground and weather."""

import os
from dataclasses import dataclass, replace
from pathlib import Path

from turfplan.book.entries import Book
from turfplan.book.words import english_of
from turfplan.climate.real_years import RealYear
from turfplan.climate.record import Climate
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import BriefFile, FaultyBriefError, read_brief
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
from turfplan.messages.catalog import SOURCE, complete_languages
from turfplan.phrases import errors
from turfplan.planning import LawnGround, Weather, check_brief
from turfplan.records.brief import Brief
from turfplan.work.called_grass import with_book_grasses
from turfplan.work.lawn import country_of

# The language of a user whose brief and command name none.
LANGUAGE = "TURFPLAN_LANGUAGE"


@dataclass(frozen=True, slots=True)
class PlanInputs:
    """A brief with everything that planning it reads; `sha256` is the digest of its values,
    `files_sha256` that of what the files say that it names; `earlier_sha256` and
    `earlier_files_sha256` are those that older plans hold of the same.

    `notes` are what the user must know of the climate and the weather that were read.
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


def input_of(
    brief: Brief, folder: Path, *, fall_back: bool = False, language: str | None = None
) -> PlanInputs:
    """The book of the brief's region, the climate of its place, its shapes or survey; file names
    start from `folder`.

    Faults of names and of the place are reported together. With `fall_back` the world grid stands
    in for a climate file that cannot be used. `language` is spoken where the brief names none.
    Raises TurfplanError.
    """
    written = brief
    brief, place, problems = _place_and_faults(brief, folder, fall_back=fall_back)
    if problems or place is None:
        raise TurfplanError(problems)
    book = load_book(region_of(brief, place.climate))
    ground = read_ground(brief, folder, book, place.climate)
    return PlanInputs(
        brief,
        digest_of_brief(written),
        book,
        place.climate,
        ground,
        place.years,
        notes=place.notes,
        language=language_of(brief, language),
        files_sha256=digest_of_files(brief, folder),
        earlier_sha256=earlier_digests(written),
        earlier_files_sha256=earlier_digest_of_files(brief, folder),
    )


def language_of(brief: Brief | None, asked: str | None = None) -> str:
    """The language that a reader is spoken to in: the brief's, else the one asked for, else the
    user's, else English.

    Raises TurfplanError for a language without a complete catalog.
    """
    chosen = (brief and brief.language) or asked or os.environ.get(LANGUAGE) or SOURCE
    if faults := _language_faults(chosen):
        raise TurfplanError(faults)
    return chosen


def _language_faults(language: str | None) -> list[Problem]:
    """What is wrong with a language: it has no complete catalog."""
    if language is None or language == SOURCE:
        return []
    known = complete_languages(english_of(load_book()))
    if language in known:
        return []
    hint = did_you_mean(language, known)
    return [Problem("language", errors.no_catalog(), repr(language), one_of(known), hint)]


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
    problems = [*check_brief(brief, load_book()), *_language_faults(brief.language), *problems]
    if brief.place.town is not None and brief.place.latitude is None:
        return brief, None, problems
    try:
        return brief, located(brief.place, folder, fall_back=fall_back), problems
    except TurfplanError as error:
        return brief, None, problems + list(error.problems)


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
) -> PlanInputs:
    """A brief file with everything that planning it reads, and weather where there is any.

    Raises TurfplanError.
    """
    file = _well_formed(path, fall_back=fall_back)
    try:
        given = input_of(file.brief, file.folder, fall_back=fall_back, language=language)
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
        return read_brief(path)
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
