"""Reference evapotranspiration from weather, by the numbered equations of FAO-56 (1998).

Symbols follow the paper: T air temperature (C), e vapour pressure (kPa), R radiation (MJ/m2/day), u
wind speed (m/s), ETo reference evapotranspiration (mm/day) of a short, well watered grass. Plain
floats in and out, so that thirty years of days take a fraction of a second without any array
library.
"""

from dataclasses import dataclass
from math import acos, cos, exp, log, pi, radians, sin, sqrt, tan

SOLAR_CONSTANT_MJ_M2_MIN = 0.0820
STEFAN_BOLTZMANN_MJ_K4_M2 = 4.903e-9
ALBEDO = 0.23
MJ_TO_MM = 0.408


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
    """Actual vapour pressure from the dew point; equation 14.

    With the day's minimum in its place: equation 48.
    """
    return saturation_kpa(dew_point_c)


def vapour_from_mean_humidity_kpa(min_c: float, max_c: float, mean_percent: float) -> float:
    """Actual vapour pressure from the mean relative humidity; equation 19."""
    return mean_saturation_kpa(min_c, max_c) * mean_percent / 100.0


def extraterrestrial_mj_m2(latitude_deg: float, day_of_year: int) -> float:
    """Daily radiation at the top of the atmosphere (Ra); equations 21 to 25.

    Days of the year count from 1; south is negative.
    """
    latitude, angle = radians(latitude_deg), 2 * pi * day_of_year / 365
    declination, distance = 0.409 * sin(angle - 1.39), 1 + 0.033 * cos(angle)
    # Polar days are whole, polar nights too.
    sunset = acos(min(1.0, max(-1.0, -tan(latitude) * tan(declination))))
    beam = sunset * sin(latitude) * sin(declination) + cos(latitude) * cos(declination) * sin(
        sunset
    )
    return max(0.0, 24 * 60 / pi * SOLAR_CONSTANT_MJ_M2_MIN * distance * beam)


def daylight_hours(latitude_deg: float, day_of_year: int) -> float:
    """Hours of daylight (N); equation 34, with the sunset hour angle of equation 25.

    Days of the year count from 1; south is negative.
    """
    declination = 0.409 * sin(2 * pi * day_of_year / 365 - 1.39)
    latitude = radians(latitude_deg)
    sunset = acos(min(1.0, max(-1.0, -tan(latitude) * tan(declination))))
    return 24 / pi * sunset


def clear_sky_mj_m2(ra_mj_m2: float, elevation_m: float) -> float:
    """Solar radiation under a clear sky (Rso); equation 37."""
    return (0.75 + 2e-5 * elevation_m) * ra_mj_m2


def net_shortwave_mj_m2(rs_mj_m2: float) -> float:
    """Net solar radiation of grass (Rns), albedo 0.23; equation 38."""
    return (1 - ALBEDO) * rs_mj_m2


def net_longwave_mj_m2(
    min_c: float, max_c: float, ea_kpa: float, rs_mj_m2: float, rso_mj_m2: float
) -> float:
    """Net outgoing longwave radiation (Rnl); equation 39. The ratio Rs/Rso counts as 1 at most."""
    emitted = STEFAN_BOLTZMANN_MJ_K4_M2 * ((max_c + 273.16) ** 4 + (min_c + 273.16) ** 4) / 2
    clearness = min(1.0, rs_mj_m2 / rso_mj_m2) if rso_mj_m2 > 0 else 1.0
    return emitted * (0.34 - 0.14 * sqrt(ea_kpa)) * (1.35 * clearness - 0.35)


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


def hargreaves_mm(
    min_c: float, max_c: float, ra_mj_m2: float, mean_c: float | None = None
) -> float:
    """Hargreaves reference evapotranspiration of a day from its temperatures alone; equation 52.

    `mean_c` defaults to the middle of the extremes, as in the paper. Never below 0 (deep frost, or
    extremes reversed).
    """
    mean = (min_c + max_c) / 2 if mean_c is None else mean_c
    return max(0.0, 0.0023 * (mean + 17.8) * sqrt(max(0.0, max_c - min_c)) * MJ_TO_MM * ra_mj_m2)


@dataclass(frozen=True, slots=True)
class DayWeather:
    """The weather of one day, whole.

    Extremes (C), solar radiation (MJ/m2), vapour pressure (kPa), wind at 2 m (m/s).
    """

    day_of_year: int
    min_c: float
    max_c: float
    solar_mj_m2: float
    vapour_kpa: float
    wind_2m_m_s: float


def et0_mm(day: DayWeather, latitude_deg: float, elevation_m: float) -> float:
    """Reference evapotranspiration of a day by Penman–Monteith with radiation as in chapter 3.

    Never below 0.
    """
    low, high, solar, vapour = day.min_c, day.max_c, day.solar_mj_m2, day.vapour_kpa
    clear = clear_sky_mj_m2(extraterrestrial_mj_m2(latitude_deg, day.day_of_year), elevation_m)
    net = net_shortwave_mj_m2(solar) - net_longwave_mj_m2(low, high, vapour, solar, clear)
    gamma = psychrometric_kpa_c(pressure_kpa(elevation_m))
    mean, saturated = (low + high) / 2, mean_saturation_kpa(low, high)
    return max(0.0, penman_monteith_mm(mean, net, day.wind_2m_m_s, saturated, vapour, gamma))
