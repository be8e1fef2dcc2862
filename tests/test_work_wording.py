"""The words of a plan are those of its own lawn: mix, water, country, season and stand."""

from collections.abc import Iterator
from typing import Any

import pytest

from planning import first, kind, plan_of
from turfplan.records.plan import Plan

CORK: dict[str, Any] = {
    "place": {"postal_code": None, "country": "IE", "latitude": 51.9, "longitude": -8.47},
    "lawn": {"grass": "perennial_ryegrass", "thatch": "5 mm", "area": "300 m2"},
    "leveling": {"depth": "20 mm"},
    "season": {"from": None},
}
MILAN: dict[str, Any] = {
    "place": {"postal_code": None, "country": "IT", "latitude": 45.46, "longitude": 9.19},
}
COMPOST = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.25, "compost": 0.25}}}
SAND = {
    "leveling": {"material": "sand"},
    "lawn": {"soil": "loamy sand"},
    "seeding": {"intent": "none"},
}
TOPSOIL = {"leveling": {"parts": {"topsoil": 1.0}}, "seeding": {"intent": "none"}}


def words(plan: Plan, *operations: str) -> str:
    """All that is said at the tasks of some operations, or at all."""

    def lines() -> Iterator[str]:
        for task in plan.tasks:
            if not operations or task.operation in operations:
                said = (task.title, task.why, *task.how, task.go, task.fallback, *task.cautions)
                yield from (str(line) for line in said if line)

    return "\n".join(lines())


def all_words(plan: Plan) -> str:
    """Tasks, campaign, cautions, assumptions and windows."""
    said = (*plan.campaign_reason, *plan.cautions, *plan.assumptions, *plan.disagreements)
    return "\n".join([words(plan), *map(str, said), *(str(w.reason) for w in plan.windows)])


@pytest.fixture(scope="module")
def plain() -> Plan:
    """Half an inch on thin tall fescue in Pennsylvania, seeded into a mix that holds compost."""
    return plan_of(COMPOST)


@pytest.fixture(scope="module")
def cork() -> Plan:
    """Ryegrass in a mild, cool-summer place of another country."""
    return plan_of(CORK)


@pytest.mark.full
def test_a_mix_with_compost_is_not_bone_dry(plain: Plan) -> None:
    """Compost keeps some damp; sand alone is bone dry."""
    blend = words(plain, "delivery", "dry_material", "topdress")
    assert "bone dry to fall" not in blend and "Mix bone dry" not in blend
    assert "Compost keeps a damp of its own (30% to 50%)" in blend.replace(" %", "%")
    sand = words(plan_of(SAND), "delivery", "dry_material", "topdress")
    assert "bone dry" in sand and "ompost" not in sand


@pytest.mark.full
def test_sand_is_named_where_there_is_sand() -> None:
    """What sand weighs, and what experts say of it, stands where there is some."""
    soil, sand = plan_of(TOPSOIL), plan_of(SAND)
    assert "Sand weighs" in words(sand, "topdress") and "Dry soil weighs" not in words(sand)
    assert "Dry soil weighs" in words(soil, "topdress") and "Sand weighs" not in words(soil)
    assert not any("sand over clay" in str(d) for d in (*soil.disagreements, *sand.disagreements))


@pytest.mark.full
def test_whom_to_ask_for_marks_is_of_the_country(plain: Plan, cork: Plan) -> None:
    """The number of the United States is named nowhere else; a state's own rule is told."""
    assert "call 811" in words(plain, "locate_utilities")
    assert "811" not in all_words(cork) and "inquiry service" in words(cork, "locate_utilities")
    assert "the state, the county and the town" not in all_words(cork)
    colorado = plan_of({"place": {"postal_code": "80123", "state": "CO"}})
    assert "A request holds 30 days here." in words(colorado, "locate_utilities")


@pytest.mark.full
def test_nobody_said_is_said_where_nobody_did() -> None:
    """A rate, days or a permit say that the lawn can be watered."""
    unsaid = "Nobody said whether the lawn can be watered"
    assert unsaid in all_words(plan_of({"water": {"possible": None, "application_rate": None}}))
    for water in (
        {"application_rate": "1 in/h"},
        {"application_rate": None, "allowed_weekdays": ["mon", "wed", "fri"], "permit": True},
    ):
        assert unsaid not in all_words(plan_of({"water": {"possible": None, **water}}))


@pytest.mark.full
def test_water_follows_the_law_and_what_there_is() -> None:
    """A layer is watered on the days that the law leaves, or by rain where nobody waters."""
    bare = {"seeding": {"intent": "none"}}
    law = plan_of(bare, {"water": {"allowed_weekdays": ["tue", "sat"]}})
    dry = plan_of(bare, {"water": {"possible": False, "application_rate": None}})
    assert "The same evening water" not in words(law, "incorporate")
    assert "first day that is open to watering" in words(law, "incorporate")
    assert "water one or two days before" not in words(dry, "core_aerate")
    assert "Nobody waters here" in words(dry, "incorporate")


@pytest.mark.full
def test_heat_and_frost_are_named_where_they_are(cork: Plan) -> None:
    """Passes leave the summer free where it is hot; a frost is named where it freezes."""
    rests = "No pass falls into the height of summer."
    deep = plan_of({"leveling": {"depth": "1 in"}})
    assert deep.campaign == "spring_then_autumn"
    assert rests in map(str, deep.campaign_reason)
    cool = plan_of(CORK, {"season": {"campaign": "spring_then_autumn"}})
    assert cool.conflict is None and rests not in map(str, cool.campaign_reason)
    warm = {"lawn": {"grass": "bermuda_common"}, "seeding": {"intent": "none"}}
    georgia = plan_of(warm, {"place": {"postal_code": "30606"}})
    miami = plan_of(warm, {"place": {"postal_code": "33101"}})
    recovers = "time to recover before the first frost"
    assert recovers in all_words(georgia) and recovers not in all_words(miami)


def test_a_preventer_is_named_where_it_is_sold() -> None:
    """No crabgrass preventer where householders are sold none, however warm the summer."""
    level = {"seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}}
    assert kind(plan_of(level), "preemergent")
    assert not kind(plan_of(level, MILAN), "preemergent")


@pytest.mark.full
def test_why_seed_goes_in_is_of_its_stand_and_season(plain: Plan) -> None:
    """Thin turf is filled where it is thin; in spring the time is second best."""
    assert "Thin turf is filled" in str(first(plain, "overseed").why)
    dense = plan_of({"lawn": {"condition": "dense"}})
    assert "Thin turf" not in words(dense, "overseed")
    spring = plan_of({"season": {"campaign": "spring"}})
    assert "second-best time" in words(spring, "overseed")
    sown = plan_of({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    assert "the old grass" not in words(sown, "first_mow")


def test_nothing_wakes_under_ryegrass_that_is_not_sown() -> None:
    """The window in which a grass wakes under winter ryegrass stands where there is some."""
    warm = {"lawn": {"grass": "bermuda_common"}, "place": {"postal_code": "30606"}}
    none = plan_of(warm, {"seeding": {"intent": "none"}})
    winter = plan_of(
        warm, {"seeding": {"intent": "winter_overseed"}, "leveling": {"depth": "0 in"}}
    )
    assert "under the winter ryegrass" not in all_words(none)
    assert "under the winter ryegrass" in all_words(winter)


def test_the_first_cut_is_the_height_of_the_place() -> None:
    """Seedlings in Sweden are first cut at about 5 cm, not at 10 as in the American Midwest."""
    stockholm = {
        "place": {"postal_code": None, "country": "SE", "latitude": 59.33, "longitude": 18.07},
        "lawn": {"grass": "kentucky_bluegrass"},
    }
    cut = str(first(plan_of(stockholm), "first_mow").title)
    assert "55 mm" in cut, cut


@pytest.mark.full
def test_nothing_is_said_of_mix_where_none_is_spread() -> None:
    """A lawn that is seeded and not dressed has no layer between clippings, cores and soil."""
    seeded = plan_of({"leveling": None})
    assert kind(seeded, "mow_low") and kind(seeded, "core_aerate")
    said = words(seeded, "mow_low", "core_aerate")
    assert "mix" not in said and "keeps the seed from reaching the soil" in said
    dressed = words(plan_of(), "mow_low", "core_aerate")
    assert "keeps the mix from reaching the soil" in dressed and "The holes let the mix" in dressed


def test_nothing_is_said_of_watering_where_nobody_waters() -> None:
    """Seed that rain waters goes in before rain; no hose, permit or watering day stands by it."""
    nobody = {"water": {"possible": False, "application_rate": None}}
    galway = {
        "place": {"postal_code": None, "country": "IE", "latitude": 53.27, "longitude": -9.06}
    }
    ryegrass = {"lawn": {"grass": "perennial_ryegrass"}}
    rain = plan_of(galway, ryegrass, {"leveling": {"depth": "0.25 in"}}, nobody)
    hose = plan_of(galway, ryegrass, {"leveling": {"depth": "0.25 in"}})
    watered = {
        "overseed": "water that is sure",
        "mow_old": "Leave out the watering before it",
        "inspect": "keep it moist",
        "incorporate": "Leave the watering until the seed is on",
    }
    for operation, said in watered.items():
        assert said in words(hose, operation) and said not in words(rain, operation), operation
    assert "allowed watering days" in words(hose) and "allowed watering days" not in words(rain)
    assert "rain in the forecast that wets the seed" in words(rain, "overseed")
