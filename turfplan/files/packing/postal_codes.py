"""Builds the packed table of US postal codes: `python -m turfplan.files.packing.postal_codes OUT`.

Needs the package zipcodes 3.0.0 (MIT), which turfplan itself does not: it takes half a second to
open. Its coordinates are those of GeoNames (CC BY 4.0). Military codes, which lie nowhere, are left
out. Time zones are found at the coordinates.
"""

import hashlib
import sys
import zlib
from pathlib import Path

from turfplan.climate.packed_tables import number_bytes, pack

VERSION = "3.0.0"


# Code, latitude and longitude in hundredths of a degree, state, town, time zone.
PostalRow = tuple[str, int, int, str, str, str]


def build(out: Path) -> None:
    """Write the pack; raises SystemExit when the package is another version than the pinned one."""
    rows = _rows()
    states, zones = sorted({row[3] for row in rows}), sorted({row[5] for row in rows})
    blocks, blob = [], b""
    for digit in "0123456789":
        packed = _block([row for row in rows if row[0][0] == digit], states, zones)
        blocks.append((len(blob), len(packed), sum(row[0][0] == digit for row in rows)))
        blob += packed
    head = {
        "blocks": blocks,
        "states": states,
        "timezones": zones,
        "count": len(rows),
        "source": f"zipcodes {VERSION} (MIT), coordinates from GeoNames (CC BY 4.0)",
        "sha256": hashlib.sha256(blob).hexdigest(),
    }
    out.write_bytes(pack(head, blob))


def _rows() -> list[PostalRow]:
    """The codes that lie somewhere, in order."""
    import zipcodes
    from tzfpy import get_tz

    if zipcodes.__version__ != VERSION:
        raise SystemExit(f"zipcodes {zipcodes.__version__} is not the pinned {VERSION}")
    entries = sorted(
        (
            entry["zip_code"],
            round(float(entry["lat"]) * 100),
            round(float(entry["long"]) * 100),
            entry["state"],
            entry["city"],
        )
        # The library has no hints.
        for entry in zipcodes.list_all()  # type: ignore[no-untyped-call]
        if entry["zip_code_type"] != "MILITARY"
        and (float(entry["lat"]), float(entry["long"])) != (0.0, 0.0)
    )
    return [
        (code, lat, lon, state, town, get_tz(lon / 100, lat / 100))
        for code, lat, lon, state, town in entries
    ]


def _block(rows: list[PostalRow], states: list[str], zones: list[str]) -> bytes:
    """The codes of one first digit, packed."""
    codes = number_bytes("H", [int(row[0][1:]) for row in rows])
    places = number_bytes("h", [row[1] for row in rows] + [row[2] for row in rows])
    words = bytes(states.index(row[3]) for row in rows) + bytes(zones.index(row[5]) for row in rows)
    towns = "\n".join(row[4] for row in rows).encode()
    return zlib.compress(codes + places + words + towns, 9)


if __name__ == "__main__":
    build(Path(sys.argv[1]))
