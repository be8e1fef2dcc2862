"""Speed of reading a climate, as a ratio to a plain loop of the same kind of arithmetic."""

from pytest_benchmark.fixture import BenchmarkFixture

from bench.clock import plain_loop, ratio
from planning import climate_at


def test_the_climate_of_a_place_costs_less_than_two_plain_loops(
    benchmark: BenchmarkFixture,
) -> None:
    """Months from the grid, daily curves, soil, frost and evapotranspiration of one place: about 6
    ms, 30 at most.

    The first place of a process also unpacks the grid (about 10 ms) and lets the zone library load
    its polygons.
    """
    climate_at(40.4, -86.9)
    assert ratio(lambda: climate_at(41.7, -86.2), plain_loop) < 2
    benchmark(climate_at, 41.7, -86.2)
