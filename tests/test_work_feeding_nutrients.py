"""What a soil test asks for, as it is told: lime, potash and phosphate, or why none."""

from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from told import all_told, told
from turfplan.phrases import feeding as phrases
from turfplan.units import System
from turfplan.work.feeding.nutrients import (
    LimePlan,
    lime_plan,
    lime_product_g_m2,
    phosphorus_plan,
    potash_parts_of,
    potassium_plan,
    soil_test_notes,
    split_lime,
)

BOOK = cases.book()
TODAY = date(2027, 3, 1)
RECENT = {"phosphorus": "low", "on": date(2027, 1, 1)}
NONE = ": use a product whose middle number is 0."
CONNECTICUT = {"latitude": 41.0, "longitude": -73.0, "country": "US", "state": "CT"}


@pytest.mark.parametrize(
    ("parts", "changes", "reason"),
    [
        (1, {"feeding": {"lime_cce_percent": 100}}, "100% calcium carbonate equivalent."),
        (1, {}, "90% calcium carbonate equivalent (assumed)."),
        (
            3,
            {"soil_test": {"acidity_cmol_kg": 11.0}, "feeding": {"lime_cce_percent": 87.5}},
            "87.5% calcium carbonate equivalent, in 3 parts so that the surface takes it.",
        ),
    ],
)
def test_lime_says_what_it_rests_on(parts: int, changes: dict[str, Any], reason: str) -> None:
    """The reading, the goal, the product, and into how many parts it is divided."""
    test = {"ph": 6.1, "acidity_cmol_kg": 2.0, **changes.get("soil_test", {})}
    brief = cases.brief(soil_test=test, feeding=changes.get("feeding", {}))
    lime = lime_plan(brief, BOOK, "tall_fescue")
    assert lime is not None and len(lime.parts_g_m2) == parts
    start = f"Soil pH 6.1, goal 6.5, acidity {test['acidity_cmol_kg']:g}: lime by the laboratory's"
    assert told(lime.reason) == f"{start} table, for a product of {reason}"
    (note,) = all_told(soil_test_notes(lime, ()), System.US)
    times = " lb/1,000 ft² once. Soil pH" if parts == 1 else ", 4 to 6 months apart. Soil pH"
    assert note.startswith("Lime: ") and times in note and note.endswith(reason)


def test_lime_on_fresh_ground_is_worked_in() -> None:
    """It is one part, however much of it there is."""
    test = {"ph": 5.8, "acidity_cmol_kg": 11.0}
    lime = lime_plan(cases.brief(soil_test=test), BOOK, "tall_fescue", fresh_ground=True)
    assert lime is not None and told(lime.reason).endswith("(assumed), worked in before seeding.")


@pytest.mark.parametrize(
    ("level", "how"),
    [
        ("medium", "at once as soon as the grass grows, with"),
        ("low", "in 2 parts, the first as soon as the grass grows, each with"),
    ],
)
def test_potash_is_told_with_its_level_and_parts(level: str, how: str) -> None:
    """The level as the laboratory found it, and how the year's rate is divided: two pounds are
    more than is given at once.
    """
    potash = potassium_plan(cases.brief(soil_test={"potassium": level}), BOOK)
    assert potash is not None
    assert told(potash.reason) == (
        f"Potassium is {level} in the soil test: potash for a year goes on {how} a feeding where "
        "one is due; the laboratory's own rate comes first."
    )


def test_enough_of_both_is_told_as_none() -> None:
    """The nutrient, that there is none, and why."""
    brief = cases.brief(soil_test={"potassium": "high", "phosphorus": "high", "on": TODAY})
    phosphate = phosphorus_plan(brief, BOOK, seeded=True, compost=False, today=TODAY)
    assert all_told(soil_test_notes(None, (potassium_plan(brief, BOOK), None, phosphate))) == (
        "Potash: none. The soil test finds enough potassium: none is given.",
        f"Phosphate: none. Phosphorus is high in the soil test: none is needed{NONE}",
    )


@pytest.mark.parametrize(
    ("law", "test", "compost", "reason"),
    [
        ("banned", RECENT, False, f"Phosphorus is banned here, as you said{NONE}"),
        (
            None,
            {},
            False,
            "No soil test: phosphorus is given only where one shows the need and the law allows it"
            + NONE,
        ),
        (
            None,
            {"phosphorus": "low"},
            False,
            f"The soil test has no date, and the law asks how old it is{NONE}",
        ),
        (
            None,
            {"phosphorus": "low", "on": date(2020, 1, 1)},
            False,
            f"The soil test of 2020-01-01 is too old{NONE}",
        ),
        (
            None,
            RECENT,
            True,
            f"Phosphorus is low, but the compost brings some: test again next year{NONE}",
        ),
        (
            "test",
            RECENT,
            False,
            "Phosphorus is low in a recent soil test. The law here asks for this test, and keep the"
            " report.",
        ),
        (
            "free",
            RECENT,
            False,
            "Phosphorus is low in a recent soil test. Ask what the law says here, and keep the"
            " report.",
        ),
        (
            None,
            RECENT,
            False,
            "Phosphorus is low in a recent soil test. The state asks for this test as read; confirm"
            " it, and keep the report.",
        ),
    ],
)
def test_phosphate_or_none_has_its_reason(
    law: str | None, test: dict[str, Any], *, compost: bool, reason: str
) -> None:
    """The law first, then the test, then what the compost brings."""
    brief = cases.brief(place=CONNECTICUT, local={"phosphorus": law} if law else {}, soil_test=test)
    phosphate = phosphorus_plan(brief, BOOK, seeded=True, compost=compost, today=TODAY)
    assert told(phosphate.reason) == reason


def test_lime_is_split_into_equal_parts_of_what_the_surface_takes() -> None:
    """Of 490 g/m2: one, and two of any more."""
    assert split_lime(490.0, 490.0) == (490.0,)
    assert split_lime(491.0, 490.0) == (245.5, 245.5)
    assert split_lime(1200.0, 490.0) == (400.0,) * 3 and split_lime(10.0, 490.0) == (10.0,)
    assert lime_product_g_m2(80.0, 80.0) == 100.0


def limed(*, fresh_ground: bool = False, **parts: Any) -> LimePlan:
    """The lime of a laboratory's rate of 600 g/m2."""
    test = {"ph": 5.0, "lime_rate": "600 g/m2", "on": date(2026, 10, 1)}
    brief = cases.brief(soil_test=test, **parts)
    found = lime_plan(brief, BOOK, "tall_fescue", fresh_ground=fresh_ground)
    assert found is not None
    return found


def test_a_laboratorys_rate_is_product_unless_a_bag_was_read() -> None:
    """In two parts of 300, four to six months apart; all at once on fresh ground."""
    lime = limed()
    assert (lime.product_g_m2, lime.pure_g_m2) == (pytest.approx(600), pytest.approx(600))
    assert lime.parts_g_m2 == pytest.approx((300, 300))
    assert (lime.gap_days, lime.gap_months, lime.fresh_ground) == ((122, 183), (4, 6), False)
    fresh = limed(fresh_ground=True)
    assert fresh.parts_g_m2 == pytest.approx((600,)) and fresh.fresh_ground
    read = limed(feeding={"lime_cce_percent": 80})
    assert (read.product_g_m2, read.pure_g_m2) == (pytest.approx(750), pytest.approx(750))


def test_what_was_given_since_comes_off_the_product() -> None:
    """Of a laboratory's rate and of a table's; nothing is left to give where it covers it."""
    since = {"history": {"lime": [{"rate": "400 g/m2", "on": date(2026, 11, 1)}]}}
    assert limed(**since).parts_g_m2 == pytest.approx((200,))
    assert "400" in told(limed(**since).reason, System.METRIC)
    assert "400" not in told(limed().reason, System.METRIC)
    enough = {"history": {"lime": [{"rate": "600 g/m2", "on": date(2026, 11, 1)}]}}
    test = {"ph": 5.0, "lime_rate": "600 g/m2", "on": date(2026, 10, 1)}
    assert lime_plan(cases.brief(soil_test=test, **enough), BOOK, "tall_fescue") is None
    table = {"ph": 5.0, "acidity_cmol_kg": 6.5, "on": date(2026, 10, 1)}
    lime = lime_plan(cases.brief(soil_test=table, **since), BOOK, "tall_fescue")
    assert lime is not None
    product = 110 * 4.88242763638305 / 0.9 - 400
    assert lime.product_g_m2 == pytest.approx(product)
    assert lime.pure_g_m2 == pytest.approx(product * 0.9)


def test_a_soil_that_asks_for_no_lime_gets_none() -> None:
    """Above its goal, and where the table asks for nothing."""
    assert lime_plan(cases.brief(soil_test={"ph": 7.0}), BOOK, "tall_fescue") is None
    unmoved = {"ph": 6.2, "buffer_ph": 7.2, "buffer_method": "sikora"}
    assert lime_plan(cases.brief(soil_test=unmoved), BOOK, "tall_fescue") is None


def test_potash_is_none_once_or_in_parts_of_what_grass_takes_at_once() -> None:
    """By its level; without a test nothing is said."""
    assert potassium_plan(cases.brief(), BOOK) is None
    rates = {}
    for level in ("low", "medium", "high"):
        found = potassium_plan(cases.brief(soil_test={"potassium": level}), BOOK)
        assert found is not None
        rates[level] = (found.rate_g_m2, found.reason.key)
    assert rates["high"] == (0.0, "feeding.potash.enough")
    assert rates["medium"] == (BOOK.si("feeding.potash_medium"), "feeding.potash.once")
    assert rates["low"] == (BOOK.si("feeding.potash_low"), "feeding.potash.parts")
    once = BOOK.si("feeding.potash_once")
    assert [potash_parts_of(BOOK, once * n) for n in (0.1, 1.0, 1.01, 2.0, 2.01)] == [1, 1, 2, 2, 3]


def test_phosphate_is_more_for_seed_than_for_a_lawn_that_stands() -> None:
    """Where the test asks for some."""
    brief = cases.brief(place=CONNECTICUT, soil_test=RECENT)
    rates = [
        phosphorus_plan(brief, BOOK, seeded=seeded, compost=False, today=TODAY).rate_g_m2
        for seeded in (True, False)
    ]
    names = ("feeding.phosphate_low", "feeding.phosphate_low_established")
    assert rates == [BOOK.si(name) for name in names] and rates[0] != rates[1]


def test_a_test_is_too_old_from_the_day_after_its_last() -> None:
    """By the book where no state says how old it may be."""
    oldest = int(BOOK.si("feeding.soil_test_age"))

    def rate(days: int) -> float:
        test = {"phosphorus": "low", "on": TODAY - timedelta(days)}
        brief = cases.brief(local={"phosphorus": "free"}, soil_test=test)
        found = phosphorus_plan(brief, BOOK, seeded=True, compost=False, today=TODAY)
        return found.rate_g_m2

    assert rate(oldest) > 0 and rate(oldest + 1) == 0


def test_a_medium_level_and_a_test_of_other_things_get_no_phosphate() -> None:
    """Each with its reason; a number that nobody can read too."""

    def why(**test: Any) -> str:
        brief = cases.brief(soil_test={"on": TODAY, **test})
        found = phosphorus_plan(brief, BOOK, seeded=True, compost=False, today=TODAY)
        assert found.rate_g_m2 == 0
        return found.reason.key

    assert why(phosphorus="medium") == "feeding.phosphate.enough"
    assert why(ph=6.5) == "feeding.phosphate.not_tested"
    assert why() == "feeding.phosphate.no_test"
    assert why(phosphorus="21 ppm") == "feeding.phosphate.unread"


def test_the_lime_of_parts_is_told_by_one_of_them() -> None:
    """With the months between."""
    (note,) = soil_test_notes(limed(), ())
    values = dict(note.values)
    assert (values["parts"], values["least"], values["most"]) == (2, 4, 6)
    assert values["rate"].value == pytest.approx(300)
    (once,) = soil_test_notes(limed(fresh_ground=True), ())
    assert dict(once.values)["rate"].value == pytest.approx(600)
    assert soil_test_notes(None, (None,)) == ()


def test_a_bag_with_phosphorus_may_be_used_where_the_test_finds_it_low() -> None:
    """Compost takes away what is added, not the leave of test and law; high phosphorus does."""
    short = {}
    for level in ("low", "high"):
        test = {"phosphorus": level, "on": date(2026, 10, 1)}
        brief = cases.brief(soil_test=test, feeding={"analysis": "15-4-10"})
        for compost in (True, False):
            found = phosphorus_plan(brief, BOOK, seeded=True, compost=compost, today=TODAY)
            short[level, compost] = found.short
            if compost and level == "low":
                assert found.rate_g_m2 == 0.0
                assert found.reason == phrases.phosphate_compost_bag(bag="15-4-10")
    assert short == {(level, c): level == "low" for level, c in short}
