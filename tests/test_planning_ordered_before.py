"""What was ordered is bought once, whatever becomes of the passes that it was for."""

from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun
from planning import EXAMPLES, example_brief
from turfplan.app.inputs import input_of
from turfplan.planning.ordered_before import asked_of_loads, still_to_come_m3
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Load
from turfplan.work.ordered_loads import OrderedLoads, with_orders_kept

DAY = date(2027, 5, 1).toordinal()


def load(number: int, m3: float, order: int | None = None) -> Load:
    """A load of the first session."""
    return Load(number, 1, (number,), m3, None, order or number)


def past(*done: str, by: dict[str, str] | None = None, **planned_m3: float) -> TaskHistory:
    """What is done, what the plan before asked for of each task (`_` for a dot), and by which order
    deliveries were asked for."""
    names = {".".join(name.rsplit("_", 1)): m3 for name, m3 in planned_m3.items()}
    return TaskHistory(done=dict.fromkeys(done, DAY), planned_m3=names, ordered_by=by or {})


TWO = {"delivery.1": "order_material.1", "delivery.2": "order_material.1"}


def orders(
    loads: list[Load], *left_m3: tuple[int, float], over: frozenset[int] = frozenset()
) -> Any:
    """The order of each load."""
    return [one.order for one in with_orders_kept(loads, OrderedLoads(left_m3, over), 0.5)]


def test_loads_keep_the_orders_that_were_placed_for_as_much() -> None:
    """By their number first, then in order of use; what an order has too little of is ordered by
    itself, together as before, under a number that no placed order has."""
    both = [load(1, 3.0), load(2, 3.0)]
    assert orders(both) == [1, 2]
    assert orders(both, (1, 6.0)) == [1, 1]
    assert orders(both, (1, 3.5)) == [1, 2] and orders(both, (1, 4.6)) == [1, 1]
    assert orders(both, (2, 6.0)) == [2, 2]
    assert orders(both, (1, 3.0), over=frozenset({1})) == [1, 1]
    three = [load(1, 3.0), load(2, 3.0, 1), load(3, 3.0, 1)]
    assert orders(three, (1, 3.0)) == [1, 2, 2]
    assert orders([load(1, 3.0), load(2, 3.0)], (1, 0.0), (2, 0.0)) == [3, 4]


def test_what_is_still_to_come_of_an_order() -> None:
    """The loads of it that are open, whatever the others brought; unknown where no plan says it."""
    asked = past("order_material.1", by=TWO, order_material_1=6.0, delivery_1=2.0, delivery_2=4.0)
    assert still_to_come_m3(1, asked) == 6.0
    came = past("delivery.1", by=TWO, order_material_1=6.0, delivery_1=1.0, delivery_2=4.0)
    assert still_to_come_m3(1, came) == 4.0
    assert still_to_come_m3(2, came) is None


def test_an_order_comes_with_the_loads_that_are_left() -> None:
    """A load as it was asked for; what one took that is none any more goes to the others as far as
    they need it, and the rest comes with the last."""
    known = past("order_material.1", by=TWO, order_material_1=6.0, delivery_1=2.0, delivery_2=4.0)
    loads = [load(1, 2.0), load(2, 4.0, 1)]
    assert asked_of_loads(loads, {1: 2.0, 2: 4.0}, known) == ({1: 2.0, 2: 4.0}, {1: 0.0, 2: 0.0})
    assert asked_of_loads([load(1, 5.0)], {1: 5.0}, known) == ({1: 5.0}, {1: 1.0})
    thicker = asked_of_loads(loads, {1: 3.0, 2: 5.0}, known)
    assert thicker == ({1: 2.0, 2: 4.0}, {1: 0.0, 2: 0.0})


def mix(season: Walk) -> list[tuple[str, float]]:
    """What is asked for or still to come of the mix, each with the first task that sees to it."""
    lines = [line for line in season.plan.order if line.item == "mix"]
    return [(line.tasks[0], round(line.value, 2)) for line in lines]


@pytest.mark.parametrize(
    "changed", ["fewer_passes", pytest.param("one_load", marks=pytest.mark.full)]
)
def test_nothing_is_bought_twice_once_passes_are_others(changed: str) -> None:
    """Fewer and thicker passes, or a pass in one load for two: what was ordered serves them, only
    what is missing is bought; also once the loads have come."""
    name = {"fewer_passes": "cool-overseed", "one_load": "southern-hemisphere"}[changed]
    season = begun(example_brief(name))
    asked = sum(m3 for task, m3 in mix(season) if task == "order_material.1")
    day = season.day("order_material.1")
    season.log("done", task="order_material.1", on=day)
    season.go(day)
    other = {
        "fewer_passes": {"leveling": {"depth_mm": 14.0}},
        "one_load": {"work": {"people": 8}},
    }[changed]
    brief = season.given.brief
    parts = {n: getattr(brief, n).model_copy(update=keys) for n, keys in other.items()}
    season.given = input_of(brief.model_copy(update=parts), EXAMPLES)
    season.go(day + timedelta(days=1))
    needed = sum(
        amount.value
        for task in season.plan.tasks
        if task.plays("spreading") and task.is_open
        for amount in task.amounts
        if amount.item == "volume"
    )
    lines = mix(season)
    assert sum(m3 for task, m3 in lines if task == "order_material.1") == pytest.approx(
        asked, abs=0.02
    )
    assert {task for task, _ in lines} <= {"order_material.1", "collect.mix"}
    bought = sum(m3 for _, m3 in lines)
    assert max(needed, asked) <= bought + 0.02 <= max(needed, asked) * 1.1
    for load_of in sorted(t.id for t in season.plan.tasks if t.plays("delivery") and t.is_open):
        season.log("delivered", task=load_of, on=season.day(load_of))
        season.go(season.day(load_of))
    assert not [line for line in mix(season) if line[0] != "collect.mix"]
