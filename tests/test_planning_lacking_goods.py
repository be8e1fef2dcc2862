"""Less seed or sod than the work takes: what is missing is told, and the rest of plants is ordered
afresh."""

from copy import deepcopy
from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun
from planning import brief_of
from turfplan.message import Message

BEGIN = date(2027, 2, 1)
SOD: dict[str, Any] = {
    "lawn": {"area": "1500 ft2", "grass": "kentucky_bluegrass"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "plant", "form": "sod"},
}
SEED: dict[str, Any] = {"leveling": {"depth": "0 in"}}


def brought(lawn: dict[str, Any], name: str, work: str, part: float) -> Walk:
    """A season in which a part of what its work takes was brought or fetched."""
    season = begun(brief_of(lawn), BEGIN)
    task = season.plan.task(work)
    assert task is not None
    need = next(amount for amount in task.amounts if amount.item in ("seed", "sod"))
    day = season.day(name)
    season.done_until(day, name)
    season.log("done", task=name, on=day, amount=need.value * part, unit=need.unit)
    season.go(day)
    return season


def told(season: Walk, work: str) -> set[str]:
    """The keys of what is told of a task."""
    task = season.plan.task(work)
    assert task is not None
    return {said.key for said in task.cautions if isinstance(said, Message)}


@pytest.mark.parametrize(
    ("lawn", "name", "work", "key"),
    [
        (SOD, "delivery.sod", "plant", "order.fewer_plants_came"),
        (SEED, "collect.seed", "overseed", "order.less_seed_came"),
    ],
)
@pytest.mark.parametrize(("part", "lacks"), [(0.6, True), (1.0, False)])
def test_what_is_missing_is_told_at_the_work_that_takes_it(
    lawn: dict[str, Any], name: str, work: str, key: str, part: float, *, lacks: bool
) -> None:
    """Nothing is where enough came."""
    assert (key in told(brought(lawn, name, work, part), work)) == lacks


def test_the_rest_of_the_sod_is_ordered_afresh() -> None:
    """For what is still bare, and nothing more; it is not told as missing once more."""
    season = brought(SOD, "delivery.sod", "plant", 0.6)
    task = season.plan.task("plant")
    assert task is not None
    whole = next(amount.value for amount in task.amounts if amount.item == "sod")
    day = season.day("plant")
    season.log("done", task="plant", on=day, share=0.6)
    plan = season.go(day + timedelta(1))
    lines = [line for line in plan.order if line.item == "sod"]
    assert len(lines) == 1 and lines[0].tasks == ("order_material.sod", "delivery.sod")
    assert lines[0].value == pytest.approx(0.4 * whole, rel=0.1)
    assert "order.fewer_plants_came" not in told(season, "plant")


def test_the_seed_that_is_missing_is_fetched_before_it_is_sown() -> None:
    """Once, for its part alone, by its cause; what a second trip brought is there, or what of it is
    written down."""
    season = brought(SEED, "collect.seed", "overseed", 0.6)
    task, trip = season.plan.task("overseed"), season.plan.task("collect.seed.more")
    assert task is not None and trip is not None and trip.end <= task.start
    assert isinstance(trip.why, Message) and trip.why.key == "order.more_seed_why"
    whole = next(amount.value for amount in task.amounts if amount.item == "seed")
    (line,) = (line for line in season.plan.order if line.item == "seed")
    assert line.value == pytest.approx(0.4 * whole, rel=0.1)
    assert isinstance(line.reason, Message) and line.reason.key == "order.more_seed_reason"
    part = deepcopy(season)
    part.log("done", task=trip.id, on=trip.start, amount=0.2 * whole, unit="kg")
    part.go(trip.start)
    assert "order.less_seed_came" in told(part, "overseed")
    season.log("done", task=trip.id, on=trip.start)
    plan = season.go(trip.start)
    made = plan.task(trip.id)
    assert made is not None and made.closed == "done"
    assert not [line for line in plan.order if line.item == "seed"]
    assert "order.less_seed_came" not in told(season, "overseed")
    enough = brought(SEED, "collect.seed", "overseed", 1.0).plan
    assert enough.task("collect.seed.more") is None
