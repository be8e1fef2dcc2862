"""Whether a lawn can be watered as its work asks, and the waterings and the water account of a dated season."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.irrigation import LITRES_IN_M3, Zone, litres, run_minutes
from turfplan.plan import Ledger, Task
from turfplan.rules.mowing import low_cut_steps, mowing_interval_days
from turfplan.rules.water_balance import month_totals
from turfplan.rules.water_ledger import DayBook, account, ledger_of, mature_notes
from turfplan.rules.watering_hours import law_of
from turfplan.rules.watering_replan import settle_with, skip_for_rain
from turfplan.rules.watering_request import Ground, KnownSeries, WateringRequest, WeatherDay, ground_of, weather_day
from turfplan.rules.watering_series import WaterRun, season_runs, series_days
from turfplan.rules.watering_stages import Stage, stages
from turfplan.units import read_as

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
    "series_days",
    "watering_verdict",
    "weather_day",
]


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether seed or plants can be kept moist here. `closed` are days on which sowing would meet a watering ban."""

    ok: bool
    reasons: tuple[str, ...]
    needs_permit: bool
    cautions: tuple[str, ...]
    closed: tuple[tuple[date, date], ...] = ()
    facts: tuple[str, ...] = ()


def watering_verdict(
    brief: Brief, book: Book, climate: Climate, species_id: str, zones: Sequence[Zone] = ()
) -> Verdict:
    """Can seed of this species be kept moist under the brief's water and law? Asked before any day is chosen.

    With `zones` the verdict also says when the lawful hours of a day are too short for the whole lawn.
    """
    law = law_of(brief.water)
    name = book.species[species_id].name.lower()
    reasons: list[str] = []
    cautions: list[str] = []
    days = round(book.fact(f"species.{species_id}.germination_days").high_si)
    tender = days + round(book.si("setting.seedling_growth_days"))
    gap, most = law.longest_gap_days(), round(book.si("water.germination_gap"))
    if brief.water.possible is False:
        reasons.append(
            f"The lawn cannot be watered: seed of {name} that is wetted and dries out is dead. {_rain_words(climate, book)}"
        )
    if brief.water.possible is None:
        cautions.append(
            f"Nobody said whether the lawn can be watered: {tender} days of daily water are counted on once it is sown."
        )
    short = law.restricts_days and gap > most
    if short and not brief.water.permit:
        reasons.append(
            f"The law leaves up to {gap} days between waterings and seed of {name} must stay moist every day for up to {days} "
            f"days: get an establishment permit, sow dormant, or change the season. {_rain_words(climate, book)}"
        )
    if short and brief.water.permit:
        cautions.append(
            f"Sow only with the permit in hand, and see that it runs for {tender} days: one that ends before the grass is up "
            "(look after germination) leaves the seed to dry."
        )
    for span in brief.calendar.away:
        cautions.append(f"Nobody is there from {span.start} to {span.end}: new seed then needs a timer or a neighbour.")
    cautions.extend(_hours_words(brief, book, climate, zones))
    closed = tuple((span.start - timedelta(tender), span.end) for span in brief.water.banned)
    for (first, last), span in zip(closed, brief.water.banned, strict=True):
        cautions.append(
            f"Watering is banned from {span.start} to {span.end}: nothing is sown from {first} to {last}, since seedlings need "
            f"{tender} days of water."
        )
    facts = ("water.germination_gap", f"species.{species_id}.germination_days", "setting.seedling_growth_days")
    return Verdict(not reasons, tuple(reasons), short, tuple(cautions), closed, facts)


_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


def _rain_words(climate: Climate, book: Book) -> str:
    """The months in which usual rain outdoes what a wet surface loses while grass is not frozen, in a sentence."""
    wet, least = book.si("water.kc_wet_surface"), book.si("water.dormant_growth")
    rains, losses = month_totals(climate.rain_mm), month_totals(climate.et0_mm)
    growth = [max(climate.growth_potential(date(2027, m, d), "cool") for d in (1, 15, 28)) for m in range(1, 13)]
    months = [
        name
        for name, rain, et0, grows in zip(_MONTHS, rains, losses, growth, strict=True)
        if rain >= wet * et0 and grows >= least
    ]
    if not months:
        return "In no growing month does the usual rain keep a seedbed moist here."
    return f"The usual rain keeps up with a wet seedbed in {', '.join(months)} here, though not every day."


def _hours_words(brief: Brief, book: Book, climate: Climate, zones: Sequence[Zone]) -> list[str]:
    """A caution when a day of seed watering does not fit into the lawful hours, with the share of the lawn that does."""
    law = law_of(brief.water)
    need = book.si("water.kc_wet_surface") * max(climate.et0_mm)
    minutes = sum(run_minutes(zone.exposure * need, zone.rate_mm_h, zone.uniformity) for zone in zones)
    if not zones or minutes <= law.open_min:
        return []
    return [
        f"A hot day of seed watering takes {minutes / 60:.1f} hours and {law.open_min / 60:.1f} are allowed: sow about "
        f"{law.open_min / minutes:.0%} of the lawn now and the rest later, or get a faster sprinkler."
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


def _watered_mm(runs: Sequence[WaterRun], area_m2: float) -> Mapping[date, tuple[float, float]]:
    """Depth of each day over the whole lawn: the mean that falls, and what the driest quarter gets."""
    found: dict[date, list[float]] = defaultdict(lambda: [0.0, 0.0])
    for run in runs:
        for day in run.days():
            found[day][0] += run.applied_mm * run.area_m2 / area_m2
            found[day][1] += run.depth_mm * run.area_m2 / area_m2
    return {day: (mean, least) for day, (mean, least) in found.items()}


def _totals(ground: Ground, watered: Mapping[date, tuple[float, float]], books: Sequence[DayBook]) -> Totals:
    request = ground.request
    staged = sum(mean for mean, _ in watered.values())
    mature = sum(book.watering_mm for book in books if book.mature)
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
                f"Watering falls due while nobody is there ({start} to {end}): set a timer or ask a neighbour."
            )
    for zone in request.zones:
        found += [f"{zone.name}: {line[0].lower()}{line[1:]}" for line in zone.advice]
        if not zone.measured:
            found.append(f"{zone.name}: run times rest on {zone.rate_reason}; set out catch cans to be sure.")
    return tuple(found)
