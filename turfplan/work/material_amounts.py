"""How much mix a fill needs, its weight, how it is sold, and how deep a load reaches."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from turfplan.allotment import allotted
from turfplan.units import CUBIC_YARD_M3, System


@dataclass(frozen=True, slots=True)
class Mixture:
    """Loose material: total volume in m3, volume of each part in m3, mass in kg."""

    loose_m3: float
    parts_m3: Mapping[str, float]
    mass_kg: float


def loose_volume_m3(settled_m3: float, settle_share: float) -> float:
    """The loose m3 that settle to `settled_m3`, with the allowance added (0.1 adds 10 %)."""
    return settled_m3 * (1 + settle_share)


def mixture(
    loose_m3: float, parts: Mapping[str, float], density_kg_m3: Mapping[str, float]
) -> Mixture:
    """The parts and the weight of a loose mix; `parts` are shares of volume that add up to 1."""
    volumes = {item: loose_m3 * share for item, share in parts.items()}
    return Mixture(
        loose_m3, volumes, sum(volume * density_kg_m3[item] for item, volume in volumes.items())
    )


def sold_step_m3(system: System) -> float:
    """The steps in which loose material is sold, m3: quarters of a cubic yard, tenths of a cubic
    metre."""
    return CUBIC_YARD_M3 / 4 if system is System.US else 0.1


def sold_volume_m3(loose_m3: float, system: System) -> float:
    """The volume to order, m3: rounded up to how it is sold."""
    return rounded_up_m3(loose_m3, sold_step_m3(system))


def rounded_up_m3(loose_m3: float, step_m3: float) -> float:
    """A volume, m3, rounded up to whole steps in which it is sold."""
    return math.ceil(loose_m3 / step_m3 - 1e-9) * step_m3


def truck_loads_m3(
    volume_m3: float, limit_m3: float | None, step_m3: float = 0.0
) -> tuple[float, ...]:
    """An order in truckloads that are as equal as the steps in which it is sold let them be, m3.

    None is over the limit, and they add up to the order; one load without a limit. Where no whole
    steps do (a limit below one, a volume between two; no step) they are equal.
    """
    if limit_m3 is None or volume_m3 <= limit_m3:
        return (volume_m3,)
    count = math.ceil(volume_m3 / limit_m3 - 1e-9)
    steps = volume_m3 / step_m3 if step_m3 else 0.0
    most = math.floor(limit_m3 / step_m3 + 1e-9) if step_m3 else 0
    if most < 1 or not math.isclose(steps, round(steps), rel_tol=0.0, abs_tol=1e-6):
        return (volume_m3 / count,) * count
    count = max(count, -(-round(steps) // most))
    return allotted((volume_m3 / count,) * count, step_m3, volume_m3)


def depth_of_load_mm(loose_m3: float, area_m2: float, settle_share: float) -> float:
    """How deep a quoted load lies once settled over an area, mm."""
    return loose_m3 / (1 + settle_share) / area_m2 * 1000


def counted(total: float, each: float) -> int:
    """How many bags, barrows or bales of size `each` hold `total`; never too few."""
    return math.ceil(total / each - 1e-9)
