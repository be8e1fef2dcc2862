"""What is fetched in bags from a shop, where a truck would come for too little or cannot come."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.records.book_names import FactName, of_material
from turfplan.units import System
from turfplan.work.drafts import Load
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import counted, mixture


@dataclass(frozen=True, slots=True)
class Bags:
    """So many bags of one material, each of `size_m3`; `fact` says how large they are."""

    count: int
    size_m3: float
    fact: FactName

    @property
    def volume_m3(self) -> float:
        """What all of them hold."""
        return self.count * self.size_m3


def bags_of(setting: ResolvedLawn, shares: Mapping[str, float], loose_m3: float) -> dict[str, Bags]:
    """Whole bags of each part of a mix, so that none is short."""
    found = {}
    for item, share in shares.items():
        if share <= 0:
            continue
        us = setting.system is System.US
        fact = of_material(item, "bag_us" if us else "bag_metric")
        size_m3 = setting.book.si(fact)
        found[item] = Bags(counted(loose_m3 * share, size_m3), size_m3, fact)
    return found


def car_trips(setting: ResolvedLawn, shares: Mapping[str, float], loose_m3: float) -> int:
    """How often a car goes for so much of a mix in bags; at least once."""
    density = {item: setting.book.si(of_material(item, "density")) for item in shares}
    mass_kg = mixture(loose_m3, shares, density).mass_kg
    return max(1, counted(mass_kg, setting.book.si("delivery.car_load")))


def least_bulk_m3(setting: ResolvedLawn) -> float:
    """The least that comes loose, m3: what the supplier said, else the book's figure."""
    asked = setting.brief.delivery.least_load_m3
    return setting.book.si("delivery.least_bulk") if asked is None else asked


def in_bags(setting: ResolvedLawn, loose_m3: float) -> bool:
    """Whether so much of one material is fetched in bags: it is asked for so, or less than comes
    loose.
    """
    asked = setting.brief.delivery.form
    return asked == "bags" or (asked is None and loose_m3 < least_bulk_m3(setting))


def bagged(setting: ResolvedLawn, loads: Sequence[Load]) -> list[Load]:
    """The loads of one session, as they are brought: one in bags where each is less than comes
    loose and they are few enough to carry, or where no truck comes.

    Closed bags keep dry, so that one errand serves all passes.
    """
    asked, total_m3 = setting.brief.delivery.form, sum(load.loose_m3 for load in loads)
    small = max((load.loose_m3 for load in loads), default=0.0) < least_bulk_m3(setting)
    few = small and total_m3 <= setting.book.si("delivery.bags_most")
    if not loads or asked == "bulk" or not (asked == "bags" or few):
        return list(loads)
    passes = tuple(dict.fromkeys(number for load in loads for number in load.passes))
    return [replace(loads[0], passes=passes, loose_m3=total_m3, strips=None, bags=True)]
