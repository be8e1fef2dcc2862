"""No day holds more work than its hours, as far as anything can be moved; else it is told."""

from collections import defaultdict
from datetime import date
from typing import Any

import pytest

from planning import plan_of
from tiers import sampled
from told import all_told
from turfplan.records.plan import Plan

PEOPLE = {"work": {"people": 1, "hours_per_day": 6}}
LYON = {"postal_code": None, "latitude": 45.76, "longitude": 4.84, "country": "FR"}
LAWNS: dict[str, dict[str, Any]] = {
    "bare ground": {
        "lawn": {"condition": "bare", "area": "600 m2"},
        "place": LYON,
        "leveling": {"depth": "40 mm"},
    },
    "two passes": {
        "lawn": {"grass": "bermuda_common", "area": "4500 ft2"},
        "place": {"postal_code": "30606"},
    },
    "overseeded": {"lawn": {"area": "3500 ft2"}},
    "renovated": {"seeding": {"intent": "renovate"}},
    "hollows": {"leveling": {"lows": [{"depth": "3 in", "share": 0.05}]}},
    "thatch": {
        "lawn": {"grass": "bermuda_common", "thatch": "0.6 in", "condition": "dense"},
        "place": {"postal_code": "30606"},
        "leveling": {"depth": "1 in"},
        "seeding": {"intent": "none"},
    },
}


def hours_by_day(plan: Plan) -> dict[date, float]:
    """The hours of work on the first and the last day of every job."""
    hours: dict[date, float] = defaultdict(float)
    for task in plan.tasks:
        if task.series is None:
            for day in {task.start, task.end}:
                hours[day] += task.person_hours / task.duration_days
    return hours


@pytest.mark.parametrize("lawn", sampled(LAWNS, "bare ground", "two passes"))
def test_one_person_is_asked_for_no_more_hours_than_a_day_has(lawn: str) -> None:
    """What can wait leaves a day that is full: looks, deliveries, fittings, mowing."""
    plan = plan_of(LAWNS[lawn], PEOPLE, options=False)
    full = {day: hours for day, hours in hours_by_day(plan).items() if hours > 6.3}
    assert plan.conflict is None and len(full) <= 1
    said = any("the work comes to" in caution for caution in all_told(plan.cautions))
    assert said == bool(full), "a day from which nothing can be moved is told"


def test_a_day_that_stays_too_full_is_told() -> None:
    """Where nothing can be moved the day is named, with the hours it takes and those there are."""
    few = {"work": {"people": 1, "hours_per_day": 3}}
    bare = {"lawn": {"condition": "bare"}, "leveling": {"depth": "2 in"}}
    plan = plan_of(bare, {"seeding": {"intent": "renovate"}}, few, options=False)
    full = [day for day, hours in hours_by_day(plan).items() if hours > 3.25]
    told = [c for c in all_told(plan.cautions) if "the work comes to" in c and "3 are at hand" in c]
    assert full and len(told) == len(full)
