"""Growth potential and degree days, from daily mean, minimum and maximum air temperature."""

import math
from collections.abc import Iterable
from typing import Literal

# Gelernter & Stowell (2005), "Improved overseeding programs 1. The role of weather", Golf Course Management; equation and
# coefficients for degrees Celsius as quoted by its users: optimum and width for cool- and warm-season grass.
_OPTIMUM_C = {"cool": 20.0, "warm": 31.0}
_WIDTH_C = {"cool": 5.5, "warm": 7.0}


def growth_potential(air_mean_c: float, season: str) -> float:
    """GP = exp(-0.5 ((t - t0) / v)^2), 0 to 1; the warm-season curve stays at 1 above its optimum (modified form)."""
    optimum, width = _OPTIMUM_C[season], _WIDTH_C[season]
    if season == "warm" and air_mean_c >= optimum:
        return 1.0
    return math.exp(-0.5 * ((air_mean_c - optimum) / width) ** 2)


def degree_day_c(
    low_c: float,
    high_c: float,
    base_c: float,
    *,
    cap_c: float | None = None,
    method: Literal["simple", "capped"] = "simple",
) -> float:
    """Degree days of one day over `base_c`, in degrees Celsius times days, never negative.

    simple: the mean of low and high less the base. capped: low and high are first brought inside base and cap (the
    86/50 method of maize in degrees Fahrenheit).
    """
    if method == "capped":
        low_c, high_c = max(low_c, base_c), max(high_c, base_c)
        if cap_c is not None:
            low_c, high_c = min(low_c, cap_c), min(high_c, cap_c)
    return max(0.0, (low_c + high_c) / 2 - base_c)


def degree_days_c(means_c: Iterable[float], base_c: float) -> float:
    """Degree days of a run of daily means over `base_c`."""
    return sum(max(0.0, mean - base_c) for mean in means_c)
