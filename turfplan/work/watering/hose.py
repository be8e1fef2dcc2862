"""Water by hose is work: one tap, a sprinkler set after set, and the hours somebody is at home."""

import math
from dataclasses import dataclass, replace
from datetime import date

from turfplan.book.entries import Book
from turfplan.calendar_days import daily
from turfplan.climate.record import Climate
from turfplan.message import Message, Number, Quantity
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName
from turfplan.records.brief import Water
from turfplan.work.watering.intake import Intake
from turfplan.work.watering.run_times import (
    MINUTES_IN_HOUR,
    Hose,
    WateringZone,
    rate_of_setting_mm_h,
)

# What is sown is told in twentieths of the lawn: nobody paces off a finer part.
PARTS = 20
FACTS: tuple[FactName, ...] = ("water.tap_flow", "water.hose_cover", "water.move_time")


def by_hand(water: Water) -> bool:
    """True where somebody has to open the water each time: no timer, nor valves that have one."""
    return not water.timer and (water.timer is False or not water.zones)


def _by_hose(water: Water) -> bool:
    """True where nothing but a hose is told of: no valves or heads, and no measured rate."""
    system = water.zones or water.catch_cans_mm or water.application_rate_mm_h
    heads = ("spray", "rotor", "rotary_nozzle", "drip")
    return not (system or water.head_flow_l_min or water.head in heads)


def hose_by_hand(water: Water) -> bool:
    """Whether all there is is a hose that somebody has to be there for."""
    return by_hand(water) and _by_hose(water)


def hose_hours(water: Water, book: Book) -> float:
    """The hours of a day in which somebody moves the hose: as told, else as the book assumes."""
    return water.hours_per_day or book.si("water.hose_hours") / MINUTES_IN_HOUR


def hours_assumed(water: Water, book: Book) -> Message | None:
    """What is said of the hours in which a hose is moved, where they count and nobody told them."""
    unsaid = water.hours_per_day is None and water.possible is not False
    if not (unsaid and hose_by_hand(water)):
        return None
    return phrases.hose_hours_assumed(hours=Number(hose_hours(water, book), "plain"))


def with_hose(zone: WateringZone, water: Water, book: Book) -> WateringZone:
    """The zone as one tap waters it, where a hose is all there is."""
    if not _by_hose(water):
        return zone
    flow = water.flow_l_min or book.si("water.tap_flow")
    cover = book.fact("water.hose_cover")
    told = phrases.rate_hose if water.flow_l_min else phrases.rate_hose_assumed
    hose = Hose(
        flow,
        cover.si,
        cover.low_si,
        book.si("water.move_time"),
        hose_hours(water, book) * MINUTES_IN_HOUR if by_hand(water) else None,
    )
    return replace(
        zone,
        rate_mm_h=rate_of_setting_mm_h(zone.area_m2, hose),
        rate_reason=told(flow=Quantity(flow, "flow")),
        hose=hose,
        facts=tuple(dict.fromkeys((*zone.facts, *FACTS))),
    )


def part_of(zone: WateringZone, share: float) -> WateringZone:
    """A part of a zone: a hose is set up in fewer places for it."""
    if share >= 1:
        return zone
    area = zone.area_m2 * share
    rate = zone.rate_mm_h if zone.hose is None else rate_of_setting_mm_h(area, zone.hose)
    return replace(zone, area_m2=area, rate_mm_h=rate)


@dataclass(frozen=True, slots=True)
class SeedbedDay:
    """What one day asks for that keeps seed wet: mm in so many runs, on ground that takes it in."""

    depth_mm: float
    runs: int
    intake: Intake

    def minutes(self, zone: WateringZone) -> float:
        """Minutes of the day from the first drop of each run to its last."""
        each = self.intake.run(zone.exposure * self.depth_mm / self.runs, zone)
        return self.runs * each.elapsed_min


def seedbed_day(book: Book, climate: Climate, intake: Intake, first: date, days: int) -> SeedbedDay:
    """What a day asks for through the `days` from the first on."""
    et0 = daily(climate.et0_mm, first, first.fromordinal(first.toordinal() + days))
    need = (
        book.si("water.seed_margin") * book.si("water.kc_wet_surface") * sum(et0) / max(1, len(et0))
    )
    most = round(book.fact("water.runs_a_day").high_si)
    runs = min(most, max(1, math.ceil(need / book.si("water.light_event") - 1e-9)))
    return SeedbedDay(need, runs, intake)


def kept_wet_share(zone: WateringZone, book: Book, day: SeedbedDay) -> float:
    """The share of a lawn, in twentieths, whose seed one hose keeps wet in the hours at home.

    0 where that is too little to be worth sowing.
    """
    if zone.hose is None or zone.hose.most_min is None:
        return 1.0
    least = math.ceil(book.si("water.hose_least_share") * PARTS - 1e-9)
    for parts in range(PARTS, least - 1, -1):
        if day.minutes(part_of(zone, parts / PARTS)) <= zone.hose.most_min:
            return parts / PARTS
    return 0.0
