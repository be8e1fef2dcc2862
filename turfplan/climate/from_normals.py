"""Builds the climate of a place from monthly means, or whatever better is known."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from turfplan.calendar_days import DAYS, MONTH_LENGTHS, month_totals
from turfplan.climate.daily_curves import daily_curve
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.climate.fitted_models import (
    Models,
    coldest_night_c,
    daily_range_c,
    estimate_frost,
    monthly_to_daily_rain,
    soil_from_air,
    wet_days,
)
from turfplan.climate.record import Climate, Frost
from turfplan.message import Message


@dataclass(frozen=True, slots=True)
class Spot:
    """A place: coordinates, zone, Köppen class, state; elevation in m where the user gave one."""

    latitude: float
    longitude: float
    timezone: str
    koppen: str | None = None
    elevation_m: float | None = None
    state: str | None = None


@dataclass(frozen=True, slots=True)
class Normals:
    """Monthly or daily normals as they were read.

    Twelve or 365 values each, degrees C and mm (a month, or a day).

    Minimum, maximum and rain may be missing (rain must be put in before a climate is built); frost
    dates and daily reference evapotranspiration (365 values) are given where the file holds them,
    the coldest night of a usual year where there were years to take it from.
    `elevation_m` is the height of the ground that they hold for.
    """

    mean_c: tuple[float, ...]
    rain_mm: tuple[float, ...] | None
    min_c: tuple[float, ...] | None = None
    max_c: tuple[float, ...] | None = None
    last_frost: Frost | None = None
    first_frost: Frost | None = None
    frost_known: bool = False
    elevation_m: float | None = None
    et0_mm: tuple[float, ...] | None = None
    coldest_night_c: float | None = None

    def months_c(self) -> tuple[float, ...]:
        """The mean temperature of each month."""
        return _months_of(self.mean_c)

    def months_mm(self) -> tuple[float, ...]:
        """The rain of each month; raises ValueError where there is none."""
        if self.rain_mm is None:
            raise ValueError("normals without rain")
        return _monthly(self.rain_mm)


@dataclass(frozen=True, slots=True)
class ClimateBasis:
    """What a climate rests on, and how far it is off: a date by days, a daily mean by degrees C."""

    source: Message
    error_days: int
    air_error_c: float
    attribution: str = ""


Frosts = tuple[Frost | None, Frost | None]


def build_climate(
    models: Models, spot: Spot, normals: Normals, basis: ClimateBasis, frosts: Frosts = (None, None)
) -> Climate:
    """Daily curves, soil, frost and reference evapotranspiration from normals.

    The last and the first frost of `frosts` win over those of the normals, these over estimates.
    Evapotranspiration is that of the normals, else Hargreaves'. Where the height of the place is
    given, temperatures are brought to it from the height that the normals hold for. Raises
    ValueError for normals without rain.
    """
    normals = at_height(models, normals, spot.elevation_m)
    mean, monthly_rain = _curve(normals.mean_c), normals.months_mm()
    whole = normals.rain_mm is not None and len(normals.rain_mm) == DAYS
    rain = normals.rain_mm if whole and normals.rain_mm else monthly_to_daily_rain(monthly_rain)
    low, high = _low_and_high(models, normals, mean, monthly_rain, spot.latitude)
    last, first = normals.last_frost, normals.first_frost
    if not normals.frost_known:
        last, first = estimate_frost(models, low, mean, monthly_rain, spot.latitude)
    soil_error_c = (models.number("soil_10cm", "error_c") ** 2 + basis.air_error_c**2) ** 0.5
    coldest, coldest_error = _coldest(models, normals, low, mean)
    return Climate(
        latitude=spot.latitude,
        longitude=spot.longitude,
        elevation_m=spot.elevation_m,
        timezone=spot.timezone,
        koppen=spot.koppen,
        source=basis.source,
        error_days=basis.error_days,
        air_error_c=basis.air_error_c,
        soil_error_c=round(soil_error_c, 2),
        air_mean_c=mean,
        air_min_c=low,
        air_max_c=high,
        rain_mm=tuple(rain),
        soil_5cm_c=soil_from_air(models, mean, 5, periodic=True),
        soil_10cm_c=soil_from_air(models, mean, 10, periodic=True),
        et0_mm=normals.et0_mm or _hargreaves(low, high, spot.latitude),
        last_frost=frosts[0] or last,
        first_frost=frosts[1] or first,
        attribution=basis.attribution,
        state=spot.state,
        soil_error_days=max(basis.error_days, round(models.number("bands", "soil_days"))),
        coldest_night_c=coldest,
        coldest_error_c=coldest_error,
        wet_days=wet_days(models, _months_of(normals.mean_c), monthly_rain, spot.latitude),
        wet_days_error=models.number("wet_days", "error_share"),
    )


def _coldest(
    models: Models, normals: Normals, low: Sequence[float], mean: Sequence[float]
) -> tuple[float, float]:
    """The coldest night of a usual year and its error, degC: of real years, else estimated."""
    if normals.coldest_night_c is not None:
        return normals.coldest_night_c, models.number("coldest_night", "error_of_years_c")
    night = coldest_night_c(models, min(low), max(mean) - min(mean))
    return night, models.number("coldest_night", "error_c")


def _hargreaves(low: Sequence[float], high: Sequence[float], latitude: float) -> tuple[float, ...]:
    """Reference evapotranspiration of each day, mm, from its extremes (degrees C)."""
    return tuple(
        hargreaves_mm(a, b, extraterrestrial_mj_m2(latitude, day + 1))
        for day, (a, b) in enumerate(zip(low, high, strict=True))
    )


def _low_and_high(
    models: Models,
    normals: Normals,
    mean: Sequence[float],
    monthly_rain: Sequence[float],
    latitude: float,
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The lowest and highest temperature of each day (degC).

    As read, else half the estimated daily range about the mean.
    """
    if normals.min_c is not None and normals.max_c is not None:
        return _curve(normals.min_c), _curve(normals.max_c)
    spans = daily_curve(
        daily_range_c(
            models, _months_of(normals.mean_c), monthly_rain, latitude, normals.elevation_m or 0.0
        )
    )
    low = tuple(m - s / 2 for m, s in zip(mean, spans, strict=True))
    high = tuple(m + s / 2 for m, s in zip(mean, spans, strict=True))
    return low, high


def at_height(models: Models, normals: Normals, elevation_m: float | None) -> Normals:
    """Normals brought to another height by the lapse rate.

    As they are where one of the heights is not known.
    """
    if elevation_m is None or normals.elevation_m is None:
        return normals
    change = models.number("lapse", "c_per_m") * (elevation_m - normals.elevation_m)

    def moved(values: tuple[float, ...]) -> tuple[float, ...]:
        return tuple(value + change for value in values)

    return replace(
        normals,
        mean_c=moved(normals.mean_c),
        min_c=normals.min_c and moved(normals.min_c),
        max_c=normals.max_c and moved(normals.max_c),
        coldest_night_c=(
            None if normals.coldest_night_c is None else normals.coldest_night_c + change
        ),
        elevation_m=elevation_m,
    )


def _curve(values: Sequence[float]) -> tuple[float, ...]:
    return tuple(values) if len(values) == DAYS else daily_curve(values)


def _months_of(values: Sequence[float]) -> tuple[float, ...]:
    if len(values) == 12:
        return tuple(values)
    return tuple(
        part / length for part, length in zip(_monthly(values), MONTH_LENGTHS, strict=True)
    )


def _monthly(values: Sequence[float]) -> tuple[float, ...]:
    """Monthly sums of daily values; monthly values as they are."""
    return tuple(values) if len(values) == 12 else month_totals(values)
