"""Weeks of the accounts, of nitrogen and of water."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

import water_cases as cases
from planning import plan_of
from turfplan.calendar_days import daily, day_index
from turfplan.work.feeding.account import Demand, _year_of_growth, nitrogen_ledger

CLIMATE = cases.cool_climate()
START = date(2027, 3, 3)  # a Wednesday
CURVE = CLIMATE.growth_curve("cool")


def ledger(
    days: int = 12,
    given: dict[date, float] | None = None,
    compost: Any = (),
    grassless: tuple[date, date] | None = None,
) -> Any:
    """The account of a demand of ten grams a year."""
    demand = Demand(10.0, "cool", grassless)
    end = START + timedelta(days - 1)
    return nitrogen_ledger(CLIMATE, demand, START, end, given or {}, compost)


def test_a_week_of_nitrogen_ends_on_sunday() -> None:
    """Twelve days from a Wednesday: five and seven."""
    weeks = ledger().weeks
    assert [(w.start, w.end) for w in weeks] == [
        (date(2027, 3, 3), date(2027, 3, 7)),
        (date(2027, 3, 8), date(2027, 3, 14)),
    ]
    assert [w.end for w in ledger(8).weeks] == [date(2027, 3, 7), date(2027, 3, 10)]


def test_growth_takes_its_share_of_the_years_demand() -> None:
    """By its days; nothing where no grass stands, from its first day to the day before the last."""
    whole = ledger(365)
    assert sum(w.entries["growth"] for w in whole.weeks) == pytest.approx(-10, abs=0.01)
    first = date(2027, 5, 3)
    may = next(w for w in whole.weeks if w.start == first)
    index = day_index(first)
    wanted = 10 * sum(CURVE[index : index + 7]) / sum(CURVE)
    assert may.entries["growth"] == pytest.approx(-wanted, abs=2e-4)
    bare = ledger(365, grassless=(first + timedelta(1), first + timedelta(6)))
    week = next(w for w in bare.weeks if w.start == first)
    ends = 10 * (CURVE[index] + CURVE[index + 6]) / sum(CURVE)
    assert week.entries["growth"] == pytest.approx(-ends, abs=2e-4)


def test_what_is_given_counts_on_its_days_within_the_account() -> None:
    """From the first to the last."""
    days = {START + timedelta(n): 1.0 * n + 2 for n in (-1, 0, 11, 12)}
    weeks = ledger(12, days).weeks
    assert [w.entries["feed"] for w in weeks] == [2.0, 13.0]
    assert weeks[0].balance == pytest.approx(2 + weeks[0].entries["growth"])
    assert weeks[1].balance == pytest.approx(weeks[0].balance + 13 + weeks[1].entries["growth"])


def test_compost_gives_its_credit_over_a_year_of_growth() -> None:
    """From its day on; what was spread before gives what is left."""
    spread = date(2027, 9, 6)
    weeks = ledger(365, compost=[(spread, 5.0)]).weeks
    before = [w.entries["compost"] for w in weeks if w.end < spread]
    assert set(before) == {0.0}
    index = day_index(spread)
    first = next(w for w in weeks if w.start == spread).entries["compost"]
    # The year after it has a 29 February, and so a day of September less.
    year = sum(CURVE) + CURVE[day_index(date(2028, 2, 29))] - CURVE[index - 1]
    assert first == pytest.approx(5 * sum(CURVE[index : index + 7]) / year, abs=1e-4)
    earlier = ledger(365, compost=[(date(2026, 9, 7), 5.0)]).weeks
    given = sum(w.entries["compost"] for w in earlier)
    left = sum(CURVE[day_index(START) : day_index(date(2027, 9, 7))]) / sum(CURVE)
    assert given == pytest.approx(5 * left, abs=0.01)
    two = ledger(365, compost=[(spread, 5.0), (spread, 2.0)]).weeks
    assert next(w for w in two if w.start == spread).entries["compost"] == pytest.approx(
        first * 7 / 5, abs=3e-4
    )


def test_a_year_without_growth_takes_nothing() -> None:
    """And divides by nothing."""
    cold = replace(CLIMATE, air_mean_c=(-900.0,) * 365)
    found = nitrogen_ledger(cold, Demand(10.0, "cool"), START, START + timedelta(9), {})
    assert [w.entries["growth"] for w in found.weeks] == pytest.approx([0, 0], abs=1e-3)


def test_a_year_of_growth_is_summed_wherever_it_lies() -> None:
    """Within the days that are known or beyond them."""
    growth = daily(CURVE, START, START + timedelta(399))
    whole = sum(CURVE)
    for begun in (-10, 0, 20, 35, 36, 500):
        assert _year_of_growth(CURVE, START, growth, begun) == pytest.approx(whole, rel=1e-3)
    odd = [*growth[:35], *[9.0] * 365]
    assert _year_of_growth(CURVE, START, odd, 35) == 9 * 365
    assert _year_of_growth(CURVE, START, odd, 36) == pytest.approx(whole, rel=1e-3)


@pytest.mark.full
def test_the_weeks_of_each_account_follow_each_other_from_monday() -> None:
    """The first and the last may be parts; no day is in two of them or in none."""
    ledgers = plan_of().ledgers
    assert {ledger.item for ledger in ledgers} >= {"nitrogen", "water"}
    for ledger in ledgers:
        for week, after in pairwise(ledger.weeks):
            assert after.start == week.end + timedelta(1) and after.start.weekday() == 0
            assert week.start <= week.end
        assert ledger.weeks[-1].start <= ledger.weeks[-1].end


@pytest.mark.full
def test_grass_and_weather_take_and_never_give() -> None:
    """What leaves an account is negative; what is given is not; each balance carries on the one
    before.
    """
    signs = {"growth": -1, "feed": 1, "compost": 1, "crop": -1, "rain": 1}
    for ledger in plan_of().ledgers:
        balance = ledger.opening
        for week in ledger.weeks:
            for name, amount in week.entries.items():
                assert amount * signs.get(name, 0) >= 0, (name, amount)
            balance += sum(week.entries.values())
            assert abs(balance - week.balance) < 0.06
            balance = week.balance
