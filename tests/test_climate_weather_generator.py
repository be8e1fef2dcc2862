"""Days of rain made from monthly normals, held against daily series that nothing was fitted on.

A wet day has 1 mm of rain or more. The generator is given what the world grid would give it: rain
and mean temperature of each month, worked out from the same years of the series.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path
from statistics import fmean

import pytest

from planning import climate_at
from turfplan.calendar_days import DAYS, MONTH_LENGTHS, day_index
from turfplan.climate.fitted_models import wet_days
from turfplan.climate.weather_generator import (
    WET_DAY_MM,
    YEARS,
    GeneratedRain,
    generated_rain,
)
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_models
from turfplan.work.rain_years import dry_day
from wet_day_fit import fitted, left_out, root_mean_square, stations

# Daily series that come with aquacrop, with their latitudes: maritime, plains, Mediterranean and
# monsoon at stations; the pampas and eastern England out of a grid.
SERIES = {
    "brussels": 50.8,
    "champion": 41.4,
    "tunis": 36.8,
    "hyderabad": 17.4,
    "cordoba": -31.4,
    "cambridge": 52.2,
}
WITHIN = 0.15
# Made-up years are drawn so many times, so that luck does not decide over the comparison.
DRAWINGS = 4


@dataclass(frozen=True, slots=True)
class Series:
    """Days in order, without 29 February: place in the year, mean temperature (C), rain (mm)."""

    days: tuple[int, ...]
    mean_c: tuple[float, ...]
    rain_mm: tuple[float, ...]

    def months(self, values: Sequence[float]) -> list[float]:
        """The mean of values in each month."""
        parts: list[list[float]] = [[] for _ in MONTH_LENGTHS]
        months = [month for month, length in enumerate(MONTH_LENGTHS) for _ in range(length)]
        for day, value in zip(self.days, values, strict=True):
            parts[months[day]].append(value)
        return [fmean(part) for part in parts]


def series_of(name: str) -> Series:
    """A series of the package aquacrop: day, month, year, minimum, maximum, rain, use."""
    spec = find_spec("aquacrop")
    if spec is None or spec.origin is None:
        pytest.skip("the package aquacrop, which carries daily weather, is not installed")
    path = Path(spec.origin).parent / "data" / f"{name}_climate.txt"
    days, means, rain = [], [], []
    for line in path.read_text(encoding="utf-8").splitlines()[1:]:
        values = line.split()
        if len(values) < 6 or values[:2] == ["29", "2"]:
            continue
        days.append(day_index(date(int(values[2]), int(values[1]), int(values[0]))))
        means.append((float(values[3]) + float(values[4])) / 2)
        rain.append(float(values[5]))
    return Series(tuple(days), tuple(means), tuple(rain))


def made_from(series: Series, latitude: float) -> list[float]:
    """Many made-up years, one after the other, from the monthly normals of a series."""
    rain = [
        mean * length
        for mean, length in zip(series.months(series.rain_mm), MONTH_LENGTHS, strict=True)
    ]
    wet = wet_days(load_models(), series.months(series.mean_c), rain, latitude)
    drawings = [GeneratedRain(f"drawing {number}", wet, rain) for number in range(DRAWINGS)]
    return [
        mm
        for drawing in drawings
        for year in zip(*(drawing.of_day(day) for day in range(DAYS)), strict=True)
        for mm in year
    ]


def wet_days_a_year(rain: Sequence[float]) -> float:
    """Days with 1 mm or more."""
    return sum(mm >= WET_DAY_MM for mm in rain) * DAYS / len(rain)


def dry_spell(rain: Sequence[float]) -> float:
    """The mean length of a run of days with less than 1 mm, in days."""
    dry = [mm < WET_DAY_MM for mm in rain]
    ends = sum(before and not today for before, today in pairwise(dry))
    return sum(dry) / ends


def week_ends(rain: Sequence[float], enough: Callable[[Sequence[bool]], bool]) -> float:
    """Week-ends of a year with enough dry days, by the book's dry day."""
    book = load_book()
    dry = [dry_day(book, today, before) for before, today in pairwise(rain)]
    pairs = [dry[k : k + 2] for k in range(4, len(dry) - 1, 7)]
    return sum(enough(pair) for pair in pairs) / len(pairs) * DAYS / 7


MEASURES: dict[str, Callable[[Sequence[float]], float]] = {
    "wet days": wet_days_a_year,
    "dry spell": dry_spell,
    "week-ends with a dry day": lambda rain: week_ends(rain, any),
    "dry week-ends": lambda rain: week_ends(rain, all),
}


@pytest.mark.full
@pytest.mark.parametrize("name", SERIES)
def test_a_series_that_took_no_part_is_met(name: str) -> None:
    """Wet days of a year, dry spells and workable week-ends come out within 15 %."""
    series = series_of(name)
    made = made_from(series, SERIES[name])
    for what, measure in MEASURES.items():
        measured = measure(series.rain_mm)
        assert measure(made) == pytest.approx(measured, rel=WITHIN), what


@pytest.mark.full
@pytest.mark.parametrize("name", SERIES)
def test_the_rain_of_a_year_comes_back(name: str) -> None:
    """What falls in a made-up year is what the normals say, within 3 %."""
    series = series_of(name)
    measured, made = fmean(series.rain_mm), fmean(made_from(series, SERIES[name]))
    assert made == pytest.approx(measured, rel=0.03)


@pytest.mark.full
@pytest.mark.parametrize("name", SERIES)
@pytest.mark.parametrize("first", [90, 240])
def test_usual_rain_falls_as_often(name: str, first: int) -> None:
    """In how many years 35 days bring at least their usual rain, within two tenths of the years:
    what seed on rain alone is told by."""
    series = series_of(name)
    years = [series.rain_mm[k : k + DAYS] for k in range(0, len(series.rain_mm) - DAYS + 1, DAYS)]
    made_days = made_from(series, SERIES[name])
    made = [made_days[k : k + DAYS] for k in range(0, len(made_days), DAYS)]

    def often(of: Sequence[Sequence[float]]) -> float:
        sums = [sum(year[first : first + 35]) for year in of]
        return fmean(total >= fmean(sums) for total in sums)

    assert often(made) == pytest.approx(often(years), abs=0.2)


@pytest.mark.full
def test_the_line_is_the_one_that_was_fitted() -> None:
    """The coefficients and the error of models.toml are those of the stations."""
    models = load_models()
    assert models.line("wet_days", "coefficients") == pytest.approx(fitted(stations()), abs=6e-5)
    spread = root_mean_square([year for year, _ in left_out().values()])
    assert spread == pytest.approx(models.number("wet_days", "error_share"), abs=0.006)


def test_wet_days_follow_each_other_as_published() -> None:
    """Geng et al. 1986: 0.75 times the share of wet days after a dry one, 0.25 more after a wet."""
    share, days = 0.4, []
    for number in range(40):
        rain = GeneratedRain(f"chain {number}", [share * n for n in MONTH_LENGTHS], [90.0] * 12)
        days += [[mm > 0 for mm in years] for years in rain.month(4)]
    pairs = [
        (before[year], today[year])
        for first in range(0, len(days), MONTH_LENGTHS[4])
        for before, today in pairwise(days[first : first + MONTH_LENGTHS[4]])
        for year in range(YEARS)
    ]
    after_wet = fmean(today for before, today in pairs if before)
    after_dry = fmean(today for before, today in pairs if not before)
    assert after_dry == pytest.approx(0.75 * share, abs=0.01)
    assert after_wet == pytest.approx(0.25 + 0.75 * share, abs=0.01)


def test_amounts_have_the_published_distribution() -> None:
    """Selker & Haith 1990: a share exp(-(1.191 x / mean)^0.75) brings more than x beyond 1 mm."""
    rain = GeneratedRain("amounts", [15.0] * 12, [150.0] * 12)
    fallen = [mm for month in range(12) for years in rain.month(month) for mm in years if mm]
    assert min(fallen) >= WET_DAY_MM
    mean = 150 / 15 - WET_DAY_MM
    for more in (2.0, 9.0, 30.0):
        expected = 2.718281828 ** -((1.191 * more / mean) ** 0.75)
        share = fmean(mm > WET_DAY_MM + more for mm in fallen)
        assert share == pytest.approx(expected, abs=0.02)


def test_a_place_has_the_same_years_in_every_run() -> None:
    """The lots of a place are its own, whichever month is asked for first."""
    one, two, other = (
        GeneratedRain(place, [12.0] * 12, [80.0] * 12)
        for place in ("80 -152", "80 -152", "81 -152")
    )
    two.month(11)
    assert one.month(3) == two.month(3)
    assert one.month(3) != other.month(3)
    # So many lots of a known place, so that another way of drawing is noticed.
    assert [round(mm, 2) for mm in one.of_day(100)[:6]] == FIRST_YEARS


FIRST_YEARS = [0.0, 1.13, 0.0, 2.39, 0.0, 0.0]


def test_days_go_on_over_new_year() -> None:
    """After 31 December comes January of the next made-up year; the last is followed by the
    first."""
    rain = GeneratedRain("over", [12.0] * 12, [80.0] * 12)
    assert list(rain.of_day(DAYS + 3)) == [*rain.of_day(3)[1:], rain.of_day(3)[0]]
    assert list(rain.of_day(-1)) == [rain.of_day(364)[-1], *rain.of_day(364)[:-1]]


def test_a_month_without_rain_is_dry() -> None:
    """Deserts have months, and years, in which nothing falls."""
    models = load_models()
    assert wet_days(models, [20.0] * 12, [0.0] * 12, 25.0) == (0.0,) * 12
    some = wet_days(models, [20.0] * 12, [0.0] * 11 + [3.0], 25.0)
    assert some[:11] == (0.0,) * 11
    assert 0 < some[11] <= 3 / 1.5
    dry = GeneratedRain("desert", some, [0.0] * 11 + [3.0])
    assert not any(mm for years in dry.month(5) for mm in years)


def test_no_month_is_wet_throughout() -> None:
    """However much falls, a tenth of the days is dry."""
    wet = wet_days(load_models(), [2.0] * 12, [900.0] * 12, 5.0)
    assert all(n <= 0.9 * length for n, length in zip(wet, MONTH_LENGTHS, strict=True))


@pytest.mark.full
@pytest.mark.parametrize(
    ("latitude", "longitude"),
    [(24.1, 32.9), (19.1, 73.0), (1.35, 103.8), (-33.9, 18.6), (64.8, -147.7), (60.4, 5.4)],
)
def test_every_climate_of_the_grid_has_its_years(latitude: float, longitude: float) -> None:
    """Desert, monsoon, tropics, both hemispheres, the far north and the wettest coast."""
    climate = climate_at(latitude, longitude)
    rain = generated_rain(climate)
    assert rain is not None
    assert all(0 <= n < length for n, length in zip(climate.wet_days, MONTH_LENGTHS, strict=True))
    years = [rain.of_day(day) for day in range(DAYS)]
    total = sum(map(sum, years)) / YEARS
    assert total == pytest.approx(sum(climate.rain_mm), rel=0.25, abs=5)
    assert generated_rain(climate) is rain
