"""Volumes by the prismoid of earthwork."""

import math


def prismoidal(length: float, first: float, middle: float, last: float) -> float:
    """Volume between two parallel sections with the section halfway: L (A1 + 4 Am + A2) / 6.

    Exact for prisms, wedges, pyramids, cones, paraboloids and spheres.
    """
    return length * (first + 4 * middle + last) / 6


def bowl_volume(length: float, width: float, depth: float) -> float:
    """The volume of an oval bowl from its length, width and deepest depth.

    The prismoidal formula on a paraboloid.
    """
    rim = math.pi / 4 * length * width
    return prismoidal(depth, rim, rim / 2, 0.0)
