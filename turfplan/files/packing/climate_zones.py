"""Builds the table of climate zones by country from the packed grid.

`python -m turfplan.files.packing.climate_zones OUT` runs it.

Every land cell gets its country (by time zone, from the IANA zone table), its Köppen class, its
hardiness zone and its turf zone. The cell whose months are nearest to the mean of a zone's cells
stands for the zone. Cells count by their area, in the United States by the number of postal codes,
so that zones are where people live.
"""

import csv
import math
import sys
import zlib
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

from climaclass import MonthlyClimate, classify
from tzfpy import get_tz

from turfplan.climate.climate_zones import zones_of
from turfplan.climate.packed_tables import numbers, unpack
from turfplan.climate.world_grid import Cell, Grid, cells_of_row
from turfplan.files.reading.place import load_grid, load_models

HEADER = ("country", "zone", "cells", "latitude", "longitude", "spread_c")
Weighed = tuple[float, float, float, Cell]


def build(out: Path) -> None:
    """Write the table, sorted by country and zone."""
    grid, countries, people = load_grid(), _countries(), _postal_cells()
    found: dict[tuple[str, str], list[Weighed]] = {}
    for latitude, longitude, cell in _cells(grid):
        country = countries.get(get_tz(longitude, latitude))
        if country is None:
            continue
        weight = math.cos(math.radians(latitude))
        if country == "US":
            weight = float(people.get((cell.row, cell.column), 0))
            if weight == 0:
                continue
        climate = MonthlyClimate(temp=list(cell.mean_c), precip=list(cell.rain_mm))
        koppen = str(classify(climate)["koppen"].code)
        for zone in zones_of(
            load_models(), cell.mean_c, cell.rain_mm, latitude, cell.elevation_m, koppen
        ):
            found.setdefault((country, zone), []).append((weight, latitude, longitude, cell))
    with out.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        for (country, zone), cells in sorted(found.items()):
            latitude, longitude, spread = _middle(cells)
            writer.writerow([country, zone, len(cells), latitude, longitude, f"{spread:.1f}"])


def _cells(grid: Grid) -> Iterator[tuple[float, float, Cell]]:
    for row in sorted(grid.rows):
        for cell in cells_of_row(grid, row):
            east = cell.column * grid.step
            yield grid.south + row * grid.step, east if east <= 180 else east - 360, cell


def _countries() -> dict[str, str]:
    """The country of each time zone, as the table in the package tzdata has it."""
    lines = (files("tzdata") / "zoneinfo" / "zone.tab").read_text(encoding="utf-8").splitlines()
    rows = [line.split("\t") for line in lines if line and not line.startswith("#")]
    return {row[2]: row[0] for row in rows}


def _postal_cells() -> dict[tuple[int, int], int]:
    """How many US postal codes lie nearest to each cell."""
    grid = load_grid()
    head, blob = unpack((files("turfplan") / "data" / "climate" / "postal.bin").read_bytes())
    counts: dict[tuple[int, int], int] = {}
    for offset, size in head["blocks"]:
        raw = zlib.decompress(blob[offset : offset + size])
        count = len(raw) // 8
        places = numbers("h", raw[2 * count : 6 * count])
        for latitude, longitude in zip(places[:count], places[count:], strict=True):
            row = round((latitude / 100 - grid.south) / grid.step)
            column = round(longitude / 100 % 360 / grid.step) % round(360 / grid.step)
            counts[row, column] = counts.get((row, column), 0) + 1
    return counts


def _middle(cells: list[Weighed]) -> tuple[float, float, float]:
    """Coordinates of the cell nearest to the weighed mean months.

    Also how far the others' months are from its (C, rms).
    """
    total = sum(weight for weight, _, _, _ in cells)
    mean = [sum(weight * cell.mean_c[m] for weight, _, _, cell in cells) / total for m in range(12)]
    rain = sum(weight * sum(cell.rain_mm) for weight, _, _, cell in cells) / total

    def away(one: Weighed) -> tuple[float, float, float]:
        # A tenth more or less of the year's rain weighs as much as half a degree.
        wet = 5 * (sum(one[3].rain_mm) - rain) / max(rain, 100.0)
        return (
            sum((a - b) ** 2 for a, b in zip(one[3].mean_c, mean, strict=True)) / 12 + wet**2,
            one[1],
            one[2],
        )

    _, latitude, longitude, chosen = min(cells, key=away)
    squares = sum(
        weight * sum((a - b) ** 2 for a, b in zip(cell.mean_c, chosen.mean_c, strict=True)) / 12
        for weight, _, _, cell in cells
    )
    return latitude, longitude, math.sqrt(squares / total)


if __name__ == "__main__":
    build(Path(sys.argv[1]))
