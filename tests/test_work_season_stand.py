"""The stand has a timeline: what grows on a day follows from the brief and the campaign."""

from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.work.campaigns import Campaign, campaigns
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.season_stand import stand_of
from turfplan.work.stand import Stand, lives, open_ground

RIGHT_AWAY: dict[str, Any] = {"leveling": {"depth": "0 in"}}
HYBRID = {
    "lawn": {"grass": "bermuda_hybrid"},
    "place": {"postal_code": "30301"},
    "seeding": {"intent": "plant", "form": "plugs"},
}
PHOENIX = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "seeding": {"intent": "winter_overseed"},
}

# What a brief describes, with the stages of its stand in order of time.
STAGES: dict[str, tuple[dict[str, Any], list[str]]] = {
    "a dense lawn that is levelled": (
        {
            "lawn": {"condition": "dense"},
            "leveling": {"depth": "0.5 in"},
            "seeding": {"intent": "none"},
        },
        ["turf"],
    ),
    "overseeded": ({}, ["thin_turf", "sown", "seedlings", "established"]),
    "made anew": (
        {"seeding": {"intent": "renovate"}},
        ["thin_turf", "killed", "sown", "seedlings", "established"],
    ),
    "bare ground": (
        {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}},
        ["bare", "sown", "seedlings", "established"],
    ),
    "dormant seed": (
        {"seeding": {"intent": "dormant"}},
        ["thin_turf", "dormant_seed", "seedlings", "established"],
    ),
    "plugs": (HYBRID, ["thin_turf", "laid", "established"]),
    "winter green": (PHOENIX, ["turf", "sown", "seedlings", "second_grass"]),
}


def stand(changes: dict[str, Any]) -> tuple[ResolvedLawn, Campaign, Stand]:
    """A lawn, its first campaign, and the stand of it."""
    setting = setting_of(brief_of(RIGHT_AWAY, changes))
    campaign = campaigns(setting)[0][0]
    return setting, campaign, stand_of(setting, campaign)


@pytest.mark.full
@pytest.mark.parametrize("lawn", STAGES)
def test_the_stages_follow_from_brief_and_campaign(lawn: str) -> None:
    """Each kind of lawn goes through its stages in order, without a gap and without an overlap."""
    changes, stages = STAGES[lawn]
    setting, _, found = stand(changes)
    assert [span.stage for span in found.spans] == stages
    assert found.spans[0].first == setting.first_day and found.spans[-1].last is None
    for before, after in zip(found.spans, found.spans[1:], strict=False):
        assert before.last is not None and before.last + 1 == after.first


def test_a_day_has_one_stage() -> None:
    """The day before the kill is turf, that of the kill is not; before the plan the brief holds."""
    setting, campaign, found = stand({"seeding": {"intent": "renovate"}})
    killed = found.first("killed")
    assert killed is not None and campaign.sow_window is not None
    assert found.on(killed.first - 1).stage == "thin_turf" and lives(found.on(killed.first - 1))
    assert found.on(killed.first).stage == "killed" and open_ground(found.on(killed.first))
    assert found.on(setting.first_day - 30).stage == "thin_turf"
    assert found.on(campaign.sow_window.best.toordinal()).stage == "sown"


def test_grass_lives_on_below_what_is_sown_into_it() -> None:
    """Seed in thin turf has living grass under it, seed on ground without grass has none."""
    over = stand({})[2].first("sown")
    anew = stand({"seeding": {"intent": "renovate"}})[2].first("sown")
    assert over is not None and over.over == "thin_turf" and lives(over)
    assert anew is not None and anew.over is None and not lives(anew)


def test_dormant_seed_waits_for_spring() -> None:
    """Its seedlings begin when it wakes, months after the day on which it was sown."""
    found = stand({"seeding": {"intent": "dormant"}})[2]
    seed, up = found.first("dormant_seed"), found.first("seedlings")
    assert seed is not None and up is not None and up.first - seed.first > 60
