"""How much nitrogen a season takes, in which feedings, and when none may or need be given."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.rules.blackouts import Blackout, blackouts_of, free_days
from turfplan.rules.compost import CompostCredit, compost_credit
from turfplan.rules.feeding_slots import (
    LATE_NITROGEN,
    SOWINGS,
    OpenWindow,
    Season,
    Skips,
    Slot,
    after_sowing,
    in_heat,
    late_policy,
    share_out,
    slots_of,
    sowing_of,
)
from turfplan.rules.mowing import low_cut_steps
from turfplan.rules.nitrogen_ledger import Demand, nitrogen_ledger
from turfplan.rules.nutrients import LimePlan, Nutrient, lime_plan, phosphorus_plan, potassium_plan, soil_test_notes
from turfplan.rules.product import product_cautions
from turfplan.units import System, read_as
from turfplan.wording import capital, day_text

__all__ = ["SOWINGS", "Demand", "Feed", "FeedingPlan", "feeding_plan", "low_cut_steps", "nitrogen_ledger"]

YEAR = 365
OTHER_NUTRIENTS = (
    "Iron greens grass without making it grow, and other nutrients are given only where a test or a pale, well-fed lawn asks "
    "for them: advice, not part of the plan."
)


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

    def potash_g_m2(self, key: str) -> float:
        """The potash that goes on with a feeding: half of the year's with each of the first two, nothing with others."""
        if self.potassium is None or key not in {feed.key for feed in sorted(self.feeds, key=lambda f: f.best)[:2]}:
            return 0.0
        return self.potassium.rate_g_m2 / 2


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
    # Longer than most functions: half of it only names the parts of the record.
    blackouts, cautions = blackouts_of(brief, book, system)
    season = Season(brief, book, climate, species_id, blackouts)
    budget, why = _budget(brief, book, species_id)
    credit = compost_credit(brief, book, compost_depth_mm) if compost_depth_mm > 0 else None
    sowing = sowing_of(campaign_windows, year_start, year_end)
    starter, starter_reason = _starter(season, seeded, compost_in_mix, sowing, (year_start, year_end), system)
    given = sum(n.rate_g_m2 for n in brief.history.nitrogen if 0 <= (year_start - n.on).days < YEAR)
    year = _Year(budget, given + (starter.rate_g_m2 if starter else 0.0), credit.g_m2 if credit else 0.0)
    fed_at_sowing = sowing if starter is not None or (seeded and compost_in_mix) else None
    skipped: Skips = []
    feeds = _feeds(
        season, campaign_windows, (year_start, year_end), year, fed_at_sowing, starter is not None, system, skipped
    )
    lime = lime_plan(brief, book, species_id, fresh_ground=seeded and brief.seeding.intent == "renovate")
    potassium = potassium_plan(brief, book, len(feeds))
    phosphorus = phosphorus_plan(brief, book, seeded=seeded, compost=compost_in_mix, today=year_start)
    cautions += _cautions(brief, book, species_id, blackouts, system)
    if brief.feeding.analysis is not None:
        cautions += _bag_cautions(season, feeds, starter, phosphorus, system)
    asked = soil_test_notes(lime, (potassium, phosphorus), system)
    if (brief.soil_test.phosphorus, brief.soil_test.potassium) != (None, None):
        # Lime has a task of its own.
        cautions += soil_test_notes(None, (potassium, phosphorus), system)
    counted = f"{read_as(given, 'rate', system).text} of nitrogen was given in the last year and counts."
    notes = (
        why,
        *([credit.reason(system)] if credit else []),
        *([counted] if given else []),
        *asked,
        OTHER_NUTRIENTS,
    )
    return FeedingPlan(
        starter=starter,
        starter_reason=starter_reason,
        feeds=tuple(_numbered(feeds)),
        skipped=tuple(dict.fromkeys(skipped)),
        lime=lime,
        potassium=potassium,
        phosphorus=phosphorus,
        cautions=tuple(dict.fromkeys(cautions)),
        notes=notes,
        budget_g_m2=budget,
        credit=credit,
        compost_feeds=compost_in_mix and seeded,
    )


def day_faults(brief: Brief, book: Book, climate: Climate, species_id: str, day: date, system: System) -> list[str]:
    """What speaks against feeding on a day that somebody chose by hand: a blackout, heat, or grass at rest, each with its source."""
    blackouts, _ = blackouts_of(brief, book, system)
    season = Season(brief, book, climate, species_id, blackouts)
    found = [f"{b.words} ({b.source})" for b in blackouts if b.holds(day)]
    mark = in_heat(season, day)
    if mark is not None:
        usual, where = read_as(climate.air_c(day), "temperature", system).text, book.said_by(book.fact(mark).source)
        found.append(f"cool-season grass burns in summer heat, and the usual mean of that day is {usual} ({where})")
    rest = book.fact("water.dormant_growth")
    if climate.growth_potential(day, season.kind) < rest.si:
        found.append(f"grass hardly grows then and cannot use it ({book.said_by(rest.source)})")
    return found


@dataclass(frozen=True, slots=True)
class _Year:
    """Nitrogen of a year, g/m2: the budget, what is spent of the first year's, and what compost gives in it."""

    budget_g_m2: float
    spent_g_m2: float
    credit_g_m2: float


def _feeds(
    season: Season,
    windows: Sequence[OpenWindow],
    span: tuple[date, date],
    year: _Year,
    sowing: OpenWindow | None,
    starter: bool,
    system: System,
    skipped: Skips,
) -> list[Feed]:
    """The feedings of each year of the plan; `sowing` is set where starter or compost feeds the seedlings."""
    found: list[Feed] = []
    for first, last in _years(*span):
        open_windows = [w for w in windows if w.operation == "feed_nitrogen" and first <= w.best <= last]
        slots = slots_of(season, open_windows, first, last, skipped)
        slots = after_sowing(slots, sowing, starter, season.gap_days, skipped)
        new = first == span[0]
        left = min(year.budget_g_m2 - (year.spent_g_m2 if new else 0.0), sum(s.cap_g_m2 for s in slots))
        # Compost lowers what would have been given, also where the limits hold that below the budget.
        left -= year.credit_g_m2 if new else 0.0
        shares = share_out(season.book, slots, left, system, skipped)
        found += [_feed(season, slot, rate, year.budget_g_m2, system) for slot, rate in shares]
    return found


def _budget(brief: Brief, book: Book, species_id: str) -> tuple[float, str]:
    """The year's nitrogen (g/m2): within the species' range by condition, less what returned clippings give."""
    fact = book.fact(f"species.{species_id}.nitrogen_year")
    condition = brief.lawn.condition or "thin"
    share = book.si(f"feeding.budget_share_{condition}")
    budget = fact.low_si + share * (fact.high_si - fact.low_si)
    words = f"A {condition} stand of {book.species[species_id].name} takes {share:.0%} of the way up its yearly range of nitrogen"
    if brief.feeding.clippings == "removed":
        return budget, f"{words}; clippings are taken away, so nothing comes back."
    credit = book.si("feeding.clippings_credit")
    said = "" if brief.feeding.clippings else " (assumed)"
    return max(fact.low_si, budget * (1 - credit)), f"{words}; clippings left lying{said} give back about {credit:.0%}."


def _years(start: date, end: date) -> list[tuple[date, date]]:
    """The plan's days cut into years from its first day."""
    count = max(1, ceil(((end - start).days + 1) / YEAR))
    firsts = [start + timedelta(YEAR * n) for n in range(count)]
    return [(first, min(end, first + timedelta(YEAR - 1))) for first in firsts]


def planted_words(book: Book, system: System) -> str:
    """What plugs, sprigs or sod are fed with, and when."""
    rate, source = book.fact("feeding.plants_rate"), book.said_by(book.fact("feeding.plants_rate").source)
    return (
        "Plugs, sprigs and sod bring roots of their own: no starter goes in with them. Once they hold against a pull, "
        f"{read_as(rate.si, 'rate', system).text} of nitrogen makes them spread ({source}), unless a feeding was given within the month "
        "or the law closes those days."
    )


def _starter(
    season: Season,
    seeded: bool,
    compost_in_mix: bool,
    sowing: OpenWindow | None,
    year: tuple[date, date],
    system: System,
) -> tuple[Feed | None, str]:
    if season.brief.seeding.intent == "plant":
        return None, planted_words(season.book, system)
    if not seeded:
        return None, "Nothing is sown: no starter is needed."
    if compost_in_mix:
        why = "The top-dressing mix holds compost, which feeds the seedlings: no starter fertilizer is used (common practice)."
        return None, why
    if season.brief.seeding.intent == "dormant":
        return None, "Dormant seed takes up nothing before spring: no starter now."
    start, end, best = (sowing.start, sowing.end, sowing.best) if sowing else (*year, year[0])
    free = free_days(start, end, season.blackouts)
    if not free:
        return None, f"A starter would fall into the blackout ({season.blackouts[0].words}): none is given."
    why = (
        "Seed without compost gets a starter, once, with the seed: nitrogen for the seedlings, phosphorus only where test "
        "and law allow."
    )
    first, last = min(free, key=lambda span: max((span[0] - best).days, (best - span[1]).days, 0))
    day = min(max(best, first), last)
    rate = min(season.book.si("feeding.starter_rate"), *(b.cap_g_m2 for b in season.blackouts if b.cap_g_m2), 1e9)
    return Feed("starter", sowing.season if sowing else "", rate, first, last, day, why, ("feeding.starter_rate",)), why


def _feed(season: Season, slot: Slot, rate_g_m2: float, budget_g_m2: float, system: System) -> Feed:
    rate, budget, cap = (read_as(x, "rate", system).text for x in (rate_g_m2, budget_g_m2, slot.cap_g_m2))
    why = (
        f"{rate} of nitrogen of the season's {budget}, shared out by how strongly grass grows then ({slot.weight:.0%} of its "
        f"best), never more than {cap} at once."
    )
    if slot.key == "late":
        why = f"{why} {LATE_NITROGEN} {late_policy(season)[1]}"
    facts = (
        f"species.{season.species_id}.nitrogen_year",
        "feeding.single_max",
        "feeding.least_gap",
        "feeding.clippings_credit",
    )
    return Feed(slot.key, slot.window.season, rate_g_m2, slot.start, slot.end, slot.best, why, facts)


def _bag_cautions(
    season: Season, feeds: Sequence[Feed], starter: Feed | None, phosphorus: Nutrient | None, system: System
) -> list[str]:
    """What the bag in the brief brings along, judged at the largest feeding. Raises TurfplanError for an impossible bag."""
    given = [feed.rate_g_m2 for feed in (*feeds, *([starter] if starter else []))]
    soluble = [b.soluble_g_m2 for b in season.blackouts if b.soluble_g_m2 is not None]
    return list(
        product_cautions(
            max(given, default=0.0),
            season.brief.feeding.analysis or "",
            season.book,
            phosphate_wanted_g_m2=phosphorus.rate_g_m2 if phosphorus else 0.0,
            slow_release_percent=season.brief.feeding.slow_release_percent,
            soluble_cap_g_m2=min(soluble, default=None),
            system=system,
        )
    )


def _numbered(feeds: Sequence[Feed]) -> list[Feed]:
    """Keys made unique in order of time: autumn, autumn2."""
    seen: dict[str, int] = {}
    found = []
    for feed in sorted(feeds, key=lambda f: f.best):
        seen[feed.key] = seen.get(feed.key, 0) + 1
        found.append(feed if seen[feed.key] == 1 else replace(feed, key=f"{feed.key}{seen[feed.key]}"))
    return found


def _cautions(brief: Brief, book: Book, species_id: str, blackouts: Sequence[Blackout], system: System) -> list[str]:
    """What is said about nitrogen that was given: too much at once or in a year, or in a blackout."""
    found, given = [], brief.history.nitrogen
    most, high = book.fact("feeding.single_max"), book.fact(f"species.{species_id}.nitrogen_year")
    for use in given:
        if use.rate_g_m2 > most.high_si + 1e-9:
            found.append(
                f"The nitrogen of {day_text(use.on, system)} was more than grass takes at once ({book.said_by(most.source)}): the rest burns or leaches."
            )
        found += [
            f"The nitrogen of {day_text(use.on, system)} fell on days closed to it: {b.words}."
            for b in blackouts
            if b.holds(use.on)
        ]
    own = brief.local.fertilizer_setback_mm
    if own is not None:
        found.append(f"Keep fertilizer {read_as(own, 'distance', system).text} from open water, as the brief says.")
    elif brief.site.water_body:
        usual = book.fact("feeding.water_setback")
        setback = read_as(usual.si, "distance", system).text
        found.append(
            f"Keep fertilizer {setback} from open water ({book.said_by(usual.source)}), and compost well away from it; the "
            "distance is set locally: ask, and write it into the brief, among the local rules."
        )
    years = [sum(n.rate_g_m2 for n in given if 0 <= (use.on - n.on).days < YEAR) for use in given]
    if years and max(years) > high.high_si + 1e-9:
        found.append(
            f"{capital(book.species[species_id].name)} got more than its yearly range of nitrogen ({book.said_by(high.source)}): give none until it is used up."
        )
    return found
