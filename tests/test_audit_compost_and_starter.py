"""The judge goes by the ground that fresh compost lies on: a starter goes beside it where it is
least, and no seed is left to it there."""

from dataclasses import replace
from typing import Any

import pytest

from broken_plans import of_changes
from turfplan.audit import audit_plan
from turfplan.phrases import feeding as of_feeding
from turfplan.records.plan import Plan


def zoned(width_of_deep: str) -> dict[str, Any]:
    """A quarter inch in front, an inch on a zone at the back that alone gets the last passes."""
    front = {"kind": "rectangle", "name": "front", "length": "60 ft", "width": "50 ft"}
    back = {**front, "name": "back", "width": width_of_deep, "depth": "1 in"}
    return {
        "lawn": {"area": None, "shape": [{**front, "depth": "0.25 in"}, back]},
        "leveling": {"depth": None},
    }


def without_starter(plan: Plan) -> Plan:
    """The plan as one that leaves its seed to compost."""
    return plan.model_copy(
        update={
            "tasks": tuple(task for task in plan.tasks if not task.plays("starter")),
            "campaign_reason": (*plan.campaign_reason, of_feeding.starter_compost_feeds()),
        }
    )


@pytest.mark.parametrize(("width", "starts"), [("30 ft", True), ("50 ft", True), ("950 ft", False)])
def test_seed_is_left_to_compost_only_where_the_last_passes_lie_under_it(
    width: str, starts: bool
) -> None:
    """Three eighths, half and nearly all of the lawn are filled shortly before the seed."""
    made = of_changes(zoned(width))
    assert any(task.plays("starter") for task in made.plan.tasks) is starts
    assert not audit_plan(made.plan, made.brief, made.book)


def test_a_plan_that_leaves_seed_to_compost_of_another_zone_is_refused() -> None:
    """Only the deep zone, three eighths of the lawn, is filled in the season of the seed."""
    made = of_changes(zoned("30 ft"))
    left = replace(made, plan=without_starter(made.plan))
    kinds = {fault.kind for fault in audit_plan(left.plan, left.brief, left.book)}
    assert "compost_feeds_other_ground" in kinds
