"""The waterings and the water account of a dated season."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from turfplan.book.citations import who_says
from turfplan.message import Days, Message, Number, Quantity, listed, sentences
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import of_family
from turfplan.records.plan import Ledger
from turfplan.records.plan_task import Task
from turfplan.work.mowing import low_cut_steps, mowing_interval_days
from turfplan.work.watering.account import DayBooks, account, ledger_of, mature_notes
from turfplan.work.watering.hose import by_hand
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.lawful_days import PERMITTED, THIRSTY
from turfplan.work.watering.replan import settle_with, skip_for_rain, without_rained
from turfplan.work.watering.request import (
    WEEK,
    KnownSeries,
    WateredGround,
    WateringRequest,
    WeatherDay,
    ground_of,
    weather_day,
)
from turfplan.work.watering.run_times import LITRES_IN_M3, WateringZone, litres
from turfplan.work.watering.series import season_runs
from turfplan.work.watering.stage_weeks import spared, weeks_of
from turfplan.work.watering.stages import OF_RELAID, Stage, stages
from turfplan.work.watering.verdict import Verdict, watering_verdict
from turfplan.work.watering.water_run import WaterRun

__all__ = [
    "KnownSeries",
    "Totals",
    "Verdict",
    "WaterRun",
    "WateringPlan",
    "WateringRequest",
    "WeatherDay",
    "known_series",
    "low_cut_steps",
    "mowing_interval_days",
    "season_watering",
    "watering_verdict",
    "weather_day",
]


@dataclass(frozen=True, slots=True)
class Totals:
    """Water of the season as planned: for the stages, and for mature grass after them.

    `cost` is in the money of the brief's price; None where it gives none.
    """

    stages_mm: float
    mature_mm: float
    volume_l: float
    cost: float | None


def known_series(tasks: Iterable[Task]) -> dict[str, KnownSeries]:
    """The watering series of a plan's tasks by id, as a request takes them for `previous`."""
    return {
        t.id: KnownSeries(
            t.series.start,
            t.series.end,
            t.series.start_time,
            t.series.minutes,
            t.series.weekdays,
            t.series.skip,
            *((t.stage.settings, t.stage.cycles, t.stage.soak_minutes) if t.stage else ()),
        )
        for t in tasks
        if t.series is not None and t.operation == "water" and t.status != "CANCELLED"
    }


@dataclass(frozen=True, slots=True)
class WateringPlan:
    """The waterings of a season, its account of water, totals, and what to say of them."""

    series: tuple[WaterRun, ...]
    ledger: Ledger
    totals: Totals
    cautions: tuple[Message, ...]
    notes: tuple[Message, ...]
    stages: tuple[Stage, ...] = ()


def season_watering(request: WateringRequest) -> WateringPlan:
    """Every watering of a dated season with its account.

    Without water (`possible = false`) there are no runs and the account shows what rain alone does.
    """
    ground = ground_of(request)
    plan = stages(request)
    runs, cautions = ((), ()) if request.water.possible is False else season_runs(ground, plan)
    runs = skip_for_rain(ground, runs)
    if request.previous and request.today is not None:
        runs = settle_with(
            request.previous,
            runs,
            request.today,
            request.book.si("water.minutes_tolerance"),
            ground.law,
        )
    runs = without_rained(runs, request.rained)
    # A week that rain has taken over altogether is no series any more.
    runs = tuple(run for run in runs if run.days())
    watered = _watered_mm(runs, request.area_m2)
    books = account(ground, plan, watered)
    totals = _totals(ground, watered, books)
    notes = (
        *_stage_notes(request, plan),
        *_total_notes(request, totals),
        *mature_notes(ground, books),
    )
    return WateringPlan(
        runs,
        ledger_of(books, notes),
        totals,
        cautions + _own_cautions(ground, plan, runs),
        notes,
        plan,
    )


def _watered_mm(runs: Sequence[WaterRun], area_m2: float) -> Mapping[date, float]:
    """Mean depth that falls on each day over the whole lawn."""
    watered: dict[date, float] = defaultdict(float)
    for run in runs:
        depth_mm = run.applied_mm * run.area_m2 / area_m2
        for day in run.days():
            watered[day] += depth_mm
    return watered


def _totals(ground: WateredGround, watered: Mapping[date, float], books: DayBooks) -> Totals:
    request = ground.request
    staged = sum(watered.values())
    mature = books.mature_watering_mm()
    volume = litres(staged + mature, request.area_m2)
    price = request.water.price_per_m3
    return Totals(staged, mature, volume, None if price is None else volume / LITRES_IN_M3 * price)


def _stage_notes(request: WateringRequest, plan: Sequence[Stage]) -> tuple[Message, ...]:
    notes = []
    if request.germinated_on is None:
        notes += [phrases.season_until_up() for stage in plan if stage.name == "germination"]
    if request.wakes_on is not None:
        unwatered = request.water.possible is False
        notes.append(phrases.season_dormant_on_rain() if unwatered else phrases.season_dormant())
    return tuple(notes)


def _total_notes(request: WateringRequest, totals: Totals) -> tuple[Message, ...]:
    if totals.volume_l <= 0:
        return ()
    staged, mature = (
        Quantity(litres(depth, request.area_m2) / LITRES_IN_M3, "water_volume")
        for depth in (totals.stages_mm, totals.mature_mm)
    )
    cost = None if totals.cost is None else phrases.season_cost(cost=Number(totals.cost, "grouped"))
    of_rooted = phrases.season_rooted(mature=mature)
    told = phrases.season_total(staged=staged, mature=mature) if totals.stages_mm else of_rooted
    return (sentences(told, cost),)


def _absent(ground: WateredGround, plan: Sequence[Stage]) -> list[Message]:
    """That somebody must water, or look after a timer, while nobody is there: the absences within
    the weeks in which what must not dry out is watered, told once."""
    request = ground.request
    if not request.away or request.water.possible is False:
        return []
    told = list[Message]()
    for of_relaid in (False, True):
        thirsty = [
            week
            for stage in plan
            if stage.name in THIRSTY and (stage.name in OF_RELAID) is of_relaid
            for week in weeks_of(ground, stage)
            if spared(ground, stage, week) is None
        ]
        within = [
            Days(start, end, weekday=False)
            for start, end in sorted(set(request.away))
            if any(week.start <= end and start <= week.end for week in thirsty)
        ]
        if not within:
            continue
        days = listed(within, "and")
        if not by_hand(request.water):
            told.append(phrases.season_timer_alone(days=days))
        elif of_relaid:
            told.append(phrases.season_nobody_there_relaid(days=days))
        else:
            told.append(phrases.season_nobody_there(days=days))
    return list(dict.fromkeys(told))


def _permitted(request: WateringRequest, runs: Sequence[WaterRun]) -> list[Message]:
    """The days that a permit must cover: from the first run of young grass to the last, for each
    stretch that is watered without a pause and has a day that needs it."""
    law = law_of(request.water)
    days = sorted({day for run in runs if run.stage in PERMITTED for day in run.days()})
    stretches, stretch = list[Days](), list[date]()
    for day, after in pairwise([*days, None]):
        if day is None:
            continue
        stretch.append(day)
        if after is None or (after - day).days > WEEK:
            if any(law.open(d, permitted=True) and not law.open(d) for d in stretch):
                stretches.append(Days(stretch[0], day, weekday=False))
            stretch = []
    if not stretches:
        return []
    return [phrases.season_permit(days=listed(stretches, "and"))]


def _beyond_supply(request: WateringRequest, zone: WateringZone) -> Message:
    """That the supply does not water all of a zone at once, as told or by what one tap gives."""
    area, rate = Quantity(zone.area_m2, "area"), Quantity(zone.rate_mm_h, "water_rate")
    flow, supply = Quantity(zone.flow_l_min, "flow"), Quantity(request.supply_l_min, "flow")
    if request.water.flow_l_min is None:
        return phrases.season_beyond_one_tap(
            zone=zone.name, area=area, rate=rate, flow=flow, supply=supply
        )
    return phrases.season_too_much_at_once(
        zone=zone.name,
        area=area,
        rate=rate,
        flow=flow,
        supply=supply,
        parts=request.parts_of(zone),
    )


def _own_cautions(
    ground: WateredGround, plan: Sequence[Stage], runs: Sequence[WaterRun]
) -> tuple[Message, ...]:
    request = ground.request
    cautions = [*_absent(ground, plan), *_permitted(request, runs)]
    fastest = request.book.fact(of_family("water.rate_{head}", "spray"))
    for zone in request.zones:
        if zone.rate_mm_h > fastest.high_si:
            cautions.append(
                phrases.season_too_fast(
                    zone=zone.name,
                    rate=Quantity(zone.rate_mm_h, "water_rate"),
                    source=who_says(request.book, fastest.source),
                )
            )
        if runs and request.parts_of(zone) > 1:
            cautions.append(_beyond_supply(request, zone))
        cautions += [phrases.zone_line(zone=zone.name, line=line) for line in zone.advice]
        # Where nothing is watered no run time rests on anything.
        if runs and not zone.measured:
            cautions.append(phrases.season_unmeasured(zone=zone.name, reason=zone.rate_reason))
    return tuple(cautions)
