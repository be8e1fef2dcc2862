"""Reference evapotranspiration from weather, by the numbered equations of FAO Irrigation and Drainage Paper 56 (1998).

Symbols follow the paper: T air temperature (C), e vapour pressure (kPa), R radiation (MJ/m2/day), u wind speed (m/s),
ETo reference evapotranspiration (mm/day) of a short, well watered grass. Plain floats in and out, so that thirty years
of days take a fraction of a second without any array library.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import acos, cos, exp, log, pi, radians, sin, sqrt, tan

SOLAR_CONSTANT_MJ_M2_MIN = 0.0820
STEFAN_BOLTZMANN_MJ_K4_M2 = 4.903e-9
ALBEDO = 0.23
MJ_TO_MM = 0.408
DAYS_IN_YEAR_TABLE = 366


def pressure_kpa(elevation_m: float) -> float:
    """Atmospheric pressure at a height above the sea; equation 7."""
    return float(101.3 * ((293.0 - 0.0065 * elevation_m) / 293.0) ** 5.26)


def psychrometric_kpa_c(air_pressure_kpa: float) -> float:
    """Psychrometric constant; equation 8."""
    return 0.665e-3 * air_pressure_kpa


def saturation_kpa(air_c: float) -> float:
    """Saturation vapour pressure at a temperature; equation 11."""
    return 0.6108 * exp(17.27 * air_c / (air_c + 237.3))


def mean_saturation_kpa(min_c: float, max_c: float) -> float:
    """Mean saturation vapour pressure of a day, the mean of those at its extremes; equation 12."""
    return (saturation_kpa(min_c) + saturation_kpa(max_c)) / 2


def saturation_slope_kpa_c(air_c: float) -> float:
    """Slope of the saturation vapour pressure curve; equation 13."""
    return 4098.0 * saturation_kpa(air_c) / (air_c + 237.3) ** 2


def vapour_from_dew_point_kpa(dew_point_c: float) -> float:
    """Actual vapour pressure from the dew point; equation 14. With the day's minimum in its place: equation 48."""
    return saturation_kpa(dew_point_c)


def vapour_from_wet_bulb_kpa(
    dry_c: float, wet_c: float, air_pressure_kpa: float, coefficient: float = 0.000662
) -> float:
    """Actual vapour pressure from a ventilated psychrometer; equations 15 and 16."""
    return saturation_kpa(wet_c) - coefficient * air_pressure_kpa * (dry_c - wet_c)


def vapour_from_humidity_kpa(min_c: float, max_c: float, min_percent: float, max_percent: float) -> float:
    """Actual vapour pressure from the extremes of relative humidity; equation 17."""
    return (saturation_kpa(min_c) * max_percent + saturation_kpa(max_c) * min_percent) / 200.0


def vapour_from_mean_humidity_kpa(min_c: float, max_c: float, mean_percent: float) -> float:
    """Actual vapour pressure from the mean relative humidity; equation 19."""
    return mean_saturation_kpa(min_c, max_c) * mean_percent / 100.0


def _sun(latitude_deg: float, day_of_year: int) -> tuple[float, float, float, float]:
    """Latitude (rad), declination (24), sunset hour angle (25), inverse relative distance (23); polar days are whole."""
    latitude = radians(latitude_deg)
    angle = 2 * pi * day_of_year / 365
    declination = 0.409 * sin(angle - 1.39)
    cosine = -tan(latitude) * tan(declination)
    return latitude, declination, acos(min(1.0, max(-1.0, cosine))), 1 + 0.033 * cos(angle)


def extraterrestrial_mj_m2(latitude_deg: float, day_of_year: int) -> float:
    """Daily radiation at the top of the atmosphere (Ra); equations 21 to 25. Day of year from 1; south is negative."""
    latitude, declination, sunset, distance = _sun(latitude_deg, day_of_year)
    beam = sunset * sin(latitude) * sin(declination) + cos(latitude) * cos(declination) * sin(sunset)
    return max(0.0, 24 * 60 / pi * SOLAR_CONSTANT_MJ_M2_MIN * distance * beam)


def daylight_hours(latitude_deg: float, day_of_year: int) -> float:
    """Greatest possible hours of sunshine (N); equation 34."""
    return 24 / pi * _sun(latitude_deg, day_of_year)[2]


def extraterrestrial_year_mj_m2(latitude_deg: float) -> tuple[float, ...]:
    """Ra of every day of a leap year, indexed by day of year less 1."""
    return tuple(extraterrestrial_mj_m2(latitude_deg, day) for day in range(1, DAYS_IN_YEAR_TABLE + 1))


def solar_from_sunshine_mj_m2(ra_mj_m2: float, sunshine_hours: float, possible_hours: float) -> float:
    """Solar radiation (Rs) from hours of bright sunshine, with a = 0.25 and b = 0.50; equation 35."""
    return (0.25 + 0.50 * sunshine_hours / possible_hours) * ra_mj_m2


def solar_from_temperatures_mj_m2(ra_mj_m2: float, min_c: float, max_c: float, *, coastal: bool = False) -> float:
    """Solar radiation from the day's range of temperature, coefficient 0.16 inland, 0.19 by the sea; equation 50."""
    coefficient = 0.19 if coastal else 0.16
    return min(coefficient * sqrt(max(0.0, max_c - min_c)), 0.75) * ra_mj_m2


def clear_sky_mj_m2(ra_mj_m2: float, elevation_m: float) -> float:
    """Solar radiation under a clear sky (Rso); equation 37."""
    return (0.75 + 2e-5 * elevation_m) * ra_mj_m2


def net_shortwave_mj_m2(rs_mj_m2: float) -> float:
    """Net solar radiation of grass (Rns), albedo 0.23; equation 38."""
    return (1 - ALBEDO) * rs_mj_m2


def net_longwave_mj_m2(min_c: float, max_c: float, ea_kpa: float, rs_mj_m2: float, rso_mj_m2: float) -> float:
    """Net outgoing longwave radiation (Rnl); equation 39. The ratio Rs/Rso counts as 1 at most."""
    emitted = STEFAN_BOLTZMANN_MJ_K4_M2 * ((max_c + 273.16) ** 4 + (min_c + 273.16) ** 4) / 2
    clearness = min(1.0, rs_mj_m2 / rso_mj_m2) if rso_mj_m2 > 0 else 1.0
    return emitted * (0.34 - 0.14 * sqrt(ea_kpa)) * (1.35 * clearness - 0.35)


def soil_heat_month_mj_m2(before_c: float, after_c: float) -> float:
    """Soil heat flux of a month (G) from the mean temperatures of the months before and after; equation 43."""
    return 0.07 * (after_c - before_c)


def wind_at_2m_m_s(wind_m_s: float, height_m: float) -> float:
    """Wind speed at 2 m from that measured at another height over grass; equation 47."""
    return wind_m_s * 4.87 / log(67.8 * height_m - 5.42)


def penman_monteith_mm(
    mean_c: float,
    net_radiation_mj_m2: float,
    wind_2m_m_s: float,
    es_kpa: float,
    ea_kpa: float,
    gamma_kpa_c: float,
    soil_heat_mj_m2: float = 0.0,
) -> float:
    """FAO Penman–Monteith reference evapotranspiration of a day; equation 6."""
    slope = saturation_slope_kpa_c(mean_c)
    radiation = MJ_TO_MM * slope * (net_radiation_mj_m2 - soil_heat_mj_m2)
    drying = gamma_kpa_c * 900.0 / (mean_c + 273.0) * wind_2m_m_s * (es_kpa - ea_kpa)
    return (radiation + drying) / (slope + gamma_kpa_c * (1 + 0.34 * wind_2m_m_s))


def hargreaves_mm(min_c: float, max_c: float, ra_mj_m2: float, mean_c: float | None = None) -> float:
    """Hargreaves reference evapotranspiration of a day from its temperatures alone; equation 52.

    `mean_c` defaults to the middle of the extremes, as in the paper. Never below 0 (deep frost, or extremes reversed).
    """
    mean = (min_c + max_c) / 2 if mean_c is None else mean_c
    return max(0.0, 0.0023 * (mean + 17.8) * sqrt(max(0.0, max_c - min_c)) * MJ_TO_MM * ra_mj_m2)


@dataclass(frozen=True, slots=True)
class DayWeather:
    """The weather of one day; what was not measured is None and is estimated as FAO-56 chapter 3 says."""

    day_of_year: int
    min_c: float
    max_c: float
    solar_mj_m2: float | None = None
    vapour_kpa: float | None = None
    wind_2m_m_s: float | None = None


def et0_mm(day: DayWeather, latitude_deg: float, elevation_m: float) -> float:
    """Reference evapotranspiration of a day by the best method its data allow.

    Penman–Monteith where solar radiation, vapour pressure and wind are all known; else Hargreaves (equation 52).
    """
    ra = extraterrestrial_mj_m2(latitude_deg, day.day_of_year)
    return _et0_mm(day, ra, elevation_m, psychrometric_kpa_c(pressure_kpa(elevation_m)))


def _et0_mm(day: DayWeather, ra_mj_m2: float, elevation_m: float, gamma_kpa_c: float) -> float:
    low, high, solar, vapour, wind = day.min_c, day.max_c, day.solar_mj_m2, day.vapour_kpa, day.wind_2m_m_s
    if solar is None or vapour is None or wind is None:
        return hargreaves_mm(low, high, ra_mj_m2)
    longwave = net_longwave_mj_m2(low, high, vapour, solar, clear_sky_mj_m2(ra_mj_m2, elevation_m))
    net = net_shortwave_mj_m2(solar) - longwave
    return max(
        0.0, penman_monteith_mm((low + high) / 2, net, wind, mean_saturation_kpa(low, high), vapour, gamma_kpa_c)
    )


def et0_series_mm(days: Iterable[DayWeather], latitude_deg: float, elevation_m: float) -> tuple[float, ...]:
    """`et0_mm` of many days of one place: the sun of each day of the year is computed once."""
    sun = extraterrestrial_year_mj_m2(latitude_deg)
    gamma = psychrometric_kpa_c(pressure_kpa(elevation_m))
    return tuple(_et0_mm(day, sun[day.day_of_year - 1], elevation_m, gamma) for day in days)


def hargreaves_series_mm(
    min_c: Sequence[float], max_c: Sequence[float], days_of_year: Sequence[int], latitude_deg: float
) -> tuple[float, ...]:
    """Hargreaves reference evapotranspiration of many days of one place; the three sequences are of one length."""
    sun = extraterrestrial_year_mj_m2(latitude_deg)
    return tuple(
        hargreaves_mm(low, high, sun[day - 1]) for low, high, day in zip(min_c, max_c, days_of_year, strict=True)
    )
