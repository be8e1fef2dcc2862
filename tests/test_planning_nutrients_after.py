"""What a soil test asks for after the fertilizer was fetched has a trip of its own, once."""

from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun
from planning import EXAMPLES, brief_of
from turfplan.app.inputs import input_of

BEGIN = date(2027, 2, 1)
TRIP = "collect.potash"
LAWNS: dict[str, dict[str, Any]] = {
    "fescue in spring": {"leveling": {"depth": "0.5 in"}},
    "bluegrass in autumn": {
        "lawn": {"grass": "kentucky_bluegrass"},
        "leveling": {"depth": "0 in"},
        "season": {"from": date(2027, 8, 1)},
    },
}


def with_reading(lawn: dict[str, Any], potassium: str, on: date) -> dict[str, Any]:
    """A lawn with the reading of a laboratory."""
    return lawn | {"soil_test": {"on": on, "ph": 6.5, "phosphorus": "high", "potassium": potassium}}


def fetched(lawn: dict[str, Any]) -> Walk:
    """A season up to the day after its fertilizer was fetched."""
    season = begun(brief_of(lawn), BEGIN)
    day = season.day("collect.fertilizer")
    season.done_until(day + timedelta(1))
    season.go(day + timedelta(1))
    return season


@pytest.mark.parametrize("name", LAWNS)
def test_potash_that_is_asked_for_later_is_fetched_once(name: str) -> None:
    """Before the first feeding that takes it, and by itself; a later plan keeps the trip, and
    nothing is bought once it is made."""
    season = fetched(LAWNS[name])
    assert season.plan.task(TRIP) is None
    today = season.plan.now.date() + timedelta(1)
    season.given = input_of(brief_of(with_reading(LAWNS[name], "low", today)), EXAMPLES)
    season.go(today)
    for _ in range(2):
        lines = [line for line in season.plan.order if line.item in ("potash", "fertilizer")]
        assert lines and {line.item for line in lines} == {"potash"}
        assert {line.tasks for line in lines} == {(TRIP,)}
        takes = [
            task.start
            for task in season.plan.tasks
            if any(a.item == "potash to add in all" for a in task.amounts)
        ]
        assert today <= season.day(TRIP) <= min(takes)
        assert season.plan.task("collect.phosphate") is None
        season.log("rained_off", on=today)
        season.go(today)
    season.log("done", task=TRIP, on=season.day(TRIP))
    plan = season.go(season.day(TRIP))
    assert not [line for line in plan.order if line.item in ("potash", "fertilizer")]


def test_soil_that_has_enough_asks_for_no_trip() -> None:
    """Nor does potash that was known when the fertilizer was fetched."""
    season = fetched(LAWNS["fescue in spring"])
    today = season.plan.now.date() + timedelta(1)
    season.given = input_of(
        brief_of(with_reading(LAWNS["fescue in spring"], "high", today)), EXAMPLES
    )
    assert season.go(today).task(TRIP) is None
    known = fetched(with_reading(LAWNS["fescue in spring"], "low", BEGIN))
    known.log("measured", quantity="rain", value=12.0, on=known.plan.now.date())
    assert known.go(known.plan.now.date()).task(TRIP) is None
