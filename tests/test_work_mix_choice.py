"""Which mix is spread, by soil, depth, grass and seed."""

from typing import Any

import pytest

from planning import plan_of
from told import told
from turfplan.records.plan import Plan

UNSEEDED: dict[str, Any] = {"seeding": {"intent": "none"}}


def asked(soil: str, depth: str, **more: Any) -> Plan:
    """A lawn on a soil, leveled so deep without seed."""
    lawn = {"lawn": {"soil": soil, "condition": "dense"}, "leveling": {"depth": depth, **more}}
    return plan_of(lawn, UNSEEDED)


def parts(plan: Plan) -> set[str]:
    """The parts of the mix."""
    return {part.item for line in plan.order for part in line.parts if line.item == "mix"}


def warned(plan: Plan) -> bool:
    """Whether the plan warns of too much straight sand."""
    return any("Straight sand levels only" in told(caution) for caution in plan.cautions)


@pytest.mark.parametrize("depth", ["0.25 in", "0.75 in", "1.5 in"])
@pytest.mark.parametrize("soil", ["sand", "loamy sand"])
def test_sand_on_sand_is_right_however_deep(soil: str, depth: str) -> None:
    """Sand as fine as the soil's own is no layer (UF/IFAS: level with the texture there)."""
    plan = asked(soil, depth)
    assert parts(plan) == {"sand"} and not warned(plan)
    assert not warned(asked(soil, depth, material="sand"))


@pytest.mark.parametrize("soil", ["sandy loam", "loam", "clay loam"])
def test_deep_sand_on_another_soil_is_a_layer(soil: str) -> None:
    """On unlike textures straight sand keeps to half an inch in all, and is warned of beyond."""
    assert "topsoil" in parts(asked(soil, "0.75 in"))
    assert warned(asked(soil, "0.75 in", material="sand"))


def test_seed_on_sand_has_a_mix_that_holds_water() -> None:
    """A seedbed of straight sand dries out between two waterings: seed keeps its own mix."""
    sown = plan_of({"lawn": {"soil": "sand"}, "leveling": {"depth": "0.75 in"}})
    assert "compost" in parts(sown)
