"""Real years out of a daily series: each as a climate of its own, and its days as they were."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import TypeVar

from turfplan.calendar_days import DAYS, HALF_A_YEAR, MONTH_STARTS, day_index
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.fitted_models import Models, soil_from_air
from turfplan.climate.record import Climate, Curve, Frost
from turfplan.phrases import climate as phrases

YearValue = TypeVar("YearValue")
SOUTHERN_BEGIN = MONTH_STARTS[6]
"""The place in the year of 1 July, on which the years of the south begin."""


@dataclass(frozen=True, slots=True)
class RealYear:
    """One real year, coldest season to coldest season, by place in the year (`day_index`).

    `label` is the calendar year in which it begins; `climate` holds its smoothed temperatures, its
    soil and its frosts; `min_c` and `rain_mm` are its days as they were, None where nothing is
    known.
    """

    label: int
    climate: Climate
    min_c: tuple[float | None, ...]
    rain_mm: tuple[float | None, ...]


def real_years(series: DailySeries, normal: Climate, models: Models) -> tuple[RealYear, ...]:
    """The whole years of a series: from January in the north, from July in the south.

    `normal` fills single holes.

    A threshold that is crossed for a day or two says little: the curves of a year are means over
    about a fortnight, as normals of a file are. Years of which too little is known are left out.
    """
    smoothed, least = (
        round(models.number("files", "smoothed_days")),
        models.number("files", "whole_year_share"),
    )
    mean = tuple(
        normal.air_c(day) if value is None else value
        for day, value in zip(series.dates, series.tmean_c, strict=True)
    )
    soil_5cm, soil_10cm = soil_from_air(models, mean, 5), soil_from_air(models, mean, 10)
    place = {day: number for number, day in enumerate(series.dates)}
    years = []
    for year in range(series.dates[0].year, series.dates[-1].year + 1):
        first = date(year, 7 if normal.southern else 1, 1)
        last = date(first.year + 1, first.month, 1) - timedelta(days=1)
        if first not in place or last not in place:
            continue
        span = range(place[first], place[last] + 1)
        if sum(series.tmean_c[k] is not None for k in span) < least * DAYS:
            continue
        air = _by_index(series.dates, mean, span)
        low = _by_index(series.dates, series.tmin_c, span)
        curve = _smoothed(air, smoothed)
        climate = replace(
            normal,
            source=phrases.year(year=_label(first, last)),
            air_mean_c=curve,
            soil_5cm_c=_smoothed(_by_index(series.dates, soil_5cm, span), smoothed),
            soil_10cm_c=_smoothed(_by_index(series.dates, soil_10cm, span), smoothed),
            last_frost=_frost(low, curve, spring=True),
            first_frost=_frost(low, curve, spring=False),
        )
        years.append(RealYear(year, climate, low, _by_index(series.dates, series.rain_mm, span)))
    return tuple(years)


def _label(first: date, last: date) -> str:
    return str(first.year) if first.year == last.year else f"{first.year}/{last.year % 100:02}"


def _by_index(
    dates: Sequence[date], values: Sequence[YearValue], span: range
) -> tuple[YearValue, ...]:
    """Values of one year laid out by place in the year; 29 February falls away."""
    laid: dict[int, YearValue] = {}
    for number in span:
        laid.setdefault(day_index(dates[number]), values[number])
    return tuple(laid[day] for day in range(DAYS))


def _smoothed(values: Sequence[float], days: int) -> Curve:
    half = days // 2
    return tuple(
        sum(values[(day + k) % DAYS] for k in range(-half, half + 1)) / (2 * half + 1)
        for day in range(DAYS)
    )


def _frost(low_c: Sequence[float | None], curve: Curve, *, spring: bool) -> Frost | None:
    """The last frost before, or the first after, the hottest day.

    None where no night of that half froze.
    """
    hottest = curve.index(max(curve))
    order = ((hottest + (-k if spring else k)) % DAYS for k in range(HALF_A_YEAR))
    day = next((d for d in order if (night := low_c[d]) is not None and night <= 0), None)
    return None if day is None else Frost(day, day, day, 0)
