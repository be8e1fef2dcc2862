"""The fitted models: daily range, soil temperature and frost from monthly means; their numbers come from the data."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from turfplan.climate.curves import LENGTHS
from turfplan.climate.record import DAYS, Curve, Frost


@dataclass(frozen=True, slots=True)
class Models:
    """The coefficients of `data/climate/models.toml`, by table."""

    tables: Mapping[str, Mapping[str, Any]]

    def number(self, table: str, key: str) -> float:
        """One coefficient."""
        return float(self.tables[table][key])

    def line(self, table: str, key: str) -> tuple[float, ...]:
        """A row of coefficients."""
        return tuple(float(x) for x in self.tables[table][key])


def daily_range_c(
    models: Models, mean_c: Sequence[float], rain_mm: Sequence[float], latitude: float
) -> tuple[float, ...]:
    """The mean daily range (maximum less minimum) of each month, degrees C, from the grid's own signals; at least 3."""
    coefficients = models.line("diurnal", "coefficients")
    amplitude = max(mean_c) - min(mean_c)
    mean_rain = math.log(sum(rain_mm) / 12 + 5)
    found = []
    for month, rain in enumerate(rain_mm):
        angle = 2 * math.pi * (month + 0.5) / 12 + (math.pi if latitude < 0 else 0.0)
        signals = (1.0, amplitude, math.log(rain + 5), mean_rain, math.cos(angle), math.sin(angle), abs(latitude))
        found.append(max(3.0, sum(c * s for c, s in zip(coefficients, signals, strict=True))))
    return tuple(found)


def soil_from_air(
    models: Models, air_c: Sequence[float], depth_cm: int, *, periodic: bool = False
) -> tuple[float, ...]:
    """Daily soil temperature at 5 or 10 cm by an exponential lag of daily mean air temperature, degrees C.

    Air below freezing counts only for a share: snow and freezing water keep the soil warm. A periodic curve (normals) is
    run twice, so that the start does not matter; a series starts at its first day's drive.
    """
    table = f"soil_{depth_cm}cm"
    lag, frozen = models.number(table, "lag"), models.number(table, "frozen_share")
    offset, slope = models.number(table, "offset_c"), models.number(table, "slope")
    drive = [offset + (air * slope if air > 0 else air * frozen) for air in air_c]
    soil = drive[0]
    found: list[float] = []
    for _ in range(2 if periodic else 1):
        found = []
        for value in drive:
            soil += lag * (value - soil)
            found.append(soil)
    return tuple(found)


def estimate_frost(
    models: Models, air_min_c: Curve, air_mean_c: Curve, rain_mm: Sequence[float], latitude: float
) -> tuple[Frost | None, Frost | None]:
    """Median last and first frost from the curves, or None twice where frost is rarer than every other year."""
    hottest = air_mean_c.index(max(air_mean_c))
    shift = 0 if latitude >= 0 else 6
    spring_rain = math.log(rain_mm[(3 + shift) % 12] + rain_mm[(4 + shift) % 12] + 5)
    amplitude = max(air_mean_c) - min(air_mean_c)
    risk = {season: _risk(models, f"frost_{season}", air_min_c, air_mean_c) for season in ("spring", "autumn")}
    if sum(risk["autumn"]) < models.number("frost", "rare_count"):
        return None, None
    # Days are counted as in the northern year, where the lines were fitted; the south is half a year away.
    half = 0 if latitude >= 0 else 182
    last = _where(risk["spring"], hottest, -1, models.number("frost_spring", "count"))
    first = _where(risk["autumn"], hottest, 1, models.number("frost_autumn", "count"))
    if last is None or first is None:
        return None, None
    spring = _line(models, "frost_spring", last + half, amplitude, spring_rain) - half
    autumn = _line(models, "frost_autumn", first + half, amplitude, spring_rain) - half
    spread = round(models.number("frost", "one_in_ten_days"))
    words = "estimate from the climate curves, good to two or three weeks"

    def frost(day: float, table: str) -> Frost:
        middle = round(day) % DAYS
        return Frost(middle, middle - spread, middle + spread, words, round(models.number(table, "error_days")))

    return frost(spring, "frost_spring"), frost(autumn, "frost_autumn")


def _risk(models: Models, table: str, air_min_c: Curve, air_mean_c: Curve) -> list[float]:
    """The probability of a freezing minimum on each day of the year."""
    warm, span = max(air_mean_c), max(1e-6, max(air_mean_c) - min(air_mean_c))
    base, more = models.number(table, "spread_summer_c"), models.number(table, "spread_winter_c")
    return [
        0.5 * (1 + math.erf(-low / (base + more * (warm - mean) / span) / math.sqrt(2)))
        for low, mean in zip(air_min_c, air_mean_c, strict=True)
    ]


def _where(risk: Sequence[float], hottest: int, way: int, count: float) -> int | None:
    """The day, going from the hottest one backward or forward, at which the risks have added up to `count`."""
    total = 0.0
    for step in range(DAYS):
        total += risk[(hottest + way * step) % DAYS]
        if total >= count:
            return hottest + way * step
    return None


def _line(models: Models, table: str, day: float, amplitude: float, rain: float) -> float:
    a, b, c, d = models.line(table, "line")
    return a + b * day + c * amplitude + d * rain


def monthly_to_daily_rain(rain_mm: Sequence[float]) -> tuple[float, ...]:
    """Rain in mm a day of each month, as steps: sums come back exactly."""
    return tuple(rain / length for rain, length in zip(rain_mm, LENGTHS, strict=True) for _ in range(length))
