"""When each operation is open at a place for a grass, by the rules of `windows.toml`."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import lru_cache
from operator import attrgetter
from typing import NamedTuple

from turfplan.book.entries import Book
from turfplan.book.window_rules import AnyCondition, WindowRule
from turfplan.book.words import book_message, grass_name
from turfplan.calendar_days import date_of
from turfplan.climate.record import Climate
from turfplan.message import Message
from turfplan.phrases import windows as phrases
from turfplan.records.book_names import FactName, OperationName, WindowSetting
from turfplan.work.drafts import OpenDays
from turfplan.work.growing_year import GrowingYear, growing_year
from turfplan.work.window_conditions import Met, met_on
from turfplan.work.window_reasons import LEFT_OUT, event, facts_of, from_hottest, reason_of
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
        of_operation: dict[str, list[OpenDays]] = {}
        for window in other.windows:
            of_operation.setdefault(window.operation, []).append(window)
        windows = tuple(_shared(w, of_operation.get(w.operation, ())) for w in windows)
    ordered = sorted(windows, key=lambda w: (w.start, w.operation))
    return WindowsOfYear(tuple(ordered), answers[0].closed)


def _shared(window: OpenDays, others: Iterable[OpenDays]) -> OpenDays:
    """The part of a window that another grass likes too, whose windows of the operation `others`
    are: by the same rule where it has it; the window itself where there is none."""
    for other in sorted(others, key=lambda other: other.rule != window.rule):
        start, end = max(window.start, other.start), min(window.end, other.end)
        if start <= end:
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
    growing = growing_year(climate, book, species)
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


def _policy(book: Book, settings: WindowPolicy, name: WindowSetting, unsaid: bool) -> bool:
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
    opens: Message
    closes: Message


def _span(year: GrowingYear, rule: WindowRule) -> _WindowSpan | Message:
    """A rule's window in day numbers, or why it has none here."""
    opens, closes = (
        [(condition, met_on(year, rule, condition)) for condition in conditions]
        for conditions in (rule.opens, rule.closes)
    )
    for condition, met in (*opens, *closes):
        if met is None and condition.never == "closed":
            return phrases.never(event=event(year.book, year.species, condition, year.summer))
    ends = [met.day for condition, met in closes if met and condition.yields is None]
    opened = [_advanced(year, rule, c, met, min(ends, default=None)) for c, met in opens if met]
    if not opened or not any(met for _, met in closes):
        return phrases.no_season()
    # Of several conditions the last to open and the first to close decide, and are the ones to tell
    # of.
    opening = max(opened, key=attrgetter("day"))
    closed = [_yielding(year, c, met, opening.day) for c, met in closes if met]
    closing = min(closed, key=attrgetter("day"))
    if closing.day - opening.day < round(year.book.si(rule.least_days)):
        return _too_short(year, opening, closing)
    return _WindowSpan(opening.day, closing.day - 1, opening.told, closing.told)


def _advanced(
    year: GrowingYear, rule: WindowRule, condition: AnyCondition, met: Met, closed: int | None
) -> Met:
    """An opening day, brought forward where it yields to a window that would soon close.

    The turn of the year before it yields to nothing.
    """
    if condition.yields is None or closed is None:
        return met
    turn = year.coldest if rule.half == "rising" else year.hottest
    sooner = max(closed - round(year.number(condition.yields)), turn)
    if sooner >= met.day:
        return met
    told = met.told if rule.half == "rising" else from_hottest(sooner - turn)
    return Met(sooner, told)


def _yielding(year: GrowingYear, condition: AnyCondition, met: Met, opened: int) -> Met:
    """A closing day, put off where it yields to a window that has only just opened.

    Winter yields to nothing.
    """
    if condition.yields is None:
        return met
    held = min(opened + round(year.number(condition.yields)), year.next_coldest)
    return met._replace(day=max(met.day, held))


def _too_short(year: GrowingYear, opening: Met, closing: Met) -> Message:
    """Why a window that would be too short is none."""
    if year.even:
        return phrases.even_closed()
    if opening.told == closing.told:
        return phrases.no_season()
    return phrases.too_short(opens=opening.told, closes=closing.told)


class _UsualWindow(NamedTuple):
    """What the window of a rule has in every year: its reason, its source and its facts."""

    reason: Message
    source: Message
    facts: tuple[FactName, ...]


def _usual_window(year: GrowingYear, rule: WindowRule, span: _WindowSpan) -> _UsualWindow:
    reason = (
        phrases.even_year(grass=grass_name(year.book, year.species))
        if year.even
        else reason_of(year.book, year.species, rule, span.opens, span.closes)
    )
    return _UsualWindow(
        reason,
        book_message(year.book, f"windows.{rule.id}.source"),
        facts_of(year.book, year.species, rule),
    )


def _in_year(
    year: GrowingYear, rule: WindowRule, span: _WindowSpan, cycle: int, usual: _UsualWindow
) -> OpenDays:
    """The window of a rule in one growing year."""
    start, end = span.start, span.end
    first = date_of(start, cycle)
    after = (end - start) * year.book.si(rule.best)
    if rule.best_within is not None:
        after = min(after, year.number(rule.best_within, rule.cool_best_within))
    # Half a day belongs to the earlier one.
    best_day = start + math.ceil(after - 0.5)
    if rule.best_with_rain is not None:
        best_day = year.rains_from(best_day, end, round(year.book.si(rule.best_with_rain)))
    best = first + timedelta(days=best_day - start)
    season = season_of(year.book, best, southern=year.climate.southern)
    last = first + timedelta(days=end - start)
    return OpenDays(
        rule.operation, season, first, last, best, usual.reason, usual.source, rule.id, usual.facts
    )
