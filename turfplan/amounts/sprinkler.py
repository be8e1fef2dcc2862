"""How fast and how evenly a sprinkler wets the ground, from catch cans, from flow, or from the type of head."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from turfplan.agronomy import Book
from turfplan.brief import Water, WaterZone
from turfplan.errors import Problem, TurfplanError
from turfplan.irrigation import LITRES_IN_M3, MINUTES_IN_HOUR, Zone

MM_IN_M = 1000.0
SLOWEST_MM_H, FASTEST_MM_H = 1.0, 125.0  # the bounds of an application rate in a brief
FEWEST_CANS = 4  # below this there is no lowest quarter: a definition, not agronomy


@dataclass(frozen=True, slots=True)
class Audit:
    """What catch cans show: mean rate, low-quarter distribution uniformity, Christiansen's coefficient (both 0 to 1)."""

    cans: int
    rate_mm_h: float
    uniformity: float
    christiansen: float
    advice: tuple[str, ...]
    facts: tuple[str, ...] = ()


def low_quarter_uniformity(depths_mm: Sequence[float]) -> float:
    """Mean of the lowest quarter of the cans over the mean of all; a part of a can counts in part."""
    ordered = sorted(depths_mm)
    quarter = len(ordered) / 4
    whole = int(quarter)
    total = sum(ordered[:whole]) + (quarter - whole) * (ordered[whole] if quarter > whole else 0.0)
    return total / quarter / fmean(ordered)


def christiansen_uniformity(depths_mm: Sequence[float]) -> float:
    """Christiansen's coefficient: 1 less the mean deviation over the mean (California State University, Fresno, 1994)."""
    mean = fmean(depths_mm)
    return 1 - fmean(abs(depth - mean) for depth in depths_mm) / mean


def audit(cans_mm: Sequence[float], minutes: float, book: Book, where: str = "water.catch_cans") -> Audit:
    """Rate and evenness from the depths in equal cans after a run of `minutes`.

    Raises TurfplanError for fewer than four cans, for cans that are all empty, and for a run of no time.
    """
    faults = []
    if len(cans_mm) < FEWEST_CANS:
        faults.append(
            Problem(
                where,
                "too few cans to show how evenly the water falls",
                str(len(cans_mm)),
                f"{FEWEST_CANS} or more; {book.si('water.catch_cans_min'):.0f} for a full test",
                "set straight-sided cans evenly over the zone and run it again",
            )
        )
    if minutes <= 0:
        faults.append(Problem("water.catch_minutes", "must be more than 0", f"{minutes:g}"))
    if cans_mm and max(cans_mm) <= 0:
        faults.append(Problem(where, "every can is empty", None, None, "run the zone longer"))
    if faults:
        raise TurfplanError(faults)
    uniformity = low_quarter_uniformity(cans_mm)
    return Audit(
        len(cans_mm),
        fmean(cans_mm) * MINUTES_IN_HOUR / minutes,
        uniformity,
        max(0.0, christiansen_uniformity(cans_mm)),
        _advice(len(cans_mm), uniformity, book),
        ("water.catch_cans_min", "water.uniformity_good", "water.uniformity_poor"),
    )


def _advice(cans: int, uniformity: float, book: Book) -> tuple[str, ...]:
    good, poor = book.si("water.uniformity_good"), book.si("water.uniformity_poor")
    advice = []
    if cans < book.si("water.catch_cans_few"):
        advice.append(f"Only {cans} cans: treat the evenness as a rough guess and test again with more.")
    if uniformity < poor:
        advice.append(
            f"The driest quarter gets {uniformity:.0%} of the mean: mend the system before sowing. Look for a clogged or "
            "broken nozzle, a tilted or sunken head, mixed types of head on one valve, too much or too little pressure, "
            "and spacing wider than the throw."
        )
    elif uniformity < good:
        advice.append(
            f"The driest quarter gets {uniformity:.0%} of the mean: straighten heads, clean nozzles, and turn arcs so "
            "that each head reaches the next."
        )
    return tuple(advice)


def rate_from_flow_mm_h(flow_l_min: float, area_m2: float) -> float:
    """Mean rate of a flow spread over an area: a litre on a square metre is a millimetre."""
    return flow_l_min * MINUTES_IN_HOUR / area_m2


def rate_from_spacing_mm_h(flow_l_min: float, head_spacing_m: float, row_spacing_m: float) -> float:
    """Rate of full-circle heads on a grid: 96.25 gpm / (S x L) in inches an hour with feet, here in SI."""
    if head_spacing_m <= 0 or row_spacing_m <= 0:
        raise TurfplanError(
            Problem("water.spacing", "must be more than 0", f"{head_spacing_m:g} x {row_spacing_m:g} m")
        )
    return rate_from_flow_mm_h(flow_l_min, head_spacing_m * row_spacing_m)


def zones(water: Water, book: Book, area_m2: float) -> tuple[Zone, ...]:
    """The watering zones of a lawn, at least one, each with its best known rate.

    Best first: catch cans, a rate that is given, the flow of a head over its spacing, flow over the area, the type of
    head, an assumed hose sprinkler.
    Raises TurfplanError with every fault of the measurements.
    """
    if not water.zones:
        source = WaterZone.model_construct(
            name="lawn",
            area_m2=None,
            application_rate_mm_h=water.application_rate_mm_h,
            head=water.head,
            catch_cans_mm=water.catch_cans_mm,
            catch_minutes=water.catch_minutes,
            sun=None,
            head_flow_l_min=water.head_flow_l_min,
            head_spacing_mm=water.head_spacing_mm,
            row_spacing_mm=water.row_spacing_mm,
        )
        return (_zone(source, None, area_m2, water, book, "water"),)
    given = sum(zone.area_m2 or 0 for zone in water.zones)
    unsized = sum(1 for zone in water.zones if zone.area_m2 is None)
    rest = max(0.0, area_m2 - given) / unsized if unsized else 0.0
    faults: list[Problem] = []
    found: list[Zone] = []
    keys: set[str] = set()
    for number, zone in enumerate(water.zones, 1):
        where = f"water.zones.{number}"
        key = _key(zone.name, number)
        key = f"{key}-{number}" if key in keys else key
        keys.add(key)
        area = zone.area_m2 or rest
        if area <= 0:
            faults.append(
                Problem(f"{where}.area", "the other zones already cover the lawn", zone.name, None, "give its area")
            )
            continue
        try:
            found.append(_zone(zone, key, area, water, book, where))
        except TurfplanError as error:
            faults.extend(error.problems)
    if faults:
        raise TurfplanError(faults)
    return tuple(found)


def _key(name: str, number: int) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:20] or f"zone-{number}"


def _zone(source: WaterZone, key: str | None, area_m2: float, water: Water, book: Book, where: str) -> Zone:
    sun = source.sun or "full"
    exposure = book.si(f"water.exposure_{sun}")
    assumed = book.si("water.uniformity_assumed")
    minutes = source.catch_minutes or water.catch_minutes
    if source.catch_cans_mm and minutes:
        found = audit(source.catch_cans_mm, minutes, book, f"{where}.catch_cans")
        reason = f"{found.cans} catch cans: the driest quarter gets {found.uniformity:.0%} of the mean"
        evenness = max(found.uniformity, book.si("water.uniformity_floor"))
        facts = (*found.facts, "water.uniformity_floor")
        return Zone(key, source.name, area_m2, found.rate_mm_h, evenness, reason, True, exposure, found.advice, facts)
    rate, reason, facts = _rate(source, area_m2, water, book, where)
    return Zone(
        key, source.name, area_m2, rate, assumed, reason, False, exposure, (), (*facts, "water.uniformity_assumed")
    )


def _rate(
    source: WaterZone, area_m2: float, water: Water, book: Book, where: str
) -> tuple[float, str, tuple[str, ...]]:
    """Rate (mm/h), where it comes from, and the facts behind it, where no cans were set out."""
    given = source.application_rate_mm_h or water.application_rate_mm_h
    if given:
        return given, "the application rate in the brief", ()
    if source.head_flow_l_min or source.head_spacing_mm:
        rate = _spaced_rate(source, where)
        return rate, "the flow of a head over the spacing of heads", ()
    if water.flow_l_min:
        return rate_from_flow_mm_h(water.flow_l_min, area_m2), "the flow spread over the area", ()
    head = source.head or water.head
    name = f"water.rate_{head}" if head else "water.rate_assumed"
    words = (
        f"what a {head.replace('_', ' ')} usually gives" if head else "an assumed hose sprinkler: measure it with cans"
    )
    return book.si(name), words, (name,)


def _spaced_rate(source: WaterZone, where: str) -> float:
    """Rate from the flow of one full-circle head and the spacing of heads; rows as far apart as heads where not said."""
    flow, head, row = source.head_flow_l_min, source.head_spacing_mm, source.row_spacing_mm or source.head_spacing_mm
    if flow is None or head is None or row is None:
        missing = "head_flow" if flow is None else "head_spacing"
        raise TurfplanError(
            Problem(
                f"{where}.{missing}", "head_flow and head_spacing tell the rate together", "nothing", None, "give both"
            )
        )
    rate = rate_from_spacing_mm_h(flow, head / MM_IN_M, row / MM_IN_M)
    if not SLOWEST_MM_H <= rate <= FASTEST_MM_H:
        allowed = f"{SLOWEST_MM_H:g} to {FASTEST_MM_H:g} mm/h"
        hint = "the flow is that of one head, not of the whole line"
        raise TurfplanError(
            Problem(f"{where}.head_flow", "is out of any sensible range", f"{rate:.3g} mm/h", allowed, hint)
        )
    return rate


def water_cost(volume_l: float, price_per_m3: float) -> float:
    """What a volume of water costs at the user's price per cubic metre, in the user's money."""
    return volume_l / LITRES_IN_M3 * price_per_m3
