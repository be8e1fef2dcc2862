"""What a soil test asks for, as it is told: lime, potash and phosphate, or why none."""

from datetime import date
from typing import Any

import pytest

import water_cases as cases
from told import all_told, told
from turfplan.units import System
from turfplan.work.feeding.nutrients import (
    lime_plan,
    phosphorus_plan,
    potassium_plan,
    soil_test_notes,
)

BOOK = cases.book()
TODAY = date(2027, 3, 1)
RECENT = {"phosphorus": "low", "on": date(2027, 1, 1)}
NONE = ": use a product whose middle number is 0."
CONNECTICUT = {"latitude": 41.0, "longitude": -73.0, "country": "US", "state": "CT"}


@pytest.mark.parametrize(
    ("parts", "changes", "reason"),
    [
        (1, {"feeding": {"lime_cce_percent": 100}}, "100 % calcium carbonate equivalent."),
        (1, {}, "90 % calcium carbonate equivalent (assumed)."),
        (
            3,
            {"soil_test": {"acidity_cmol_kg": 11.0}, "feeding": {"lime_cce_percent": 87.5}},
            "87.5 % calcium carbonate equivalent, in 3 parts so that the surface takes it.",
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
        ("banned", RECENT, False, f"Phosphorus is banned here (brief){NONE}"),
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
