"""Every amount is reckoned on the place of its task: on lawns of which a part is sown, made anew,
patched, or kept wet by one hose."""

from datetime import date
from functools import cache
from typing import Any

import pytest

from planning import first, plan_of
from turfplan.audit.amounts_agree import TOTALS
from turfplan.message import Quantity
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

AREA_M2 = 5000 * 0.3048**2
SAND: dict[str, Any] = {"leveling": {"material": "topsoil_sand"}}
TEST: dict[str, Any] = {"on": date(2027, 1, 20), "phosphorus": "low", "potassium": "low"}
SOUR: dict[str, Any] = {**TEST, "ph": 5.2, "acidity_cmol_kg": 6.0}
SEPTIC: dict[str, Any] = {"lawn": {"part": [{"kind": "septic_field", "area": "2000 ft2"}]}}
DARK: dict[str, Any] = {"kind": "shade", "name": "under the hedge", "area": "1000 ft2"}
HEDGE: dict[str, Any] = {
    "lawn": {"part": [{**DARK, "sun_hours": 2}]},
    "seeding": {"intent": "renovate"},
    "soil_test": SOUR,
    "site": {"slope_percent": 12},
    **SAND,
}
PATCHES: dict[str, Any] = {
    "lawn": {"thin_share": 0.1, "condition": "patchy"},
    "seeding": {"intent": "patch"},
    "site": {"slope_percent": 9},
    **SAND,
}
# A tap that keeps seed wet on a part of a large lawn.
TAP: dict[str, Any] = {
    "lawn": {"area": "12000 ft2", "soil": "sandy loam", "condition": "bare"},
    "water": {"application_rate": None, "flow": "4 gpm", "hours_per_day": 3},
    "soil_test": TEST,
    **SAND,
}
# Sod on a bare lot of the south, of which neither the septic field nor deep shade is planted.
LOT: dict[str, Any] = {
    "lawn": {
        "area": "500 m2",
        "grass": "kikuyu",
        "soil": "sandy loam",
        "thatch": None,
        "condition": "bare",
        "part": [
            {"kind": "septic_field", "area": "90 m2"},
            {"kind": "shade", "name": "under the carob", "area": "60 m2", "sun_hours": 2},
        ],
    },
    "place": {"postal_code": None, "town": "Adelaide", "country": "AU"},
    "leveling": {"depth": "60 mm", "material": "topsoil"},
    "seeding": {"intent": "plant", "form": "sod"},
    "water": {"application_rate": "12 mm/h"},
    "soil_test": {**TEST, "ph": 8.3},
}


@cache
def plan(name: str) -> Plan:
    """A plan of one of the lawns."""
    lawns: dict[str, tuple[dict[str, Any], ...]] = {
        "septic": (SEPTIC, SAND, {"soil_test": TEST}),
        "hedge": (HEDGE,),
        "patches": (PATCHES,),
        "tap": (TAP,),
        "lot": ({**LOT, "season": {"from": date(2027, 8, 1)}},),
    }
    return plan_of(*lawns[name])


def values(task: Task) -> dict[str, float]:
    """The amounts of a task by item, SI."""
    return {amount.item: amount.value for amount in task.amounts}


def told_m2(task: Task, whole_m2: float) -> float:
    """The area that the first step of a task says; the whole lawn where it says none."""
    step = task.how[0] if task.how else None
    area = dict(step.values).get("area") if step is not None else None
    named = step is not None and step.key == "places.first_of"
    return area.value if named and isinstance(area, Quantity) else whole_m2


@pytest.mark.parametrize("name", ["septic", "hedge", "patches", "tap", "lot"])
def test_every_total_is_its_rate_over_the_place_that_is_named(name: str) -> None:
    """Of all that is fed, limed, worked in and sown."""
    made, seen = plan(name), set[str]()
    for task in made.tasks:
        found, ground = values(task), told_m2(task, made.lawn.area_m2)
        for total, rate in TOTALS.items():
            if total in found:
                seen.add(total)
                wanted = found[rate] * ground / 1000
                assert found[total] == pytest.approx(wanted, rel=0.002, abs=0.002), task.id
        if "seed" in found:
            assert found["seed"] == pytest.approx(found["seed rate"] * ground / 1000, rel=0.002)
    assert "nitrogen_total" in seen


def test_a_starter_leaves_out_what_is_not_sown() -> None:
    """Three fifths of the lawn take three fifths of it, and of the phosphate with it."""
    starter = first(plan("septic"), "starter_feed")
    found = values(starter)
    assert found["nitrogen_total"] == pytest.approx(
        found["nitrogen"] * 0.6 * AREA_M2 / 1000, rel=0.002
    )
    assert found["phosphate to add in all"] == pytest.approx(
        found["phosphate to add"] * 0.6 * AREA_M2 / 1000, rel=0.002
    )
    assert "septic" in str(starter.title)


def test_what_is_left_unsown_of_a_killed_lawn_is_not_filled() -> None:
    """Fill, tiller, what it works in, lime and covers keep off the grass that stays, on a slope."""
    made = plan("hedge")
    ground = 0.8 * AREA_M2
    for operation in ("fill", "till", "cover", "nurse_cover", "grade", "starter_feed", "lime"):
        task = first(made, operation)
        assert told_m2(task, made.lawn.area_m2) == pytest.approx(ground, rel=0.001), operation
        assert "hedge" in str(task.title)
    fill = values(first(made, "fill"))
    assert fill["volume"] == pytest.approx(fill["depth"] / 1000 * ground * 1.1, rel=0.001, abs=0.01)
    assert values(first(made, "cover"))["straw"] == 4
    assert any("left out of the fill" in str(line) for line in made.assumptions)
    later = first(made, "feed_nitrogen")
    assert told_m2(later, made.lawn.area_m2) == made.lawn.area_m2, "what stays is fed too"


def test_patches_of_a_slope_are_covered_and_no_more() -> None:
    """A tenth of 5,000 square feet is one bale; the name says where it goes."""
    cover = first(plan("patches"), "cover")
    assert values(cover)["straw"] == 1 and "spots" in str(cover.title)
    assert told_m2(cover, AREA_M2) == pytest.approx(0.1 * AREA_M2)


def test_patches_of_a_steep_part_are_covered_as_far_as_they_lie_in_it() -> None:
    """A fifth of 1,000 square feet."""
    bank = {"part": [{"kind": "steep", "name": "the bank", "area": "1000 ft2"}], "thin_share": 0.2}
    steep = plan_of(PATCHES, {"lawn": bank, "site": None}, options=False)
    cover = first(steep, "cover")
    assert told_m2(cover, AREA_M2) == pytest.approx(0.04 * AREA_M2)
    assert "spots of the bank" in str(cover.title)


def test_what_is_neither_planted_nor_grassed_takes_nothing() -> None:
    """Of 500 m2 of bare ground 350 m2 are filled, planted, fed and dressed with iron."""
    made = plan("lot")
    for operation in ("fill", "till", "plant", "feed_nitrogen", "amend"):
        task = first(made, operation)
        assert told_m2(task, made.lawn.area_m2) == pytest.approx(350), operation
    assert values(first(made, "plant"))["sod"] == pytest.approx(350 * 1.05)


def test_what_one_hose_keeps_wet_is_what_is_sown_rolled_and_fed() -> None:
    """Bare ground that waits for another season gets neither starter nor later food."""
    made = plan("tap")
    sown = values(first(made, "seed"))["sown area"]
    assert sown < 0.9 * made.lawn.area_m2
    for operation in ("seed", "roll", "starter_feed", "feed_nitrogen"):
        task = first(made, operation)
        assert told_m2(task, made.lawn.area_m2) == pytest.approx(sown, rel=0.001), operation
        assert "one hose keeps wet" in str(task.title)


def test_a_product_of_the_order_holds_what_the_line_says() -> None:
    """Sold in whole steps it holds more than is needed, and the line says so."""
    lines = [line for line in plan("septic").order if line.item in ("potash", "phosphate")]
    assert len(lines) >= 2
    for line in lines:
        said = dict(line.text.values)["nutrient"]
        assert isinstance(said, Quantity) and said.value == pytest.approx(line.value, abs=5e-4)
