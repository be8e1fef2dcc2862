"""How long people keep off: told at each job that sows, plants or relays, with days."""

from datetime import timedelta
from typing import Any

import pytest

from planning import plan_of
from turfplan.files.reading.book import load_book
from turfplan.message import Day, Message
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

BOOK = load_book()


def step(task: Task) -> Message:
    """The one step of a task that says so."""
    (found,) = [h for h in task.how if isinstance(h, Message) and h.key.startswith("keep_off.")]
    return found


def days(message: Message) -> dict[str, Any]:
    """The days in it."""
    return {name: value.day for name, value in message.values if isinstance(value, Day)}


def jobs(plan: Plan, role: Any) -> list[Task]:
    """The tasks of a role."""
    return [task for task in plan.tasks if task.plays(role)]


@pytest.mark.parametrize("intent", ["overseed", "dormant", "renovate"])
def test_seed_is_left_alone_until_it_has_been_mown_three_times(intent: str) -> None:
    """From the first cut of the plan; hard use comes later, for what rests from the spring on."""
    plan = plan_of({"seeding": {"intent": intent}})
    (cut,) = [task for task in plan.tasks if task.id == "first_mow"]
    (sowing,) = jobs(plan, "sowing")
    told = days(step(sowing))
    assert told["mown"] == cut.start + timedelta(BOOK.si("seeding.third_mowing"))
    assert sowing.end < told["first"] < told["last"]
    if intent == "dormant":
        assert told["first"] > cut.start


@pytest.mark.parametrize("form", ["sod", "plugs"])
def test_plants_and_relaid_turf_are_left_alone_until_they_hold(form: str) -> None:
    """Sod for weeks and plugs for months; every job says so once."""
    plan = plan_of(
        {
            "lawn": {"grass": "zoysia"},
            "place": {"postal_code": "30309"},
            "seeding": {"intent": "plant", "form": form},
            "leveling": {"depth": "0 in", "lows": [{"depth": "2 in", "share": 0.05}]},
        }
    )
    (planting,) = jobs(plan, "planting")
    (lifted,) = jobs(plan, "relaying")
    assert step(planting).key == f"keep_off.{form}"
    assert step(lifted).key == "keep_off.sod"
    least = BOOK.fact("keep_off.sod").low_si
    assert days(step(lifted))["first"] == lifted.end + timedelta(least)
    others = [t for t in plan.tasks if not t.plays("sowing", "planting", "relaying")]
    assert not any("keep_off." in str(getattr(h, "key", "")) for t in others for h in t.how)
