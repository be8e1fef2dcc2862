"""Cores: what becomes of them, and when none are taken."""

from collections.abc import Mapping
from typing import Any

import pytest

from planning import kind, plan_of
from told import told

NO_SEED = {"seeding": {"intent": "none"}}
REMOVED = "Rake up and remove the plugs"


@pytest.mark.full
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


NO_SPRING_CORES = {"local": {"spring_aeration": False}}


@pytest.mark.full
def test_no_cores_in_spring_where_the_owner_takes_none() -> None:
    """The passes of spring go on without holes, their window is closed, and the plan says so; the
    passes of autumn are cored as ever, in the south of the world too.
    """
    deep = {"leveling": {"depth": "1.5 in"}}
    usual, without = plan_of(deep), plan_of(deep, NO_SPRING_CORES)
    assert [t.start.month < 7 for t in kind(usual, "core_aerate")] == [True, False]
    (left,) = kind(without, "core_aerate")
    assert left.start.month > 7 and len(kind(without, "topdress")) == len(kind(usual, "topdress"))
    assert any("No cores are taken in spring" in told(note) for note in without.assumptions)
    seasons = {w.season for w in without.windows if w.operation == "core_aerate"}
    assert seasons and "spring" not in seasons
    south = {
        "lawn": {"grass": "perennial_ryegrass", "area": "300 m2"},
        "place": {"postal_code": None, "latitude": -43.5, "longitude": 172.6, "country": "NZ"},
        "leveling": {"depth": "6 mm"},
        "season": {"campaign": "spring"},
    }
    assert kind(plan_of(south), "core_aerate")
    assert not kind(plan_of(south, NO_SPRING_CORES), "core_aerate")


@pytest.mark.full
def test_the_answer_on_spring_cores_is_told_where_it_changes_nothing() -> None:
    """Warm-season grass is cored in its summer, and autumn work asks for no holes in spring."""
    warm = {
        "lawn": {"grass": "bermuda_common"},
        "place": {"postal_code": "30303"},
        "seeding": {"intent": "none"},
        "leveling": {"depth": "0.25 in"},
    }
    plan = plan_of(warm, NO_SPRING_CORES)
    assert kind(plan, "core_aerate") and any("changes nothing" in told(n) for n in plan.assumptions)
    autumn = plan_of(NO_SPRING_CORES)
    assert kind(autumn, "core_aerate")
    assert any("no work of this plan asks" in told(note) for note in autumn.assumptions)
