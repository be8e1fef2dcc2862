"""What works through the leaves never shares its day with what is watered in."""

from typing import Any

import pytest

from planning import plan_of

WATERED_IN = ("feed_nitrogen", "amend", "lime", "preemergent")
LIMY: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "soil": "silty clay loam", "condition": "thin"},
    "place": {"postal_code": "84116", "state": "UT"},
    "seeding": {"intent": "none"},
    "soil_test": {
        "on": "2027-01-10",
        "ph": 8.4,
        "free_lime": True,
        "sar": 16,
        "gypsum_rate": "100 lb/1000ft2",
        "potassium": "low",
    },
    "site": {"ground": ["sodic"]},
}
SOUTHERN: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "soil": "clay", "condition": "dense"},
    "place": {"postal_code": "70808", "state": "LA"},
    "seeding": {"intent": "none"},
    "soil_test": {"on": "2027-01-25", "ph": 7.6, "potassium": "medium"},
}


@pytest.mark.full
@pytest.mark.parametrize("lawn", [LIMY, SOUTHERN], ids=["limy", "southern"])
def test_iron_has_its_day_without_water(lawn: dict[str, Any]) -> None:
    """Gypsum, potash, feedings and a preventer are watered in on other days than iron's, which
    would be washed off."""
    tasks = plan_of(lawn).tasks
    iron = [t for t in tasks if t.id == "amend.iron"]
    watered = [t for t in tasks if t.operation in WATERED_IN and t.id != "amend.iron"]
    assert iron and watered
    assert {t.start for t in iron}.isdisjoint(t.start for t in watered)
