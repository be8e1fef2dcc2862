"""The daily account of water in the root zone, after FAO Irrigation and Drainage Paper 56.

It follows chapter 8. Depths in mm. The soil is one profile as deep as the grass will root, in two
parts: the root zone, which may deepen or start anew, and what lies below it. Nothing is lost
between the parts: what drains from the first fills the second, and what drains from the second is
gone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from turfplan.book.entries import Book
from turfplan.calendar_days import each_day, month_totals
from turfplan.climate.record import Climate
from turfplan.records.book_names import FactName, of_family
from turfplan.units import INCH_MM

SATURATED_ET_MM = (
    5.0  # FAO-56 equation for p, page 162: the table's depletion share holds at 5 mm/day
)
MM_IN_M = 1000.0


@dataclass(frozen=True, slots=True)
class SoilWater:
    """What the ground under a lawn holds.

    `capacity_mm_m` is the available water of a metre of soil, `depletion_share` the part that grass
    uses without stress at 5 mm/day.
    """

    name: str
    capacity_mm_m: float
    depletion_share: float
    facts: tuple[FactName, ...] = ()

    def total_mm(self, root_mm: float) -> float:
        """Total available water of a root zone (TAW), equation 82."""
        return self.capacity_mm_m * root_mm / MM_IN_M

    def ready_mm(self, root_mm: float, et_mm: float = SATURATED_ET_MM) -> float:
        """Readily available water (RAW), equation 83, for a day that uses `et_mm`."""
        return depletion_share(self.depletion_share, et_mm) * self.total_mm(root_mm)


def soil_of(book: Book, soil: str, season: str) -> SoilWater:
    """The water side of a USDA texture class such as `clay_loam`.

    `season` is that of the grass, `cool` or `warm`. Raises KeyError for a class that is none.
    """
    names = (
        of_family("water.capacity_{soil}", soil),
        of_family("water.depletion_{season}", season),
        of_family("water.depletion_texture_{soil}", soil),
    )
    capacity, share, texture = (book.si(name) for name in names)
    return SoilWater(soil, capacity, share * texture, names)


def depletion_share(table_share: float, et_mm: float) -> float:
    """Allowable depletion on a day that uses `et_mm`: p = table + 0.04 (5 - ETc) (page 162).

    It lies between 0.1 and 0.8.
    """
    share = table_share + 0.04 * (SATURATED_ET_MM - et_mm)
    return 0.1 if share < 0.1 else min(share, 0.8)


def stress(depletion_mm: float, total_mm: float, ready_mm: float) -> float:
    """Water stress coefficient Ks, 0 to 1; equation 84."""
    if depletion_mm <= ready_mm:
        return 1.0
    return (
        max(0.0, (total_mm - depletion_mm) / (total_mm - ready_mm)) if total_mm > ready_mm else 0.0
    )


class RootZoneWater(NamedTuple):
    """Water missing from field capacity: in the root zone and in the soil below it."""

    root_mm: float
    depletion_mm: float
    below_mm: float

    @property
    def missing_mm(self) -> float:
        """Water missing in the whole profile."""
        return self.depletion_mm + self.below_mm


def reroot(store: RootZoneWater, root_mm: float, profile_mm: float) -> RootZoneWater:
    """The same water seen from another root depth.

    What the roots reach, or leave, changes hands; nothing is lost.
    """
    if root_mm == store.root_mm:
        return store
    if root_mm > store.root_mm:
        reached = (root_mm - store.root_mm) / (profile_mm - store.root_mm)
        moved = store.below_mm * reached
        return RootZoneWater(root_mm, store.depletion_mm + moved, store.below_mm - moved)
    left = store.depletion_mm * (store.root_mm - root_mm) / store.root_mm
    return RootZoneWater(root_mm, store.depletion_mm - left, store.below_mm + left)


def day_flow(
    store: RootZoneWater,
    total_mm: float,
    ready_mm: float,
    et_crop_mm: float,
    rain_mm: float,
    watering_mm: float,
) -> tuple[float, float, RootZoneWater]:
    """One day of the account, equation 85 with stress by equation 84.

    Returns evapotranspiration, water lost, and the store afterwards. `total_mm` and `ready_mm` are
    what the root zone holds and gives without stress, `rain_mm` is what reaches the soil,
    `watering_mm` what sprinklers put down; what is lost left below or ran off.
    """
    root, missing, below = store
    et = et_crop_mm if missing <= ready_mm else stress(missing, total_mm, ready_mm) * et_crop_mm
    depletion = missing - rain_mm - watering_mm + et
    if depletion > total_mm:
        # Grass cannot take more than the root zone holds.
        return et - (depletion - total_mm), 0.0, RootZoneWater(root, total_mm, below)
    if depletion >= 0:
        return et, 0.0, RootZoneWater(root, depletion, below)
    kept = min(-depletion, below)
    return et, -depletion - kept, RootZoneWater(root, 0.0, below - kept)


def effective_rain_share(rain_mm_month: float, et_mm_month: float, storage_mm: float) -> float:
    """Share of a month's rain that grass can use, 0 to 1.

    Pe = SF (0.70917 P^0.82416 - 0.11556) 10^(0.02426 ETc) with the storage factor SF = 0.531747 +
    0.295164 D - 0.057697 D^2 + 0.003804 D^3, in inches (USDA National Engineering Handbook, part
    623, chapter 2, equations 2-84 and 2-85; from TR-21, 1970; written from memory). D holds from
    0.75 to 7 in, the ends of its table. Not more than the rain, nor than the month's use.
    """
    rain, et = rain_mm_month / INCH_MM, et_mm_month / INCH_MM
    storage = min(7.0, max(0.75, storage_mm / INCH_MM))
    if rain <= 0:
        return 0.0
    factor = 0.531747 + 0.295164 * storage - 0.057697 * storage**2 + 0.003804 * storage**3
    effective = factor * (0.70917 * rain**0.82416 - 0.11556) * 10 ** (0.02426 * et)
    return float(min(1.0, max(0.0, min(effective, et) / rain)))


def crop_coefficients(book: Book, season: str, *, monthly: bool) -> tuple[float, ...]:
    """Crop coefficient of mature turf for each month, January first.

    FAO-56 Table 12, or the monthly table of the University of California where `monthly` is asked
    for.
    """
    if monthly:
        return tuple(
            book.si(of_family("water.kc_{season}_month_{month}", season, month))
            for month in range(1, 13)
        )
    return (book.si(of_family("water.kc_{season}", season)),) * 12


def effective_rain_year(
    climate: Climate, kc: Sequence[float], storage_mm: float
) -> tuple[float, ...]:
    """Normal rain of each day of the year that grass can use, by the month's share.

    See `effective_rain_share`.
    """
    rains, ets = month_totals(climate.rain_mm), month_totals(climate.et0_mm)
    shares = [
        effective_rain_share(r, k * e, storage_mm) for r, e, k in zip(rains, ets, kc, strict=True)
    ]
    return tuple(
        rain * share for rain, share in zip(climate.rain_mm, each_day(shares), strict=True)
    )
