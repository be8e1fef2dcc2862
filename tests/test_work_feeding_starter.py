"""A starter keeps to days open to nitrogen, or is left out where none is near the seed."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from test_seasons import Season
from told import all_told
from turfplan.records.plan import Plan

SAND: dict[str, Any] = {"leveling": {"material": "topsoil_sand"}}
EVERY_DAY: dict[str, Any] = {
    "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}
}
# The plain lawn is sown on Sunday 5 September, within a window from 19 August to 28 September.
SOWN = date(2027, 9, 5)


def closed(first_day: str, last_day: str) -> dict[str, Any]:
    """A brief's own blackout."""
    return {"local": {"nitrogen_blackouts": [{"from": first_day, "to": last_day}]}}


def why_starter(plan: Plan) -> str:
    """What the plan says of its starter."""
    return next(line for line in all_told(plan.campaign_reason) if "tarter" in line)


@pytest.mark.parametrize(
    ("span", "given"),
    [
        (("09-12", "12-31"), True),
        (("08-20", "09-04"), True),
        (("09-01", "09-30"), False),
        (("08-28", "09-06"), False),
        (("09-05", "09-09"), False),
        (("08-01", "10-30"), False),
    ],
)
def test_the_seed_keeps_its_day_whatever_becomes_of_the_starter(
    span: tuple[str, str], *, given: bool
) -> None:
    """With the seed, or within three days of it; else none, and the plan says why."""
    plan = plan_of(SAND, closed(*span))
    assert first(plan, "overseed").start == SOWN
    starters = kind(plan, "starter_feed")
    assert [t.start for t in starters] == ([SOWN] if given else [])
    assert ("would fall into the blackout (no nitrogen from" in why_starter(plan)) is not given
    # What feeds nobody is not said to feed.
    told = " ".join(all_told((*plan.assumptions, *plan.cautions)))
    assert given or "the starter feeds the seedlings" not in told


def test_a_starter_waits_for_the_end_of_a_blackout_that_is_near() -> None:
    """Where people work on any day it follows the seed by two days, when the law opens."""
    open_plan = plan_of(SAND, EVERY_DAY)
    sown = first(open_plan, "overseed").start
    assert first(open_plan, "starter_feed").start == sown
    last = sown + timedelta(1)
    plan = plan_of(SAND, EVERY_DAY, closed(f"{sown - timedelta(5):%m-%d}", f"{last:%m-%d}"))
    starter = first(plan, "starter_feed")
    assert first(plan, "overseed").start == sown
    assert starter.start == starter.window.start == last + timedelta(1)
    assert any("open to nitrogen" in line for line in all_told(starter.not_earlier))


def test_seed_moved_by_hand_into_a_blackout_loses_its_starter() -> None:
    """The owner's day stands, the starter leaves the plan, and the plan is sound."""
    span = closed("09-12", "12-31")
    season = Season(brief_of(SAND, span))
    season.make(date(2027, 2, 1))
    assert season.day("starter_feed") == SOWN
    season.log("moved", task="overseed", to=SOWN + timedelta(14))
    season.make(date(2027, 2, 2))
    assert season.day("overseed") == SOWN + timedelta(14)
    starter = season.plan.task("starter_feed")
    assert starter is not None and starter.status == "CANCELLED"
    assert "would fall into the blackout" in why_starter(season.plan)


def test_a_starter_moved_by_hand_stays_where_its_owner_wants_it() -> None:
    """The plan keeps the day and warns of it."""
    season = Season(brief_of(SAND, closed("09-07", "12-31")))
    season.make(date(2027, 2, 1))
    season.log("moved", task="starter_feed", to=SOWN + timedelta(2))
    season.make(date(2027, 2, 2))
    assert season.day("starter_feed") == SOWN + timedelta(2)
    assert any("no nitrogen from Sep 7" in line for line in all_told(season.plan.warnings))
