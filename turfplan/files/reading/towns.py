"""Finds towns by name and near a place in the packed gazetteer that comes with turfplan.

The pack is a header line of JSON, then one zlib block for each degree of latitude: a town a line
with the names it is found by (plain, between bars), its name, country, state, height of the ground
around it (m, in a box of five minutes of arc), hundredths of a degree of latitude and longitude,
people, and whether the height is of the lowest box around it, where the ground is steep.
"""

import math
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from turfplan.book.grass_names import plain_name
from turfplan.climate.packed_tables import unpack
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.message import Message, Number, Quantity, listed
from turfplan.phrases import towns as phrases
from turfplan.records.brief import Brief, Place

EARTH_KM = 6371.0
# A town farther than this says nothing about where a place lies, km.
FAR_KM = 400.0
# Within this distance a place is the town's own, km.
CLOSE_KM = 2.0
# Countries whose states have laws and overlays in the book.
KNOWN_STATES = ("US", "CA")
# What people call countries beside the names of maps.
_SHORT_NAMES = {"usa": "US", "unitedstatesofamerica": "US", "uk": "GB", "greatbritain": "GB"}
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
# A suburb lies no farther from the town that is named with it, km.
SUBURB_KM = 60.0
# So many candidates of one name are listed.
MOST_LISTED = 12


@dataclass(frozen=True, slots=True)
class Town:
    """A town: degrees (to a hundredth), height of the ground around it (m), ISO 3166 country,
    people, and its state where the gazetteer has states of its country.

    `steep` where the height is of the lowest ground around, and the town may lie far below it."""

    name: str
    country: str
    state: str | None
    height_m: float
    latitude: float
    longitude: float
    people: int
    steep: bool = False


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
    _, name, country, state, height, latitude, longitude, people, lowest = line.split("\t")
    north, east = int(latitude) / 100, int(longitude) / 100
    return Town(name, country, state or None, float(height), north, east, int(people), bool(lowest))


def with_town(brief: Brief) -> Brief:
    """The brief with the coordinates, the country and the state of the town it names.

    A brief that names none stays as it is. Raises TurfplanError for a town that is not known, or
    of whose name there are several.
    """
    place = brief.place
    if place.town is None:
        return brief
    town = town_called(place.town, place.country, place.state)
    state = town.state if town.country in KNOWN_STATES else None
    found = {
        "latitude": town.latitude,
        "longitude": town.longitude,
        "country": place.country or town.country,
        "state": place.state or state,
    }
    return brief.model_copy(update={"place": place.model_copy(update=found)})


def town_called(said: str, country: str | None = None, state: str | None = None) -> Town:
    """The town of a name, which may go on with a town near it, and with its state or country:
    "Lancaster, PA", "Halswell, Christchurch, New Zealand".

    A suburb that is not known is the town near it. Raises TurfplanError for one that is not known,
    or with the candidates where there are several.
    """
    name, *parts = [part.strip() for part in said.split(",")]
    if not parts:
        name, *parts = _without_comma(name)
    wanted = [part for part in (*parts, country, state) if part]
    every = _towns_called(name)
    found = [town for town in every if all(_lies_in(town, part) for part in wanted)]
    if not found:
        found = _near_others(every, parts, [part for part in (country, state) if part])
    if not every and not found:
        raise TurfplanError(_unknown(said, name))
    if not found:
        raise TurfplanError(_several(said, every, phrases.not_there()))
    if len(found) > 1:
        raise TurfplanError(_several(said, found, phrases.several(n=len(found))))
    return found[0]


def _without_comma(said: str) -> list[str]:
    """A town and its country or state, where they stand without a comma between: "Toowoomba QLD"; a
    name that is known as it is stays whole."""
    words = said.split()
    for cut in range(1, len(words)):
        town, region = " ".join(words[:cut]), " ".join(words[cut:])
        if _is_region(region) and not _towns_called(said) and _towns_called(town):
            return [town, region]
    return [said]


def _near_others(every: list[Town], parts: list[str], lie_in: list[str]) -> list[Town]:
    """Of towns of one name the one near another town that is named with it; that town itself where
    there is none of the name. A part that is a country's or a state's is that alone: of a town
    that nobody knows in New York, New York is not the town.
    """
    regions = [*(part for part in parts if _is_region(part)), *lie_in]
    other = next((part for part in parts if part and not _is_region(part)), None)
    if other is None:
        return []
    around = [t for t in _towns_called(other) if all(_lies_in(t, part) for part in regions)]
    if not every:
        return around
    there = [town for town in every if all(_lies_in(town, part) for part in regions)]
    away = [
        (min((_apart(town, near) for near in around), default=math.inf), town) for town in there
    ]
    close = [(km, town) for km, town in away if km <= SUBURB_KM]
    return [min(close, key=lambda one: one[0])[1]] if close else []


def _apart(town: Town, other: Town) -> float:
    """How far a town lies from another, km."""
    return _km(town.latitude, town.longitude, other.latitude, other.longitude)


def _is_region(part: str) -> bool:
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


def _towns_called(name: str) -> list[Town]:
    """The towns of a name, the largest first; those that have it as another name only where none
    has it as its own."""
    key = plain_name(name)
    found: list[Town] = []
    for degree in _pack()[0]["bands"]:
        lines = _band(int(degree))
        if key and f"|{key}|" in lines:
            found += [_town(line) for line in lines.split("\n") if f"|{key}|" in line]
    own = [town for town in found if plain_name(town.name) == key]
    return sorted(own or found, key=lambda town: -town.people)


def _lies_in(town: Town, part: str) -> bool:
    """Whether a town lies in a country or a state, by code or name."""
    head = _pack()[0]
    known = [town.country, head["countries"][town.country]]
    if town.state is not None:
        known += [town.state, head["states"][town.country][town.state]]
    key = plain_name(part)
    return key in map(plain_name, known) or _called_otherwise(key) == town.country


def _called_otherwise(key: str) -> str | None:
    """The country of a plain name that is not its name of maps."""
    return _OWN_NAMES.get(key) or _SHORT_NAMES.get(key)


def _unknown(said: str, name: str) -> Problem:
    near = nearest(plain_name(name), _names_like(plain_name(name)))
    hint = phrases.nearest(name=near) if near else phrases.other_ways()
    return Problem("place.town", phrases.unknown(), repr(said), None, hint)


def _names_like(key: str) -> Iterator[str]:
    """The names that begin as a name does, as they are written."""
    start = f"|{key[:2]}"
    for degree in _pack()[0]["bands"]:
        for line in _band(int(degree)).split("\n"):
            if key and line.startswith(start):
                yield line.split("\t", 2)[1]


def _several(said: str, towns: list[Town], fault: Message) -> Problem:
    lines = [
        phrases.candidate(
            town=called(town), code=town.country, people=Number(town.people, "grouped")
        )
        for town in towns[:MOST_LISTED]
    ]
    first = towns[0]
    example = f"{first.name}, {first.state or first.country}"
    other = next((t for t in towns if t.country != first.country), None)
    hint = (
        phrases.say_which(example=example)
        if other is None
        else phrases.say_which_of(example=example, other=f"{other.name}, {other.country}")
    )
    return Problem("place.town", fault, repr(said), listed(lines, "semicolon"), hint)


def called(town: Town) -> Message:
    """A town with its state, where its country has states here, and its country."""
    head = _pack()[0]
    country = head["countries"][town.country]
    if town.state is None:
        return phrases.in_country(town=town.name, country=country)
    state = head["states"][town.country][town.state]
    return phrases.in_state(town=town.name, state=state, country=country)


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
