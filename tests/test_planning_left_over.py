"""What was ordered is on its way as it was ordered; what nothing takes up is told, and a pass that
lies deeper than its grass bears."""

from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun, walked
from planning import brief_of
from turfplan.message import Message
from turfplan.records.plan import Plan

BEGIN = date(2027, 2, 1)
ONE_PASS: dict[str, Any] = {"lawn": {"area": "4200 ft2"}, "leveling": {"depth": "0.4 in"}}
TWO_SEASONS: dict[str, Any] = {
    "lawn": {"area": "2900 ft2", "condition": "dense"},
    "leveling": {"depth": "0.75 in"},
    "delivery": {"truck_limit": "6 yd3"},
}
PERTH: dict[str, Any] = {
    "units": None,
    "lawn": {"area": "350 m2", "grass": "bermuda_common", "soil": "sandy loam"},
    "place": {"postal_code": None, "country": "AU", "latitude": -32, "longitude": 115.9},
    "leveling": {"depth": "20 mm"},
    "seeding": {"intent": "none"},
    "season": {"from": date(2027, 8, 1)},
}
LAWNS = {"one pass": ONE_PASS, "two seasons": TWO_SEASONS, "bermuda": PERTH}


def planned_m3(season: Walk, name: str) -> float:
    """What a task of the plan brings, orders or takes, m3."""
    task = season.plan.task(name)
    assert task is not None, name
    return sum(amount.value for amount in task.amounts if amount.item == "volume")


def told(plan: Plan) -> set[str]:
    """The keys of what the plan says beside its tasks."""
    return {said.key for said in plan.cautions if isinstance(said, Message)}


def after(season: Walk, kind: str, name: str, part: float | None = None) -> Plan:
    """The plan of the day after a task, until which all was done, and of which was logged a part of
    what was planned."""
    task = season.plan.task(name)
    assert task is not None, name
    season.done_until(task.start, name)
    used = {} if part is None else {"amount": planned_m3(season, name) * part, "unit": "m3"}
    season.log(kind, task=name, on=task.start, **used)
    return season.go(task.start + timedelta(1))


@pytest.mark.parametrize(("lawn", "part"), [("one pass", 0.41), ("bermuda", 1.37)])
def test_what_was_ordered_is_on_its_way_as_it_was_ordered(lawn: str, part: float) -> None:
    """It is not rounded up to what is sold, nor to the least that is brought loose; deliveries
    share it, and what is short is fetched."""
    season = begun(brief_of(LAWNS[lawn]), BEGIN)
    asked = planned_m3(season, "order_material.1") * part
    plan = after(season, "done", "order_material.1", part)
    lines = [line for line in plan.order if "order_material.1" in line.tasks]
    assert sum(line.value for line in lines) == pytest.approx(asked, abs=1e-4)
    coming = sum(planned_m3(season, line.tasks[-1]) for line in lines)
    assert coming == pytest.approx(asked, abs=1e-4)
    for line in lines:
        assert sum(part.value for part in line.parts) == pytest.approx(line.value, abs=1e-4)
        assert sum(line.loads) == pytest.approx(line.value, abs=1e-4)
    fetched = [line for line in plan.order if "collect.mix" in line.tasks]
    assert bool(fetched) == (part < 1)
    assert ("order.left_over_ordered" in told(plan)) == (part > 1)


def test_mix_of_a_skipped_pass_is_told_and_not_bought_again() -> None:
    """The heap of the last pass serves no other."""
    season = begun(brief_of(TWO_SEASONS), BEGIN)
    assert not told(season.plan) & {"order.left_over", "order.left_over_ordered"}
    plan = after(season, "skipped", "topdress.2")
    assert "order.left_over" in told(plan)
    assert not [line for line in plan.order if line.item == "mix"]


def test_what_a_later_pass_takes_is_not_left_over() -> None:
    """The heap of the first pass serves the second, whose order is smaller by it."""
    season = begun(brief_of(TWO_SEASONS), BEGIN)
    whole = planned_m3(season, "order_material.2")
    plan = after(season, "skipped", "topdress.1")
    assert "order.left_over" not in told(plan)
    assert 0 < planned_m3(season, "order_material.2") < whole


@pytest.mark.parametrize(("part", "thick"), [(1.05, False), (1.3, True)])
def test_a_pass_that_lies_too_thick_is_told_until_it_is_grown_through(
    part: float, thick: bool
) -> None:
    """What covers the tips comes off the same day; the rest of the fill is less by it."""
    season = begun(brief_of(TWO_SEASONS), BEGIN)
    rest = planned_m3(season, "topdress.2")
    plan = after(season, "done", "topdress.1", part)
    assert ("plan_cautions.laid_thick" in told(plan)) == thick
    left = planned_m3(season, "topdress.2")
    assert (0 < left < rest) if thick else left == pytest.approx(rest)
    season.done_until(season.day("order_material.2"))
    assert "plan_cautions.laid_thick" not in told(season.go(season.day("order_material.2")))


@pytest.mark.full
def test_fill_that_no_season_is_left_for_has_a_way_out() -> None:
    """What falls for want of days is told with what would do all of it, once no pass is dropped any
    more, though the plans before had no such way."""
    season = walked(30430)
    assert isinstance(season, Walk)
    undone = [said for said in season.plan.cautions if "handover.undone" in repr(said)]
    assert undone and season.plan.options
