"""Finds a place by postal code, coordinates or zone, and reads what is known of its climate."""

import math
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from turfplan.calendar_days import PLAIN_YEAR, day_index
from turfplan.climate.climate_zones import ZonePlace, place_of_zone, read_zones, stand_in
from turfplan.climate.fitted_models import Models
from turfplan.climate.from_normals import ClimateBasis, Frosts, Normals, Spot, build_climate
from turfplan.climate.rain_doubt import height_of, rain_doubt
from turfplan.climate.real_years import RealYear, real_years
from turfplan.climate.record import Climate, Frost
from turfplan.climate.world_grid import Grid, Months, months_at, open_grid
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.gazetteer import Town, called_apart, nearest_town, seen_from, state_name
from turfplan.files.reading.postal_codes import postal_place
from turfplan.files.reading.timezones import timezone_at
from turfplan.message import Message, Number
from turfplan.phrases import climate as phrases
from turfplan.phrases import place_faults as faults
from turfplan.phrases import towns, weather
from turfplan.records.brief import Place

# Half a box of the map that towns have their heights from: five minutes of arc, 9 km.
SAME_HEIGHT_KM = 4.6


@lru_cache(maxsize=1)
def load_grid() -> Grid:
    """The packed world grid that comes with turfplan."""
    return open_grid((files("turfplan") / "data" / "climate" / "grid.bin").read_bytes())


@lru_cache(maxsize=1)
def load_models() -> Models:
    """The fitted models that come with turfplan."""
    return Models(
        tomllib.loads(
            (files("turfplan") / "data" / "climate" / "models.toml").read_text(encoding="utf-8")
        )
    )


def load_zones() -> tuple[ZonePlace, ...]:
    """The places that stand for climate zones, by country."""
    text = (files("turfplan") / "data" / "climate" / "zones.csv").read_text(encoding="utf-8")
    return read_zones(text.splitlines())


@dataclass(frozen=True, slots=True)
class Located:
    """The climate of a place, the real years of a series, and what the user must know."""

    climate: Climate
    years: tuple[RealYear, ...] = ()
    notes: tuple[Message, ...] = ()


def located(place: Place, folder: Path, *, fall_back: bool = False) -> Located:
    """The climate of a place in a brief: the user's own normals, else the grid.

    Frost dates of the brief win over both.

    File names start from `folder`. A typed climate zone stands in for coordinates, with a wider
    error. Normals that say where their station is stand for its place where the brief gives none.
    Raises TurfplanError for a place that is not found, and for a file that cannot be used, unless
    `fall_back` asks for the grid in its stead.
    """
    here = _located(place, folder, fall_back=fall_back)
    found = _found(place, here.climate)
    notes = (*here.notes, *_other_country(place, found))
    return replace(here, climate=replace(here.climate, found=found), notes=notes)


def _other_country(place: Place, found: Message | None) -> tuple[Message, ...]:
    """That coordinates lie far from every town of the country that the brief gives, as they do
    where a sign was forgotten."""
    if place.latitude is None or place.longitude is None or place.country is None or found is None:
        return ()
    if nearest_town(place.latitude, place.longitude, place.country) is not None:
        return ()
    return (towns.other_country(country=place.country, found=found),)


def _found(place: Place, climate: Climate) -> Message | None:
    """Where a place lies as a reader knows it; None far from any town, and for a whole zone."""
    if place.latitude is None and place.postal_code is not None:
        postal = postal_place(place.postal_code)
        state = state_name("US", postal.state)
        return towns.of_postal_code(town=postal.town, state=state, code=place.postal_code)
    if place.latitude is None and place.climate_zone is not None:
        return None
    near = nearest_town(climate.latitude, climate.longitude)
    if place.town is not None and near is not None:
        return called_apart(near[0])
    return seen_from(climate.latitude, climate.longitude)


def _located(place: Place, folder: Path, *, fall_back: bool) -> Located:
    if place.normals is None:
        return Located(_from_grid(place))
    try:
        return _from_file(place, folder / place.normals)
    except TurfplanError as error:
        if not fall_back or not _says_where(place):
            raise
        climate = _from_grid(place.model_copy(update={"normals": None}))
        faults = "; ".join(str(problem) for problem in error.problems)
        return Located(climate, (), (phrases.left_out(file=place.normals, faults=faults),))


# Lawns of one town share a place, and a lawn that is served is planned again and again.
@lru_cache(maxsize=64)
def _from_grid(place: Place) -> Climate:
    models, grid = load_models(), load_grid()
    where = _whereabouts(place)
    months = months_at(grid, where.latitude, where.longitude)
    spot = _spot(place, where, months.mean_c, months.rain_mm)
    town = None if spot.elevation_m is not None else _town_in_hills(models, months, where)
    # A lawn that is said to lie in a town lies at its height; coordinates may lie above or below.
    lies_in_it = town is not None and where.in_town
    known = lies_in_it and town is not None and not town.steep
    error_c, days = _grid_error(models, months, where.spread_c, spot, of_town=known)
    source = _grid_source(grid, where, models, months, spot, town)
    mild = _grid_source(grid, where, models, months, spot, town, frostless=True)
    if town is not None and lies_in_it:
        spot = replace(spot, elevation_m=town.height_m)
    doubt = rain_doubt(models, months, spot.elevation_m)
    climate = build_climate(
        models,
        spot,
        Normals(months.mean_c, months.rain_mm, elevation_m=months.elevation_m),
        ClimateBasis(source, days, error_c, grid.attribution),
        _user_frosts(place),
    )
    return replace(climate, source=mild if climate.frostless else source, rain_doubt=doubt)


def _error_of_relief_c(models: Models, months: Months) -> float:
    """By how much the ground around, which rises and falls, leaves a mean of the grid in doubt."""
    return models.number("mean", "error_per_relief_c_per_m") * months.relief_m


def _in_hills(models: Models, months: Months) -> bool:
    """Whether the ground around rises and falls so much that its height is the larger error."""
    return _error_of_relief_c(models, months) > models.number("mean", "error_c")


def _town_in_hills(models: Models, months: Months, where: "_Whereabouts") -> Town | None:
    """The town beside a place in hills, whose height on a map is nearer to the lawn's than that of
    the grid; None elsewhere."""
    if where.rough or not _in_hills(models, months):
        return None
    near = nearest_town(where.latitude, where.longitude)
    if near is None or near[1] > SAME_HEIGHT_KM or (near[0].steep and not where.in_town):
        return None
    return near[0]


def _grid_source(
    grid: Grid,
    where: "_Whereabouts",
    models: Models,
    months: Months,
    spot: Spot,
    town: Town | None,
    *,
    frostless: bool = False,
) -> Message:
    """What a climate of the grid rests on, and whether the lawn's height would make it better; near
    a `town` in hills with the height that a map gives the town. Where it is `frostless` no valley
    is told to freeze."""
    title, place = grid.source, where.place
    if spot.elevation_m is not None:
        return phrases.grid_brought(
            title=title,
            place=place,
            from_height=height_of(months.elevation_m),
            to_height=height_of(spot.elevation_m),
        )
    if not _in_hills(models, months):
        return phrases.grid(title=title, place=place)
    if town is None:
        hilly = phrases.grid_hilly_frostless if frostless else phrases.grid_hilly
        return hilly(title=title, place=place, metres=Number(months.relief_m))
    if where.in_town:
        of_town = phrases.grid_of_town_frostless if frostless else phrases.grid_of_town
        if town.steep:
            of_town = phrases.grid_of_valley_frostless if frostless else phrases.grid_of_valley
        return of_town(
            title=title,
            place=place,
            from_height=height_of(months.elevation_m),
            to_height=height_of(town.height_m),
            town=town.name,
        )
    near_town = phrases.grid_hilly_town_frostless if frostless else phrases.grid_hilly_town
    return near_town(
        title=title,
        place=place,
        metres=Number(months.relief_m),
        town=town.name,
        height=height_of(town.height_m),
    )


def _from_file(place: Place, path: Path) -> Located:
    """The climate in the user's file.

    A place that the brief gives must be near the file's station.
    """
    from turfplan.files.reading.climate_files import read_climate_file

    models = load_models()
    where = _whereabouts(place) if _says_where(place) else None
    near = None if where is None else (where.latitude, where.longitude)
    file = read_climate_file(path, models, near, rough=where is not None and where.rough)
    if where is None:
        if file.station is None:
            raise TurfplanError(
                Problem(
                    "place",
                    faults.unplaced(file=path.name),
                    None,
                    None,
                    faults.give_place(),
                )
            )
        where = _Whereabouts(*file.station, phrases.at_station(file=path.name))
    normals, of_grid = file.normals, None
    if normals.rain_mm is None:
        of_grid = months_at(load_grid(), where.latitude, where.longitude)
        normals = replace(normals, rain_mm=of_grid.rain_mm)
    spot = _spot(place, where, normals.months_c(), normals.months_mm())
    climate = build_climate(
        models,
        spot,
        normals,
        ClimateBasis(
            file.source,
            round(models.number("bands", "normals_days")),
            models.number("files", "error_c"),
        ),
        _user_frosts(place),
    )
    if of_grid is not None:
        climate = replace(climate, rain_doubt=rain_doubt(models, of_grid, spot.elevation_m))
    return Located(
        climate, real_years(file.series, climate, models) if file.series is not None else ()
    )


@dataclass(frozen=True, slots=True)
class _Whereabouts:
    """Coordinates with what a reader knows them by.

    `rough` and its spread (C) where they stand for a whole zone; `in_town` where the brief says in
    which town, by its name or a postal code.
    """

    latitude: float
    longitude: float
    place: Message
    state: str | None = None
    timezone: str | None = None
    spread_c: float = 0.0
    rough: bool = False
    in_town: bool = False


def _says_where(place: Place) -> bool:
    """Whether the brief itself says where the lawn lies."""
    return (
        place.latitude is not None
        or place.postal_code is not None
        or place.climate_zone is not None
    )


def _whereabouts(place: Place) -> _Whereabouts:
    if place.latitude is not None and place.longitude is not None:
        north, east = (Number(v, "hundredth") for v in (place.latitude, place.longitude))
        here = phrases.at_coordinates(latitude=north, longitude=east)
        return _Whereabouts(place.latitude, place.longitude, here, in_town=place.town is not None)
    if place.postal_code is not None:
        if place.country not in (None, "US"):
            raise TurfplanError(
                Problem(
                    "place.postal_code",
                    faults.only_us(),
                    repr(place.postal_code),
                    None,
                    weather.give_coordinates(),
                )
            )
        postal = postal_place(place.postal_code)
        code = phrases.at_postal_code(code=place.postal_code)
        return _Whereabouts(
            postal.latitude, postal.longitude, code, postal.state, postal.timezone, in_town=True
        )
    zone = place_of_zone(load_zones(), place.climate_zone or "", place.country)
    stood = stand_in(zone, country_said=place.country is not None)
    return _Whereabouts(zone.latitude, zone.longitude, stood, spread_c=zone.spread_c, rough=True)


def _spot(
    place: Place, where: _Whereabouts, mean_c: Sequence[float], rain_mm: Sequence[float]
) -> Spot:
    from climaclass import MonthlyClimate, classify

    if place.timezone is not None:
        _check_zone(place.timezone)
    zone = place.timezone or where.timezone or _timezone_at(where)
    koppen = str(classify(MonthlyClimate(temp=list(mean_c), precip=list(rain_mm)))["koppen"].code)
    elevation_m = None if place.elevation_mm is None else place.elevation_mm / 1000
    return Spot(
        where.latitude, where.longitude, zone, koppen, elevation_m, place.state or where.state
    )


def _timezone_at(where: _Whereabouts) -> str:
    zone = timezone_at(where.latitude, where.longitude)
    if zone is None:
        raise TurfplanError(
            Problem(
                "place",
                faults.open_sea(),
                f"{where.latitude:g}, {where.longitude:g}",
                None,
                weather.swapped(),
            )
        )
    return zone


def _grid_error(
    models: Models, months: Months, spread_c: float, spot: Spot, *, of_town: bool
) -> tuple[float, int]:
    """Error of a daily mean (C) and of dates.

    More where the ground is steep and its height is not known, or taken from a town, or in a whole
    zone.
    """
    base = models.number("mean", "error_c")
    steep = _error_of_relief_c(models, months)
    if spot.elevation_m is not None:
        steep = 0.0
    elif of_town:
        steep = min(steep, models.number("mean", "error_of_town_height_c"))
    more = math.hypot(steep, spread_c)
    days = math.hypot(
        models.number("bands", "grid_days"), more / models.number("bands", "c_per_day")
    )
    return round(math.hypot(base, more), 2), round(days)


def _check_zone(zone: str) -> None:
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError):
        raise TurfplanError(
            Problem(
                "place.timezone",
                faults.unknown_zone(),
                repr(zone),
                None,
                faults.such_as(example="America/Chicago"),
            )
        ) from None


def _user_frosts(place: Place) -> Frosts:
    def frost(text: str | None) -> Frost | None:
        if text is None:
            return None
        day = day_index(date.fromisoformat(f"{PLAIN_YEAR}-{text}"))
        return Frost(day, day - 10, day + 10, 7)

    return frost(place.last_frost), frost(place.first_frost)
