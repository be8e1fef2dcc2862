"""Dates of frost from many years whose frosts are known beforehand."""

from datetime import date, timedelta
from math import cos, pi

import pytest

from turfplan.calendar_days import DAYS, day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.normals_of_years import frost_of, normals_of
from turfplan.climate.record import Frost
from turfplan.files.reading.place import load_models

YEARS = range(2001, 2012)


def series(frosts: dict[int, tuple[date, ...]], *, south: bool = False) -> DailySeries:
    """Years that are warm in the middle of July, or of January, with frost on some days alone."""
    begin, end = date(YEARS[0], 1, 1), date(YEARS[-1], 12, 31)
    days = tuple(begin + timedelta(k) for k in range((end - begin).days + 1))
    hottest = 14 if south else 195
    means = tuple(15 + 10 * cos(2 * pi * (day_index(day) - hottest) / DAYS) for day in days)
    cold = {day for one in frosts.values() for day in one}
    lows = tuple(-1.0 if day in cold else mean - 2 for day, mean in zip(days, means, strict=True))
    dry = (0.0,) * len(days)
    return DailySeries(days, lows, tuple(m + 5 for m in means), means, dry)


def frosts_of(found: DailySeries) -> tuple[Frost | None, Frost | None]:
    """Last and first frost."""
    models = load_models()
    return frost_of(models, found, YEARS, normals_of(models, found, typical_year=True).mean_c)


def test_the_middle_and_a_tenth_on_each_side_are_read_from_the_years() -> None:
    """Eleven springs and ten autumns: the last frosts lie two days apart each year, so do the
    first ones.
    """
    dates = {
        year: (date(year, 4, 1) + timedelta(2 * n), date(year, 10, 1) + timedelta(2 * n))
        for n, year in enumerate(YEARS)
    }
    last, first = frosts_of(series(dates))
    assert last is not None and first is not None
    april, october = (day_index(date(2001, month, 1)) for month in (4, 10))
    # Half a year after its summer, the last year is over: it has no first frost of its own.
    assert (last.early_10, last.median, last.late_10) == (april + 2, april + 10, april + 18)
    assert (first.early_10, first.median, first.late_10) == (october + 2, october + 8, october + 16)


def test_years_without_frost_leave_the_band_as_wide_on_both_sides() -> None:
    """Where the mildest tenth has no frost, the other side is mirrored at the median, in spring
    and in autumn.
    """
    dates = {
        year: (date(year, 3, 20) + timedelta(n), date(year, 10, 20) - timedelta(2 * n))
        for n, year in enumerate(YEARS)
        if n > 2
    }
    for frost, side in zip(frosts_of(series(dates)), (1, 2), strict=True):
        assert frost is not None
        assert frost.median - frost.early_10 == frost.late_10 - frost.median >= 3 * side


def test_where_most_years_have_none_there_is_no_date() -> None:
    """Two of eleven."""
    assert frosts_of(series({2003: (date(2003, 2, 1),), 2004: (date(2004, 2, 1),)}))[0] is None


def test_dates_lie_within_one_year_in_the_south() -> None:
    """Frost in July, between two summers in January."""
    dates = {year: (date(year, 7, 1), date(year, 7, 21)) for year in YEARS}
    last, first = frosts_of(series(dates, south=True))
    assert last is not None and first is not None
    for frost, day in ((last, date(2001, 7, 21)), (first, date(2001, 7, 1))):
        assert frost.median == day_index(day)
        # A leap day between summer and frost is a day of the band.
        assert 0 <= frost.median - frost.early_10 <= 1 and 0 <= frost.late_10 - frost.median <= 1


def test_a_typical_year_says_nothing_about_frost() -> None:
    """Many years do."""
    found = series({year: (date(year, 4, 1), date(year, 10, 1)) for year in YEARS})
    typical, many = (
        normals_of(load_models(), found, typical_year=typical) for typical in (True, False)
    )
    assert (typical.last_frost, typical.first_frost, typical.frost_known) == (None, None, False)
    assert many.frost_known and many.last_frost is not None and many.first_frost is not None
    assert many.last_frost.median == pytest.approx(day_index(date(2001, 4, 1)))
