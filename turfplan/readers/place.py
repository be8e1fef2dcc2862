"""Finds a place by postal code, coordinates or zone, and reads its climate from what is known best."""

import tomllib
from datetime import date
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from turfplan.brief import Place
from turfplan.climate.building import Normals, Spot, build_climate
from turfplan.climate.grid import Grid, Months, months_at, open_grid
from turfplan.climate.models import Models
from turfplan.climate.record import Climate, Frost, day_index
from turfplan.climate.zones import place_of_zone
from turfplan.errors import Problem, TurfplanError


@lru_cache(maxsize=1)
def load_grid() -> Grid:
    """The packed world grid that comes with turfplan."""
    return open_grid((files("turfplan") / "data" / "climate" / "grid.bin").read_bytes())


@lru_cache(maxsize=1)
def load_models() -> Models:
    """The fitted models that come with turfplan."""
    return Models(tomllib.loads((files("turfplan") / "data" / "climate" / "models.toml").read_text(encoding="utf-8")))


def climate_at(latitude: float, longitude: float) -> Climate:
    """The climate of coordinates from the packed grid; raises TurfplanError for the sea, a pole, or anything off the grid."""
    return climate_of(Place(latitude=latitude, longitude=longitude), Path())


def climate_of(place: Place, folder: Path) -> Climate:
    """The climate of a place in a brief: the user's own normals, else the grid; frost dates of the brief win over both.

    File names start from `folder`. A typed climate zone stands in for coordinates, with a wider error.
    """
    models = load_models()
    spot, where, rough = _spot(place)
    last, first = _user_frosts(place)
    if place.normals is not None:
        from turfplan.readers.climate_files import read_climate_file

        found = read_climate_file(folder / place.normals, spot.latitude, spot.longitude)
        return build_climate(
            models, spot, found.normals, source=found.source, error_days=round(models.number("bands", "normals_days")),
            air_error_c=found.air_error_c, last_frost=last, first_frost=first,
        )  # fmt: skip
    months = months_at(load_grid(), spot.latitude, spot.longitude)
    spot = _with_koppen(spot, months)
    band = "zone_days" if rough else "grid_days"
    return build_climate(
        models, spot, Normals(months.mean_c, months.rain_mm, elevation_m=months.elevation_m),
        source=f"climate normals of the world grid ({load_grid().source}) at {where}",
        error_days=round(models.number("bands", band)),
        air_error_c=models.number("mean", "error_c") * (2 if rough else 1), attribution=load_grid().attribution,
        last_frost=last, first_frost=first,
    )  # fmt: skip


def _spot(place: Place) -> tuple[Spot, str, bool]:
    """The spot, the words for it, and whether it stands for a whole zone."""
    from tzfpy import get_tz

    rough = False
    state: str | None = place.state
    if place.latitude is not None and place.longitude is not None:
        latitude, longitude = place.latitude, place.longitude
        where = f"{latitude:.2f}, {longitude:.2f}"
    elif place.postal_code is not None:
        latitude, longitude, found_state = _postal(place)
        state = state or found_state
        where = f"postal code {place.postal_code}"
    elif place.climate_zone is not None:
        zones = tomllib.loads((files("turfplan") / "data" / "climate" / "zones.toml").read_text(encoding="utf-8"))
        latitude, longitude, words = place_of_zone(zones, place.climate_zone, place.country)
        where, rough = f"a place that stands for {words}", True
    else:
        raise TurfplanError(
            Problem(
                "place",
                "normals alone do not say where the lawn lies",
                None,
                None,
                "give latitude and longitude, or postal_code",
            )
        )
    zone = place.timezone or get_tz(longitude, latitude)
    if not zone or (zone.startswith("Etc/") and place.timezone is None):
        raise TurfplanError(
            Problem(
                "place",
                "lies in the open sea",
                f"{latitude:g}, {longitude:g}",
                None,
                "are latitude and longitude swapped, or a sign lost?",
            )
        )
    if place.timezone is not None:
        _check_zone(place.timezone)
    elevation = None if place.elevation_mm is None else place.elevation_mm / 1000
    return Spot(latitude, longitude, zone, None, elevation, state), where, rough


def _check_zone(zone: str) -> None:
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError):
        raise TurfplanError(
            Problem("place.timezone", "unknown time zone", repr(zone), None, "for example America/Chicago")
        ) from None


def _postal(place: Place) -> tuple[float, float, str]:
    import zipcodes

    code = (place.postal_code or "").strip()
    if place.country not in (None, "US"):
        raise TurfplanError(
            Problem(
                "place.postal_code", "only US postal codes are known", repr(code), None, "give latitude and longitude"
            )
        )
    hint = "five digits, for example 17601; or give latitude and longitude"
    if not (code[:5].isdigit() and len(code[:5]) == 5 and (len(code) == 5 or (code[5] == "-" and code[6:].isdigit()))):
        raise TurfplanError(Problem("place.postal_code", "is not a US postal code", repr(code), None, hint))
    known = zipcodes.matching(code[:5])  # type: ignore[no-untyped-call]  # the library has no hints
    found = [entry for entry in known if entry.get("lat") and entry.get("long")]
    if not found:
        raise TurfplanError(Problem("place.postal_code", "is not known", repr(code), None, hint))
    return float(found[0]["lat"]), float(found[0]["long"]), str(found[0]["state"])


def _with_koppen(spot: Spot, months: Months) -> Spot:
    from dataclasses import replace

    from climaclass import MonthlyClimate, classify

    climate = MonthlyClimate(temp=list(months.mean_c), precip=list(months.rain_mm))
    return replace(spot, koppen=str(classify(climate)["koppen"].code))


def _user_frosts(place: Place) -> tuple[Frost | None, Frost | None]:
    def frost(text: str | None) -> Frost | None:
        if text is None:
            return None
        day = day_index(date.fromisoformat(f"2027-{text}"))
        return Frost(day, day - 10, day + 10, "the date in the brief", 7)

    return frost(place.last_frost), frost(place.first_frost)
