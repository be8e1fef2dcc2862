"""Campaigns: what is ruled out by counting is what the network cannot date."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import EXAMPLES, TODAY, brief_of, example_brief, first, plan_brief, plan_of
from turfplan.app.inputs import input_of
from turfplan.network import Conflict
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import date_season
from turfplan.planning.window_dates import with_windows
from turfplan.records.brief import Brief
from turfplan.records.constraints import Strength
from turfplan.work.assumptions import resolve
from turfplan.work.campaigns import campaigns, crowded
from turfplan.work.lawn import ResolvedLawn

LAWNS: dict[str, dict[str, Any]] = {
    "week-ends": {"leveling": {"depth": "1.5 in"}},
    "Sundays alone": {"leveling": {"depth": "1 in"}, "calendar": {"weekdays": ["sun"]}},
    "bare": {
        "leveling": {"depth": "2 in"},
        "lawn": {"condition": "bare"},
        "seeding": {"intent": "renovate"},
    },
    "north": {
        "place": {"postal_code": "55401"},
        "lawn": {"grass": "kentucky_bluegrass"},
        "leveling": {"depth": "1 in"},
    },
    "warm": {
        "place": {"postal_code": "30301"},
        "lawn": {"grass": "bermuda_common"},
        "leveling": {"depth": "1.5 in"},
        "seeding": {"intent": "none"},
    },
}


def setting_of(brief: Brief) -> ResolvedLawn:
    """The setting of a brief as the planner resolves it."""
    given = input_of(brief, EXAMPLES)
    ground = given.ground
    return with_windows(resolve(brief, given.book, given.climate, TODAY.date(), ground=ground))


def dated(setting: ResolvedLawn) -> list[tuple[bool, bool]]:
    """For each campaign: whether counting rules it out, and whether the network can date it by all
    strong rules.
    """
    found = []
    for campaign in campaigns(setting)[0]:
        drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        result = date_season(setting, drafted.season, keep=Strength.STRONG)
        found.append((crowded(setting, campaign) is not None, not isinstance(result, Conflict)))
    return found


@pytest.mark.parametrize(
    "name", ["surveyed-metric", "surveyed-us", "british-metric", "deep-two-inches", *LAWNS]
)
def test_a_campaign_ruled_out_by_counting_cannot_be_dated(name: str) -> None:
    """Counting the passes that the days of a session hold never rules out what the network could
    have dated.
    """
    setting = setting_of(brief_of(LAWNS[name]) if name in LAWNS else example_brief(name))
    answers = dated(setting)
    assert answers
    assert not any(crowded and possible for crowded, possible in answers)


def test_counting_sees_most_of_what_cannot_be_dated() -> None:
    """Counting is worth its while: in the surveyed lawn it finds every campaign that cannot be
    dated.
    """
    answers = dated(setting_of(example_brief("surveyed-metric")))
    undatable = [crowded for crowded, possible in answers if not possible]
    assert len(undatable) >= 4 and all(undatable)


def test_one_pass_more_than_the_days_hold_is_too_many() -> None:
    """As many passes as the days hold are not too many; one more is, and both numbers are told."""
    setting = setting_of(brief_of(LAWNS["week-ends"]))
    campaign = next(c for c in campaigns(setting)[0] if c.sessions)
    session, fit = campaign.sessions[0], 0
    while True:
        filled = replace(session, passes=session.passes[:1] * (fit + 1))
        if short := crowded(setting, replace(campaign, sessions=(filled,))):
            break
        fit += 1
    assert fit >= 1
    assert short == (filled, fit)


def test_a_crowded_campaign_that_the_brief_insists_on_is_done_in_part() -> None:
    """Asked for one autumn that has not the days for the fill, the plan does what fits, and says
    what it leaves and when that follows.
    """
    brief = example_brief("british-metric")
    brief = brief.model_copy(
        update={
            "season": brief.season.model_copy(update={"campaign": "autumn"}),
            "leveling": brief.leveling.model_copy(update={"depth_mm": 9.0}),
        }
    )
    plan = plan_brief(brief, options=False)
    assert plan.conflict is None and plan.campaign == "autumn"
    assert any("is left out" in str(n.text) for n in plan.ranked if n.told_first)
    assert [item.operation for item in plan.handover] == ["topdress"]


def test_spring_seed_that_only_the_end_of_the_plan_forces_is_said() -> None:
    """A deep fill in a cool summer ends with seed in June where the plan ends in August: it says
    until when it would be September.
    """
    lawn: dict[str, Any] = {
        "place": {"postal_code": None, "latitude": 52.5, "longitude": -1.5, "country": "GB"},
        "leveling": {"depth": "1.5 in"},
        "lawn": {"grass": "perennial_ryegrass"},
    }
    plan = plan_of(lawn, {"season": {"until": date(2028, 8, 10)}}, options=False)
    said = next(c.text for c in plan.cautions if "until = " in c.text)
    until = date.fromisoformat(said.split("until = ")[1].split(" ")[0])
    assert first(plan, "overseed").start.month in (5, 6)
    longer = plan_of(lawn, {"season": {"until": until}}, options=False)
    assert first(longer, "overseed").start.month in (8, 9) and not any(
        "until = " in c.text for c in longer.cautions
    )
    assert not any("until = " in c.text for c in plan_of(options=False).cautions)


@pytest.mark.parametrize("name", LAWNS)
def test_a_campaign_is_called_by_its_years(name: str) -> None:
    """One season by the year in which it ends; one of several years by the first and the last."""
    setting = setting_of(brief_of(LAWNS[name]))
    begin = date.fromordinal(setting.first_day)
    found = campaigns(setting)[0]
    for campaign in found:
        windows = [session.window for session in campaign.sessions]
        windows += [campaign.sow_window] if campaign.sow_window is not None else []
        years = [max(window.start, begin).year for window in (windows[0], windows[-1])]
        told = dict(campaign.name.values)
        if campaign.id == "two_years" and years[0] != years[1]:
            assert campaign.name.key == "campaigns.in_years"
            assert [told["first"], told["last"]] == [str(year) for year in years]
        else:
            assert campaign.name.key == "campaigns.in_year"
            assert told["year"] == str(years[1])
    assert any(c.id == "two_years" for c in found) or name in ("bare", "north")


def test_a_campaign_that_is_asked_for_rules_the_others_out() -> None:
    """All are compared unless one is named; then the others are told as not asked for."""
    setting = setting_of(brief_of(LAWNS["north"]))
    ids = {c.id for c in campaigns(setting)[0]}
    assert len(ids) > 1
    for wanted in ids:
        asked = setting_of(brief_of(LAWNS["north"], {"season": {"campaign": wanted}}))
        found, ruled_out = campaigns(asked)
        assert {c.id for c in found} == {wanted}
        assert any(why.key == "campaigns.not_asked" for _, why in ruled_out)
    assert not any(why.key == "campaigns.not_asked" for _, why in campaigns(setting)[1])


def test_winter_cover_is_sown_in_autumn_or_winter() -> None:
    """Of all windows in which seed could go in, and in one of them at least."""
    desert = {
        "lawn": {"grass": "bermuda_common", "condition": "dense"},
        "place": {"postal_code": "85001"},
        "leveling": {"depth": "0 in"},
        "seeding": {"intent": "winter_overseed"},
    }
    found = campaigns(setting_of(brief_of(desert)))[0]
    assert found and {c.id for c in found} == {"winter_cover"}
    windows = [c.sow_window for c in found if c.sow_window is not None]
    assert windows and all(w.season in ("autumn", "winter") for w in windows)
