"""Divides a fill of several depths into passes, each part within what it bears."""

import math
from collections.abc import Sequence

from turfplan.units import INCH_MM, System

# What a part of the lawn bears of a pass and of the last one, settled mm.
Limits = tuple[float, float]
# The depths of passes, and the layer of each part in each.
Layers = tuple[list[float], list[list[float]]]
# Where even passes leave something over, one more of them is tried; each takes off at least what
# the least cap allows, so that this many are never needed.
MOST_PASSES = 200
HAIR_MM = 1e-6


def divided(
    fills_mm: Sequence[float], limits: Sequence[Limits], least: int, step_mm: float
) -> Layers:
    """The depths of the fewest passes, at least `least`, and the layer of each part in each.

    Parts stand deepest first, each with its limits; no part takes more in a pass than the deepest,
    and it is left out once it is full. A depth is that of the deepest part.
    """
    fewest = max(
        passes_needed(fill, *limit, least) for fill, limit in zip(fills_mm, limits, strict=True)
    )
    thin = min(plain for plain, _ in limits)
    for count in range(fewest, fewest + MOST_PASSES):
        measured = _depths(fills_mm[0], count, *limits[0], thin, step_mm)
        for depths in (measured, [fills_mm[0] / count] * count):
            layers = _layers(fills_mm, limits, depths)
            if layers is not None:
                return depths, layers
    raise ValueError((fills_mm, limits))


def passes_needed(fill_mm: float, plain_mm: float, last_mm: float, least: int = 1) -> int:
    """The fewest passes, at least `least`, that carry a fill within its limits."""
    over = fill_mm - (least - 1) * plain_mm - last_mm
    return least + max(0, math.ceil(over / plain_mm - 1e-9))


def _layers(
    fills_mm: Sequence[float], limits: Sequence[Limits], depths: Sequence[float]
) -> list[list[float]] | None:
    """What each part gets in each pass, or None where a part would not be full after the last."""
    left = list(fills_mm)
    layers: list[list[float]] = []
    for number, depth in enumerate(depths, 1):
        layer = []
        for part, (plain, last) in enumerate(limits):
            cap = last if number == len(depths) else plain
            if not part and depth > cap + HAIR_MM:
                return None
            layer.append(min(depth, left[part], cap) if part else depth)
            left[part] -= layer[part]
        layers.append(layer)
    return layers if max(left) <= HAIR_MM else None


def _depths(
    total: float, count: int, plain: float, last: float, thin: float, step: float
) -> list[float]:
    """Depths of so many passes, even as far as measuring allows.

    `thin` is the least that a part of the lawn bears.
    """
    # Thinner than half of what the turf bears is not worth a pass: a fill that small asks for fewer
    # of them.
    thinnest = math.ceil(thin / 2 / step - 1e-9) * step
    each = min(plain, max(thinnest, math.floor(total / count / step + 0.5 + 1e-6) * step))
    if total - (count - 1) * each > last + 1e-6:
        # Rounding down left too much for the last pass: the others go to what they may bear.
        each = min(plain, (total - last) / (count - 1)) if count > 1 else each
    depths: list[float] = []
    left = total
    while len(depths) < count - 1 and left > each + 1e-6:
        depths.append(each)
        left -= each
    return [*depths, left]


def sessions_of(count: int, room: Sequence[int]) -> list[int]:
    """The session of each pass: one in each, the others where most room is left, earlier first."""
    places = [1] * len(room)
    for _ in range(count - len(room)):
        free = [r - p for r, p in zip(room, places, strict=True)]
        places[free.index(max(free))] += 1
    return [number for number, held in enumerate(places, 1) for _ in range(held)][:count]


def measurable_mm(system: System) -> float:
    """The step in which people measure a layer: an eighth of an inch, or a millimetre."""
    return INCH_MM / 8 if system is System.US else 1.0
