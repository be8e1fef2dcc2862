"""Product weights for a lawn, and what a bag brings along."""

import pytest

from told import told
from turfplan.errors import TurfplanError
from turfplan.message import as_written
from turfplan.units import LB_PER_1000FT2_G_M2
from turfplan.work.feeding.product_amounts import (
    feed_amounts,
    lime_amount,
    mass_amount,
    rate_amount,
)

POUND = LB_PER_1000FT2_G_M2
TEST = as_written("test")
AREA = 371.612  # 4,000 ft2


def by_item(*, analysis: str | None, slow: float | None = None) -> dict[str, float]:
    return {
        a.item: a.value_us
        for a in feed_amounts(POUND, AREA, analysis, slow_release_percent=slow, reason=TEST)
    }


def test_product_of_a_bag_for_a_lawn() -> None:
    """1 lb N/1,000 ft2 on 4,000 ft2 from 16-4-8: 4 lb of nitrogen, 25 lb of product."""
    found = by_item(analysis="16-4-8")
    assert found["nitrogen"] == pytest.approx(1.0, abs=0.001)
    assert found["nitrogen_total"] == pytest.approx(4.0, abs=0.001)
    assert found["product_rate"] == pytest.approx(6.25, abs=0.001)
    assert found["product"] == pytest.approx(25.0, abs=0.01)
    assert found["phosphate"] == pytest.approx(0.25, abs=0.001)
    assert found["potash"] == pytest.approx(0.5, abs=0.001)


def test_without_an_analysis_only_nitrogen_is_known() -> None:
    """No product weight is made up."""
    assert set(by_item(analysis=None)) == {"nitrogen", "nitrogen_total"}


def test_slow_release_share_is_shown() -> None:
    """Half of the nitrogen slow: half a pound."""
    assert by_item(analysis="30-0-0", slow=50)["slow_nitrogen"] == pytest.approx(0.5, abs=0.001)


def test_every_amount_has_its_reason() -> None:
    """Also where the caller gives none."""
    assert [told(a.reason) for a in feed_amounts(POUND, AREA, "10-10-10")] == [
        *["nitrogen of this feeding"] * 2,
        *["10-10-10: nitrogen / 10%"] * 2,
        *["comes along with 10-10-10"] * 2,
    ]
    assert mass_amount("lime", 100, 10, TEST).value == pytest.approx(1.0)


def test_an_impossible_bag_is_refused() -> None:
    """More than the whole, or no nitrogen at all."""
    for analysis in ("50-40-20", "0-0-50"):
        with pytest.raises(TurfplanError):
            feed_amounts(POUND, AREA, analysis)


def test_masses_and_rates_have_both_units() -> None:
    """10 g/m2 on 250 m2: 2.5 kg, 5.512 lb; 10 g/m2 is 2.048 lb/1,000 ft2."""
    mass, rate = (
        mass_amount("lime", 10.0, 250.0, TEST, ("feeding.starter_rate",)),
        rate_amount("nitrogen", 10.0, TEST),
    )
    assert (mass.value, mass.unit, mass.value_us, mass.unit_us) == (2.5, "kg", 5.512, "lb")
    assert (rate.value, rate.unit, rate.value_us, rate.unit_us) == (
        10.0,
        "g/m2",
        2.048,
        "lb/1000ft2",
    )
    assert mass.facts == ("feeding.starter_rate",) and rate.facts == ()
    assert lime_amount(100.0, 10.0, TEST) == mass_amount("lime", 100.0, 10.0, TEST)


def test_what_comes_along_is_told_in_si() -> None:
    """5 g/m2 from 20-5-10, 40 % slow, on 200 m2: 25 g/m2, 5 kg, 1.25 and 2.5 along, 2 slow."""
    found = {a.item: a.value for a in feed_amounts(5.0, 200.0, "20-5-10", slow_release_percent=40)}
    assert found == {
        "nitrogen": 5.0,
        "nitrogen_total": 1.0,
        "product_rate": 25.0,
        "product": 5.0,
        "phosphate": 1.25,
        "potash": 2.5,
        "slow_nitrogen": 2.0,
    }


def test_a_bag_without_phosphate_and_potash_brings_none() -> None:
    """Neither is told of, and no slow share that was not given."""
    assert {a.item for a in feed_amounts(5.0, 200.0, "46-0-0")} == {
        "nitrogen",
        "nitrogen_total",
        "product_rate",
        "product",
    }
