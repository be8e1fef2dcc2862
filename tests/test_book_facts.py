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


def fact(**keys: object) -> Fact:
    """A made-up fact of a publication, in inches."""
    return Fact.model_validate({"name": "a.b", "unit": "in", "source": "S03", **keys})


def taken(**keys: object) -> bool:
    """Whether a fact is one."""
    try:
        fact(**keys)
    except ValidationError:
        return False
    return True


@pytest.mark.full
@pytest.mark.parametrize(
    ("keys", "sound"),
    [
        ({"value": 2}, True),
        ({"value": 0}, True),
        ({}, False),
        ({"low": 1}, False),
        ({"high": 1}, False),
        ({"low": 1, "high": 2}, True),
        ({"low": 2, "high": 2}, True),
        ({"low": 2.1, "high": 2}, False),
        ({"value": 1, "low": 1, "high": 2}, True),
        ({"value": 2, "low": 1, "high": 2}, True),
        ({"value": 0.9, "low": 1, "high": 2}, False),
        ({"value": 2.1, "low": 1, "high": 2}, False),
        ({"value": 2, "low": 1}, True),
        ({"value": 0.9, "low": 1}, False),
        ({"value": 1, "high": 2}, True),
        ({"value": 2.1, "high": 2}, False),
        ({"value": -1, "low": 0, "high": 2}, False),
        ({"value": 5, "low": -3, "high": 0}, False),
        ({"value": 0, "low": 0, "high": 0}, True),
        ({"value": 1, "source": "judgement"}, False),
        ({"value": 1, "source": "judgement", "note": "why"}, True),
        ({"value": 1, "unit": "furlong"}, False),
        ({"value": 1, "unit": ""}, True),
    ],
)
def test_a_fact_has_a_value_or_both_ends_and_lies_between_them(
    keys: dict[str, object], *, sound: bool
) -> None:
    """Ends count, and nought is an end; a judgement says why; a unit is known."""
    assert taken(**keys) == sound


def test_a_fact_is_its_value_else_the_middle_of_its_ends() -> None:
    """In the inside unit; an end that is not there is the value."""
    assert fact(value=2).si == pytest.approx(50.8)
    span = fact(low=1, high=4)
    assert (span.low_si, span.si, span.high_si) == pytest.approx((25.4, 63.5, 101.6))
    both = fact(value=2, low=1, high=4)
    assert (both.low_si, both.si, both.high_si) == pytest.approx((25.4, 50.8, 101.6))
    alone = fact(value=2)
    assert (alone.low_si, alone.high_si) == pytest.approx((50.8, 50.8))
    none = fact(value=0, low=-1, high=0)
    assert (none.low_si, none.si, none.high_si) == pytest.approx((-25.4, 0.0, 0.0))
    warm = fact(low=50, high=68, unit="F")
    assert (warm.low_si, warm.si, warm.high_si) == pytest.approx((10.0, 15.0, 20.0))


def test_a_fact_has_the_dimension_of_its_unit() -> None:
    """And is a judgement where no source stands behind it."""
    assert [fact(value=1, unit=u).dimension for u in ("in", "F", "%")] == [
        "length",
        "temperature",
        "share",
    ]
    assert not fact(value=1).is_judgement
    assert fact(value=1, source="judgement", note="why").is_judgement
