"""What is done to the turf before the first pass."""

from collections.abc import Mapping
from typing import Any

import pytest

from planning import kind, plan_of
from told import told

NO_SEED = {"seeding": {"intent": "none"}}
REMOVED = "Rake up and remove the plugs"


@pytest.mark.parametrize(
    ("changes", "removed"),
    [
        ({"leveling": {"material": "sand"}}, True),
        ({"leveling": {"parts": {"sand": 1.0}}}, True),
        ({"leveling": {"parts": {"sand": 0.9, "topsoil": 0.1}}}, True),
        ({"leveling": {"parts": {"sand": 0.5, "topsoil": 0.5}}}, False),
        ({"leveling": {"material": "topsoil_sand"}}, False),
        ({"leveling": {"material": "sand"}, "lawn": {"soil": "sandy loam"}}, False),
    ],
)
def test_plugs_of_clay_are_removed_under_straight_sand(
    changes: Mapping[str, Any], removed: bool
) -> None:
    """However the sand was asked for, as a mix or as the owner's own parts; on a light soil the
    plugs stay.
    """
    coring = kind(plan_of(NO_SEED, changes), "core_aerate")
    assert coring and all(
        any(REMOVED in told(line) for line in task.how) is removed for task in coring
    )
