"""A list of hollows, each length by width by depth, becomes the fill of a lawn."""

import math
from collections.abc import Sequence

from turfplan.errors import Problem, TurfplanError
from turfplan.site.earthwork import bowl_volume
from turfplan.site.records import Doubt, FillClass, FillResult, LowSpot, Order, PassFill, SurveySettings, ZoneFill
from turfplan.units import read_as

# How well a pace or a tape finds the rim of a hollow, as a share of its length: the rim itself is a matter of eye.
RIM_ERROR = 0.1
NINETY = 1.6449


def fill_from_lows(lows: Sequence[LowSpot], area_m2: float, settings: SurveySettings) -> FillResult:
    """The fill of a lawn of `area_m2` with these hollows, each filled to its rim; needs the standard library only.

    A hollow with a mean depth is length times width times depth; one with its deepest depth is an oval bowl, half of the
    box around it times pi over four. Raises TurfplanError for hollows that are larger than the lawn or have no depth.
    """
    _check(lows, area_m2)
    sized = [(low, *_size(low)) for low in lows]
    volume = sum(v for _, _, v in sized)
    doubt = NINETY * math.sqrt(sum((v * _error(low, settings)) ** 2 for low, _, v in sized))
    depths = [(v / a * 1000, a, v, low) for low, a, v in sized]
    deep = [d for d in depths if d[0] > settings.deep_limit_mm]
    shallow = [d for d in depths if d[0] <= settings.deep_limit_mm]
    classes = _classes(depths, area_m2, settings)
    passes = _passes(shallow, settings)
    mean = volume / area_m2 * 1000
    deepest = max(d for d, *_ in depths)
    zone = ZoneFill(
        "lawn", area_m2, 1.0, mean, deepest, volume, passes, sum(a for _, a, *_ in deep), sum(v for _, _, v, _ in deep)
    )
    low_m3, high_m3 = max(0.0, volume - doubt), volume + doubt
    reserve = area_m2 * settings.touch_up_share * settings.touch_up_mm / 1000 * (1 + settings.settle_share)
    order = Order(
        low_m3 * (1 + settings.settle_low) + reserve, volume * (1 + settings.settle_share) + reserve,
        high_m3 * (1 + settings.settle_high) + reserve, reserve,
    )  # fmt: skip
    words = [
        read_as(v, "volume", settings.system, rounding, 0.05).text
        for v, rounding in ((volume, "nearest"), (low_m3, "down"), (high_m3, "up"))
    ]
    note = f"{len(lows)} hollow{'s' if len(lows) != 1 else ''} filled to the rim: {words[0]} settled, between {words[1]} and {words[2]} as such hollows can be measured."
    return FillResult(
        area_m2, mean, deepest, volume, low_m3, high_m3, 0.0, Doubt(doubt, 0.0, 0.0), classes, (zone,), passes, order,
        len(lows), math.sqrt(area_m2 / len(lows)), notes=(note,), cautions=_cautions(deep, settings),
    )  # fmt: skip


def _size(low: LowSpot) -> tuple[float, float]:
    """Area in m2 and volume in m3 of one hollow."""
    if low.mean_mm is not None:
        area = low.length_m * low.width_m
        return area, area * low.mean_mm / 1000
    return math.pi / 4 * low.length_m * low.width_m, bowl_volume(
        low.length_m, low.width_m, (low.deepest_mm or 0.0) / 1000
    )


def _error(low: LowSpot, settings: SurveySettings) -> float:
    """The standard error of one hollow's volume as a share of it: depth, length and width are read apart."""
    depth = low.mean_mm if low.mean_mm is not None else low.deepest_mm or 1.0
    return math.sqrt((settings.instrument_error_mm / depth) ** 2 + 2 * RIM_ERROR**2)


def _check(lows: Sequence[LowSpot], area_m2: float) -> None:
    faults = []
    if not lows:
        faults.append(Problem("", "lists no hollows"))
    for low in lows:
        depth = low.mean_mm if low.mean_mm is not None else low.deepest_mm
        if depth is None or not (depth > 0 and low.length_m > 0 and low.width_m > 0):
            faults.append(Problem(low.name, "needs a length, a width and a depth above 0"))
    if not faults and (total := sum(_size(low)[0] for low in lows)) > area_m2:
        faults.append(
            Problem("", "the hollows together are larger than the lawn", f"{total:.1f} m2", f"up to {area_m2:.1f} m2")
        )
    if faults:
        raise TurfplanError(faults)


def _passes(shallow: Sequence[tuple[float, float, float, LowSpot]], settings: SurveySettings) -> tuple[PassFill, ...]:
    """Layers all alike, as few as the cap allows, each over the hollows that still need it."""
    deepest = max((d for d, *_ in shallow), default=0.0)
    if deepest <= settings.least_mm:
        return ()
    count = math.ceil(deepest / settings.cap_mm - 1e-9)
    layer = deepest / count
    found = []
    for number in range(count):
        here = [(min(max(d - number * layer, 0.0), layer), a) for d, a, *_ in shallow]
        found.append(PassFill(number + 1, layer, sum(a for h, a in here if h > 0), sum(h * a for h, a in here) / 1000))
    return tuple(found)


def _classes(
    depths: Sequence[tuple[float, float, float, LowSpot]], area_m2: float, settings: SurveySettings
) -> tuple[FillClass, ...]:
    groups: dict[int | None, list[tuple[float, float, float, LowSpot]]] = {}
    for found in depths:
        passes = None if found[0] > settings.deep_limit_mm else math.ceil(found[0] / settings.cap_mm - 1e-9)
        groups.setdefault(passes, []).append(found)
    rest = area_m2 - sum(a for _, a, *_ in depths)
    classes = [FillClass("·", "left alone", 0, 0.0, 0.0, rest, rest / area_m2, 0.0, 0.0)]
    for passes, members in sorted(groups.items(), key=lambda item: item[0] or 99):
        size, volume = sum(a for _, a, *_ in members), sum(v for _, _, v, _ in members)
        name = "lift the turf and fill" if passes is None else f"{passes} pass{'es' if passes != 1 else ''}"
        classes.append(
            FillClass(
                "L" if passes is None else str(passes), name, passes, min(d for d, *_ in members), max(d for d, *_ in members),
                size, size / area_m2, volume / size * 1000, volume,
            )
        )  # fmt: skip
    return tuple(classes)


def _cautions(deep: Sequence[tuple[float, float, float, LowSpot]], settings: SurveySettings) -> tuple[str, ...]:
    limit = read_as(settings.deep_limit_mm, "depth", settings.system).text
    return tuple(
        f"{low.name} is deeper than {limit}: lift the turf there, fill with soil like the soil below, and lay it again."
        for *_, low in deep
    )
