"""Growth potential from daily mean air temperature."""

import math
from typing import NamedTuple

# Gelernter & Stowell (2005), "Improved overseeding programs 1. The role of weather", Golf Course
# Management; equation and coefficients for degrees Celsius as quoted by its users: optimum and
# width for cool- and warm-season grass.
_OPTIMUM_C = {"cool": 20.0, "warm": 31.0}
_WIDTH_C = {"cool": 5.5, "warm": 7.0}


class Bell(NamedTuple):
    """The air (degrees C) at which a grass grows best, and how far below it growth falls to
    exp(-1/2)."""

    best_c: float
    width_c: float


def growth_potential(air_mean_c: float, season: str, warm: Bell | None = None) -> float:
    """Growth potential, 0 to 1: exp(-0.5 ((t - t0) / v)^2).

    The warm-season curve stays at 1 above its optimum (modified form). `warm` is the bell of a
    warm-season grass that has its own.
    """
    optimum, width = _OPTIMUM_C[season], _WIDTH_C[season]
    if season == "warm" and warm is not None:
        optimum, width = warm
    if season == "warm" and air_mean_c >= optimum:
        return 1.0
    return math.exp(-0.5 * ((air_mean_c - optimum) / width) ** 2)


def air_of_growth(share: float, season: str) -> float:
    """The daily mean air (degrees C), on the cold side of the best, at which growth potential has a
    share of 1."""
    return _OPTIMUM_C[season] - _WIDTH_C[season] * math.sqrt(-2 * math.log(share))
