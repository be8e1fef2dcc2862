"""Parts of a whole, rounded so that they add up to it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.allotment import allotted


def test_the_largest_remainders_are_rounded_up() -> None:
    """Of 7.25 in parts of 2 : 1 : 1 the first lost most; of equal ones the earlier is filled."""
    assert allotted((3.625, 1.8125, 1.8125), 0.05, 7.25) == pytest.approx((3.65, 1.8, 1.8))
    assert allotted((1.0, 1.0, 1.0), 0.5, 3.5) == pytest.approx((1.5, 1.0, 1.0))
    assert allotted((0.26, 0.26), 0.1) == pytest.approx((0.3, 0.2))
    assert allotted((), 0.1) == ()


def test_a_step_is_above_nothing() -> None:
    """There is no rounding to nothing."""
    with pytest.raises(ValueError, match="step"):
        allotted((1.0,), 0.0)


@given(st.lists(st.floats(0.0, 1e4), min_size=1, max_size=8), st.sampled_from((0.01, 0.05, 0.25)))
def test_parts_add_up_and_none_is_a_step_off(parts: list[float], step: float) -> None:
    """The sum is the whole to the nearest step, and each part within one of its own."""
    found = allotted(parts, step)
    assert sum(found) == pytest.approx(round(sum(parts) / step) * step, abs=1e-6)
    assert all(abs(a - b) <= step * 1.001 for a, b in zip(parts, found, strict=True))
