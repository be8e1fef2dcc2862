"""Daily curves between months: even steps stay even, and every month keeps its mean."""

from math import cos, pi

import pytest

from turfplan.calendar_days import MONTH_LENGTHS, MONTH_STARTS
from turfplan.climate.daily_curves import _between, daily_curve

CENTRES = [start + length / 2 for start, length in zip(MONTH_STARTS, MONTH_LENGTHS, strict=True)]


def test_between_months_that_rise_evenly_the_days_do() -> None:
    """A value of one for each month: from the middle of February to that of October each day lies
    as far between two as it lies between their middles.
    """
    days = _between([float(month) for month in range(12)], CENTRES)
    for month in range(1, 9):
        first, last = CENTRES[month], CENTRES[month + 1]
        for day in range(365):
            middle = day + 0.5
            if first <= middle <= last and month > 1:
                share = (middle - first) / (last - first)
                assert days[day] == pytest.approx(month + share, abs=1e-9)


@pytest.mark.parametrize("peak", [0, 3, 6, 11])
def test_the_year_closes_over_new_year(peak: int) -> None:
    """A wave of one year stays a wave, the last day of December beside the first of January."""
    knots = [10 * cos(2 * pi * (month - peak) / 12) for month in range(12)]
    days = _between(knots, CENTRES)
    for day, value in enumerate(days):
        after = days[(day + 1) % 365]
        assert abs(after - value) < 0.2
    for month, knot in enumerate(knots):
        assert days[int(CENTRES[month])] == pytest.approx(knot, abs=0.1)


def test_every_month_keeps_its_mean() -> None:
    """To a hundredth, however they jump."""
    monthly = [-4.2, -2.9, 2.0, 9.1, 15.0, 20.3, 22.9, 21.8, 17.5, 11.2, 5.6, -0.5]
    for given in (monthly, monthly[6:] + monthly[:6], [3.0] * 12):
        days = daily_curve(given)
        for mean, start, length in zip(given, MONTH_STARTS, MONTH_LENGTHS, strict=True):
            assert sum(days[start : start + length]) / length == pytest.approx(mean, abs=0.01)
