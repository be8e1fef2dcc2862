"""Sets of days as ranges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.records.constraints import DaySet

DAYS = DaySet.of([(3, 5), (10, 12), (6, 7), (9, 8)])


def test_ranges_that_touch_are_one_and_empty_ones_vanish() -> None:
    """In any order."""
    assert DAYS.ranges == ((3, 7), (10, 12))


def test_a_set_holds_the_days_of_its_ranges() -> None:
    """Its first range as well as its last, and none before, between or after them."""
    assert [day for day in range(15) if day in DAYS] == [3, 4, 5, 6, 7, 10, 11, 12]
    assert 0 not in DaySet.of([])


@pytest.mark.parametrize(
    ("day", "after", "before"), [(2, 3, None), (3, 3, 3), (8, 10, 7), (12, 12, 12), (13, None, 12)]
)
def test_the_nearest_members_on_both_sides(day: int, after: int | None, before: int | None) -> None:
    """The day itself where it is a member; none beyond the ends."""
    assert (DAYS.next(day), DAYS.previous(day)) == (after, before)


SPANS = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=6)


@given(SPANS, SPANS)
def test_what_is_taken_out_is_gone_and_nothing_else(
    whole: list[tuple[int, int]], gone: list[tuple[int, int]]
) -> None:
    """Day by day, and as ranges that lie apart."""
    left = DaySet.of(whole).without(DaySet.of(gone))
    assert left == DaySet.from_days(set(DaySet.of(whole).days()) - set(DaySet.of(gone).days()))
