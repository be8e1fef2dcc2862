"""The packed world grid of monthly climate, read at a place.

The pack is a header line of JSON (ending in a newline), then one zlib block for each row of
latitude, whose numbers are cells of land from west to east: cell number, twelve mean temperatures
(tenths of a degree Celsius), twelve rains (mm a month), height of the ground (m). Temperatures are
stored as changes from the month before, then every line as changes from the cell before; the
changes are folded to whole numbers from 0 up (0, -1, 1, -2, …), first the low bytes, then the high.
"""

import math
import zlib
from bisect import bisect_left
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import accumulate

from turfplan.climate.packed_tables import numbers, unpack
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Number, as_written
from turfplan.phrases import errors, weather

MONTHS = 12
# Cell number, temperatures, rains, height.
LINES = 1 + MONTHS + MONTHS + 1
# Beyond this distance, in steps of the grid, the nearest land cell says nothing about a place.
FARTHEST_CELLS = 1.5


@dataclass(frozen=True, slots=True)
class Months:
    """Twelve monthly means of a place: temperature in degrees Celsius, rain in mm a month.

    `elevation_m` is the height of the ground they hold for, `relief_m` how much it differs between
    the cells around the place (highest less lowest), `cells` how many cells they come from.
    """

    mean_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    elevation_m: float
    relief_m: float
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
    sha256: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of land: row from the south and column eastward from Greenwich, temperatures, rains,
    height.
    """

    row: int
    column: int
    mean_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    elevation_m: float


def open_grid(pack: bytes) -> Grid:
    """The grid in a pack; raises TurfplanError when it is not one."""
    try:
        head, blob = unpack(pack)
        rows = {int(row): (int(offset), int(size)) for row, offset, size in head["rows"]}
        return Grid(
            head["step"],
            head["south"],
            rows,
            blob,
            head["attribution"],
            head["source"],
            head["sha256"],
        )
    except (ValueError, KeyError, TypeError) as error:
        raise _damaged(error) from None


def _damaged(error: Exception) -> TurfplanError:
    reason = as_written(str(error))
    return TurfplanError(
        Problem(weather.world_grid(), errors.damaged(reason=reason), hint=weather.install_again())
    )


def _lines(grid: Grid, row: int) -> list[list[int]]:
    """The numbers of a row as `LINES` lists side by side, each with one number a cell; empty lists
    without land.
    """
    if row not in grid.rows:
        return [[] for _ in range(LINES)]
    offset, size = grid.rows[row]
    try:
        raw = zlib.decompress(grid.blob[offset : offset + size])
    except zlib.error as error:
        raise _damaged(error) from None
    whole = bytearray(len(raw))
    whole[0::2], whole[1::2] = raw[: len(raw) // 2], raw[len(raw) // 2 :]
    changes = [(value >> 1) ^ -(value & 1) for value in numbers("H", bytes(whole))]
    count = len(changes) // LINES
    return [list(accumulate(changes[k * count : (k + 1) * count])) for k in range(LINES)]


def _cell(row: int, lines: list[list[int]], place: int) -> Cell:
    temperatures = accumulate(lines[1 + month][place] for month in range(MONTHS))
    rains = (lines[1 + MONTHS + month][place] for month in range(MONTHS))
    return Cell(
        row,
        lines[0][place],
        tuple(t / 10 for t in temperatures),
        tuple(map(float, rains)),
        float(lines[-1][place]),
    )


def cells_of_row(grid: Grid, row: int) -> list[Cell]:
    """The cells of land of a row, west to east from Greenwich; none for a row without land."""
    lines = _lines(grid, row)
    return [_cell(row, lines, place) for place in range(len(lines[0]))]


def months_at(grid: Grid, latitude: float, longitude: float) -> Months:
    """The months at a place.

    Between the land cells around it by distance along both axes, else of the nearest land cell.
    Raises TurfplanError for a place outside the grid or without land near it.
    """
    y = (latitude - grid.south) / grid.step
    x = (longitude % 360) / grid.step
    if not -0.5 <= y <= max(grid.rows) + 0.5:
        south, north = grid.south, grid.south + max(grid.rows) * grid.step
        raise TurfplanError(
            Problem(
                "place.latitude",
                weather.outside_grid(),
                f"{latitude:g}",
                errors.number_range(low=Number(south, "plain"), high=Number(north, "plain")),
                weather.own_normals(),
            )
        )
    around = _weighed(grid, y, x) or _nearest(grid, y, x, latitude)
    if not around:
        raise TurfplanError(
            Problem(
                "place",
                weather.no_land(),
                f"{latitude:g}, {longitude:g}",
                None,
                weather.swapped(),
            )
        )
    total = sum(weight for weight, _ in around)

    def blend(values: Iterable[float]) -> float:
        pairs = zip(around, values, strict=True)
        return sum(weight * value for (weight, _), value in pairs) / total

    heights = [cell.elevation_m for _, cell in around]
    return Months(
        tuple(blend(cell.mean_c[m] for _, cell in around) for m in range(MONTHS)),
        tuple(blend(cell.rain_mm[m] for _, cell in around) for m in range(MONTHS)),
        blend(heights),
        max(heights) - min(heights),
        len(around),
    )


def _weighed(grid: Grid, y: float, x: float) -> list[tuple[float, Cell]]:
    """The land cells at the corners of the square around a place, with their weights."""
    columns = round(360 / grid.step)
    bottom, left = math.floor(y), math.floor(x)
    found = []
    for row in (bottom, bottom + 1):
        if abs(y - row) >= 1:
            continue
        lines = _lines(grid, row)
        for column in (left, left + 1):
            place = bisect_left(lines[0], column % columns)
            weight = (1 - abs(y - row)) * (1 - abs(x - column))
            if weight > 1e-9 and place < len(lines[0]) and lines[0][place] == column % columns:
                found.append((weight, _cell(row, lines, place)))
    return found


def _nearest(grid: Grid, y: float, x: float, latitude: float) -> list[tuple[float, Cell]]:
    """The nearest land cell near enough, as the only one; empty where there is none."""
    columns = round(360 / grid.step)
    narrow = math.cos(math.radians(latitude))
    found = []
    for row in range(math.floor(y) - 1, math.floor(y) + 3):
        lines = _lines(grid, row)
        for place, column in enumerate(lines[0]):
            away = abs((x - column + columns / 2) % columns - columns / 2)
            distance = math.hypot(y - row, away * narrow)
            if distance <= FARTHEST_CELLS:
                found.append((distance, row, place, lines))
    if not found:
        return []
    _, row, place, lines = min(found, key=lambda one: one[:3])
    return [(1.0, _cell(row, lines, place))]
