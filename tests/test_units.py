"""Quantities as people write them."""

import pytest

from turfplan.units import System, parse_quantity, read_as


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


@pytest.mark.parametrize(
    ("value", "kind", "system", "text"),
    [
        (0.237e3, "spread_weight", System.METRIC, "0.2 kg/m²"),
        (1.0, "depth", System.US, "0.04 in"),
        (0.3, "depth", System.METRIC, "0.3 mm"),
        (240.0, "spread_weight", System.US, "50 lb/1,000 ft²"),
    ],
)
def test_less_than_is_measured_is_told_by_its_first_digit(value: float, kind: str, system: System, text: str) -> None:
    """No 0.237 kg/m² beside amounts that are told in halves."""
    assert read_as(value, kind, system).text == text
