"""How much seed, by rate and pure live seed, and how many plants."""

import math


def pure_live_share(purity_percent: float, germination_percent: float) -> float:
    """The share of a bag that will grow: purity times germination (95 % x 85 % = 0.8075)."""
    return purity_percent / 100 * germination_percent / 100


def bulk_seed_kg(rate_g_m2: float, area_m2: float, live_share: float = 1.0) -> float:
    """Kilograms of bulk seed for a rate of pure live seed in g/m2.

    `live_share` is 1 where the rate is of bulk seed already.
    """
    return rate_g_m2 * area_m2 / live_share / 1000


def plugs_needed(area_m2: float, spacing_mm: float) -> int:
    """Plugs on a square grid of `spacing_mm`: area over spacing squared, rounded up."""
    return math.ceil(area_m2 / (spacing_mm / 1000) ** 2 - 1e-9)
