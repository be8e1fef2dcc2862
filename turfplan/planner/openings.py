"""Lays the windows of every operation on the years of a plan."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from turfplan.agronomy import Book
from turfplan.climate.real_years import RealYear
from turfplan.climate.record import HALF_A_YEAR, Climate, Excess
from turfplan.rules.draft import OpenDays
from turfplan.rules.real_years import record_of
from turfplan.rules.setting import Setting
from turfplan.rules.windows import Settings, Window, windows_of_years
from turfplan.units import FAHRENHEIT_PER_CELSIUS, System
from turfplan.wording import day_text

# A window that ended this lately is told of: the owner may be waiting for it.
JUST_MISSED_DAYS = 150
MEASURED = "weather.measured_memory"
"""The fact that every window rests on which a measured soil temperature has moved."""


def with_windows(setting: Setting, real_years: Sequence[RealYear] = ()) -> Setting:
    """The setting with the windows of its grass over every year the plan touches, and what real years say of them."""
    first, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    found: list[OpenDays] = []
    over: list[OpenDays] = []
    local = setting.brief.local
    policy = Settings(late_nitrogen=local.late_nitrogen, spring_aeration=local.spring_aeration)
    years = range(first.year - 1, last.year + 1)
    result = windows_of_years(setting.climate, setting.book, setting.stand, years, policy)
    for window in _as_measured(setting, result.windows, years, policy):
        if window.start > last:
            continue
        open_days = OpenDays(
            window.operation, window.season, window.start, window.end, window.best, window.reason, window.source, window.rule,
            window.facts,
        )  # fmt: skip
        (found if window.end >= first else over).append(open_days)
    closed = [f"{c.operation}: {c.reason}" for c in result.closed]
    return replace(
        setting,
        windows=tuple(sorted(found, key=lambda w: (w.start, w.operation))),
        closed=tuple(dict.fromkeys(closed)),
        record=record_of(real_years, setting.book, setting.stand, policy),
        missed=tuple(w for w in over if (first - w.end).days <= JUST_MISSED_DAYS),
    )


def _as_measured(setting: Setting, usual: Sequence[Window], years: range, policy: Settings) -> list[Window]:
    """The windows with those of the year in which the soil was measured as warm or cold as it was; they say so."""
    excess = setting.climate.excess
    if excess is None:
        return list(usual)
    moved = windows_of_years(setting.climate.year_measured(), setting.book, setting.stand, years, policy).windows
    known = {(w.rule, w.start, w.end) for w in usual}
    words = f" {measured_words(excess, setting.system)}"

    def near(window: Window) -> bool:
        return abs((window.best - excess.day).days) <= HALF_A_YEAR

    told = [w if (w.rule, w.start, w.end) in known else _told(w, words) for w in moved if near(w)]
    return [*(w for w in usual if not near(w)), *told]


def _told(window: Window, words: str) -> Window:
    return replace(window, reason=window.reason + words, facts=(*window.facts, MEASURED))


def measured_words(excess: Excess, system: System) -> str:
    """What was measured, as a sentence."""
    degrees = abs(excess.measured_c) * (FAHRENHEIT_PER_CELSIUS if system is System.US else 1)
    unit = "°F" if system is System.US else "°C"
    side = "warmer" if excess.measured_c > 0 else "colder"
    return f"The soil was measured {degrees:.0f} {unit} {side} than usual on {day_text(excess.day, system)}."


def measured_climate(climate: Climate, book: Book, soil: Sequence[tuple[date, float]], today: date) -> Climate:
    """The climate with the last soil temperature that was measured, each (day, degrees Celsius at 10 cm), up to today."""
    known = [entry for entry in soil if entry[0] <= today]
    if not known:
        return climate
    climate = replace(climate, excess=None)
    day, soil_c = max(known, key=lambda entry: entry[0])
    return replace(climate, excess=Excess(day, soil_c - climate.soil_c(day), book.si(MEASURED)))


def moved_by_soil(setting: Setting) -> dict[str, str]:
    """The operations whose windows a measured soil temperature has moved, with the sentence that says so."""
    excess = setting.climate.excess
    if excess is None:
        return {}
    words = measured_words(excess, setting.system)
    return {w.operation: words for w in setting.windows if MEASURED in w.facts}
