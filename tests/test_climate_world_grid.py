"""The height of the ground at a place, and where the grid ends."""

import pytest

from told_errors import refused
from turfplan.climate.world_grid import months_at
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
