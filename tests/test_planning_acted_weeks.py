"""Seasons acted out week by week, with what went otherwise: what is begun is finished, what is told
is so, and what had no reason to move stays."""

from copy import deepcopy
from datetime import date, timedelta

import pytest

from campaigns.walks import Walk, begun
from planning import brief_of
from turfplan.records.plan_task import Task

BEGIN = date(2028, 3, 15)
WEEKENDS = {
    "lawn": {
        "area": "4600 ft2",
        "grass": [
            {"species": "kentucky_bluegrass", "share": 0.6},
            {"species": "perennial_ryegrass", "share": 0.4},
        ],
        "thatch": "0.6 in",
    },
    "place": {"postal_code": None, "town": "Fort Wayne, IN"},
    "leveling": {"depth": "0.75 in"},
    "season": {"from": BEGIN},
    "work": {"people": 2},
    "delivery": {"truck_limit": "6 yd3"},
}
CARE = {
    "lawn": {
        "area": "320 m2",
        "grass": [
            {"species": "perennial_ryegrass", "share": 0.5},
            {"species": "fine_fescue", "share": 0.5},
        ],
        "soil": "loam",
        "thatch": "14 mm",
    },
    "place": {"postal_code": None, "town": "Perth", "country": "GB"},
    "leveling": {"depth": "0 mm"},
    "seeding": {"intent": "none"},
    "season": {"from": date(2027, 3, 1)},
    "soil_test": {
        "on": date(2027, 2, 10),
        "ph": 5.4,
        "phosphorus": "medium",
        "potassium": "low",
        "lime_rate": "250 g/m2",
    },
}


def task(season: Walk, name: str) -> Task:
    """A task of the newest plan."""
    found = season.plan.task(name)
    assert found is not None, name
    return found


def apart(season: Walk) -> Walk:
    """A season of its own from here on."""
    return Walk(season.given, season.plan, deepcopy(season.journal), season.versions)


@pytest.fixture(scope="module")
def spring() -> Walk:
    """Weekends only; the grass is cut for the blades, and no machine was there."""
    season = begun(brief_of(WEEKENDS), BEGIN)
    blades = season.day("dethatch")
    season.done_until(blades)
    season.log("done", task="mow_low.1", on=season.day("mow_low.1"))
    season.log("not_done", task="dethatch")
    season.go(blades + timedelta(1))
    return season


@pytest.fixture(scope="module")
def autumn() -> Walk:
    """Half of the last pass lies there, and rain took the week-ends until its season is over."""
    season = begun(brief_of(WEEKENDS), BEGIN)
    first = season.day("topdress.2")
    season.done_until(first)
    season.log("done", task="topdress.2", on=first, share=0.5)
    season.go(first + timedelta(1))
    until = task(season, "topdress.2").window.end
    while season.day("topdress.2") <= until:
        wet = season.day("topdress.2")
        season.log("rained_off", task="topdress.2", on=wet)
        season.go(wet + timedelta(1))
        assert task(season, "topdress.2").is_open, wet
        if season.day("topdress.2") > first + timedelta(14):
            break
    return season


@pytest.mark.full
def test_what_was_not_done_moves_for_that(spring: Walk) -> None:
    """Not because other work has moved."""
    change = task(spring, "dethatch").change
    assert change is not None and "It was not done on its day" in change.text


@pytest.mark.full
def test_a_machine_that_was_reserved_for_another_day_is_asked_about() -> None:
    """As long as the job waits, by the day of the reservation; not where nothing has moved."""
    season = begun(brief_of(WEEKENDS), BEGIN)
    reserved = season.day("dethatch")
    season.done_until(reserved, "mow_low.1")
    season.go(reserved)
    key = "buying.machine_moved"
    assert key not in [c.key for c in task(season, "dethatch").cautions]
    for _ in range(2):
        wet = season.day("dethatch")
        season.log("rained_off", task="dethatch", on=wet)
        season.go(wet + timedelta(1))
        (caution,) = [c for c in task(season, "dethatch").cautions if c.key == key]
        assert dict(caution.values)["reserved"].day == reserved  # type: ignore[union-attr]


@pytest.mark.full
def test_the_grass_is_cut_again_for_blades_that_come_weeks_late(spring: Walk) -> None:
    """Blades reach the thatch through short grass alone."""
    season = apart(spring)
    made = season.day("mow_low.1")
    while season.day("dethatch") <= made + timedelta(14):
        wet = season.day("dethatch")
        season.log("rained_off", task="dethatch", on=wet)
        season.go(wet + timedelta(1))
    cut = task(season, "mow_low.1.again")
    assert cut.is_open and cut.start <= season.day("dethatch")
    assert season.day("dethatch") - cut.start <= timedelta(14)


@pytest.mark.full
def test_a_refused_load_is_asked_for_on_the_next_day_of_business(spring: Walk) -> None:
    """Whoever works on weekends alone calls all the same."""
    season = apart(spring)
    load = season.day("delivery.1")
    season.done_until(load)
    season.log("refused", task="delivery.1", on=load)
    season.go(load + timedelta(1))
    call = task(season, "call.refused.1")
    assert call.start.weekday() < 5 and call.start <= load + timedelta(3)
    assert call.start < season.day("delivery.1")


@pytest.mark.full
def test_the_rest_of_a_begun_pass_is_not_given_up_for_a_late_week(autumn: Walk) -> None:
    """Half of a lawn that lies higher is no place to stop at."""
    rest = task(autumn, "topdress.2")
    assert rest.is_open and rest.status == "IN-PROCESS"
    assert rest.how[0].key == "history.rest_of_pass"
    assert rest.days_worked[0] < rest.start and rest.start in rest.days_worked
    assert task(autumn, "overseed").is_open and task(autumn, "overseed").start >= rest.start


@pytest.mark.full
def test_turf_is_opened_again_only_where_nothing_lies(autumn: Walk) -> None:
    """Low cuts and cores that have run out; their machine is reserved before."""
    again = [t for t in autumn.plan.tasks if t.is_open and ".again" in t.id]
    turf = [t for t in again if t.plays("low_cut", "coring")]
    assert turf
    for each in turf:
        assert "no mix yet" in str(each.title)
    calls = [t for t in again if t.operation == "call"]
    cores = [t for t in turf if t.plays("coring")]
    assert all(call.start < core.start for call in calls for core in cores)


@pytest.mark.full
def test_seed_that_mostly_stands_keeps_its_first_cut(autumn: Walk) -> None:
    """What is missing has its next season by itself; the look is not asked for once more."""
    season = apart(autumn)
    season.done_until(season.day("overseed") + timedelta(2), "inspect.germination")
    sown = season.day("overseed")
    season.go(sown + timedelta(2))
    look = sown + timedelta(24)
    season.done_until(look, "inspect.germination", "first_mow")
    season.log("measured", quantity="germination", value=0.6, on=look)
    season.go(look + timedelta(1))
    assert task(season, "overseed").closed == "done"
    assert task(season, "inspect.germination").closed == "done"
    assert task(season, "first_mow").start.year == sown.year
    assert task(season, "last_mow").start.year == sown.year
    assert "history.no_day_for_rest" in [n.text.key for n in season.plan.ranked]


@pytest.mark.full
def test_food_whose_days_are_over_moves_nothing() -> None:
    """Lime and the next feeding stay on their days; its potash goes with the next."""
    season = begun(brief_of(CARE), date(2027, 3, 22))
    food = season.day("feed_nitrogen.spring")
    season.done_until(food + timedelta(1), "feed_nitrogen.spring")
    season.go(food + timedelta(2))
    days = {name: season.day(name) for name in ("lime.1", "feed_nitrogen.spring2")}
    season.log("not_done", task="feed_nitrogen.spring")
    season.go(date(2027, 5, 4))
    assert task(season, "feed_nitrogen.spring").closed == "dropped"
    assert {name: season.day(name) for name in days} == days
    items = [a.item for t in season.plan.tasks if t.is_open for a in t.amounts]
    assert "potash to add" in items


def test_what_was_to_be_repeated_for_the_rest_of_a_pass_is_over_with_it() -> None:
    """Half of a pass one day, the rest a week later: nobody is asked to open turf that has its mix,
    nor to hire a machine for it; as long as the rest is open both stay."""
    season = begun(
        brief_of(
            {
                "lawn": {"grass": "bermuda_common", "soil": "sandy loam", "area": "3200 ft2"},
                "place": {"postal_code": "36608", "country": "US", "state": "AL"},
                "leveling": {"depth": "0.75 in"},
                "seeding": {"intent": "none"},
            }
        )
    )
    day = season.day("topdress.1")
    season.done_until(day)
    season.log("rained_off", on=day)
    season.go(day + timedelta(1))
    day = season.day("topdress.1")
    late = day + timedelta(7)
    season.log("done", task="topdress.1", on=day, share=0.5)
    season.go(day + timedelta(1))
    again = [t.id for t in season.plan.tasks if t.id in ("core_aerate.1.again", "mow_low.2.again")]
    assert again
    season.go(day + timedelta(2))
    assert all((t := season.plan.task(name)) and t.closed is None for name in again)
    season.log("done", task="topdress.1", on=late)
    plan = season.go(late + timedelta(1))
    assert all((t := plan.task(name)) is None or t.closed is not None for name in again)
    hired = [line for line in plan.order if line.item == "machine"]
    assert not [line for line in hired if "call.machines.1.again" in line.tasks]


def test_a_seedbed_in_which_a_part_is_up_is_not_made_anew() -> None:
    """What is missing is sown into a crust that is opened by hand, beside the seedlings."""
    season = begun(
        brief_of(
            {
                "lawn": {"grass": "kentucky_bluegrass", "area": "420 m2", "condition": "patchy"},
                "place": {"latitude": 49.2, "longitude": 16.6, "country": "CZ"},
                "leveling": {"depth": "15 mm"},
                "seeding": {"intent": "renovate"},
            },
            {"place": {"postal_code": None}},
        )
    )
    sown = task(season, "seed").end
    look = task(season, "inspect.germination").end
    season.done_until(sown + timedelta(1))
    season.log("measured", quantity="germination", value=0.3, on=look)
    season.go(look + timedelta(1))
    told = [getattr(said, "key", "") for said in task(season, "seed").cautions]
    assert "reasons.late_for_rest" in told and "reasons.late_after" not in told
    (trip,) = (t for t in season.plan.tasks if t.id == "collect.seed.more")
    assert trip.closed is None and [line for line in season.plan.order if line.item == "seed"]
