"""Seed is looked at, mown, fed, watered and covered again by what it has grown."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, plan_of
from test_work_campaigns import setting_of
from test_work_phases_seedbed import DORMANT, task
from turfplan.work.campaigns import campaigns
from turfplan.work.emergence import Emergence, emergence

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


@pytest.mark.parametrize("code", ["99201", "83814", "55406", "58102"])
def test_seed_of_late_summer_is_mown_before_winter(code: str) -> None:
    """Bluegrass that can be mown in autumn does not stand at 2 in until April, in no neighbour of
    a place where it is mown."""
    lawn = {"grass": "kentucky_bluegrass", "thatch": "0.2 in"}
    plan = plan_of({"place": {"postal_code": code}, "lawn": lawn, "leveling": {"depth": "0 in"}})
    sown, mown = task(plan, "overseed").start, task(plan, "first_mow").start
    assert sown.month in (8, 9) and mown.year == sown.year
