"""Daily curves between months: even steps stay even, and every month keeps its mean."""

from itertools import pairwise
from math import cos, pi

import pytest

from turfplan.calendar_days import MONTH_LENGTHS, MONTH_STARTS
from turfplan.climate.daily_curves import _between, crossing, daily_curve

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


@pytest.mark.parametrize("turn", [0, 5, 11])
def test_each_day_lies_on_a_cubic_between_the_months_around_it(turn: int) -> None:
    """Hermite's, that rises at each middle as the line between its neighbours does, over New Year
    too.
    """
    knots = [3.0, -2.0, 7.0, 1.0, 12.0, 4.0, 20.0, 16.0, 9.0, 15.0, 0.0, -6.0]
    knots = knots[turn:] + knots[:turn]
    days = _between(knots, CENTRES)
    middles = [(CENTRES[m % 12] + 365 * (m // 12), m) for m in range(-1, 13)]
    for day in range(365):
        x = day + 0.5
        (start, m), (end, _) = next(
            pair for pair in pairwise(middles) if pair[0][0] <= x <= pair[1][0]
        )
        t = (x - start) / (end - start)
        before, here, there, after = (knots[(m + k) % 12] for k in (-1, 0, 1, 2))
        expected = (
            (2 * t**3 - 3 * t**2 + 1) * here
            + (t**3 - 2 * t**2 + t) * (there - before) / 2
            + (3 * t**2 - 2 * t**3) * there
            + (t**3 - t**2) * (after - here) / 2
        )
        assert days[day] == pytest.approx(expected)


def test_a_warm_july_is_warmest_in_its_middle() -> None:
    """On the sixteenth; a month keeps its mean to half a hundredth."""
    months = [0.0] * 6 + [10.0] + [0.0] * 5
    days = daily_curve(months)
    assert days.index(max(days)) in (195, 196)
    assert sum(days[181:212]) / 31 == pytest.approx(10.0, abs=0.005)
    assert sum(days[151:181]) / 30 == pytest.approx(0.0, abs=0.005)


# It rises from 0 on day 0 to 10 on day 10, stays, and falls to 0 from day 20 to day 30.
HILL = [float(max(0, min(day, 10, 30 - day))) for day in range(365)]


@pytest.mark.parametrize(
    ("threshold", "start", "up", "down"),
    [
        (5.0, 1, 5, 26),
        (5.0, 5, 5, 26),
        (5.0, 6, 370, 26),
        (4.5, 5, 5, 26),
        (4.5, 26, 370, 26),
        (4.5, 27, 370, 391),
        (10.0, 1, 10, 21),
        (0.0, 1, None, None),
        (1.0, 0, 1, 30),
        (11.0, 0, None, None),
    ],
)
def test_a_curve_crosses_a_threshold_from_a_day_on(
    threshold: float, start: int, up: int | None, down: int | None
) -> None:
    """Rising it is reached, falling it is left; where it has passed already, in the year after."""
    assert crossing(HILL, threshold, rising=True, start=start) == up
    assert crossing(HILL, threshold, rising=False, start=start) == down


def test_a_curve_is_followed_for_so_many_days() -> None:
    """The last of them counts; the day before the first is where it comes from, over New Year
    too.
    """
    assert crossing(HILL, 5.0, rising=True, start=1, length=5) == 5
    assert crossing(HILL, 5.0, rising=True, start=1, length=4) is None
    wave = [1.0] + [0.0] * 364
    assert crossing(wave, 1.0, rising=True, start=0, length=1) == 0
    assert crossing(wave, 1.0, rising=True, start=300, length=66) == 365
    assert crossing(wave, 1.0, rising=True, start=300, length=65) is None
    assert crossing(wave, 1.0, rising=True, start=300, length=700) == 365
    assert crossing(wave, 1.0, rising=True, start=366, length=700) == 730
