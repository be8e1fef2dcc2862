"""Seed on a slope, and the cover that goes with it."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import TODAY, first, plan_of
from told import told
from turfplan.records.journal import JournalEntry

SLOPE: dict[str, Any] = {
    "lawn": {"condition": "bare", "soil": "loam"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "renovate"},
    "site": {"slope_percent": 14},
}


@pytest.mark.full
@pytest.mark.parametrize("area", ["4000 ft2", "30000 ft2"])
@pytest.mark.parametrize("weekdays", [["sat", "sun"], ["sun"]])
def test_seed_on_a_slope_is_covered_the_day_it_is_sown(area: str, weekdays: list[str]) -> None:
    """However large the slope and however few the days of work: the cover has the seed's days."""
    plan = plan_of(SLOPE, {"lawn": {"area": area}, "calendar": {"weekdays": weekdays}})
    assert plan.conflict is None
    seed = next(task for task in plan.tasks if task.plays("sowing"))
    cover = first(plan, "cover")
    assert (cover.start, cover.end) == (seed.start, seed.end)


@pytest.mark.full
@pytest.mark.parametrize("task", ["seed", "cover"])
@pytest.mark.parametrize("to", [date(2027, 9, 10), date(2027, 9, 13), date(2027, 9, 12)])
def test_seed_and_its_cover_move_together(task: str, to: date) -> None:
    """Moved by hand to a Friday, a Monday or a Sunday, the one takes the other with it; nothing
    that follows the seed is left before it."""
    before = plan_of(SLOPE)
    moved = JournalEntry(number=1, at=TODAY, kind="moved", task=task, to=to)
    if task == "cover" and to.weekday() < 5:
        return  # the seed itself is sown on days of work alone
    plan = plan_of(SLOPE, journal=(moved,), previous=before)
    seed, cover = first(plan, "seed"), first(plan, "cover")
    assert seed.start == cover.start == to
    assert first(plan, "roll").start == to
    assert first(plan, "starter_feed").start >= to


@pytest.mark.full
def test_a_cover_that_is_late_is_still_to_be_done() -> None:
    """Seed that was sown stays sown; a cover not laid with it has the next day there is."""
    before = plan_of(SLOPE)
    sown = first(before, "seed").start
    journal = (
        JournalEntry(number=1, at=TODAY, kind="done", task="seed", on=sown),
        JournalEntry(number=2, at=TODAY, kind="not_done", task="cover"),
    )
    now = TODAY.replace(year=sown.year, month=sown.month, day=sown.day) + timedelta(2)
    plan = plan_of(SLOPE, journal=journal, previous=before, now=now)
    assert plan.conflict is None
    assert first(plan, "cover").start >= now.date()


@pytest.mark.full
@pytest.mark.parametrize("area", ["4000 ft2", "130000 ft2"])
def test_seed_is_rolled_before_its_first_water(area: str) -> None:
    """However long it takes, each day's seed is rolled on its day, before the water of the
    evening."""
    plan = plan_of(
        {
            "lawn": {"area": area, "grass": "bermuda_hybrid", "soil": "sandy loam"},
            "place": {"postal_code": "85719", "state": "AZ"},
            "leveling": {"depth": "0 in"},
            "seeding": {"intent": "winter_overseed"},
            "water": {"head": "rotor", "timer": True, "application_rate": None},
            "work": {"people": 4, "hours_per_day": 8, "machines": ["roller"]},
            "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri"]},
        }
    )
    seed = next(task for task in plan.tasks if task.plays("sowing"))
    roll = first(plan, "roll")
    assert (roll.start, roll.end) == (seed.start, seed.end)
    wet = [t for t in plan.tasks if t.stage is not None and t.stage.id == "soak"]
    assert wet and min(t.start for t in wet) == seed.start and max(t.end for t in wet) == seed.end


@pytest.mark.full
@pytest.mark.parametrize("intent", ["overseed", "plant"])
def test_dogs_are_kept_off_where_the_work_is_done(intent: str) -> None:
    """The caution stands at the sowing or planting itself, where there are pets."""
    lawn: dict[str, Any] = {"seeding": {"intent": intent}, "leveling": None}
    if intent == "plant":
        lawn |= {"lawn": {"grass": "st_augustine"}, "place": {"postal_code": "32607"}}
    with_pets, without = plan_of(lawn, {"site": {"pets": True}}), plan_of(lawn)
    for plan, wanted in ((with_pets, True), (without, False)):
        (task,) = [t for t in plan.tasks if t.plays("sowing") or t.plays("planting")]
        assert any("Fence dogs out" in told(line) for line in task.cautions) is wanted
