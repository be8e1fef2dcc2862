"""Says when each operation is open at a place for a grass, and what real years make of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from turfplan.app.inputs import in_book_names
from turfplan.app.reader_language import language_of
from turfplan.book.entries import Book
from turfplan.book.words import english_of, grass_name
from turfplan.climate.record import Climate
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.place import located
from turfplan.files.reading.region import region_of
from turfplan.files.reading.towns import with_town
from turfplan.message import Message
from turfplan.messages import Words, words_for
from turfplan.planning import grass_fault
from turfplan.records.brief import Brief
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import country_of, units_of
from turfplan.work.living import limits_at
from turfplan.work.real_years import Spread, Tally, record_of
from turfplan.work.windows import ClosedWindow, WindowPolicy, operation_windows


@dataclass(frozen=True, slots=True)
class WindowAtPlace:
    """A window; with a daily series of years, what they say of it.

    That is when it opened and closed in them, and how often its best day would do.
    """

    window: OpenDays
    spread: Spread | None = None
    best: Tally | None = None


@dataclass(frozen=True, slots=True)
class WindowsHere:
    """Every window at a place that starts in `year`, what stays closed, and the climate.

    `words` are those of the reader; `limits` say what of the place the grass hardly bears, or does
    not.
    """

    grass: Message
    year: int
    climate: Climate
    words: Words
    windows: tuple[WindowAtPlace, ...]
    closed: tuple[ClosedWindow, ...]
    limits: tuple[Message, ...] = ()


def open_windows(
    grass: str, place: Mapping[str, object], folder: Path, year: int | None = None
) -> WindowsHere:
    """The windows of a grass at a place, told by keys of the brief's table `place`.

    File names start from `folder`.

    Without a year this one. Raises TurfplanError for a grass that the book does not know, or a
    place that is not found.
    """
    brief = in_book_names(with_town(_brief(grass, place)))
    _known_grass(brief, load_book())
    grass = brief.dominant.species
    here = located(brief.place, folder)
    book = load_book(region_of(brief, here.climate))
    asked = year or datetime.now(UTC).year
    result = operation_windows(here.climate, book, (grass,), asked, WindowPolicy())
    record = record_of(here.years, book, (grass,))
    windows = tuple(
        WindowAtPlace(w)
        if record is None
        else WindowAtPlace(
            w, record.spread(w.rule, w.start.year), record.tally(w.operation, w.rule, w.best)
        )
        for w in result.windows
    )
    words = words_for(
        language_of(brief),
        units_of(brief),
        english_of(book),
        country=country_of(brief),
        terminal=True,
    )
    limits = tuple(limit.why for limit in limits_at(book, here.climate, grass))
    return WindowsHere(
        grass_name(book, grass), asked, here.climate, words, windows, result.closed, limits
    )


def _brief(grass: str, place: Mapping[str, object]) -> Brief:
    """A brief of a lawn of that grass at the place as it was told.

    The area plays no part in windows.
    """
    given = {key: value for key, value in place.items() if value is not None}
    return brief_from({"lawn": {"area": "100 m2", "grass": grass}, "place": given})


def _known_grass(brief: Brief, book: Book) -> None:
    """Refuses a grass that the book does not know, or of whose name there are several."""
    if problem := grass_fault("--grass", brief.dominant.species, book):
        raise TurfplanError(problem)
