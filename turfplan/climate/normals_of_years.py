"""What many real years say: normals and dates of frost."""

from collections.abc import Sequence
from datetime import date, timedelta

from turfplan.calendar_days import DAYS, HALF_A_YEAR, date_of, day_index
from turfplan.climate.daily_series import Column, DailySeries
from turfplan.climate.fitted_models import Models
from turfplan.climate.from_normals import Normals
from turfplan.climate.record import Curve, Frost
from turfplan.errors import Problem, TurfplanError
from turfplan.phrases import weather

FREEZING_C = 0.0
_NEVER = 10_000


def normals_of(models: Models, series: DailySeries, *, typical_year: bool = False) -> Normals:
    """Normals by place in the year, each a mean over about a fortnight, with dates of frost from
    the years themselves.

    A typical year counts as many, without dates of frost. Rain is None where too little of it is
    known. Raises TurfplanError for a series with too few whole years, or with a day of the year
    that no year knows.
    """
    years = series.whole_years(models.number("files", "whole_year_share"))
    least = round(models.number("files", "least_years"))
    if len(years) < least and not typical_year:
        raise TurfplanError(
            Problem(
                "",
                weather.too_short(),
                weather.whole_years(n=len(years)),
                weather.or_more(least=least),
                weather.use_as_weather(),
            )
        )
    smoothed = round(models.number("files", "smoothed_days"))
    mean, low, high = (
        _by_day(column, series.dates, smoothed)
        for column in (series.tmean_c, series.tmin_c, series.tmax_c)
    )
    if mean is None or low is None or high is None:
        raise TurfplanError(Problem("", weather.no_temperature()))
    known_rain = sum(rain is not None for rain in series.rain_mm) / len(series.rain_mm)
    rain = _by_day(series.rain_mm, series.dates, smoothed) if known_rain >= 0.5 else None
    last, first = (None, None) if typical_year else frost_of(models, series, years, mean)
    et0 = None if series.et0_mm is None else _by_day(series.et0_mm, series.dates, smoothed)
    return Normals(
        mean,
        rain,
        low,
        high,
        last,
        first,
        frost_known=not typical_year,
        et0_mm=et0,
        coldest_night_c=None if typical_year else coldest_night_of(models, series, mean),
    )


def coldest_night_of(models: Models, series: DailySeries, mean_c: Curve) -> float | None:
    """The mean of the coldest nights of the years, degC; None where no winter is known whole.

    A year runs from hottest day to hottest day, so that a winter is whole in both hemispheres.
    """
    hottest = mean_c.index(max(mean_c))
    winters: dict[int, list[float]] = {}
    for day, low in zip(series.dates, series.tmin_c, strict=True):
        if low is not None:
            winters.setdefault(day.year - (day_index(day) < hottest), []).append(low)
    whole = models.number("files", "whole_year_share") * DAYS
    coldest = [min(lows) for lows in winters.values() if len(lows) >= whole]
    return sum(coldest) / len(coldest) if coldest else None


def _by_day(values: Column, dates: Sequence[date], smoothed_days: int) -> Curve | None:
    sums, counts = [0.0] * DAYS, [0] * DAYS
    for day, value in zip(dates, values, strict=True):
        if value is not None:
            sums[day_index(day)] += value
            counts[day_index(day)] += 1
    if min(counts) == 0:
        return None
    means = [total / count for total, count in zip(sums, counts, strict=True)]
    half = smoothed_days // 2
    return tuple(
        sum(means[(d + k) % DAYS] for k in range(-half, half + 1)) / (2 * half + 1)
        for d in range(DAYS)
    )


def frost_of(
    models: Models, series: DailySeries, years: Sequence[int], mean_c: Curve
) -> tuple[Frost | None, Frost | None]:
    """Last and first frost of the years: median, and the dates passed in one year of ten; None
    where most years have none.

    A frost year runs from hottest day to hottest day, so that winter is whole in both hemispheres.
    """
    hottest = mean_c.index(max(mean_c))
    frosts = {
        day
        for day, low in zip(series.dates, series.tmin_c, strict=True)
        if low is not None and low <= FREEZING_C
    }
    last, first = [], []
    for year in years:
        warm = date_of(hottest, year)
        before = [k for k in range(1, HALF_A_YEAR + 1) if warm - timedelta(days=k) in frosts]
        after = [k for k in range(HALF_A_YEAR + 1) if warm + timedelta(days=k) in frosts]
        if series.dates[0] <= warm - timedelta(days=HALF_A_YEAR):
            last.append(hottest - min(before) if before else -_NEVER)
        if warm + timedelta(days=HALF_A_YEAR) <= series.dates[-1]:
            first.append(hottest + min(after) if after else _NEVER)
    days = round(models.number("bands", "normals_days"))
    return _frost(last, days), _frost(first, days)


def _frost(found: Sequence[int], error_days: int) -> Frost | None:
    if not found:
        return None
    ordered = sorted(found)
    early, middle, late = (ordered[round(part * (len(ordered) - 1))] for part in (0.1, 0.5, 0.9))
    if abs(middle) == _NEVER:
        return None
    # A tenth of the years without frost has no date: the band ends as far on the other side of the
    # median.
    early = 2 * middle - late if abs(early) == _NEVER else early
    late = 2 * middle - early if abs(late) == _NEVER else late
    turn = middle // DAYS * DAYS
    return Frost(middle - turn, early - turn, late - turn, error_days)
