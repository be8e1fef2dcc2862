"""Heights of the low cut and the days between mowings."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

import water_cases as cases
from told import all_told
from turfplan.units import INCH_MM
from turfplan.work.mowing import (
    due_height_mm,
    low_cut_steps,
    mowing_interval_days,
    mowing_notes,
    mown_height_mm,
)

BOOK = cases.book()
SLIVER = BOOK.si("mowing.low_cut_sliver")


@pytest.mark.full
@given(st.floats(20, 130), st.floats(5, 100))
def test_no_cut_takes_more_than_a_third_and_the_last_reaches_the_floor(
    start: float, floor: float
) -> None:
    """Steps fall by equal shares, each a third at most (a sliver more where that saves a cut), down
    to the floor.
    """
    steps = low_cut_steps(start, floor, SLIVER)
    if start <= floor:
        assert steps == ()
        return
    assert steps == () or steps[-1] == pytest.approx(floor)
    for before, after in zip((start, *steps), steps, strict=False):
        assert after < before
        assert after >= before * (2 / 3) * 0.96 - 1e-9


def test_low_cut_of_tall_fescue() -> None:
    """From 3 1/2 in to 2 in takes two even cuts: 2.65 and 2; from 3 1/2 to 1 1/2 in two as well,
    not a third for a sliver.
    """
    steps = low_cut_steps(3.5 * INCH_MM, 2 * INCH_MM, SLIVER)
    assert [round(s / INCH_MM, 2) for s in steps] == [2.65, 2.0]
    assert [round(s / INCH_MM, 2) for s in low_cut_steps(3.5 * INCH_MM, 1.5 * INCH_MM, SLIVER)] == [
        2.29,
        1.5,
    ]


def test_grass_is_due_at_one_and_a_half_times_its_height() -> None:
    """A third off 3 in leaves 2 in."""
    assert due_height_mm(2) == pytest.approx(3)


@pytest.mark.parametrize(("height_in", "printed_days"), [(3.0, 7), (2.0, 4), (1.5, 3)])
def test_printed_intervals_of_tall_fescue(height_in: float, printed_days: int) -> None:
    """University of Nebraska-Lincoln (2019): at 1.5 in a week of growth every 7, 4 or 3 days at 3,
    2 or 1.5 in.
    """
    got = mowing_interval_days(BOOK, height_in * INCH_MM, 1.0, full_growth_mm_day=1.5 * INCH_MM / 7)
    assert got == printed_days


def test_grass_that_hardly_grows_is_mown_seldom() -> None:
    """Intervals lengthen as growth falls, up to the longest, and never reach zero."""
    days = [mowing_interval_days(BOOK, 75, g) for g in (1.0, 0.5, 0.25, 0.0)]
    assert days == sorted(days)
    assert mowing_interval_days(BOOK, 6, 1.0) >= 1


def test_notes_name_the_months_of_growth() -> None:
    """The height at which grass is due comes first; each growing month has its interval, winter
    none.
    """
    notes = " ".join(all_told(mowing_notes(BOOK, cases.cool_climate(), "tall_fescue")))
    assert "stands at 5 1/4 in, down to 3 1/2 in" in notes
    assert "May" in notes and "January" not in notes


def test_an_interval_is_the_room_of_a_third_over_the_growth() -> None:
    """60 mm kept at 3 mm a day are due after ten days, twenty at half of the growth; whole days,
    one at least and the longest at most.
    """

    def days(height: float, growth: float, full: float = 3.0) -> int:
        return mowing_interval_days(BOOK, height, growth, full_growth_mm_day=full)

    longest = round(BOOK.si("mowing.longest_interval"))
    assert [days(60.0, 1.0), days(60.0, 0.9), days(59.9, 1.0)] == [10, min(longest, 11), 9]
    assert days(60.0, 0.0) == days(60.0, 0.01) == longest and days(3.0, 1.0) == 1
    assert mown_height_mm(90.0) == pytest.approx(60)
    usual = BOOK.si("mowing.full_growth")
    assert mowing_interval_days(BOOK, 60.0, 1.0) == int(30 / usual + 1e-9)


def test_low_cuts_take_equal_shares_and_none_for_a_hair() -> None:
    """From 90 mm two cuts by two thirds lead to 40, and to what lies just above."""
    assert low_cut_steps(90.0, 40.1, 0.0) == pytest.approx(((90 * 40.1) ** 0.5, 40.1))
    assert low_cut_steps(90.0, 39.9, 0.0)[-1] == 39.9 and len(low_cut_steps(90.0, 39.9, 0.0)) == 3
    assert low_cut_steps(90.0, 39.9, 0.1) == pytest.approx(((90 * 39.9) ** 0.5, 39.9))
    assert low_cut_steps(40.04, 40.0, 0.0) == () and low_cut_steps(40.1, 40.0, 0.0) == (40.0,)
    assert low_cut_steps(40.1, 40.0, 0.9) == (40.0,)


def test_months_without_rain_ask_for_no_mowing_where_nobody_waters() -> None:
    """Of grass that the rain of June alone lets grow, June alone is told, and by rain."""
    climate = cases.cool_climate()
    june = tuple(1.0 if 151 <= day < 181 else 0.0 for day in range(365))
    (_, often) = all_told(mowing_notes(BOOK, replace(climate, water_share=june), "tall_fescue"))
    assert "June" in often and "May" not in often and "July" not in often
    assert "warmth and rain" in often
    assert "and rain" not in all_told(mowing_notes(BOOK, climate, "tall_fescue"))[1]
