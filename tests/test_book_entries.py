"""What the book answers, and which region is in force at a place."""

from dataclasses import replace

import pytest

from turfplan.book.entries import Overlay, choose_region
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
