"""What is taken back of a journal gives back the days that it had moved."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun, same_again
from planning import brief_of
from turfplan.records.days_before import REMEMBERED
from turfplan.records.plan import Plan

TODAY = date(2027, 3, 1)
CHRISTCHURCH = {
    "lawn": {"grass": "perennial_ryegrass", "area": "108 m2", "soil": "silt loam"},
    "place": {"postal_code": None, "country": "NZ", "latitude": -43.5, "longitude": 172.6},
    "leveling": {"depth": "10 mm"},
    "season": {"from": date(2027, 3, 1)},
}


def days(plan: Plan) -> Mapping[str, tuple[date, date]]:
    """Where each open task stands that feeds nothing: food is shared out anew."""
    return {
        t.id: (t.start, t.end)
        for t in plan.tasks
        if t.is_open and t.series is None and not t.plays("feeding")
    }


def undone(season: Walk, kind: str, today: date, **entry: Any) -> tuple[int, Plan]:
    """How many days an entry moved, and the plan once it is taken back."""
    before = days(season.plan)
    season.log(kind, **entry)
    moved = days(season.go(today))
    season.log("undo", undoes=len(season.journal))
    plan = season.go(today)
    same_again(season, today)
    return sum(moved.get(name) != day for name, day in before.items()), plan


@pytest.mark.parametrize("number", [0, pytest.param(1, marks=pytest.mark.full)])
def test_a_ban_that_is_taken_back_moves_nothing(number: int) -> None:
    """In the north and the south: what waited for water is back on its days, and no reason speaks
    of a ban."""
    season = begun(brief_of([{}, CHRISTCHURCH][number]))
    first = season.go(TODAY)
    begins = season.day("overseed") - timedelta(days=20)
    moved, plan = undone(season, "measured", TODAY, quantity="water_ban", value=45.0, on=begins)
    assert moved > 5 and days(plan) == days(first)
    assert not any("banned" in str(said) for t in plan.tasks if t.is_open for said in t.not_earlier)


def test_a_move_that_is_taken_back_leaves_later_entries_alone() -> None:
    """What was done since stays done, and what was moved besides stays moved."""
    season = begun(brief_of({"leveling": {"depth": "1 in"}}))
    first = season.go(TODAY)
    other = first.task("overseed")
    assert other is not None
    season.log("moved", task="topdress.1", to=season.day("topdress.1") + timedelta(days=14))
    season.go(TODAY)
    season.log("moved", task="soil_test", to=season.day("soil_test") + timedelta(days=7))
    held = season.go(TODAY).task("soil_test")
    season.log("undo", undoes=1)
    plan = season.go(TODAY)
    assert plan.task("soil_test") == held
    again, before = plan.task("topdress.1"), first.task("topdress.1")
    assert again is not None and before is not None and again.start == before.start


def test_only_the_last_plans_are_remembered() -> None:
    """And a plan of which nothing new was written is no other."""
    season = begun(brief_of())
    for number in range(REMEMBERED + 2):
        to = season.day("soil_test") + timedelta(days=1)
        season.log("moved", task="soil_test", to=to + timedelta(days=7 * (number % 2)))
        season.go(TODAY)
    known = [one.entries for one in season.plan.days_before]
    assert len(known) == REMEMBERED and known == sorted(set(known))
    assert known[-1] == len(season.journal) - 1
