"""Nitrogen shared out among days: by growth, under caps, in no more feedings than suit it."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import water_cases as cases
from turfplan.phrases import feeding as phrases
from turfplan.work.feeding.sharing import share_out, water_fill
from turfplan.work.feeding.slots import OTHER, WISHED, FeedingSlot, Skips, tightest_gap_days

BOOK = cases.book()
GAP = tightest_gap_days(BOOK)
FIRST = date(2027, 4, 1)


def slot(after: int, weight: float = 1.0, cap: float = 5.0, rank: int = WISHED) -> FeedingSlot:
    """A day so many days after the first of April, with three to either side."""
    day = FIRST + timedelta(after)
    window = cases.Opening("feed_nitrogen", "spring", day, day, day)
    around = (day - timedelta(3), day + timedelta(3), day)
    return FeedingSlot("spring", window, *around, weight, cap, rank)


def shared(slots: list[FeedingSlot], total: float) -> tuple[dict[int, float], Skips]:
    """The rates by days from the first of April, and what was left out."""
    skipped: Skips = []
    found = share_out(BOOK, slots, total, skipped)
    return {(s.best - FIRST).days: rate for s, rate in found}, skipped


@pytest.mark.parametrize(
    ("total", "feedings"), [(2.0, 1), (4.0, 2), (5.0, 2), (5.1, 3), (10.0, 3), (11.0, 4), (20.0, 5)]
)
def test_one_feeding_more_than_the_fewest_that_hold_it(total: float, feedings: int) -> None:
    """Five days a gap apart, 5 g each: what two hold is given in three, so that it follows growth;
    two grams in two would not be worth the walks.
    """
    slots = [slot(GAP * n, 1.0 + n / 100) for n in range(5)]
    rates, skipped = shared(slots, total)
    assert len(rates) == feedings and sum(rates.values()) == pytest.approx(total)
    told = [why for _, why in skipped]
    assert told.count(phrases.left_out_fewer()) == min(3, 5 - feedings)
    strongest = sorted(GAP * n for n in range(5 - feedings, 5))
    assert sorted(rates) == strongest, "those of stronger growth go first"


def test_days_too_near_each_other_leave_the_stronger_one() -> None:
    """A day short of the gap is too near; what was no wish of its own is not told."""
    rates, skipped = shared([slot(0, 0.5), slot(GAP - 1, 1.0), slot(2 * GAP, 0.8)], 4.0)
    assert sorted(rates) == [GAP - 1, 2 * GAP]
    assert [why for _, why in skipped] == [phrases.left_out_too_close(n=GAP)]
    assert shared([slot(0, 0.5), slot(GAP, 1.0)], 4.0)[1] == []
    assert shared([slot(0, 0.5, rank=OTHER), slot(GAP - 1, 1.0)], 4.0)[1] == []


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.05, 1), st.floats(0, 5)), min_size=1, max_size=6),
    st.floats(0, 20),
)
def test_a_total_fills_up_like_water(parts: list[tuple[float, float]], total: float) -> None:
    """None above its cap, all of it given where the caps hold it, and those that are not full
    stand in proportion to their weights.
    """
    weights, caps = [w for w, _ in parts], [c for _, c in parts]
    rates = water_fill(weights, caps, total)
    assert sum(rates) == pytest.approx(min(total, sum(caps)), abs=1e-6)
    assert all(0 <= rate <= cap + 1e-9 for rate, cap in zip(rates, caps, strict=True))
    level = [r / w for r, w, c in zip(rates, weights, caps, strict=True) if r < c - 1e-6]
    full = [c / w for r, w, c in zip(rates, weights, caps, strict=True) if r >= c - 1e-6]
    assert all(one == pytest.approx(level[0], abs=1e-5) for one in level)
    assert not level or all(one <= level[0] + 1e-4 for one in full)
