"""Less seed or sod than the work takes: what is missing is told, and the rest of plants is ordered
afresh."""

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
