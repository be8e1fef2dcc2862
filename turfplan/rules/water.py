"""The waterings and the water account of a dated season."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.irrigation import LITRES_IN_M3, litres
from turfplan.plan import Ledger, Task
from turfplan.rules.mowing import low_cut_steps, mowing_interval_days
from turfplan.rules.water_ledger import DayBooks, account, ledger_of, mature_notes
from turfplan.rules.watering_replan import settle_with, skip_for_rain
from turfplan.rules.watering_request import Ground, KnownSeries, WateringRequest, WeatherDay, ground_of, weather_day
from turfplan.rules.watering_series import WaterRun, season_runs
from turfplan.rules.watering_stages import Stage, stages
from turfplan.rules.watering_verdict import Verdict, watering_verdict
from turfplan.units import read_as
from turfplan.wording import days_text

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
    """Water of the season as planned: for the stages, for mature grass after them, and the price where one was given."""

    stages_mm: float
    mature_mm: float
    volume_l: float
    cost: float | None


def known_series(tasks: Iterable[Task]) -> dict[str, KnownSeries]:
    """The watering series of a plan's tasks by id, as a request takes them for `previous`."""
    return {
        t.id: KnownSeries(
            t.series.start, t.series.end, t.series.start_time, t.series.minutes, t.series.weekdays, t.series.skip
        )
        for t in tasks
        if t.series is not None and t.operation == "water" and t.status != "CANCELLED"
    }


@dataclass(frozen=True, slots=True)
class WateringPlan:
    """The waterings of a season, the weekly account of water, totals, and what the plan must say about them."""

    series: tuple[WaterRun, ...]
    ledger: Ledger
    totals: Totals
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
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
        runs = settle_with(request.previous, runs, request.today, request.book.si("water.minutes_tolerance"))
    # A week that rain has taken over altogether is no series any more.
    runs = tuple(run for run in runs if run.days())
    watered = _watered_mm(runs, request.area_m2)
    books = account(ground, plan, watered)
    totals = _totals(ground, watered, books)
    notes = (*_stage_notes(request, plan), *_total_notes(request, totals), *mature_notes(ground, books))
    return WateringPlan(runs, ledger_of(books, notes), totals, cautions + _own_cautions(ground, runs), notes, plan)


def _watered_mm(runs: Sequence[WaterRun], area_m2: float) -> Mapping[date, float]:
    """Mean depth that falls on each day over the whole lawn."""
    found: dict[date, float] = defaultdict(float)
    for run in runs:
        depth_mm = run.applied_mm * run.area_m2 / area_m2
        for day in run.days():
            found[day] += depth_mm
    return found


def _totals(ground: Ground, watered: Mapping[date, float], books: DayBooks) -> Totals:
    request = ground.request
    staged = sum(watered.values())
    mature = books.mature_watering_mm()
    volume = litres(staged + mature, request.area_m2)
    price = request.water.price_per_m3
    return Totals(staged, mature, volume, None if price is None else volume / LITRES_IN_M3 * price)


def _stage_notes(request: WateringRequest, plan: Sequence[Stage]) -> tuple[str, ...]:
    notes = []
    for stage in plan:
        if stage.name == "germination" and request.germinated_on is None:
            notes.append(
                "The seed stage ends when the grass is up, not on a date: log germination and the plan goes on from that day."
            )
    if request.seeded_on and request.dormant:
        notes.append("Dormant seed is not watered now: it waits for spring; water once it swells if spring is dry.")
    return tuple(notes)


def _total_notes(request: WateringRequest, totals: Totals) -> tuple[str, ...]:
    if totals.volume_l <= 0:
        return ()
    staged, mature = (
        read_as(litres(depth, request.area_m2) / LITRES_IN_M3, "water_volume", request.system).text
        for depth in (totals.stages_mm, totals.mature_mm)
    )
    price = "" if totals.cost is None else f" At the price in the brief that comes to about {totals.cost:,.0f}."
    return (
        f"The work takes about {staged} of water, rooted grass outside it about {mature} in a usual season.{price}",
    )


def _own_cautions(ground: Ground, runs: Sequence[WaterRun]) -> tuple[str, ...]:
    request, found = ground.request, []
    for start, end in request.away:
        stages_hit = sorted({run.stage for run in runs if any(start <= day <= end for day in run.days())})
        if stages_hit:
            found.append(
                f"Watering falls due while nobody is there ({days_text(start, end, request.system, weekday=False)}): set a timer or ask a neighbour."
            )
    fastest = request.book.fact("water.rate_spray")
    for zone in request.zones:
        if zone.rate_mm_h > fastest.high_si:
            rate = read_as(zone.rate_mm_h, "water_rate", request.system).text
            found.append(
                f"{zone.name}: {rate} is faster than sprinklers usually are ({request.book.said_by(fastest.source)}): measure it with catch "
                "cans before any run."
            )
        found += [f"{zone.name}: {line[0].lower()}{line[1:]}" for line in zone.advice]
        if not zone.measured:
            found.append(f"{zone.name}: run times rest on {zone.rate_reason}; set out catch cans to be sure.")
    return tuple(found)
