"""How much seed, by rate and pure live seed, and how many plants."""

import math


def pure_live_share(purity_percent: float, germination_percent: float) -> float:
    """The share of a bag that is seed which will grow: purity times germination (95 % x 85 % = 0.8075)."""
    return purity_percent / 100 * germination_percent / 100


def bulk_seed_kg(rate_g_m2: float, area_m2: float, live_share: float = 1.0) -> float:
    """Kilograms of bulk seed for a rate of pure live seed in g/m2; `live_share` 1 where the rate is of bulk seed already."""
    return rate_g_m2 * area_m2 / live_share / 1000


def bulk_factor(purity_percent: float, germination_percent: float) -> float:
    """What a rate of pure live seed is multiplied by to give bulk seed (95 x 85: 1.24)."""
    return 1 / pure_live_share(purity_percent, germination_percent)


def plugs_needed(area_m2: float, spacing_mm: float) -> int:
    """Plugs or sprigs on a square grid of `spacing_mm`: area over spacing squared, rounded up."""
    return math.ceil(area_m2 / (spacing_mm / 1000) ** 2 - 1e-9)


def seeds_per_area(rate_g_m2: float, seeds_per_kg: float) -> float:
    """Seeds on a square metre at a rate in g/m2."""
    return rate_g_m2 / 1000 * seeds_per_kg
