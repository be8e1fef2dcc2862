"""Volumes by the rules of earthwork: end areas, the prismoid, Simpson's rule, and the grid of squares."""

import math
from collections.abc import Sequence
from itertools import pairwise


def end_areas(length: float, first: float, last: float) -> float:
    """Volume between two parallel sections by the average of their areas; exact only where the area changes evenly."""
    return length * (first + last) / 2


def prismoidal(length: float, first: float, middle: float, last: float) -> float:
    """Volume between two parallel sections with the section halfway: L (A1 + 4 Am + A2) / 6.

    Exact for prisms, wedges, pyramids, cones, paraboloids and spheres.
    """
    return length * (first + 4 * middle + last) / 6


def simpson(interval: float, values: Sequence[float]) -> float:
    """The area under offsets, or the volume under section areas, at equal intervals, by Simpson's one-third rule.

    Needs an odd number of values, three or more: an even number of strips.
    """
    if len(values) < 3 or len(values) % 2 == 0:
        raise ValueError("Simpson's one-third rule needs an odd number of values, three or more")
    return interval / 3 * (values[0] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2]) + values[-1])


def grid_volume(cell_area: float, depths: Sequence[Sequence[float | None]]) -> float:
    """Volume of a grid of squares: each corner's depth times the number of squares it belongs to, times a quarter square.

    `None` marks a corner that does not belong to the site; only squares with all four corners count.
    """
    total = 0.0
    for upper, lower in pairwise(depths):
        for (a, b), (c, d) in zip(pairwise(upper), pairwise(lower), strict=True):
            if a is not None and b is not None and c is not None and d is not None:
                total += a + b + c + d
    return cell_area / 4 * total


def bowl_volume(length: float, width: float, depth: float) -> float:
    """The volume of an oval bowl from its length, width and deepest depth: the prismoidal formula on a paraboloid."""
    rim = math.pi / 4 * length * width
    return prismoidal(depth, rim, rim / 2, 0.0)
