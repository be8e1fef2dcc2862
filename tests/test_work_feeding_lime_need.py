"""How much lime a soil test asks for, row by row and border by border."""

from dataclasses import replace
from datetime import date
from functools import lru_cache
from typing import Any

import pytest

import water_cases as cases
from planning import brief_of
from resolved_lawns import setting_of
from turfplan.work.feeding import lime_need as rules
from turfplan.work.feeding.lime_need import (
    given_before_g_m2,
    holds_lime,
    lime_need,
    on_fresh_ground,
    ph_goal,
    soil_of,
    wants_lime,
)
from turfplan.work.lawn import ResolvedLawn, in_its_state

BOOK = cases.book()
LB = 4.88242763638305  # of a pound to 1,000 ft2, g/m2
ARKANSAS = {"latitude": 36.0, "longitude": -94.2, "country": "US", "state": "AR"}
CAROLINA = {"latitude": 35.8, "longitude": -78.6, "country": "US", "state": "NC"}


def brief(place: dict[str, Any] | None = None, soil: str | None = None, **test: Any) -> Any:
    """A brief with a soil test."""
    lawn = {} if soil is None else {"soil": soil}
    given = cases.brief(soil_test=test, lawn=lawn)
    if place is None:
        return given
    return given.model_copy(
        update={"place": given.place.model_copy(update={"state": place["state"]})}
    )


def needed(species: str = "tall_fescue", **changes: Any) -> float | None:
    """What a test asks for, g/m2."""
    fresh = changes.pop("fresh_ground", False)
    need = lime_need(brief(**changes), BOOK, species, fresh_ground=fresh)
    return None if need is None else need.rate_g_m2


@pytest.mark.parametrize(
    ("acidity", "species", "pounds"),
    [
        (0.5, "tall_fescue", 50),
        (2.6, "tall_fescue", 50),
        (3.3, "tall_fescue", 50),
        (3.31, "tall_fescue", 70),
        (3.9, "tall_fescue", 70),
        (6.5, "tall_fescue", 110),
        (6.6, "tall_fescue", 110),
        (7.2, "tall_fescue", 140),
        (6.5, "fine_fescue", 70),  # the goal of 6.0
        (6.5, "centipede", 70),  # 5.5: the next higher goal of the table
        (6.5, "buffalo", 160),  # 7.0
        (40.0, "tall_fescue", 530),  # the last row
    ],
)
def test_acidity_is_read_from_the_next_higher_row_and_goal(
    acidity: float, species: str, pounds: int
) -> None:
    """Of Penn State's table."""
    found = needed(species, ph=4.5, acidity_cmol_kg=acidity)
    assert found == pytest.approx(pounds * LB)


@pytest.mark.parametrize(
    ("buffer", "ph", "species", "rate"),
    [
        (6.9, 5.0, "tall_fescue", 112.085),
        (6.89, 5.0, "tall_fescue", 179.336),  # the row of 6.8
        (7.0, 5.0, "tall_fescue", 112.085),
        (7.01, 5.0, "tall_fescue", 0.0),  # more than a tenth above the table: it has not moved
        (4.8, 5.0, "tall_fescue", 2734.877),
        (4.79, 5.0, "tall_fescue", None),
        (6.5, 5.0, "fine_fescue", 269.004),  # the goal of 6.0
        (6.5, 4.9, "centipede", 156.919),  # 5.5 is nearest to 5.6
        (6.5, 5.0, "buffalo", 560.426),  # 7.0 lies between 6.8 and 7.2: the lower
        (6.5, 6.39, "tall_fescue", 403.506),
        (6.5, 6.4, "tall_fescue", 0.0),  # the target of the table is reached
    ],
)
def test_the_sikora_buffer_is_read_from_the_row_below_and_the_nearest_target(
    buffer: float, ph: float, species: str, rate: float | None
) -> None:
    """Of 6 in of soil four are the lawn's, and five are worked."""
    asked = {"ph": ph, "buffer_ph": buffer, "buffer_method": "sikora"}
    found = needed(species, **asked)
    assert found == (None if rate is None else pytest.approx(rate * 4 / 6, abs=0.001))
    fresh = needed(species, **asked, fresh_ground=True)
    assert fresh == (None if rate is None else pytest.approx(rate * 5 / 6, abs=0.001))


@pytest.mark.parametrize(
    ("buffer", "ph", "rate"),
    [
        (6.1, 5.0, 0.5 * 4 * 1.5 / 1.6 * 224.17),
        (6.6, 5.0, 0.0),
        (6.7, 5.0, 0.0),
        (6.1, 5.8, 0.5 * 4 * 0.7 / 0.8 * 224.17),
    ],
)
def test_the_mehlich_buffer_follows_its_formula(buffer: float, ph: float, rate: float) -> None:
    """Acidity by what the buffer lost of 6.6, of which so much as lies between pH and goal 6.5."""
    found = needed(ph=ph, buffer_ph=buffer, buffer_method="mehlich")
    assert found == pytest.approx(rate * 4 / 6, rel=1e-4, abs=1e-9)


def test_all_of_the_acidity_is_limed_where_the_goal_lies_above_the_buffer() -> None:
    """Buffalograss has a goal of 7.0: above 6.6, and so is the pH of the second."""
    asked = {"buffer_ph": 6.1, "buffer_method": "mehlich"}
    whole = 0.5 * 4 * 224.17 * 4 / 6
    assert needed("buffalo", ph=6.0, **asked) == pytest.approx(whole, rel=1e-4)
    assert needed("buffalo", ph=6.8, **asked) == pytest.approx(whole, rel=1e-4)
    assert needed("buffalo", ph=6.6, **asked) == pytest.approx(whole, rel=1e-4)


def test_a_laboratorys_rate_goes_before_acidity_and_that_before_a_buffer() -> None:
    """As it was written; it may stand without a pH."""
    every = {
        "ph": 5.0,
        "lime_rate": "200 g/m2",
        "acidity_cmol_kg": 6.5,
        "buffer_ph": 6.5,
        "buffer_method": "sikora",
    }
    need = lime_need(brief(**every), BOOK, "tall_fescue")
    assert need is not None and need.as_written and need.rate_g_m2 == pytest.approx(200)
    assert needed(lime_rate="200 g/m2") == pytest.approx(200)
    del every["lime_rate"]
    by_acidity = lime_need(brief(**every), BOOK, "tall_fescue")
    assert by_acidity is not None and not by_acidity.as_written
    assert by_acidity.rate_g_m2 == pytest.approx(110 * LB)
    assert needed(ph=5.0) is None and needed(acidity_cmol_kg=6.5) is None
    assert needed(ph=5.0, buffer_ph=6.5, buffer_method="smp") is None


def test_peat_takes_no_lime_by_a_table_of_mineral_soil() -> None:
    """The laboratory's own rate it does."""
    assert needed(soil="peat", ph=4.5, acidity_cmol_kg=6.5) is None
    assert needed(soil="peat", ph=4.5, lime_rate="200 g/m2") == pytest.approx(200)


def goal(species: str = "tall_fescue", **changes: Any) -> tuple[float, float, float, bool]:
    """The goal, that below which lime is given, what is too high, and whether a state says so."""
    found = ph_goal(brief(**changes), BOOK, species)
    return found.goal, found.limed_below, found.high, found.by_state


def test_a_ph_alone_asks_for_lime_below_the_range_of_the_grass() -> None:
    """What a laboratory measured asks for it below the goal."""
    assert goal(ph=6.2) == (6.5, 6.0, 7.5, False)
    assert goal("centipede", ph=5.2) == (5.5, 5.0, 6.0, False)
    for measured in (
        {"lime_rate": "9 g/m2"},
        {"acidity_cmol_kg": 3.0},
        {"buffer_ph": 6.5},
    ):
        assert goal(ph=6.2, **measured) == (6.5, 6.5, 7.5, False)


def mixed(main: float, **changes: Any) -> tuple[float, float, float]:
    """The goal, the limit and the high end of browntop on a share, with ryegrass on the rest."""
    rest = {"species": "perennial_ryegrass", "share": round(1 - main, 2)}
    grass = [{"species": "browntop", "share": main}, rest]
    species = "browntop" if main >= 0.5 else "perennial_ryegrass"
    found = ph_goal(
        cases.brief(lawn={"grass": grass}, soil_test={"ph": 5.2}, **changes), BOOK, species
    )
    return found.goal, found.limed_below, found.high


def test_a_mixed_stand_is_limed_to_what_every_grass_that_counts_bears() -> None:
    """Ryegrass begins at 6.0 and browntop ends at 7.0, whichever is more; a tenth does not count,
    nor what is killed.
    """
    assert mixed(0.6) == (6.0, 6.0, 7.0)
    assert mixed(0.4) == (6.5, 6.0, 7.0)
    assert mixed(0.9) == (5.5, 5.0, 7.0)
    assert mixed(0.6, seeding={"intent": "renovate"}) == (5.5, 5.0, 7.0)


def test_states_have_goals_and_limits_of_their_own() -> None:
    """North Carolina aims at 6.0 for zoysia, Arkansas limes below 5.8; peat has its own goal."""
    assert goal("zoysia", place=CAROLINA, ph=5.5) == (6.0, 6.0, 7.5, False)
    assert goal("zoysia", place=ARKANSAS, ph=5.5) == (6.5, 5.8, 7.5, True)
    assert goal("zoysia", place=ARKANSAS, soil="peat", ph=5.5) == (5.3, 5.3, 7.5, False)
    assert goal("centipede", soil="peat", ph=5.5)[0] == 5.3
    assert goal("bahia", soil="peat", ph=5.5)[:2] == (5.3, 5.3)


def test_lime_is_wanted_below_the_limit_and_nowhere_on_limy_soil() -> None:
    """Not at it; without a pH where the laboratory asks for some."""

    def wants(**changes: Any) -> bool:
        return wants_lime(brief(**changes), BOOK, "tall_fescue")

    assert [wants(ph=ph) for ph in (5.9, 6.0, 6.1)] == [True, False, False]
    assert [wants(ph=ph, acidity_cmol_kg=3.0) for ph in (6.4, 6.5)] == [True, False]
    assert wants(lime_rate="9 g/m2") and not wants(phosphorus="low")
    assert not wants(ph=5.0, free_lime=True) and not wants(ph=5.0, soil="chalk")
    assert wants(ph=5.0, free_lime=False)


def test_soil_is_called_as_the_book_calls_it() -> None:
    """Or not at all; lime is in chalk, and where it was found."""
    assert soil_of(brief()) is None and soil_of(brief(soil="Sandy-Clay loam")) == "sandy_clay_loam"
    assert holds_lime(brief(soil="chalk")) and holds_lime(brief(free_lime=True))
    assert not holds_lime(brief(soil="loam")) and not holds_lime(brief())


def test_a_lawn_lies_in_the_state_of_its_climate_where_the_brief_names_none() -> None:
    """Its own stands."""
    climate = replace(cases.cool_climate(), state="AR")
    assert in_its_state(brief(), climate).place.state == "AR"
    assert in_its_state(brief(place=CAROLINA), climate).place.state == "NC"
    assert in_its_state(brief(), cases.cool_climate()).place.state is None


@pytest.mark.parametrize(
    ("condition", "intent", "renewed", "fresh"),
    [
        ("bare", "overseed", True, True),
        ("bare", "none", False, False),
        ("bare", "plant", True, True),
        ("thin", "plant", True, False),
        ("thin", "renovate", True, True),
        ("thin", "renovate", False, False),
        ("thin", "overseed", True, False),
    ],
)
def test_lime_is_worked_in_where_ground_is_sown_anew(
    condition: str, intent: str, *, renewed: bool, fresh: bool
) -> None:
    """Bare ground that is planted, too."""
    given = cases.brief(lawn={"condition": condition}, seeding={"intent": intent})
    assert on_fresh_ground(given, renewed=renewed) is fresh


@lru_cache(4)
def lawn(depth: str, condition: str = "bare") -> ResolvedLawn:
    """The plain lawn in a condition, filled so deep."""
    intent = {"seeding": {"intent": "renovate"}} if condition == "bare" else {}
    fill = {"leveling": {"depth": depth}, "lawn": {"condition": condition}}
    return setting_of(brief_of(fill, intent))


def test_topsoil_buries_the_soil_that_was_tested_from_the_depth_of_roots_on() -> None:
    """Four inches, on bare ground; a test of the topsoil itself is none of the buried."""
    assert BOOK.si("lime.turf_depth") == pytest.approx(101.6)
    deep = lawn("4 in")
    assert rules.tested_soil_goes_under(deep) and rules.test_of_the_buried(deep)
    assert not rules.tested_soil_goes_under(lawn("3.9 in"))
    assert not rules.tested_soil_goes_under(lawn("4 in", "thin"))
    test = deep.brief.soil_test.model_copy(update={"of": "topsoil"})
    of_topsoil = replace(deep, brief=deep.brief.model_copy(update={"soil_test": test}))
    assert not rules.test_of_the_buried(of_topsoil)


def test_lime_given_before_counts_by_what_the_test_has_not_seen() -> None:
    """All since the test; before it 8 % less for each month, nothing after thirteen."""
    day = date(2026, 10, 1)

    def given(*uses: tuple[float, date], on: date | None = day) -> float:
        history = {"lime": [{"rate": f"{rate} g/m2", "on": when} for rate, when in uses]}
        test = {"ph": 5.5} | ({} if on is None else {"on": on})
        return given_before_g_m2(cases.brief(soil_test=test, history=history), BOOK)

    assert given() == 0.0
    assert given((100, day)) == given((100, date(2027, 1, 1))) == pytest.approx(100)
    months = (day - date(2026, 5, 1)).days / (365.25 / 12)
    assert given((100, date(2026, 5, 1))) == pytest.approx(100 * (1 - 0.08 * months))
    assert given((100, date(2025, 9, 1))) == 0.0
    assert given((100, date(2025, 9, 1)), on=None) == pytest.approx(100)
    assert given((100, day), (50, day)) == pytest.approx(150)
