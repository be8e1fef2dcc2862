"""Finds a US postal code in the packed table that comes with turfplan.

The pack is a header line of JSON, then one zlib block for each first digit, whose lines are,
little-endian: the other four digits (uint16, rising), latitude and longitude (int16, hundredths of
a degree), state and time zone (one byte each, places in the lists of the header), and after them
the towns, a line each. The header says how many codes a block has.
"""

import zlib
from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from turfplan.climate.packed_tables import numbers, unpack
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message
from turfplan.phrases import files as phrases


@dataclass(frozen=True, slots=True)
class PostalPlace:
    """Where a postal code lies: degrees (to a hundredth), state, town, IANA time zone."""

    latitude: float
    longitude: float
    state: str
    town: str
    timezone: str


@lru_cache(maxsize=1)
def _pack() -> tuple[dict[str, Any], bytes]:
    return unpack((files("turfplan") / "data" / "climate" / "postal.bin").read_bytes())


def postal_place(code: str) -> PostalPlace:
    """The place of a US postal code (17601 or 17601-1234).

    Raises TurfplanError for one that is malformed or not known.
    """
    text = code.strip()
    five, plus = text[:5], text[5:]
    if not (
        five.isdecimal() and five.isascii() and len(five) == 5 and (not plus or _is_plus_four(plus))
    ):
        raise TurfplanError(_unplaced(code, phrases.not_postal_code()))
    head, blob = _pack()
    offset, size, count = head["blocks"][int(five[0])]
    raw = zlib.decompress(blob[offset : offset + size])
    codes, places = numbers("H", raw[: 2 * count]), numbers("h", raw[2 * count : 6 * count])
    at = bisect_left(codes, int(five[1:]))
    if at == count or codes[at] != int(five[1:]):
        raise TurfplanError(_unplaced(code, phrases.postal_unknown()))
    state, zone = raw[6 * count + at], raw[7 * count + at]
    return PostalPlace(
        places[at] / 100,
        places[count + at] / 100,
        head["states"][state],
        raw[8 * count :].decode().split("\n")[at],
        head["timezones"][zone],
    )


def _unplaced(code: str, message: Message) -> Problem:
    return Problem("place.postal_code", message, repr(code), None, phrases.postal_hint())


def _is_plus_four(text: str) -> bool:
    digits = text.removeprefix("-")
    return text.startswith("-") and len(digits) == 4 and digits.isdecimal() and digits.isascii()
