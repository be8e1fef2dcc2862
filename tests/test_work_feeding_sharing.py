"""Nitrogen shared out among days: by growth, under caps, in no more feedings than suit it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import water_cases as cases
from turfplan.phrases import feeding as phrases
from turfplan.work.feeding.sharing import _apart, _packed, _rates, share_out, water_fill
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


@pytest.mark.full
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


def test_less_than_a_feeding_is_given_in_none() -> None:
    """The least that is worth a walk is one."""
    least = BOOK.si("feeding.least_rate")
    rates, skipped = shared([slot(0), slot(GAP)], least - 0.01)
    assert rates == {} and [why for _, why in skipped] == [phrases.left_out_covered()] * 2
    assert shared([slot(0)], least)[0] == {0: pytest.approx(least)}
    assert shared([], 5.0) == ({}, [])


def test_the_weakest_is_left_out_where_it_would_get_too_little() -> None:
    """One that opens the year is not; it gets the least at least."""
    least = BOOK.si("feeding.least_rate")
    weak = slot(0, 0.1)
    rates, skipped = shared([weak, slot(GAP, 1.0)], 4.0)
    assert rates == {GAP: pytest.approx(4.0)}
    assert [why.key for _, why in skipped] == ["feeding.left_out.too_little"]
    opens = replace(weak, opens_year=True)
    rates, _ = shared([opens, slot(GAP, 1.0)], 4.0)
    assert rates == {0: pytest.approx(least), GAP: pytest.approx(4.0 - least)}
    held = replace(opens, cap_g_m2=1.0)
    assert _rates([held, slot(GAP, 1.0)], 4.0, least) == pytest.approx([1.0, 3.0])
    assert _rates([opens], 0.5, least) == pytest.approx([least])
    strong = replace(opens, weight=1.0)
    assert _rates([strong, slot(GAP, 1.0)], 4.0, least) == pytest.approx([2, 2])


def test_days_go_by_rank_then_by_growth_then_by_date() -> None:
    """What is only possible gives way to what is wished."""
    rates, _ = shared([slot(0, 0.5), slot(5, 1.0, rank=OTHER)], 2.0)
    assert rates == {0: pytest.approx(2.0)}
    equal, _ = shared([slot(0), slot(5)], 2.0)
    assert equal == {0: pytest.approx(2.0)}


def test_more_feedings_are_packed_where_the_strongest_hold_too_little() -> None:
    """From the first day on, each a gap from the last."""
    slots = [slot(GAP // 2, 1.0), slot(0, 0.5), slot(GAP, 0.5), slot(2 * GAP, 0.4)]
    rates, _ = shared(slots, 9.0)
    assert sorted(rates) == [GAP // 2, 2 * GAP]
    assert sorted(shared(slots, 11.0)[0]) == [0, GAP, 2 * GAP]
    packed = _packed([slot(0, 0.1, rank=OTHER), slot(0, 0.2), slot(GAP - 1), slot(GAP)], GAP)
    assert [((s.best - FIRST).days, s.rank) for s in packed] == [(0, WISHED), (GAP, WISHED)]


def test_days_of_two_feedings_are_cut_so_that_any_of_them_keep_the_least() -> None:
    """Half of what is left between them to each, as far as they go."""

    def cut(apart: int, least: int) -> tuple[int, int]:
        one, two = _apart([slot(0), slot(apart)], least)
        return (one.end - FIRST).days, (two.start - FIRST).days

    assert cut(31, 28) == (1, 30) and cut(33, 28) == (2, 31)
    assert cut(28, 28) == (0, 28) and cut(20, 28) == (0, 20)
    assert cut(40, 28) == (3, 37)
    (alone,) = _apart([slot(0)], 28)
    assert alone == slot(0)


def test_water_fills_parts_by_weight_until_they_are_full() -> None:
    """What does not fit is left."""
    assert water_fill([1.0, 3.0], [9.0, 9.0], 4.0) == pytest.approx([1, 3])
    assert water_fill([1.0, 3.0], [9.0, 2.0], 4.0) == pytest.approx([2, 2])
    assert water_fill([1.0, 1.0], [1.0, 1.0], 4.0) == pytest.approx([1, 1])
    assert water_fill([], [], 4.0) == []
    assert water_fill([1.0], [0.0], 4.0) == [0.0]
