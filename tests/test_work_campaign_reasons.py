"""What is said for and against ways through a season is said where it is true."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import plan_of
from resolved_lawns import lawn
from told import told
from turfplan.work.campaign_reasons import (
    against_campaign,
    heat_of_summer,
    sown_before,
    why_campaign,
)
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn

REYKJAVIK: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass"},
    "place": {"postal_code": None, "latitude": 64.14, "longitude": -21.9, "country": "IS"},
    "leveling": {"depth": "6 mm"},
    "seeding": {"intent": "none"},
}
IRKUTSK: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "area": "600 m2", "condition": "patchy"},
    "place": {"postal_code": None, "latitude": 52.3, "longitude": 104.29, "country": "RU"},
    "leveling": {"depth": "5 mm", "lows": [{"depth": "40 mm", "share": 0.08}]},
    "season": {"from": date(2027, 4, 10)},
}
SEEDED = {"seeding": {"intent": "overseed"}}


def sowing(setting: ResolvedLawn, operation: str = "overseed") -> OpenDays:
    """The first window of an operation on a lawn."""
    name: Any = operation
    return setting.open(name)[0]


def said_for(setting: ResolvedLawn, kind: Any, sow: OpenDays | None) -> str:
    """What speaks for a campaign with passes."""
    return " ".join(told(why) for why in why_campaign(setting, kind, sow, passes=True))


def test_one_pass_without_seed_is_laid_in_one_season() -> None:
    """However cool: spring costs nothing where no seed meets its summer, and no reason tells of
    seed or of a fill too deep."""
    plan = plan_of(REYKJAVIK)
    assert len([t for t in plan.tasks if t.operation == "topdress"]) == 1
    assert plan.campaign in ("spring", "autumn")
    reasons = " ".join(told(rejected.reason) for rejected in plan.rejected)
    assert "Seed" not in reasons + " ".join(told(why) for why in plan.campaign_reason)


def test_a_fill_is_called_too_deep_where_it_needs_more_than_one_session() -> None:
    """Not where a second session is only the gentler way."""
    deep = lawn({"leveling": {"depth": "1 in"}})
    for kind in ("two_years", "spring_then_autumn", "autumn_then_spring"):
        told_deep, told_shallow = said_for(deep, kind, None), said_for(lawn(), kind, None)
        deeper = ("so deep a fill", "more than one stretch of growth")
        assert any(words in told_deep for words in deeper)
        assert not any(words in told_shallow for words in deeper)
    assert "so deep a fill" not in said_for(lawn(REYKJAVIK), "two_years", None)


def test_seed_in_spring_is_spoken_of_where_there_is_seed_and_heat() -> None:
    """For the campaign and against it."""
    hot, cool, none = lawn(), lawn(REYKJAVIK, SEEDED), lawn(REYKJAVIK)
    assert heat_of_summer(hot) == 1 and heat_of_summer(cool) == 0
    assert "first summer" in said_for(hot, "spring", sowing(hot))
    assert "weeds" in said_for(cool, "spring", sowing(cool))
    assert "summer" not in said_for(cool, "spring", sowing(cool))
    assert "eed" not in said_for(none, "spring", None)
    for kind in ("spring", "autumn_then_spring"):
        against: Any = kind
        assert "summer" in told(against_campaign(hot, against, sown=True))
        assert "summer" not in told(against_campaign(cool, against, sown=True))
        assert "seed" in told(against_campaign(cool, against, sown=True)).lower()
        assert "seed" not in told(against_campaign(none, against, sown=False)).lower()


def test_seed_in_spring_costs_less_where_summers_are_cool() -> None:
    """And nothing where none is sown; the rest of a cost stays."""

    def of_spring(setting: ResolvedLawn) -> float:
        return min(c.cost for c in campaigns(setting)[0] if c.id == "spring")

    book = lawn().book
    spring, share = book.si("campaign.cost_spring"), book.si("campaign.cost_spring_cool_share")
    session = book.si("campaign.cost_session")
    assert of_spring(lawn()) == pytest.approx(spring + session)
    assert of_spring(lawn(REYKJAVIK, SEEDED)) < spring * share + 1
    assert of_spring(lawn(REYKJAVIK)) < 1


def test_the_season_for_seed_is_over_only_where_none_is_to_come() -> None:
    """Before the winter that dormant seed waits through."""
    setting = lawn(IRKUTSK)
    winter = sowing(setting, "dormant_seed")
    assert sown_before(setting, winter)
    assert "is over" not in said_for(setting, "dormant", winter)
    sown = setting.openings
    gone = tuple(w for w in sown.windows if w.operation != "overseed" or w.start > winter.start)
    late = replace(setting, openings=replace(sown, windows=gone))
    assert not sown_before(late, winter)
    assert "is over" in said_for(late, "dormant", winter)


def test_spring_is_not_turned_down_for_heat_that_is_none_or_for_passes_of_lifted_hollows() -> None:
    """Where the plan lifts its hollows, what lies beside them is counted."""
    plan = plan_of(IRKUTSK)
    assert any(t.operation == "lift_and_fill" for t in plan.tasks)
    reasons = " ".join(told(rejected.reason) for rejected in plan.rejected)
    assert "first summer" not in reasons and "the fill would need" not in reasons
