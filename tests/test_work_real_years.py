"""Dates judged by real years: made-up series whose answers are known beforehand."""

from dataclasses import replace
from datetime import date, timedelta
from math import cos, pi

import pytest

from planning import TODAY, brief_of, made_plan
from told import told
from turfplan.calendar_days import day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.from_normals import ClimateBasis, Spot, build_climate
from turfplan.climate.normals_of_years import normals_of
from turfplan.climate.real_years import RealYear, real_years
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_models
from turfplan.message import as_written
from turfplan.phrases import real_years as phrases
from turfplan.work.real_years import record_of

FIRST_YEAR, YEARS = 2001, 20


def mean_c(day: date, year_shift: float = 0.0) -> float:
    """A year like Pennsylvania's: 24 C in the middle of July, -2 C in January."""
    return 11 - 13 * cos(2 * pi * (day_index(day) - 18 - year_shift) / 365)


def series_of(
    *, wet: frozenset[tuple[int, int]] = frozenset(), late_by_turns: int = 0, years: int = YEARS
) -> DailySeries:
    """Days of many years: rain (8 mm) on the given months and days; every other year runs late by
    so many days.
    """
    first, last = date(FIRST_YEAR, 1, 1), date(FIRST_YEAR + years - 1, 12, 31)
    dates = tuple(first + timedelta(days=k) for k in range((last - first).days + 1))
    means = tuple(mean_c(day, late_by_turns if day.year % 2 else 0) for day in dates)
    return DailySeries(
        dates,
        tuple(m - 5 for m in means),
        tuple(m + 5 for m in means),
        means,
        tuple(8.0 if (day.month, day.day) in wet else 0.0 for day in dates),
    )


def climate_of(series: DailySeries, latitude: float = 40.0) -> Climate:
    models = load_models()
    spot = Spot(
        latitude,
        -76.0,
        "America/New_York" if latitude > 0 else "Australia/Sydney",
        "Dfa",
        None,
        None,
    )
    return build_climate(
        models,
        spot,
        normals_of(models, series),
        ClimateBasis(as_written("made up"), error_days=7, air_error_c=0.7),
    )


def years_of(series: DailySeries) -> tuple[RealYear, ...]:
    return real_years(series, climate_of(series), load_models())


def test_every_whole_year_is_a_climate_of_its_own():
    """A late year is warm later than its neighbours; its soil follows its own air."""
    years = years_of(series_of(late_by_turns=20))
    assert [year.label for year in years] == list(range(FIRST_YEAR, FIRST_YEAR + YEARS))
    late, early = years[0].climate, years[1].climate
    peak = {
        name: curve.index(max(curve))
        for name, curve in (("late", late.air_mean_c), ("early", early.air_mean_c))
    }
    assert 15 <= peak["late"] - peak["early"] <= 25
    assert (
        12
        <= late.soil_10cm_c.index(max(late.soil_10cm_c))
        - early.soil_10cm_c.index(max(early.soil_10cm_c))
        <= 28
    )


def test_a_year_with_too_many_holes_is_left_out():
    """Fifty unknown days in one year are too many; that year is not judged by."""
    whole = series_of()
    holes = {date(2005, 6, 1) + timedelta(days=k) for k in range(50)}
    broken = replace(
        whole,
        tmean_c=tuple(
            None if day in holes else mean
            for day, mean in zip(whole.dates, whole.tmean_c, strict=True)
        ),
    )
    labels = [year.label for year in years_of(broken)]
    assert 2005 not in labels and len(labels) == YEARS - 1


def test_the_frosts_of_a_year_are_its_own_nights():
    """The last frost lies in spring, the first in autumn, on the days the minimum says."""
    year = years_of(series_of())[0]
    last, first = year.climate.last_frost, year.climate.first_frost
    assert last is not None and first is not None
    nights = [day for day in range(365) if (low := year.min_c[day]) is not None and low <= 0]
    assert last.median == max(day for day in nights if day < 180)
    assert first.median == min(day for day in nights if day > 180)


def test_a_day_that_is_always_wet_never_works():
    """Rain on 12 September of every year counts against spreading on that day alone."""
    record = record_of(years_of(series_of(wet=frozenset({(9, 12)}))), load_book(), ("tall_fescue",))
    assert record is not None
    wet, dry = (
        record.tally("topdress", "cool_pass_autumn", date(2027, 9, day)) for day in (12, 11)
    )
    assert (wet.worked, dry.worked) == (0, YEARS)
    assert dict(wet.parts)[phrases.dry()] == 0 and dict(dry.parts)[phrases.dry()] == YEARS
    assert told(dry.message) == (
        "window open in 20, dry in 20, growth through it within 21 days in 20 of 20 years"
    )


def test_early_frost_counts_against_late_seed():
    """Seed has its frost-free weeks early in autumn in every year, late in autumn in none."""
    record = record_of(years_of(series_of()), load_book(), ("tall_fescue",))
    assert record is not None
    counts = [
        dict(record.tally("overseed", "cool_overseed_autumn", day).parts)[phrases.no_frost(n=28)]
        for day in (date(2027, 9, 1), date(2027, 10, 25))
    ]
    assert counts == [YEARS, 0]


def test_the_spread_of_a_window_is_the_spread_of_the_years():
    """Where every other year runs three weeks late, the window opens over three weeks."""
    record = record_of(years_of(series_of(late_by_turns=20)), load_book(), ("tall_fescue",))
    assert record is not None
    spread = record.spread("cool_overseed_autumn", 2027)
    assert spread.years == spread.opened == YEARS and spread.start is not None
    assert 15 <= (spread.start[1] - spread.start[0]).days <= 25


def test_few_years_say_nothing():
    """Under ten years nothing is counted."""
    series = series_of(years=9)
    assert (
        record_of(
            real_years(series, climate_of(series_of()), load_models()),
            load_book(),
            ("tall_fescue",),
        )
        is None
    )


def test_a_plan_tells_of_its_real_years_and_steers_off_wet_days():
    """With rain on the chosen Sunday of every year the pass goes elsewhere, and every judged day
    says its count.
    """
    dry = series_of()
    book, climate = load_book(), climate_of(dry)
    brief = brief_of()
    plain = made_plan(brief, book, climate, now=TODAY, real_years=years_of(dry))
    spread = next(t for t in plain.tasks if t.plays("spreading"))
    told = {real.task: real for real in plain.real_years}
    assert told[spread.id].years == told[spread.id].worked == YEARS
    work = [
        (t.start + timedelta(days=k))
        for t in plain.tasks
        if t.plays("spreading", "sowing")
        for k in (0, 1)
    ]
    rainy = series_of(wet=frozenset((day.month, day.day) for day in work))
    moved = made_plan(brief, book, climate, now=TODAY, real_years=years_of(rainy))
    again = next(t for t in moved.tasks if t.plays("spreading"))
    assert again.start != spread.start
    assert next(r for r in moved.real_years if r.task == again.id).worked == YEARS
    assert not made_plan(brief, book, climate, now=TODAY).real_years


@pytest.mark.parametrize("latitude", [40.0, -34.0])
def test_years_run_from_cold_to_cold(latitude: float):
    """In the south a year begins in July, so that no summer is cut."""
    series = series_of()
    half = timedelta(days=182)
    if latitude < 0:
        series = replace(series, dates=tuple(day + half for day in series.dates))
    years = real_years(series, climate_of(series, latitude), load_models())
    assert len(years) >= YEARS - 2
    hottest = {year.climate.air_mean_c.index(max(year.climate.air_mean_c)) for year in years}
    assert all((150 <= day <= 230) if latitude > 0 else (day < 50 or day > 330) for day in hottest)


@pytest.mark.parametrize(("latitude", "turn"), [(40.0, (1, 1)), (-34.0, (7, 1))])
def test_rain_goes_on_where_a_year_ends(latitude: float, turn: tuple[int, int]):
    """Beyond the end of a year (New Year in the north, the end of June in the south) comes the next
    one; after the last, the first.
    """
    series = series_of()
    series = replace(series, rain_mm=tuple(float(day.year - FIRST_YEAR) for day in series.dates))
    climate = climate_of(series, latitude)
    record = record_of(
        real_years(series, climate, load_models()), load_book(), ("tall_fescue",), None, (14, 35)
    )
    assert record is not None
    first = day_index(date(2027, *turn))
    begun, before = record.of_day(first), record.of_day(first - 1)
    assert begun[1:] == tuple(year + 1 for year in begun[:-1])
    # 31 December lies in the calendar year before, 30 June in the same one.
    assert before[1:] == (begun[:-1] if latitude > 0 else begun[1:])
    assert record.of_day(first + 365)[:-1] == begun[1:]
    assert record.of_day(first + 365)[-1] == begun[0]


def test_rain_alone_keeps_seed_moist_in_wet_years():
    """Eight millimetres on each of 35 days outdo what September takes; a day without ruins
    nothing, half of the days do.
    """
    climate = climate_of(series_of())
    days = [date(2027, 9, 1) + timedelta(days=k) for k in range(35)]
    counts = []
    for wet in (days, days[1:], days[::4], []):
        record = record_of(
            years_of(series_of(wet=frozenset((day.month, day.day) for day in wet))),
            load_book(),
            ("tall_fescue",),
            None,
            (14, 35),
        )
        assert record is not None
        counts.append(sum(record.moist(days[0])))
    assert counts == [YEARS, YEARS, 0, 0], sum(climate.et0_mm)
