"""The three numbers of a bag."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.book.bag_analysis import parse_analysis
from turfplan.errors import TurfplanError

shares = st.floats(0.5, 33)


@given(shares, shares, shares, st.floats(0.1, 10))
def test_product_holds_the_nitrogen_it_was_weighed_for(
    n: float, p: float, k: float, rate: float
) -> None:
    """Product times share is the rate again; phosphate and potash come along in their shares."""
    bag = parse_analysis(f"{n}-{p}-{k}")
    product = bag.product_g_m2(rate)
    assert product * n / 100 == pytest.approx(rate)
    assert bag.phosphate_g_m2(rate) == pytest.approx(product * p / 100)
    assert bag.potash_g_m2(rate) == pytest.approx(product * k / 100)


@pytest.mark.parametrize(
    "text", ["60-30-20", "100-1-0", "-5-1-1", "10-10", "ten-10-10", "10-10-10-10"]
)
def test_an_impossible_analysis_is_refused(text: str) -> None:
    """Shares above the bag, negative ones, and what is no analysis, name the place."""
    with pytest.raises(TurfplanError) as caught:
        parse_analysis(text)
    assert caught.value.problems[0].where == "feeding.analysis"


def test_a_bag_without_nitrogen_cannot_feed() -> None:
    """0-46-0 has no product weight for a rate of nitrogen."""
    with pytest.raises(TurfplanError, match="no nitrogen"):
        parse_analysis("0-46-0").product_g_m2(1)
