"""Whether a lawn can be watered as its work asks, and the waterings and the water account of a dated season."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.irrigation import LITRES_IN_M3, litres
from turfplan.plan import Ledger
from turfplan.rules.mowing import low_cut_steps, mowing_interval_days
from turfplan.rules.water_ledger import DayBook, account, ledger_of, mature_notes
from turfplan.rules.watering_hours import law_of
from turfplan.rules.watering_replan import settle_with, skip_for_rain
from turfplan.rules.watering_request import Ground, KnownSeries, WateringRequest, WeatherDay, ground_of
from turfplan.rules.watering_series import WaterRun, season_runs, series_days
from turfplan.rules.watering_stages import Stage, stages

__all__ = [
    "KnownSeries",
    "Totals",
    "Verdict",
    "WaterRun",
    "WateringPlan",
    "WateringRequest",
    "WeatherDay",
    "low_cut_steps",
    "mowing_interval_days",
    "season_watering",
    "series_days",
    "watering_verdict",
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


def watering_verdict(brief: Brief, book: Book, climate: Climate, species_id: str) -> Verdict:
    """Can seed of this species be kept moist under the brief's water and law? Asked before any day is chosen."""
    law = law_of(brief.water)
    species = book.species[species_id]
    name = species.name.lower()
    reasons: list[str] = []
    cautions: list[str] = []
    days = round(species.germination.high_si)
    tender = days + round(book.si("setting.seedling_growth_days"))
    gap, most = law.longest_gap_days(), round(book.si("water.germination_gap"))
    if brief.water.possible is False:
        reasons.append(f"The lawn cannot be watered: seed of {name} that is wetted and dries out is dead.")
    if brief.water.possible is None:
        cautions.append(
            f"Nobody said whether the lawn can be watered: {tender} days of daily water are counted on once it is sown."
        )
    short = law.restricts_days and gap > most
    if short and not brief.water.permit:
        reasons.append(
            f"The law leaves up to {gap} days between waterings and seed of {name} must stay moist every day for up to {days} "
            "days: get an establishment permit, sow dormant, or sow in the season when rain does it."
        )
    if short and brief.water.permit:
        cautions.append(
            f"Sow only with the permit in hand, and see that it runs for {tender} days: one that ends before the grass is up "
            "(look after germination) leaves the seed to dry."
        )
    for span in brief.calendar.away:
        cautions.append(f"Nobody is there from {span.start} to {span.end}: new seed then needs a timer or a neighbour.")
    closed = tuple((span.start - timedelta(tender), span.end) for span in brief.water.banned)
    for (first, last), span in zip(closed, brief.water.banned, strict=True):
        cautions.append(
            f"Watering is banned from {span.start} to {span.end}: nothing is sown from {first} to {last}, since seedlings need "
            f"{tender} days of water."
        )
    facts = ("water.germination_gap", f"species.{species_id}.germination", "setting.seedling_growth_days")
    return Verdict(not reasons, tuple(reasons), short, tuple(cautions), closed, facts)


@dataclass(frozen=True, slots=True)
class Totals:
    """Water of the season as planned: for the stages, for mature grass after them, and the price where one was given."""

    stages_mm: float
    mature_mm: float
    volume_l: float
    cost: float | None


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
    watered = _watered_mm(runs, request.area_m2)
    books = account(ground, plan, watered)
    totals = _totals(ground, watered, books)
    notes = (*_stage_notes(request, plan), *mature_notes(ground, books))
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


def _own_cautions(ground: Ground, runs: Sequence[WaterRun]) -> tuple[str, ...]:
    request, found = ground.request, []
    for start, end in request.away:
        stages_hit = sorted({run.stage for run in runs if any(start <= day <= end for day in run.days())})
        if stages_hit:
            found.append(
                f"Watering falls due while nobody is there ({start} to {end}): set a timer or ask a neighbour."
            )
    poor = request.book.si("water.uniformity_poor")
    for zone in request.zones:
        if zone.measured and zone.uniformity < poor:
            found.append(f"{zone.name}: water falls too unevenly to raise seed; mend the heads before sowing.")
        if not zone.measured:
            found.append(f"{zone.name}: run times rest on {zone.rate_reason}; set out catch cans to be sure.")
    return tuple(found)
