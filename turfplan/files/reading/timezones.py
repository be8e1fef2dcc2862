"""Finds the time zone of a place: by squares of the globe that keep one, else by exact borders.

The exact borders come from a library that takes a tenth of a second to load them. The pack that
comes with turfplan spares it that: a header line of JSON with the size of a square in degrees and
the names of zones, then one zlib block of uint16, little-endian, a number for each square from
south to north and, within a row, from west to east. 0 says: look it up.
"""

import zlib
from collections.abc import Sequence
from functools import lru_cache
from importlib.resources import files

from turfplan.climate.packed_tables import numbers, unpack

ASK = 0


@lru_cache(maxsize=1)
def _pack() -> tuple[float, tuple[str, ...], Sequence[int]]:
    """Size of a square, names of zones (from 1), and the squares."""
    head, blob = unpack((files("turfplan") / "data" / "climate" / "timezones.bin").read_bytes())
    return head["step"], tuple(head["names"]), numbers("H", zlib.decompress(blob))


def timezone_at(latitude: float, longitude: float) -> str | None:
    """The IANA time zone at a place on land; None on the open sea."""
    step, names, squares = _pack()
    rows, columns = round(180 / step), round(360 / step)
    row = min(int((latitude + 90) / step), rows - 1)
    number = squares[row * columns + int((longitude + 180) % 360 / step)]
    if number != ASK:
        return names[number - 1]
    from tzfpy import get_tz

    zone = get_tz(longitude, latitude)
    return zone if zone and not zone.startswith("Etc/") else None
