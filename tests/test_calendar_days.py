"""Places in a year of 365 days, months, seasons and the days of a repeated job."""

from calendar import isleap
from datetime import date, timedelta

import pytest
from dateutil.rrule import DAILY, rrule
from hypothesis import given
from hypothesis import strategies as st

from turfplan.calendar_days import (
    DAYS,
    HALF_A_YEAR,
    MID_MONTHS,
    MONTH_LENGTHS,
    MONTH_STARTS,
    PLAIN_YEAR,
    WEEKDAYS,
    daily,
    date_of,
    day_index,
    each_day,
    in_week_order,
    month_totals,
    recurring_days,
)

DATES = st.dates(date(1990, 1, 1), date(2110, 12, 31))


def test_the_plain_year_and_its_months() -> None:
    """365 days from a year without a leap day; months begin where the ones before end, and have a
    fifteenth in their middle.
    """
    assert (DAYS, HALF_A_YEAR) == (365, 182)
    assert not isleap(PLAIN_YEAR)
    assert MONTH_STARTS == (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)
    assert [day.month for day in MID_MONTHS] == list(range(1, 13))
    assert {(day.year, day.day) for day in MID_MONTHS} == {(PLAIN_YEAR, 15)}


def test_places_of_days_by_hand() -> None:
    """The first is nought."""
    places = {
        (1, 1): 0,
        (1, 31): 30,
        (2, 1): 31,
        (2, 28): 58,
        (3, 1): 59,
        (7, 4): 184,
        (12, 31): 364,
    }
    for (month, day), place in places.items():
        for year in (2027, 2028):
            assert day_index(date(year, month, day)) == place
            assert date_of(place, year) == date(year, month, day)
    assert date_of(365 + 58, 2027) == date(2028, 2, 28)
    assert date_of(-365, 2027) == date(2026, 1, 1)


def test_a_daily_row_begins_and_ends_where_it_is_asked() -> None:
    """Within a year, over New Year, and over a leap day."""
    values = list(range(365))
    assert daily(values, date(2027, 1, 3), date(2027, 1, 5)) == [2, 3, 4]
    assert daily(values, date(2027, 12, 30), date(2028, 1, 2)) == [363, 364, 0, 1]
    assert daily(values, date(2028, 2, 27), date(2028, 3, 2)) == [57, 58, 58, 59, 60]
    assert daily(values, date(2028, 12, 31), date(2029, 1, 1)) == [364, 0]
    assert len(daily(values, date(2026, 6, 1), date(2029, 5, 31))) == 1096


def test_totals_of_months_by_hand() -> None:
    """Each day counts for its month alone."""
    values = [0.0] * 365
    for place, amount in ((0, 1.0), (30, 2.0), (31, 4.0), (58, 8.0), (59, 16.0), (364, 32.0)):
        values[place] = amount
    assert month_totals(values) == (3.0, 12.0, 16.0, *(0.0,) * 8, 32.0)


def test_a_repeated_job_runs_on_its_weekdays_from_the_first_to_the_last_day() -> None:
    """Every day where none is told; both ends count; skipped days do not; none before it begins."""
    monday = date(2027, 3, 1)
    days = [monday + timedelta(n) for n in range(8)]
    assert recurring_days(monday, days[-1]) == tuple(days)
    assert recurring_days(monday, monday) == (monday,)
    assert recurring_days(days[1], monday) == ()
    assert recurring_days(monday, days[-1], ("mon",)) == (days[0], days[7])
    assert recurring_days(monday, days[-1], ("tue", "sun")) == (days[1], days[6])
    assert recurring_days(monday, days[-1], ("mon",), (monday,)) == (days[7],)
    assert in_week_order({"sun", "mon", "fri"}) == ("mon", "fri", "sun")


@given(DATES)
def test_a_place_leads_back_to_its_date(day: date) -> None:
    """In every year of the calendar; 29 February is found as the 28th."""
    expected = day.replace(day=28) if (day.month, day.day) == (2, 29) else day
    assert date_of(day_index(day), day.year) == expected
    assert 0 <= day_index(day) < DAYS


def test_ends_of_february_and_of_the_year() -> None:
    """The leap day shares a place, 1 March has one in every year; a century without a leap day is
    plain.
    """
    assert [day_index(date(2028, *day)) for day in ((2, 28), (2, 29), (3, 1), (12, 31))] == [
        58,
        58,
        59,
        364,
    ]
    assert [day_index(date(2100, *day)) for day in ((2, 28), (3, 1), (12, 31))] == [58, 59, 364]
    assert (date_of(-1, 2028), date_of(DAYS, 2028), date_of(59, 2028)) == (
        date(2027, 12, 31),
        date(2029, 1, 1),
        date(2028, 3, 1),
    )


def test_normals_repeat_the_28th_in_leap_years() -> None:
    """366 days of a leap year, the 29 February as the day before, and the same day of the year on
    both sides.
    """
    values = tuple(float(n) for n in range(365))
    got = daily(values, date(2028, 1, 1), date(2029, 12, 31))
    assert len(got) == 366 + 365
    assert got[58] == got[59] == 58.0
    assert got[60] == 59.0
    assert got[366] == 0.0 and got[-1] == 364.0
    assert daily(values, date(2027, 3, 1), date(2027, 3, 1)) == [59.0]
    assert daily(values, date(2028, 2, 29), date(2028, 3, 1)) == [58.0, 59.0]
    assert daily(values, date(2027, 3, 2), date(2027, 3, 1)) == []


def test_months_of_a_year() -> None:
    """Twelve lengths; totals by month of what each month repeats are the lengths times the
    value.
    """
    assert MONTH_LENGTHS == (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    months = tuple(float(number) for number in range(1, 13))
    laid = each_day(months)
    assert (
        len(laid) == DAYS
        and laid[day_index(date(2027, 5, 31))] == 5
        and laid[day_index(date(2027, 6, 1))] == 6
    )
    assert month_totals(laid) == tuple(
        month * length for month, length in zip(months, MONTH_LENGTHS, strict=True)
    )


@pytest.mark.full
@given(DATES, st.integers(0, 400), st.sets(st.sampled_from(WEEKDAYS)), st.sets(st.integers(0, 400)))
def test_days_of_a_repeated_job_are_those_of_a_recurrence_rule(
    start: date, length: int, weekdays: set[str], skipped: set[int]
) -> None:
    """Against dateutil's reading of the standard for recurrence rules."""
    end, names = start + timedelta(days=length), in_week_order(weekdays)
    skip = tuple(start + timedelta(days=number) for number in sorted(skipped))
    rule = rrule(
        DAILY, dtstart=start, until=end, byweekday=[WEEKDAYS.index(name) for name in names] or None
    )
    expected = tuple(at.date() for at in rule if at.date() not in skip)
    assert recurring_days(start, end, names, skip) == expected
