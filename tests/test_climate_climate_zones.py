"""Zones that a place counts to, from its months."""

from functools import cache

import pytest

from told_errors import refused
from turfplan.climate.climate_zones import (
    ZonePlace,
    place_of_zone,
    read_zones,
    stand_in,
    zones_of,
)
from turfplan.climate.fitted_models import Models
from turfplan.climate.world_grid import Months, months_at
from turfplan.errors import TurfplanError
from turfplan.files.reading.place import load_grid, load_models
from turfplan.message import Message, Number
from turfplan.phrases import errors, weather


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


TABLE = read_zones(
    [
        "country,zone,cells,latitude,longitude,spread_c",
        "US,6,3,40.5,-83.25,1.5",
        "US,6b,2,41.0,-80.0,0.5",
        "US,cool_humid,9,44.0,-90.0,2.0",
        "GB,Cfb,4,52.0,-1.5,0.25",
    ]
)


def test_the_table_of_zones_is_read() -> None:
    """Each row by its columns."""
    assert TABLE[0] == ZonePlace("US", "6", 40.5, -83.25, 1.5)
    assert [row.zone for row in TABLE] == ["6", "6b", "cool_humid", "Cfb"]


@pytest.mark.parametrize(
    ("zone", "country", "found"),
    [
        ("6", None, 0),
        ("6B", "US", 1),
        (" Zone 6b ", None, 1),
        ("USDA zone 6", None, 0),
        ("usda-6", None, 0),
        ("cool-humid", "US", 2),
        ("Cool Humid", None, 2),
        ("cfb", "GB", 3),
    ],
)
def test_a_zone_is_found_however_it_is_written(zone: str, country: str | None, found: int) -> None:
    """In the United States where no country is told."""
    assert place_of_zone(TABLE, zone, country) is TABLE[found]


@pytest.mark.parametrize(
    ("zone", "country", "words"),
    [
        ("Cfb", None, "does not occur in US"),
        ("6", "GB", "GB(.|\n)*Cfb"),
        ("cool_humit", "US", "unknown zone; got 'cool_humit'; allowed: 6, 6b, cool_humid"),
        ("qqqq", "US", "place.climate_zone: unknown zone"),
        ("6", "FR", "place.country"),
    ],
)
def test_a_zone_that_is_not_there_is_told_with_what_is(
    zone: str, country: str | None, words: str
) -> None:
    """Of another country, misspelt, none at all, and a country without land."""
    with refused(words):
        place_of_zone(TABLE, zone, country)


def test_a_hint_asks_for_what_was_not_said() -> None:
    """The country where none was told, coordinates where it was; the zone that may be meant."""
    hints = []
    for zone, country in (("Cfb", None), ("Cfb", "US"), ("cool_humit", "US"), ("qqqq", "US")):
        with pytest.raises(TurfplanError) as caught:
            place_of_zone(TABLE, zone, country)
        hint = caught.value.problems[0].hint
        assert isinstance(hint, Message)
        hints.append(hint.key)
    assert hints == [
        weather.say_country(example="GB").key,
        weather.give_coordinates().key,
        errors.did_you_mean(word="x").key,
        weather.a_zone().key,
    ]


@pytest.mark.parametrize(
    ("zone", "kind"),
    [("cool_humid", "cool_humid"), ("6b", "hardiness"), ("10", "hardiness"), ("Cfb", "koppen")],
)
def test_a_stand_in_is_named_by_the_kind_of_its_zone(zone: str, kind: str) -> None:
    """With the country, whether it was said or not."""
    row = ZonePlace("US", zone, 40.5, -83.25, 1.5)
    said, unsaid = (stand_in(row, country_said=told) for told in (True, False))
    assert (said.key, unsaid.key) == ("climate.at.zone", "climate.at.zone_no_country")
    for told in (said, unsaid):
        values = dict(told.values)
        assert values["zone"].key == f"climate.zone.{kind}"  # type: ignore[union-attr]
        assert values["latitude"] == Number(40.5, "plain")
        assert values["longitude"] == Number(-83.25, "plain")
        assert values["country"] == "US"


def zoned(mean_c: float, rain_mm: float, coldest: tuple[float, float, float]) -> tuple[str, ...]:
    """The zones of a place of even months with a daily range of 10 K, by a line for its coldest
    night.
    """
    models = Models(
        {
            "diurnal": {"coefficients": [10.0] + [0.0] * 7, "least_c": 3.0, "most_c": 20.0},
            "coldest_night": {"line": list(coldest)},
            "turf_zones": {"warm_from_c": 18.0, "arid_below_mm": 408.0, "transition_from_c": 12.0},
        }
    )
    return zones_of(models, [mean_c] * 12, [rain_mm] * 12, 40.0, 0.0, "Cfa")


@pytest.mark.parametrize(
    ("mean_c", "rain_mm", "turf"),
    [
        (18.0, 34.0, ("warm_humid",)),
        (17.9, 34.0, ("transition",)),
        (12.0, 34.0, ("transition",)),
        (11.9, 34.0, ("cool_humid",)),
        (18.0, 33.0, ("arid", "warm_arid")),
        (17.9, 33.0, ("arid", "cool_arid")),
    ],
)
def test_turf_zones_have_their_borders(
    mean_c: float, rain_mm: float, turf: tuple[str, ...]
) -> None:
    """Warm from 18 C, transition from 12 C, arid below 408 mm a year."""
    assert zoned(mean_c, rain_mm, (0.0, 1.0, 0.0))[3:] == turf


@pytest.mark.parametrize(
    ("night_f", "half"),
    [
        (-61, "1a"),
        (-60, "1a"),
        (-56, "1a"),
        (-54, "1b"),
        (-51, "1b"),
        (-49, "2a"),
        (0.5, "7a"),
        (5.5, "7b"),
        (64, "13a"),
        (66, "13b"),
        (75, "13b"),
    ],
)
def test_hardiness_zones_are_five_degrees_to_a_half(night_f: float, half: str) -> None:
    """From 60 F below nought; the first and the last reach on."""
    found = zoned(15.0, 50.0, ((night_f - 32) / 1.8, 0.0, 0.0))
    assert found[:3] == ("Cfa", half[:-1], half)


def test_the_coldest_night_is_told_by_the_lowest_minimum_and_the_swing() -> None:
    """Even months of 15 C have minima of 10 C and no swing: 50 F are zone 12a."""
    assert zoned(15.0, 50.0, (0.0, 1.0, 5.0))[2] == "12a"
    assert zoned(15.0, 50.0, (0.0, 1.0, 0.0))[2] == "12a"
