"""When ground without living grass is filled, how long it settles, and whether it is covered."""

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from turfplan.calendar_days import HALF_A_YEAR, WEEKDAYS
from turfplan.message import Message
from turfplan.phrases import ground_fill as phrases
from turfplan.records.book_names import FactName
from turfplan.work.drafts import OpenDays
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import loose_volume_m3
from turfplan.work.slopes import washes
from turfplan.work.year_seasons import season_of

WEEK = len(WEEKDAYS)
MM_PER_M = 1000
RULE = "open_ground_fill"


def waits_a_season(setting: ResolvedLawn) -> bool:
    """Whether the fill is so deep that it settles for a season before the final grade."""
    return setting.levelling.depth_mm > setting.book.si("open_ground.deep_from") + 1e-6


def covered(setting: ResolvedLawn) -> bool:
    """Whether a temporary cover stands on the fill.

    It waits for a season, nothing is sown, or it would lie open for longer than ground may: for a
    night on a slope, where every storm washes.
    """
    return bool(setting.levelling.bands) and (
        waits_a_season(setting)
        or setting.sowing.operation is None
        or washes(setting)
        or takes_weeks(setting)
    )


def nurse_grass_may_cover(setting: ResolvedLawn) -> bool:
    """Whether the people choose what covers the fill: a quick grass, which takes a season and
    somebody who waters it, or straw."""
    waits = waits_a_season(setting) or setting.sowing.operation is None
    return waits and not washes(setting) and setting.brief.water.possible is not False


def cover_is_bought(setting: ResolvedLawn) -> bool:
    """Whether what covers the fill is bought: on a slope, and where it lies a season and no grass
    may cover it; else it is what the people choose, or what the strips lay by."""
    lies = waits_a_season(setting) or setting.sowing.operation is None
    return washes(setting) or (lies and not nurse_grass_may_cover(setting))


def takes_weeks(setting: ResolvedLawn) -> bool:
    """Whether the lifts take these people longer than ground may lie open strip by strip."""
    return lift_days(setting) > setting.days("open_ground.open_by_strips")


def settling(setting: ResolvedLawn) -> FactName:
    """The fact that says how many days the last lift settles before the final grade."""
    if waits_a_season(setting):
        return "open_ground.settle_season"
    if setting.levelling.depth_mm > setting.book.si("open_ground.settles_fast") + 1e-6:
        return "open_ground.settle_usual"
    return "open_ground.settle_least"


def regrowth_look(setting: ResolvedLawn) -> FactName:
    """The fact that says after how many days a killed stand shows what still lives: all that grew
    in it, the slowest to show."""
    creeps = had_runners(setting)
    return "renovate.regrowth_look_creeping" if creeps else "renovate.regrowth_look"


def had_runners(setting: ResolvedLawn) -> bool:
    """Whether grass that spreads by runners below ground grew in the old stand, however little of
    it: the little that lives is what comes up through the new grass."""
    lawn, species = setting.brief.lawn, setting.book.species
    old = {grass.species for grass in lawn.grass} | {z.grass for z in lawn.shape if z.grass}
    return any(species[grass].habit == "stolon and rhizome" for grass in old)


def kill_lead(setting: ResolvedLawn) -> int:
    """The wished days from the first treatment to the seed: what creeps is given longer."""
    longer = setting.days(regrowth_look(setting)) - setting.days("renovate.regrowth_look")
    return setting.days("wish.kill_stand") + longer


def least_lead(setting: ResolvedLawn) -> int:
    """The fewest days from the beginning of the work to seed or plants on ground without grass."""
    lead = 0
    if setting.worked == "killed":
        lead += setting.days(regrowth_look(setting)) + setting.days("renovate.days_to_seed")
    if setting.levelling.bands:
        lead += lift_days(setting) + setting.days(settling(setting))
    return lead


def lift_days(setting: ResolvedLawn) -> int:
    """About how many days of the calendar all lifts take the people at hand."""
    levelling, area_m2 = setting.levelling, setting.plot.area_m2
    settled_m3 = levelling.mean_mm * area_m2 / MM_PER_M
    loose = loose_volume_m3(settled_m3, levelling.settle_share)
    filled_m2 = area_m2 * levelling.covered_share
    hours = person_hours(setting, setting.book.operations["fill"], filled_m2, loose)
    in_a_week = len(setting.brief.calendar.weekdays or ("sat", "sun"))
    return math.ceil(working_days(setting, hours) * WEEK / in_a_week)


def fill_window(setting: ResolvedLawn, sow: OpenDays | None) -> OpenDays | None:
    """The days in which the lifts for a seeding or planting are spread, None where there are none.

    They lie in the weeks before it, or in the season before where the fill waits for one; where
    nothing is sown, as soon as the soil can be worked.
    """
    workable = [w for w in setting.open("fill") if w.end.toordinal() >= setting.first_day]
    if sow is None:
        return next((replace(w, best=max(w.start, _today(setting))) for w in workable), None)
    settles = setting.days(settling(setting))
    days = lift_days(setting)
    ahead = (
        HALF_A_YEAR
        if waits_a_season(setting)
        else setting.days("open_ground.open_most") + days + WEEK
    )
    first, last = sow.start - timedelta(ahead), sow.end - timedelta(settles)
    best = sow.best - timedelta(settles + days)
    parts = list(_within(setting, workable, max(first, _today(setting)), last, best))
    return max(parts, key=lambda part: part.end - part.start, default=None)


def _today(setting: ResolvedLawn) -> date:
    return date.fromordinal(setting.first_day)


def _within(
    setting: ResolvedLawn, workable: list[OpenDays], first: date, last: date, best: date
) -> Iterator[OpenDays]:
    """The parts of a stretch of days in which the soil can be worked."""
    least = timedelta(setting.days("windows.least_days"))
    for window in workable:
        start, end = max(first, window.start), min(last, window.end)
        if start + least <= end:
            day = min(max(best, start), end)
            season = season_of(setting.book, day, southern=setting.climate.southern)
            yield OpenDays(
                "fill", season, start, end, day, _why(setting), window.source, RULE, window.facts
            )


def _why(setting: ResolvedLawn) -> Message:
    return (
        phrases.window_a_season()
        if waits_a_season(setting)
        else phrases.window_of_weeks(most=setting.days("open_ground.open_most") // WEEK)
    )
