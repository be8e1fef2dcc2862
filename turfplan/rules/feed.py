"""How much nitrogen a season takes, in which feedings, and when none may or need be given."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil
from typing import Protocol

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.rules.blackouts import Blackout, blackouts_of, free_days
from turfplan.rules.compost import CompostCredit, compost_credit
from turfplan.rules.mowing import low_cut_steps
from turfplan.rules.nitrogen_ledger import Demand, nitrogen_ledger
from turfplan.rules.nutrients import LimePlan, Nutrient, lime_plan, phosphorus_plan, potassium_plan
from turfplan.units import System, read_as

__all__ = ["Demand", "Feed", "FeedingPlan", "feeding_plan", "low_cut_steps", "nitrogen_ledger"]

SOWINGS = ("seed", "overseed", "dormant_seed", "plant")
YEAR = 365


class OpenWindow(Protocol):
    """Days on which an operation is open."""

    @property
    def operation(self) -> str: ...
    @property
    def season(self) -> str: ...
    @property
    def start(self) -> date: ...
    @property
    def end(self) -> date: ...
    @property
    def best(self) -> date: ...


@dataclass(frozen=True, slots=True)
class Feed:
    """One feeding: rate of nitrogen, its window and best day, and why."""

    key: str
    season: str
    rate_g_m2: float
    start: date
    end: date
    best: date
    reason: str
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FeedingPlan:
    """The feedings of a season, what was left out and why, and what the soil test asks for beside nitrogen.

    `compost_feeds` is true where compost in the mix takes the place of a starter. `budget_g_m2` is the year's nitrogen
    before `credit` (compost) and what was given already.
    """

    starter: Feed | None
    starter_reason: str
    feeds: tuple[Feed, ...]
    skipped: tuple[tuple[str, str], ...]
    lime: LimePlan | None
    potassium: Nutrient | None
    phosphorus: Nutrient | None
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    budget_g_m2: float
    credit: CompostCredit | None
    compost_feeds: bool


@dataclass(frozen=True, slots=True)
class _Slot:
    """A day on which a feeding could be given."""

    key: str
    window: OpenWindow
    start: date
    end: date
    best: date
    weight: float
    cap_g_m2: float


def feeding_plan(
    brief: Brief,
    book: Book,
    climate: Climate,
    species_id: str,
    *,
    seeded: bool,
    compost_depth_mm: float,
    compost_in_mix: bool,
    campaign_windows: Sequence[OpenWindow],
    year_start: date,
    year_end: date,
    soil: str = "loam",
    system: System = System.US,
) -> FeedingPlan:
    """Nitrogen of a season and what goes with it.

    `campaign_windows` are the open windows of every operation; those of `feed_nitrogen` take feedings. `compost_depth_mm`
    is compost alone, settled, of all passes. `seeded`: seed (not plants) is sown this season.
    """
    season = book.species[species_id].season
    blackouts, cautions = blackouts_of(brief, book)
    budget, why = _budget(brief, book, species_id)
    credit = compost_credit(brief, book, compost_depth_mm) if compost_depth_mm > 0 else None
    given = sum(n.rate_g_m2 for n in brief.history.nitrogen if 0 <= (year_start - n.on).days < YEAR)
    notes = [why, *([credit.reason(system)] if credit else [])]
    starter, starter_reason = _starter(
        brief, book, seeded, compost_in_mix, campaign_windows, blackouts, year_start, year_end
    )
    feeds: list[Feed] = []
    skipped: list[tuple[str, str]] = []
    for number in range(max(1, ceil(((year_end - year_start).days + 1) / YEAR))):
        first = year_start + timedelta(YEAR * number)
        last = min(year_end, first + timedelta(YEAR - 1))
        left = budget
        if number == 0:
            left -= given + (credit.g_m2 if credit else 0.0) + (starter.rate_g_m2 if starter else 0.0)
        windows = [w for w in campaign_windows if w.operation == "feed_nitrogen" and first <= w.best <= last]
        slots = _slots(brief, book, climate, species_id, season, windows, blackouts, (first, last), skipped)
        slots = _after_starter(slots, starter, round(book.si("feeding.least_gap")), skipped)
        feeds += _share_out(book, slots, left, budget, system, skipped)
    if given:
        notes.append(f"{read_as(given, 'rate', system).text} of nitrogen was given in the last year and counts.")
    cautions.extend(_cautions(book, species_id, budget))
    return FeedingPlan(
        starter,
        starter_reason,
        tuple(_numbered(feeds)),
        tuple(dict.fromkeys(skipped)),
        lime_plan(brief, book, species_id, fresh_ground=seeded and brief.seeding.intent == "renovate"),
        potassium_plan(brief, book),
        phosphorus_plan(brief, book, seeded=seeded, compost=compost_in_mix, today=year_start),
        tuple(dict.fromkeys(cautions)),
        tuple(notes),
        budget,
        credit,
        compost_in_mix and seeded,
    )


def _budget(brief: Brief, book: Book, species_id: str) -> tuple[float, str]:
    """The year's nitrogen (g/m2): within the species' range by condition, less what returned clippings give."""
    fact = book.fact(f"species.{species_id}.nitrogen_year")
    condition = brief.lawn.condition or "thin"
    share = book.si(f"feeding.budget_share_{condition}")
    budget = fact.low_si + share * (fact.high_si - fact.low_si)
    words = f"A {condition} stand of {book.species[species_id].name.lower()} takes {share:.0%} of the way up its yearly range of nitrogen"
    if brief.feeding.clippings == "removed":
        return budget, f"{words}; clippings are taken away, so nothing comes back."
    credit = book.si("feeding.clippings_credit")
    said = "" if brief.feeding.clippings else " (assumed)"
    return max(fact.low_si, budget * (1 - credit)), f"{words}; clippings left lying{said} give back about {credit:.0%}."


def _starter(
    brief: Brief,
    book: Book,
    seeded: bool,
    compost_in_mix: bool,
    windows: Sequence[OpenWindow],
    blackouts: Sequence[Blackout],
    year_start: date,
    year_end: date,
) -> tuple[Feed | None, str]:
    if not seeded:
        return None, "Nothing is sown: no starter is needed."
    if compost_in_mix:
        return (
            None,
            "The top-dressing mix holds compost, which feeds the seedlings: no starter fertilizer is used (common practice).",
        )
    if brief.seeding.intent == "dormant":
        return None, "Dormant seed takes up nothing before spring: no starter now."
    sowing = next((w for w in windows if w.operation in SOWINGS and year_start <= w.best <= year_end), None)
    start, end, best = (sowing.start, sowing.end, sowing.best) if sowing else (year_start, year_end, year_start)
    free = free_days(start, end, blackouts)
    if not free:
        return None, f"A starter would fall into the blackout ({blackouts[0].words}): none is given."
    rate = book.si("feeding.starter_rate")
    why = "Seed without compost gets a starter, once, with the seed: nitrogen for the seedlings, phosphorus only where test and law allow."
    inside = min(
        free,
        key=lambda span: (
            0 if span[0] <= best <= span[1] else min(abs((span[0] - best).days), abs((span[1] - best).days))
        ),
    )
    day = min(max(best, inside[0]), inside[1])
    season = sowing.season if sowing else "autumn"
    return Feed("starter", season, rate, inside[0], inside[1], day, why, ("feeding.starter_rate",)), why


def _slots(
    brief: Brief,
    book: Book,
    climate: Climate,
    species_id: str,
    season: str,
    windows: Sequence[OpenWindow],
    blackouts: Sequence[Blackout],
    year: tuple[date, date],
    skipped: list[tuple[str, str]],
) -> list[_Slot]:
    """The days that could take a feeding, at least a gap apart, with growth as their weight."""
    gap, cap = (
        round(book.si("feeding.least_gap")),
        min([book.si("feeding.single_max"), *(b.cap_g_m2 for b in blackouts if b.cap_g_m2)]),
    )
    slots: list[_Slot] = []
    for window in sorted(windows, key=lambda w: w.start):
        reason = _closed(brief, book, species_id, season, window)
        if reason:
            skipped.append((window.season, reason))
            continue
        spans = free_days(max(window.start, year[0]), min(window.end, year[1]), blackouts)
        if not spans:
            skipped.append(
                (window.season, f"The whole window lies in a blackout: {', '.join(b.words for b in blackouts)}.")
            )
        for start, end in spans:
            days = _spaced(start, end, window.best, gap)
            for first, last, day in _around(days, start, end, round(book.si("feeding.tolerance"))):
                weight = climate.growth_potential(day, season)
                late = (
                    season == "cool"
                    and window.season in ("autumn", "winter")
                    and weight < book.si("feeding.late_growth")
                )
                if late and not brief.local.late_nitrogen:
                    skipped.append(("late", _late_words(brief)))
                    continue
                part = (
                    book.si(f"feeding.cap_{season}_{window.season}")
                    if f"feeding.cap_{season}_{window.season}" in book.facts
                    else cap
                )
                slots.append(
                    _Slot(
                        "late" if late else window.season, window, first, last, day, max(weight, 0.05), min(cap, part)
                    )
                )
    return slots


def _after_starter(
    slots: Sequence[_Slot], starter: Feed | None, gap: int, skipped: list[tuple[str, str]]
) -> list[_Slot]:
    """The slots that are not within a gap of the starter, which already feeds then."""
    if starter is None:
        return list(slots)
    near = [s for s in slots if starter.start - timedelta(gap) < s.best < starter.end + timedelta(gap)]
    skipped += [(slot.key, "The starter feeds the lawn at that time.") for slot in near]
    return [slot for slot in slots if slot not in near]


def _late_words(brief: Brief) -> str:
    said = (
        "the brief leaves it out"
        if brief.local.late_nitrogen is False
        else "states differ, and the default is to leave it out"
    )
    return (
        "Nitrogen after growth has slowed: greens the lawn early next spring and thickens it, but more of it can leach or run off; "
        f"{said} (local.late_nitrogen)."
    )


def _spaced(start: date, end: date, best: date, gap: int) -> list[date]:
    """The best day and the days a gap before and after it, as far as the span reaches."""
    middle = min(max(best, start), end)
    before = [middle - timedelta(gap * n) for n in range((middle - start).days // gap, 0, -1)]
    after = [middle + timedelta(gap * n) for n in range(1, (end - middle).days // gap + 1)]
    return [*before, middle, *after]


def _around(days: Sequence[date], start: date, end: date, tolerance: int) -> list[tuple[date, date, date]]:
    """First, last and best day of each feeding: the whole span for one alone, else a few days around each."""
    if len(days) == 1:
        return [(start, end, days[0])]
    step = timedelta(tolerance)
    return [(max(start, day - step), min(end, day + step), day) for day in days]


def _closed(brief: Brief, book: Book, species_id: str, season: str, window: OpenWindow) -> str | None:
    if season == "cool" and window.season == "summer":
        return "No nitrogen on cool-season grass in summer heat: it burns and feeds disease."
    if species_id == "centipede" and window.season == "spring":
        return "Centipede takes no nitrogen in spring (North Carolina State)."
    return None


def _share_out(
    book: Book,
    slots: Sequence[_Slot],
    left_g_m2: float,
    budget_g_m2: float,
    system: System,
    skipped: list[tuple[str, str]],
) -> list[Feed]:
    """The nitrogen that is left, on as few slots as its limits allow, by growth; what fits in none is left out."""
    least = book.si("feeding.least_rate")
    if left_g_m2 < least:
        skipped += [
            (slot.key, "What was given and what compost gives already cover the season's nitrogen.") for slot in slots
        ]
        return []
    chosen: list[_Slot] = []
    for slot in sorted(slots, key=lambda s: (-s.weight, s.best)):
        if sum(s.cap_g_m2 for s in chosen) < left_g_m2 - 1e-9:
            chosen.append(slot)
    chosen.sort(key=lambda s: s.best)
    rates = _water_fill([s.weight for s in chosen], [s.cap_g_m2 for s in chosen], left_g_m2)
    facts = ("feeding.single_max", "feeding.least_gap", "feeding.clippings_credit")
    feeds = []
    for slot, rate in zip(chosen, rates, strict=True):
        if rate < least:
            skipped.append((slot.key, f"Less than {read_as(least, 'rate', system).text} would be left for it."))
            continue
        why = (
            f"{read_as(rate, 'rate', system).text} of nitrogen of the season's {read_as(budget_g_m2, 'rate', system).text}, shared out by how "
            f"strongly grass grows then ({slot.weight:.0%} of its best), never more than {read_as(slot.cap_g_m2, 'rate', system).text} at once."
        )
        feeds.append(Feed(slot.key, slot.window.season, rate, slot.start, slot.end, slot.best, why, facts))
    return feeds


def _water_fill(weights: Sequence[float], caps: Sequence[float], total: float) -> list[float]:
    """Parts of a total in the proportion of their weights, none above its cap; what does not fit is left."""
    rates = [0.0] * len(weights)
    open_parts = set(range(len(weights)))
    left = total
    while open_parts and left > 1e-9:
        weight = sum(weights[i] for i in open_parts)
        wished = {i: left * weights[i] / weight for i in open_parts}
        full = {i for i in open_parts if rates[i] + wished[i] >= caps[i] - 1e-12}
        if not full:
            for i in open_parts:
                rates[i] += wished[i]
            break
        for i in full:
            left -= caps[i] - rates[i]
            rates[i] = caps[i]
        open_parts -= full
    return rates


def _numbered(feeds: Sequence[Feed]) -> list[Feed]:
    """Keys made unique in order of time: autumn, autumn2."""
    seen: dict[str, int] = {}
    found = []
    for feed in sorted(feeds, key=lambda f: f.best):
        seen[feed.key] = seen.get(feed.key, 0) + 1
        found.append(feed if seen[feed.key] == 1 else replace(feed, key=f"{feed.key}{seen[feed.key]}"))
    return found


def _cautions(book: Book, species_id: str, budget_g_m2: float) -> list[str]:
    high = book.fact(f"species.{species_id}.nitrogen_year").high_si
    if budget_g_m2 > high + 1e-9:
        return [f"The nitrogen planned is more than {book.species[species_id].name} should get."]
    return []
