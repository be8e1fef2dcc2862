"""Product weights for a lawn, and what a bag brings along."""

import pytest

from turfplan.amounts.feed import feed_amounts, mass_amount
from turfplan.errors import TurfplanError
from turfplan.units import LB_PER_1000FT2_G_M2

POUND = LB_PER_1000FT2_G_M2
AREA = 371.612  # 4,000 ft2


def by_item(*, analysis: str | None, slow: float | None = None) -> dict[str, float]:
    return {a.item: a.value_us for a in feed_amounts(POUND, AREA, analysis, slow_release_percent=slow, reason="test")}


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
    assert all(a.reason for a in feed_amounts(POUND, AREA, "10-10-10"))
    assert mass_amount("lime", 100, 10, "test").value == pytest.approx(1.0)


def test_an_impossible_bag_is_refused() -> None:
    """More than the whole, or no nitrogen at all."""
    for analysis in ("50-40-20", "0-0-50"):
        with pytest.raises(TurfplanError):
            feed_amounts(POUND, AREA, analysis)
