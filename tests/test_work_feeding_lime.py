"""Lime of a soil test in the calendar: parts, gaps, bare ground, and what is bought."""

from datetime import date
from typing import Any

import pytest

from planning import amount, kind, plan_of
from told import all_told, told
from turfplan.records.plan import Plan
from turfplan.units import LB_PER_1000FT2_G_M2

TEST: dict[str, dict[str, Any]] = {
    "soil_test": {"on": date(2026, 10, 1), "ph": 5.4, "acidity_cmol_kg": 7.0},
    "feeding": {"lime_cce_percent": 80},
}


@pytest.mark.full
def test_lime_goes_on_in_parts_months_apart() -> None:
    """Acidity 7, goal 6.5: 110 lb of pure lime, 137.5 lb at CCE 80, in two parts under 100 lb."""
    plan = plan_of(TEST, {"seeding": {"intent": "none"}})
    first, second = kind(plan, "lime")
    assert 4 * 30 <= (second.start - first.start).days <= 6 * 31
    for task in (first, second):
        assert amount(task, "lime rate") / LB_PER_1000FT2_G_M2 == pytest.approx(137.5 / 2, abs=0.1)
        assert "Lime" in told(task.title) and "lb" in told(task.title)
    assert [line.item for line in plan.order].count("lime") == 2
    assert sum(line.value for line in plan.order if line.item == "lime") >= sum(
        amount(task, "lime") for task in (first, second)
    )


@pytest.mark.full
def test_lime_is_worked_into_bare_ground_at_once() -> None:
    """Before the ground is tilled and sown, all of it."""
    plan = plan_of(TEST, {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    (lime,) = kind(plan, "lime")
    assert lime.start <= kind(plan, "till")[0].start and lime.start <= kind(plan, "seed")[0].start
    assert amount(lime, "lime rate") / LB_PER_1000FT2_G_M2 == pytest.approx(137.5, abs=0.1)


@pytest.mark.full
def test_parts_beyond_the_end_of_the_plan_are_told() -> None:
    """Five parts months apart do not fit a year and a half: what is left is no secret."""
    sour = {"soil_test": {"ph": 4.8, "acidity_cmol_kg": 20.0}}
    plan = plan_of(TEST, sour, {"seeding": {"intent": "none"}})
    said = [told(line) for line in (*plan.assumptions, *plan.cautions)]
    said += [told(note) for ledger in plan.ledgers for note in ledger.notes]
    (left,) = [line for line in said if "lie beyond the last day" in line]
    part = amount(kind(plan, "lime")[0], "lime rate") / LB_PER_1000FT2_G_M2
    assert left.startswith("Lime: ") and len(kind(plan, "lime")) * part < 400
    whole = float(left.split("of the ")[1].split(" lb")[0])
    missing = float(left.split("Lime: ")[1].split(" lb")[0])
    assert missing == pytest.approx(whole - len(kind(plan, "lime")) * part, abs=1)


@pytest.mark.full
def test_no_test_no_lime() -> None:
    """Nothing is limed by feeling, nor where the pH is at its goal."""
    assert not kind(plan_of(), "lime")
    assert not kind(plan_of({"soil_test": {**TEST["soil_test"], "ph": 6.8}}), "lime")


@pytest.mark.full
def test_potash_and_phosphate_of_the_test_are_told() -> None:
    """The rates, or why none, stand where they are read."""
    plan = plan_of(
        {"soil_test": {"on": TEST["soil_test"]["on"], "potassium": "low", "phosphorus": "low"}}
    )
    said = " ".join(all_told(plan.cautions))
    assert "Potash: 2 lb/1,000 ft²" in said and "Phosphate: none" in said


def potash_of(plan: Plan) -> list[tuple[str, float]]:
    """The tasks that take potash, in order of date, with the rate in lb/1,000 ft2."""
    found = [
        (t, a) for t in kind(plan, "feed_nitrogen") for a in t.amounts if a.item == "potash to add"
    ]
    return [(t.id, round(a.value_us, 3)) for t, a in found]


@pytest.mark.full
def test_potash_goes_on_in_two_parts_with_the_first_feedings() -> None:
    """Low asks for 2 lb a year: 1 lb with the first feeding, 1 lb by itself where no other is due
    within the weeks after it, less what the bag holds."""
    test = {
        "soil_test": {"on": TEST["soil_test"]["on"], "potassium": "low"},
        "seeding": {"intent": "none"},
    }
    plan = plan_of(test)
    feeds = kind(plan, "feed_nitrogen")
    assert len(feeds) > 2 and potash_of(plan) == [(feeds[0].id, 1.0)]
    assert [task.id for task in kind(plan, "amend")] == ["amend.potash.2"]
    assert all("potash that the soil test asks for" in " ".join(all_told(t.how)) for t in feeds[:1])
    assert not any("potash" in " ".join(all_told(t.how)) for t in feeds[1:])
    assert any("in 2 parts" in caution for caution in all_told(plan.cautions))
    bag = plan_of(test, {"feeding": {"analysis": "20-0-10"}})
    for task, rate in potash_of(bag):
        brought = next(
            a
            for t in kind(bag, "feed_nitrogen")
            if t.id == task
            for a in t.amounts
            if a.item == "potash"
        )
        assert rate == pytest.approx(1 - brought.value_us, abs=0.002) and brought.value_us > 0.1


@pytest.mark.full
def test_enough_potassium_adds_nothing() -> None:
    """A high test schedules no potash."""
    assert not potash_of(
        plan_of(
            {
                "soil_test": {"on": TEST["soil_test"]["on"], "potassium": "high"},
                "seeding": {"intent": "none"},
            }
        )
    )


@pytest.mark.full
@pytest.mark.parametrize(
    "lawn",
    [
        {},
        {"seeding": {"intent": "none"}},
        {"leveling": {"depth": "0 in"}},
        {"place": {"postal_code": "55401"}, "season": {"campaign": "spring"}},
        {
            "lawn": {"grass": "centipede"},
            "place": {"postal_code": "31601"},
            "seeding": {"intent": "plant"},
            "soil_test": {"ph": 4.4, "acidity_cmol_kg": 9.0},
        },
    ],
)
def test_lime_stays_two_weeks_from_nitrogen_and_off_what_is_young(lawn: dict[str, Any]) -> None:
    """As the card of the lime says; and nothing is spread over seed, seedlings or young plants."""
    plan = plan_of(TEST, lawn)
    limed = [task.start for task in kind(plan, "lime")]
    assert len(limed) >= 2
    fed = [task.start for task in kind(plan, "feed_nitrogen")]
    assert fed and min(abs((lime - feed).days) for lime in limed for feed in fed) >= 14
    for task in plan.tasks:
        if task.plays("sowing") or task.plays("planting"):
            young = [day for day in limed if -14 < (day - task.start).days < 60]
            assert not young, f"{young} beside {task.id} on {task.start}"
