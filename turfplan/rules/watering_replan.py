"""How the waterings already in the calendar change when rain falls, heat comes, or the grass comes up early."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from turfplan.recurring import recurring_days
from turfplan.rules.watering_request import WEEK, Ground, KnownSeries
from turfplan.rules.watering_series import WaterRun


def skip_for_rain(ground: Ground, runs: Sequence[WaterRun]) -> tuple[WaterRun, ...]:
    """The runs with the days turned off on which known rain has done the work.

    A day is turned off when, with the rain of the last week and of the day itself, the roots still have readily available
    water at the time of the next run. Water above field capacity helps for a day, then it has drained.
    """
    request = ground.request
    rain = {day: w.rain_mm for day, w in request.weather.items() if w.rain_mm is not None and w.rain_mm > 0}
    if not rain or not runs:
        return tuple(runs)
    planned = sorted({day for run in runs for day in run.days()})
    given: dict[date, float] = dict.fromkeys(planned, 0.0)
    for run in runs:
        for day in run.days():
            given[day] += run.depth_mm * run.area_m2 / request.area_m2
    off = _days_off(
        ground, planned, given, rain, {day for run in runs if run.stage == "germination" for day in run.days()}
    )
    return tuple(
        replace(run, skip=tuple(sorted({*run.skip, *(d for d in off if d in set(run.days()))})))
        if off & set(run.days())
        else run
        for run in runs
    )


def _days_off(
    ground: Ground, planned: Sequence[date], given: Mapping[date, float], rain: Mapping[date, float], wet: set[date]
) -> set[date]:
    off: set[date] = set()
    missing = 0.0
    upcoming = dict(zip(planned, [*planned[1:], None], strict=True))
    day, last = planned[0], planned[-1]
    while day <= last:
        crop = ground.crop_et_mm(day, seedling=True, wet=day in wet)
        fallen = rain.get(day, 0.0)
        ready = ground.soil.ready_mm(ground.root_depth_mm(day), crop)
        if day in given:
            after = upcoming[day]
            wait = min(WEEK, (after - day).days) if after is not None else 1
            recent = any((day - timedelta(n)) in rain for n in range(WEEK))
            if recent and missing - fallen + crop * wait <= ready:
                off.add(day)
        water = 0.0 if day in off else given.get(day, 0.0)
        missing = max(missing - fallen - water, -crop) + crop
        missing = min(missing, ground.soil.total_mm(ground.root_depth_mm(day)))
        day += timedelta(1)
    return off


def settle_with(
    previous: Mapping[str, KnownSeries], runs: Sequence[WaterRun], today: date, tolerance: float
) -> tuple[WaterRun, ...]:
    """The fresh runs fitted to the calendar with the least change.

    A week that is over stays as it was; the running one keeps its days and minutes and only gains days off; a coming one
    keeps its minutes where the new ones differ by less than `tolerance` (a share).
    """
    return tuple(run if run.id not in previous else _fitted(previous[run.id], run, today, tolerance) for run in runs)


def _fitted(old: KnownSeries, run: WaterRun, today: date, tolerance: float) -> WaterRun:
    if old.end < today:
        return _like(run, old, old.skip)
    if old.start <= today:
        wanted = set(run.days())
        off = {d for d in recurring_days(old.start, old.end, old.weekdays, old.skip) if d >= today and d not in wanted}
        return _like(run, old, tuple(sorted({*old.skip, *off})))
    same_days = (old.start, old.end, old.weekdays) == (run.start, run.end, run.weekdays)
    close = abs(run.minutes - old.minutes) <= tolerance * old.minutes
    return _like(run, old, run.skip) if same_days and close else run


def _like(run: WaterRun, old: KnownSeries, skip: tuple[date, ...]) -> WaterRun:
    """The run with the times of the calendar; depths and amounts follow its minutes and days."""
    longer = old.minutes / run.minutes
    days = len(recurring_days(old.start, old.end, old.weekdays, skip)) / max(1, len(run.days()))
    amounts = tuple(
        a.model_copy(
            update={"value": round(a.value * longer * days, 1), "value_us": round(a.value_us * longer * days, 1)}
        )
        for a in run.amounts
    )
    now, then = f"{run.minutes} min", f"{old.minutes} min"
    return replace(
        run,
        start=old.start,
        end=old.end,
        start_time=old.start_time,
        minutes=old.minutes,
        weekdays=old.weekdays,
        skip=skip,
        depth_mm=run.depth_mm * longer,
        applied_mm=run.applied_mm * longer,
        amounts=amounts,
        title=run.title.replace(now, then),
        how=run.how if now == then else tuple(line for line in run.how if now not in line),
    )
