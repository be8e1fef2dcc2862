"""Whether seed or plants can be kept moist here, asked before any day is chosen."""

from calendar import month_name
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.irrigation import Zone, run_minutes
from turfplan.rules.setting import units_of
from turfplan.rules.water_balance import month_totals
from turfplan.rules.watering_hours import law_of
from turfplan.wording import days_text


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether seed or plants can be kept moist here. `closed` are days on which sowing would meet a watering ban."""

    ok: bool
    reasons: tuple[str, ...]
    needs_permit: bool
    cautions: tuple[str, ...]
    closed: tuple[tuple[date, date], ...] = ()
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Young:
    """What has to be kept moist: its words, days until it is up or rooted, days of daily water in all."""

    words: str
    done: str
    dies: str
    days: int
    tender_days: int
    facts: tuple[str, ...]


def watering_verdict(
    brief: Brief, book: Book, climate: Climate, species_id: str, zones: Sequence[Zone] = ()
) -> Verdict:
    """Can seed (or plants) of this species be kept moist under the brief's water and law?

    With `zones` the verdict also says when the lawful hours of a day are too short for the whole lawn.
    """
    young = _young(brief, book, species_id)
    law, water = law_of(brief.water), brief.water
    gap, most = law.longest_gap_days(), round(book.si("water.germination_gap"))
    short = law.restricts_days and gap > most
    reasons: list[str] = []
    if water.possible is False:
        reasons.append(f"The lawn cannot be watered: {young.dies} {_rain_words(climate, book)}")
    if short and not water.permit:
        reasons.append(
            f"The law leaves up to {gap} days between waterings and {young.words} must stay moist every day for up to "
            f"{young.days} days: get an establishment permit, sow dormant, or change the season. {_rain_words(climate, book)}"
        )
    cautions = _cautions(brief, young, permitted=short and water.permit)
    cautions += _hours_words(brief, book, climate, zones)
    closed = tuple((span.start - timedelta(young.tender_days), span.end) for span in water.banned)
    for (first, last), span in zip(closed, water.banned, strict=True):
        cautions.append(
            f"Watering is banned {_from(span.start, span.end, brief)}: nothing is sown or planted {_from(first, last, brief)}, since "
            f"young grass needs {young.tender_days} days of water."
        )
    return Verdict(not reasons, tuple(reasons), short, tuple(cautions), closed, ("water.germination_gap", *young.facts))


def _young(brief: Brief, book: Book, species_id: str) -> _Young:
    name, up = book.species[species_id].name, f"species.{species_id}.germination_days"
    if brief.seeding.intent == "plant" or up not in book.facts:
        days = round(book.fact("water.rooting_days").high_si)
        dies = f"new plants of {name} that dry out before they root are dead."
        return _Young(f"new plants of {name}", "have rooted", dies, days, days, ("water.rooting_days",))
    days, grown = round(book.fact(up).high_si), "setting.seedling_growth_days"
    dies = f"seed of {name} that is wetted and dries out is dead."
    return _Young(f"seed of {name}", "is up", dies, days, days + round(book.si(grown)), (up, grown))


def _cautions(brief: Brief, young: _Young, *, permitted: bool) -> list[str]:
    found = []
    if brief.water.possible is None:
        found.append(
            f"Nobody said whether the lawn can be watered: {young.tender_days} days of daily water are counted on for "
            f"{young.words}."
        )
    if permitted:
        found.append(
            f"Begin only with the permit in hand, and see that it runs for {young.tender_days} days: one that ends before "
            f"the grass {young.done} leaves it to dry."
        )
    for span in brief.calendar.away:
        found.append(
            f"Nobody is there {_from(span.start, span.end, brief)}: {young.words} then needs a timer or a neighbour."
        )
    return found


def _from(first: date, last: date, brief: Brief) -> str:
    """From one day to another, as the reader of the brief says them."""
    return f"from {days_text(first, last, units_of(brief), weekday=False)}"


def _rain_words(climate: Climate, book: Book) -> str:
    """The months in which usual rain outdoes what a wet surface loses while grass is not frozen, in a sentence."""
    wet, least = book.si("water.kc_wet_surface"), book.si("water.dormant_growth")
    rains, losses = month_totals(climate.rain_mm), month_totals(climate.et0_mm)
    growth = [max(climate.growth_potential(date(2027, m, d), "cool") for d in (1, 15, 28)) for m in range(1, 13)]
    months = [
        month_name[number]
        for number, (rain, et0, grows) in enumerate(zip(rains, losses, growth, strict=True), 1)
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
