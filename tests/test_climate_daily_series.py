"""Years of a daily series that are whole enough to be judged."""

from datetime import date, timedelta

from turfplan.climate.daily_series import DailySeries


def test_a_year_is_whole_from_a_share_of_its_days_on() -> None:
    """Nine tenths are 328.5 days of 365: 329 known means are enough, 328 are not; so are those of
    a leap year, and half a year is none.
    """
    first = date(2020, 1, 1)
    dates = tuple(first + timedelta(n) for n in range((date(2023, 7, 1) - first).days))
    left = {2020: 329, 2021: 328, 2022: 365, 2023: 181}
    means: list[float | None] = []
    for day in dates:
        left[day.year] -= 1
        means.append(10.0 if left[day.year] >= 0 else None)
    empty = (None,) * len(dates)
    series = DailySeries(dates, empty, empty, tuple(means), empty)
    assert series.whole_years(0.9) == (2020, 2022)
    assert series.whole_years(0.4) == (2020, 2021, 2022, 2023)
    assert series.whole_years(1.0) == (2022,)


def test_gaps_are_days_without_a_mean_and_the_longest_run_of_them() -> None:
    """Runs of one, three and two: six days, three at once; none where all is known."""
    first = date(2021, 1, 1)
    means = (1.0, None, 2.0, None, None, None, 3.0, 4.0, None, None)
    dates = tuple(first + timedelta(n) for n in range(len(means)))
    assert DailySeries(dates, means, means, means, means).gaps() == (6, 3)
    known = (1.0,) * len(means)
    assert DailySeries(dates, means, means, known, means).gaps() == (0, 0)
