"""What speaks against campaigns: a place where the grass does not live, said once."""

from typing import Any

import pytest

from planning import plan_of
from told import told

IQUITOS: dict[str, Any] = {"postal_code": None, "latitude": -3.75, "longitude": -73.25}


def test_a_grass_that_dies_here_is_said_to_and_each_reason_is_told_once() -> None:
    """Of a fill alone over bluegrass in the rain forest; what lives there is offered instead."""
    plan = plan_of(
        {
            "lawn": {"grass": "kentucky_bluegrass"},
            "place": {**IQUITOS, "country": "PE"},
            "seeding": {"intent": "none"},
        }
    )
    assert plan.conflict is not None
    said = " ".join(told(reason) for reason in plan.conflict.reasons)
    assert "does not live through summers here" in said
    sentences = [part.strip() for part in said.split(". ")]
    assert len(sentences) == len(set(sentences))
    assert any("carpetgrass" in told(option.change) for option in plan.options)
    assert not any("bare" in told(option.change) for option in plan.options)


@pytest.mark.full
@pytest.mark.parametrize(
    ("grass", "zip_code"),
    [
        ("st_augustine", "32801"),
        ("bermuda_hybrid", "30301"),
        ("centipede", "32801"),
        ("seashore_paspalum", "32801"),
        ("zoysia", "30301"),
        ("kentucky_bluegrass", "19103"),
        ("perennial_ryegrass", "19103"),
    ],
)
def test_thatch_that_is_a_sponge_has_a_way_out(grass: str, zip_code: str) -> None:
    """Each leads to a plan, and none tells the owner to write that the lawn is bare."""
    plan = plan_of(
        {
            "lawn": {"grass": grass, "thatch": "2 in", "condition": "dense"},
            "place": {"postal_code": zip_code},
            "seeding": {"intent": "none"},
        }
    )
    assert plan.conflict is not None and plan.options
    assert not any("bare" in told(option.change) for option in plan.options)
