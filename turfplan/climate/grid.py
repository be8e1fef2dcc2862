"""The packed world grid: monthly mean temperature and rain of land cells, and how a place is read from it.

The pack is a header line of JSON (ending in a newline), then one zlib block for each row of latitude. A block holds the
cell numbers of the row (uint16), then month by month the mean temperature (int16, tenths of a degree Celsius) and month
by month the rain (uint16, mm a month), all little-endian.
"""

import json
import math
import sys
import zlib
from array import array
from collections.abc import Mapping
from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError

MONTHS = 12
# Beyond this distance the nearest land cell says nothing about a place.
FARTHEST_CELLS = 1.5


@dataclass(frozen=True, slots=True)
class Months:
    """Twelve monthly means: temperature in degrees Celsius, rain in mm a month, and how many cells they come from."""

    mean_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    cells: int


@dataclass(frozen=True, slots=True)
class Grid:
    """The pack with its header; rows are unpacked when they are asked for."""

    step: float
    south: float
    rows: Mapping[int, tuple[int, int]]
    blob: bytes
    attribution: str
    source: str


def open_grid(pack: bytes) -> Grid:
    """The grid in a pack; raises TurfplanError when it is not one."""
    line, _, blob = pack.partition(b"\n")
    try:
        head = json.loads(line)
        rows = {int(row): (int(offset), int(size)) for row, offset, size in head["rows"]}
        return Grid(head["step"], head["south"], rows, blob, head["attribution"], head["source"])
    except (ValueError, KeyError, TypeError) as error:
        raise TurfplanError(Problem("climate grid", f"is damaged ({error})", hint="install turfplan again")) from None


def _row(grid: Grid, row: int) -> dict[int, tuple[tuple[float, ...], tuple[float, ...]]]:
    if row not in grid.rows:
        return {}
    offset, size = grid.rows[row]
    raw = zlib.decompress(grid.blob[offset : offset + size])
    numbers = array("H")
    count = int.from_bytes(raw[:2], "little")
    width = 2 * count
    numbers.frombytes(raw[2 : 2 + width])
    temperature, rain = array("h"), array("H")
    temperature.frombytes(raw[2 + width : 2 + width + MONTHS * width])
    rain.frombytes(raw[2 + width + MONTHS * width :])
    if sys.byteorder == "big":
        for values in (numbers, temperature, rain):
            values.byteswap()
    return {
        cell: (
            tuple(temperature[month * count + k] / 10 for month in range(MONTHS)),
            tuple(float(rain[month * count + k]) for month in range(MONTHS)),
        )
        for k, cell in enumerate(numbers)
    }


def months_at(grid: Grid, latitude: float, longitude: float) -> Months:
    """The months at a place: between the land cells around it by distance along both axes, else the nearest land cell.

    Raises TurfplanError for a place outside the grid or without land near it.
    """
    y = (latitude - grid.south) / grid.step
    x = (longitude % 360) / grid.step
    columns = round(360 / grid.step)
    if not -0.5 <= y <= max(grid.rows) + 0.5:
        raise TurfplanError(
            Problem(
                "place.latitude", "lies outside the climate grid", f"{latitude:g}",
                f"{grid.south:g} to {grid.south + max(grid.rows) * grid.step:g}", "give your own normals: normals = \"file.csv\"",
            )
        )  # fmt: skip
    bottom, left = math.floor(y), math.floor(x)
    rows = {row: _row(grid, row) for row in range(bottom - 1, bottom + 3)}
    near = []
    for row in (bottom, bottom + 1):
        for column in (left, left + 1):
            cell = rows[row].get(column % columns)
            weight = (1 - abs(y - row)) * (1 - abs(x - column))
            if cell is not None and weight > 1e-9:
                near.append((weight, cell))
    if not near:
        found = [
            (math.hypot(y - row, (x - column) * math.cos(math.radians(latitude))), cell)
            for row, cells in rows.items()
            for column in range(left - 1, left + 3)
            if (cell := cells.get(column % columns)) is not None
        ]
        if not found or min(found)[0] > FARTHEST_CELLS:
            raise TurfplanError(
                Problem(
                    "place",
                    "no land near this place",
                    f"{latitude:g}, {longitude:g}",
                    None,
                    "are latitude and longitude swapped, or a sign lost?",
                )
            )
        near = [(1.0, min(found)[1])]
    total = sum(weight for weight, _ in near)

    def blend(part: int, month: int) -> float:
        return sum(weight * cell[part][month] for weight, cell in near) / total

    return Months(tuple(blend(0, m) for m in range(MONTHS)), tuple(blend(1, m) for m in range(MONTHS)), len(near))
