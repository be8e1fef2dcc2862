"""What the book answers, and which region is in force at a place."""

from dataclasses import replace

import pytest
from pydantic import ValidationError

from turfplan.book.entries import Cause, Harm, Herbicide, Overlay, Species, choose_region
from turfplan.book.window_rules import WindowRule
from turfplan.files.reading.book import load_book

BOOK = load_book()
NAME = "topdress.settle_allowance"


def overlay(name: str, countries: tuple[str, ...], *states: str) -> Overlay:
    """A region of some countries, and of some of their states."""
    return Overlay.model_construct(id=name, countries=countries, states=states)


OVERLAYS = {
    one.id: one
    for one in (
        overlay("nation", ("US", "CA")),
        overlay("east", ("US",), "PA", "NJ"),
        overlay("isles", ("GB",), "SCT"),
    )
}


@pytest.mark.parametrize(
    ("country", "state", "region"),
    [
        ("US", "PA", "east"),
        ("US", "nj", "east"),
        ("US", "TX", "nation"),
        ("US", None, "nation"),
        ("CA", "PA", "nation"),
        ("GB", "SCT", "isles"),
        ("GB", "ENG", None),
        ("GB", None, None),
        (None, "PA", None),
        ("FR", None, None),
    ],
)
def test_a_state_comes_before_its_country(
    country: str | None, state: str | None, region: str | None
) -> None:
    """However it is written; a region of states alone is none of the rest of its country."""
    assert choose_region(OVERLAYS, country, state, None) == region


def test_a_fact_is_found_by_its_name() -> None:
    """With its default, its ends, and whether it is there."""
    fact = BOOK.facts[NAME]
    assert BOOK.fact(NAME) is BOOK.get(NAME) is fact  # type: ignore[arg-type]
    assert BOOK.si(NAME) == fact.si == BOOK.si(NAME)  # type: ignore[arg-type]
    assert (BOOK.low_si(NAME), BOOK.high_si(NAME)) == (fact.low_si, fact.high_si)  # type: ignore[arg-type]
    assert BOOK.known(NAME) == NAME and BOOK.known("no.such.fact") is None  # type: ignore[arg-type]
    assert BOOK.get("no.such.fact") is None  # type: ignore[arg-type]


def test_settings_are_those_of_the_region_in_force() -> None:
    """None where there is no region, or where it does not say."""
    setting = "quiet_sundays"
    yes = overlay("yes", ("US",)).model_copy(update={"settings": {setting: False}})
    book = replace(BOOK, overlays={"yes": yes}, region="yes")
    assert book.setting(setting) is False  # type: ignore[arg-type]
    assert book.setting("other") is None  # type: ignore[arg-type]
    assert replace(book, region=None).setting(setting) is None  # type: ignore[arg-type]
    assert book.region_ids == ("yes",)


def test_judgements_are_counted_and_the_winter_grass_is_found() -> None:
    """One of the two of them."""
    judged = [fact for fact in BOOK.facts.values() if fact.source == "judgement"]
    assert BOOK.judgements() == len(judged) > 0
    assert BOOK.species[BOOK.winter_cover].winter_cover


@pytest.mark.parametrize(
    ("season", "habit", "creeps"),
    [
        ("warm", "stolon and rhizome", True),
        ("cool", "stolon and rhizome", False),
        ("warm", "stolon", False),
        ("cool", "bunch", False),
    ],
)
def test_a_strong_creeper_is_a_warm_grass_with_runners_of_both_kinds(
    season: str, habit: str, *, creeps: bool
) -> None:
    """Neither alone."""
    assert Species.model_construct(season=season, habit=habit).creeps == creeps


def test_words_rest_on_each_of_their_sources() -> None:
    """The harm that a product does, and that it is carried on, where it is."""
    harms = tuple(Harm(grass=g, source=s) for g, s in (("rye", "S1"), ("fescue", "S2")))
    assert Herbicide.model_construct(harms=harms, carried="S3").sources == ("S1", "S2", "S3")
    assert Herbicide.model_construct(harms=harms, carried=None).sources == ("S1", "S2")


def test_what_is_said_of_loosened_ground_ends_with_when_it_is_over() -> None:
    """Where that is said."""
    ways = ("dig", "rake")
    assert Cause.model_construct(tilled_how=ways, tilled_over="done").tilled == (*ways, "done")
    assert Cause.model_construct(tilled_how=ways, tilled_over=None).tilled == ways


def test_a_window_names_its_facts_with_their_dimensions() -> None:
    """Its best day, how far off it may be, and those of its conditions; it rests on something."""
    rule = next(w for w in BOOK.windows if any(True for c in w.opens for _ in c.facts()))
    plain = rule.model_copy(
        update={"best_within": None, "cool_best_within": None, "best_with_rain": None}
    )
    within = plain.model_copy(update={"cool_best_within": "windows.soon"})
    names = list(plain.facts())
    assert names[:2] == [(rule.best, ("share",)), (rule.least_days, ("days",))]
    assert list(within.facts())[2] == ("windows.soon", ("days",))
    assert list(within.facts())[3:] == names[2:]
    conditions = [pair for c in (*rule.opens, *rule.closes) for pair in c.facts()]
    assert names[2:] == conditions
    named = {name for c in (*rule.opens, *rule.closes) for _, name in c if name in BOOK.facts}
    assert {name for name, _ in conditions} >= named
    for name, dimensions in conditions:
        if name in BOOK.facts:
            assert BOOK.facts[name].dimension in dimensions
    data = rule.model_dump()
    assert WindowRule.model_validate({**data, "rests_on": ("a.b",)}).rests_on == ("a.b",)
    with pytest.raises(ValidationError):
        WindowRule.model_validate({**data, "rests_on": ()})
