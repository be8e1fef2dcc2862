"""A list of hollows, each length by width by depth, becomes the fill of a lawn."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message, Number, Quantity, said
from turfplan.phrases import survey as phrases
from turfplan.site.survey.earthwork import bowl_volume
from turfplan.site.survey.findings import volume_value
from turfplan.site.survey.records import (
    Doubt,
    FillClass,
    FillResult,
    LooseOrder,
    LowSpot,
    PassFill,
    SurveySettings,
    ZoneFill,
)

# How well a pace or a tape finds the rim of a hollow, as a share of its length: the rim itself is
# a matter of eye.
RIM_ERROR = 0.1
NINETY = 1.6449


@dataclass(frozen=True, slots=True)
class _Hollow:
    """A hollow reckoned: its mean fill in mm, its area and its settled volume."""

    mean_mm: float
    area_m2: float
    volume_m3: float
    low: LowSpot


def fill_from_lows(lows: Sequence[LowSpot], area_m2: float, settings: SurveySettings) -> FillResult:
    """The fill of a lawn of `area_m2` with these hollows, each filled to its rim.

    Needs the standard library only. A hollow with a mean depth is length times width times depth;
    one with its deepest depth is an oval bowl, half of the box around it times pi over four.
    Raises TurfplanError for hollows that are larger than the lawn or have no depth.
    """
    _check(lows, area_m2)
    hollows = [_reckoned(low) for low in lows]
    volume = sum(hollow.volume_m3 for hollow in hollows)
    doubt = NINETY * math.sqrt(sum((h.volume_m3 * _error(h.low, settings)) ** 2 for h in hollows))
    low_m3, high_m3 = max(0.0, volume - doubt), volume + doubt
    deep = [h for h in hollows if h.mean_mm > settings.deep_limit_mm]
    passes = _passes([h for h in hollows if h.mean_mm <= settings.deep_limit_mm], settings)
    mean, deepest = volume / area_m2 * 1000, max(hollow.mean_mm for hollow in hollows)
    zone = ZoneFill(
        phrases.name_rest(),
        area_m2,
        1.0,
        mean,
        deepest,
        volume,
        passes,
        sum(hollow.area_m2 for hollow in deep),
        sum(hollow.volume_m3 for hollow in deep),
    )
    return FillResult(
        area_m2,
        mean,
        deepest,
        volume,
        low_m3,
        high_m3,
        0.0,
        Doubt(doubt, 0.0, 0.0),
        _classes(hollows, area_m2, settings),
        (zone,),
        passes,
        _order((low_m3, volume, high_m3), area_m2, settings),
        len(lows),
        math.sqrt(area_m2 / len(lows)),
        notes=(_note(len(lows), low_m3, volume, high_m3),),
        cautions=_cautions(deep, settings),
    )


def _order(
    volumes_m3: tuple[float, float, float], area_m2: float, settings: SurveySettings
) -> LooseOrder:
    """Loose material for the least, best and most volume, with a reserve for touching up."""
    share, depth, settle = settings.touch_up_share, settings.touch_up_mm, settings.settle_share
    reserve = area_m2 * share * depth / 1000 * (1 + settle)
    low, best, high = volumes_m3
    return LooseOrder(
        low * (1 + settings.settle_low) + reserve,
        best * (1 + settle) + reserve,
        high * (1 + settings.settle_high) + reserve,
        reserve,
    )


def _note(count: int, low_m3: float, volume_m3: float, high_m3: float) -> Message:
    volume, low, high = (
        volume_value(m3, rounding)
        for m3, rounding in ((volume_m3, "nearest"), (low_m3, "down"), (high_m3, "up"))
    )
    return phrases.volume_hollows(n=count, volume=volume, low=low, high=high)


def _reckoned(low: LowSpot) -> _Hollow:
    area, volume = _size(low)
    return _Hollow(volume / area * 1000, area, volume, low)


def _size(low: LowSpot) -> tuple[float, float]:
    """Area in m2 and volume in m3 of one hollow."""
    if low.mean_mm is not None:
        area = low.length_m * low.width_m
        return area, area * low.mean_mm / 1000
    return math.pi / 4 * low.length_m * low.width_m, bowl_volume(
        low.length_m, low.width_m, (low.deepest_mm or 0.0) / 1000
    )


def _error(low: LowSpot, settings: SurveySettings) -> float:
    """The standard error of a hollow's volume as a share of it: its three sizes are read apart."""
    depth = low.mean_mm if low.mean_mm is not None else low.deepest_mm or 1.0
    return math.sqrt((settings.instrument_error_mm / depth) ** 2 + 2 * RIM_ERROR**2)


def _check(lows: Sequence[LowSpot], area_m2: float) -> None:
    faults = []
    if not lows:
        faults.append(Problem("", phrases.fault_no_hollows()))
    for low in lows:
        depth = low.mean_mm if low.mean_mm is not None else low.deepest_mm
        if depth is None or not (depth > 0 and low.length_m > 0 and low.width_m > 0):
            faults.append(Problem(low.name, phrases.fault_hollow_size()))
    if not faults and (total := sum(_size(low)[0] for low in lows)) > area_m2:
        faults.append(
            Problem(
                "",
                phrases.fault_hollows_too_large(),
                f"{total:.1f} m2",
                phrases.fault_up_to(area=Number(area_m2, "tenth")),
            )
        )
    if faults:
        raise TurfplanError(faults)


def _passes(shallow: Sequence[_Hollow], settings: SurveySettings) -> tuple[PassFill, ...]:
    """Layers all alike, as few as the cap allows, each over the hollows that still need it."""
    deepest = max((hollow.mean_mm for hollow in shallow), default=0.0)
    if deepest <= settings.least_mm:
        return ()
    count = math.ceil(deepest / settings.cap_mm - 1e-9)
    layer = deepest / count
    passes = []
    for number in range(count):
        here = [(min(max(h.mean_mm - number * layer, 0.0), layer), h.area_m2) for h in shallow]
        passes.append(
            PassFill(
                number + 1,
                layer,
                sum(area for depth, area in here if depth > 0),
                sum(depth * area for depth, area in here) / 1000,
            )
        )
    return tuple(passes)


def _classes(
    hollows: Sequence[_Hollow], area_m2: float, settings: SurveySettings
) -> tuple[FillClass, ...]:
    groups: dict[int | None, list[_Hollow]] = {}
    for hollow in hollows:
        passes = (
            None
            if hollow.mean_mm > settings.deep_limit_mm
            else math.ceil(hollow.mean_mm / settings.cap_mm - 1e-9)
        )
        groups.setdefault(passes, []).append(hollow)
    rest = area_m2 - sum(hollow.area_m2 for hollow in hollows)
    classes = [FillClass("·", 0, 0.0, 0.0, rest, rest / area_m2, 0.0, 0.0)]
    for passes, members in sorted(groups.items(), key=lambda item: item[0] or 99):
        size, volume = sum(h.area_m2 for h in members), sum(h.volume_m3 for h in members)
        classes.append(
            FillClass(
                "L" if passes is None else str(passes),
                passes,
                min(h.mean_mm for h in members),
                max(h.mean_mm for h in members),
                size,
                size / area_m2,
                volume / size * 1000,
                volume,
            )
        )
    return tuple(classes)


def _cautions(deep: Sequence[_Hollow], settings: SurveySettings) -> tuple[Message, ...]:
    limit = Quantity(settings.deep_limit_mm, "depth")
    return tuple(
        phrases.ground_hollow_lifted(hollow=said(hollow.low.name), limit=limit) for hollow in deep
    )
