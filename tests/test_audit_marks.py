"""Marks lie on every day of work in the ground, of a job of many days as of a short one."""

from datetime import timedelta
from functools import cache
from itertools import pairwise

import pytest

from broken_plans import Made
from planning import EXAMPLES, brief_of, plan_brief
from turfplan.app.inputs import input_of
from turfplan.audit import audit_plan


@cache
def long_job() -> Made:
    """A slope that is made anew in strips, one on each day of a few week-ends."""
    brief = brief_of(
        {
            "lawn": {"area": "340 m2", "thatch": "20 mm", "condition": "thin", "thin_share": 0.3},
            "leveling": {"depth": "8 mm"},
            "seeding": {"intent": "renovate"},
            "site": {"slope_percent": 12},
            "work": {"people": 1},
        }
    )
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


def _kinds(made: Made) -> set[str]:
    return {fault.kind for fault in audit_plan(made.plan, made.brief, made.book)}


def test_a_long_job_asks_for_its_marks_again() -> None:
    """Before the first request runs out; without the second, or with it too late, the judge
    refuses the plan."""
    plan = long_job()
    job = plan.first("till")
    requests = [t for t in plan.plan.tasks if t.operation == "locate_utilities"]
    later = [t for t in requests if t.start > job.start]
    assert (job.end - job.start).days > 16 and later, requests
    assert _kinds(plan) == set()
    assert "marks_run_out" in _kinds(plan.without(*(t.id for t in later)))
    assert "marks_run_out" in _kinds(plan.shifted(later[0].id, (job.end - later[0].start).days - 1))
    told = {said.key for t in later for said in [t.why] if hasattr(said, "key")}
    assert told == {"prepare.marks.renewed"}


@pytest.mark.parametrize(
    ("postal_code", "grass"), [("77002", "zoysia"), ("55401", "kentucky_bluegrass")]
)
def test_marks_that_run_out_in_two_weeks_are_asked_for_no_oftener_than_needed(
    postal_code: str, grass: str
) -> None:
    """In Houston and Minneapolis, for tines that take weeks: the last request is none too many, and
    none follows another within days."""
    brief = brief_of(
        {
            "place": {"postal_code": postal_code, "country": "US"},
            "lawn": {"grass": grass, "area": "1500 m2"},
            "leveling": {"depth": "12 mm"},
            "seeding": {"intent": "none"},
            "work": {"people": 1},
        }
    )
    made = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    cores = [t for t in made.plan.tasks if t.plays("coring")]
    for job in cores:
        asked = sorted(
            t.start
            for t in made.plan.tasks
            if t.operation == "locate_utilities" and abs((t.start - job.start).days) < 60
        )
        assert (job.end - job.start).days >= 14 and asked[-2] + timedelta(14) < job.end, asked
        assert all((b - a).days >= 6 for a, b in pairwise(asked)), asked
    assert cores and _kinds(made) == set()
