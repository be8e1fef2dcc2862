"""The schema of the book: its own faults, the names of its rows, and what it asks of facts."""

from typing import Any

import pytest

from turfplan.book.facts import Fact
from turfplan.book.schema import Row, Rule, fact_faults, missing_faults, rules_of, schema_of
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message, Number
from turfplan.phrases import book_faults, errors


def row(**keys: object) -> dict[str, Any]:
    """A row of lengths from ten to a hundred millimetres."""
    return {"dimension": "length", "least": 10, "most": 100, **keys}


def table(**facts: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """A schema with a list of two words."""
    return {"words": {"size": ["small", "large"]}, "countries": {}, "facts": facts}


def faults(**facts: dict[str, dict[str, Any]]) -> list[tuple[str, str]]:
    """Where each fault of a schema lies, and what is said."""
    with pytest.raises(TurfplanError) as caught:
        schema_of(table(**facts))
    return [
        (str(p.where), p.message.key if isinstance(p.message, Message) else p.message)
        for p in caught.value.problems
    ]


def test_a_sound_schema_is_read() -> None:
    """Rows of one size, with words of a list or of the things of the book, are sound."""
    rows = {"a": row(least=10, most=10), "b_{size}": row(), "c_{species}_{soil}_{part}": row()}
    found = schema_of(table(group=rows))
    assert found.facts["group"]["a"] == Row(dimension="length", least=10, most=10)
    assert (found.facts["group"]["a"].needed, found.facts["group"]["a"].by) == ("always", "code")


def test_each_fault_of_a_schema_is_told_at_its_place() -> None:
    """An unknown dimension, ends the wrong way round, words of no list, a missing key."""
    found = faults(
        one={"a": row(dimension="lenght"), "b": row(least=101)}, two={"c_{sise}": row(), "d": row()}
    )
    assert found == [
        ("schema.toml: facts.one.a", book_faults.no_dimension().key),
        ("schema.toml: facts.one.b", book_faults.least_above_most().key),
        ("schema.toml: facts.two.c_{sise}", book_faults.unlisted_words().key),
    ]
    (missing,) = faults(one={"a": {"dimension": "length", "least": 1}})
    assert missing[0] == "schema.toml: facts.one.a.most"


def test_rows_become_names_with_each_of_their_words() -> None:
    """Of a group by its own name; of things by file and thing, with the words of each; what a fact
    is paired with has the same words.
    """
    schema = schema_of(
        table(
            water={"rate_{size}": row(paired="flow_{size}"), "flow_{size}": row()},
            species={"height": row(), "spread_{part}": row()},
            other={"{species}_on_{soil}": row()},
        )
    )
    rules = rules_of(
        schema,
        ["rye", "fescue"],
        ["clay"],
        {"species": {"rye": ["leaf"], "fescue": []}, "water": {"x": []}},
    )
    assert list(rules) == [
        "water.rate_small",
        "water.rate_large",
        "water.flow_small",
        "water.flow_large",
        "species.rye.height",
        "species.fescue.height",
        "species.rye.spread_leaf",
        "other.rye_on_clay",
        "other.fescue_on_clay",
    ]
    assert rules["water.rate_large"].paired == "water.flow_large"
    assert rules["water.flow_large"].paired is None


def told(fact: dict[str, object], **keys: object) -> list[Problem]:
    """What is wrong with a fact by a row."""
    known = Fact.model_validate({"name": "a.b", "source": "S03", **fact})
    return list(fact_faults("here", known, Row.model_validate(row(**keys))))


def test_a_fact_lies_within_its_ends() -> None:
    """Both count; each of its numbers is asked, each once."""
    for value, sound in ((10, True), (100, True), (9.9, False), (100.1, False)):
        assert (told({"value": value, "unit": "mm"}) == []) == sound
    assert told({"value": 1, "unit": "in"}) == []
    span = told({"low": 5, "value": 50, "high": 120, "unit": "mm"})
    assert [p.got for p in span] == ["5 mm", "120 mm"]
    (one,) = told({"value": 5, "unit": "mm"})
    assert one.where == "here" and one.message == book_faults.out_of_bounds()
    low, high = Number(10.0, "plain"), Number(100.0, "plain")
    assert one.allowed == errors.unit_range(low=low, high=high, unit="mm")


def test_a_fact_has_the_dimension_of_its_row() -> None:
    """A plain number has no unit at all, and its bounds none."""
    (other,) = told({"value": 50, "unit": "kg"})
    assert other.message == book_faults.other_unit(got="mass", wanted="length")
    (plain,) = told({"value": 50, "unit": "mm"}, dimension="count")
    assert plain.message == book_faults.not_plain() and plain.got == "mm"
    (large,) = told({"value": 500, "unit": ""}, dimension="count")
    low, high = Number(10.0, "plain"), Number(100.0, "plain")
    assert (large.got, large.allowed) == ("500", errors.number_range(low=low, high=high))
    assert told({"value": 50, "unit": ""}, dimension="count") == []


def test_what_is_missing_is_told_where_it_is_needed() -> None:
    """Always, or of things that are what it is needed for; what is paired may not stand alone."""
    plain, seeded, free = (
        Rule(Row.model_validate(row(needed=needed))) for needed in ("always", "seedable", "no")
    )
    rules = {
        "g.a": plain,
        "species.rye.rate": seeded,
        "species.zoysia.rate": seeded,
        "g.free": free,
        "g.pair": Rule(free.row, "g.other"),
    }
    holds = {"seedable": frozenset({"species.rye"})}
    found = list(missing_faults(rules, set(), holds))
    assert [name for name, _ in found] == ["g.a", "species.rye.rate"]
    assert {p.message for _, p in found} == {errors.missing_from_book()}
    held = {"g.a", "species.rye.rate", "g.pair"}
    ((name, alone),) = missing_faults(rules, held, holds)
    assert (name, alone.message, alone.allowed) == ("g.pair", book_faults.stands_alone(), "g.other")
    assert list(missing_faults(rules, {*held, "g.other"}, holds)) == []
