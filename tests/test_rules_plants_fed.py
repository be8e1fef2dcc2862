"""Plugs, sprigs and sod are fed once they hold, on a day that no law closes, and no other feeding falls into those weeks."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import amount, example, first, kind, plan_of
from turfplan.plan import Plan
from turfplan.units import LB_PER_1000FT2_G_M2

LAWNS = {"zoysia": "30606", "bermuda_hybrid": "75201", "st_augustine": "77002"}


def planted(grass: str, postal_code: str, **changes: dict[str, Any]) -> Plan:
    """The plain lawn of another grass, filled and planted."""
    return plan_of(
        {"place": {"postal_code": postal_code}, "lawn": {"grass": grass}, "seeding": {"intent": "plant"}}, changes
    )


@pytest.mark.parametrize("grass", LAWNS)
def test_plants_are_fed_once_they_hold(grass: str) -> None:
    """1 lb N per 1,000 sq ft (Arizona) two to five weeks after planting, and no other feeding within four weeks of it."""
    plan = planted(grass, LAWNS[grass])
    fed, plant = plan.task("feed_nitrogen.planted"), first(plan, "plant")
    assert fed is not None and timedelta(14) <= fed.start - plant.end <= timedelta(35)
    assert amount(fed, "nitrogen") / LB_PER_1000FT2_G_M2 == pytest.approx(1, abs=0.01)
    others = [t.start for t in kind(plan, "feed_nitrogen") if t.id != fed.id]
    assert others and all(abs((day - fed.start).days) >= 28 for day in others)
    assert not any("hold against a pull" in line for line in first(plan, "first_mow").how)


def test_plants_that_go_in_late_get_nothing_that_feeds_winter_kill() -> None:
    """However late they are planted, the feeding falls within the season of nitrogen, two months before frost."""
    away = {"unavailable": [{"from": date(2027, 7, 8), "to": date(2027, 8, 25)}]}
    plan = planted("zoysia", "30606", calendar=away)
    fed = plan.task("feed_nitrogen.planted")
    assert first(plan, "plant").start >= date(2027, 8, 26) and first(plan, "plant").start.year == 2027
    assert fed is None or (fed.start <= date(2027, 9, 15) and "wait" in (fed.fallback or ""))


def test_where_a_law_may_close_the_days_it_is_told_alone() -> None:
    """With a blackout that planting could run into, nothing is dated, and the first cut says what would be given."""
    plan = example("st-augustine-plugs")
    assert plan.task("feed_nitrogen.planted") is None
    assert any("hold against a pull" in line for line in first(plan, "first_mow").how)


def test_cool_season_sod_is_fed_as_its_year_asks() -> None:
    """Sod of fescue in autumn gets no feeding of its own."""
    assert planted("tall_fescue", "17601").task("feed_nitrogen.planted") is None
