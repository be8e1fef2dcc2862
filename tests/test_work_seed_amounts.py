"""Seed by rate and pure live seed, and plants by spacing: figures reckoned by hand."""

import pytest

from turfplan.units import THOUSAND_SQUARE_FEET_M2, convert, from_inside
from turfplan.work.seed_amounts import bulk_seed_kg, plugs_needed, pure_live_share


def test_live_seed_is_purity_times_germination() -> None:
    """95 % pure of which 80 % germinate: 76 %."""
    assert pure_live_share(95, 80) == pytest.approx(0.76)


def test_a_poorer_bag_takes_more_seed() -> None:
    """20 g/m2 on 500 m2 are 10 kg; of a bag with four fifths live seed 12.5 kg."""
    assert bulk_seed_kg(20.0, 500.0) == pytest.approx(10.0)
    assert bulk_seed_kg(20.0, 500.0, 0.8) == pytest.approx(12.5)


def test_pounds_on_thousands_of_square_feet() -> None:
    """6 lb/1,000 ft2 on 5,000 ft2 are 30 lb."""
    kg = bulk_seed_kg(convert(6, "lb/1000ft2", "areal_mass"), 5 * THOUSAND_SQUARE_FEET_M2)
    assert from_inside(kg, "lb", "mass") == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("area", "spacing", "plugs"),
    [(1.0, 250, 16), (9.0, 300, 100), (9.01, 300, 101), (10.0, 1000, 10)],
)
def test_plugs_stand_on_a_square_grid(area: float, spacing: float, plugs: int) -> None:
    """Area over spacing squared, rounded up."""
    assert plugs_needed(area, spacing) == plugs
