"""Spells English as its country does: the catalogs are written as in the United States.

A closed list of whole words, so that nothing is respelled that nobody has looked at;
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


def english_tag(country: str | None) -> str:
    """The language tag of English as a country spells it."""
    if country is None or country in AMERICAN:
        return "en-US"
    return "en-CA" if country == "CA" else "en-GB"


@lru_cache(maxsize=8192)
def respelled(sentence: str, country: str | None) -> str:
    """A sentence of a catalog as a country spells it; places and what is typed stay."""
    words = spelled_in(country)
    if not words:
        return sentence
    pieces = _TYPED.split(sentence)
    return "".join(
        piece if n % 2 else _WORD.sub(lambda found: _own(found[0], words), piece)
        for n, piece in enumerate(pieces)
    )


def _own(word: str, words: Mapping[str, str]) -> str:
    """A word in its country's spelling, with its capital."""
    own = words.get(word.lower())
    if own is None:
        return word
    return own.capitalize() if word[0].isupper() else own
