"""What compost takes off feedings: no more than it gives, and never below the least of the year."""

from datetime import date, timedelta

import pytest

import water_cases as cases
from turfplan.work.feeding.balance import share_of_growth
from turfplan.work.feeding.feedings import NitrogenYear, _less_compost
from turfplan.work.feeding.slots import FeedingSeason, FeedingSlot

BOOK, COOL = cases.book(), cases.cool_climate()
SEASON = FeedingSeason(cases.brief(), BOOK, COOL, "tall_fescue", ())
FIRST, LAST = date(2027, 3, 1), date(2028, 2, 28)
CURVE = COOL.growth_curve("cool")
LEAST = BOOK.si("feeding.least_rate")


def slot(day: date, *, opens_year: bool = False) -> FeedingSlot:
    """A feeding on a day, three days to either side."""
    window = cases.Opening("feed_nitrogen", "autumn", day, day, day)
    around = (day - timedelta(3), day + timedelta(3), day)
    return FeedingSlot("autumn", window, *around, 1.0, 4.9, opens_year=opens_year)


SLOTS = [slot(date(2027, 5, 10)), slot(date(2027, 9, 10)), slot(date(2027, 10, 20))]
RATES = [4.0, 4.0, 2.0]


def left(
    spread: date, middle: float, sure: float = 0.0, low: float = 0.0, first: date = FIRST
) -> list[float]:
    """The rates that are left of three feedings, by day, with one compost and a least of the
    year.
    """
    year = NitrogenYear(10.0, 0.0, 20.0, [(spread, middle, sure)])
    shares = list(zip(SLOTS, RATES, strict=True))
    found = _less_compost(SEASON, year, shares, (first, LAST), low)
    return [rate for _, rate in sorted(found, key=lambda share: share[0].best)]


def test_feedings_after_the_compost_give_way_in_proportion() -> None:
    """What it gives until the year ends comes off those after it, twice as much off twice the
    rate; what was given before stays.
    """
    spread = date(2027, 8, 20)
    given = 1.5 * share_of_growth(CURVE, spread, LAST)
    assert 0.4 < given < 1.2
    assert left(spread, 1.5) == pytest.approx([4, 4 - given * 4 / 6, 2 - given * 2 / 6])


def test_compost_of_the_year_before_gives_what_is_left_of_it() -> None:
    """All but what grew on it before the account begins; after a year nothing is left."""
    spread = FIRST - timedelta(150)
    given = 2.0 * (1 - share_of_growth(CURVE, spread, FIRST))
    assert 0.5 < given < 1.9
    rest = [rate * (1 - given / 10) for rate in RATES]
    assert left(spread, 2.0) == pytest.approx(rest)
    assert left(FIRST - timedelta(365), 2.0) == RATES
    assert left(LAST + timedelta(1), 2.0) == RATES


def test_the_least_of_the_year_is_kept() -> None:
    """Ten grams are given and nine are the least: one may go, and what compost gives for sure
    counts towards the nine.
    """
    spread = date(2027, 3, 1)
    assert sum(left(spread, 5.0, low=9.0)) == pytest.approx(9.0)
    assert sum(left(spread, 5.0, sure=0.5, low=9.0)) == pytest.approx(8.5, abs=0.01)
    assert left(spread, 5.0, low=10.0) == RATES and left(spread, 5.0, low=12.0) == RATES


def test_less_than_a_gram_counts_too() -> None:
    """A feeding that opens the year gives what is above the least that is worth a walk."""
    first = slot(date(2027, 4, 10), opens_year=True)
    year = NitrogenYear(10.0, 0.0, 20.0, [(FIRST, 6.0, 0.0)])
    ((_, rate),) = _less_compost(SEASON, year, [(first, LEAST + 0.6)], (FIRST, LAST), 0.0)
    assert rate == pytest.approx(LEAST)
    year = NitrogenYear(10.0, 0.0, 20.0, [(FIRST, 0.3, 0.0)])
    ((_, rate),) = _less_compost(SEASON, year, [(SLOTS[1], 3.0)], (FIRST, LAST), 0.0)
    assert rate == pytest.approx(2.7)


def test_what_is_no_longer_worth_a_walk_goes_with_the_others() -> None:
    """The smallest falls below the least: its nitrogen goes on with the rest in proportion."""
    spread = date(2027, 8, 20)
    given = 9.0 * share_of_growth(CURVE, spread, LAST)
    assert 2 - given / 3 < LEAST
    found = left(spread, 9.0)
    assert len(found) == 2 and sum(found) == pytest.approx(10 - given)
    assert found[1] / found[0] == pytest.approx((4 - given * 4 / 6) / 4)
