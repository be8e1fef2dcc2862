"""When each operation is open at a place for a grass, from its climate and the rules of `windows.toml`."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache
from operator import itemgetter
from typing import NamedTuple

from turfplan.agronomy import Book
from turfplan.climate.curves import crossing
from turfplan.climate.record import DAYS, Climate, date_of
from turfplan.timing import AirFalling, AirRising, AnyCondition, WindowRule
from turfplan.units import System, read_as
from turfplan.wording import capital


@dataclass(frozen=True, slots=True)
class Settings:
    """Regional policy: None leaves it to the region's overlay, else to the default (no)."""

    late_nitrogen: bool | None = None
    spring_aeration: bool | None = None


@dataclass(frozen=True, slots=True)
class Window:
    """One window: first, last and best day, both ends included, with the season of its best day and the reasons."""

    operation: str
    season: str
    start: date
    end: date
    best: date
    reason: str
    source: str
    rule: str
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Closed:
    """An operation that a rule does not open here, and why."""

    operation: str
    rule: str
    reason: str


@dataclass(frozen=True, slots=True)
class Openings:
    """Every window that starts in one year, and what stays closed."""

    windows: tuple[Window, ...]
    closed: tuple[Closed, ...]


@dataclass(frozen=True, slots=True)
class _Year:
    """One growing year as day numbers: it runs from the coldest day over the hottest to the next coldest."""

    climate: Climate
    book: Book
    species: str
    coldest: int
    hottest: int


def operation_windows(
    climate: Climate, book: Book, species: str | Sequence[str], year: int, settings: Settings | None = None
) -> Openings:
    """Every window that starts in `year`, in order of time, for one grass or the grasses of a mixed stand.

    For a mixed stand a window is what suits every grass; where that is empty the first grass decides.
    """
    return windows_of_years(climate, book, species, (year,), settings)


def windows_of_years(
    climate: Climate, book: Book, species: str | Sequence[str], years: Sequence[int], settings: Settings | None = None
) -> Openings:
    """As `operation_windows`, over several years; the rules are worked out once."""
    stand = (species,) if isinstance(species, str) else tuple(species)
    answers = [_windows_of(climate, book, grass, tuple(years), settings or Settings()) for grass in stand]
    windows = answers[0].windows
    for other in answers[1:]:
        windows = tuple(_shared(window, other.windows) for window in windows)
    ordered = sorted(windows, key=lambda w: (w.start, w.operation))
    return Openings(tuple(ordered), answers[0].closed)


def _shared(window: Window, others: Iterable[Window]) -> Window:
    """The part of a window that another grass likes too, or the window itself where there is none."""
    for other in others:
        start, end = max(window.start, other.start), min(window.end, other.end)
        if other.operation == window.operation and start <= end:
            return replace(window, start=start, end=end, best=min(max(window.best, start), end))
    return window


@lru_cache(maxsize=64)
def _windows_of(climate: Climate, book: Book, species: str, years: tuple[int, ...], settings: Settings) -> Openings:
    """For one grass. Kept, since the same lawn is planned again and again: when it rains, and for each way out."""
    season = book.species[species].season
    mean = climate.usual_air_c or climate.air_mean_c
    coldest = mean.index(min(mean))
    hottest = mean.index(max(mean))
    # Day numbers are counted so that coldest < hottest < coldest + 365.
    growing = _Year(climate, book, species, coldest, hottest if hottest > coldest else hottest + DAYS)
    found: list[Window] = []
    closed: list[Closed] = []
    for rule in book.windows:
        if rule.grass not in ("any", season) or (rule.species and species not in rule.species):
            continue
        if rule.setting is not None and not _policy(book, settings, rule.setting):
            closed.append(
                Closed(
                    rule.operation, rule.id, f"Left out by policy ({rule.setting.replace('_', ' ')}); states differ."
                )
            )
            continue
        span = _span(growing, rule)
        if isinstance(span, str):
            closed.append(Closed(rule.operation, rule.id, span))
            continue
        words, facts = _reason(growing, rule, span), _facts(growing, rule)
        for cycle in range(min(years) - 1, max(years) + 2):
            if date_of(span.start, cycle).year in years:
                found.append(_window(growing, rule, span, cycle, words, facts))
    return Openings(tuple(found), tuple(closed))


def _policy(book: Book, settings: Settings, name: str) -> bool:
    asked: bool | None = getattr(settings, name)
    return bool(book.setting(name)) if asked is None else asked


class _Span(NamedTuple):
    """First and last day number of a rule's window, and the conditions that open and close it here."""

    start: int
    end: int
    opens: AnyCondition
    closes: AnyCondition


def _span(year: _Year, rule: WindowRule) -> _Span | str:
    """A rule's window in day numbers, or why it has none here."""
    opens: list[tuple[int, AnyCondition]] = []
    closes: list[tuple[int, AnyCondition]] = []
    for conditions, days in ((rule.opens, opens), (rule.closes, closes)):
        for condition in conditions:
            day = _day(year, rule, condition)
            if day is None and (
                condition.never == "closed" or _too_warm(year, condition, opening=conditions is rule.opens)
            ):
                return f"{_words(year, condition)} does not happen here."
            if day is not None:
                days.append((day, condition))
    if not opens or not closes:
        return "Nothing here opens it, or nothing closes it: the year has no such season."
    # Of several conditions the last to open and the first to close decide, and are the ones to tell of.
    start, opening = max(opens, key=itemgetter(0))
    beyond, closing = min(closes, key=itemgetter(0))
    least = round(year.book.si(rule.least_days))
    if beyond - start < least:
        return f"It would open after it closes: {_words(year, opening)} comes too late before {_words(year, closing)}."
    return _Span(start, beyond - 1, opening, closing)


def _too_warm(year: _Year, condition: AnyCondition, *, opening: bool) -> bool:
    """Whether a threshold is never crossed because it is always warmer: the heat never ends, or was never away."""
    if not isinstance(condition, AirFalling if opening else AirRising):
        return False
    return min(year.climate.air_mean_c) >= year.book.si(_named(year, condition.threshold))


def _day(year: _Year, rule: WindowRule, condition: AnyCondition) -> int | None:
    """The day number on which a condition is met in the rule's half of the year, or None."""
    day = _event(year, rule, condition)
    if day is not None and condition.shift is not None:
        day += round(year.book.si(_named(year, condition.shift)))
    return day


def _event(year: _Year, rule: WindowRule, condition: AnyCondition) -> int | None:
    def number(name: str) -> float:
        return year.book.si(_named(year, name))

    climate = year.climate
    match condition.kind:
        case "air_rising":
            day = _crossed(year, climate.air_mean_c, number(condition.threshold), rising=True)
            if condition.latest is None:
                return day
            anyway = year.hottest + round(number(condition.latest))
            return anyway if day is None else min(day, anyway)
        case "air_falling":
            if condition.only_above is not None and max(climate.air_mean_c) < number(condition.only_above):
                return None
            return _crossed(year, climate.air_mean_c, number(condition.threshold), rising=False)
        case "soil_rising" | "soil_falling":
            rising = condition.kind == "soil_rising"
            return _crossed(year, climate.soil_10cm_c, number(condition.threshold), rising=rising)
        case "growth_rising" | "growth_falling":
            curve = climate.growth_curve(year.book.species[year.species].season)
            if condition.kind == "growth_falling" and rule.half == "rising":
                # Heat ends spring growth before the hottest day: looked for from the coldest one on.
                return crossing(curve, number(condition.threshold), rising=False, start=year.coldest)
            return _crossed(year, curve, number(condition.threshold), rising=condition.kind == "growth_rising")
        case "last_frost" | "first_frost" | "before_first_frost":
            return _frost_day(year, condition.kind, round(number(condition.days)))
        case "hottest":
            return year.hottest + round(number(condition.days))
        case "coldest":
            return year.coldest + round(number(condition.days))
        case "degree_days_left" | "warmth_left":
            frost_ends = condition.kind == "degree_days_left"
            return _degree_days_left(year, number(condition.sum), number(condition.base), frost_ends=frost_ends)


def _crossed(year: _Year, curve: Sequence[float], threshold: float, *, rising: bool) -> int | None:
    """The day on which a curve crosses a threshold: rising between the coldest day and the hottest, falling after it.

    Soil is warmest up to a fortnight after the air, so a rise may end that much later.
    """
    rise, fall = year.hottest - year.coldest, year.coldest + DAYS - year.hottest
    if rising:
        return crossing(
            curve, threshold, rising=True, start=year.coldest, length=rise + round(year.book.si("windows.soil_lag"))
        )
    return crossing(curve, threshold, rising=False, start=year.hottest, length=fall + 1)


def _frost_day(year: _Year, kind: str, days: int) -> int | None:
    """So many days after the median last or first frost, or before the first one; None where frost does not come."""
    frost = year.climate.last_frost if kind == "last_frost" else year.climate.first_frost
    if frost is None:
        return None
    median = _after(frost.median, year.coldest if kind == "last_frost" else year.hottest)
    return median - days if kind == "before_first_frost" else median + days


def _named(year: _Year, name: str) -> str:
    return name.replace("{species}", year.species)


def _after(index: int, start: int) -> int:
    """The first day number on or after `start` that has this place in the year."""
    return start + (index - start) % DAYS


def _degree_days_left(year: _Year, needed: float, base_c: float, *, frost_ends: bool) -> int | None:
    """The last day with so many degree days still to come before the first frost, or before the coldest day."""
    frost = year.climate.first_frost
    last = year.coldest + DAYS if frost is None or not frost_ends else _after(frost.median, year.hottest)
    total = 0.0
    for day in range(last - 1, year.coldest, -1):
        total += max(0.0, year.climate.air_mean_c[day % DAYS] - base_c)
        if total >= needed:
            return day
    return None


def _window(year: _Year, rule: WindowRule, span: _Span, cycle: int, words: str, facts: tuple[str, ...]) -> Window:
    start, end = span.start, span.end
    first = date_of(start, cycle)
    after = (end - start) * year.book.si(rule.best)
    if rule.best_within is not None:
        after = min(after, year.book.si(rule.best_within))
    # Half a day belongs to the earlier one.
    best = first + timedelta(days=math.ceil(after - 0.5))
    season = season_of(best, southern=year.climate.southern)
    last = first + timedelta(days=end - start)
    return Window(rule.operation, season, first, last, best, words, rule.source, rule.id, facts)


def _facts(year: _Year, rule: WindowRule) -> tuple[str, ...]:
    """The facts a rule rests on, each once."""
    names = [
        _named(year, value)
        for condition in (*rule.opens, *rule.closes)
        for key, value in condition.model_dump().items()
        if key not in ("kind", "never") and isinstance(value, str)
    ]
    return tuple(dict.fromkeys(name for name in names if name != "windows.zero"))


def season_of(day: date, *, southern: bool) -> str:
    """The local meteorological season of a day: March to May is spring in the north and autumn in the south."""
    index = (day.month % 12) // 3
    return ("winter", "spring", "summer", "autumn")[(index + 2) % 4 if southern else index]


def _reason(year: _Year, rule: WindowRule, span: _Span) -> str:
    opens, closes = _words(year, span.opens), _words(year, span.closes)
    return capital(rule.reason.format(opens=opens, closes=closes, grass=year.book.species[year.species].name))


def _words(year: _Year, condition: AnyCondition) -> str:
    """A condition in the words of a sentence, with what it is shifted by."""
    words = _met(year, condition)
    shift = 0 if condition.shift is None else round(year.book.si(_named(year, condition.shift)))
    return f"{abs(shift)} days {'after' if shift > 0 else 'before'} {words}" if shift else words


def _met(year: _Year, condition: AnyCondition) -> str:
    """A condition in words; temperatures in both units, since a rule does not know its reader."""
    book = year.book

    def degrees(name: str) -> str:
        value = book.si(_named(year, name))
        return f"{read_as(value, 'temperature', System.US).text} ({read_as(value, 'temperature', System.METRIC).text})"

    def days(name: str) -> str:
        count = round(book.si(_named(year, name)))
        return f"{abs(count)} days {'after' if count >= 0 else 'before'} " if count else ""

    match condition.kind:
        case "air_rising" | "air_falling":
            return f"air {'rising' if condition.kind == 'air_rising' else 'falling'} through a daily mean of {degrees(condition.threshold)}"
        case "soil_rising" | "soil_falling":
            return f"soil {'warming' if condition.kind == 'soil_rising' else 'cooling'} through {degrees(condition.threshold)}"
        case "growth_rising" | "growth_falling":
            word = "growth picking up" if condition.kind == "growth_rising" else "growth slowing down"
            return f"{word} through {book.si(_named(year, condition.threshold)):.0%} of its best"
        case "last_frost" | "first_frost":
            return f"{days(condition.days)}the usual {condition.kind.replace('_', ' ')}"
        case "before_first_frost":
            return f"{round(book.si(_named(year, condition.days)))} days before the usual first frost"
        case "hottest" | "coldest":
            return f"{days(condition.days)}the {condition.kind} day of the year"
        case "degree_days_left":
            return "too little warmth left before the first frost"
        case "warmth_left":
            return "too little warmth left for seedlings to establish before winter"
