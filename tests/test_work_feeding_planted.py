"""Plugs, sprigs and sod are fed once they hold, on a lawful day, with no other feeding near."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import amount, example, first, kind, plan_of
from told import told
from turfplan.records.plan import Plan
from turfplan.units import LB_PER_1000FT2_G_M2

LAWNS = {"zoysia": "30606", "bermuda_hybrid": "75201", "st_augustine": "77002"}


def planted(grass: str, postal_code: str, **changes: dict[str, Any]) -> Plan:
    """The plain lawn of another grass, filled and planted by enough people for a week-end."""
    return plan_of(
        {
            "place": {"postal_code": postal_code},
            "lawn": {"grass": grass},
            "seeding": {"intent": "plant"},
            "work": {"people": 8},
        },
        changes,
    )


@pytest.mark.full
@pytest.mark.parametrize("grass", LAWNS)
def test_plants_are_fed_once_they_hold(grass: str) -> None:
    """1 lb N/1,000 ft2 (Arizona) two to five weeks after planting, no other within four weeks."""
    plan = planted(grass, LAWNS[grass])
    fed, plant = plan.task("feed_nitrogen.planted"), first(plan, "plant")
    assert fed is not None and timedelta(14) <= fed.start - plant.end <= timedelta(35)
    assert amount(fed, "nitrogen") / LB_PER_1000FT2_G_M2 == pytest.approx(1, abs=0.01)
    others = [t.start for t in kind(plan, "feed_nitrogen") if t.id != fed.id]
    assert others and all(abs((day - fed.start).days) >= 28 for day in others)


@pytest.mark.full
def test_plants_that_go_in_late_get_nothing_that_feeds_winter_kill() -> None:
    """However late they are planted, it falls within the season, two months before frost."""
    away = {"unavailable": [{"from": date(2027, 7, 8), "to": date(2027, 8, 10)}]}
    plan = planted(
        "zoysia",
        "30606",
        calendar=away,
        leveling={"depth": None},
        season={"from": date(2027, 7, 1)},
    )
    fed = plan.task("feed_nitrogen.planted")
    assert (
        first(plan, "plant").start >= date(2027, 8, 11) and first(plan, "plant").start.year == 2027
    )
    assert fed is None or (fed.start <= date(2027, 9, 15) and "wait" in told(fed.fallback))


@pytest.mark.full
def test_a_law_that_closes_other_days_does_not_stop_it() -> None:
    """The day of planting is known: its feeding keeps clear of the days that a law closes."""
    plan = example("st-augustine-plugs")
    fed, plant = plan.task("feed_nitrogen.planted"), first(plan, "plant")
    assert fed is not None and timedelta(14) <= fed.start - plant.end <= timedelta(35)


TAMPA = {
    "place": {"postal_code": "33602", "state": "FL"},
    "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "sod"},
}


@pytest.mark.full
@pytest.mark.parametrize(
    "local", [None, {"nitrogen_blackouts": [{"from": "06-01", "to": "09-30"}]}]
)
def test_sod_that_roots_in_a_blackout_is_fed_once_it_is_over(local: dict[str, Any] | None) -> None:
    """Laid in May it is fed in October, said or only common; nothing is fed from June on."""
    plan = plan_of(TAMPA, {"local": local})
    fed = plan.task("feed_nitrogen.planted")
    assert fed is not None and date(2027, 10, 1) <= fed.start <= date(2027, 10, 10)
    assert "first days that are open" in told(fed.why)
    assert not [t for t in kind(plan, "feed_nitrogen") if 6 <= t.start.month <= 9]


@pytest.mark.full
def test_sod_is_fed_a_month_after_it_is_laid() -> None:
    """Thirty days lie between, and not more than sixty (University of Florida), where no law
    closes them."""
    plan = plan_of(TAMPA, {"local": {"nitrogen_blackouts": []}})
    fed, plant = plan.task("feed_nitrogen.planted"), first(plan, "plant")
    assert fed is not None and timedelta(30) <= fed.start - plant.end <= timedelta(60)


@pytest.mark.full
def test_cool_season_sod_is_fed_once_it_holds() -> None:
    """Sod of fescue in autumn is fed two to five weeks after it is laid, by autumn's limit."""
    plan = planted("tall_fescue", "17601")
    fed, plant = plan.task("feed_nitrogen.planted"), first(plan, "plant")
    assert fed is not None and timedelta(14) <= fed.start - plant.end <= timedelta(35)
