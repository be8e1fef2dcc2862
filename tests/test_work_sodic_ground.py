"""Sodic ground has its gypsum, all of it and washed down, before seed or plants go in."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import amount, first, kind, plan_of
from told import told
from turfplan.units import LB_PER_1000FT2_G_M2

SODIC: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "soil": "silty clay loam"},
    "place": {"postal_code": "84116", "state": "UT", "elevation": "4220 ft"},
    "leveling": None,
    "seeding": {"intent": "overseed"},
    "soil_test": {"on": date(2027, 1, 10), "sar": 14, "gypsum_rate": "100 lb/1000ft2"},
}


def test_seed_waits_for_all_of_the_gypsum() -> None:
    """Two parts of 50 lb half a year apart, and months for the last to be washed down."""
    plan = plan_of(SODIC)
    parts, seed = kind(plan, "amend"), first(plan, "overseed")
    rates = [amount(t, "gypsum rate") / LB_PER_1000FT2_G_M2 for t in parts]
    assert rates == pytest.approx([50, 50], abs=0.1)
    assert seed.start - parts[-1].end >= timedelta(120)
    assert any("in of water through the soil" in told(line) for line in parts[0].how)


def test_sodic_ground_without_the_laboratory_s_rate_waits_for_it() -> None:
    """Seed is not sown before the answer has had its time."""
    asked = plan_of(SODIC, {"soil_test": {"gypsum_rate": None}})
    (call,) = kind(asked, "soil_test")
    assert first(asked, "overseed").start - call.start >= timedelta(21)


def test_gypsum_that_the_days_of_the_plan_do_not_hold_is_told() -> None:
    """No part of the laboratory's rate is dropped in silence."""
    lawn = {"seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}}
    much = {"soil_test": {"gypsum_rate": "300 lb/1000ft2"}}
    plan = plan_of(SODIC, lawn, much)
    given = sum(amount(t, "gypsum rate") for t in kind(plan, "amend")) / LB_PER_1000FT2_G_M2
    assert 50 < given < 250
    said = [told(note) for ledger in plan.ledgers for note in ledger.notes]
    said += [told(line) for line in (*plan.assumptions, *plan.cautions)]
    (left,) = [line for line in said if "lie beyond the last day" in line]
    assert f"{300 - given:.0f} lb" in left
