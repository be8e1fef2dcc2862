"""Seed is looked at, mown, fed, watered and covered again by what it has grown."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, plan_of
from resolved_lawns import setting_of
from test_work_phases_seedbed import DORMANT, task
from turfplan.message import as_written
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import OpenDays
from turfplan.work.emergence import (
    Emergence,
    _Growth,
    _sums,
    emergence,
    given_back_on,
    undressed_days,
)

PLACES: dict[str, dict[str, Any]] = {
    "prairie": {"place": {"postal_code": "55406"}, "lawn": {"grass": "kentucky_bluegrass"}},
    "piedmont": {"place": {"postal_code": "37205"}, "lawn": {"grass": "tall_fescue"}},
    "valley": {"place": {"postal_code": "17601"}, "lawn": {"grass": "tall_fescue"}},
    "scotland": {
        "place": {"postal_code": None, "country": "GB", "latitude": 55.9, "longitude": -3.2},
        "lawn": {"grass": "fine_fescue"},
    },
    "new zealand": {
        "place": {"postal_code": None, "country": "NZ", "latitude": -43.5, "longitude": 172.6},
        "lawn": {"grass": "perennial_ryegrass"},
    },
}


def days_of(changes: dict[str, Any]) -> Emergence:
    """How long the seed of the first campaign takes."""
    setting = setting_of(brief_of({"leveling": {"depth": "0 in"}}, changes))
    found = emergence(setting, campaigns(setting)[0][0])
    assert found is not None
    return found


PLAIN = setting_of(brief_of())


def growth(*potential: float, rest: float = 1.0) -> _Growth:
    """What grows so much on each day after sowing, and then `rest`; good growth is the book's."""
    found = _Growth(PLAIN, PLAIN.first_day)
    sums = [0.0]
    for day in range(2 * 365 + 1):
        sums.append(sums[-1] + (potential[day] if day < len(potential) else rest))
    found._sums = tuple(sums)
    return found


def test_growth_is_summed_from_a_day_on() -> None:
    """To the day by which it has come to so much; no further than the days that are known."""
    even = growth()
    assert [even.after(0, units) for units in (0.0, 1.0, 3.5, 9.0)] == [0, 1, 4, 9]
    assert even.after(10, 3.0) == 13
    assert even.after(0, 9999.0) == even.after(9999, 1.0) == 2 * 365
    slow = growth(0.0, 0.0, 0.5, 0.5)
    assert [slow.after(0, 1.0), slow.after(2, 1.0), slow.after(0, 2.0)] == [4, 4, 5]


def test_days_of_good_growth_are_longer_where_growth_is_slow() -> None:
    """So many days at least; never one of rest."""
    good = PLAIN.book.si("setting.good_growth")
    assert growth().days(5, 10) == 15
    half = growth(rest=good / 2)
    assert half.days(0, 10) == 20
    resting = growth(*[1.0] * 10, *[0.0] * 20)
    assert resting.days(0, 10) == 30 and resting.days(0, 9) == 9


def test_grass_that_rests_is_waited_for() -> None:
    """From the least growth on it is awake."""
    least = PLAIN.book.si("water.dormant_growth")
    found = growth(0.0, least / 2, least, 0.0)
    assert [found.awake(day) for day in (0, 1, 2, 3)] == [2, 2, 2, 4]
    never = growth(rest=0.0)
    assert never.awake(0) == 2 * 365


def test_nothing_is_put_off_beyond_a_rest() -> None:
    """The last day that none parts from the first, or the one that was meant."""
    found = growth(*[1.0] * 6, 0.0, *[1.0] * 9)
    assert [found.before_rest(2, until) for until in (4, 5, 6, 9)] == [4, 5, 5, 5]
    assert found.before_rest(7, 9) == 9 and found.before_rest(4, 3) == 4


def test_sums_of_growth_begin_with_the_day_of_sowing() -> None:
    """One for each day that is known, and one more."""
    sums = _sums(PLAIN.climate, "cool", PLAIN.first_day)
    first = PLAIN.climate.growth_potential(date.fromordinal(PLAIN.first_day), "cool")
    assert (len(sums), sums[0], sums[1]) == (2 * 365 + 2, 0.0, pytest.approx(first))


def test_what_is_young_is_left_uncovered_for_the_days_of_the_book_or_longer() -> None:
    """Nothing is young where nothing is sown."""
    campaign = next(c for c in campaigns(PLAIN)[0] if c.sow_window is not None)
    up = emergence(PLAIN, campaign)
    assert up is not None and undressed_days(PLAIN, campaign) == up.undressed
    assert undressed_days(PLAIN, replace(campaign, sow_window=None)) == 0
    planted = replace(PLAIN, sowing=replace(PLAIN.sowing, operation="plant"))
    assert emergence(planted, campaign) is None
    assert undressed_days(planted, campaign) == PLAIN.days("seeding.no_dressing")


def test_a_lawn_is_given_back_in_the_first_spring_after_the_cover() -> None:
    """That begins after it was sown."""
    name: Any = "spring_transition"
    windows = tuple(
        OpenDays(name, "spring", day, day, day + timedelta(5), as_written(""), as_written(""))
        for day in (date(2027, 5, 1), date(2028, 5, 1))
    )
    setting = replace(PLAIN, openings=replace(PLAIN.openings, windows=windows))
    assert given_back_on(setting, date(2027, 4, 30)) == date(2027, 5, 6)
    assert given_back_on(setting, date(2027, 5, 1)) == date(2028, 5, 6)
    assert given_back_on(setting, date(2028, 5, 1)) is None


def test_days_of_an_early_autumn_are_those_of_the_book_one_by_one() -> None:
    """The looks at the colour, and the days uncovered, of seed that grows well."""
    even = replace(
        PLAIN.climate, air_mean_c=(20.0,) * 365, air_min_c=(15.0,) * 365, air_max_c=(25.0,) * 365
    )
    setting = replace(PLAIN, climate=even)
    campaign = next(c for c in campaigns(PLAIN)[0] if c.sow_window is not None)
    up = emergence(setting, campaign)
    assert up is not None
    book = setting.book
    grow, colour = (book.fact(f"setting.{n}") for n in ("seedling_growth_days", "colour_look_days"))
    spread, more = (
        setting.days("setting.first_mow_spread_days"),
        setting.days("seeding.third_mowing"),
    )
    mow_best = (up.first + up.last) // 2 + round((grow.low_si + grow.si + spread) / 2)
    least = max(up.last + round(colour.low_si), mow_best + more // 2)
    assert (up.wakes, up.mow_least) == (0, up.first + round(grow.low_si))
    assert (up.mow_best, up.mow_most) == (mow_best, up.last + round(grow.si) + spread)
    assert up.colour_least == least
    assert up.colour_best == max(up.last + round(colour.si), mow_best + more)
    most = max(up.last + round(colour.high_si), mow_best + 2 * more)
    assert up.colour_most == max(most, least + round(colour.high_si - colour.low_si))
    assert up.undressed == max(setting.days("seeding.no_dressing"), mow_best + more)


@pytest.mark.parametrize(
    ("place", "intent"),
    [*((place, "overseed") for place in PLACES), ("prairie", "dormant"), ("valley", "dormant")],
)
def test_what_comes_of_seed_comes_in_order(place: str, intent: str) -> None:
    """It wakes, is up, is mown, tells by its colour, and bears a layer, one after the other."""
    up = days_of({**PLACES[place], "seeding": {"intent": intent}})
    assert up.wakes <= up.first <= up.last < up.mow_best <= up.mow_most
    assert up.first < up.mow_least <= up.mow_best < up.colour_best
    assert up.colour_least <= up.colour_best <= up.colour_most
    assert up.undressed >= up.mow_best + 14 and up.undressed >= up.wakes + 60
    assert (up.wakes > 30) == (intent == "dormant")


def test_good_growth_takes_the_days_of_the_book() -> None:
    """In an early autumn the days are those that are told of good growth."""
    up = days_of(PLACES["piedmont"])
    assert (up.first, up.last, up.mow_least, up.mow_most) == (10, 21, 20, 49)


def test_dormant_seed_has_its_water_and_starter_when_it_wakes() -> None:
    """In spring it is kept moist, fed once, seen, and mown, on days of their own."""
    plan = plan_of(DORMANT)
    sown = task(plan, "dormant_seed").start
    starter, look, mown = (
        task(plan, name).start for name in ("starter_feed", "inspect.germination", "first_mow")
    )
    moist = min(t.start for t in plan.tasks if t.stage and t.stage.id == "germination")
    assert sown + timedelta(100) < moist < look < mown
    assert abs(starter - moist) <= timedelta(7)
    check = task(plan, "irrigation_check").start
    assert sown < check <= moist
    assert not [t for t in plan.tasks if t.series and sown <= t.start < moist]


def test_nothing_covers_what_wakes_before_it_is_mown_three_times() -> None:
    """Levelled in early autumn, sown dormant: touch-up and preventer wait for the third mowing."""
    plan = plan_of(
        DORMANT, {"leveling": {"depth": "0.25 in"}, "season": {"from": date(2027, 8, 1)}}
    )
    mown = task(plan, "first_mow").end
    later = [t for t in plan.tasks if t.operation in ("touch_up", "preemergent")]
    after = [t.start for t in later if t.start > task(plan, "dormant_seed").start]
    assert all(day >= mown + timedelta(14) for day in after)


@pytest.mark.full
@pytest.mark.parametrize("week", range(8))
def test_nothing_is_mown_or_judged_by_its_colour_while_grass_rests(week: int) -> None:
    """Seed of autumn on the prairie: its mowing and its looks fall on days of growth, before
    winter or after it.
    """
    setting = setting_of(brief_of({"leveling": {"depth": "0 in"}}, PLACES["prairie"]))
    campaign = next(c for c in campaigns(setting)[0] if c.sow_window is not None)
    assert campaign.sow_window is not None
    sown = date(2027, 8, 20) + timedelta(7 * week)
    late = replace(campaign, sow_window=replace(campaign.sow_window, start=sown, best=sown))
    up = emergence(setting, late)
    assert up is not None
    least = setting.book.si("water.dormant_growth")
    mown = up.mow_least, up.mow_best, up.mow_most
    for days in (*mown, up.colour_least, up.colour_best, up.colour_most):
        assert setting.climate.growth_potential(sown + timedelta(days), "cool") >= least
    assert up.colour_least >= up.last + setting.book.fact("setting.colour_look_days").low_si
    assert (up.mow_most > 150) == (week > 0), "from September on a winter lies between"


def test_the_first_mow_is_best_half_way() -> None:
    """Between the first and the last of what is up, and between the least and the most days."""
    up = days_of(PLACES["piedmont"])
    assert up.mow_best == (10 + 21) // 2 + round((10 + 14 + 14) / 2)


@pytest.mark.full
@pytest.mark.parametrize("code", ["99201", "83814", "55406", "58102"])
def test_seed_of_late_summer_is_mown_before_winter(code: str) -> None:
    """Bluegrass that can be mown in autumn does not stand at 2 in until April, in no neighbour of
    a place where it is mown."""
    lawn = {"grass": "kentucky_bluegrass", "thatch": "0.2 in"}
    plan = plan_of({"place": {"postal_code": code}, "lawn": lawn, "leveling": {"depth": "0 in"}})
    sown, mown = task(plan, "overseed").start, task(plan, "first_mow").start
    assert sown.month in (8, 9) and mown.year == sown.year
