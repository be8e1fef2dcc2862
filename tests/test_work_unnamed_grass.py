"""A lawn whose grass nobody can name is planned for, by looks or by what holds for each."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of, climate_at, first, plan_of
from turfplan.files.reading.book import load_book
from turfplan.message import Message, listed
from turfplan.phrases import unnamed_grass as phrases
from turfplan.work.unnamed_grass import _seasons, is_unnamed, likely, with_named_grass

NONE = listed(())

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


@pytest.mark.full
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


@pytest.mark.full
def test_warm_lawn_is_not_sown_before_it_has_a_name() -> None:
    """Seed of the wrong warm grass would stand like a weed: the plan asks for its name."""
    plan = plan_of({"lawn": {"grass": "unknown"}, "place": PERTH})
    assert plan.conflict is not None
    assert "species in [seeding]" in str(plan.conflict.reasons[0])


@pytest.mark.full
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


def winter(air_c: float, **looks: Any) -> tuple[str, ...]:
    """The seasons of grass where the coldest day has so much warmth."""
    climate = climate_at(36.2, -86.8)
    place = replace(climate, air_mean_c=(air_c, *(25.0,) * 364))
    return _seasons(brief_of({"lawn": {"grass": "unknown", **looks}}), load_book(), place)


def test_the_season_of_a_grass_follows_midwinter_and_what_was_seen_then() -> None:
    """At the marks it is one alone whatever was seen; between them both, the likelier first."""
    book = load_book()
    cool, warm = book.si("site.cool_winter"), book.si("site.warm_winter")
    middle = (cool + warm) / 2
    assert winter(cool) == winter(cool, green_in_winter=False) == ("cool",)
    assert winter(warm) == winter(warm, green_in_winter=True) == ("warm",)
    assert winter(cool + 0.1) == winter(middle - 0.1) == ("cool", "warm")
    assert winter(middle) == winter(warm - 0.1) == ("warm", "cool")
    assert winter(middle, green_in_winter=True) == ("cool",)
    assert winter(middle, green_in_winter=False) == ("warm",)


def test_only_looks_that_are_missing_are_asked_for() -> None:
    """By looks where somebody looked in winter or at the blade, else by the place."""
    book, climate = load_book(), climate_at(40.0, -76.3)

    def notes(**looks: Any) -> list[Message]:
        return with_named_grass(brief_of({"lawn": {"grass": "unknown", **looks}}), book, climate)[1]

    every = {"green_in_winter": True, "runners": False, "leaf": "broad"}
    assert [note.key for note in notes(**every)] == [phrases.by_looks(grasses=NONE).key]
    winter_alone, ask = notes(green_in_winter=True)
    assert winter_alone.key == phrases.by_looks(grasses=NONE).key
    missing = listed([phrases.ask_runners(), phrases.ask_leaf()], "semicolon")
    assert ask == phrases.ask(looks=missing)
    runners, ask = notes(runners=True)
    assert runners.key == phrases.by_place(grasses=NONE).key
    missing = listed([phrases.ask_winter(), phrases.ask_leaf()], "semicolon")
    assert ask == phrases.ask(looks=missing)
    blade, _ = notes(leaf="broad")
    assert blade.key == phrases.by_looks(grasses=NONE).key


def test_parts_without_a_name_take_that_of_the_largest() -> None:
    """Their shares add up; a stand whose largest part has no name is named anew, in equal shares;
    one that is named stays as it is."""
    book, climate = load_book(), climate_at(40.0, -76.3)

    def named(*parts: tuple[str, float]) -> dict[str, float]:
        grass = [{"species": name, "share": share} for name, share in parts]
        brief, _ = with_named_grass(brief_of({"lawn": {"grass": grass}}), book, climate)
        return {part.species: part.share for part in brief.lawn.grass}

    found = named(("tall_fescue", 0.5), ("unknown", 0.2), ("kentucky_bluegrass", 0.3))
    assert found == {"tall_fescue": 0.7, "kentucky_bluegrass": 0.3}
    shares = named(("unknown", 0.7), ("tall_fescue", 0.3))
    assert set(shares.values()) == {1 / 3} and len(shares) == 3
    plain = brief_of()
    assert with_named_grass(plain, book, climate) == (plain, [])
    assert is_unnamed(brief_of({"lawn": {"grass": "mixed"}})) and not is_unnamed(plain)
