"""Speed of evapotranspiration and of a season's watering, as ratios to a plain loop over the same days."""

from datetime import date

from pytest_benchmark.fixture import BenchmarkFixture

import water_cases as cases
from bench.clock import THIRTY_YEARS, best_time, plain_loop
from turfplan.climate import evapotranspiration as et
from turfplan.rules.water import season_watering


def test_thirty_years_of_penman_monteith(benchmark: BenchmarkFixture) -> None:
    """Thirty years cost at most eight times ten exponentials a day: under 0.2 s on any machine that does those in 25 ms."""
    days = [et.DayWeather(n % 365 + 1, 5.0 + n % 11, 18.0 + n % 9, 15.0, 1.1, 2.0) for n in range(THIRTY_YEARS)]
    benchmark(et.et0_series_mm, days, 41.0, 300.0)
    assert benchmark.stats.stats.min < 8 * best_time(plain_loop)


def test_a_season_costs_less_than_the_weather_of_thirty_years(benchmark: BenchmarkFixture) -> None:
    """A year of one lawn with passes and seed: at most one plain loop (about 10 ms)."""
    request = cases.request(
        cases.book(), cases.cool_climate(), seeded_on=date(2027, 8, 28), passes=(date(2027, 4, 10), date(2027, 5, 20))
    )
    season_watering(request)
    benchmark(season_watering, request)
    assert benchmark.stats.stats.min < best_time(plain_loop)
