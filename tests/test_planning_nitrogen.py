"""The compost of a campaign, and the account of nitrogen over its year."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, plan_brief
from test_nitrogen_account import from_compost
from test_work_campaigns import setting_of
from turfplan.planning.feeding import _compost, feeder_for
from turfplan.work.campaigns import campaigns
from turfplan.work.feeding.stages import WorkedDays
from turfplan.work.mix_choice import choose_mix


def test_compost_is_its_share_of_each_pass() -> None:
    """A quarter of the mix is a quarter of the depth: on the best days of the sessions, then on
    those of the passes themselves; none where the mix holds none.
    """
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    campaign, mix = campaigns(setting)[0][0], choose_mix(setting)
    assert mix.compost_share == 0.25
    rough = _compost(campaign, mix, None)
    passes = [(s.window.best, p.depth_mm) for s in campaign.sessions for p in s.passes]
    assert rough == [(day, depth / 4) for day, depth in passes]
    worked = WorkedDays(((date(2027, 4, 10), 8.0), (date(2027, 9, 4), 6.0)))
    assert _compost(campaign, mix, worked) == [(date(2027, 4, 10), 2.0), (date(2027, 9, 4), 1.5)]
    assert _compost(campaign, replace(mix, parts={"sand": 1.0}), worked) == []


def test_the_account_gives_the_credit_of_the_compost_over_its_year() -> None:
    """All of it where the account goes on for a year after the pass; nothing without compost."""
    brief = brief_of({"leveling": {"depth": "0.25 in"}, "season": {"from": date(2027, 8, 1)}})
    plan = plan_brief(brief, options=False)
    (ledger,) = (one for one in plan.ledgers if one.item == "nitrogen")
    credits = from_compost(plan, brief)
    over = ledger.weeks[-1].end
    assert credits and all(day + timedelta(365) <= over for day, _ in credits)
    given = sum(week.entries["compost"] for week in ledger.weeks)
    assert given == pytest.approx(sum(rate for _, rate in credits), rel=0.01)
    sand = brief_of({"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}})
    (bare,) = (o for o in plan_brief(sand, options=False).ledgers if o.item == "nitrogen")
    assert all(week.entries["compost"] == 0 for week in bare.weeks)


SAND: dict[str, Any] = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
RYE: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed"},
}


@pytest.mark.parametrize(
    ("changes", "starts"),
    [
        (SAND, True),
        ({}, False),
        ({**SAND, "seeding": {"intent": "none"}}, False),
        (RYE, False),
    ],
    ids=["seed without compost", "with compost", "unsown", "winter cover"],
)
def test_a_starter_goes_with_seed_that_no_compost_feeds(
    changes: dict[str, Any], *, starts: bool
) -> None:
    """Ryegrass of one winter over a lawn is fed in its own way."""
    setting = setting_of(brief_of(changes))
    campaign = campaigns(setting)[0][0]
    found = feeder_for(setting)(setting, campaign, choose_mix(setting))
    assert (found.starter is not None) is starts
