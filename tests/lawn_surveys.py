"""Invented lawns and surveys of them, for the tests of the site."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from turfplan.site.records import SurveyPoint, SurveySettings

Height = Callable[[Any, Any], Any]
EXACT = SurveySettings(cap_mm=10.0, deep_limit_mm=1e6, instrument_error_mm=0.0)
BOOK_LIKE = SurveySettings(
    cap_mm=10.0, deep_limit_mm=50.8, instrument_error_mm=3.0, least_mm=3.0, fall_from_building=0.05, fall_distance_m=3.048,
    fall_to_swale=0.02, below_paving_mm=12.7, trunk_clear_m=0.6, root_zone_m=3.0, root_fill_mm=25.4, settle_share=0.1,
    settle_high=0.2, touch_up_share=0.1, touch_up_mm=3.175, cells_wanted=900, unseen_mm=20.0,
)  # fmt: skip


def rectangle(length: float, width: float) -> tuple[tuple[float, float], ...]:
    """A lawn with one corner at the origin."""
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def points_at(xs: Sequence[float], ys: Sequence[float], heights: Sequence[float]) -> tuple[SurveyPoint, ...]:
    """Ground points from three columns."""
    return tuple(
        SurveyPoint(float(x), float(y), float(z), f"P{n}")
        for n, (x, y, z) in enumerate(zip(xs, ys, heights, strict=True), 1)
    )


def grid(length: float, width: float, across: int, up: int, height: Height) -> tuple[SurveyPoint, ...]:
    """A grid of `across` by `up` points with the height in mm at each."""
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(0, length, across), np.linspace(0, width, up)))
    return points_at(x, y, np.broadcast_to(height(x, y), x.shape))


def scattered(length: float, width: float, count: int, height: Height, seed: int) -> tuple[SurveyPoint, ...]:
    """Points at random, and the four corners."""
    random = np.random.default_rng(seed)
    x = np.concatenate([random.uniform(0, length, count), [0, length, length, 0]])
    y = np.concatenate([random.uniform(0, width, count), [0, 0, width, width]])
    return points_at(x, y, np.broadcast_to(height(x, y), x.shape))


def bowl(x0: float, y0: float, radius: float, depth: float) -> Height:
    """A paraboloid hollow: its height is below nought inside the radius."""
    return lambda x, y: -np.clip(depth * (1 - ((x - x0) ** 2 + (y - y0) ** 2) / radius**2), 0, None)


def bowl_m3(radius: float, depth: float) -> float:
    """The volume of such a hollow."""
    return math.pi * radius**2 * depth / 1000 / 2


def cone(x0: float, y0: float, radius: float, depth: float) -> Height:
    """A conical hollow."""
    return lambda x, y: -np.clip(depth * (1 - np.hypot(x - x0, y - y0) / radius), 0, None)


def added(*parts: Height) -> Height:
    """Heights on top of each other."""
    return lambda x, y: sum(part(x, y) for part in parts)


def slope(east_percent: float, north_percent: float = 0.0) -> Height:
    """A plane."""
    return lambda x, y: 10.0 * (east_percent * x + north_percent * y)


def moved(points: Sequence[SurveyPoint], angle: float, dx: float = 0.0, dy: float = 0.0) -> tuple[SurveyPoint, ...]:
    """The survey turned about the origin and shifted."""
    c, s = math.cos(angle), math.sin(angle)
    return tuple(replace(p, x_m=c * p.x_m - s * p.y_m + dx, y_m=s * p.x_m + c * p.y_m + dy) for p in points)
