"""When each operation is open at a place for a grass, by the rules of `windows.toml`."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import lru_cache
from operator import itemgetter
from typing import NamedTuple

from turfplan.book.entries import Book
from turfplan.book.window_rules import AirFalling, AirRising, AnyCondition, WindowRule
from turfplan.book.words import book_message
from turfplan.calendar_days import DAYS, date_of
from turfplan.climate.daily_curves import crossing
from turfplan.climate.record import Climate
from turfplan.message import Message
from turfplan.phrases import windows as phrases
from turfplan.records.book_names import FactName, NamedFact, OperationName, RegionSetting
from turfplan.work.drafts import OpenDays
from turfplan.work.window_reasons import LEFT_OUT, blended, event, facts_of, named_for, reason_of
from turfplan.work.year_seasons import season_of


@dataclass(frozen=True, slots=True)
class WindowPolicy:
    """Regional policy: None leaves it to the region's overlay, else to the rule of the window."""

    late_nitrogen: bool | None = None
    spring_aeration: bool | None = None


@dataclass(frozen=True, slots=True)
class ClosedWindow:
    """An operation that a rule does not open here, and why."""

    operation: OperationName
    rule: str
    reason: Message


@dataclass(frozen=True, slots=True)
class WindowsOfYear:
    """Every window that starts in one year, and what stays closed."""

    windows: tuple[OpenDays, ...]
    closed: tuple[ClosedWindow, ...]


@dataclass(frozen=True, slots=True)
class _GrowingYear:
    """One growing year as day numbers.

    It runs from the coldest day over the hottest to the next coldest.
    """

    climate: Climate
    book: Book
    species: str
    coldest: int
    hottest: int

    @property
    def summer(self) -> float:
        """How hot summers are, from 0 (cool) to 1."""
        low, high = self.book.si("windows.cool_summer"), self.book.si("windows.hot_summer")
        return min(1.0, max(0.0, (max(self.climate.air_mean_c) - low) / (high - low)))

    def number(self, name: NamedFact, cool: NamedFact | None = None) -> float:
        """The number of a condition here; towards `cool` where summers are cool."""
        return blended(self.book, self.species, name, cool, self.summer)


def operation_windows(
    climate: Climate,
    book: Book,
    species: str | Sequence[str],
    year: int,
    settings: WindowPolicy | None = None,
) -> WindowsOfYear:
    """Every window that starts in `year`, in order of time, for a grass or a mixed stand.

    For a mixed stand a window is what suits every grass; where that is empty the first grass
    decides.
    """
    return windows_of_years(climate, book, species, (year,), settings)


def windows_of_years(
    climate: Climate,
    book: Book,
    species: str | Sequence[str],
    years: Sequence[int],
    settings: WindowPolicy | None = None,
) -> WindowsOfYear:
    """As `operation_windows`, over several years; the rules are worked out once."""
    stand = (species,) if isinstance(species, str) else tuple(species)
    answers = [
        _windows_of(climate, book, grass, tuple(years), settings or WindowPolicy())
        for grass in stand
    ]
    windows = answers[0].windows
    for other in answers[1:]:
        windows = tuple(_shared(window, other.windows) for window in windows)
    ordered = sorted(windows, key=lambda w: (w.start, w.operation))
    return WindowsOfYear(tuple(ordered), answers[0].closed)


def _shared(window: OpenDays, others: Iterable[OpenDays]) -> OpenDays:
    """The part of a window that another grass likes too; the window itself where there is none."""
    for other in others:
        start, end = max(window.start, other.start), min(window.end, other.end)
        if other.operation == window.operation and start <= end:
            return replace(window, start=start, end=end, best=min(max(window.best, start), end))
    return window


@lru_cache(maxsize=64)
def _windows_of(
    climate: Climate, book: Book, species: str, years: tuple[int, ...], settings: WindowPolicy
) -> WindowsOfYear:
    """The windows of one grass.

    Kept, since the same lawn is planned again and again: when it rains, and for each way out.
    """
    season = book.species[species].season
    mean = climate.usual_air_c or climate.air_mean_c
    coldest = mean.index(min(mean))
    hottest = mean.index(max(mean))
    # Day numbers are counted so that coldest < hottest < coldest + 365.
    growing = _GrowingYear(
        climate, book, species, coldest, hottest if hottest > coldest else hottest + DAYS
    )
    windows: list[OpenDays] = []
    closed: list[ClosedWindow] = []
    for rule in book.windows:
        if rule.grass not in ("any", season) or (rule.species and species not in rule.species):
            continue
        if rule.setting is not None and not _policy(book, settings, rule.setting, rule.unsaid):
            closed.append(ClosedWindow(rule.operation, rule.id, LEFT_OUT[rule.setting]()))
            continue
        span = _span(growing, rule)
        if isinstance(span, Message):
            closed.append(ClosedWindow(rule.operation, rule.id, span))
            continue
        usual = _usual_window(growing, rule, span)
        for cycle in range(min(years) - 1, max(years) + 2):
            if date_of(span.start, cycle).year in years:
                windows.append(_in_year(growing, rule, span, cycle, usual))
    return WindowsOfYear(tuple(windows), tuple(closed))


def _policy(book: Book, settings: WindowPolicy, name: RegionSetting, unsaid: bool) -> bool:
    """What the owner says, else the region, else what holds where neither says anything."""
    asked: bool | None = getattr(settings, name)
    habit = book.setting(name)
    if asked is not None:
        return asked
    return unsaid if habit is None else habit


class _WindowSpan(NamedTuple):
    """First and last day number of a rule's window, and what opens and closes it here."""

    start: int
    end: int
    opens: AnyCondition
    closes: AnyCondition


def _span(year: _GrowingYear, rule: WindowRule) -> _WindowSpan | Message:
    """A rule's window in day numbers, or why it has none here."""
    opens: list[tuple[int, AnyCondition]] = []
    closes: list[tuple[int, AnyCondition]] = []
    for conditions, days in ((rule.opens, opens), (rule.closes, closes)):
        for condition in conditions:
            day = _day(year, rule, condition)
            if day is None and (
                condition.never == "closed"
                or _too_warm(year, condition, opening=conditions is rule.opens)
            ):
                return phrases.never(event=event(year.book, year.species, condition, year.summer))
            if day is not None:
                days.append((day, condition))
    if not opens or not closes:
        return phrases.no_season()
    # Of several conditions the last to open and the first to close decide, and are the ones to tell
    # of.
    start, opening = max(opens, key=itemgetter(0))
    beyond, closing = min(closes, key=itemgetter(0))
    least = round(year.book.si(rule.least_days))
    if beyond - start < least:
        return phrases.too_short(
            opens=event(year.book, year.species, opening, year.summer),
            closes=event(year.book, year.species, closing, year.summer),
        )
    return _WindowSpan(start, beyond - 1, opening, closing)


def _too_warm(year: _GrowingYear, condition: AnyCondition, *, opening: bool) -> bool:
    """Whether a threshold is never crossed because it is always warmer.

    The heat never ends, or was never away.
    """
    if not isinstance(condition, AirFalling if opening else AirRising):
        return False
    return min(year.climate.air_mean_c) >= year.book.si(
        named_for(year.species, condition.threshold)
    )


def _day(year: _GrowingYear, rule: WindowRule, condition: AnyCondition) -> int | None:
    """The day number on which a condition is met in the rule's half of the year, or None."""
    day = _event(year, rule, condition)
    if day is not None and condition.shift is not None:
        day += round(year.book.si(named_for(year.species, condition.shift)))
    return day


def _event(year: _GrowingYear, rule: WindowRule, condition: AnyCondition) -> int | None:
    climate, number = year.climate, year.number
    match condition.kind:
        case "air_rising":
            mark = year.number(condition.threshold, condition.cool_threshold)
            day = _crossed(year, climate.air_mean_c, mark, rising=True)
            if condition.latest is None:
                return day
            anyway = year.hottest + round(number(condition.latest))
            return anyway if day is None else min(day, anyway)
        case "air_falling":
            if condition.only_above is not None and max(climate.air_mean_c) < number(
                condition.only_above
            ):
                return None
            return _crossed(year, climate.air_mean_c, number(condition.threshold), rising=False)
        case "soil_rising" | "soil_falling":
            rising = condition.kind == "soil_rising"
            return _crossed(year, climate.soil_10cm_c, number(condition.threshold), rising=rising)
        case "growth_rising" | "growth_falling":
            curve = climate.growth_curve(year.book.species[year.species].season)
            rising = condition.kind == "growth_rising"
            if not rising and rule.half == "rising":
                # Heat ends spring growth before the hottest day: it is looked for from the coldest.
                growth = number(condition.threshold)
                return crossing(curve, growth, rising=False, start=year.coldest)
            return _crossed(year, curve, number(condition.threshold), rising=rising)
        case "last_frost" | "first_frost" | "before_first_frost":
            return _frost_day(year, condition.kind, round(number(condition.days)))
        case "hottest":
            return year.hottest + round(year.number(condition.days, condition.cool_days))
        case "nights_falling":
            night = _crossed(year, climate.air_min_c, number(condition.threshold), rising=False)
            earliest = year.hottest + round(number(condition.earliest))
            return None if night is None else max(night + round(number(condition.days)), earliest)
        case "coldest":
            return year.coldest + round(number(condition.days))
        case "degree_days_left" | "warmth_left":
            frost_ends = condition.kind == "degree_days_left"
            return _degree_days_left(
                year, number(condition.sum), number(condition.base), frost_ends=frost_ends
            )


def _crossed(
    year: _GrowingYear, curve: Sequence[float], threshold: float, *, rising: bool
) -> int | None:
    """The day on which a curve crosses a threshold.

    Rising between the coldest day and the hottest, falling after it.

    Soil is warmest up to a fortnight after the air, so a rise may end that much later.
    """
    rise, fall = year.hottest - year.coldest, year.coldest + DAYS - year.hottest
    if rising:
        return crossing(
            curve,
            threshold,
            rising=True,
            start=year.coldest,
            length=rise + round(year.book.si("windows.soil_lag")),
        )
    return crossing(curve, threshold, rising=False, start=year.hottest, length=fall + 1)


def _frost_day(year: _GrowingYear, kind: str, days: int) -> int | None:
    """So many days after the median last or first frost, or before the first one.

    None where frost does not come.
    """
    frost = year.climate.last_frost if kind == "last_frost" else year.climate.first_frost
    if frost is None:
        return None
    median = _after(frost.median, year.coldest if kind == "last_frost" else year.hottest)
    return median - days if kind == "before_first_frost" else median + days


def _after(index: int, start: int) -> int:
    """The first day number on or after `start` that has this place in the year."""
    return start + (index - start) % DAYS


def _degree_days_left(
    year: _GrowingYear, needed: float, base_c: float, *, frost_ends: bool
) -> int | None:
    """The last day with so many degree days to come before the first frost or the coldest day."""
    frost = year.climate.first_frost
    last = (
        year.coldest + DAYS
        if frost is None or not frost_ends
        else _after(frost.median, year.hottest)
    )
    total = 0.0
    for day in range(last - 1, year.coldest, -1):
        total += max(0.0, year.climate.air_mean_c[day % DAYS] - base_c)
        if total >= needed:
            return day
    return None


class _UsualWindow(NamedTuple):
    """What the window of a rule has in every year: its reason, its source and its facts."""

    reason: Message
    source: Message
    facts: tuple[FactName, ...]


def _usual_window(year: _GrowingYear, rule: WindowRule, span: _WindowSpan) -> _UsualWindow:
    return _UsualWindow(
        reason_of(year.book, year.species, rule, span.opens, span.closes, year.summer),
        book_message(year.book, f"windows.{rule.id}.source"),
        facts_of(year.species, rule),
    )


def _in_year(
    year: _GrowingYear, rule: WindowRule, span: _WindowSpan, cycle: int, usual: _UsualWindow
) -> OpenDays:
    """The window of a rule in one growing year."""
    start, end = span.start, span.end
    first = date_of(start, cycle)
    after = (end - start) * year.book.si(rule.best)
    if rule.best_within is not None:
        after = min(after, year.number(rule.best_within, rule.cool_best_within))
    # Half a day belongs to the earlier one.
    best = first + timedelta(days=math.ceil(after - 0.5))
    season = season_of(year.book, best, southern=year.climate.southern)
    last = first + timedelta(days=end - start)
    return OpenDays(
        rule.operation, season, first, last, best, usual.reason, usual.source, rule.id, usual.facts
    )
