"""Reads the packed gazetteer that comes with turfplan: towns by name and near a place, what their
countries and regions are called.

The pack is a header line of JSON, then one zlib block for each degree of latitude: a town a line
with the names it is found by (plain, between bars), its name, country, state, the number of its
county or region (with slashes between those that it may lie in), height of the ground around it (m,
in a box of five minutes of arc), hundredths of a degree of latitude and longitude, people, and
whether the height is of the lowest box around it, where the ground is steep.
"""

import math
import re
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from turfplan.book.grass_names import plain_name
from turfplan.climate.packed_tables import unpack
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.message import Message, Quantity
from turfplan.phrases import towns as phrases
from turfplan.records.brief import Place

EARTH_KM = 6371.0
# A town farther than this says nothing about where a place lies, km.
FAR_KM = 400.0
# Within this distance a place is the town's own, km.
CLOSE_KM = 2.0
# What people call countries beside the names of maps.
_SHORT_NAMES = {"usa": "US", "unitedstatesofamerica": "US", "uk": "GB", "greatbritain": "GB"}
# Words for a county that are left out where one is named.
_WORDS_FOR_COUNTY = frozenset(("co", "county"))
# What people call regions whose names the gazetteer has in English.
_OWN_REGIONS = {
    "bayern": "Bavaria",
    "hessen": "Hesse",
    "mecklenburgvorpommern": "Mecklenburg-Vorpommern",
    "niedersachsen": "Lower Saxony",
    "nordrheinwestfalen": "North Rhine-Westphalia",
    "rheinlandpfalz": "Rheinland-Pfalz",
    "sachsen": "Saxony",
    "sachsenanhalt": "Saxony-Anhalt",
    "thuringen": "Thuringia",
}
# What countries are called in languages of their own.
_OWN_NAMES = {
    "aotearoa": "NZ",
    "belgie": "BE",
    "belgien": "BE",
    "belgique": "BE",
    "brasil": "BR",
    "cesko": "CZ",
    "danmark": "DK",
    "deutschland": "DE",
    "eire": "IE",
    "espana": "ES",
    "holland": "NL",
    "italia": "IT",
    "magyarorszag": "HU",
    "nederland": "NL",
    "norge": "NO",
    "osterreich": "AT",
    "polska": "PL",
    "schweiz": "CH",
    "slovensko": "SK",
    "slovenija": "SI",
    "suisse": "CH",
    "suomi": "FI",
    "sverige": "SE",
    "svizzera": "CH",
    "turkiye": "TR",
}


@dataclass(frozen=True, slots=True)
class Town:
    """A town: degrees (to a hundredth), height of the ground around it (m), ISO 3166 country,
    people, its state where the gazetteer has states of its country, and its county, or its region
    where it has neither; `beside` are those near it where the gazetteer does not know its own.

    `steep` where the height is of the lowest ground around, and the town may lie far below it."""

    name: str
    country: str
    state: str | None
    height_m: float
    latitude: float
    longitude: float
    people: int
    steep: bool = False
    region: str | None = None
    beside: tuple[str, ...] = ()


@lru_cache(maxsize=1)
def _pack() -> tuple[dict[str, Any], bytes]:
    return unpack((files("turfplan") / "data" / "climate" / "towns.bin").read_bytes())


@lru_cache(maxsize=8)
def _band(degree: int) -> str:
    """The lines of a degree of latitude; nothing where it has no town."""
    head, blob = _pack()
    offset, size = head["bands"].get(str(degree), (0, 0))
    return zlib.decompress(blob[offset : offset + size]).decode() if size else ""


def _town(line: str) -> Town:
    _, name, country, state, numbers, height, north, east, people, lowest = line.split("\t")
    of_country: list[str] = _pack()[0]["regions"].get(country, [])
    regions = tuple(of_country[int(number)] for number in numbers.split("/") if number)
    known = len(regions) == 1
    return Town(
        name,
        country,
        state or None,
        float(height),
        int(north) / 100,
        int(east) / 100,
        int(people),
        bool(lowest),
        regions[0] if known else None,
        () if known else regions,
    )


def is_region(part: str) -> bool:
    """Whether something is the name or the letters of a country or a state."""
    return plain_name(part) in _region_names()


@lru_cache(maxsize=1)
def _region_names() -> frozenset[str]:
    states: dict[str, dict[str, str]] = _pack()[0]["states"]
    named = {plain_name(word) for of in states.values() for pair in of.items() for word in pair}
    return frozenset({*named, *_country_codes()})


def country_code(said: str) -> str:
    """The two letters of a country that was named by them or by its name.

    Raises TurfplanError, with the nearest name, for one that is not known.
    """
    codes = _country_codes()
    found = codes.get(plain_name(said))
    if found is None:
        names: dict[str, str] = _pack()[0]["countries"]
        near = nearest(plain_name(said), codes)
        hint = phrases.country_code()
        if near is not None:
            hint = phrases.country_nearest(code=codes[near], name=names[codes[near]])
        raise TurfplanError(
            Problem("place.country", phrases.country_unknown(), repr(said), None, hint)
        )
    return found


@lru_cache(maxsize=1)
def _country_codes() -> Mapping[str, str]:
    """The two letters of every country by all that it is called, plainly spelt."""
    names: dict[str, str] = _pack()[0]["countries"]
    codes = {plain_name(word): code for code, name in names.items() for word in (code, name)}
    return MappingProxyType(codes | _OWN_NAMES | _SHORT_NAMES)


def towns_called(name: str) -> list[Town]:
    """The towns of a name, the largest first; those that have it as another name only where none
    has it as its own. What stands behind a name in brackets is not needed: "Halle (Saale)"."""
    key = plain_name(name)
    found: list[Town] = []
    for degree in _pack()[0]["bands"]:
        lines = _band(int(degree))
        if key and f"|{key}|" in lines:
            found += [_town(line) for line in lines.split("\n") if f"|{key}|" in line]
    own = [town for town in found if plain_name(town.name) == key]
    if own:
        own += [t for t in found if "(" in t.name and plain_name(t.name.partition("(")[0]) == key]
    return sorted(own or found, key=lambda town: -town.people)


def lies_in(town: Town, part: str) -> bool:
    """Whether a town lies in a country, a state or a county, by code or name."""
    head = _pack()[0]
    known = [town.country, head["countries"][town.country]]
    if town.state is not None:
        known += [town.state, head["states"][town.country][town.state]]
    key = plain_name(part)
    if key in map(plain_name, known) or _called_otherwise(key) == town.country:
        return True
    regions = (*((town.region,) if town.region is not None else ()), *town.beside)
    named = _OWN_REGIONS.get(key, part)
    return any(_is_called(region, town.country, named) for region in regions)


def _is_called(region: str, country: str, part: str) -> bool:
    """Whether a county is one that was named: with or without what a county is called, whole or by
    what several share ("Sussex"), or a wider one that it is of."""
    wanted = _words(part)
    if not wanted:
        return False
    if f" {wanted} " in f" {_words(region)} ":
        return True
    wider: dict[str, dict[str, list[str]]] = _pack()[0]["wider"]
    of_it = next((v for k, v in wider.get(country, {}).items() if _words(k) == wanted), [])
    return region in of_it


@lru_cache(maxsize=4096)
def _words(name: str) -> str:
    """The plain words of the name of a county, without the word for one."""
    words = map(plain_name, re.split(r"[\s\-’']+", name))
    return " ".join(word for word in words if word and word not in _WORDS_FOR_COUNTY)


def _called_otherwise(key: str) -> str | None:
    """The country of a plain name that is not its name of maps."""
    return _OWN_NAMES.get(key) or _SHORT_NAMES.get(key)


def names_like(key: str) -> Iterator[str]:
    """The names that begin as a name does, as they are written."""
    start = f"|{key[:2]}"
    for degree in _pack()[0]["bands"]:
        for line in _band(int(degree)).split("\n"):
            if key and line.startswith(start):
                yield line.split("\t", 2)[1]


def called(town: Town) -> Message:
    """A town with its state, where its country has states here, and its country."""
    head = _pack()[0]
    country = head["countries"][town.country]
    if town.state is None:
        return phrases.in_country(town=town.name, country=country)
    state = head["states"][town.country][town.state]
    return phrases.in_state(town=town.name, state=state, country=country)


def called_fully(town: Town) -> Message:
    """A town as it is called, with its county where the gazetteer has one and it is not the town's
    own name."""
    if town.region is None or _words(town.region) == _words(town.name):
        return called(town)
    named = replace(town, name=f"{town.name}, {town.region}")
    return called(named)


def called_apart(town: Town) -> Message:
    """A town as it is called, with its county where its state has several of the name."""
    same = [
        t for t in towns_called(town.name) if (t.country, t.state) == (town.country, town.state)
    ]
    return called_fully(town) if len(same) > 1 else called(town)


def state_name(country: str, state: str) -> str:
    """The name of a state by its letters, or the letters where the gazetteer has no name."""
    name: str = _pack()[0]["states"].get(country, {}).get(state, state)
    return name


@lru_cache(maxsize=64)
def nearest_town(
    latitude: float, longitude: float, country: str | None = None
) -> tuple[Town, float] | None:
    """The town nearest to a place and how far it is (km); None where the nearest is far away.

    With a `country` the nearest of that country.
    """
    best: tuple[float, str] | None = None
    degree = math.floor(latitude)
    for step in range(math.ceil(FAR_KM / (EARTH_KM * math.radians(1))) + 1):
        # A town of a farther degree of latitude is farther away than this.
        if best is not None and best[0] < EARTH_KM * math.radians(max(0, step - 1)):
            break
        for band in dict.fromkeys((degree - step, degree + step)):
            for line in _band(band).split("\n"):
                if not line or (country is not None and f"\t{country}\t" not in line):
                    continue
                north, east = line.rsplit("\t", 4)[1:3]
                away = _km(latitude, longitude, int(north) / 100, int(east) / 100)
                if best is None or away < best[0]:
                    best = away, line
    if best is None or best[0] > FAR_KM:
        return None
    return _town(best[1]), best[0]


def apart_km(town: Town, other: Town) -> float:
    """How far a town lies from another, km."""
    return _km(town.latitude, town.longitude, other.latitude, other.longitude)


def _km(latitude: float, longitude: float, north: float, east: float) -> float:
    """The distance between two places on a sphere (haversine)."""
    up, over = math.radians(north - latitude), math.radians(east - longitude)
    half = math.sin(up / 2) ** 2 + (
        math.cos(math.radians(latitude)) * math.cos(math.radians(north)) * math.sin(over / 2) ** 2
    )
    return 2 * EARTH_KM * math.asin(math.sqrt(half))


def country_near(place: Place) -> str | None:
    """The country of the town nearest to a place's coordinates, if it is near at all."""
    if place.latitude is None or place.longitude is None:
        return None
    near = nearest_town(place.latitude, place.longitude)
    return near[0].country if near is not None else None


def seen_from(latitude: float, longitude: float) -> Message | None:
    """Where a place lies as seen from the nearest town: how far, in which direction, of which."""
    near = nearest_town(latitude, longitude)
    if near is None:
        return None
    town, away_km = near
    if away_km < CLOSE_KM:
        return phrases.close_to(town=called(town))
    direction = _direction(town, latitude, longitude)
    distance = Quantity(away_km * 1e6, "way")
    return phrases.away_from(distance=distance, direction=direction, town=called(town))


def _direction(town: Town, latitude: float, longitude: float) -> Message:
    """The direction in which a place lies from a town, one of eight."""
    over = (longitude - town.longitude + 180) % 360 - 180
    east = over * math.cos(math.radians(latitude))
    angle = math.degrees(math.atan2(east, latitude - town.latitude)) % 360
    return Message(f"towns.direction.{round(angle / 45) % 8}")
