"""A run of real days: temperatures and rain, with holes where nothing is known."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class DailySeries:
    """Days without a break; degrees Celsius and mm; None where a value is missing or was flagged."""

    dates: tuple[date, ...]
    min_c: tuple[float | None, ...]
    max_c: tuple[float | None, ...]
    mean_c: tuple[float | None, ...]
    rain_mm: tuple[float | None, ...]

    def whole_years(self) -> int:
        """How many calendar years have a temperature on nine days of ten or more."""
        known: dict[int, int] = {}
        for day, mean in zip(self.dates, self.mean_c, strict=True):
            known[day.year] = known.get(day.year, 0) + (mean is not None)
        return sum(count >= 0.9 * 365 for count in known.values())
