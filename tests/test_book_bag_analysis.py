"""The three numbers of a bag."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.book.bag_analysis import Analysis, parse_analysis
from turfplan.errors import TurfplanError


def test_a_bag_is_weighed_by_its_nitrogen() -> None:
    """Of 16-4-8 a gram of nitrogen takes 6.25 g, which bring a quarter of phosphate and half of
    potash.
    """
    bag = parse_analysis("16-4-8")
    assert bag == Analysis(16.0, 4.0, 8.0)
    assert bag.product_g_m2(1.0) == 6.25
    assert (bag.phosphate_g_m2(2.0), bag.potash_g_m2(2.0)) == (0.5, 1.0)
    assert str(parse_analysis("16.50-0-8")) == "16.5-0-8"


@pytest.mark.parametrize(
    ("text", "sound"),
    [
        ("100-0-0", True),
        ("50-25-25", True),
        ("50-25-25.1", False),
        ("0-0-0", True),
        ("0-0-101", False),
    ],
)
def test_shares_of_a_bag_are_a_hundred_at_most(text: str, *, sound: bool) -> None:
    """None is below nought, all may be nought; the place is that of the brief, or another."""
    if sound:
        assert parse_analysis(text).nitrogen_percent >= 0
        return
    with pytest.raises(TurfplanError) as caught:
        parse_analysis(text, "here")
    assert caught.value.problems[0].where == "here"


def test_the_least_nitrogen_feeds_and_none_does_not() -> None:
    """A hundredth of a percent."""
    assert Analysis(0.01, 5.0, 5.0).product_g_m2(1.0) == pytest.approx(10_000)
    for none in (0.0, -1.0):
        with pytest.raises(TurfplanError, match="no nitrogen"):
            Analysis(none, 5.0, 5.0).product_g_m2(1.0)


shares = st.floats(0.5, 33)


@pytest.mark.full
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
