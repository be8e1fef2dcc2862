"""How many numbers of the book are judgement, and that what is left says what it judges."""

from collections.abc import Iterator

import pytest
from pydantic import ValidationError

from turfplan.app.book_facts import book_facts
from turfplan.book.facts import Fact
from turfplan.files.reading.book import load_book

# The part of the numbers of a group that may be judgement.
MOST = 0.25
SEED_FACTS = frozenset(
    {
        "seed_rate_new",
        "seed_rate_overseed",
        "seed_cover_max",
        "germination_days",
        "thousand_seeds",
        "plug_spacing",
    }
)
# What prepares a lawn for seed and plants, and puts them in.
SEEDING = frozenset({"seeding", "planting", "starter", "dethatch", "aerate"})
GROUPS = {
    "water": "water",
    "windows": "windows",
    "feeding": "feeding",
    "compost": "feeding",
    "mowing": "feeding",
    "lime": "feeding",
}


def group_of(name: str) -> str | None:
    """The group whose share is held, or None for a number of no such group."""
    file, *_, last = name.split(".")
    if file in SEEDING or (file == "species" and last in SEED_FACTS):
        return "seeding"
    return "species" if file == "species" else GROUPS.get(file)


def held() -> Iterator[tuple[str, Fact]]:
    """Each fact of the groups, with its group."""
    for name, fact in load_book().facts.items():
        group = group_of(name)
        if group is not None:
            yield group, fact


@pytest.mark.parametrize("group", ["species", "water", "feeding", "seeding", "windows"])
def test_less_than_a_quarter_is_judgement(group: str) -> None:
    """Of each group under a quarter of the numbers rest on no source."""
    facts = [fact for where, fact in held() if where == group]
    judged = [fact.name for fact in facts if fact.is_judgement]
    assert len(facts) > 50
    assert len(judged) < MOST * len(facts), judged


def test_every_judgement_left_says_what_it_judges() -> None:
    """Taste of scheduling or agronomy: in the groups that are held."""
    silent = [fact.name for _, fact in held() if fact.is_judgement and fact.judges is None]
    assert not silent


def test_every_derived_number_says_how() -> None:
    """In the groups that are held a derivation stands in the note or beside its place."""
    silent = [
        fact.name
        for _, fact in held()
        if fact.basis in ("derived", "computed") and not (fact.note or fact.place)
    ]
    assert not silent


def test_a_number_with_a_source_judges_nothing() -> None:
    """What a judgement judges is said of a judgement alone, and in a closed vocabulary."""
    judged = {"name": "a", "value": 1, "unit": "days", "note": "why", "judges": "schedule"}
    assert Fact.model_validate({**judged, "source": "judgement"}).judges == "schedule"
    for wrong in ({"source": "S03"}, {"source": "judgement", "judges": "taste"}):
        with pytest.raises(ValidationError):
            Fact.model_validate({**judged, **wrong})


def test_the_table_of_facts_says_what_a_judgement_judges() -> None:
    """And how a derived number was derived."""
    rows = {row.name: row for row in book_facts()}
    assert rows["windows.soon"].source.endswith("[taste of scheduling]")
    assert rows["water.kc_wet_surface"].source.endswith("[agronomy]")
    assert rows["windows.soon"].as_dict()["judges"] == "schedule"
    assert "[derived]: half of it" in rows["water.capacity_rubble"].source
