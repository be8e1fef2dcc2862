"""A run of real days of weather, with holes where nothing is known."""

from dataclasses import dataclass
from datetime import date

from turfplan.calendar_days import DAYS

Column = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class DailySeries:
    """Days without a break; degrees Celsius and mm a day.

    None where a value is missing or was flagged.

    `et0_mm` (reference evapotranspiration) is None as a whole where the source has neither it nor
    what it is worked out from.
    """

    dates: tuple[date, ...]
    tmin_c: Column
    tmax_c: Column
    tmean_c: Column
    rain_mm: Column
    et0_mm: Column | None = None

    def whole_years(self, share: float) -> tuple[int, ...]:
        """The calendar years with a mean temperature on at least such a share of their days."""
        known: dict[int, int] = {}
        for day, mean in zip(self.dates, self.tmean_c, strict=True):
            known[day.year] = known.get(day.year, 0) + (mean is not None)
        return tuple(year for year, count in sorted(known.items()) if count >= share * DAYS)

    def gaps(self) -> tuple[int, int]:
        """Days without a mean temperature, and the longest run of them."""
        missing = longest = run = 0
        for mean in self.tmean_c:
            run = run + 1 if mean is None else 0
            missing += mean is None
            longest = max(longest, run)
        return missing, longest
