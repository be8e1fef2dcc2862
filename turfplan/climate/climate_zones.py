"""Climate zones as rough places: each zone of a country has one cell of the grid that stands for
its land.
"""

import csv
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from turfplan.climate.fitted_models import Models, coldest_night_c, daily_range_c
from turfplan.errors import Problem, TurfplanError, nearest, one_of
from turfplan.message import Message, Number
from turfplan.phrases import climate as phrases
from turfplan.phrases import errors, weather
from turfplan.units import from_inside

# The zone table is laid out by country; without one the words of hardiness and turf zones are meant
# as in the United States.
UNSAID_COUNTRY = "US"
TURF_ZONES: Mapping[str, Callable[[], Message]] = {
    "cool_humid": phrases.zone_cool_humid,
    "transition": phrases.zone_transition,
    "warm_humid": phrases.zone_warm_humid,
    "arid": phrases.zone_arid,
    "cool_arid": phrases.zone_cool_arid,
    "warm_arid": phrases.zone_warm_arid,
}
# USDA hardiness zones are ten degrees F wide from -60 F, their halves a and b five.
_HARDINESS_FROM_F, _HALF_F, _HALVES = -60.0, 5.0, 26


@dataclass(frozen=True, slots=True)
class ZonePlace:
    """The place that stands for a zone of a country, and by how much its months differ from the
    zone's land (C, rms).
    """

    country: str
    zone: str
    latitude: float
    longitude: float
    spread_c: float


def read_zones(lines: Iterable[str]) -> tuple[ZonePlace, ...]:
    """The table of `data/climate/zones.csv`."""
    return tuple(
        ZonePlace(
            row["country"],
            row["zone"],
            float(row["latitude"]),
            float(row["longitude"]),
            float(row["spread_c"]),
        )
        for row in csv.DictReader(lines)
    )


def place_of_zone(table: Sequence[ZonePlace], zone: str, country: str | None) -> ZonePlace:
    """The place of a zone in a country (US where unsaid).

    A zone is one of hardiness (6, 6b), a Köppen class (Cfb) or a turf zone (cool_humid). Raises
    TurfplanError for a country without land in the grid, an unknown zone, and one that the country
    does not have.
    """
    wanted = country or UNSAID_COUNTRY
    here = {row.zone.lower(): row for row in table if row.country == wanted}
    if not here:
        hint = weather.give_coordinates()
        raise TurfplanError(Problem("place.country", weather.no_zones(), wanted, None, hint))
    key = zone.strip().lower().replace(" ", "_").replace("-", "_")
    key = key.removeprefix("usda_").removeprefix("zone_")
    if key in here:
        return here[key]
    known = {row.zone.lower(): row.zone for row in table}
    if key in known:
        message = weather.no_such_zone_in(country=wanted)
        hint = weather.give_coordinates() if country else weather.say_country(example="GB")
    else:
        message = weather.unknown_zone()
        near = nearest(key, known)
        hint = errors.did_you_mean(word=repr(known[near])) if near else weather.a_zone()
    allowed = one_of(row.zone for row in here.values())
    raise TurfplanError(Problem("place.climate_zone", message, repr(zone), allowed, hint))


def stand_in(row: ZonePlace, *, country_said: bool) -> Message:
    """The place that stands for a zone, as the source of a climate names it."""
    if row.zone in TURF_ZONES:
        zone = TURF_ZONES[row.zone]()
    elif row.zone[0].isdigit():
        zone = phrases.zone_hardiness(zone=row.zone)
    else:
        zone = phrases.zone_koppen(zone=row.zone)
    return (phrases.at_zone if country_said else phrases.at_zone_no_country)(
        latitude=Number(row.latitude, "plain"),
        longitude=Number(row.longitude, "plain"),
        zone=zone,
        country=row.country,
    )


def zones_of(
    models: Models,
    mean_c: Sequence[float],
    rain_mm: Sequence[float],
    latitude: float,
    elevation_m: float,
    koppen: str,
) -> tuple[str, ...]:
    """Every zone that a cell of the grid counts to, from its months and its Köppen class."""
    spans = daily_range_c(models, mean_c, rain_mm, latitude, elevation_m)
    lowest = min(mean - span / 2 for mean, span in zip(mean_c, spans, strict=True))
    coldest_f = from_inside(
        coldest_night_c(models, lowest, max(mean_c) - min(mean_c)), "F", "temperature"
    )
    half = min(_HALVES - 1, max(0, math.floor((coldest_f - _HARDINESS_FROM_F) / _HALF_F)))
    number = half // 2 + 1
    warmth, warm = sum(mean_c) / len(mean_c), models.number("turf_zones", "warm_from_c")
    if sum(rain_mm) < models.number("turf_zones", "arid_below_mm"):
        turf: tuple[str, ...] = ("arid", "warm_arid" if warmth >= warm else "cool_arid")
    elif warmth >= warm:
        turf = ("warm_humid",)
    else:
        turf = (
            "transition"
            if warmth >= models.number("turf_zones", "transition_from_c")
            else "cool_humid",
        )
    return (koppen, str(number), f"{number}{'ab'[half % 2]}", *turf)
