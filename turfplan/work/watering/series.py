"""The waterings of a season as calendar series: by stage, week, session of the day and zone."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from math import ceil
from typing import NamedTuple

from turfplan.calendar_days import recurring_days
from turfplan.message import AS_WRITTEN, Message
from turfplan.work.watering.first_water import FirstWater
from turfplan.work.watering.hose import part_of
from turfplan.work.watering.hours import spaced
from turfplan.work.watering.lawful_days import AFTER_WORK, KEPT_MOIST, ClosedDays, lawful_days
from turfplan.work.watering.request import WEEK, WateredGround
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.shortfall import shortfall
from turfplan.work.watering.stage_weeks import WeekNeed, spared, told_spared, weeks_of
from turfplan.work.watering.stages import Stage
from turfplan.work.watering.told_law import ShortWeek, merged_waits, told_closed, told_short
from turfplan.work.watering.water_run import WaterRun
from turfplan.work.watering.week_runs import Week


def season_runs(
    ground: WateredGround, plan: Sequence[Stage]
) -> tuple[tuple[WaterRun, ...], tuple[Message, ...]]:
    """The runs of every stage in order, and cautions about what law or hours do not let through.

    Zones share one series where a series for each would crowd the calendar.
    """
    request = ground.request
    said = _StageCautions([], [], [])
    runs = [run for stage in plan for run in _stage_runs(ground, stage, said, together=False)]
    if len(runs) > request.book.si("water.most_tasks") and len(request.zones) > 1:
        said = _StageCautions([], [], [])
        runs = [run for stage in plan for run in _stage_runs(ground, stage, said, together=True)]
    cautions = (
        *merged_waits(said.cautions),
        *told_closed(said.lacks),
        *told_short(said.short),
    )
    return tuple(runs), tuple(dict.fromkeys(cautions))


class _StageCautions(NamedTuple):
    """What there is to say of all stages: cautions, and the weeks that lack days or water."""

    cautions: list[Message]
    lacks: list[ClosedDays]
    short: list[ShortWeek]


def _stage_runs(
    ground: WateredGround, stage: Stage, said: _StageCautions, *, together: bool
) -> list[WaterRun]:
    weeks = weeks_of(ground, stage)
    spares = {week.number: spared(ground, stage, week) for week in weeks}
    said.cautions.extend(told_spared(stage, weeks, spares))
    series: list[WaterRun] = []
    for spare, stretch in groupby(weeks, key=lambda week: spares[week.number]):
        if spare is not None:
            continue
        watered = list(stretch)
        # One number of runs a day for a whole stretch: people keep a rhythm, and ids stay.
        runs = max(week.need.runs for week in watered)
        for week in watered:
            after = max((run.end for run in series), default=None)
            found = _week_runs(ground, stage, week, _Rhythm(runs, after), said, together=together)
            series.extend(found)
            said.short.extend(ShortWeek(stage, gap) for gap in shortfall(ground, week, found))
    return series


class _Rhythm(NamedTuple):
    """How a stage goes on from week to week: its runs a day, and the last day watered so far."""

    runs: int
    after: date | None


def _week_runs(
    ground: WateredGround,
    stage: Stage,
    week: WeekNeed,
    rhythm: _Rhythm,
    said: _StageCautions,
    *,
    together: bool,
) -> list[WaterRun]:
    """The series of one week, in the rhythm of its stage."""
    if stage.name in AFTER_WORK:
        parts = _parts(ground, stage, week.end)
        return FirstWater(ground, stage, week, parts, together).runs(said.cautions)
    number, start, end, need = week
    week_end = min(end, start + timedelta(WEEK - 1))
    lawful = lawful_days(ground, stage, start, week_end, said.lacks)
    helped = _by_stand_in(ground, stage, week, rhythm, said.cautions, together=together)
    if not lawful:
        return helped
    every = lawful
    if need.gap is not None:
        lawful = spaced(lawful, *need.gap, after=rhythm.after)
        if not lawful:
            return []
    count = len(lawful)
    if need.gap is None and need.days is not None:
        count = ceil(need.days * ((week_end - start).days + 1) / WEEK - 1e-9)
    planned = Week(
        ground,
        stage,
        number,
        lawful,
        count,
        need,
        together,
        _parts(ground, stage, end),
        end if end > week_end else None,
    )
    if need.gap is not None and not planned.holds_whole():
        # What the hours of so few days do not hold goes on more of them.
        planned = replace(planned, lawful=every)
    runs = planned.runs(rhythm.runs, said.cautions)
    return sorted((*runs, *helped), key=lambda run: run.start)


def _by_stand_in(
    ground: WateredGround,
    stage: Stage,
    week: WeekNeed,
    rhythm: _Rhythm,
    cautions: list[Message],
    *,
    together: bool,
) -> list[WaterRun]:
    """The runs of the days of a week on which nobody of the household is there, of what must not
    dry out: a neighbour or a timer stands in."""
    if stage.name not in KEPT_MOIST:
        return []
    request = ground.request
    law = request.law_of_stand_in
    days = tuple(
        day
        for day in recurring_days(week.start, week.end)
        if request.waits_for_stand_in(day) and law.open(day, permitted=True)
    )
    if not days:
        return []
    parts = _parts(ground, stage, week.end)
    there = replace(ground, law=law)
    planned = Week(
        there, stage, week.number, days, len(days), week.need, together, parts, stand_in=True
    )
    return planned.runs(rhythm.runs, cautions)


def _parts(ground: WateredGround, stage: Stage, end: date) -> tuple[WateringZone, ...]:
    """The zones, as far as they are watered in a week that ends on that day.

    Where the part that is watered is called as zones of the watering are, those alone run.
    """
    share, zones = stage.watered_share(end), ground.request.zones
    wanted = _called(stage.part.zones) if stage.part is not None else frozenset()
    if len(zones) > 1 and wanted and wanted <= _called(zone.name for zone in zones):
        zones = tuple(zone for zone in zones if _called([zone.name]) <= wanted)
        covered = sum(zone.area_m2 for zone in zones) / ground.request.area_m2
        share = min(1.0, share / covered)
    return tuple(part_of(zone, share) for zone in zones)


def _called(names: Iterable[Message]) -> frozenset[str]:
    """Names that somebody gave, to be compared; no case counts, nor what has a key."""
    return frozenset(
        str(name).strip().casefold() for name in names if name.key == AS_WRITTEN and name
    )
