"""Invented lawns and surveys of them, for the tests of the site."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from turfplan.site.survey.records import SurveyPoint, SurveySettings

Height = Callable[[Any, Any], Any]
EXACT = SurveySettings(cap_mm=10.0, deep_limit_mm=1e6, instrument_error_mm=0.0)
BOOK_LIKE = SurveySettings(
    cap_mm=10.0,
    deep_limit_mm=50.8,
    instrument_error_mm=3.0,
    least_mm=3.0,
    fall_from_building=0.05,
    fall_distance_m=3.048,
    fall_to_swale=0.02,
    below_paving_mm=12.7,
    trunk_clear_m=0.6,
    root_zone_m=3.0,
    root_fill_mm=25.4,
    settle_share=0.1,
    settle_high=0.2,
    touch_up_share=0.1,
    touch_up_mm=3.175,
    cells_wanted=900,
    unseen_mm=20.0,
)


def rectangle(length: float, width: float) -> tuple[tuple[float, float], ...]:
    """A lawn with one corner at the origin."""
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def points_at(
    xs: Sequence[float], ys: Sequence[float], heights: Sequence[float]
) -> tuple[SurveyPoint, ...]:
    """Ground points from three columns."""
    return tuple(
        SurveyPoint(float(x), float(y), float(z), f"P{n}")
        for n, (x, y, z) in enumerate(zip(xs, ys, heights, strict=True), 1)
    )


def grid(
    length: float, width: float, across: int, up: int, height: Height
) -> tuple[SurveyPoint, ...]:
    """A grid of `across` by `up` points with the height in mm at each."""
    x, y = (
        a.ravel() for a in np.meshgrid(np.linspace(0, length, across), np.linspace(0, width, up))
    )
    return points_at(x, y, np.broadcast_to(height(x, y), x.shape))


def scattered(
    length: float, width: float, count: int, height: Height, seed: int
) -> tuple[SurveyPoint, ...]:
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


def moved(
    points: Sequence[SurveyPoint], angle: float, dx: float = 0.0, dy: float = 0.0
) -> tuple[SurveyPoint, ...]:
    """The survey turned about the origin and shifted."""
    c, s = math.cos(angle), math.sin(angle)
    return tuple(
        replace(p, x_m=c * p.x_m - s * p.y_m + dx, y_m=s * p.x_m + c * p.y_m + dy) for p in points
    )


def cone_m3(radius: float, depth: float) -> float:
    """The volume of a conical hollow."""
    return math.pi * radius**2 * depth / 1000 / 3


# How lawns lie, by length and width in m; falls and crowns in percent.
FORMS: dict[str, Callable[[float, float], Height]] = {
    "plane": lambda length, width: slope(0.0),
    "sloping": lambda length, width: slope(-2.0, 1.0),
    "crowned": lambda length, width: added(
        slope(1.0), lambda x, y: -20.0 / width * (y - width / 2) ** 2
    ),
    "twisted": lambda length, width: lambda x, y: 15.0 * x * (2 * y / width - 1),
}


@dataclass(frozen=True, slots=True)
class BroadLawn:
    """A lawn with one hollow of known volume, and the same lawn, with the same errors, without."""

    points: tuple[SurveyPoint, ...]
    even: tuple[SurveyPoint, ...]
    truth_m3: float
    error_mm: float
    outline: tuple[tuple[float, float], ...]

    def settings(self) -> SurveySettings:
        """How it is read."""
        return replace(
            BOOK_LIKE,
            instrument_error_mm=self.error_mm,
            outline=(self.outline,),
            cells_wanted=600,
            deep_limit_mm=1e6,
        )


def broad_lawn(
    size: tuple[float, float],
    hollow: tuple[float, float, float, float],
    form: str,
    spacing_m: float,
    error_mm: float,
    *,
    conical: bool = False,
    seed: int = 0,
) -> BroadLawn:
    """A lawn of a length and width in m with a hollow (x, y, radius in m; depth in mm)."""
    length, width = size
    across, up = round(length / spacing_m) + 1, round(width / spacing_m) + 1
    noise = np.random.default_rng(seed).normal(0.0, error_mm, across * up)
    lies = FORMS[form](length, width)
    low = cone(*hollow) if conical else bowl(*hollow)
    with_hollow, without = (
        grid(length, width, across, up, lambda x, y, ground=ground: ground(x, y) + noise)
        for ground in (added(lies, low), lies)
    )
    volume = (cone_m3 if conical else bowl_m3)(*hollow[2:])
    return BroadLawn(with_hollow, without, volume, error_mm, rectangle(length, width))


def random_broad_lawn(seed: int) -> BroadLawn:
    """Lawns 8 to 60 m long; radius from 1 m to a quarter of the width, 15 to 60 mm deep, anywhere.

    Points stand 1 to 4 m apart (no more than 2,000), read within 1 to 5 mm.
    """
    random = np.random.default_rng(seed)
    width = random.uniform(8, 40)
    length = min(60.0, width * random.uniform(1, 2.2))
    radius = random.uniform(max(1.0, width / 10), width / 4)
    x, y = {
        "middle": (length / 2, width / 2),
        "anywhere": (
            random.uniform(radius, length - radius),
            random.uniform(radius, width - radius),
        ),
        "edge": (random.uniform(radius, length - radius), radius + 0.3),
    }[str(random.choice(["middle", "anywhere", "edge"]))]
    spacing = max(float(random.choice([1.0, 1.5, 2.0, 3.0, 4.0])), math.sqrt(length * width / 2000))
    return broad_lawn(
        (length, width),
        (x, y, radius, random.uniform(15, 60)),
        str(random.choice(list(FORMS))),
        spacing,
        float(random.choice([1.0, 2.0, 3.0, 5.0])),
        conical=bool(random.random() < 0.5),
        seed=seed,
    )
