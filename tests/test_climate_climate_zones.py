"""Zones that a place counts to, from its months."""

from functools import cache

import pytest

from turfplan.climate.climate_zones import zones_of
from turfplan.climate.world_grid import Months, months_at
from turfplan.files.reading.place import load_grid, load_models


@cache
def months_of(latitude: float, longitude: float) -> Months:
    """The months of a place."""
    return months_at(load_grid(), latitude, longitude)


def zones_at(latitude: float, longitude: float, warmer_c: float = 0.0) -> tuple[str, ...]:
    """The zones of a place, or of one that is warmer all year."""
    months = months_of(latitude, longitude)
    means = [mean + warmer_c for mean in months.mean_c]
    return zones_of(load_models(), means, months.rain_mm, latitude, months.elevation_m, "Dfa")


@pytest.mark.parametrize(
    ("place", "number", "turf"),
    [
        ((44.98, -93.27), "5", ("cool_humid",)),
        ((25.76, -80.2), "12", ("warm_humid",)),
        ((62.0, 129.7), "1", ("arid", "cool_arid")),
        ((33.45, -112.07), "9", ("arid", "warm_arid")),
        ((40.04, -76.3), "7", ("transition",)),
    ],
)
def test_places_lie_in_the_zones_that_they_are_known_for(
    place: tuple[float, float], number: str, turf: tuple[str, ...]
) -> None:
    """Minneapolis, Miami, Yakutsk, Phoenix and Lancaster; towns lie warmer than their land, by
    one zone at most.
    """
    koppen, hardiness, half, *rest = zones_at(*place)
    assert (koppen, hardiness, tuple(rest)) == ("Dfa", number, turf)
    assert half in (f"{number}a", f"{number}b")


def test_a_half_zone_is_five_degrees_fahrenheit() -> None:
    """Warmer step by step, a place goes through all halves in turn, and there is none beyond the
    last.
    """
    halves = [zones_at(44.98, -93.27, step / 4)[2] for step in range(-160, 161)]
    met = list(dict.fromkeys(halves))
    assert met == [f"{number}{half}" for number in range(1, 14) for half in "ab"]
    # The coldest night warms less or more than its month, yet each half is as wide as the others.
    widths = [halves.count(half) for half in met[1:-1]]
    assert max(widths) - min(widths) <= 1
