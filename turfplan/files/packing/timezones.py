"""Builds the packed time zones: `python -m turfplan.files.packing.timezones OUT` (half a minute).

The borders are those of the package tzfpy (MIT; timezone-boundary-builder, from OpenStreetMap,
ODbL). A square gets a zone where every tenth of a degree in it, its edges included, and every
square around it keep the same one; any other square is left to the exact borders.
"""

import sys
import zlib
from pathlib import Path

from tzfpy import get_tz

from turfplan.climate.packed_tables import number_bytes, pack

STEP = 0.5
PARTS = 5
"""Points looked up along the side of a square."""


def build(out: Path) -> None:
    """Write the pack."""
    rows, columns = round(180 / STEP), round(360 / STEP)
    alone = [_only_zone(row, column) for row in range(rows) for column in range(columns)]
    names: list[str] = []
    squares: list[int] = []
    for place, zone in enumerate(alone):
        row, column = divmod(place, columns)
        around = (
            alone[r * columns + (column + east) % columns]
            for r in range(max(0, row - 1), min(rows, row + 2))
            for east in (-1, 0, 1)
        )
        if not zone or zone.startswith("Etc/") or any(other != zone for other in around):
            squares.append(0)
            continue
        if zone not in names:
            names.append(zone)
        squares.append(names.index(zone) + 1)
    head = {"step": STEP, "names": names, "source": "timezone-boundary-builder by way of tzfpy"}
    out.write_bytes(pack(head, zlib.compress(number_bytes("H", squares), 9)))


def _only_zone(row: int, column: int) -> str | None:
    """The zone of every point looked up in a square, or None where there are several."""
    south, west = row * STEP - 90, column * STEP - 180
    part = STEP / PARTS
    found: str | None = None
    for y in range(PARTS + 1):
        for x in range(PARTS + 1):
            zone = get_tz(min(west + x * part, 180.0), min(south + y * part, 90.0))
            if found is not None and zone != found:
                return None
            found = zone
    return found


if __name__ == "__main__":
    build(Path(sys.argv[1]))
