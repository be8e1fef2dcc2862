"""Topsoil that buries the lawn's own soil: what is tested, and where lime and nutrients go."""

from datetime import date
from typing import Any

import pytest

from planning import first, kind, plan_of
from told import told

BUILDER: dict[str, Any] = {
    "lawn": {"condition": "bare", "soil": "clay loam", "area": "2000 ft2"},
    "leveling": {"depth": "5 in"},
}
FOUND: dict[str, Any] = {
    "on": date(2027, 1, 10),
    "ph": 5.4,
    "acidity_cmol_kg": 6.0,
    "potassium": "low",
}


@pytest.mark.full
@pytest.mark.parametrize("test", [{}, FOUND])
def test_nothing_is_worked_into_soil_that_is_buried(test: dict[str, Any]) -> None:
    """The topsoil is tested before it is ordered; by a test of what lies below nothing is given."""
    plan = plan_of(BUILDER, {"soil_test": test} if test else {})
    (call,) = kind(plan, "soil_test")
    assert call.id == "soil_test.topsoil"
    assert call.end < first(plan, "order_material").start
    assert "salts" in " ".join(told(line) for line in call.how)
    assert not kind(plan, "lime")
    worked = {a.item for task in plan.tasks for a in task.amounts}
    assert not worked & {"potash to add", "lime", "phosphate"}
    assert "spread first" not in " ".join(told(line) for line in first(plan, "till").how)
    buried = [line for line in plan.cautions if "topsoil will bury" in told(line)]
    assert bool(buried) is bool(test)


@pytest.mark.full
def test_what_the_topsoil_lacks_is_raked_into_the_last_lift() -> None:
    """Said to be the topsoil's, the test gives lime and potash after the last lift."""
    plan = plan_of(BUILDER, {"soil_test": {**FOUND, "of": "topsoil"}})
    (lime,) = kind(plan, "lime")
    lifts, grade = kind(plan, "fill"), first(plan, "grade")
    assert lifts[-1].end <= lime.start <= grade.start
    assert "potash to add" in {a.item for a in grade.amounts}
    assert "potash to add" not in {a.item for a in first(plan, "till").amounts}


def test_a_thin_layer_leaves_the_lawn_s_own_test() -> None:
    """Under an inch the ground is tilled with its lime, as its test says."""
    plan = plan_of(BUILDER, {"leveling": {"depth": "1 in"}, "soil_test": FOUND})
    (lime,) = kind(plan, "lime")
    assert lime.start <= first(plan, "till").start
    assert "potash to add" in {a.item for a in first(plan, "till").amounts}


@pytest.mark.full
def test_the_supplier_is_asked_for_the_test() -> None:
    """The order sheet holds the question of whoever sells topsoil."""
    plan = plan_of(BUILDER)
    asked = [told(line) for order in plan.order for line in order.questions]
    assert any("test of this heap" in line for line in asked)
