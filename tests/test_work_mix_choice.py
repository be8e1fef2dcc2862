"""Which mix is spread, by soil, depth, grass and seed."""

from typing import Any

import pytest

from planning import brief_of, plan_of
from test_work_campaigns import setting_of
from told import told
from turfplan.files.reading.book import load_book
from turfplan.message import Number, as_written
from turfplan.phrases import passes as phrases
from turfplan.records.plan import Plan
from turfplan.work.mix_choice import blend, choose_mix, mix_parts

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


def test_what_is_asked_for_is_spread() -> None:
    """The owner's own parts, the mix that is named, else the one that the rules choose."""
    own = {"leveling": {"parts": {"topsoil": 0.6, "sand": 0.4}}}
    assert mix_parts(setting_of(brief_of(own))) == {"topsoil": 0.6, "sand": 0.4}
    named = {"leveling": {"material": "compost", "depth": "0.25 in"}}
    assert mix_parts(setting_of(brief_of(named))) == {"compost": 1.0}
    chosen = setting_of(brief_of())
    assert dict(mix_parts(chosen)) == dict(choose_mix(chosen).parts)
    assert choose_mix(chosen).id == "topsoil_sand_compost"
    assert mix_parts(chosen) == {"topsoil": 0.5, "sand": 0.25, "compost": 0.25}


def test_halves_and_quarters_have_names() -> None:
    """As people order them; any other share is told in percent."""
    book = load_book()

    def shares(mix: str) -> list[str]:
        parts = dict(blend(book, mix).values)["parts"]
        return [part.key for part in parts.items]  # type: ignore[union-attr]

    sand = as_written("sand")
    half, quarter = phrases.half(material=sand).key, phrases.quarter(material=sand).key
    assert shares("topsoil_sand_compost") == [half, quarter, quarter]
    assert shares("topsoil_sand") == [half, half]
    assert shares("sand") == [phrases.share(share=Number(1.0, "percent"), material=sand).key]
