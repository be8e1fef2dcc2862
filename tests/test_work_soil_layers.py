"""What the mix is as a soil: the class of the triangle, beside the lawn's own soil, and what that
asks for.
"""

from typing import Any

import pytest

from planning import plan_of


def told(soil: str | None, leveling: dict[str, Any], intent: str = "none") -> str:
    """The sentences of a plan on its mix as a soil, empty where there is none."""
    plan = plan_of(
        {
            "lawn": {"soil": soil},
            "leveling": {"depth": "0.25 in", **leveling},
            "seeding": {"intent": intent},
        }
    )
    lines = (line.text for line in plan.campaign_reason)
    return next((line for line in lines if line.startswith("As a soil")), "")


def test_a_light_mix_over_clay_is_told_as_a_layer_that_does_not_loosen() -> None:
    """By hand, by weight: 0.8 of a sand (92 %) and 0.625 of loam (42 %) make 70 % sand; clay loam
    has about a third.
    """
    said = told("clay loam", {})
    assert (
        "sandy loam, if its topsoil is a loam: about 70% sand, where your clay loam has about 35%"
        in said
    )
    assert (
        "nearest to your own soil" in said
        and "worked into the top 4 in, that would still be a clay loam" in said
    )


@pytest.mark.full
def test_compost_is_no_soil() -> None:
    """The same topsoil and sand with compost hold less sand by weight, as topsoil is half of the
    whole; compost alone is no soil.
    """
    assert "about 60% sand" in told("clay loam", {}, intent="overseed")
    assert told("clay loam", {"material": "compost"}) == ""


@pytest.mark.full
@pytest.mark.parametrize(
    ("soil", "material"), [("sandy loam", "topsoil_sand"), ("loam", "topsoil"), ("sand", "sand")]
)
def test_a_mix_of_the_same_class_is_no_foreign_layer(soil: str, material: str) -> None:
    """The half and half mix is a sandy loam, topsoil a loam, sand a sand: on such soils nothing is
    asked for.
    """
    parts = {"parts": {"topsoil": 1.0}} if material == "topsoil" else {"material": material}
    said = told(soil, parts)
    assert "like your own" in said and "no foreign layer" in said and "lighter" not in said


def test_a_heavy_layer_on_sand_is_doubted() -> None:
    """Topsoil alone on sand holds water above it: a sandier mix is asked for."""
    assert "Ask for a sandier one" in told("sand", {"parts": {"topsoil": 1.0}})


@pytest.mark.full
def test_nothing_is_told_of_a_soil_that_nobody_named() -> None:
    """An assumed loam is not compared with."""
    assert told(None, {}) == ""
