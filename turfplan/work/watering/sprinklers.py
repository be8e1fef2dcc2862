"""How fast and how evenly a sprinkler wets the ground: by catch cans, by flow, by its type."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from statistics import fmean
from types import MappingProxyType

from turfplan.book.entries import Book
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message, Number, as_written
from turfplan.phrases import brief
from turfplan.phrases import brief_check as faulty
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName, of_family
from turfplan.records.brief import Water, WaterZone
from turfplan.work.watering.hose import with_hose
from turfplan.work.watering.run_times import MINUTES_IN_HOUR, WateringZone

MM_IN_M = 1000.0
SLOWEST_MM_H, FASTEST_MM_H = 1.0, 125.0  # the bounds of an application rate in a brief
FEWEST_CANS = 4  # below this there is no lowest quarter: a definition, not agronomy

# Where a rate comes from that only the type of head tells.
HEADS: Mapping[str, Message] = MappingProxyType(
    {
        "spray": phrases.rate_spray(),
        "rotor": phrases.rate_rotor(),
        "rotary_nozzle": phrases.rate_rotary_nozzle(),
        "impact": phrases.rate_impact(),
        "oscillating": phrases.rate_oscillating(),
        "drip": phrases.rate_drip(),
    }
)


@dataclass(frozen=True, slots=True)
class CatchCanAudit:
    """What catch cans show: mean rate, and how even it is by two measures, both 0 to 1.

    `uniformity` is the low-quarter distribution uniformity, `christiansen` Christiansen's
    coefficient.
    """

    cans: int
    rate_mm_h: float
    uniformity: float
    christiansen: float
    advice: tuple[Message, ...]
    facts: tuple[FactName, ...] = ()


def low_quarter_uniformity(depths_mm: Sequence[float]) -> float:
    """Mean of the lowest quarter of the cans over the mean of all.

    A part of a can counts in part.
    """
    ordered = sorted(depths_mm)
    quarter = len(ordered) / 4
    whole = int(quarter)
    total = sum(ordered[:whole]) + (quarter - whole) * (ordered[whole] if quarter > whole else 0.0)
    return total / quarter / fmean(ordered)


def christiansen_uniformity(depths_mm: Sequence[float]) -> float:
    """Christiansen's coefficient: 1 less the mean deviation over the mean.

    California State University, Fresno, 1994.
    """
    mean = fmean(depths_mm)
    return 1 - fmean(abs(depth - mean) for depth in depths_mm) / mean


def audit(
    cans_mm: Sequence[float], minutes: float, book: Book, where: str = "water.catch_cans"
) -> CatchCanAudit:
    """Rate and evenness from the depths in equal cans after a run of `minutes`.

    Raises TurfplanError for fewer than four cans, for cans that are all empty, and for a run of no
    time.
    """
    faults = []
    if len(cans_mm) < FEWEST_CANS:
        faults.append(
            Problem(
                where,
                faulty.few_cans(),
                str(len(cans_mm)),
                faulty.cans_or_more(
                    least=FEWEST_CANS, full=Number(book.si("water.catch_cans_min"))
                ),
                faulty.set_cans(),
            )
        )
    if minutes <= 0:
        faults.append(Problem("water.catch_minutes", faulty.above_zero(), f"{minutes:g}"))
    if cans_mm and max(cans_mm) <= 0:
        faults.append(Problem(where, faulty.empty_cans(), None, None, faulty.run_longer()))
    if faults:
        raise TurfplanError(faults)
    uniformity = low_quarter_uniformity(cans_mm)
    return CatchCanAudit(
        len(cans_mm),
        fmean(cans_mm) * MINUTES_IN_HOUR / minutes,
        uniformity,
        max(0.0, christiansen_uniformity(cans_mm)),
        _advice(len(cans_mm), uniformity, book),
        ("water.catch_cans_min", "water.uniformity_good", "water.uniformity_poor"),
    )


def _advice(cans: int, uniformity: float, book: Book) -> tuple[Message, ...]:
    good, poor = book.si("water.uniformity_good"), book.si("water.uniformity_poor")
    advice, share = list[Message](), Number(uniformity, "percent")
    if cans < book.si("water.catch_cans_few"):
        advice.append(phrases.advice_few_cans(cans=cans))
    if uniformity < poor:
        advice.append(phrases.advice_mend(share=share))
    elif uniformity < good:
        advice.append(phrases.advice_straighten(share=share))
    return tuple(advice)


def rate_from_flow_mm_h(flow_l_min: float, area_m2: float) -> float:
    """Mean rate of a flow spread over an area: a litre on a square metre is a millimetre."""
    return flow_l_min * MINUTES_IN_HOUR / area_m2


def rate_from_spacing_mm_h(flow_l_min: float, head_spacing_m: float, row_spacing_m: float) -> float:
    """Rate of full-circle heads on a grid: 96.25 gpm / (S x L) in inches an hour with feet.

    Here it is in SI. Raises TurfplanError for a spacing of nothing.
    """
    if head_spacing_m <= 0 or row_spacing_m <= 0:
        raise TurfplanError(
            Problem(
                "water.spacing", faulty.above_zero(), f"{head_spacing_m:g} x {row_spacing_m:g} m"
            )
        )
    return rate_from_flow_mm_h(flow_l_min, head_spacing_m * row_spacing_m)


def zones(water: Water, book: Book, area_m2: float) -> tuple[WateringZone, ...]:
    """The watering zones of a lawn, at least one, each with its best known rate.

    Best first: catch cans, a rate that is given, the flow of a head over its spacing, flow over the
    area, the type of head, an assumed hose sprinkler.
    Raises TurfplanError with every fault of the measurements.
    """
    if not water.zones:
        return (_whole_lawn(water, book, area_m2),)
    given = sum(zone.area_m2 or 0 for zone in water.zones)
    unsized = sum(1 for zone in water.zones if zone.area_m2 is None)
    rest = max(0.0, area_m2 - given) / unsized if unsized else 0.0
    faults: list[Problem] = []
    known: list[WateringZone] = []
    keys: set[str] = set()
    for number, zone in enumerate(water.zones, 1):
        where = f"water.zones.{number}"
        key = _key(zone.name, number)
        key = f"{key}-{number}" if key in keys else key
        keys.add(key)
        area = zone.area_m2 or rest
        if area <= 0:
            faults.append(
                Problem(
                    f"{where}.area",
                    faulty.covered(),
                    zone.name,
                    None,
                    faulty.give_area(),
                )
            )
            continue
        try:
            measured = _measured(zone, area, water, book, where)
        except TurfplanError as error:
            faults.extend(error.problems)
        else:
            known.append(replace(measured, key=key, name=as_written(zone.name)))
    if faults:
        raise TurfplanError(faults)
    return tuple(known)


def _whole_lawn(water: Water, book: Book, area_m2: float) -> WateringZone:
    """The one zone of a lawn whose brief tells of none.

    What the brief says of water holds for all of it.
    """
    whole = WaterZone.model_construct(
        name="",
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
    return with_hose(_measured(whole, area_m2, water, book, "water"), water, book)


def _key(name: str, number: int) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:20] or f"zone-{number}"


def _measured(
    source: WaterZone, area_m2: float, water: Water, book: Book, where: str
) -> WateringZone:
    """A zone with its best known rate and evenness.

    It is called the lawn until it has a name of its own. Raises TurfplanError with the faults of
    its measurements.
    """
    whole = WateringZone(
        key=None,
        name=phrases.zone_lawn(),
        area_m2=area_m2,
        rate_mm_h=0.0,
        exposure=book.si(of_family("water.exposure_{sun}", source.sun or "full")),
    )
    minutes = source.catch_minutes or water.catch_minutes
    if source.catch_cans_mm and minutes:
        test = audit(source.catch_cans_mm, minutes, book, f"{where}.catch_cans")
        return replace(
            whole,
            rate_mm_h=test.rate_mm_h,
            uniformity=max(test.uniformity, book.si("water.uniformity_floor")),
            rate_reason=phrases.rate_cans(cans=test.cans, share=Number(test.uniformity, "percent")),
            measured=True,
            advice=test.advice,
            facts=(*test.facts, "water.uniformity_floor"),
        )
    rate, reason, facts = _rate(source, area_m2, water, book, where)
    return replace(
        whole,
        rate_mm_h=rate,
        uniformity=book.si("water.uniformity_assumed"),
        rate_reason=reason,
        facts=(*facts, "water.uniformity_assumed"),
    )


def _rate(
    source: WaterZone, area_m2: float, water: Water, book: Book, where: str
) -> tuple[float, Message, tuple[FactName, ...]]:
    """Rate (mm/h), where it comes from, and the facts behind it, where no cans were set out."""
    given = source.application_rate_mm_h or water.application_rate_mm_h
    if given:
        return given, phrases.rate_given(), ()
    if source.head_flow_l_min or source.head_spacing_mm:
        return _spaced_rate(source, where), phrases.rate_spacing(), ()
    if water.flow_l_min:
        return rate_from_flow_mm_h(water.flow_l_min, area_m2), phrases.rate_flow(), ()
    head = source.head or water.head
    if head is None:
        return book.si("water.rate_assumed"), phrases.rate_assumed(), ("water.rate_assumed",)
    name: FactName = of_family("water.rate_{head}", head)
    return book.si(name), HEADS[head], (name,)


def _spaced_rate(source: WaterZone, where: str) -> float:
    """Rate from the flow of one full-circle head and the spacing of heads.

    Rows are as far apart as heads where nothing is said of them. Raises TurfplanError where one of
    both is missing, and for a rate that no sprinkler has.
    """
    flow, head, row = (
        source.head_flow_l_min,
        source.head_spacing_mm,
        source.row_spacing_mm or source.head_spacing_mm,
    )
    if flow is None or head is None or row is None:
        missing = "head_flow" if flow is None else "head_spacing"
        raise TurfplanError(
            Problem(
                f"{where}.{missing}",
                faulty.together(one="head_flow", other="head_spacing"),
                "nothing",
                None,
                faulty.give_both(),
            )
        )
    rate = rate_from_spacing_mm_h(flow, head / MM_IN_M, row / MM_IN_M)
    if not SLOWEST_MM_H <= rate <= FASTEST_MM_H:
        allowed = f"{SLOWEST_MM_H:g} to {FASTEST_MM_H:g} mm/h"
        raise TurfplanError(
            Problem(
                f"{where}.head_flow",
                brief.senseless(),
                f"{rate:.3g} mm/h",
                allowed,
                faulty.of_one_head(),
            )
        )
    return rate
