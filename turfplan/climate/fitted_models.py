"""The fitted models: daily range, soil temperature and frost from monthly means.

Their numbers come from the data.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from operator import mul
from typing import Any

from turfplan.calendar_days import DAYS, MONTH_LENGTHS, MONTH_STARTS, each_day
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2
from turfplan.climate.record import Curve, Frost


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


def range_signals(
    mean_c: Sequence[float], rain_mm: Sequence[float], latitude: float, elevation_m: float
) -> tuple[tuple[float, ...], ...]:
    """For each month what the daily range is estimated from, in the order of its coefficients.

    1; annual amplitude of the monthly means (C); ln(rain of the month + 5 mm); ln(mean monthly rain
    + 5 mm); cosine and sine of the month's angle, half a year on in the south; sunshine above the
    air on the month's middle day (MJ/m2); height of the ground (km) times amplitude over 20 C.
    """
    amplitude = max(mean_c) - min(mean_c)
    mean_rain = math.log(sum(rain_mm) / 12 + 5)
    found = []
    for month, (rain, start, length) in enumerate(
        zip(rain_mm, MONTH_STARTS, MONTH_LENGTHS, strict=True)
    ):
        angle = 2 * math.pi * (month + 0.5) / 12 + (math.pi if latitude < 0 else 0.0)
        sun = extraterrestrial_mj_m2(latitude, start + length // 2 + 1)
        height = elevation_m / 1000 * amplitude / 20
        found.append(
            (
                1.0,
                amplitude,
                math.log(rain + 5),
                mean_rain,
                math.cos(angle),
                math.sin(angle),
                sun,
                height,
            )
        )
    return tuple(found)


def daily_range_c(
    models: Models,
    mean_c: Sequence[float],
    rain_mm: Sequence[float],
    latitude: float,
    elevation_m: float,
) -> tuple[float, ...]:
    """The mean daily range (maximum less minimum) of each month, degrees C, from the grid."""
    coefficients = models.line("diurnal", "coefficients")
    least, most = models.number("diurnal", "least_c"), models.number("diurnal", "most_c")
    return tuple(
        min(most, max(least, sum(c * s for c, s in zip(coefficients, signals, strict=True))))
        for signals in range_signals(mean_c, rain_mm, latitude, elevation_m)
    )


def soil_from_air(
    models: Models, air_c: Sequence[float], depth_cm: int, *, periodic: bool = False
) -> tuple[float, ...]:
    """Daily soil temperature (degrees C) at 5 or 10 cm by an exponential lag of the daily mean.

    Air below freezing counts only for a share: snow and freezing water keep the soil warm. A
    periodic curve (normals) is run twice, so that the start does not matter; a series starts at its
    first day's drive.
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
    """Median last and first frost from the curves; None twice where most years have none.

    Where frost misses years its median over all years moves to the depth of winter, so that it is
    there when one year in two has none.
    """
    sure = frost_sure(models, air_min_c, air_mean_c)
    if sure is None:
        return None, None
    coldest = air_min_c.index(min(air_min_c))
    # Days are counted as in the northern year, where the lines were fitted; the south is half a
    # year away, and its summer may be at its height before New Year or after it.
    half = 0 if latitude >= 0 else DAYS // 2
    if air_mean_c.index(max(air_mean_c)) + half >= DAYS:
        half -= DAYS
    found = []
    for season in ("spring", "autumn"):
        day = frost_day(models, season, air_min_c, air_mean_c)
        if day is None:
            return None, None
        table = f"frost_{season}"
        signals = frost_signals(day + half, air_mean_c, rain_mm, latitude)
        line = sum(c * s for c, s in zip(models.line(table, "line"), signals, strict=True)) - half
        found.append((line, round(models.number(table, "error_days"))))
    spread = round(models.number("frost", "one_in_ten_days"))

    def frost(day: float, error_days: int) -> Frost:
        away = (day - coldest + DAYS / 2) % DAYS - DAYS / 2
        middle = round(coldest + sure * away) % DAYS
        return Frost(middle, middle - spread, middle + spread, error_days)

    return frost(*found[0]), frost(*found[1])


def frost_sure(models: Models, air_min_c: Curve, air_mean_c: Curve) -> float | None:
    """How sure it is that a year has frost: from 0, in every other one, to 1; None where it is
    rarer."""
    amplitude = max(air_mean_c) - min(air_mean_c)
    per_amplitude = models.number("frost", "free_per_amplitude")
    colder = models.number("frost", "free_above_c") + per_amplitude * amplitude - min(air_min_c)
    if colder < 0:
        return None
    return min(1.0, colder * amplitude / models.number("frost", "doubt_c_times_amplitude"))


def coldest_night_c(models: Models, coldest_min_c: float, amplitude_c: float) -> float:
    """The coldest night of a middling year, degrees C.

    It follows from the lowest normal minimum and the annual amplitude of the mean.
    """
    constant, per_min, per_amplitude = models.line("coldest_night", "line")
    return constant + per_min * coldest_min_c + per_amplitude * amplitude_c


def frost_day(models: Models, season: str, air_min_c: Curve, air_mean_c: Curve) -> float | None:
    """The day beyond which, seen from the hottest, freezing nights add up to the fitted count.

    None where they do not.

    Counted from 1 January: before the hottest day in spring, after it in autumn, so it may leave 0
    to 364.
    """
    hottest = air_mean_c.index(max(air_mean_c))
    risk = _risk(models, f"frost_{season}", air_min_c, air_mean_c)
    way = -1 if season == "spring" else 1
    return _where(risk, hottest, way, models.number(f"frost_{season}", "count"))


def frost_signals(
    day: float, air_mean_c: Curve, rain_mm: Sequence[float], latitude: float
) -> tuple[float, float, float, float]:
    """What a date of frost is estimated from, in the order of the fitted line.

    1; `frost_day`; annual amplitude (C); ln(rain of spring's middle + 5 mm).
    """
    middle = 3 if latitude >= 0 else 9
    spring_rain = math.log(rain_mm[middle] + rain_mm[middle + 1] + 5)
    return 1.0, day, max(air_mean_c) - min(air_mean_c), spring_rain


def _risk(models: Models, table: str, air_min_c: Curve, air_mean_c: Curve) -> list[float]:
    """The probability of a freezing minimum on each day of the year."""
    warm, span = max(air_mean_c), max(1e-6, max(air_mean_c) - min(air_mean_c))
    base, more = models.number(table, "spread_summer_c"), models.number(table, "spread_winter_c")
    return [
        0.5 * (1 + math.erf(-low / (base + more * (warm - mean) / span) / math.sqrt(2)))
        for low, mean in zip(air_min_c, air_mean_c, strict=True)
    ]


def _where(risk: Sequence[float], hottest: int, way: int, count: float) -> float | None:
    """The day, from the hottest one backward or forward, at which risks add up to `count`."""
    total = 0.0
    for step in range(DAYS):
        more = risk[(hottest + way * step) % DAYS]
        if total + more >= count:
            # Part of a day, so that the date follows the curves without steps.
            return hottest + way * (step - 1 + (count - total) / more)
        total += more
    return None


def monthly_to_daily_rain(rain_mm: Sequence[float]) -> tuple[float, ...]:
    """Rain in mm a day of each month, as steps: sums come back exactly."""
    return each_day([rain / length for rain, length in zip(rain_mm, MONTH_LENGTHS, strict=True)])


def wet_day_signals(
    mean_c: Sequence[float], rain_mm: Sequence[float], latitude: float
) -> tuple[tuple[float, ...], ...]:
    """For each month what the rain of a wet day is estimated from, in the order of its
    coefficients.

    1; ln(rain of the month + 1 mm); annual mean temperature (C); annual amplitude of the monthly
    means (C); distance from the equator (degrees); ln(rain of the wettest month + 1 mm).
    """
    warmth, amplitude = sum(mean_c) / len(mean_c), max(mean_c) - min(mean_c)
    most = math.log(max(rain_mm) + 1)
    return tuple(
        (1.0, math.log(rain + 1), warmth, amplitude, abs(latitude), most) for rain in rain_mm
    )


def wet_days(
    models: Models, mean_c: Sequence[float], rain_mm: Sequence[float], latitude: float
) -> tuple[float, ...]:
    """How many days of each month have 1 mm of rain or more, estimated from monthly normals: its
    rain over what a wet day brings."""
    line = models.line("wet_days", "coefficients")
    least, most = models.number("wet_days", "least_mm"), models.number("wet_days", "most_share")
    signals = wet_day_signals(mean_c, rain_mm, latitude)
    a_day = (math.exp(sum(map(mul, line, month))) for month in signals)
    return tuple(
        min(rain / max(day, least), most * length)
        for rain, day, length in zip(rain_mm, a_day, MONTH_LENGTHS, strict=True)
    )
