"""Each sowing has a seedbed of its own, and the second grass of one winter its way in and back."""

from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from planning import plan_of
from told import told
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

RYE: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "seeding": {"intent": "winter_overseed"},
}
CENTIPEDE = {
    "lawn": {"grass": "centipede", "condition": "dense"},
    "place": {"postal_code": "29201"},
    "seeding": {"intent": "winter_overseed"},
    "leveling": {"depth": "0 in"},
}
DORMANT: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass"},
    "place": {"postal_code": "55406"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "dormant"},
    "season": {"from": date(2027, 10, 1)},
}


def task(plan: Plan, name: str) -> Task:
    """The task of that id; it must be there."""
    found = plan.task(name)
    assert found is not None, name
    return found


@pytest.mark.parametrize("depth", ["0 in", "0.5 in"])
def test_ryegrass_has_its_own_low_cut_whether_the_lawn_is_levelled_or_not(depth: str) -> None:
    """The vertical mower goes two ways, then the last low cut, within the week before the seed."""
    plan = plan_of(RYE, {"leveling": {"depth": depth}})
    sown = task(plan, "overseed").start
    cut, blades = task(plan, "mow_low.seedbed"), task(plan, "slit")
    assert blades.start <= cut.start <= sown <= cut.end + timedelta(7)
    assert not [t for t in plan.tasks if t.plays("coring") and sown - t.end < timedelta(60)]
    marks = task(plan, "locate_utilities.seedbed")
    assert timedelta(3) <= blades.start - marks.end <= timedelta(14)


def test_ryegrass_is_fed_watered_in_winter_and_taken_off_in_warm_nights() -> None:
    """In the low desert it goes from April on, with the feedings of its own winter before."""
    plan = plan_of(RYE, {"leveling": {"depth": "0 in"}})
    sown, back = task(plan, "overseed").start, task(plan, "spring_transition").start
    fed = [t.start for t in plan.tasks if "feeding.rye_rate" in t.facts]
    assert fed[0] >= sown + timedelta(21)
    apart = [(late - early).days for early, late in pairwise(fed)]
    assert len(fed) == 4 and all(24 <= days <= 38 for days in apart), "about once a month"
    assert date(2028, 4, 1) <= back <= date(2028, 5, 31) and fed[-1] < back
    others = [t.start for t in plan.tasks if t.plays("feeding") and t.start not in fed]
    assert not [day for day in others if sown - timedelta(45) < day < back]
    winter = [t for t in plan.tasks if t.series and t.start > date(2027, 11, 28)]
    assert winter, "ryegrass grows on while the grass below it rests"


def test_ryegrass_leaves_louisiana_at_green_up() -> None:
    """Near the Gulf it is taken off in March to April, not left until the heat."""
    plan = plan_of(RYE, {"place": {"postal_code": "70802"}, "leveling": {"depth": "0 in"}})
    assert date(2028, 2, 20) <= task(plan, "spring_transition").start <= date(2028, 4, 25)


def test_turf_that_bears_no_blades_is_raked_and_sown_thinly() -> None:
    """Centipedegrass is neither scalped nor cut open, and takes no more than 5 lb."""
    plan = plan_of(CENTIPEDE)
    assert [t.id for t in plan.tasks if t.plays("low_cut")] == ["mow_low.seedbed"]
    assert "rake" in told(task(plan, "slit").title).casefold()
    rate = next(a.value_us for a in task(plan, "overseed").amounts if a.item == "seed rate")
    assert rate <= 5


def test_dormant_seed_is_cut_for_with_the_last_growth_and_raked_in() -> None:
    """The low cut comes while the grass still grows, the raking right before the seed."""
    plan = plan_of(DORMANT)
    sown = task(plan, "dormant_seed").start
    cut, raking = task(plan, "mow_low.seedbed"), task(plan, "slit")
    assert sown - timedelta(60) < cut.start < sown - timedelta(14)
    assert timedelta(0) <= sown - raking.end <= timedelta(7)
