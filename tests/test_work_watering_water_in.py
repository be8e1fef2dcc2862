"""What is watered in is told by the days of the law, or by rain where nobody waters."""

from typing import Any

import pytest

from planning import plan_of
from told import told

LAWN: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "soil": "clay loam", "condition": "dense"},
    "leveling": {"depth": "0.25 in"},
    "seeding": {"intent": "none"},
    "soil_test": {"on": "2027-01-10", "ph": 6.6, "potassium": "low"},
}
OPERATIONS = ("feed_nitrogen", "amend", "core_aerate")


@pytest.mark.full
@pytest.mark.parametrize(
    ("water", "said"),
    [
        ({"timer": True, "allowed_weekdays": ["wed"]}, "open"),
        ({"possible": False, "application_rate": None}, "Nobody waters here"),
    ],
)
def test_no_step_asks_for_water_on_a_day_without_it(water: dict[str, Any], said: str) -> None:
    """Feedings, potash and cores name the open days, or rain; on any day their water is plain."""
    plan = plan_of({**LAWN, "water": water})
    found = [t for t in plan.tasks if t.operation in OPERATIONS]
    assert {t.operation for t in found} >= {"feed_nitrogen", "core_aerate"}
    for task in found:
        steps = " ".join(told(line) for line in (*task.how, task.go))
        assert said.lower() in steps.lower(), task.id
    free = plan_of({**LAWN, "water": {"possible": True}})
    steps = " ".join(told(s) for t in free.tasks if t.operation in OPERATIONS for s in t.how)
    assert "Water in lightly." in steps and "open to watering" not in steps
