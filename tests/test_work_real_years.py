"""Dates judged by real years: made-up series whose answers are known beforehand."""

from dataclasses import replace
from datetime import date, timedelta
from math import cos, pi
from typing import Any

import pytest

import water_cases as cases
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
from turfplan.message import as_written, listed
from turfplan.phrases import real_years as phrases
from turfplan.work.real_years import RealYears, record_of

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


BOOK = load_book()


def year(label: int, *, min_c: float = 5.0, rain_mm: Any = 0.0) -> RealYear:
    """A year of the cool place with the same night, and rain by place in the year."""
    rain = tuple(rain_mm) if isinstance(rain_mm, tuple) else (rain_mm,) * 365
    return RealYear(label, cases.cool_climate(), (min_c,) * 365, rain)


def record(*years: RealYear, spans: Any = None, growth: float = 1.0, **more: Any) -> RealYears:
    """The record of tall fescue over some years, with the spans of the windows of each."""
    given: dict[str, Any] = {"species": "tall_fescue", "on_rain": None, **more}
    return RealYears(
        years,
        BOOK,
        given["species"],
        tuple(spans or ({},) * len(years)),
        ((growth,) * 365,) * len(years),
        given["on_rain"],
    )


def at(place: int) -> date:
    """The day of a place in the year."""
    return date(2027, 1, 1) + timedelta(place)


def worked(
    of: RealYears, operation: str, first: int, last: int | None = None, rule: str = ""
) -> int:
    """In how many years a job would have gone well."""
    return of.tally(operation, rule, at(first), None if last is None else at(last)).worked


def test_a_window_is_open_from_its_first_day_to_its_last_round_the_year() -> None:
    """In the years that have it at all; the first day of the work counts."""
    found = record(
        *(year(n) for n in (2001, 2002, 2003)),
        spans=({"a": (350, 30)}, {"a": (355, 5)}, {}),
    )
    open_on = [
        worked(found, "soil_test", day, rule="a") for day in (349, 350, 355, 360, 361, 15, 16)
    ]
    assert open_on == [0, 1, 2, 2, 1, 1, 0]
    assert worked(found, "soil_test", 360, 361, rule="a") == 2
    tally = found.tally("soil_test", "a", at(355))
    assert (tally.years, tally.worked, tally.share) == (3, 2, pytest.approx(2 / 3))
    assert [count for _, count in tally.parts] == [2]
    assert not found.asks("soil_test") and found.asks("topdress")


def test_a_day_is_dry_after_little_rain_and_no_soaking_before() -> None:
    """At either mark it still is; a day without a reading too. Both ends of the work are asked."""
    slight, soaking = BOOK.si("weather.dry_day_rain"), BOOK.si("weather.soaking_rain")
    rain: list[float | None] = [0.0] * 365
    rain[100], rain[110], rain[120], rain[130], rain[140] = (
        slight,
        slight + 0.1,
        soaking,
        soaking + 0.1,
        None,
    )
    found = record(year(2001, rain_mm=tuple(rain)))
    dry = [worked(found, "topdress", day) for day in (100, 101, 110, 111, 121, 131, 132, 140, 141)]
    assert dry == [1, 1, 0, 1, 1, 0, 1, 1, 1]
    assert worked(found, "topdress", 109, 110) == 0 == worked(found, "topdress", 110, 112)
    wet_end = [0.0] * 364 + [soaking + 0.1]
    assert worked(record(year(2001, rain_mm=tuple(wet_end))), "topdress", 0) == 0


def test_grass_grows_through_by_the_mean_of_its_days() -> None:
    """At the least growth it does."""
    least = BOOK.si("real_years.least_growth")
    assert worked(record(year(2001), growth=least), "topdress", 100) == 1
    assert worked(record(year(2001), growth=least - 0.01), "topdress", 100) == 0
    days = round(BOOK.si("species.tall_fescue.pass_interval_min"))
    curve = tuple(1.0 if n < 100 else 0.0 for n in range(365))
    found = replace(record(year(2001)), growth=(curve,))
    needed = round(least * days + 0.49)
    assert worked(found, "topdress", 100 - needed) == 1
    assert worked(found, "topdress", 100 - needed + 1) == 0


def test_seed_of_autumn_is_killed_by_frost_within_its_days() -> None:
    """At nothing it freezes; what is not known does not. Spring frosts kill warm grass alone."""
    days = round(BOOK.si("species.tall_fescue.days_before_frost"))
    nights: list[float | None] = [5.0] * 365
    nights[300], nights[320], nights[340] = 0.0, 0.1, None

    def sown(day: int, rule: str = "", **more: Any) -> int:
        one = replace(year(2001), min_c=tuple(nights))
        spans = ({rule: (day, 0)},) if rule else None
        return worked(record(one, spans=spans, **more), "overseed", day, rule=rule)

    assert [sown(300 - days), sown(301 - days), sown(300), sown(301)] == [1, 0, 0, 1]
    rising = next(r.id for r in BOOK.windows if r.half == "rising" and r.operation == "overseed")
    assert sown(300, rising) == 1
    assert sown(300, rising, species="bermuda_common") == 0


def test_seed_on_rain_has_what_a_wet_bed_loses() -> None:
    """In both of its spans; a reading that is missing is none."""
    loss = BOOK.si("water.kc_wet_surface")
    dry = replace(cases.cool_climate(), et0_mm=(2.0,) * 365)

    def rained(*mm: float | None) -> int:
        rain = tuple(mm[n] if n < len(mm) else 0.0 for n in range(365))
        one = replace(year(2001), climate=dry, rain_mm=rain)
        return worked(record(one, on_rain=(2, 4)), "overseed", 0)

    assert loss == 1.0
    assert rained(4.0, 0.0, 4.0, 0.0) == rained(0.0, 4.0, 0.0, 4.0) == 1
    assert rained(3.9, 0.0, 9.0, 0.0) == rained(4.0, 0.0, 3.9, 0.0) == 0
    assert rained(4.0, None, 4.0, None) == 1
    assert record(year(2001), on_rain=(2, 4)).asks("overseed")


def test_a_window_is_told_by_the_tenth_and_the_ninetieth_year() -> None:
    """Around the middle of its first days, so that New Year cuts nothing."""
    spans = [{"a": ((355 + n) % 365, 10)} for n in range(21)]
    found = record(*(year(2000 + n) for n in range(22)), spans=[*spans, {}])
    spread = found.spread("a", 2027)
    assert (spread.years, spread.opened) == (22, 21)
    # The 21 first days are 22 December to 11 January, counted from 1 January of that year on.
    assert spread.start is not None and spread.end is not None
    assert (spread.start[1] - spread.start[0]).days == 16
    assert [e - s for s, e in zip(spread.start, spread.end, strict=True)] == [timedelta(10)] * 2
    places = [day_index(day) for day in spread.start]
    assert places == [(355 + 2) % 365, (355 + 18) % 365]
    none = found.spread("b", 2027)
    assert (none.years, none.opened, none.start, none.end) == (22, 0, None, None)
    few = record(*(year(2000 + n) for n in range(3)), spans=[{"a": (n, 1)} for n in (5, 9, 7)])
    assert few.spread("a", 2027).start == (date(2027, 1, 6), date(2027, 1, 10))


def test_too_few_years_are_no_record() -> None:
    """As many as the book asks for are; spans are kept by rule."""
    least = round(BOOK.si("real_years.least_years"))
    years = [year(2001 + n) for n in range(least)]
    assert record_of(years[1:], BOOK, ("tall_fescue",)) is None
    found = record_of(years[:1] * least, BOOK, ("tall_fescue",), on_rain=(1, 2))
    assert found is not None and len(found.spans) == len(found.growth) == least
    assert found.on_rain == (1, 2) and found.labels == listed(("2001", "2001"), "range")
    assert all(0 <= start < 365 and length >= 0 for start, length in found.spans[0].values())


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
def test_the_frosts_of_a_year_are_its_own_nights():
    """The last frost lies in spring, the first in autumn, on the days the minimum says."""
    year = years_of(series_of())[0]
    last, first = year.climate.last_frost, year.climate.first_frost
    assert last is not None and first is not None
    nights = [day for day in range(365) if (low := year.min_c[day]) is not None and low <= 0]
    assert last.median == max(day for day in nights if day < 180)
    assert first.median == min(day for day in nights if day > 180)


@pytest.mark.full
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


@pytest.mark.full
def test_early_frost_counts_against_late_seed():
    """Seed has its frost-free weeks early in autumn in every year, late in autumn in none."""
    record = record_of(years_of(series_of()), load_book(), ("tall_fescue",))
    assert record is not None
    counts = [
        dict(record.tally("overseed", "cool_overseed_autumn", day).parts)[phrases.no_frost(n=28)]
        for day in (date(2027, 9, 1), date(2027, 10, 25))
    ]
    assert counts == [YEARS, 0]


@pytest.mark.full
def test_the_spread_of_a_window_is_the_spread_of_the_years():
    """Where every other year runs three weeks late, the window opens over three weeks."""
    record = record_of(years_of(series_of(late_by_turns=20)), load_book(), ("tall_fescue",))
    assert record is not None
    spread = record.spread("cool_overseed_autumn", 2027)
    assert spread.years == spread.opened == YEARS and spread.start is not None
    assert 15 <= (spread.start[1] - spread.start[0]).days <= 25


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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


@pytest.mark.full
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
