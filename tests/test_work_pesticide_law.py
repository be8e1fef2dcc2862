"""Where the law closes lawns to weed killers the plan counts on none, and says so."""

from typing import Any

import pytest

from planning import kind, plan_of
from told import told

CLOSED = {
    "Nova Scotia": {"latitude": 44.65, "longitude": -63.6, "country": "CA", "state": "NS"},
    "Ontario": {"latitude": 43.7, "longitude": -79.4, "country": "CA", "state": "ON"},
    "Quebec": {"latitude": 45.5, "longitude": -73.6, "country": "CA", "state": "QC"},
    "France": {"latitude": 45.75, "longitude": 4.85, "country": "FR"},
}
OPEN = {"latitude": 49.9, "longitude": -97.1, "country": "CA", "state": "MB"}


def lawn(place: dict[str, Any]) -> dict[str, Any]:
    """An overseeded lawn in a place that is not told by a postal code."""
    return {"place": {"postal_code": None, **place}, "leveling": {"depth": "0.25 in"}}


@pytest.mark.full
@pytest.mark.parametrize("name", CLOSED)
def test_no_preventer_where_lawns_are_closed_to_it(name: str) -> None:
    """Nor does the plan run to the spring in which one would be laid; the law is told with its
    source."""
    plan = plan_of(lawn(CLOSED[name]), {"site": {"weeds_percent": 40}})
    assert not kind(plan, "preemergent")
    law = [line for line in plan.cautions if "closed to killers" in told(line)]
    assert len(law) == 1
    assert next(note for note in plan.ranked if note.text == law[0]).rank == "law"
    for task in kind(plan, "weed_control"):
        assert any("closed to killers" in told(line) for line in task.cautions)
    assert kind(plan, "weed_control")
    assert max(task.start for task in plan.tasks) > plan.horizon.end.replace(
        year=plan.horizon.end.year - 1
    )


def test_where_no_law_is_known_the_province_is_asked() -> None:
    """A preventer may stand in the plan there, with the question."""
    leveled = {"lawn": {"grass": "kentucky_bluegrass"}, "seeding": {"intent": "none"}}
    plan = plan_of(lawn(OPEN), leveled)
    (preventer,) = kind(plan, "preemergent")
    assert any("provinces and many towns" in told(line) for line in preventer.cautions)
    assert not any("closed to killers" in told(line) for line in plan.cautions)
    assert not any("provinces" in told(line) for line in plan_of().cautions)
