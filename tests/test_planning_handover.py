"""What goes beyond the end that an owner gave is handed over, with the day or the sign of each."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import first, kind, plan_of
from told import told
from turfplan.message import Number
from turfplan.planning.handover import undone
from turfplan.records.plan import Handover, Plan
from turfplan.work.drafts import Band
from turfplan.work.lawn import Levelling

WICHITA: dict[str, Any] = {"place": {"postal_code": "67203", "country": "US"}}
LEEDS: dict[str, Any] = {
    "lawn": {"grass": "perennial_ryegrass", "area": "300 m2", "condition": "bare"},
    "place": {"postal_code": None, "latitude": 53.8, "longitude": -1.55, "country": "GB"},
    "leveling": {"depth": "0 mm"},
    "seeding": {"intent": "renovate"},
}
SOD: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "condition": "bare"},
    "place": {"postal_code": "30303", "country": "US"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "plant", "form": "sod"},
}


def ended(changes: dict[str, Any], begin: date, until: date) -> tuple[Plan, Plan]:
    """A plan that its owner ends, and the same without an end."""
    return (
        plan_of(changes, {"season": {"from": begin, "until": until}}, options=False),
        plan_of(changes, {"season": {"from": begin}}, options=False),
    )


def later(plan: Plan, operation: str) -> list[Handover]:
    """What of one operation is handed over."""
    return [item for item in plan.handover if item.operation == operation]


def test_feedings_water_heights_and_looks_are_handed_over() -> None:
    """Ended in mid October, the plan leaves what the same lawn without an end still does, on its
    days: feedings, the water of seedlings, both first cuts' heights, looks."""
    until = date(2027, 10, 15)
    plan, whole = ended(WICHITA, date(2027, 8, 1), until)
    assert [t.start for t in kind(plan, "overseed")] == [t.start for t in kind(whole, "overseed")]
    fed = {task.start for task in kind(whole, "feed_nitrogen") if task.start > until}
    assert fed and fed == {item.start for item in later(plan, "feed_nitrogen")}
    water = max(task.end for task in kind(whole, "water"))
    assert water > until and water == max(item.end for item in later(plan, "water"))
    (cut,), (height,) = later(plan, "first_mow"), later(plan, "mow")
    assert cut.start == first(whole, "first_mow").start and told(cut.sign)
    assert height.start > cut.start and told(height.sign)
    looks = [task.start for task in kind(whole, "inspect") if task.start > until]
    assert looks == [item.start for item in later(plan, "inspect")]


@pytest.mark.parametrize(
    ("changes", "begin", "until"),
    [
        (LEEDS, date(2027, 8, 1), date(2027, 9, 12)),
        (SOD, date(2027, 4, 1), date(2027, 6, 1)),
        ({}, date(2027, 8, 1), date(2027, 9, 30)),
    ],
    ids=["leeds", "sod", "pennsylvania"],
)
def test_every_item_has_its_days_and_is_told(
    changes: dict[str, Any], begin: date, until: date
) -> None:
    """Seed or sod that the end leaves young has its water, food and heights on the list, after that
    end, and the list is told with the plan."""
    plan, _ = ended(changes, begin, until)
    assert plan.conflict is None
    for operation in ("feed_nitrogen", "water", "mow"):
        assert later(plan, operation), operation
    assert all(until < item.end and item.start <= item.end for item in plan.handover)
    shown = " ".join(told(line) for line in plan.cautions)
    assert all(told(item.title) in shown for item in plan.handover)
    mine = {(task.operation, task.start) for task in plan.tasks}
    assert not mine & {(item.operation, item.start) for item in plan.handover}


def test_a_plan_without_an_end_hands_nothing_over() -> None:
    """It runs until the last of its follow-ups."""
    assert plan_of(WICHITA).handover == ()


def test_beside_lifted_hollows_what_is_left_is_told_alone() -> None:
    """What is lifted is not said to be left out; without it nothing of the fill is spread."""
    left = (Band(12.7, 0.15),)
    lifted = Levelling((), 0.06, 31.75, 0.1, left=left)
    said = undone(lifted, (), ())
    assert said.key == "handover.undone.beside_lifted"
    assert dict(said.values)["share"] == Number(0.15, "percent")
    assert undone(replace(lifted, lift_share=0.0), (), ()).key == "handover.undone.all"
    spread = replace(lifted, bands=(Band(6.0, 0.1),))
    assert undone(spread, (), ()).key == "handover.undone.part"
