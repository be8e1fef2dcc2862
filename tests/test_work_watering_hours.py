"""The law of watering: days and hours that are open."""

from datetime import date, timedelta
from itertools import combinations

import pytest

from planning import brief_of
from turfplan.work.watering.hours import Law, law_of, spread


def law(**water: object) -> Law:
    """The law of a brief."""
    return law_of(brief_of({"water": water}).water)


def test_hours_are_minutes_of_the_day() -> None:
    """Hours over midnight belong to both days; without any, the whole day is open."""
    assert law(allowed_hours=["06:15-09:30"]).spans == ((375, 570),)
    assert law(allowed_hours=["22:00-05:00"]).spans == ((0, 300), (1320, 1440))
    assert law(allowed_hours=["20:00-22:00", "04:30-06:00"]).open_min == 120 + 90
    assert law().spans == ((0, 1440),) and law().open_until == 1440


def test_a_ban_holds_from_its_first_to_its_last_day() -> None:
    """Day by day and for many days at once."""
    banned = law(banned=[{"from": date(2027, 7, 3), "to": date(2027, 7, 5)}])
    days = [date(2027, 7, day) for day in range(1, 8)]
    wanted = [True, True, False, False, False, True, True]
    assert [banned.open(day) for day in days] == banned.days_open(days[0], 7) == wanted


@pytest.mark.parametrize(
    ("water", "restricts", "gap"),
    [
        ({}, False, 1),
        ({"allowed_weekdays": ["mon"]}, True, 7),
        ({"allowed_weekdays": ["mon", "wed", "fri"]}, True, 3),
        ({"allowed_weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}, False, 1),
        ({"parity": "even"}, True, 3),
        ({"parity": "odd"}, True, 2),
    ],
)
def test_the_longest_gap_between_lawful_days(
    water: dict[str, object], restricts: bool, gap: int
) -> None:
    """From one to the next; even days are furthest apart over the end of a month of 31."""
    assert (law(**water).restricts_days, law(**water).longest_gap_days()) == (restricts, gap)


def test_a_permit_opens_days_but_no_ban() -> None:
    """For new seed, where the brief has the permit."""
    water = {"allowed_weekdays": ["mon"], "permit": True}
    ban = {"banned": [{"from": date(2027, 7, 6), "to": date(2027, 7, 6)}]}
    tuesday = date(2027, 7, 6)
    assert law(**water).open(tuesday, permitted=True) and not law(**water).open(tuesday)
    assert not law(**water, **ban).open(tuesday, permitted=True)


def test_days_are_spread_as_evenly_as_they_lie() -> None:
    """Every first day of a part of the week; of three days of a week the first, third and sixth."""
    week = [date(2027, 6, 7) + timedelta(n) for n in range(7)]
    assert spread(week, 3) == (week[0], week[2], week[5])
    assert spread(week, 2) == (week[0], week[4])
    assert spread(week[:1], 1) == tuple(week[:1]) and spread(week, 9) == tuple(week)


def test_as_many_days_are_chosen_as_are_asked_for_however_they_lie() -> None:
    """Of any open days of a week: the first, then later ones in order, none twice."""
    week = [date(2027, 6, 7) + timedelta(n) for n in range(7)]
    for some in (some for size in range(1, 8) for some in combinations(week, size)):
        for count in range(1, len(some) + 1):
            chosen = spread(some, count)
            assert chosen == tuple(sorted(set(chosen))) and set(chosen) <= set(some)
            assert len(chosen) == count and chosen[0] == some[0]
