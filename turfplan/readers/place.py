"""Finds a place by postal code, coordinates or zone, and reads its climate from what is known best."""

import math
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from turfplan.brief import Place
from turfplan.climate.building import Normals, Spot, build_climate
from turfplan.climate.grid import Grid, Months, months_at, open_grid
from turfplan.climate.models import Models
from turfplan.climate.real_years import RealYear, real_years
from turfplan.climate.record import Climate, Frost, day_index
from turfplan.climate.zones import ZonePlace, place_of_zone, read_zones, zone_words
from turfplan.errors import Problem, TurfplanError
from turfplan.readers.postal import postal_place
from turfplan.readers.timezones import timezone_at
from turfplan.units import System, read_as


@lru_cache(maxsize=1)
def load_grid() -> Grid:
    """The packed world grid that comes with turfplan."""
    return open_grid((files("turfplan") / "data" / "climate" / "grid.bin").read_bytes())


@lru_cache(maxsize=1)
def load_models() -> Models:
    """The fitted models that come with turfplan."""
    return Models(tomllib.loads((files("turfplan") / "data" / "climate" / "models.toml").read_text(encoding="utf-8")))


def load_zones() -> tuple[ZonePlace, ...]:
    """The places that stand for climate zones, by country."""
    text = (files("turfplan") / "data" / "climate" / "zones.csv").read_text(encoding="utf-8")
    return read_zones(text.splitlines())


def climate_at(latitude: float, longitude: float, *, elevation_m: float | None = None) -> Climate:
    """The climate of coordinates from the packed grid; raises TurfplanError for the sea, a pole, or anything off the grid."""
    place = Place(latitude=latitude, longitude=longitude)
    if elevation_m is not None:
        place = place.model_copy(update={"elevation_mm": elevation_m * 1000})
    return climate_of(place, Path())


@dataclass(frozen=True, slots=True)
class Located:
    """The climate of a place, the real years of the user's series where there is one, and what the user must know."""

    climate: Climate
    years: tuple[RealYear, ...] = ()
    notes: tuple[str, ...] = ()


def climate_of(place: Place, folder: Path) -> Climate:
    """The climate of a place in a brief; as `located`."""
    return located(place, folder).climate


def located(place: Place, folder: Path, *, fall_back: bool = False) -> Located:
    """The climate of a place in a brief: the user's own normals, else the grid; frost dates of the brief win over both.

    File names start from `folder`. A typed climate zone stands in for coordinates, with a wider error. Normals that say
    where their station is stand for its place where the brief gives none. A file that cannot be used is an error, unless
    `fall_back` asks for the grid in its stead.
    """
    if place.normals is None:
        return Located(_from_grid(place))
    try:
        return _from_file(place, folder / place.normals)
    except TurfplanError as error:
        if not fall_back or not _says_where(place):
            raise
        climate = _from_grid(place.model_copy(update={"normals": None}))
        said = "; ".join(str(problem) for problem in error.problems)
        return Located(
            climate, (), (f"{place.normals} was left out ({said}); the world grid stands in for it, as asked",)
        )


def _from_grid(place: Place) -> Climate:
    models, grid = load_models(), load_grid()
    where = _whereabouts(place)
    months = months_at(grid, where.latitude, where.longitude)
    spot = _spot(place, where, months.mean_c, months.rain_mm)
    error_c, days = _grid_error(models, months, where.spread_c, corrected=spot.elevation_m is not None)
    last, first = _user_frosts(place)
    height = (
        f", brought from {_height_words(months.elevation_m)} to {_height_words(spot.elevation_m)}"
        if spot.elevation_m is not None
        else ""
    )
    return build_climate(
        models, spot, Normals(months.mean_c, months.rain_mm, elevation_m=months.elevation_m),
        source=f"climate normals of the world grid ({grid.source}) at {where.words}{height}{_hilly(models, months, spot)}",
        error_days=days, air_error_c=error_c, attribution=grid.attribution, last_frost=last, first_frost=first,
    )  # fmt: skip


def _height_words(height_m: float) -> str:
    """A height above the sea in feet and in metres: a climate does not know its reader."""
    feet, metres = (read_as(height_m * 1000, "distance", system, step=10).text for system in (System.US, System.METRIC))
    return f"{feet} ({metres})"


def _from_file(place: Place, path: Path) -> Located:
    """The climate in the user's file; a place that the brief gives must be near the file's station."""
    from turfplan.readers.climate_files import read_climate_file

    models = load_models()
    where = _whereabouts(place) if _says_where(place) else None
    near = None if where is None else (where.latitude, where.longitude)
    found = read_climate_file(path, models, near, rough=where is not None and where.rough)
    if where is None:
        if found.station is None:
            raise TurfplanError(
                Problem("place", f"{path.name} does not say where it was measured", None, None, "give latitude and longitude, or postal_code")
            )  # fmt: skip
        where = _Whereabouts(*found.station, f"the station of {path.name}")
    last, first = _user_frosts(place)
    normals = found.normals
    if normals.rain_mm is None:
        normals = replace(normals, rain_mm=months_at(load_grid(), where.latitude, where.longitude).rain_mm)
    spot = _spot(place, where, normals.months_c(), normals.months_mm())
    climate = build_climate(
        models, spot, normals, source=found.source, error_days=round(models.number("bands", "normals_days")),
        air_error_c=models.number("files", "error_c"), last_frost=last, first_frost=first,
    )  # fmt: skip
    return Located(climate, real_years(found.series, climate, models) if found.series is not None else ())


@dataclass(frozen=True, slots=True)
class _Whereabouts:
    """Coordinates with the words for them; `rough` and its spread (C) where they stand for a whole zone."""

    latitude: float
    longitude: float
    words: str
    state: str | None = None
    timezone: str | None = None
    spread_c: float = 0.0
    rough: bool = False


def _says_where(place: Place) -> bool:
    """Whether the brief itself says where the lawn lies."""
    return place.latitude is not None or place.postal_code is not None or place.climate_zone is not None


def _whereabouts(place: Place) -> _Whereabouts:
    if place.latitude is not None and place.longitude is not None:
        return _Whereabouts(place.latitude, place.longitude, f"{place.latitude:.2f}, {place.longitude:.2f}")
    if place.postal_code is not None:
        if place.country not in (None, "US"):
            raise TurfplanError(
                Problem(
                    "place.postal_code", "only US postal codes are known", repr(place.postal_code), None,
                    "give latitude and longitude",
                )
            )  # fmt: skip
        found = postal_place(place.postal_code)
        words = f"postal code {place.postal_code}"
        return _Whereabouts(found.latitude, found.longitude, words, found.state, found.timezone)
    zone = place_of_zone(load_zones(), place.climate_zone or "", place.country)
    words = zone_words(zone, country_said=place.country is not None)
    return _Whereabouts(zone.latitude, zone.longitude, words, spread_c=zone.spread_c, rough=True)


def _spot(place: Place, where: _Whereabouts, mean_c: Sequence[float], rain_mm: Sequence[float]) -> Spot:
    from climaclass import MonthlyClimate, classify

    if place.timezone is not None:
        _check_zone(place.timezone)
    zone = place.timezone or where.timezone or _timezone_at(where)
    koppen = str(classify(MonthlyClimate(temp=list(mean_c), precip=list(rain_mm)))["koppen"].code)
    elevation_m = None if place.elevation_mm is None else place.elevation_mm / 1000
    return Spot(where.latitude, where.longitude, zone, koppen, elevation_m, place.state or where.state)


def _timezone_at(where: _Whereabouts) -> str:
    zone = timezone_at(where.latitude, where.longitude)
    if zone is None:
        raise TurfplanError(
            Problem(
                "place", "lies in the open sea", f"{where.latitude:g}, {where.longitude:g}", None,
                "are latitude and longitude swapped, or a sign lost?",
            )
        )  # fmt: skip
    return zone


def _grid_error(models: Models, months: Months, spread_c: float, *, corrected: bool) -> tuple[float, int]:
    """Error of a daily mean (C) and of dates: more where the ground is steep and its height is not known, or in a whole zone."""
    base = models.number("mean", "error_c")
    steep = 0.0 if corrected else models.number("mean", "error_per_relief_c_per_m") * months.relief_m
    more = math.hypot(steep, spread_c)
    days = math.hypot(models.number("bands", "grid_days"), more / models.number("bands", "c_per_day"))
    return round(math.hypot(base, more), 2), round(days)


def _hilly(models: Models, months: Months, spot: Spot) -> str:
    """What to say where the height of the lawn would make the answer better."""
    steep = models.number("mean", "error_per_relief_c_per_m") * months.relief_m
    if spot.elevation_m is not None or steep <= models.number("mean", "error_c"):
        return ""
    return f"; the ground around differs by {months.relief_m:.0f} m: give the elevation for a better answer"


def _check_zone(zone: str) -> None:
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError):
        raise TurfplanError(
            Problem("place.timezone", "unknown time zone", repr(zone), None, "for example America/Chicago")
        ) from None


def _user_frosts(place: Place) -> tuple[Frost | None, Frost | None]:
    def frost(text: str | None) -> Frost | None:
        if text is None:
            return None
        day = day_index(date.fromisoformat(f"2027-{text}"))
        return Frost(day, day - 10, day + 10, "the date in the brief", 7)

    return frost(place.last_frost), frost(place.first_frost)
