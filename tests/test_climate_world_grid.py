"""The height of the ground at a place, and where the grid ends."""

import zlib
from itertools import pairwise

import pytest

from told_errors import refused
from turfplan.climate.packed_tables import number_bytes, pack
from turfplan.climate.world_grid import Cell, Grid, cells_of_row, months_at, open_grid
from turfplan.files.reading.place import load_grid


@pytest.mark.parametrize(
    ("latitude", "longitude", "low_m", "high_m"),
    [(39.74, -104.99, 1400, 2200), (52.37, 4.9, -10, 30), (27.7, 86.7, 2500, 6000)],
)
def test_the_ground_is_as_high_as_it_is(
    latitude: float, longitude: float, low_m: float, high_m: float
) -> None:
    """Denver, Amsterdam, the Himalaya: within what the cells around them hold."""
    months = months_at(load_grid(), latitude, longitude)
    assert low_m < months.elevation_m < high_m
    assert months.relief_m >= 0 and all(0 <= rain < 2000 for rain in months.rain_mm)


def test_a_place_half_a_cell_beyond_the_grid_is_still_in_it() -> None:
    """Its first and last rows reach half a step further; what lies beyond has no months."""
    grid = load_grid()
    north, south = grid.south + max(grid.rows) * grid.step, grid.south
    for edge, beyond in ((north, 1), (south, -1)):
        with refused("place.latitude: "):
            months_at(grid, edge + beyond * 0.6 * grid.step, 25.0)
    assert months_at(grid, north + 0.4 * grid.step, 180.0).cells >= 1


def packed(cells: dict[int, list[Cell]], step: float = 10.0, south: float = -50.0) -> Grid:
    """A grid of rows of cells, in the form of the pack: changes from month to month and from cell
    to cell, folded, low bytes before high ones.
    """
    rows, blob = [], b""
    for row, here in cells.items():
        lines: list[list[int]] = [[cell.column for cell in here]]
        tenths = [[round(t * 10) for t in cell.mean_c] for cell in here]
        lines += [[t[m] - (t[m - 1] if m else 0) for t in tenths] for m in range(12)]
        lines += [[round(cell.rain_mm[m]) for cell in here] for m in range(12)]
        lines.append([round(cell.elevation_m) for cell in here])
        changes = [b - a for line in lines for a, b in pairwise([0, *line])]
        raw = number_bytes("H", [2 * c if c >= 0 else -2 * c - 1 for c in changes])
        block = zlib.compress(raw[0::2] + raw[1::2])
        rows.append((row, len(blob), len(block)))
        blob += block
    head = {"step": step, "south": south, "rows": rows, "attribution": "a", "source": "s"}
    return open_grid(pack({**head, "sha256": "c"}, blob))


def cell(row: int, column: int, base: float, height: float = 100.0) -> Cell:
    """A cell whose months rise by a degree and 300 mm each."""
    means = tuple(round(base + month, 1) for month in range(12))
    rains = tuple(abs(base) + 300.0 * month for month in range(12))
    return Cell(row, column, means, rains, height)


# Rows at 50 and 40 south, columns every ten degrees; the last column lies beside the first.
A, B, C = cell(0, 0, 5.0, 100.0), cell(0, 1, -12.0, 300.0), cell(1, 0, 20.0, -40.0)
LAST = cell(0, 35, 8.0, 900.0)
GRID = packed({0: [A, B, LAST], 1: [C], 3: [cell(3, 20, 2.0)]})


def test_a_pack_holds_its_cells() -> None:
    """Below nought as well, and far apart; a row without land has none."""
    assert cells_of_row(GRID, 0) == [A, B, LAST]
    assert cells_of_row(GRID, 1) == [C]
    assert cells_of_row(GRID, 2) == []
    assert (GRID.step, GRID.south, GRID.attribution) == (10.0, -50.0, "a")
    assert (GRID.source, GRID.sha256) == ("s", "c")


def test_what_is_no_pack_is_refused() -> None:
    """No header, a header that lacks something, and a block that is none."""
    for broken in (b"none", b'{"step": 1}\n'):
        with refused("grid"):
            open_grid(broken)
    spoilt = Grid(10.0, -50.0, {0: (0, 4)}, b"abcd", "", "", "")
    with refused("grid"):
        cells_of_row(spoilt, 0)


def test_a_place_at_a_cell_has_its_months() -> None:
    """And its height, from it alone."""
    found = months_at(GRID, -50.0, 10.0)
    assert (found.mean_c, found.rain_mm) == (B.mean_c, B.rain_mm)
    assert (found.elevation_m, found.relief_m, found.cells) == (300.0, 0.0, 1)
    assert months_at(GRID, -50.0, 370.0) == found


def test_a_place_between_cells_has_a_part_of_each() -> None:
    """A quarter of the way east and two fifths north: three cells of land, by their distance along
    both axes; relief is highest less lowest.
    """
    found = months_at(GRID, -46.0, 2.5)
    shares = {A: 0.6 * 0.75, B: 0.6 * 0.25, C: 0.4 * 0.75}
    whole = sum(shares.values())
    for month in (0, 5, 11):
        mean = sum(c.mean_c[month] * s for c, s in shares.items()) / whole
        rain = sum(c.rain_mm[month] * s for c, s in shares.items()) / whole
        assert found.mean_c[month] == pytest.approx(mean)
        assert found.rain_mm[month] == pytest.approx(rain)
    height = sum(c.elevation_m * s for c, s in shares.items()) / whole
    assert found.elevation_m == pytest.approx(height)
    assert (found.relief_m, found.cells) == (340.0, 3)


def test_the_last_column_lies_beside_the_first() -> None:
    """Four fifths of the way from one to the other, from either side of Greenwich."""
    for longitude in (-2.0, 358.0):
        found = months_at(GRID, -50.0, longitude)
        assert found.mean_c[0] == pytest.approx(0.8 * 5.0 + 0.2 * 8.0)
        assert (found.cells, found.relief_m) == (2, 800.0)


def test_without_land_around_the_nearest_cell_stands_for_a_place() -> None:
    """No more than a step and a half away, where degrees of longitude are shorter than those of
    latitude.
    """
    found = months_at(GRID, -50.0, 24.0)
    assert (found.mean_c, found.cells) == (B.mean_c, 1)
    # 22 degrees west of the last column, at 50 south: 1.41 steps; 24 degrees are 1.54.
    assert months_at(GRID, -50.0, 328.0).mean_c == LAST.mean_c
    assert months_at(GRID, -50.0, 10.0 + 22.0).mean_c == B.mean_c
    for longitude in (326.0, 34.0, 180.0):
        with refused("place: "):
            months_at(GRID, -50.0, longitude)
    assert months_at(GRID, -35.0, 2.0).mean_c == pytest.approx(C.mean_c)
    with refused("place: "):
        months_at(GRID, -24.9, 2.0)
    assert months_at(GRID, -25.1, 0.0).mean_c == C.mean_c


def test_across_greenwich_the_nearest_cell_is_as_near_as_it_is() -> None:
    """From the east of it a cell in the west, and the other way round."""
    west = packed({0: [cell(0, 35, 8.0)]})
    east = packed({0: [cell(0, 0, 5.0)]})
    assert months_at(west, -50.0, 5.0).mean_c[0] == 8.0
    assert months_at(east, -50.0, 345.0).mean_c[0] == 5.0


@pytest.mark.parametrize(("latitude", "there"), [(-54.9, True), (-55.1, False), (-15.1, True)])
def test_the_grid_reaches_half_a_step_beyond_its_rows(latitude: float, *, there: bool) -> None:
    """From 50 to 20 south: to 55 and 15."""
    longitude = 0.0 if latitude < -40 else 200.0
    if there:
        assert months_at(GRID, latitude, longitude).cells == 1
        return
    with refused("place.latitude: "):
        months_at(GRID, latitude, longitude)
    with refused("place.latitude: (.*)-50 to -20"):
        months_at(GRID, -14.9, 200.0)
