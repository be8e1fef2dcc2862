"""Sets of days that a lawn is worked on."""

from datetime import date

from turfplan.records.constraints import DaySet
from turfplan.work.drafts import Band
from turfplan.work.lawn import Levelling, weekday_days, without


def test_days_of_spans_are_taken_out_with_their_ends() -> None:
    """A span of one day takes one."""
    days = without(DaySet.of([(1, 10)]), [(3, 5), (8, 8)])
    assert days.ranges == ((1, 2), (6, 7), (9, 10))


def test_weekdays_are_those_of_the_calendar() -> None:
    """From the first to the last day, both included."""
    saturday = date(2027, 5, 1).toordinal()
    days = weekday_days(saturday, saturday + 8, ["sat", "sun"])
    assert list(days.days()) == [saturday, saturday + 1, saturday + 7, saturday + 8]


def test_the_mean_fill_is_by_the_share_of_its_bands() -> None:
    """A fifth at 20 mm and half at 6 mm are 7 mm over the whole, 20 mm where it is deepest."""
    fill = Levelling((Band(20.0, 0.2), Band(6.0, 0.5)), 0.0, 0.0, 0.1)
    assert (fill.mean_mm, fill.depth_mm, fill.covered_share) == (7.0, 20.0, 0.7)
    assert Levelling((), 0.0, 0.0, 0.1).mean_mm == Levelling((), 0.0, 0.0, 0.1).depth_mm == 0
