"""A climate zone that the user typed, as a rough place: the middle of the land that has it."""

from collections.abc import Mapping
from typing import Any

from turfplan.errors import Problem, TurfplanError, nearest


def place_of_zone(zones: Mapping[str, Mapping[str, Any]], zone: str, country: str | None) -> tuple[float, float, str]:
    """Latitude, longitude and the words of a hardiness zone, Köppen class or turf adaptation zone.

    `zones` is the table of `data/climate/zones.toml`. Raises TurfplanError for an unknown zone, with the known ones.
    """
    key = zone.strip().lower().replace(" ", "_").replace("-", "_").removeprefix("zone_")
    if key not in zones and key[:-1] in zones and key[-1:] in "ab":
        key = key[:-1]
    if key not in zones:
        near = nearest(key, zones)
        raise TurfplanError(
            Problem(
                "place.climate_zone", "unknown zone", repr(zone), ", ".join(zones), near and f"did you mean {near!r}?"
            )
        )
    entry = zones[key]
    return float(entry["latitude"]), float(entry["longitude"]), str(entry["name"])
