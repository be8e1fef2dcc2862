"""Whether a grass lives at a place: through its winters and summers, on its warmth and its rain."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.climate.record import Climate
from turfplan.message import Message, Quantity
from turfplan.phrases import living as phrases
from turfplan.records.book_names import NamedFact, option_of_species
from turfplan.records.fact_names import SpeciesOption
from turfplan.work.growing_year import days_above


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit of a grass that a place comes near or passes: `beyond` where it does not live there,
    else it is in doubt; `why` says so."""

    beyond: bool
    why: Message


def limits_at(
    book: Book, climate: Climate, grass: str, *, watered: bool = True
) -> tuple[Limit, ...]:
    """What a place asks of a grass that it hardly bears, or does not; empty where it lives there.

    A place in doubt lies within the error of the reckoning of a limit, or between the places that
    publications call fit and unfit.
    """
    return tuple(_limits(book, climate, grass, watered=watered))


@lru_cache(maxsize=512)
def lives_at(book: Book, climate: Climate, grass: str, watered: bool = True) -> bool:
    """Whether a grass lives at a place, if only just."""
    return not any(limit.beyond for limit in limits_at(book, climate, grass, watered=watered))


@lru_cache(maxsize=512)
def sure_at(book: Book, climate: Climate, grass: str, watered: bool = True) -> bool:
    """Whether a grass lives at a place without any doubt."""
    return not limits_at(book, climate, grass, watered=watered)


def _limits(book: Book, climate: Climate, grass: str, *, watered: bool) -> Iterator[Limit]:
    yield from _winter(book, climate, grass)
    yield from _summer(book, climate, grass)
    yield from _warmth(book, climate, grass)
    yield from _wet(book, climate, grass)
    if not watered:
        yield from _rain(book, climate, grass)


def _winter(book: Book, climate: Climate, grass: str) -> Iterator[Limit]:
    """The coldest night of a usual year against the one that the grass bears, within its error."""
    borne = book.get(option_of_species(grass, "winter_night"))
    if borne is None:
        return
    night, error = climate.coldest_night_c, climate.coldest_error_c
    if night > borne.si + error:
        return
    beyond = night < borne.si - error
    told = phrases.too_cold if beyond else phrases.near_cold
    yield Limit(
        beyond,
        told(
            grass=grass_name(book, grass),
            borne=Quantity(borne.si, "temperature"),
            night=Quantity(night, "temperature"),
        ),
    )


def _summer(book: Book, climate: Climate, grass: str) -> Iterator[Limit]:
    """The days that are warmer than cool-season grass grows best in, against those it bears."""
    mark = book.si("lives.summer_mark")
    days = _days(book, climate, mark)
    ends = _ends(book, grass, "summer_days")
    if ends is None or days <= ends[0]:
        return
    beyond = days > ends[1]
    told = phrases.too_hot if beyond else phrases.near_hot
    yield _of_days(book, grass, told, beyond, mark, days, ends[0])


def _warmth(book: Book, climate: Climate, grass: str) -> Iterator[Limit]:
    """The days on which warm-season grass grows, against those it needs to stay a lawn."""
    own = book.get(option_of_species(grass, "growing_mark"))
    mark = book.si("lives.growing_mark") if own is None else own.si
    days = _days(book, climate, mark)
    ends = _ends(book, grass, "growing_days")
    if ends is None or days >= ends[1]:
        return
    beyond = days < ends[0]
    told = phrases.too_cool if beyond else phrases.near_cool
    yield _of_days(book, grass, told, beyond, mark, days, ends[1])


def _rain(book: Book, climate: Climate, grass: str) -> Iterator[Limit]:
    """The rain of a year where nobody waters, against what the grass needs."""
    rain = sum(climate.rain_mm)
    ends = _ends(book, grass, "rain_least") or (
        book.low_si("lives.rain_least"),
        book.high_si("lives.rain_least"),
    )
    if rain >= ends[1]:
        return
    beyond = rain < ends[0]
    told = phrases.too_dry if beyond else phrases.near_dry
    yield Limit(
        beyond,
        told(
            grass=grass_name(book, grass),
            needs=_of_year(ends[1]),
            rain=_of_year(rain),
        ),
    )


def _wet(book: Book, climate: Climate, grass: str) -> Iterator[Limit]:
    """The rain of a year against what a grass of dry land bears."""
    rain = sum(climate.rain_mm)
    ends = _ends(book, grass, "rain_most")
    if ends is None or rain <= ends[0]:
        return
    beyond = rain > ends[1]
    told = phrases.too_wet if beyond else phrases.near_wet
    name = grass_name(book, grass)
    yield Limit(beyond, told(grass=name, borne=_of_year(ends[0]), rain=_of_year(rain)))


def _of_year(rain_mm: float) -> Quantity:
    return Quantity(rain_mm, "rain", us_step=1.0, metric_step=10.0)


def _days(book: Book, climate: Climate, mark: float) -> float:
    return days_above(climate, mark, book.si("windows.years_apart"))


def _ends(book: Book, grass: str, fact: SpeciesOption) -> tuple[float, float] | None:
    """The ends of a limit of a grass in the inside unit; None where it has none."""
    name: NamedFact | None = book.known(option_of_species(grass, fact))
    return None if name is None else (book.low_si(name), book.high_si(name))


def _of_days(
    book: Book,
    grass: str,
    told: Callable[..., Message],
    beyond: bool,
    mark: float,
    days: float,
    borne: float,
) -> Limit:
    return Limit(
        beyond,
        told(
            grass=grass_name(book, grass),
            mark=Quantity(mark, "temperature"),
            days=round(days),
            borne=round(borne),
        ),
    )
