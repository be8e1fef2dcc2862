"""Facts as they are cited."""

from collections.abc import Callable
from unittest import mock

import pytest

from told import told
from turfplan.book import citations
from turfplan.book.citations import citation, cited, fact_line, full_citation, printed, who_says
from turfplan.book.facts import Fact
from turfplan.files.reading.book import load_book
from turfplan.message import Message, Printed, as_written
from turfplan.phrases import facts


def test_a_fact_that_the_book_lacks_is_not_cited() -> None:
    """One that it has is, with its value and who says so."""
    book = load_book()
    assert cited(book, "no.such.fact") is None
    message = cited(book, "topdress.settle_allowance")
    assert message is not None and "%" in told(message)


BOOK = load_book()
SOURCE = next(iter(BOOK.sources.values()))
# Of these the words of a citation are taken.
NAME = "topdress.settle_allowance"


def fact(**keys: object) -> Fact:
    """A made-up fact of a publication under a name of the book."""
    plain = {"name": NAME, "value": 2, "unit": "in", "source": SOURCE.id}
    return Fact.model_validate({**plain, **keys})


@pytest.mark.parametrize(
    ("keys", "key", "values"),
    [
        ({}, "facts.value", {"value": (2, True)}),
        ({"low": 1}, "facts.value", {"value": (2, True)}),
        ({"high": 3}, "facts.value", {"value": (2, True)}),
        ({"low": 2, "high": 2}, "facts.value", {"value": (2, True)}),
        (
            {"low": 1, "high": 3},
            "facts.value_in_span",
            {"value": (2, True), "low": (1, False), "high": (3, False)},
        ),
        (
            {"value": None, "low": 1, "high": 3},
            "facts.span",
            {"low": (1, False), "high": (3, True)},
        ),
    ],
)
def test_a_number_is_printed_with_its_range(
    keys: dict[str, object], key: str, values: dict[str, tuple[float, bool]]
) -> None:
    """The unit is named once; temperatures are scaled where that is wished."""
    for scaled in (True, False):
        message = printed(fact(**keys), scaled=scaled)
        assert message.key == key
        assert dict(message.values) == {
            name: Printed(value, "in", named, scaled) for name, (value, named) in values.items()
        }
    assert printed(fact(**keys)) == printed(fact(**keys), scaled=True)


def test_who_says_a_number() -> None:
    """An institution, we ourselves, or practice."""
    assert who_says(BOOK, SOURCE.id) == facts.institution(institution=SOURCE.institution)
    assert who_says(BOOK, "judgement") == facts.our_judgement()
    assert who_says(BOOK, "common_practice") == facts.common_practice()


def keys_of(message: Message) -> tuple[str, ...]:
    """The key of a message, and of those that it holds of a citation."""
    inner = [
        v.key for n, v in message.values if isinstance(v, Message) and n in ("citation", "basis")
    ]
    return (message.key, *inner)


JUDGED = {"source": "judgement", "note": "why"}


@pytest.mark.parametrize(
    ("keys", "cited_so", "in_full"),
    [
        (JUDGED, (facts.judged,), None),
        ({"source": "common_practice"}, (facts.common_practice,), None),
        ({"source": "common_practice", "note": "x"}, (facts.practised,), None),
        ({}, (facts.published,), None),
        ({"place": "p. 3"}, (facts.published_at,), None),
        ({"basis": "memory"}, (facts.with_basis, facts.published, facts.basis_memory), None),
        (
            {"basis": "derived", "note": "half"},
            (facts.with_basis, facts.published, facts.basis_derived),
            (facts.explained, facts.with_basis),
        ),
        (
            {"basis": "memory", "note": "x"},
            (facts.with_basis, facts.published, facts.basis_memory),
            None,
        ),
        (
            {**JUDGED, "judges": "schedule"},
            (facts.judged,),
            (facts.with_basis, facts.judged, facts.judges_schedule),
        ),
    ],
)
def test_a_citation_says_where_a_fact_comes_from(
    keys: dict[str, object],
    cited_so: tuple[Callable[..., Message], ...],
    in_full: tuple[Callable[..., Message], ...] | None,
) -> None:
    """With the place and how it was come by; in full with how it was derived, or what is judged."""

    def named(makers: tuple[Callable[..., Message], ...]) -> tuple[str, ...]:
        return tuple(f"facts.{maker.__name__}" for maker in makers)

    def normal(message: Message) -> tuple[str, ...]:
        return tuple(
            key.replace("basis.", "basis_").replace("judges.", "judges_")
            for key in keys_of(message)
        )

    with mock.patch.object(citations, "_words", lambda book, fact, field: as_written(field)):
        assert normal(citation(BOOK, fact(**keys))) == named(cited_so)
        assert normal(full_citation(BOOK, fact(**keys))) == named(in_full or cited_so)


def test_a_line_prints_a_fact_as_its_source_does() -> None:
    """Not in the scale of the reader, as a citation in a plan does."""
    line, short = fact_line(BOOK, NAME), cited(BOOK, NAME)
    assert short is not None
    assert dict(line.values)["value"] == printed(BOOK.facts[NAME], scaled=False)
    assert dict(short.values)["value"] == printed(BOOK.facts[NAME], scaled=True)
    with pytest.raises(KeyError):
        fact_line(BOOK, "no.such.fact")
