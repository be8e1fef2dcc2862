"""Climate zones as rough places: each zone of a country has one cell of the grid that stands for its land."""

import csv
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from turfplan.climate.models import Models, coldest_night_c, daily_range_c
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.units import from_inside

# The zone table is laid out by country; without one the words of hardiness and turf zones are meant as in the United States.
UNSAID_COUNTRY = "US"
TURF_ZONES = ("cool_humid", "transition", "warm_humid", "arid", "cool_arid", "warm_arid")
# USDA hardiness zones are ten degrees F wide from -60 F, their halves a and b five.
_HARDINESS_FROM_F, _HALF_F, _HALVES = -60.0, 5.0, 26


@dataclass(frozen=True, slots=True)
class ZonePlace:
    """The place that stands for a zone of a country, and by how much its months differ from the zone's land (C, rms)."""

    country: str
    zone: str
    latitude: float
    longitude: float
    spread_c: float


def read_zones(lines: Iterable[str]) -> tuple[ZonePlace, ...]:
    """The table of `data/climate/zones.csv`."""
    return tuple(
        ZonePlace(row["country"], row["zone"], float(row["latitude"]), float(row["longitude"]), float(row["spread_c"]))
        for row in csv.DictReader(lines)
    )


def place_of_zone(table: Sequence[ZonePlace], zone: str, country: str | None) -> ZonePlace:
    """The place of a hardiness zone (6, 6b), Köppen class (Cfb) or turf zone (cool_humid) in a country (US where unsaid).

    Raises TurfplanError for a country without land in the grid, an unknown zone, and one that the country does not have.
    """
    wanted = country or UNSAID_COUNTRY
    here = {row.zone.lower(): row for row in table if row.country == wanted}
    if not here:
        raise TurfplanError(
            Problem("place.country", "has no zones in the climate grid", wanted, None, "give latitude and longitude")
        )
    key = zone.strip().lower().replace(" ", "_").replace("-", "_").removeprefix("usda_").removeprefix("zone_")
    if key in here:
        return here[key]
    known = {row.zone.lower(): row.zone for row in table}
    near = nearest(key, known)
    if key in known:
        hint = "give latitude and longitude" if country else 'say the country: country = "GB"'
        message = f"does not occur in {wanted}"
    else:
        hint = f"did you mean {known[near]!r}?" if near else "a hardiness zone, a Köppen class or a turf zone"
        message = "unknown zone"
    raise TurfplanError(
        Problem("place.climate_zone", message, repr(zone), ", ".join(row.zone for row in here.values()), hint)
    )


def zone_words(row: ZonePlace, *, country_said: bool) -> str:
    """How the source line names the stand-in."""
    if row.zone in TURF_ZONES:
        name = f"the {row.zone.replace('_', ' ')} turf zone"
    elif row.zone[0].isdigit():
        name = f"hardiness zone {row.zone}"
    else:
        name = f"Köppen class {row.zone}"
    unsaid = "" if country_said else ", as no country is given"
    return f"{row.latitude:g}, {row.longitude:g}, which stands for {name} of {row.country}{unsaid}"


def zones_of(
    models: Models, mean_c: Sequence[float], rain_mm: Sequence[float], latitude: float, elevation_m: float, koppen: str
) -> tuple[str, ...]:
    """Every zone that a cell of the grid counts to, from its months and its Köppen class."""
    spans = daily_range_c(models, mean_c, rain_mm, latitude, elevation_m)
    lowest = min(mean - span / 2 for mean, span in zip(mean_c, spans, strict=True))
    coldest_f = from_inside(coldest_night_c(models, lowest, max(mean_c) - min(mean_c)), "F", "temperature")
    half = min(_HALVES - 1, max(0, math.floor((coldest_f - _HARDINESS_FROM_F) / _HALF_F)))
    number = half // 2 + 1
    warmth, warm = sum(mean_c) / len(mean_c), models.number("turf_zones", "warm_from_c")
    if sum(rain_mm) < models.number("turf_zones", "arid_below_mm"):
        turf: tuple[str, ...] = ("arid", "warm_arid" if warmth >= warm else "cool_arid")
    elif warmth >= warm:
        turf = ("warm_humid",)
    else:
        turf = ("transition" if warmth >= models.number("turf_zones", "transition_from_c") else "cool_humid",)
    return (koppen, str(number), f"{number}{'ab'[half % 2]}", *turf)
