"""Speed of reading a climate, as a ratio to a plain loop of the same kind of arithmetic."""

from math import exp
from time import perf_counter

from pytest_benchmark.fixture import BenchmarkFixture

from turfplan.readers.place import climate_at

DAYS = 10_957


def plain_loop() -> float:
    """Ten exponentials for each day of thirty years: about 10 ms."""
    return sum(exp(-0.001 * (day % 365) * part) for day in range(DAYS) for part in range(10))


def test_the_climate_of_a_place_costs_less_than_two_plain_loops(benchmark: BenchmarkFixture) -> None:
    """Months from the grid, daily curves, soil, frost and evapotranspiration of one place: about 6 ms, 30 at most.

    The first place of a process also unpacks the grid (about 10 ms) and lets the zone library load its polygons.
    """
    climate_at(40.4, -86.9)
    times = []
    for _ in range(7):
        begin = perf_counter()
        plain_loop()
        times.append(perf_counter() - begin)
    benchmark(climate_at, 41.7, -86.2)
    assert benchmark.stats.stats.min < 2 * min(times)
