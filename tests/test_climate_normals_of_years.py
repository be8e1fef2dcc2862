"""Dates of frost from many years whose frosts are known beforehand."""

from datetime import date, timedelta
from math import cos, pi

import pytest

from told_errors import refused
from turfplan.calendar_days import DAYS, day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.fitted_models import Models
from turfplan.climate.normals_of_years import _frost, frost_of, normals_of
from turfplan.climate.record import Frost
from turfplan.errors import TurfplanError
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


def models(**files: float) -> Models:
    """Settings of the reading of files: three years or more, each four fifths known, means over
    five days.
    """
    told = {"whole_year_share": 0.8, "least_years": 3, "smoothed_days": 5, **files}
    return Models({"files": told, "bands": {"normals_days": 7}})


def plain(years: int, **columns: tuple[float | None, ...]) -> DailySeries:
    """Years from 2001 on, of which a mean is the day of the year, with what is told otherwise."""
    begin, end = date(2001, 1, 1), date(2001 + years, 1, 1)
    days = tuple(begin + timedelta(k) for k in range((end - begin).days))
    mean = tuple(float(day_index(day)) for day in days)
    known: dict[str, tuple[float | None, ...]] = {
        "tmin_c": tuple(m - 3 for m in mean),
        "tmax_c": tuple(m + 4 for m in mean),
        "tmean_c": mean,
        "rain_mm": (2.0,) * len(days),
        **columns,
    }
    return DailySeries(
        days, known["tmin_c"], known["tmax_c"], known["tmean_c"], known["rain_mm"],
        known.get("et0_mm"),
    )  # fmt: skip


def test_a_normal_is_the_mean_of_five_days_over_the_years() -> None:
    """Over New Year too; each column by itself."""
    found = normals_of(models(), plain(3))
    assert found.min_c is not None and found.max_c is not None
    assert found.mean_c[100] == pytest.approx(100.0)
    assert found.mean_c[0] == pytest.approx((363 + 364 + 0 + 1 + 2) / 5)
    assert (found.min_c[100], found.max_c[100]) == pytest.approx((97.0, 104.0))
    assert found.rain_mm == pytest.approx((2.0,) * 365) and found.et0_mm is None
    wet = plain(3, et0_mm=tuple(float(k % 7) for k in range(1095)))
    assert normals_of(models(), wet).et0_mm is not None


def test_days_that_are_not_known_are_left_out_of_a_mean() -> None:
    """Of three years the first two: 3 and 5 degrees are 4."""
    means: list[float | None] = [3.0] * 365 + [5.0] * 365 + [9.0] * 365
    means[730 + 100] = None
    found = normals_of(models(smoothed_days=1), plain(3, tmean_c=tuple(means)))
    assert found.mean_c[100] == pytest.approx(4.0)
    assert found.mean_c[101] == pytest.approx(17 / 3)


@pytest.mark.parametrize(
    ("years", "typical", "enough"), [(3, False, True), (2, False, False), (1, True, True)]
)
def test_a_series_needs_years_enough_unless_it_is_a_typical_one(
    years: int, *, typical: bool, enough: bool
) -> None:
    """Three of which so much is known."""
    if enough:
        assert len(normals_of(models(), plain(years), typical_year=typical).mean_c) == 365
        return
    with refused("2"):
        normals_of(models(), plain(years), typical_year=typical)


def test_a_day_that_no_year_knows_leaves_no_normals() -> None:
    """Of the mean, the lowest or the highest temperature; of rain and evapotranspiration it leaves
    these out.
    """
    holes = tuple(None if k % 365 == 40 else 5.0 for k in range(1095))
    for column in ("tmean_c", "tmin_c", "tmax_c"):
        with pytest.raises(TurfplanError):
            normals_of(models(), plain(3, **{column: holes}))
    found = normals_of(models(), plain(3, rain_mm=holes, et0_mm=holes))
    assert (found.rain_mm, found.et0_mm) == (None, None)


@pytest.mark.parametrize(("known", "told"), [(548, True), (547, False)])
def test_rain_is_told_where_half_of_it_is_known(known: int, *, told: bool) -> None:
    """548 of 1,095 days, every day of the year among them."""
    rain = (1.0,) * known + (None,) * (1095 - known)
    found = normals_of(models(), plain(3, rain_mm=rain))
    assert (found.rain_mm is not None) == told


def test_frosts_are_counted_from_the_hottest_day_to_half_a_year_away() -> None:
    """182 days before it counts and 183 does not; freezing is nought; the hottest day itself is
    after itself. A year whose half lies beyond the series is not asked.
    """
    begin, end = date(2000, 7, 1), date(2004, 6, 30)
    days = tuple(begin + timedelta(k) for k in range((end - begin).days + 1))
    mean = tuple(20.0 if k == 190 else 10.0 for k in range(365))
    warm = [date(year, 7, 10) for year in (2001, 2002, 2003)]
    assert [day_index(day) for day in warm] == [190] * 3

    def found(*frosts: date) -> tuple[Frost | None, Frost | None]:
        lows = tuple(0.0 if day in frosts else 0.1 for day in days)
        empty = (None,) * len(days)
        return frost_of(
            models(), DailySeries(days, lows, empty, empty, empty), (2001, 2002, 2003), mean
        )

    last, first = found(
        *(day - timedelta(182) for day in warm), *(day + timedelta(182) for day in warm)
    )
    assert last == Frost(190 - 182, 8, 8, 7)
    assert first is not None and (first.median, first.error_days) == ((190 + 182) % 365, 7)
    assert found(*(day - timedelta(183) for day in warm))[0] is None
    assert found(*(day + timedelta(183) for day in warm))[1] is None
    last, first = found(*warm)
    assert last is None and first == Frost(190, 190, 190, 7)
    last, first = found(
        *(day - timedelta(1) for day in warm), *(day + timedelta(1) for day in warm)
    )
    assert last == Frost(189, 189, 189, 7) and first == Frost(191, 191, 191, 7)


def test_a_year_without_frost_counts_as_the_mildest() -> None:
    """Of three springs with frost 100 and 50 days before the hottest day, and none, the middle is
    the first; so it is in autumn.
    """
    begin, end = date(2000, 7, 1), date(2004, 6, 30)
    days = tuple(begin + timedelta(k) for k in range((end - begin).days + 1))
    mean = tuple(20.0 if k == 190 else 10.0 for k in range(365))
    frosts = {date(2002, 7, 10) - timedelta(100), date(2003, 7, 10) - timedelta(50)}
    frosts |= {date(2002, 7, 10) + timedelta(100), date(2003, 7, 10) + timedelta(50)}
    lows, empty = tuple(-1.0 if day in frosts else 1.0 for day in days), (None,) * len(days)
    found = DailySeries(days, lows, empty, empty, empty)
    last, first = frost_of(models(), found, (2001, 2002, 2003), mean)
    assert last is not None and first is not None
    assert (last.median, first.median) == (90, 290)


def test_years_at_the_ends_of_a_series_are_asked_where_their_half_is_whole() -> None:
    """From exactly half a year before the hottest day, to exactly half a year after it."""
    hottest = date(2002, 7, 10)
    for before, after, seen in (
        (182, 182, (True, True)),
        (181, 182, (False, True)),
        (182, 181, (True, False)),
    ):
        days = tuple(hottest + timedelta(k) for k in range(-before, after + 1))
        lows = tuple(-1.0 if abs((day - hottest).days) == 50 else 9.0 for day in days)
        empty = (None,) * len(days)
        mean = tuple(20.0 if k == 190 else 10.0 for k in range(365))
        found = frost_of(models(), DailySeries(days, lows, empty, empty, empty), (2002,), mean)
        assert tuple(frost is not None for frost in found) == seen


@pytest.mark.parametrize(
    ("found", "frost"),
    [
        ((), None),
        ((100,), (100, 100, 100)),
        (tuple(range(90, 101)), (95, 91, 99)),
        ((-10_000, -10_000, 100, 104, 108, 110, 112, 114, 116, 118, 120), (110, 102, 118)),
        ((300, 301, 302, 304, 305, 306, 307, 308, 309, 10_000, 10_000), (306, 301, 311)),
        ((-10_000, 100, -10_000), None),
        ((10_000, 10_000, 300), None),
        ((370, 372, 374), (7, 5, 9)),
        ((-4, -2, 0), (363, 361, 365)),
    ],
)
def test_a_frost_is_the_middle_and_a_tenth_on_each_side(
    found: tuple[int, ...], frost: tuple[int, int, int] | None
) -> None:
    """Carried into the year of the middle; a tenth without a date is mirrored at it."""
    expected = None if frost is None else Frost(*frost, 7)
    assert _frost(found, 7) == expected
