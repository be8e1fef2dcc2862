"""Titles of tasks name what they take, and tasks hang on tasks."""

from collections.abc import Mapping
from typing import Any

import pytest

from planning import first, plan_of
from turfplan.units import System

NO_SEED = {"seeding": {"intent": "none"}}


@pytest.mark.full
@pytest.mark.parametrize(
    ("leveling", "called"),
    [
        ({"material": "sand"}, "straight fine sand"),
        ({"material": "topsoil_sand"}, "mix"),
        ({"parts": {"topsoil": 0.5, "compost": 0.5}}, "50% topsoil, 50% compost"),
        ({"parts": {"sand": 0.5, "topsoil": 0.25, "compost": 0.25}}, "mix"),
    ],
)
def test_an_order_is_called_by_what_is_short_to_say(
    leveling: Mapping[str, Any], called: str
) -> None:
    """One material by its name, the owner's own two parts by theirs; everything longer is the
    mix.
    """
    plan = plan_of(NO_SEED, {"leveling": leveling})
    for operation in ("order_material", "delivery"):
        assert str(first(plan, operation).title).endswith(f" of {called}")


@pytest.mark.full
@pytest.mark.parametrize(("area", "straw"), [("900 ft2", "1 bale"), ("5000 ft2", "5 bales")])
def test_bales_are_counted_in_the_title(area: str, straw: str) -> None:
    """A bale for a thousand square feet of a slope, and one is said as one."""
    plan = plan_of({"lawn": {"area": area}, "site": {"slope_percent": 12}})
    assert str(first(plan, "cover").title) == f"Cover the slope with {straw} of straw"


@pytest.mark.full
def test_a_title_names_what_the_task_takes_in_the_reader_s_units() -> None:
    """Seed and nitrogen by weight and by rate, in pounds for one reader and in kilograms for the
    other.
    """
    bare = {"leveling": {"depth": "0 in"}}
    leeds = {"postal_code": None, "country": "GB", "latitude": 53.8, "longitude": -1.5}
    us, metric = plan_of(bare), plan_of(bare, {"place": leeds})
    assert metric.lawn.units is System.METRIC
    assert " lb of " in str(first(us, "overseed").title)
    assert " kg of " in str(first(metric, "overseed").title)
    assert str(first(us, "starter_feed").title) == "Starter feed: 0.9 lb/1,000 ft² N"
    assert str(first(metric, "starter_feed").title).endswith(" g/m² N")


@pytest.mark.full
def test_a_task_hangs_on_tasks_not_on_their_last_days() -> None:
    """A pass of several days is named by its id where another waits for its end."""
    plan = plan_of(NO_SEED, {"work": {"people": 1}, "lawn": {"area": "12000 ft2"}})
    assert first(plan, "topdress").duration_days > 1
    names = {task.id for task in plan.tasks}
    assert all(set(task.depends_on) <= names for task in plan.tasks)
    assert any(first(plan, "topdress").id in task.depends_on for task in plan.tasks)
