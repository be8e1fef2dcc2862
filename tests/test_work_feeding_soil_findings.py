"""What a soil and its test say: every value is used or answered, and nothing is guessed."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import resolved_lawns
import water_cases as cases
from planning import amount, brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from tiers import sampled, sampled_pairs
from told import all_told, told
from turfplan.message import Number
from turfplan.phrases import soil_findings as phrases
from turfplan.records.plan import Plan
from turfplan.units import LB_PER_1000FT2_G_M2
from turfplan.work.feeding.lime_need import given_before_g_m2, lime_need
from turfplan.work.feeding.nutrients import lime_plan
from turfplan.work.feeding.soil_findings import (
    BUFFERS,
    _ground,
    _lime_in_soil_question,
    _lime_notes,
    _lime_questions,
    _ph_cautions,
    _salt_cautions,
    _salt_questions,
    _test_notes,
    salt_borne_ds_m,
    soil_findings,
)
from turfplan.work.feeding.soil_levels import another_school, level_of, too_alkaline, unread
from turfplan.work.lawn import ResolvedLawn

BOOK = cases.book()
ON = date(2026, 10, 1)
CENTIPEDE: dict[str, Any] = {
    "lawn": {"grass": "centipede", "soil": "sandy loam"},
    "place": {"postal_code": "29201"},
    "leveling": {"depth": "0.25 in"},
}


_PLANS: dict[str, Plan] = {}


def planned(*changes: dict[str, Any]) -> Plan:
    """The plan of some changes, made once."""
    key = repr(changes)
    if key not in _PLANS:
        _PLANS[key] = plan_of(*changes, options=False)
    return _PLANS[key]


def said(plan: Plan) -> str:
    """All that a plan says beside its tasks."""
    return " ".join(
        all_told((*plan.cautions, *plan.assumptions, *plan.disagreements, *plan.conflict.reasons))
        if plan.conflict
        else all_told((*plan.cautions, *plan.assumptions, *plan.disagreements))
    )


def lawn(*changes: dict[str, Any], **test: Any) -> ResolvedLawn:
    """The plain lawn of tall fescue on clay loam, with changes and a soil test."""
    return resolved_lawns.lawn(*changes, {"soil_test": {"on": ON, **test}})


def keys(messages: Any) -> list[str]:
    """What is said, by the last of its keys."""
    return [message.key.rpartition(".")[2] for message in messages]


@pytest.mark.full
@pytest.mark.parametrize(
    ("ph", "more", "said"),
    [
        (6.5, {}, ["ph_right"]),
        (6.4, {}, ["ph_in_range"]),
        (6.0, {}, ["ph_in_range"]),
        (6.6, {}, ["ph_borne"]),
        (7.5, {}, ["ph_borne"]),
        (7.6, {}, []),
        (5.9, {}, []),
        (6.0, {"free_lime": True}, ["no_lime_on_limy"]),
        (6.5, {"free_lime": True}, ["ph_right"]),
        (6.5, {"lime_rate": "9 g/m2"}, ["ph_right", "rate_not_taken"]),
    ],
)
def test_why_no_lime_is_given_goes_by_goal_and_range(
    ph: float, more: dict[str, Any], said: list[str]
) -> None:
    """The goal of tall fescue is 6.5, its range 6.0 to 7.5."""
    assert keys(_lime_notes(lawn(ph=ph, **more))) == said


def test_a_state_limes_below_its_own_limit() -> None:
    """Arkansas below 5.8: between that and the goal it is told so."""
    arkansas = {"place": {"postal_code": "72701"}}
    found = [keys(_lime_notes(lawn(arkansas, ph=ph))) for ph in (5.8, 6.4, 6.5)]
    assert found == [["no_lime_by_state"], ["no_lime_by_state"], ["ph_right"]]


def test_lime_that_a_table_does_not_ask_for_or_was_given_is_told() -> None:
    """Nothing where there is still some to give."""
    unmoved = lawn(ph=6.2, buffer_ph=7.2, buffer_method="sikora")
    assert keys(_lime_notes(unmoved)) == ["table_asks_none"]
    asks = {"ph": 5.0, "acidity_cmol_kg": 6.5}
    assert keys(_lime_notes(lawn(**asks))) == []
    given = {"history": {"lime": [{"rate": "200 lb/1000ft2", "on": date(2026, 11, 1)}]}}
    assert keys(_lime_notes(lawn(given, **asks))) == ["given_enough"]


@pytest.mark.full
def test_how_much_lime_is_asked_where_nothing_says_it() -> None:
    """With how far the pH is from its goal, and what to ask for."""

    def asked(*changes: dict[str, Any], **test: Any) -> list[dict[str, Any]]:
        return [dict(m.values) for m in _lime_questions(lawn(*changes, **test))]

    (plain,) = asked(ph=5.2)
    assert plain["below"].value == pytest.approx(1.3), "the goal is 6.5"
    assert plain["ask"] == phrases.ask_rate() and plain["when"] == phrases.lime_before_seed()
    assert asked(ph=6.5) == asked(ph=5.2, lime_rate="9 g/m2") == asked(phosphorus="low") == []
    (unsown,) = asked({"seeding": {"intent": "none"}}, ph=5.2)
    assert unsown["when"] == phrases.lime_any_time()
    warm = {"latitude": 21.0, "longitude": 105.8, "postal_code": None, "state": None}
    (frostless,) = asked({"place": warm, "seeding": {"intent": "none"}}, ph=4.2)
    assert frostless["when"] == phrases.lime_any_month()
    (peat,) = asked({"lawn": {"soil": "peat"}}, ph=4.2)
    assert peat["ask"] == phrases.ask_peat()
    (unnamed,) = asked(ph=5.2, buffer_ph=6.4)
    assert unnamed["ask"].key == phrases.ask_buffer_name(buffer=Number(6.4)).key
    (smp,) = asked(ph=5.2, buffer_ph=6.4, buffer_method="smp")
    assert dict(smp["ask"].values)["method"] == BUFFERS["smp"]


def test_a_soil_test_is_undated_or_too_old() -> None:
    """From the day after its last; nothing is said where nothing was found."""
    oldest = int(BOOK.si("feeding.soil_test_age"))
    setting = lawn(ph=6.5)

    def notes(days: int | None, **found: Any) -> list[str]:
        on = None if days is None else setting.today - timedelta(days)
        test = setting.brief.soil_test.model_copy(update={"on": on, **found})
        brief = setting.brief.model_copy(update={"soil_test": test})
        return keys(_test_notes(replace(setting, brief=brief)))

    assert notes(None) == ["test_undated"]
    assert notes(oldest) == [] and notes(oldest + 1) == ["test_old"]
    assert notes(None, ph=None) == []


@pytest.mark.full
def test_salts_are_borne_to_the_most_that_the_grass_does() -> None:
    """Beyond it they are leached; where nobody measured them too."""
    bears = salt_borne_ds_m(lawn(), "tall_fescue")
    assert bears == (
        BOOK.low_si("salt.tolerance_tall_fescue"),
        BOOK.high_si("salt.tolerance_tall_fescue"),
    )
    assert salt_borne_ds_m(lawn(), "unheard_of") is None
    salts = [keys(_salt_cautions(lawn(salts=f"{s} dS/m"))) for s in (bears[0], bears[1] + 0.1)]
    assert salts == [["salts_borne"], ["salts_too_high"]]
    for between in (bears[0] + 0.1, bears[1]):
        test = f"{between} dS/m"
        assert keys(_salt_cautions(lawn(salts=test))) == ["salts_borne", "salts_wash_first"]
        dry = lawn({"water": {"possible": False, "application_rate": None}}, salts=test)
        assert keys(_salt_cautions(dry)) == ["salts_borne", "salts_no_water"]
        for rooted in ({"intent": "none"}, {"intent": "plant", "form": "sod"}):
            assert keys(_salt_cautions(lawn({"seeding": rooted}, salts=test))) == ["salts_borne"]
    salty = {"site": {"ground": ["salty"]}}
    assert keys(_salt_cautions(lawn(salty))) == ["salts_leach"]
    assert keys(_salt_questions(lawn(salty))) == ["salts_unknown"]
    assert keys(_salt_questions(lawn(salty, salts="1 dS/m"))) == []
    assert keys(_salt_cautions(lawn(salty, salts="1 dS/m"))) == ["salts_borne"]
    assert keys(_salt_cautions(lawn())) == []


@pytest.mark.full
def test_sodium_is_asked_for_and_gypsum_taken_where_the_ground_is_sodic() -> None:
    """By its number, or by what is known of it."""
    mark = BOOK.si("salt.sodic_sar")
    sodic = {"site": {"ground": ["sodic"]}}
    assert keys(_salt_questions(lawn(sodic))) == ["sodium_unknown"]
    assert keys(_salt_questions(lawn(sar=mark))) == ["gypsum_unknown"]
    assert keys(_salt_questions(lawn(sar=mark, gypsum_rate="100 g/m2"))) == []
    assert keys(_salt_questions(lawn(sar=mark - 1))) == []
    assert keys(_salt_cautions(lawn(sar=mark - 1))) == ["not_sodic"]
    assert keys(_salt_cautions(lawn(sar=mark))) == []
    both = lawn(sar=mark - 1, gypsum_rate="100 g/m2")
    assert keys(_salt_cautions(both)) == ["not_sodic", "gypsum_not_taken"]
    assert keys(_salt_cautions(lawn(sar=mark, gypsum_rate="100 g/m2"))) == []


def test_a_high_ph_is_told_and_free_lime_asked_for() -> None:
    """Above the range of the grass alone."""
    assert keys(_ph_cautions(lawn(ph=7.5))) == [] == keys(_lime_in_soil_question(lawn(ph=7.5)))
    assert keys(_ph_cautions(lawn(ph=7.6))) == ["ph_high"]
    assert keys(_lime_in_soil_question(lawn(ph=7.6))) == ["free_lime_unknown"]
    for known in (True, False):
        limy = lawn(ph=7.6, free_lime=known)
        assert keys(_lime_in_soil_question(limy)) == []
        assert keys(_ph_cautions(limy)) == ["ph_high", *(["sulfur_useless"] if known else [])]
    chalk = lawn({"lawn": {"soil": "chalk"}}, ph=7.6)
    assert keys(_lime_in_soil_question(chalk)) == []


def test_the_ground_is_told_by_its_kind_and_its_rock() -> None:
    """Peat, chalk, subsoil, rubble; rock that tines strike, that roots reach, or below both."""
    for soil in ("peat", "chalk", "subsoil", "rubble"):
        assert keys(_ground(lawn({"lawn": {"soil": soil}}))) == [f"on_{soil}"]
    assert keys(_ground(lawn())) == []
    tines, roots = BOOK.si("ground.rock_tines"), BOOK.si("water.root_depth")

    def rock(mm: float) -> list[str]:
        setting = lawn()
        site = setting.brief.site.model_copy(update={"rock_depth_mm": mm})
        brief = setting.brief.model_copy(update={"site": site})
        return keys(_ground(replace(setting, brief=brief)))

    found = [rock(mm) for mm in (0.0, tines - 1, tines, roots - 1, roots)]
    assert found == [["rock_no_tines"]] * 2 + [["rock_near"]] * 2 + [["rock_deep"]]


def test_a_test_of_buried_soil_says_nothing_of_the_lawn() -> None:
    """That it is buried, where there is one; a test of topsoil that is not brought in is odd."""
    bare = {
        "lawn": {"condition": "bare"},
        "seeding": {"intent": "renovate"},
        "leveling": {"depth": "4 in"},
    }
    found = soil_findings(lawn(bare, ph=5.2))
    assert keys(found.cautions) == ["test_buried"] and found.questions == found.notes == ()
    untested = setting_of(brief_of(bare))
    assert soil_findings(untested).cautions == ()
    strange = soil_findings(lawn(ph=6.5, of="topsoil"))
    assert "no_topsoil" in keys(strange.cautions) and strange.questions == ()
    whole = soil_findings(lawn(ph=5.2, phosphorus="21 ppm"))
    assert keys(whole.questions) == ["lime_unknown", "no_extraction"]
    assert keys(whole.cautions)[:2] == keys(whole.questions)
    assert soil_findings(lawn(phosphorus="24 ppm mehlich_3")).disagreements != ()


@pytest.mark.parametrize(
    ("nutrient", "reading", "told"),
    [
        ("phosphorus", "21 ppm mehlich_3", True),  # low, and enough for turf by another school
        ("phosphorus", "20 ppm mehlich_3", False),
        ("phosphorus", "27 ppm mehlich_3", False),  # medium: nobody gives more
        ("potassium", "37 ppm mehlich_3", True),
        ("potassium", "36 ppm mehlich_3", False),
        ("potassium", "176 ppm mehlich_3", True),
        ("potassium", "177 ppm mehlich_3", False),
        ("phosphorus", "low", False),
        ("phosphorus", "10 ppm olsen", False),
    ],
)
def test_another_school_is_told_between_its_least_and_the_usual_range(
    nutrient: Any, reading: str, *, told: bool
) -> None:
    """From its least on; of phosphorus where the usual range calls it low."""
    brief = cases.brief(soil_test={nutrient: reading})
    assert (another_school(brief, BOOK, nutrient) is not None) is told


def test_a_range_includes_its_ends() -> None:
    """Below the low end it is low, above the high one high."""

    def level(reading: str) -> str:
        found = level_of(cases.brief(soil_test={"phosphorus": reading}), BOOK, "phosphorus")
        assert found is not None
        return found.level

    found = [level(f"{n} ppm mehlich_3") for n in (26.9, 27, 54, 54.1)]
    assert found == ["low", "medium", "medium", "high"]
    assert unread(cases.brief(soil_test={"phosphorus": "low"}), BOOK, "phosphorus") is None
    assert unread(cases.brief(), BOOK, "phosphorus") is None


def test_a_grass_that_yellows_takes_no_phosphorus_on_high_ph() -> None:
    """Centipede above its range or on chalk; fescue never."""

    def yellows(grass: str, **parts: Any) -> bool:
        return too_alkaline(
            cases.brief(lawn={"grass": grass, **parts.pop("lawn", {})}, **parts), BOOK
        )

    assert [yellows("centipede", soil_test={"ph": ph}) for ph in (6.0, 6.1)] == [False, True]
    assert yellows("centipede", lawn={"soil": "chalk"}) and not yellows("centipede")
    assert not yellows("tall_fescue", soil_test={"ph": 8.0})


@pytest.mark.full
def test_a_ph_without_acidity_is_told_and_asked() -> None:
    """How far it is from the goal, what to ask for, and when: as a caution and as a task."""
    plan = planned({"soil_test": {"on": ON, "ph": 5.2}})
    assert not kind(plan, "lime")
    assert "pH of 5.2 is 1.3 below the goal of 6.5 for tall fescue" in said(plan)
    asked = first(plan, "soil_test")
    assert "lime rate" in " ".join(all_told(asked.how))
    assert asked.start < first(plan, "overseed").start


@pytest.mark.full
@pytest.mark.parametrize(
    ("test", "asks"),
    [
        ({"buffer_ph": 6.4}, "ask the laboratory which one it used"),
        ({"buffer_ph": 6.4, "buffer_method": "unknown"}, "ask the laboratory which one it used"),
        ({"buffer_ph": 6.4, "buffer_method": "smp"}, "no table here for a buffer pH of 6.4 by SMP"),
        ({"buffer_ph": 7.6, "buffer_method": "adams_evans"}, "by Adams-Evans"),
    ],
)
def test_a_table_serves_only_its_own_buffer(test: dict[str, Any], asks: str) -> None:
    """A buffer without a name, or without a table here, gives no amount and a question."""
    plan = planned({"soil_test": {"on": ON, "ph": 5.2, **test}})
    assert not kind(plan, "lime") and asks in said(plan)


@pytest.mark.parametrize(
    ("ph", "buffer", "grass", "tons"),
    [
        (5.2, 6.4, "tall_fescue", 2.1),
        (5.2, 6.45, "tall_fescue", 2.1),
        (5.2, 5.0, "fine_fescue", 7.8),
        (4.6, 6.0, "centipede", 1.7),
        (5.9, 6.6, "buffalo", 2.1),
        (6.2, 6.9, "tall_fescue", 0.5),
    ],
)
def test_sikora_is_read_from_its_own_table(
    ph: float, buffer: float, grass: str, tons: float
) -> None:
    """Oregon State's table, the target nearest the goal, from 6 in of soil to the lawn's 4."""
    brief = cases.brief(soil_test={"ph": ph, "buffer_ph": buffer, "buffer_method": "sikora"})
    need = lime_need(brief, BOOK, grass)
    assert need is not None
    assert need.rate_g_m2 / LB_PER_1000FT2_G_M2 == pytest.approx(tons * 45.914 * 4 / 6, rel=1e-4)


def test_sikora_below_its_table_is_asked_and_above_it_asks_for_none() -> None:
    """No row is made up, and a buffer that has not moved asks for no lime."""
    low = cases.brief(soil_test={"ph": 4.2, "buffer_ph": 4.5, "buffer_method": "sikora"})
    assert lime_need(low, BOOK, "tall_fescue") is None
    high = cases.brief(soil_test={"ph": 6.2, "buffer_ph": 7.2, "buffer_method": "sikora"})
    need = lime_need(high, BOOK, "tall_fescue")
    assert need is not None and need.rate_g_m2 == 0
    assert lime_plan(high, BOOK, "tall_fescue") is None


def test_mehlich_buffer_follows_north_carolinas_formula() -> None:
    """The printed example: pH 5.0, goal 6.0, acidity 1.2 give three quarters of a ton."""
    brief = cases.brief(soil_test={"ph": 5.0, "buffer_ph": 6.3, "buffer_method": "mehlich"})
    need = lime_need(brief, BOOK, "fine_fescue")
    assert need is not None
    tons = need.rate_g_m2 / LB_PER_1000FT2_G_M2 / 45.914 * 6 / 4
    assert tons == pytest.approx(1.2 * 1.0 / 1.6, abs=0.001) and round(tons, 2) == 0.75


def test_bare_ground_gets_the_rate_for_what_is_loosened() -> None:
    """Five inches worked in take more than the four of a lawn."""
    brief = cases.brief(soil_test={"ph": 5.2, "buffer_ph": 6.4, "buffer_method": "sikora"})
    lawn = lime_need(brief, BOOK, "tall_fescue")
    bare = lime_need(brief, BOOK, "tall_fescue", fresh_ground=True)
    assert lawn is not None and bare is not None
    assert bare.rate_g_m2 / lawn.rate_g_m2 == pytest.approx(5 / 4)


@pytest.mark.full
def test_bare_ground_is_limed_at_once_before_sod_too() -> None:
    """In full and worked in, before the sod lies on it."""
    plan = planned(
        {"lawn": {"condition": "bare", "grass": "bermuda_hybrid"}},
        {"place": {"postal_code": "29403"}, "seeding": {"intent": "plant", "form": "sod"}},
        {"soil_test": {"on": ON, "ph": 5.2, "lime_rate": "90 lb/1000ft2"}},
    )
    (lime,) = kind(plan, "lime")
    assert lime.id == "lime.fresh" and lime.start <= first(plan, "plant").start
    assert amount(lime, "lime rate") / LB_PER_1000FT2_G_M2 == pytest.approx(90, abs=0.01)


def test_the_laboratorys_rate_is_taken_as_it_is() -> None:
    """With a bag that was read it is corrected, else it stands; over the limit it is parted."""
    rate = {"soil_test": {"on": ON, "ph": 5.2, "lime_rate": "120 lb/1000ft2"}}
    parts = kind(planned(rate), "lime")
    assert [round(amount(t, "lime rate") / LB_PER_1000FT2_G_M2) for t in parts] == [60, 60]
    brief = cases.brief(**rate, feeding={"lime_cce_percent": 80})
    lime = lime_plan(brief, BOOK, "tall_fescue")
    assert lime is not None
    assert lime.product_g_m2 / LB_PER_1000FT2_G_M2 == pytest.approx(150)


def test_lime_given_before_counts() -> None:
    """After the test in full, before it what had not reacted; and the months until the next."""
    test = {"on": ON, "ph": 5.2, "lime_rate": "90 lb/1000ft2"}
    later = {"rate": "40 lb/1000ft2", "on": date(2026, 12, 1)}
    earlier = {"rate": "50 lb/1000ft2", "on": date(2026, 4, 1)}
    brief = cases.brief(soil_test=test, history={"lime": [later, earlier]})
    left = 50 * (1 - 0.08 * (ON - earlier["on"]).days / (365.25 / 12))
    assert given_before_g_m2(brief, BOOK) / LB_PER_1000FT2_G_M2 == pytest.approx(40 + left)
    plan = planned({"soil_test": test}, {"history": {"lime": [later]}})
    (task,) = kind(plan, "lime")
    assert amount(task, "lime rate") / LB_PER_1000FT2_G_M2 == pytest.approx(50, abs=0.1)
    assert (task.start - later["on"]).days >= 4 * 30
    enough = {"lime": [{"rate": "95 lb/1000ft2", "on": date(2026, 12, 1)}]}
    covered = planned({"soil_test": test}, {"history": enough})
    assert not kind(covered, "lime") and "already covers it" in said(covered)


@pytest.mark.full
def test_goals_and_limits_of_a_state() -> None:
    """Arkansas limes zoysia below 5.8 alone; North Carolina takes 50 lb at once, in six months."""
    lawn = {"lawn": {"grass": "zoysia"}, "seeding": {"intent": "none"}}
    test = {"soil_test": {"on": ON, "ph": 6.0, "acidity_cmol_kg": 5.0}}
    arkansas = planned(lawn, {"place": {"postal_code": "72701"}}, test)
    assert not kind(arkansas, "lime") and "below 5.8 only" in said(arkansas)
    rate = {"soil_test": {"on": ON, "ph": 5.2, "lime_rate": "90 lb/1000ft2"}}
    carolina = planned({"place": {"postal_code": "27601"}}, rate)
    first_part, second = kind(carolina, "lime")
    assert amount(first_part, "lime rate") / LB_PER_1000FT2_G_M2 == pytest.approx(45, abs=0.001)
    assert (second.start - first_part.start).days >= 6 * 30


@pytest.mark.full
def test_a_ph_above_the_goal_gets_iron_and_sulfur_only_without_free_lime() -> None:
    """No lime; 5 lb of sulfur at once, 10 a year, where the soil holds no lime; else asked."""
    test = {"on": ON, "ph": 8.1}
    unknown = planned({"soil_test": test})
    assert not kind(unknown, "lime") and [t.id for t in kind(unknown, "amend")] == ["amend.iron"]
    assert "Does the soil hold free lime?" in said(unknown)
    free = planned({"soil_test": {**test, "free_lime": False}})
    sulfur = [t for t in kind(free, "amend") if "sulfur" in t.id]
    rates = [amount(t, "sulfur rate") / LB_PER_1000FT2_G_M2 for t in sulfur]
    assert rates == pytest.approx([5, 5], abs=0.001)
    assert (sulfur[1].start - sulfur[0].start).days > 60
    assert {line.item for line in free.order} >= {"sulfur", "iron sulfate"}
    limy = planned({"soil_test": {**test, "free_lime": True}})
    assert [t.id for t in kind(limy, "amend")] == ["amend.iron"]
    assert "sulfur would be used up" in said(limy)


@pytest.mark.full
def test_centipede_on_high_ph_gets_no_compost_and_no_phosphorus() -> None:
    """Compost raises the pH, phosphorus locks up iron: the mix is another, and it says why."""
    test = {"on": ON, "ph": 6.8, "phosphorus": "low"}
    plan = planned(CENTIPEDE, {"soil_test": test})
    mix = next(line for line in plan.order if line.item == "mix")
    assert "compost" not in {part.item for part in mix.parts}
    assert "compost often has a high pH" in " ".join(all_told(plan.campaign_reason))
    assert "Phosphate: none. Centipedegrass yellows" in said(plan)
    right = planned(CENTIPEDE, {"soil_test": {"on": ON, "ph": 5.5}})
    mix = next(line for line in right.order if line.item == "mix")
    assert "compost" in {part.item for part in mix.parts}


@pytest.mark.parametrize(
    ("nutrient", "reading", "soil", "level"),
    [
        ("phosphorus", "26 ppm mehlich_3", None, "low"),
        ("phosphorus", "27 ppm mehlich_3", None, "medium"),
        ("phosphorus", "55 ppm mehlich_3", None, "high"),
        ("phosphorus", "11 ppm olsen", None, "low"),
        ("phosphorus", "29 ppm olsen", None, "high"),
        ("phosphorus", "16 ppm bray_1", None, "medium"),
        ("potassium", "60 ppm mehlich_3", None, "low"),
        ("potassium", "60 ppm mehlich_3", "sand", "medium"),
        ("potassium", "180 ppm mehlich_3", None, "high"),
    ],
)
def test_a_number_is_read_by_its_own_extraction(
    nutrient: Any, reading: str, soil: str | None, level: str
) -> None:
    """The same number is low by one solution and enough by another."""
    lawn = {} if soil is None else {"soil": soil}
    found = level_of(cases.brief(soil_test={nutrient: reading}, lawn=lawn), BOOK, nutrient)
    assert found is not None and found.level == level


@pytest.mark.full
def test_a_number_without_its_extraction_is_asked() -> None:
    """Neither the extraction nor the level is guessed."""
    for reading, asks in (("21 ppm", "without its extraction"), ("21 ppm morgan", "by Morgan")):
        brief = cases.brief(soil_test={"phosphorus": reading})
        assert level_of(brief, BOOK, "phosphorus") is None
        assert asks in told(unread(brief, BOOK, "phosphorus"))
    plan = planned({"soil_test": {"on": ON, "phosphorus": "21 ppm"}})
    assert "without its extraction" in " ".join(all_told(first(plan, "soil_test").how))


@pytest.mark.full
def test_a_question_does_not_hold_the_seed_back() -> None:
    """A laboratory that is called answers in days: late plans keep their sowing."""
    late = {"season": {"from": date(2027, 8, 28)}}
    open_question = {"soil_test": {"on": ON, "potassium": "60 ppm"}}
    asked, plain = planned(late, open_question), planned(late, {"soil_test": {"on": ON, "sar": 1}})
    assert first(asked, "soil_test").id == "soil_test.questions" and not kind(plain, "soil_test")
    assert first(asked, "overseed").start == first(plain, "overseed").start


def test_schools_that_differ_are_told() -> None:
    """Between the least that keeps turf well and the usual range experts disagree."""
    low = cases.brief(soil_test={"phosphorus": "24 ppm mehlich_3"})
    assert "Schools differ on phosphorus" in told(another_school(low, BOOK, "phosphorus"))
    for reading in ("15 ppm mehlich_3", "60 ppm mehlich_3", "24 ppm olsen"):
        agreed = cases.brief(soil_test={"phosphorus": reading})
        assert another_school(agreed, BOOK, "phosphorus") is None


@pytest.mark.full
def test_the_sample_comes_before_the_first_feeding() -> None:
    """It belongs into the months before the season, not into the middle of it."""
    plan = planned({"seeding": {"intent": "none"}})
    assert first(plan, "soil_test").start < first(plan, "feed_nitrogen").start


@pytest.mark.full
def test_an_old_test_is_said_and_its_lime_waits_for_the_new_one() -> None:
    """Over three years: a new sample first, and three weeks until lime."""
    old = {"on": date(2022, 5, 1), "ph": 5.2, "acidity_cmol_kg": 6.0}
    plan = planned({"soil_test": old})
    assert "over three years old" in said(plan)
    assert (first(plan, "lime").start - first(plan, "soil_test").start).days >= 21


@pytest.mark.full
def test_salt_holds_seed_until_it_is_tested_and_washed_out() -> None:
    """Untested: after the answer. More than some seedlings bear: washed
    down first; than all: not at all, with the reason."""
    salty = planned({"site": {"ground": ["salty"]}, "season": {"from": date(2027, 8, 20)}})
    task, sown = first(salty, "soil_test"), kind(salty, "overseed")
    assert "soluble salts" in " ".join(all_told(task.how))
    assert not sown or (sown[0].start - task.start).days >= 21
    warned = planned({"soil_test": {"on": ON, "salts": "7.5 dS/m"}})
    assert warned.conflict is None and first(warned, "overseed")
    assert "thin out seedlings of tall fescue" in said(warned)
    assert any("thin out" in line for line in all_told(first(warned, "overseed").cautions))
    refused = planned({"soil_test": {"on": ON, "salts": "10.5 dS/m"}})
    assert refused.conflict is not None
    assert "kill seedlings of tall fescue" in said(refused)
    assert planned({"soil_test": {"on": ON, "salts": "2 mmhos/cm"}}).conflict is None


@pytest.mark.full
@pytest.mark.parametrize(
    ("grass", "ph", "words"),
    [
        ("tall_fescue", 6.4, "a little under the 6.5"),
        (
            "buffalo",
            8.2,
            "above the 7 that liming of buffalograss aims at and within",
        ),
        ("tall_fescue", 6.5, "is right for tall fescue"),
    ],
)
def test_a_ph_within_the_range_of_the_grass_asks_for_nothing(
    grass: str, ph: float, words: str
) -> None:
    """Neither lime nor a call to the laboratory, and what is said agrees with the goal."""
    plan = planned({"lawn": {"grass": grass}, "soil_test": {"on": ON, "ph": ph}})
    assert words in said(plan)
    assert not kind(plan, "lime")
    assert not [task for task in kind(plan, "soil_test") if "lime" in told(task.why).lower()]


@pytest.mark.full
def test_iron_is_not_sprayed_on_leaves_that_are_cut_off_next() -> None:
    """Not in the weeks before the low cut of a pass, nor under the pass."""
    test = {"on": ON, "ph": 8.4, "free_lime": True}
    for changes in ({"season": {"campaign": "spring"}}, {}, {"seeding": {"intent": "none"}}):
        plan = planned({"soil_test": test, "leveling": {"depth": "0.25 in"}}, changes)
        cuts, passes = kind(plan, "mow_low"), kind(plan, "topdress")
        irons = [task for task in kind(plan, "amend") if task.id == "amend.iron"]
        assert cuts and passes
        for iron in irons:
            assert not any(0 <= (cut.start - iron.start).days < 14 for cut in cuts)
            assert not any(0 <= (spread.start - iron.start).days < 14 for spread in passes)


@pytest.mark.full
def test_gypsum_is_for_sodic_soil_alone() -> None:
    """By the laboratory's rate, in parts; elsewhere it is not taken, and that is said."""
    rate = {"on": ON, "gypsum_rate": "80 lb/1000ft2"}
    sodic = planned({"soil_test": {**rate, "sar": 16}})
    parts = [amount(t, "gypsum rate") / LB_PER_1000FT2_G_M2 for t in kind(sodic, "amend")]
    assert parts == pytest.approx([40, 40], abs=0.001)
    other = planned({"soil_test": {**rate, "sar": 4}})
    assert not kind(other, "amend") and "gypsum rate of 80" in said(other)
    assert "gypsum" in said(planned({"soil_test": {"on": ON, "sar": 16}}))


@pytest.mark.full
@pytest.mark.parametrize(
    ("soil", "words"),
    sampled_pairs(
        [
            ("peat", "Peat bears little"),
            ("chalk", "Chalk holds lime enough"),
            ("subsoil", "no seedbed"),
            ("rubble", "Mortar in it keeps the pH high"),
            ("unknown", "The soil is unknown: loam is assumed"),
        ],
        ("peat", "Peat bears little"),
        ("subsoil", "no seedbed"),
    ),
)
def test_soils_beyond_the_textures(soil: str, words: str) -> None:
    """Each is planned on, with what it asks for; no lime by the tables of mineral soil."""
    test = {"on": ON, "ph": 5.0, "acidity_cmol_kg": 7.0}
    plan = planned({"lawn": {"soil": soil}, "soil_test": test})
    assert plan.conflict is None and words in said(plan)
    assert bool(kind(plan, "lime")) == (soil not in ("peat", "chalk"))


@pytest.mark.full
def test_rock_near_the_surface_keeps_tines_out() -> None:
    """No coring over rock, and water for the soil that is there."""
    plan = planned({"site": {"rock_depth": "3 in"}})
    assert not kind(plan, "core_aerate") and "no hollow tines" in said(plan)
    assert kind(planned({"site": {"rock_depth": "5 in"}}), "core_aerate")


BASE: dict[str, Any] = {"on": ON, "ph": 5.2, "buffer_ph": 6.4, "buffer_method": "sikora"}
ANOTHER: dict[str, dict[str, Any]] = {
    "of": {"of": "topsoil"},
    "on": {"on": date(2020, 1, 1)},
    "ph": {"ph": 6.8},
    "acidity_cmol_kg": {"acidity_cmol_kg": 9.0},
    "lime_rate": {"lime_rate": "30 lb/1000ft2"},
    "buffer_ph": {"buffer_ph": 6.0},
    "buffer_method": {"buffer_method": "mehlich"},
    "phosphorus": {"phosphorus": "40 ppm mehlich_3"},
    "potassium": {"potassium": "40 ppm mehlich_3"},
    "free_lime": {"free_lime": True},
    "salts": {"salts": "1 dS/m"},
    "sar": {"sar": 3},
    "gypsum_rate": {"gypsum_rate": "40 lb/1000ft2"},
}


def test_every_key_of_the_soil_test_has_its_case() -> None:
    """A new key needs a value below that changes the plan."""
    from turfplan.records.brief import SoilTest

    keys = {field.alias or name for name, field in SoilTest.model_fields.items()}
    assert keys == set(ANOTHER)


@pytest.mark.full
@pytest.mark.parametrize("key", sampled(ANOTHER, "ph", "phosphorus", "gypsum_rate"))
def test_every_value_of_the_soil_test_is_used_or_answered(key: str) -> None:
    """Another value of a key is another plan, in its tasks or in what it says."""

    def shown(plan: Plan) -> tuple[object, ...]:
        tasks = [(t.id, t.start, told(t.title), all_told(t.how)) for t in plan.tasks]
        return tasks, said(plan)

    assert shown(planned({"soil_test": {**BASE, **ANOTHER[key]}})) != shown(
        planned({"soil_test": BASE})
    )


def test_lime_of_the_past_that_no_sample_shows_is_told_to_the_laboratory() -> None:
    """As much as had not reacted; none of what had, nor where the test gives a rate itself."""
    recent = {"history": {"lime": [{"rate": "100 g/m2", "on": date(2026, 9, 1)}]}}
    old = {"history": {"lime": [{"rate": "100 g/m2", "on": date(2020, 9, 1)}]}}
    asked = [keys(_lime_questions(lawn(past, ph=5.2))) for past in (recent, old, {})]
    assert asked == [["lime_unknown", "lime_given"], ["lime_unknown"], ["lime_unknown"]]
    assert keys(_lime_questions(lawn(recent, ph=5.2, lime_rate="50 lb/1000ft2"))) == []


def bare_on(soil: str, **levelling: Any) -> dict[str, Any]:
    """Sod on bare ground of some soil, filled by some depth."""
    return {
        "lawn": {"condition": "bare", "soil": soil, "grass": "kentucky_bluegrass", "thatch": None},
        "seeding": {"intent": "renovate", "form": "sod"},
        "leveling": {"depth": None, **levelling},
    }


@pytest.mark.parametrize("soil", ["rubble", "subsoil"])
@pytest.mark.parametrize(
    ("levelling", "key"),
    [
        ({"depth": "60 mm"}, "topsoil_short"),
        ({"depth": "2 in", "lows": [{"depth": "8 in", "share": 0.5}]}, "topsoil_short"),
        ({"lows": [{"depth": "8 in", "share": 0.5}]}, "topsoil_none"),
        ({"depth": "100 mm"}, None),
        ({"depth": "4 in"}, None),
    ],
)
def test_ground_that_is_no_soil_stops_the_order_of_too_little(
    soil: str, levelling: dict[str, Any], key: str | None
) -> None:
    """Less topsoil anywhere than it asks for is a stop; the depth that is told is enough."""
    said_of = keys(_ground(setting_of(brief_of(bare_on(soil, **levelling)))))
    assert [name for name in said_of if name.startswith("topsoil")] == ([key] if key else [])
    turf = setting_of(brief_of({"lawn": {"soil": soil}, "leveling": {"depth": "0.5 in"}}))
    assert not [name for name in keys(_ground(turf)) if name.startswith("topsoil")]


def test_a_survey_that_brings_too_little_topsoil_is_to_give_way_to_a_depth() -> None:
    """A depth beside a survey is refused: it is written in place of it."""
    lawn = setting_of(brief_of(bare_on("rubble", depth="60 mm")))
    levelling = lawn.brief.leveling.model_copy(update={"survey": "levels.csv", "depth_mm": None})
    surveyed = replace(lawn, brief=lawn.brief.model_copy(update={"leveling": levelling}))
    assert "topsoil_short_survey" in keys(_ground(surveyed))
