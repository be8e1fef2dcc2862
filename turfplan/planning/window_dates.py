"""Lays the windows of every operation on the years of a plan."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from turfplan.book.entries import Book
from turfplan.calendar_days import HALF_A_YEAR
from turfplan.climate.real_years import RealYear
from turfplan.climate.record import Climate, Excess
from turfplan.message import Day, Message, Quantity, sentences
from turfplan.phrases import windows as phrases
from turfplan.work.drafts import OpenDays
from turfplan.work.elsewhere import NOTHING_ELSEWHERE, Elsewhere
from turfplan.work.lawn import Openings, ResolvedLawn
from turfplan.work.rain_windows import climate_of_lawn, on_rain, turf_days_in_bans, turf_dry_days
from turfplan.work.real_years import record_of
from turfplan.work.seed_mix import slowest
from turfplan.work.watering.rain_fed import days_without
from turfplan.work.watering.verdict import Verdict, days_kept_wet, tender_days
from turfplan.work.windows import WindowPolicy, WindowsOfYear, windows_of_years

# A window that ended this lately is told of: the owner may be waiting for it.
JUST_MISSED_DAYS = 150
# Work on ground without living grass: its windows are no news where turf lives.
KILL: Final = "kill_stand"
OPEN_GROUND_WORK: Final = ("fill", KILL)
MEASURED: Final = "weather.measured_memory"
"""The fact that every window rests on which a measured soil temperature has moved."""


def with_windows(
    setting: ResolvedLawn,
    real_years: Sequence[RealYear] = (),
    elsewhere: Elsewhere = NOTHING_ELSEWHERE,
) -> ResolvedLawn:
    """The setting with its grass's windows in the plan's years, what real years say, and what its
    hands have promised elsewhere."""
    setting = replace(setting, labour=replace(setting.labour, elsewhere=elsewhere))
    setting = replace(setting, climate=climate_of_lawn(setting))
    first, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    ahead: list[OpenDays] = []
    over: list[OpenDays] = []
    local = setting.brief.local
    policy = WindowPolicy(late_nitrogen=local.late_nitrogen, spring_aeration=local.spring_aeration)
    years = range(first.year - 1, last.year + 1)
    result = _of_both_grasses(
        setting,
        windows_of_years(setting.climate, setting.book, setting.turf.stand, years, policy),
        windows_of_years(
            setting.climate, setting.book, setting.brief.dominant.species, years, policy
        ),
    )
    windows, too_dry = on_rain(setting, _as_measured(setting, result.windows, years, policy))
    for window in windows:
        if window.start > last or (
            window.operation in OPEN_GROUND_WORK and not setting.on_open_ground
        ):
            continue
        (ahead if window.end >= first else over).append(window)
    closed = [
        phrases.closed(operation=c.operation, reason=c.reason)
        for c in (*result.closed, *too_dry)
        if c.operation not in OPEN_GROUND_WORK or setting.on_open_ground
    ]
    opened = {window.operation for window in windows}
    never = tuple(
        (c.operation, c.reason) for c in (*result.closed, *too_dry) if c.operation not in opened
    )
    return replace(
        setting,
        openings=Openings(
            windows=tuple(sorted(ahead, key=lambda w: (w.start, w.operation))),
            closed=tuple(dict.fromkeys(closed)),
            never=never,
            missed=tuple(w for w in over if (first - w.end).days <= JUST_MISSED_DAYS),
            record=record_of(
                real_years, setting.book, setting.turf.stand, policy, rain_alone(setting)
            ),
        ),
    )


def rain_alone(setting: ResolvedLawn) -> tuple[int, int] | None:
    """Where nobody waters what is sown or planted: the days until it is up, and those in which it
    must not dry out."""
    if setting.brief.water.possible is not False or not setting.sowing.needs_water:
        return None
    grass = slowest(setting.book, setting.sowing.grasses)
    return tender_days(setting.brief, setting.book, grass)


def less_dry_days(setting: ResolvedLawn, verdict: Verdict) -> Openings:
    """The openings of a lawn less the days that bans of watering close, or, where nobody waters,
    want of rain."""
    bans = tuple((a.toordinal(), b.toordinal()) for a, b in verdict.closed)
    openings = replace(setting.openings, no_sowing=bans)
    if setting.brief.water.possible is not False:
        banned = () if setting.on_open_ground else turf_days_in_bans(setting)
        return replace(openings, dry_turf=banned)
    brief, book, climate = setting.brief, setting.book, setting.climate
    first, last = setting.first_day, setting.last_day
    if setting.sowing.needs_water:
        grass = slowest(book, setting.sowing.grasses)
        kept = days_kept_wet(brief, book, climate, grass)
        openings = replace(openings, too_dry=days_without(kept, first, last))
    if setting.on_open_ground:
        return openings
    return replace(openings, dry_turf=turf_dry_days(setting))


def _of_both_grasses(
    setting: ResolvedLawn, new: WindowsOfYear, old: WindowsOfYear
) -> WindowsOfYear:
    """The windows of the lawn's grass; what is killed has those of the grass that is there."""
    if setting.turf.species.id == setting.brief.dominant.species:
        return new
    return WindowsOfYear(
        (
            *(w for w in new.windows if w.operation != KILL),
            *(w for w in old.windows if w.operation == KILL),
        ),
        new.closed,
    )


def _as_measured(
    setting: ResolvedLawn, usual: Sequence[OpenDays], years: range, policy: WindowPolicy
) -> list[OpenDays]:
    """The windows, with those of the year in which the soil was measured moved; they say so."""
    excess = setting.climate.excess
    if excess is None:
        return list(usual)
    moved = windows_of_years(
        setting.climate.year_measured(), setting.book, setting.turf.stand, years, policy
    ).windows
    known = {(w.rule, w.start, w.end) for w in usual}
    measured = _measured(excess)

    def near(window: OpenDays) -> bool:
        return abs((window.best - excess.day).days) <= HALF_A_YEAR

    this_year = [
        w if (w.rule, w.start, w.end) in known else _moved(w, measured) for w in moved if near(w)
    ]
    return [*(w for w in usual if not near(w)), *this_year]


def _moved(window: OpenDays, measured: Message) -> OpenDays:
    reason = sentences(window.reason, measured)
    return replace(window, reason=reason, facts=(*window.facts, MEASURED))


def _measured(excess: Excess) -> Message:
    """What was measured of the soil."""
    degrees = Quantity(abs(excess.measured_c), "temperature_difference")
    side = phrases.soil_warmer if excess.measured_c > 0 else phrases.soil_colder
    return side(degrees=degrees, day=Day(excess.day))


def measured_climate(
    climate: Climate, book: Book, soil: Sequence[tuple[date, float]], today: date
) -> Climate:
    """The climate with the last soil temperature measured up to today.

    Each entry of `soil` is a day with degrees Celsius at 10 cm.
    """
    known = [entry for entry in soil if entry[0] <= today]
    if not known:
        return climate
    climate = replace(climate, excess=None)
    day, soil_c = max(known, key=lambda entry: entry[0])
    return replace(climate, excess=Excess(day, soil_c - climate.soil_c(day), book.si(MEASURED)))


def moved_by_soil(setting: ResolvedLawn) -> dict[str, Message]:
    """The operations whose windows a measured soil temperature has moved, and what it was."""
    excess = setting.climate.excess
    if excess is None:
        return {}
    measured = _measured(excess)
    return {w.operation: measured for w in setting.openings.windows if MEASURED in w.facts}
