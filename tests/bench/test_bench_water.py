"""Speed of evapotranspiration and of a season's watering, as ratios to a plain loop over the same
days.
"""

from datetime import date

from pytest_benchmark.fixture import BenchmarkFixture

import water_cases as cases
from bench.clock import THIRTY_YEARS, plain_loop, ratio
from turfplan.climate import evapotranspiration as et
from turfplan.work.watering.season import season_watering


def test_thirty_years_of_penman_monteith(benchmark: BenchmarkFixture) -> None:
    """Thirty years cost at most eight times ten exponentials a day: under 0.2 s on any machine that
    does those in 25 ms.
    """
    days = [
        et.DayWeather(n % 365 + 1, 5.0 + n % 11, 18.0 + n % 9, 15.0, 1.1, 2.0)
        for n in range(THIRTY_YEARS)
    ]
    assert ratio(lambda: et.et0_series_mm(days, 41.0, 300.0), plain_loop) < 8
    benchmark(et.et0_series_mm, days, 41.0, 300.0)


def test_a_season_costs_less_than_the_weather_of_thirty_years(benchmark: BenchmarkFixture) -> None:
    """A year of one lawn with passes and seed: at most one plain loop (about 10 ms)."""
    request = cases.request(
        cases.book(),
        cases.cool_climate(),
        seeded_on=date(2027, 8, 28),
        passes=(date(2027, 4, 10), date(2027, 5, 20)),
    )
    assert ratio(lambda: season_watering(request), plain_loop) < 1
    benchmark(season_watering, request)
