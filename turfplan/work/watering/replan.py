"""How waterings that a calendar has change for rain, for heat, or for grass that is up early."""

from collections import defaultdict
from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from datetime import date, timedelta

from turfplan.calendar_days import recurring_days
from turfplan.records.plan_task import Amount
from turfplan.units import us_twin
from turfplan.work.watering.hours import Law
from turfplan.work.watering.request import WEEK, KnownSeries, WateredGround
from turfplan.work.watering.run_times import MINUTES_IN_HOUR
from turfplan.work.watering.water_run import WaterRun


def skip_for_rain(ground: WateredGround, runs: Sequence[WaterRun]) -> tuple[WaterRun, ...]:
    """The runs with the days turned off on which known rain has done the work.

    A day is turned off when, with the rain of the last week and of the day itself, the roots still
    have readily available water at the time of the next run. Water above field capacity helps for a
    day, then it has drained.
    """
    request = ground.request
    rain = {
        day: w.rain_mm
        for day, w in request.weather.items()
        if w.rain_mm is not None and w.rain_mm > 0
    }
    if not rain or not runs:
        return tuple(runs)
    given = _given_mm(runs, request.area_m2)
    wet = {day for run in runs if run.stage == "germination" for day in run.days()}
    off = _days_off(ground, given, rain, wet)
    return tuple(_without(run, off) for run in runs)


def _given_mm(runs: Sequence[WaterRun], area_m2: float) -> dict[date, float]:
    """What the driest quarter gets on each watered day, as a mean of the lawn, in order of days."""
    given: dict[date, float] = defaultdict(float)
    for run in runs:
        for day in run.days():
            given[day] += run.depth_mm * run.area_m2 / area_m2
    return dict(sorted(given.items()))


def without_rained(
    runs: Sequence[WaterRun], rained: Mapping[str, Set[date]]
) -> tuple[WaterRun, ...]:
    """The runs with the days turned off of which somebody said that rain has done their work, by
    the run's id."""
    return tuple(_without(run, rained.get(run.id, frozenset())) for run in runs)


def _without(run: WaterRun, off: Set[date]) -> WaterRun:
    """The run with those of the days turned off that it has."""
    skipped = off & set(run.days())
    return replace(run, skip=tuple(sorted({*run.skip, *skipped}))) if skipped else run


def _days_off(
    ground: WateredGround,
    given: Mapping[date, float],
    rain: Mapping[date, float],
    wet: set[date],
) -> set[date]:
    """The watered days (`given`, in order) whose work known rain has done.

    `wet` are those of germination.
    """
    off: set[date] = set()
    missing, planned = 0.0, list(given)
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
    previous: Mapping[str, KnownSeries],
    runs: Sequence[WaterRun],
    today: date,
    tolerance: float,
    law: Law,
) -> tuple[WaterRun, ...]:
    """The fresh runs fitted to the calendar with the least change.

    A week that is over stays as it was; the running one keeps its days and minutes and only gains
    days off; a coming one keeps its minutes where the new ones differ by less than `tolerance`
    (a share). Nothing is kept at hours that `law` has closed since. What follows work that has
    moved on moves with it, also from days that are over.
    """
    return tuple(
        run
        if run.id not in previous
        else _lawful(law, _fitted(previous[run.id], run, today, tolerance), run, today)
        for run in runs
    )


def _lawful(law: Law, kept: WaterRun, run: WaterRun, today: date) -> WaterRun:
    """The run as kept, or the fresh one where what is kept would run on in closed hours."""
    begun = kept.start_time.hour * round(MINUTES_IN_HOUR) + kept.start_time.minute
    return kept if kept.end < today or law.holds(begun, kept.elapsed_min) else run


def _fitted(old: KnownSeries, run: WaterRun, today: date, tolerance: float) -> WaterRun:
    if _moved_on(old, run, today):
        return run
    if old.end < today:
        return _like(run, old, old.skip)
    if old.start <= today:
        wanted = set(run.days())
        off = {
            d
            for d in recurring_days(old.start, old.end, old.weekdays, old.skip)
            if d >= today and d not in wanted
        }
        return _like(run, old, tuple(sorted({*old.skip, *off})))
    same_days = (old.start, old.end, old.weekdays) == (run.start, run.end, run.weekdays)
    # An older program knew no cycles: its minutes are not kept where they must be cut now.
    same_cut = (old.settings, old.cycles) == (run.when.settings, run.when.cycles)
    close = abs(run.minutes - old.minutes) <= tolerance * old.minutes
    return _like(run, old, run.skip) if same_days and same_cut and close else run


def _moved_on(old: KnownSeries, run: WaterRun, today: date) -> bool:
    """Whether a run still to come was to be given on earlier days, for work that came later."""
    ahead = run.start > today and run.end > old.end
    return run.end >= today and (ahead or run.start > old.end)


def _scaled(amount: Amount, factor: float) -> Amount:
    """Both values from one: a rounded twin that is scaled says something else. What keeps its times
    keeps its amount.
    """
    if factor == 1:
        return amount
    value = amount.value * factor
    twin = {"value": round(value, 1), "value_us": round(us_twin(value, amount.unit)[0], 1)}
    return amount.model_copy(update=twin)


def _like(run: WaterRun, old: KnownSeries, skip: tuple[date, ...]) -> WaterRun:
    """The run with the times of the calendar; depths and amounts follow its minutes and days."""
    longer = old.minutes / run.minutes
    days = len(recurring_days(old.start, old.end, old.weekdays, skip)) / max(1, len(run.days()))
    amounts = tuple(
        _scaled(amount, longer * (days if amount.item == "water" else 1)) for amount in run.amounts
    )
    return replace(
        run,
        start=old.start,
        end=old.end,
        start_time=old.start_time,
        when=replace(
            run.when,
            minutes=old.minutes,
            settings=old.settings,
            cycles=old.cycles,
            soak_min=old.soak_min,
        ),
        weekdays=old.weekdays,
        skip=skip,
        depth_mm=run.depth_mm * longer,
        applied_mm=run.applied_mm * longer,
        amounts=amounts,
        # What the minutes of the rule would come to is not true of those that stand.
        puts_down=run.puts_down if run.minutes == old.minutes else None,
    )
