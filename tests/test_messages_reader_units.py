"""Dates and amounts are told as people say them."""

import pytest

from turfplan.messages.reader_units import in_units
from turfplan.units import System


@pytest.mark.parametrize(
    ("said", "us", "metric"),
    [
        ("air at 72 °F (22 °C)", "air at 72 °F", "air at 22 °C"),
        (
            "10 to 15 cores, 3 to 4 in (8 to 10 cm) deep",
            "10 to 15 cores, 3 to 4 in deep",
            "10 to 15 cores, 8 to 10 cm deep",
        ),
        ("at 1 1/2 in (4 cm)", "at 1 1/2 in", "at 4 cm"),
        (
            "heat is over (air through 75 °F (24 °C))",
            "heat is over (air through 75 °F)",
            "heat is over (air through 24 °C)",
        ),
        (
            "from 6,730 ft (2,050 m) to 5,500 ft (1,680 m)",
            "from 6,730 ft to 5,500 ft",
            "from 2,050 m to 1,680 m",
        ),
        ("weighs 2,700 lb/yd³ (1.6 t/m³)", "weighs 2,700 lb/yd³", "weighs 1.6 t/m³"),
    ],
)
def test_what_the_book_says_twice_is_told_once(said: str, us: str, metric: str) -> None:
    """Each reader gets the amount of the own system, and the sentence around it."""
    assert in_units(said, System.US) == us
    assert in_units(said, System.METRIC) == metric


@pytest.mark.parametrize(
    "said",
    ["72 °F (60 to 64.9)", "2 of 20 ft (rounded)", "8 lb (two bags)", "a pass (1 of 3)", "9 in"],
)
def test_other_brackets_stay(said: str) -> None:
    """Only an amount that is said in both systems loses one of them."""
    assert in_units(said, System.US) == in_units(said, System.METRIC) == said
