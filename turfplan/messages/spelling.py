"""Spells English as its country does, and calls things as it does: the catalogs are written as in
the United States.

Closed lists of whole words, so that nothing is respelled that nobody has looked at;
`tests/test_messages_spelling.py` looks through every sentence for words of either spelling that the
list does not know. What somebody typed and the titles of publications are no sentences of a catalog
and stay as they are.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

# Countries that spell as the United States do.
AMERICAN = frozenset({"US", "AS", "GU", "LR", "MP", "PH", "PR", "UM", "VI"})
# Whole words, small, as they are spelled in the United States and in Britain.
BRITISH: Mapping[str, str] = MappingProxyType(
    {
        "analyzed": "analysed",
        "catalog": "catalogue",
        "center": "centre",
        "centers": "centres",
        "centimeter": "centimetre",
        "centimeters": "centimetres",
        "color": "colour",
        "colors": "colours",
        "curb": "kerb",
        "fertilize": "fertilise",
        "fertilized": "fertilised",
        "fertilizer": "fertiliser",
        "fertilizers": "fertilisers",
        "fertilizing": "fertilising",
        "gray": "grey",
        "inquiry": "enquiry",
        "leveled": "levelled",
        "leveling": "levelling",
        "license": "licence",
        "liter": "litre",
        "liters": "litres",
        "meter": "metre",
        "meters": "metres",
        "millimeter": "millimetre",
        "millimeters": "millimetres",
        "mold": "mould",
        "molds": "moulds",
        "neighbor": "neighbour",
        "neighboring": "neighbouring",
        "neighbors": "neighbours",
        "plow": "plough",
        "pulverized": "pulverised",
        "refueling": "refuelling",
        "sulfate": "sulphate",
        "sulfur": "sulphur",
    }
)
# Canada spells with Britain but for these.
NOT_CANADIAN = frozenset(
    {
        "analyzed",
        "curb",
        "fertilize",
        "fertilized",
        "fertilizer",
        "fertilizers",
        "fertilizing",
        "inquiry",
        "pulverized",
        "sulfate",
    }
)
# What is called otherwise outside of North America: words or pairs of words, small.
ELSEWHERE: Mapping[str, str] = MappingProxyType(
    {
        "an extension office": "an adviser on lawns",
        "local codes": "local rules",
        "mark utilities": "mark buried services",
        "pavement": "paving",
        "siding": "cladding",
        "sod": "turf",
        "sodding": "turfing",
        # As a term of the glossary plain turf would be explained wherever it is spoken of.
        "sod, plugs, sprig, sprigs": "plugs, sprig, sprigs",
        "storm drain": "stormwater drain",
        "the plant clinic of your state or county": "a plant clinic",
        "the state, the county and the town": "the council",
        "toward": "towards",
        "utility marks": "marks of buried services",
    }
)
# What is called otherwise again in the British Isles.
BRITISH_ISLES: Mapping[str, str] = MappingProxyType(
    {
        "driveway": "drive",
        "storm drain": "surface-water drain",
        "tarp": "tarpaulin",
        "tarps": "tarpaulins",
        "truck": "lorry",
        "trucks": "lorries",
    }
)
_OF_BRITISH_ISLES = frozenset({"GB", "GG", "IE", "IM", "JE"})
_WORD = re.compile(r"(?<!\w)[A-Za-z]+(?!\w)")
# What stands between these is typed as it stands: keys, commands.
_TYPED = re.compile(r"(`[^`]*`|\{[^{}|]*\})")


def spelled_in(country: str | None) -> Mapping[str, str]:
    """The words that a country spells otherwise than the catalogs; none for one that is unknown."""
    if country is None or country in AMERICAN:
        return {}
    if country == "CA":
        return {us: own for us, own in BRITISH.items() if us not in NOT_CANADIAN}
    return BRITISH


@lru_cache(maxsize=64)
def terms_in(country: str | None) -> Mapping[str, str]:
    """What a country calls otherwise than the catalogs, the longest first; nothing in North America
    or where the country is unknown."""
    if country is None or country in AMERICAN or country == "CA":
        return {}
    own = {**ELSEWHERE, **(BRITISH_ISLES if country in _OF_BRITISH_ISLES else {})}
    return {term: own[term] for term in sorted(own, key=len, reverse=True)}


@lru_cache(maxsize=64)
def _terms(country: str | None) -> re.Pattern[str]:
    """Whole terms that a country calls otherwise, however they begin."""
    several = "|".join(re.escape(term) for term in terms_in(country))
    return re.compile(rf"(?<!\w)(?:{several})(?!\w)", re.IGNORECASE)


def english_tag(country: str | None) -> str:
    """The language tag of English as a country spells it."""
    if country is None or country in AMERICAN:
        return "en-US"
    return "en-CA" if country == "CA" else "en-GB"


@lru_cache(maxsize=8192)
def respelled(sentence: str, country: str | None) -> str:
    """A sentence of a catalog as a country spells it and calls things; places and what is typed
    stay."""
    words, terms = spelled_in(country), terms_in(country)
    if not words:
        return sentence
    pieces = _TYPED.split(sentence)
    if terms:
        called = _terms(country)
        pieces[::2] = [called.sub(lambda found: _own(found[0], terms), one) for one in pieces[::2]]
    pieces[::2] = [_WORD.sub(lambda found: _own(found[0], words), one) for one in pieces[::2]]
    return "".join(pieces)


def _own(word: str, words: Mapping[str, str]) -> str:
    """A word or a term as its country has it, with its capital."""
    own = words.get(word.lower())
    if own is None:
        return word
    return own[0].upper() + own[1:] if word[0].isupper() else own
