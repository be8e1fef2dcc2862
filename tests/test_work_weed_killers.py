"""No weed killer of the past is dropped in silence, and none that lasts in the soil is sown on."""

from datetime import date
from typing import Any

import pytest

from planning import first, plan_of
from turfplan.records.plan import Plan


def after(ingredient: str, on: date = date(2027, 6, 1), **more: Any) -> Plan:
    """The plan of a lawn treated before."""
    use = {"active_ingredient": ingredient, "on": on, **more}
    return plan_of({"history": {"herbicides": [use]}, "leveling": {"depth": "0 in"}})


@pytest.mark.parametrize("killer", ["prometon", "Imazapyr", "tebuthiuron", "diuron", "bromacil"])
def test_residual_killers_stop_the_seed(killer: str) -> None:
    """Nothing is sown until the label or a pot test says so; the pot test is a way out."""
    plan = after(killer, date(2026, 6, 1))
    assert plan.conflict is not None
    assert "pot of that soil" in str(plan.conflict.reasons[0])
    assert any("seed_after" in str(option.change) for option in plan.options)


def test_label_or_pot_test_lets_the_seed_go() -> None:
    """With its day in the brief seed follows from then on."""
    plan = after("prometon", date(2026, 6, 1), seed_after=date(2027, 9, 11))
    assert first(plan, "overseed").start >= date(2027, 9, 11)
    days = after("prodiamine", date(2027, 6, 1), hold_days=110)
    assert first(days, "overseed").start >= date(2027, 9, 19)


def test_unknown_ingredient_is_told_at_the_head_and_at_the_seed() -> None:
    """What the book lacks is kept off for the longest interval, and asked for."""
    plan = after("greenicide", date(2027, 5, 1))
    assert any("not in the book" in str(line) for line in plan.holds)
    assert any("not in the book" in str(line) for line in plan.cautions)
    assert any("not in the book" in str(line) for line in first(plan, "overseed").cautions)


def test_weed_and_feed_asks_for_its_ingredient() -> None:
    """A bag that feeds too names what it kills with."""
    plan = after("Weed and Feed", date(2027, 4, 1))
    assert any("on the bag" in str(line) for line in plan.holds)


def test_what_lives_on_in_clippings_is_told() -> None:
    """Clippings of clopyralid stay on the lawn; compost of them is kept off."""
    plan = after("clopyralid", date(2026, 9, 1))
    assert any("clippings" in str(line) for line in plan.cautions)


def test_what_is_over_is_an_assumption() -> None:
    """A known killer whose weeks are over holds nothing, and is still told."""
    plan = after("2,4-D", date(2026, 9, 1))
    assert not plan.holds
    assert any("2,4-D" in str(line) for line in plan.assumptions)
