"""Weeks of the accounts, of nitrogen and of water."""

from datetime import timedelta
from itertools import pairwise

from planning import plan_of


def test_the_weeks_of_each_account_follow_each_other_from_monday() -> None:
    """The first and the last may be parts; no day is in two of them or in none."""
    ledgers = plan_of().ledgers
    assert {ledger.item for ledger in ledgers} >= {"nitrogen", "water"}
    for ledger in ledgers:
        for week, after in pairwise(ledger.weeks):
            assert after.start == week.end + timedelta(1) and after.start.weekday() == 0
            assert week.start <= week.end
        assert ledger.weeks[-1].start <= ledger.weeks[-1].end


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
