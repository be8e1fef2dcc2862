"""The one account of nitrogen: room in any twelve months, gaps, and what still counts."""

from datetime import date, timedelta

import pytest

from turfplan.work.feeding.balance import Given, counted_g_m2, near, room_g_m2, share_of_growth

DAY = date(2027, 5, 1)


def given(first: int, last: int, rate: float, **more: bool) -> Given:
    """Nitrogen by days after the first of May."""
    return Given(DAY + timedelta(first), DAY + timedelta(last), rate, **more)


def room(*of: Given, first: int = 0, last: int = 0) -> float:
    """What of twenty grams may be given on a day from the first of May on."""
    return room_g_m2(20.0, of, DAY + timedelta(first), DAY + timedelta(last))


def test_any_twelve_months_hold_no_more_than_the_high_end() -> None:
    """A year before is over on its day; what may come within it counts."""
    assert room() == 20
    assert [room(given(n, n, 3.0)) for n in (-365, -364, 0, 364)] == [20, 17, 17, 17]
    assert room(given(365, 365, 3.0)) == 20
    assert room(given(-300, -300, 3.0), given(-200, -200, 4.0), given(100, 100, 5.0)) == 20 - 9
    assert room(given(-300, -300, 3.0), given(60, 60, 5.0)) == 20 - 8
    assert room(given(-300, -300, 3.0), given(65, 65, 5.0)) == 20 - 5


def test_nitrogen_on_one_of_several_days_counts_on_each() -> None:
    """And a feeding that may go on on several is bound by all of them."""
    assert room(given(-370, -364, 3.0)) == 17 and room(given(-370, -365, 3.0)) == 20
    assert room(given(370, 370, 3.0), first=0, last=5) == 20
    assert room(given(370, 370, 3.0), first=0, last=6) == 17
    assert room(given(0, 0, 3.0, own=False)) == 20
    assert room(given(0, 0, 3.0, feeding=False)) == 17


def test_feedings_lie_near_each_other_below_the_gap() -> None:
    """From either end of their days; compost is no feeding."""
    one = [given(10, 12, 2.0)]
    found = [near(one, DAY + timedelta(n), 7) for n in (3, 4, 11, 18, 19)]
    assert found == [False, True, True, True, False]
    assert not near([given(10, 12, 2.0, feeding=False)], DAY + timedelta(11), 7)
    assert not near([], DAY, 7)


def test_the_share_of_growth_is_that_of_the_days() -> None:
    """All of it in a year or more; nothing before its first day."""
    curve = (1.0,) * 100 + (3.0,) * 265
    whole = 100 + 3 * 265
    first = date(2027, 1, 1)
    assert share_of_growth(curve, first, date(2027, 1, 10)) == pytest.approx(10 / whole)
    assert share_of_growth(curve, date(2027, 12, 31), date(2028, 1, 1)) == pytest.approx(4 / whole)
    assert share_of_growth(curve, first, date(2028, 6, 1)) == 1.0
    assert share_of_growth(curve, first, date(2026, 12, 31)) == 0.0
    assert share_of_growth((0.0,) * 365, first, first) == 1.0


def test_feedings_of_before_fade() -> None:
    """Over 120 days from their last; those of the day or after it count elsewhere."""
    found = [counted_g_m2([given(-n - 3, -n, 4.0)], DAY, 120.0) for n in (0, 1, 30, 119, 120, -5)]
    assert found == pytest.approx([0, 4 * 119 / 120, 3, 4 / 120, 0, 0])
    assert counted_g_m2([given(-30, -30, 4.0, own=False)], DAY, 120.0) == 0


def test_what_fades_on_days_without_growth_is_lost() -> None:
    """Half of thirty days idle: half of what is left counts; all of them idle, nothing."""
    before = [given(-90, -90, 4.0)]
    left = range(DAY.toordinal(), DAY.toordinal() + 30)
    assert counted_g_m2(before, DAY, 120.0) == pytest.approx(1.0)
    assert counted_g_m2(before, DAY, 120.0, set(left[15:])) == pytest.approx(0.5)
    assert counted_g_m2(before, DAY, 120.0, set(left)) == 0
