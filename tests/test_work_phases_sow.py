"""What is said of sowing."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of, first, plan_of
from test_work_campaigns import setting_of
from test_work_season import drafted
from told import told
from turfplan.phrases import slopes
from turfplan.phrases import sow as phrases
from turfplan.work.campaigns import campaigns
from turfplan.work.phases.sow import _deadline, _form, nothing_sown, sow, sown_share


@pytest.mark.parametrize(
    ("grass", "intent", "operation", "spreads"),
    [
        ("kentucky_bluegrass", "overseed", "overseed", True),
        ("kentucky_bluegrass", "renovate", "seed", False),
        ("tall_fescue", "overseed", "overseed", False),
    ],
)
def test_gaps_are_filled_by_a_grass_that_spreads(
    grass: str, intent: str, operation: str, spreads: bool
) -> None:
    """It is told where seed goes between plants, not where the ground is bare."""
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": "55406"},
            "seeding": {"intent": intent},
        }
    )
    assert ("fills gaps by itself" in told(first(plan, operation).why)) == spreads


HOSE: dict[str, Any] = {"application_rate": None, "possible": True}


def test_too_little_sun_is_why_nothing_is_sown() -> None:
    """Told where it holds the seed back; nothing is told where it goes in, or was not asked for."""
    dark = setting_of(brief_of({"site": {"sun_hours": 3}}))
    assert dark.sowing.refused is not None and nothing_sown(dark) == (dark.sowing.refused,)
    assert nothing_sown(setting_of(brief_of())) == ()
    unasked = {"site": {"sun_hours": 3}, "seeding": {"intent": "none"}}
    assert nothing_sown(setting_of(brief_of(unasked))) == ()


@pytest.mark.parametrize(
    ("slope", "covered", "pegged"),
    [
        (None, False, False),
        (7, False, False),
        (8, True, False),
        (14, True, False),
        (15, True, True),
    ],
)
def test_seed_on_a_slope_is_covered_and_pegged(
    slope: float | None, *, covered: bool, pegged: bool
) -> None:
    """With straw from 8 % on, with a mat that is pegged down from 15 % on."""
    _, _, drafts = drafted({"site": {"slope_percent": slope}})
    assert ("cover" in drafts) is covered
    if covered:
        assert (drafts["cover"].how == (slopes.pegged_mat(),)) is pegged


@pytest.mark.parametrize(
    ("water", "patches"), [({}, False), (HOSE, True), ({**HOSE, "timer": True}, True)]
)
def test_patches_are_what_one_hose_has_to_wet(water: dict[str, Any], *, patches: bool) -> None:
    """Where sprinklers stand the whole lawn is watered; a hose goes to the patches alone."""
    lawn = {"area": "2000 ft2", "condition": "patchy"}
    changes = {"water": water, "seeding": {"intent": "patch"}, "lawn": lawn}
    setting = setting_of(brief_of(changes))
    sowing = sow(setting, campaigns(setting)[0][0])[0]
    assert sowing.sown_share == (setting.book.si("seeding.patch_share") if patches else 1.0)


@pytest.mark.parametrize(
    ("area", "condition", "flow", "share"),
    [(800, "bare", "15 gpm", 1.0), (1600, "thin", "8 gpm", 1.0), (1600, "bare", "30 gpm", 1.0)],
)
def test_ground_of_which_nobody_said_that_it_slopes_is_level(
    area: int, condition: str, flow: str, share: float
) -> None:
    """One hose keeps as much clay wet as of level ground: on a slope of one in a hundred water
    would run off sooner, and less of it could be sown.
    """
    lawn = {"area": f"{area} ft2", "soil": "clay", "condition": condition}
    intent = "renovate" if condition == "bare" else "overseed"
    changes: dict[str, Any] = {
        "lawn": lawn,
        "water": {**HOSE, "hours_per_day": 2, "flow": flow},
        "seeding": {"intent": intent},
        "leveling": {"depth": "0 in"},
    }
    shares = []
    for slope in (None, 0, 1):
        setting = setting_of(brief_of(changes, {"site": {"slope_percent": slope}}))
        window = campaigns(setting)[0][0].sow_window
        assert window is not None
        shares.append(sown_share(setting, window))
    assert shares[0] == shares[1] == share > shares[2]


def test_what_is_planted_is_plugs_in_turf_and_sod_on_ground() -> None:
    """As far as the grass has them: one that is sold as sprigs alone goes in as sprigs."""
    zoysia = {"lawn": {"grass": "zoysia"}, "place": {"postal_code": "30606"}}
    turf = setting_of(brief_of(zoysia, {"seeding": {"intent": "plant"}}))
    bare = setting_of(
        brief_of(zoysia, {"seeding": {"intent": "plant"}, "lawn": {"condition": "bare"}})
    )
    assert (_form(turf), _form(bare)) == ("plugs", "sod")
    fescue = setting_of(brief_of({"seeding": {"intent": "plant"}}))
    assert _form(fescue) == "sod"
    grass = turf.sowing.grass.model_copy(update={"plantable": ("sprigs", "plugs")})
    sprigs = replace(bare, sowing=replace(bare.sowing, grass=grass))
    assert _form(sprigs) == "sprigs"


def test_what_is_left_after_the_last_safe_day_is_told() -> None:
    """Dormant seed where winters let it rest, else spring; after spring late summer; for warm
    grass and plants another year.
    """
    setting = setting_of(brief_of())
    autumn, spring = (
        next(w for w in setting.open("overseed") if w.season == season)
        for season in ("autumn", "spring")
    )
    assert setting.open("dormant_seed")
    assert _deadline(setting, autumn)["plan_b"] == phrases.plan_b_dormant()
    assert _deadline(setting, spring)["plan_b"] == phrases.plan_b_late_summer()
    others = tuple(w for w in setting.openings.windows if w.operation != "dormant_seed")
    mild = replace(setting, openings=replace(setting.openings, windows=others))
    assert _deadline(mild, autumn)["plan_b"] == phrases.plan_b_spring()
    planted = replace(autumn, operation="plant")
    assert _deadline(setting, planted)["plan_b"] == phrases.plan_b_next_year()
