"""A lawn whose grass nobody can name is planned for, by looks or by what holds for each."""

from typing import Any

import pytest

from planning import brief_of, climate_at, first, plan_of
from turfplan.files.reading.book import load_book
from turfplan.work.unnamed_grass import likely, with_named_grass

PERTH = {"postal_code": None, "country": "AU", "latitude": -32.0, "longitude": 115.9}


@pytest.mark.parametrize(
    ("looks", "grass"),
    [
        ({"green_in_winter": True, "leaf": "broad", "runners": False}, {"tall_fescue"}),
        ({"green_in_winter": False, "leaf": "broad", "runners": True}, {"st_augustine"}),
        ({"green_in_winter": True, "leaf": "medium", "runners": True}, {"kentucky_bluegrass"}),
    ],
)
def test_three_looks_name_the_grass(looks: dict[str, Any], grass: set[str]) -> None:
    """Green in winter, runners and the width of the blade tell the common grasses apart."""
    brief = brief_of({"lawn": {"grass": "unknown", **looks}})
    assert set(likely(brief, load_book(), climate_at(33.7, -84.4))) <= grass | {"bahia"}


def test_without_looks_it_is_what_holds_for_each() -> None:
    """The strictest grass comes first, and the looks are asked for."""
    book, climate = load_book(), climate_at(40.0, -76.3)
    named, notes = with_named_grass(brief_of({"lawn": {"grass": "unknown"}}), book, climate)
    caps = [book.si(f"species.{g.species}.pass_cap") for g in named.lawn.grass]  # type: ignore[arg-type]
    assert caps == sorted(caps)
    assert len(notes) == 2


@pytest.mark.parametrize("word", ["unknown", "mixed"])
def test_both_words_are_answers(word: str) -> None:
    """A lawn of no name has a plan, north and south."""
    plan = plan_of({"lawn": {"grass": word}})
    assert plan.conflict is None
    assert any("Nobody could name" in str(line) for line in plan.assumptions)
    assert "tall fescue" not in str(first(plan, "overseed").title)
    south = plan_of({"lawn": {"grass": word}, "place": PERTH, "seeding": {"intent": "none"}})
    assert south.conflict is None
    assert {g.species for g in south.lawn.grass} <= {"bermuda_common", "st_augustine", "zoysia"}


def test_warm_lawn_is_not_sown_before_it_has_a_name() -> None:
    """Seed of the wrong warm grass would stand like a weed: the plan asks for its name."""
    plan = plan_of({"lawn": {"grass": "unknown"}, "place": PERTH})
    assert plan.conflict is not None
    assert "species in [seeding]" in str(plan.conflict.reasons[0])


def test_part_of_a_stand_may_be_unknown() -> None:
    """The unnamed part of a mixed stand goes with the largest named one."""
    grass = [{"species": "tall_fescue", "share": 0.7}, {"species": "unknown", "share": 0.3}]
    plan = plan_of({"lawn": {"grass": grass}})
    assert [g.species for g in plan.lawn.grass] == ["tall_fescue"]


@pytest.mark.parametrize(
    ("place", "looks", "grasses"),
    [
        ((40.0, -76.3), {}, ("kentucky_bluegrass", "perennial_ryegrass", "tall_fescue")),
        ((36.2, -86.8), {}, ("tall_fescue", "bermuda_common")),
        ((36.2, -86.8), {"green_in_winter": False}, ("bermuda_common", "zoysia")),
        ((33.7, -84.4), {"green_in_winter": True}, ("tall_fescue",)),
        ((29.6, -82.3), {}, ("bermuda_common", "st_augustine", "zoysia")),
    ],
)
def test_one_of_each_season_where_either_may_grow_else_three_of_the_one(
    place: tuple[float, float], looks: dict[str, Any], grasses: tuple[str, ...]
) -> None:
    """Tennessee may have either until somebody looks in winter; Pennsylvania and Florida have one
    season; the strictest of each comes first.
    """
    brief = brief_of({"lawn": {"grass": "unknown", **looks}})
    assert likely(brief, load_book(), climate_at(*place)) == grasses
