"""A weed killer without a name is asked for at once, with what each answer gives."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import first, kind, plan_of
from told import told
from turfplan.records.plan import Plan

NOW = datetime(2027, 9, 5, 12, tzinfo=UTC)
LAWN: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "condition": "patchy"},
    "place": {"postal_code": "43214", "state": "OH"},
    "leveling": None,
    "seeding": {"intent": "overseed"},
    "season": {"from": date(2027, 9, 5)},
}


def treated(ingredient: str, **more: Any) -> Plan:
    """The plan of a lawn that was treated in July."""
    use = {"active_ingredient": ingredient, "on": date(2027, 7, 10), **more}
    return plan_of(LAWN, {"history": {"herbicides": [use]}}, now=NOW)


@pytest.mark.full
def test_an_unnamed_weed_killer_is_asked_for_today_with_the_day_of_each_answer() -> None:
    """Four weeks of 2,4-D leave this autumn, the longest hold the next: both are told with their
    days, at the top, and the bag is to be read on the first day."""
    unnamed, named = treated("weed and feed"), treated("2,4-D")
    early, late = first(named, "overseed").start, first(unnamed, "overseed").start
    assert early.year == 2027 and late.year == 2028
    (question,) = [line for line in unnamed.holds if "2,4-D" in told(line)]
    said = told(question)
    assert f"{early:%b} {early.day}, {early.year}" in said
    assert f"{late:%b} {late.day}, {late.year}" in said
    bag = next(task for task in unnamed.tasks if task.id == "inspect.bag")
    assert bag.start == unnamed.horizon.start
    assert unnamed.ranked[0].rank == "stop"


@pytest.mark.full
def test_what_has_a_name_or_the_day_of_its_label_is_not_asked_for() -> None:
    """Nor where every answer leads to the same day."""
    long_ago = treated("weed and feed", on=date(2026, 9, 10))
    for plan in (treated("dicamba"), treated("weed and feed", hold_days=30), long_ago):
        assert not [task for task in kind(plan, "inspect") if task.id == "inspect.bag"]
        assert not [line for line in plan.holds if "read the active ingredients" in told(line)]


@pytest.mark.full
def test_an_ingredient_that_the_book_lacks_is_looked_up_on_its_label() -> None:
    """It has a name: nobody guesses at another, and the task asks for the label's day."""
    plan = treated("greenicide")
    (look,) = [task for task in plan.tasks if task.id == "inspect.bag"]
    assert "label of greenicide" in told(look.title) and look.start == plan.horizon.start
    assert not [line for line in plan.holds if "2,4-D" in told(line)]


@pytest.mark.full
def test_a_bag_of_a_southern_lawn_may_hold_what_the_grass_bears() -> None:
    """With atrazine St. Augustinegrass is planted sooner than with no name at all."""
    south: dict[str, Any] = {
        "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
        "place": {"postal_code": "77057", "state": "TX"},
        "leveling": None,
        "seeding": {"intent": "plant", "form": "sod"},
        "season": {"from": date(2027, 3, 1)},
        "site": {"cleared": ["unknown"]},
    }
    march = datetime(2027, 3, 1, 12, tzinfo=UTC)

    def planted(ingredient: str) -> Plan:
        use = {"active_ingredient": ingredient, "on": date(2027, 2, 15)}
        return plan_of(south, {"history": {"herbicides": [use]}}, now=march)

    named, bag = planted("atrazine"), planted("weed and feed")
    assert first(named, "plant").start < first(bag, "plant").start
    assert not [task for task in named.tasks if task.id == "inspect.bag"]
    assert any("atrazine" in told(line) for line in bag.holds)
