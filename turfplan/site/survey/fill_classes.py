"""Fill depths become classes, zones and passes within the cap."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turfplan.message import Worded
from turfplan.site.survey.arrays import Floats, Mask
from turfplan.site.survey.records import FillClass, PassFill, SurveySettings, ZoneFill


def passes_at(depth_mm: float, settings: SurveySettings) -> int | None:
    """The passes that a depth takes.

    0 where it is left alone, None where turf is lifted instead.
    """
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
    """Passes spread one upon the other: each takes what is still missing, up to its own depth.

    `depth` (mm) and `area` (m2) have one value a cell, `depths` (mm) one a pass.
    """
    passes, done = [], 0.0
    for number, layer in enumerate(depths, 1):
        here = np.clip(depth - done, 0.0, layer)
        passes.append(
            PassFill(
                number,
                float(layer),
                float(area[here > 1e-9].sum()),
                float((here * area).sum()) / 1000,
            )
        )
        done += layer
    return tuple(passes)


def classes_of(depth: Floats, area: Floats, settings: SurveySettings) -> tuple[FillClass, ...]:
    """The lawn by what is done to it, from nothing to lifting turf.

    Classes without area are left out. `depth` (mm) and `area` (m2) have one value a cell.
    """
    limit, cap, least = settings.deep_limit_mm, settings.cap_mm, settings.least_mm
    most = max(1, math.ceil(min(limit, float(depth.max())) / cap - 1e-9))
    cells = _CellDepths(depth, area)
    classes = [cells.within("·", 0, 0.0, least, depth <= least + 1e-9)]
    for number in range(1, most + 1):
        low, high = max(least, (number - 1) * cap), min(number * cap, limit)
        here = (depth > low + 1e-9) & (depth <= high + 1e-9)
        classes.append(cells.within(str(number), number, low, high, here))
    deep = depth > limit + 1e-9
    deepest = float(depth[deep].max()) if deep.any() else limit
    classes.append(cells.within("L", None, limit, deepest, deep))
    return tuple(c for c in classes if c.area_m2 > 0)


@dataclass(frozen=True, slots=True)
class _CellDepths:
    """Depth in mm and area in m2 of each cell."""

    depth: Floats
    area: Floats

    def within(
        self, letter: str, passes: int | None, low: float, high: float, here: Mask
    ) -> FillClass:
        """The class of the cells that `here` marks."""
        size = float(self.area[here].sum())
        volume = float((self.depth * self.area)[here].sum()) / 1000
        share = size / float(self.area.sum())
        mean = volume / size * 1000 if size else 0.0
        return FillClass(letter, passes, low, high, size, share, mean, volume)


@dataclass(frozen=True, slots=True)
class ZoneCells:
    """The cells of one zone.

    Depth in mm and area in m2 of each, and its grass and sun where they differ.
    """

    name: Worded
    depth: Floats
    area: Floats
    grass: str | None = None
    sun: str | None = None


def zone_fill(zone: ZoneCells, total_m2: float, settings: SurveySettings) -> ZoneFill:
    """One zone's fill and passes; what is deeper than the limit is lifted, not passed over.

    `total_m2` is the area of the whole lawn.
    """
    depth, area = zone.depth, zone.area
    size = float(area.sum())
    deep = depth > settings.deep_limit_mm + 1e-9
    shallow = np.where(deep | (depth <= settings.least_mm), 0.0, depth)
    volume = float((depth * area).sum()) / 1000
    deepest = float(shallow.max()) if len(shallow) else 0.0
    return ZoneFill(
        zone.name,
        size,
        size / total_m2,
        volume / size * 1000 if size else 0.0,
        float(depth.max()) if len(depth) else 0.0,
        volume,
        layers(shallow, area, pass_depths(deepest, settings)),
        float(area[deep].sum()),
        float((depth * area)[deep].sum()) / 1000,
        zone.grass,
        zone.sun,
    )
