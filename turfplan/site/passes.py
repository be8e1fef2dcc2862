"""Fill depths become classes, zones and passes within the cap."""

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from turfplan.site.records import FillClass, PassFill, SurveySettings, ZoneFill

Floats = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]
WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def passes_at(depth_mm: float, settings: SurveySettings) -> int | None:
    """The passes a depth takes: 0 where it is left alone, None where turf is lifted and the hollow filled instead."""
    if depth_mm <= settings.least_mm or depth_mm <= 0:
        return 0
    if depth_mm > settings.deep_limit_mm + 1e-9:
        return None
    return max(1, math.ceil(depth_mm / settings.cap_mm - 1e-9))


def pass_depths(deepest_mm: float, settings: SurveySettings) -> tuple[float, ...]:
    """The layers of a fill: as few as the cap allows, all alike."""
    number = passes_at(min(deepest_mm, settings.deep_limit_mm), settings) or 0
    return (min(deepest_mm, settings.deep_limit_mm) / number,) * number if number else ()


def layers(depth: Floats, area: Floats, depths: Sequence[float]) -> tuple[PassFill, ...]:
    """Passes spread one upon the other: each takes what is still missing, up to its own depth."""
    found, done = [], 0.0
    for number, layer in enumerate(depths, 1):
        here = np.clip(depth - done, 0.0, layer)
        found.append(PassFill(number, float(layer), float(area[here > 1e-9].sum()), float((here * area).sum()) / 1000))
        done += layer
    return tuple(found)


def classes_of(depth: Floats, area: Floats, settings: SurveySettings) -> tuple[FillClass, ...]:
    """The lawn by what is done to it, from nothing to lifting turf; classes without area are left out."""
    total = float(area.sum())
    most = max(1, math.ceil(min(settings.deep_limit_mm, float(depth.max())) / settings.cap_mm - 1e-9))
    found = []
    for number in range(most + 1):
        low = 0.0 if number == 0 else max(settings.least_mm, (number - 1) * settings.cap_mm)
        high = settings.least_mm if number == 0 else min(number * settings.cap_mm, settings.deep_limit_mm)
        name = (
            "left alone"
            if number == 0
            else f"{WORDS[number] if number < len(WORDS) else number} pass{'es' if number > 1 else ''}"
        )
        here = depth <= high + 1e-9 if number == 0 else (depth > low + 1e-9) & (depth <= high + 1e-9)
        found.append(_class(str(number) if number else "·", name, number, low, high, here, depth, area, total))
    limit = settings.deep_limit_mm
    deep = depth > limit + 1e-9
    deepest = float(depth[deep].max()) if deep.any() else limit
    found.append(_class("L", "lift the turf and fill", None, limit, deepest, deep, depth, area, total))
    return tuple(c for c in found if c.area_m2 > 0)


def _class(
    letter: str,
    name: str,
    passes: int | None,
    low: float,
    high: float,
    here: Mask,
    depth: Floats,
    area: Floats,
    total: float,
) -> FillClass:
    size = float(area[here].sum())
    volume = float((depth * area)[here].sum()) / 1000
    mean = volume / size * 1000 if size else 0.0
    return FillClass(letter, name, passes, low, high, size, size / total, mean, volume)


def zone_fill(
    name: str,
    depth: Floats,
    area: Floats,
    total_m2: float,
    settings: SurveySettings,
    grass: str | None,
    sun: str | None,
) -> ZoneFill:
    """One zone's fill and passes; what is deeper than the limit is lifted, not passed over."""
    size = float(area.sum())
    deep = depth > settings.deep_limit_mm + 1e-9
    shallow = np.where(deep | (depth <= settings.least_mm), 0.0, depth)
    volume = float((depth * area).sum()) / 1000
    deepest = float(shallow.max()) if len(shallow) else 0.0
    return ZoneFill(
        name, size, size / total_m2, volume / size * 1000 if size else 0.0, float(depth.max()) if len(depth) else 0.0, volume,
        layers(shallow, area, pass_depths(deepest, settings)),
        float(area[deep].sum()), float((depth * area)[deep].sum()) / 1000, grass, sun,
    )  # fmt: skip
