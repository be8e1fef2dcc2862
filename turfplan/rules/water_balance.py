"""The daily account of water in the root zone, after chapter 8 of FAO Irrigation and Drainage Paper 56.

Depths in mm. The soil is one profile as deep as the grass will root, in two parts: the root zone, which may deepen or
start anew, and what lies below it. Nothing is lost between the parts: what drains from the first fills the second, and
what drains from the second is gone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from turfplan.agronomy import Book
from turfplan.climate.record import Climate
from turfplan.units import INCH_MM

SATURATED_ET_MM = 5.0  # FAO-56 equation for p, page 162: the table's depletion share holds at 5 mm/day
DAYS_IN_MONTH = 30.4375
MM_IN_M = 1000.0


@dataclass(frozen=True, slots=True)
class Soil:
    """What the ground under a lawn holds and takes in.

    `capacity_mm_m` is the available water of a metre of soil, `depletion_share` the part that grass uses without stress
    at 5 mm/day, `intake_mm_h` the basic infiltration rate.
    """

    name: str
    capacity_mm_m: float
    depletion_share: float
    intake_mm_h: float
    facts: tuple[str, ...] = ()

    def total_mm(self, root_mm: float) -> float:
        """Total available water of a root zone (TAW), equation 82."""
        return self.capacity_mm_m * root_mm / MM_IN_M

    def ready_mm(self, root_mm: float, et_mm: float = SATURATED_ET_MM) -> float:
        """Readily available water (RAW), equation 83, for a day that uses `et_mm`."""
        return depletion_share(self.depletion_share, et_mm) * self.total_mm(root_mm)


def soil_of(book: Book, soil: str, season: str) -> Soil:
    """The water side of a USDA texture class such as `clay_loam`, for a cool- or warm-season grass."""
    names = (
        f"water.capacity_{soil}",
        f"water.depletion_{season}",
        f"water.depletion_texture_{soil}",
        f"water.intake_{soil}",
    )
    capacity, share, texture, intake = (book.si(name) for name in names)
    return Soil(soil, capacity, share * texture, intake, names)


def depletion_share(table_share: float, et_mm: float) -> float:
    """Allowable depletion on a day that uses `et_mm`: p = table + 0.04 (5 - ETc), between 0.1 and 0.8 (page 162)."""
    share = table_share + 0.04 * (SATURATED_ET_MM - et_mm)
    return 0.1 if share < 0.1 else min(share, 0.8)


def stress(depletion_mm: float, total_mm: float, ready_mm: float) -> float:
    """Water stress coefficient Ks, 0 to 1; equation 84."""
    if depletion_mm <= ready_mm:
        return 1.0
    return max(0.0, (total_mm - depletion_mm) / (total_mm - ready_mm)) if total_mm > ready_mm else 0.0


class Store(NamedTuple):
    """Water missing from field capacity: in the root zone and in the soil below it."""

    root_mm: float
    depletion_mm: float
    below_mm: float

    @property
    def missing_mm(self) -> float:
        """Water missing in the whole profile."""
        return self.depletion_mm + self.below_mm


def reroot(store: Store, root_mm: float, profile_mm: float) -> Store:
    """The same water seen from another root depth: what the roots reach (or leave) changes hands, nothing is lost."""
    if root_mm == store.root_mm:
        return store
    if root_mm > store.root_mm:
        reached = (root_mm - store.root_mm) / (profile_mm - store.root_mm)
        moved = store.below_mm * reached
        return Store(root_mm, store.depletion_mm + moved, store.below_mm - moved)
    left = store.depletion_mm * (store.root_mm - root_mm) / store.root_mm
    return Store(root_mm, store.depletion_mm - left, store.below_mm + left)


def day_flow(
    store: Store, total_mm: float, ready_mm: float, et_crop_mm: float, rain_mm: float, watering_mm: float
) -> tuple[float, float, Store]:
    """One day of the account, equation 85 with stress by equation 84: evapotranspiration, water lost, the store afterwards.

    `total_mm` and `ready_mm` are what the root zone holds and gives without stress, `rain_mm` is what reaches the soil,
    `watering_mm` what sprinklers put down; what is lost left below or ran off.
    """
    root, missing, below = store
    et = et_crop_mm if missing <= ready_mm else stress(missing, total_mm, ready_mm) * et_crop_mm
    depletion = missing - rain_mm - watering_mm + et
    if depletion > total_mm:
        # Grass cannot take more than the root zone holds.
        return et - (depletion - total_mm), 0.0, Store(root, total_mm, below)
    if depletion >= 0:
        return et, 0.0, Store(root, depletion, below)
    kept = min(-depletion, below)
    return et, -depletion - kept, Store(root, 0.0, below - kept)


def effective_rain_share(rain_mm_month: float, et_mm_month: float, storage_mm: float) -> float:
    """Share of a month's rain that grass can use, 0 to 1.

    Pe = SF (0.70917 P^0.82416 - 0.11556) 10^(0.02426 ETc) with the storage factor SF = 0.531747 + 0.295164 D -
    0.057697 D^2 + 0.003804 D^3, in inches (USDA National Engineering Handbook, part 623, chapter 2, equations 2-84 and
    2-85; from TR-21, 1970; written from memory). D holds from 0.75 to 7 in, the ends of its table. Not more than the rain, nor than the month's use.
    """
    rain, et = rain_mm_month / INCH_MM, et_mm_month / INCH_MM
    storage = min(7.0, max(0.75, storage_mm / INCH_MM))
    if rain <= 0:
        return 0.0
    factor = 0.531747 + 0.295164 * storage - 0.057697 * storage**2 + 0.003804 * storage**3
    effective = factor * (0.70917 * rain**0.82416 - 0.11556) * 10 ** (0.02426 * et)
    return float(min(1.0, max(0.0, min(effective, et) / rain)))


def daily(values: Sequence[float], first: date, last: date) -> list[float]:
    """Daily normals (365, from 1 January) laid on the days from first to last; 29 February repeats the 28th."""
    found: list[float] = []
    for year in range(first.year, last.year + 1):
        whole = list(values)
        if year % 4 == 0 and (year % 100 or year % 400 == 0):
            whole.insert(59, values[58])
        start = first.timetuple().tm_yday - 1 if year == first.year else 0
        end = last.timetuple().tm_yday if year == last.year else len(whole)
        found.extend(whole[start:end])
    return found


def by_month(values: Sequence[float], first: date, last: date) -> list[float]:
    """A value for each month, January first, laid on the days from first to last."""
    return daily([values[month] for month in _MONTH], first, last)


def crop_coefficients(book: Book, season: str, *, monthly: bool) -> tuple[float, ...]:
    """Crop coefficient of mature turf for each month, January first.

    FAO-56 Table 12, or the monthly table of the University of California where `monthly` is asked for.
    """
    if monthly:
        return tuple(book.si(f"water.kc_{season}_month_{month}") for month in range(1, 13))
    return (book.si(f"water.kc_{season}"),) * 12


def month_totals(values: Sequence[float]) -> tuple[float, ...]:
    """Totals of 365 daily normals by month."""
    ends = (31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365)
    return tuple(sum(values[start:end]) for start, end in zip((0, *ends), ends, strict=False))


def effective_rain_year(climate: Climate, kc: Sequence[float], storage_mm: float) -> tuple[float, ...]:
    """Normal rain of each day of the year that grass can use, by the month's share (see `effective_rain_share`)."""
    rains, ets = month_totals(climate.rain_mm), month_totals(climate.et0_mm)
    shares = [effective_rain_share(r, k * e, storage_mm) for r, e, k in zip(rains, ets, kc, strict=True)]
    return tuple(rain * shares[month_of(day)] for day, rain in enumerate(climate.rain_mm))


_MONTH = tuple(m for m, n in enumerate((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)) for _ in range(n))


def month_of(day_of_year: int) -> int:
    """Month, 0 to 11, of a day of the year counted from 0 (no leap day)."""
    return _MONTH[day_of_year]
