"""Quantities as people write them."""

import pytest

from turfplan.units import parse_quantity


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 1/2 in", 38.1),
        ("-1 1/2 in", -38.1),
        ("+1 1/2 in", 38.1),
        ("-1/2 in", -12.7),
        ("-0 1/2 in", -12.7),
        ("-3 in", -76.2),
        ("-1.5e1 mm", -15.0),
        ("2 3/4 ft", 838.2),
    ],
)
def test_the_sign_of_a_mixed_number_belongs_to_all_of_it(text: str, mm: float) -> None:
    """Minus one and a half is not minus one, and a half more."""
    assert parse_quantity(text, "length") == pytest.approx(mm)
