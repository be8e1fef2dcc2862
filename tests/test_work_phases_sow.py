"""What is said of sowing."""

import pytest

from planning import first, plan_of
from told import told


@pytest.mark.parametrize(
    ("grass", "intent", "operation", "spreads"),
    [
        ("kentucky_bluegrass", "overseed", "overseed", True),
        ("kentucky_bluegrass", "renovate", "seed", False),
        ("tall_fescue", "overseed", "overseed", False),
    ],
)
def test_gaps_are_filled_by_a_grass_that_spreads(
    grass: str, intent: str, operation: str, spreads: bool
) -> None:
    """It is told where seed goes between plants, not where the ground is bare."""
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": "55406"},
            "seeding": {"intent": intent},
        }
    )
    assert ("fills gaps by itself" in told(first(plan, operation).why)) == spreads
