"""Sets of days that a lawn is worked on."""

from datetime import date

from turfplan.records.constraints import DaySet
from turfplan.work.lawn import weekday_days, without


def test_days_of_spans_are_taken_out_with_their_ends() -> None:
    """A span of one day takes one."""
    days = without(DaySet.of([(1, 10)]), [(3, 5), (8, 8)])
    assert days.ranges == ((1, 2), (6, 7), (9, 10))


def test_weekdays_are_those_of_the_calendar() -> None:
    """From the first to the last day, both included."""
    saturday = date(2027, 5, 1).toordinal()
    days = weekday_days(saturday, saturday + 8, ["sat", "sun"])
    assert list(days.days()) == [saturday, saturday + 1, saturday + 7, saturday + 8]
