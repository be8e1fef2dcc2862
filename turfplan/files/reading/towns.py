"""Finds the town that somebody names, and asks which one where several bear the name."""

import math
import re
from pathlib import Path

from turfplan.book.grass_names import plain_name
from turfplan.calendar_days import PLAIN_YEAR, date_of
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.files.reading.gazetteer import (
    Town,
    apart_km,
    called_fully,
    country_code,
    country_near,
    is_region,
    lies_in,
    names_like,
    towns_called,
)
from turfplan.files.reading.place import located
from turfplan.message import DateInYear, Message, Number, listed
from turfplan.phrases import towns as phrases
from turfplan.records.brief import Brief, Place

__all__ = ["country_code", "country_near", "namesakes", "town_called", "with_town"]
# Countries whose states have laws and overlays in the book.
KNOWN_STATES = ("US", "CA")
# A suburb lies no farther from the town that is named with it, km.
SUBURB_KM = 60.0
# So many candidates of one name are listed.
MOST_LISTED = 12
# A British postcode, whole or its first half: no table of them comes with turfplan.
_POSTCODE = re.compile(r"[a-z]{1,2}\d[a-z\d]?(\s*\d[a-z]{2})?", re.IGNORECASE)


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
    found, every, name = _found(said, country, state)
    if not every and not found:
        raise TurfplanError(_unknown(said, name))
    if not found:
        raise TurfplanError(_several(said, every, phrases.not_there()))
    if len(found) > 1:
        raise TurfplanError(_several(said, found, phrases.several(n=len(found))))
    return found[0]


def namesakes(said: str) -> tuple[tuple[str, Message], ...]:
    """The towns that a name may mean where there are several, the largest first: each as it is
    answered so that no other is meant, and as it is told."""
    found, every, _ = _found(said, None, None)
    towns = found or every
    if len(found) == 1:
        return ()
    return tuple(
        (
            _told_apart(town, towns, towns[0]) or f"{town.latitude}, {town.longitude}",
            _candidate(town),
        )
        for town in towns[:MOST_LISTED]
    )


def _found(said: str, country: str | None, state: str | None) -> tuple[list[Town], list[Town], str]:
    """The towns that are meant, all of their name, and the name itself."""
    name, *parts = [part.strip() for part in said.split(",")]
    if not parts:
        name, *parts = _without_comma(name)
    wanted = [part for part in (*parts, country, state) if part]
    every = towns_called(name)
    found = [town for town in every if all(lies_in(town, part) for part in wanted)]
    if not found:
        found = _near_others(every, parts, [part for part in (country, state) if part])
    return found, every, name


def _without_comma(said: str) -> list[str]:
    """A town and its country or state, where they stand without a comma between: "Toowoomba QLD"; a
    name that is known as it is stays whole."""
    words = said.split()
    for cut in range(1, len(words)):
        town, region = " ".join(words[:cut]), " ".join(words[cut:])
        if is_region(region) and not towns_called(said) and towns_called(town):
            return [town, region]
    return [said]


def _near_others(every: list[Town], parts: list[str], lie_in: list[str]) -> list[Town]:
    """Of towns of one name the one near another town that is named with it; that town itself where
    there is none of the name. A part that is a country's or a state's is that alone: of a town
    that nobody knows in New York, New York is not the town.
    """
    regions = [*(part for part in parts if is_region(part)), *lie_in]
    other = next((part for part in parts if part and not is_region(part)), None)
    if other is None:
        return []
    around = [t for t in towns_called(other) if all(lies_in(t, part) for part in regions)]
    if not every:
        return around
    there = [town for town in every if all(lies_in(town, part) for part in regions)]
    away = [
        (min((apart_km(town, near) for near in around), default=math.inf), town) for town in there
    ]
    close = [(km, town) for km, town in away if km <= SUBURB_KM]
    return [min(close, key=lambda one: one[0])[1]] if close else []


def _unknown(said: str, name: str) -> Problem:
    if _POSTCODE.fullmatch(said.strip()):
        return Problem(
            "place.town", phrases.postcode_unknown(), repr(said), None, phrases.name_town()
        )
    near = nearest(plain_name(name), names_like(plain_name(name)))
    hint = phrases.nearest(name=near) if near else phrases.other_ways()
    return Problem("place.town", phrases.unknown(), repr(said), None, hint)


def _several(said: str, towns: list[Town], fault: Message) -> Problem:
    lines = [_candidate(town) for town in towns[:MOST_LISTED]]
    first = towns[0]
    other = next((t for t in towns if t.country != first.country), towns[-1])
    examples = [e for e in (_told_apart(t, towns, first) for t in (first, other)) if e is not None]
    hint = phrases.other_ways()
    if fault == phrases.several(n=len(towns)) and examples:
        hint = phrases.say_which(example=examples[0])
        if len(dict.fromkeys(examples)) > 1:
            hint = phrases.say_which_of(example=examples[0], other=examples[1])
    return Problem("place.town", fault, repr(said), listed(lines, "semicolon"), hint)


def _candidate(town: Town) -> Message:
    """A town with what tells it from its namesakes: where it lies, its people, and when frost
    usually ends there."""
    people = Number(town.people, "grouped")
    lies = {"latitude": town.latitude, "longitude": town.longitude}
    place = Place(town=town.name, country=town.country).model_copy(update=lies)
    climate = located(place, Path()).climate
    if climate.last_frost is None or climate.frostless:
        return phrases.candidate(town=called_fully(town), code=town.country, people=people)
    return phrases.candidate_frost(
        town=called_fully(town),
        code=town.country,
        people=people,
        day=DateInYear(f"{date_of(climate.last_frost.median, PLAIN_YEAR):%m-%d}"),
    )


def _told_apart(town: Town, towns: list[Town], first: Town) -> str | None:
    """How to name one of several towns so that no other is meant; None where names do not do."""
    near = town.region or next(iter(town.beside), None)
    of_name = [town.state, near, town.country]
    if town.country != first.country:
        of_name = [town.country, town.state, near]
    known = [part for part in of_name if part]
    pairs = [(part, other) for part in (near, town.state) for other in (town.state, town.country)]
    for parts in [(part,) for part in known] + [(a, b) for a, b in pairs if a and b and a != b]:
        if sum(all(lies_in(other, part) for part in parts) for other in towns) == 1:
            return ", ".join((town.name, *parts))
    return None
