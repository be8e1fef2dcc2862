"""A campaign without days says what stood in its way, and one that waits why."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import brief_of, first, plan_of
from test_work_campaigns import setting_of
from told import told
from turfplan.message import as_written
from turfplan.planning.candidates import Candidate, _dated, draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import campaigns

NEVER = Allowed(
    "never", "topdress.1", DaySet(()), Strength.HARD, Reason("test", as_written("Never."))
)


@pytest.mark.parametrize(
    ("days", "strips", "is_long"),
    [(2, (), True), (3, (), True), (3, ("topdress.1",), False)],
)
def test_only_a_pass_of_days_that_is_not_in_strips_is_too_long(
    days: int, strips: tuple[str, ...], *, is_long: bool
) -> None:
    """Then it is tried strip by strip; one that is in strips already has no other way."""
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
    drafts = tuple(
        replace(d, duration_days=days, strips=strips) if d.operation == "topdress" else d
        for d in drafted.season.drafts
    )
    season = replace(
        drafted.season, drafts=drafts, constraints=(*drafted.season.constraints, NEVER)
    )
    found = _dated(setting, replace(drafted, season=season))
    assert not isinstance(found, Candidate)
    assert found.long_pass is is_long and found.conflict


MADISON = {
    "place": {"postal_code": "53703"},
    "lawn": {"grass": "kentucky_bluegrass"},
    "leveling": None,
}


@pytest.mark.parametrize("year", range(2026, 2033))
def test_a_starter_in_spring_moves_no_dormant_seed_by_a_year(year: int) -> None:
    """Whatever the weekday on which the seed wakes, it goes in in the coming winter."""
    begins = {"season": {"from": date(year, 2, 10)}, "seeding": {"intent": "dormant"}}
    plan = plan_of(MADISON, begins, now=datetime(year, 2, 10, 12, tzinfo=UTC))
    assert first(plan, "dormant_seed").start <= date(year + 1, 1, 31)


def test_a_season_missed_says_why_the_work_lies_a_year_ahead() -> None:
    """In October the days of autumn's seed are over, and the plan names the last of them; a plan
    that waits for its right season says nothing of the one before."""
    begins = {"season": {"from": date(2027, 10, 20)}}
    plan = plan_of(MADISON, begins, now=datetime(2027, 10, 20, 12, tzinfo=UTC))
    assert first(plan, "overseed").start.year == 2028
    (said,) = [told(why) for why in plan.campaign_reason if "year sooner" in told(why)]
    assert "2027 was Thu, Sep 16, 2027" in said
    assert not [why for why in plan_of(MADISON).campaign_reason if "sooner" in told(why)]


def test_a_look_that_comes_too_late_is_named_as_the_reason() -> None:
    """Where a count of grubs in late September leaves no days to sow, that is said."""
    there = {"place": {"postal_code": "43215"}, "site": {"thin_cause": ["grubs"]}}
    begins = {"season": {"from": date(2026, 9, 20)}}
    plan = plan_of(MADISON, there, begins, now=datetime(2026, 9, 20, 12, tzinfo=UTC))
    assert first(plan, "overseed").start.year == 2027
    (said,) = [told(why) for why in plan.campaign_reason if "year sooner" in told(why)]
    assert "The cause comes first" in said


TAMPA = {
    "place": {"postal_code": "33602", "state": "FL"},
    "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "sod"},
    "site": {"thin_cause": ["insects"]},
    "season": None,
}
BOSTON = {
    "place": {"postal_code": "02134"},
    "lawn": {"grass": "kentucky_bluegrass"},
    "site": {"thin_cause": ["packed"]},
    "season": None,
}


@pytest.mark.parametrize("lawn", [TAMPA, BOSTON])
def test_no_week_of_today_puts_the_work_off_a_year_without_a_word(lawn: dict[str, Any]) -> None:
    """From one week to the next it moves by days, or the plan says why it does not come sooner."""
    before: date | None = None
    for week in range(4):
        now = datetime(2027, 9, 1, 12, tzinfo=UTC) + timedelta(7 * week)
        plan = plan_of(lawn, now=now, options=False)
        main = max(t.start for t in plan.tasks if t.plays("sowing", "planting"))
        told_why = [why for why in plan.campaign_reason if "year sooner" in told(why)]
        assert before is None or (main - before).days < 60 or told_why, (now, main)
        assert (main.year == 2028) == bool(told_why)
        before = main
    assert before is not None and before.year == 2028
