"""Weeks whose runs give far less than the grass needs, because few days are open to watering, or
few hours are at hand."""

from collections.abc import Container, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from turfplan.calendar_days import recurring_days
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.request import WEEK, WateredGround
from turfplan.work.watering.stage_weeks import WeekNeed
from turfplan.work.watering.water_run import WaterRun


class Shortfall(NamedTuple):
    """A week that is watered less than it needs: mm on the driest quarter, given and needed, and
    whether the law closes days of it."""

    start: date
    end: date
    given_mm: float
    need_mm: float
    by_law: bool


def shortfall(
    ground: WateredGround, week: WeekNeed, runs: Sequence[WaterRun]
) -> tuple[Shortfall, ...]:
    """What a whole week that has runs gets and needs, where that is less than the book holds for
    enough; nothing for what is watered every day, or in part of a week."""
    last = week.start + timedelta(WEEK - 1)
    if not runs or week.need.days is None or week.end < last:
        return ()
    need = week.need.depth_mm * week.need.runs * week.need.days
    zones = {run.zone: run for run in runs}
    area = sum(run.area_m2 for run in zones.values())
    given = sum(run.depth_mm * run.area_m2 * sum(day <= last for day in run.days()) for run in runs)
    exposure = _exposure(ground, zones)
    given_mm = given / area / exposure
    enough = ground.request.book.si("water.short_week") * need
    if given_mm >= enough:
        return ()
    law = law_of(ground.request.water)
    by_law = law.restricts_hours or not all(map(law.open, recurring_days(week.start, last)))
    return (Shortfall(week.start, last, given_mm, need, by_law),)


def _exposure(ground: WateredGround, keys: Container[str | None]) -> float:
    """Mean share of a sunny zone's water, by area, of the zones that are watered."""
    known = [zone for zone in ground.request.zones if None in keys or zone.key in keys]
    return sum(z.exposure * z.area_m2 for z in known) / sum(z.area_m2 for z in known)
