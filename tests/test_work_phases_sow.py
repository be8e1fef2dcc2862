"""What is said of sowing."""

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


@pytest.mark.parametrize(
    ("grass", "intent", "operation", "spreads"),
    [
        ("kentucky_bluegrass", "overseed", "overseed", True),
        ("kentucky_bluegrass", "renovate", "seed", False),
        ("tall_fescue", "overseed", "overseed", False),
    ],
)
def test_gaps_are_filled_by_a_grass_that_spreads(
    grass: str, intent: str, operation: str, spreads: bool
) -> None:
    """It is told where seed goes between plants, not where the ground is bare."""
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": "55406"},
            "seeding": {"intent": intent},
        }
    )
    assert ("fills gaps by itself" in told(first(plan, operation).why)) == spreads


@pytest.mark.parametrize("area", ["4000 ft2", "30000 ft2"])
@pytest.mark.parametrize("weekdays", [["sat", "sun"], ["sun"]])
def test_seed_on_a_slope_is_covered_the_day_it_is_sown(area: str, weekdays: list[str]) -> None:
    """However large the slope and however few the days of work: the cover has the seed's days."""
    plan = plan_of(SLOPE, {"lawn": {"area": area}, "calendar": {"weekdays": weekdays}})
    assert plan.conflict is None
    seed = next(task for task in plan.tasks if task.plays("sowing"))
    cover = first(plan, "cover")
    assert (cover.start, cover.end) == (seed.start, seed.end)


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
