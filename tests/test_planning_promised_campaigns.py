"""What a plan promises of campaigns that it did not take is kept by a brief that asks for them."""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import POSSIBLE, TODAY, brief_of, example_brief, merged, plan_brief
from test_planning_random import HOMES
from turfplan.message import as_written, said
from turfplan.phrases import campaign_choice as phrases
from turfplan.planning.candidates import Comparison
from turfplan.planning.changed_briefs import with_part
from turfplan.planning.promised_campaigns import with_kept_promises
from turfplan.planning.ways_out import MainWork
from turfplan.records.brief import Brief, parse_brief
from turfplan.records.plan import Plan

PROMISE = phrases.whole_later(campaign="").key
# The valley's rain is doubtful, its summer short: a part of the fill is left out.
FAR_NORTH: dict[str, Any] = {
    "lawn": {
        "area": "250 m2",
        "grass": [
            {"species": "fine_fescue", "share": 0.6},
            {"species": "kentucky_bluegrass", "share": 0.4},
        ],
        "soil": "silt loam",
        "thatch": None,
        "condition": "patchy",
        "thin_share": 0.2,
    },
    "place": {"postal_code": None, "town": "Akureyri", "country": "IS"},
    "leveling": {"depth": "5 mm", "lows": [{"depth": "40 mm", "share": 0.1}]},
    "seeding": {"intent": "patch"},
    "water": {"application_rate": None},
    "site": {"bump_cause": "frost"},
    "season": {"from": date(2027, 4, 1)},
    "work": {"people": 1, "hours_per_day": 5},
}

# Grasses that nobody sells as seed.
UNSOWN = ("bermuda_hybrid", "seashore_paspalum", "st_augustine")


def promised(plan: Plan) -> set[str]:
    """The campaigns of which a plan says that they would do the whole fill."""
    reasons = (said(rejected.reason) for rejected in plan.rejected)
    return {str(dict(why.values)["campaign"]) for why in reasons if why.key == PROMISE}


def leaves_some(plan: Plan) -> bool:
    """Whether a plan cannot be done, or leaves a part of the fill."""
    keys = {said(caution).key for caution in plan.cautions}
    return plan.conflict is not None or any(key.startswith("handover.undone") for key in keys)


def broken_promises(brief: Brief, now: datetime) -> list[str]:
    """The promises of a plan that are not kept where they are followed."""
    broken = []
    for name in sorted(promised(plan_brief(brief, now=now))):
        plan = plan_brief(with_part(brief, "season", campaign=name), now=now)
        if leaves_some(plan) or not any(task.plays("spreading") for task in plan.tasks):
            broken.append(name)
    return broken


def test_only_campaigns_that_are_placed_in_full_promise_the_whole_fill() -> None:
    """Compared without their days, spring, dormant seed and two sessions would leave nothing."""
    april = datetime(2027, 4, 1, 12, tzinfo=UTC)
    brief = brief_of(FAR_NORTH)
    plan = plan_brief(brief, now=april)
    assert leaves_some(plan) and plan.conflict is None
    keys = [said(rejected.reason).key for rejected in plan.rejected]
    assert phrases.not_whole_either().key in keys
    assert broken_promises(brief, april) == []


def test_a_promise_is_followed_before_it_is_told() -> None:
    """What gives no day, or leaves some of the fill, is named no more; each is followed once."""
    name, other = as_written("spring 2027"), as_written("autumn 2028")
    told = [(name, phrases.whole_later(campaign="spring"))]
    told += [(other, phrases.whole_later(campaign="autumn")), (other, as_written("dear"))]
    comparison = Comparison(None, tuple(told), whole=("spring", "autumn", "dormant"))
    followed: list[str] = []

    def tried(brief: Brief) -> MainWork | None:
        followed.append(brief.season.campaign)
        done = brief.season.campaign == "autumn"
        day = TODAY.date()
        return MainWork(other, day, day, undone=not done)

    kept = with_kept_promises(comparison, brief_of(), tried)
    assert sorted(followed) == ["autumn", "spring"], "what nobody promises is not tried"
    assert kept.rejected == ((name, phrases.not_whole_either()), *comparison.rejected[1:])
    assert kept.whole == ("autumn", "dormant")
    assert with_kept_promises(comparison, brief_of(), lambda _: None).whole == ("dormant",)
    none = replace(comparison, rejected=())
    assert with_kept_promises(none, brief_of(), lambda _: None) == none


@pytest.mark.full
@pytest.mark.parametrize("name", POSSIBLE)
def test_promises_of_the_examples_are_kept(name: str) -> None:
    """Each one followed, as the season book tells its reader to."""
    assert broken_promises(example_brief(name), TODAY) == []


@pytest.mark.full
@pytest.mark.parametrize("grass", sorted(HOMES))
@pytest.mark.parametrize(
    "leveling",
    [
        {"depth": "0.75 in"},
        {"depth": "0.25 in", "lows": [{"depth": "1.5 in", "share": 0.1}]},
    ],
)
def test_promises_of_lawns_everywhere_are_kept(grass: str, leveling: dict[str, Any]) -> None:
    """North and south, by plain depth and with hollows: a short season leaves some of the fill."""
    for home in HOMES[grass]:
        data = merged({"lawn": {"grass": grass}, "place": home, "leveling": leveling})
        if "latitude" in home:
            data["place"].pop("postal_code", None)
        data["work"] = {"people": 1, "hours_per_day": 5}
        data["seeding"] = {"intent": "none" if grass in UNSOWN else "overseed"}
        assert broken_promises(parse_brief(data), TODAY) == []
