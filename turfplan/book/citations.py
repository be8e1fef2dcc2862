"""What a fact of the book is, how much, and who says so, as messages."""

from collections.abc import Callable, Mapping
from functools import lru_cache
from types import MappingProxyType

from turfplan.book.entries import Book
from turfplan.book.facts import Basis, Fact, Judges
from turfplan.book.words import book_message, fact_key
from turfplan.message import Message, Printed
from turfplan.phrases import facts as phrases

# How a number was come by, where it was not read in its source.
BASES: Mapping[Basis, Callable[[], Message]] = MappingProxyType(
    {
        "secondary": phrases.basis_secondary,
        "derived": phrases.basis_derived,
        "computed": phrases.basis_computed,
        "memory": phrases.basis_memory,
        "judgement": phrases.basis_judgement,
        "common_practice": phrases.basis_common_practice,
    }
)
# What a judgement judges.
JUDGED: Mapping[Judges, Callable[[], Message]] = MappingProxyType(
    {"schedule": phrases.judges_schedule, "agronomy": phrases.judges_agronomy}
)


def who_says(book: Book, source: str) -> Message:
    """Who stands behind a number: the institution of a source, or whose judgement or practice it
    is."""
    if source in book.sources:
        return phrases.institution(institution=book.sources[source].institution)
    return phrases.our_judgement() if source == "judgement" else phrases.common_practice()


def printed(fact: Fact, *, scaled: bool = True) -> Message:
    """The number of a fact with its range and unit, as its source prints them.

    Temperatures are told in the scale of the reader, where they are `scaled`.
    """

    def number(value: float, *, named: bool) -> Printed:
        return Printed(value, fact.unit, named, scaled)

    if fact.value is None:
        assert fact.low is not None and fact.high is not None  # a fact has a value, or both ends
        return phrases.span(low=number(fact.low, named=False), high=number(fact.high, named=True))
    value = number(fact.value, named=True)
    if fact.low is None or fact.high is None or fact.low == fact.high:
        return phrases.value(value=value)
    low, high = (number(end, named=False) for end in (fact.low, fact.high))
    return phrases.value_in_span(value=value, low=low, high=high)


def citation(book: Book, fact: Fact) -> Message:
    """Where a fact comes from."""
    if fact.source == "judgement":
        return phrases.judged(note=_words(book, fact, "note"))
    if fact.source == "common_practice":
        if not fact.note:
            return phrases.common_practice()
        return phrases.practised(note=_words(book, fact, "note"))
    source = book.sources[fact.source]
    of, title = source.institution, source.title
    cited = (
        phrases.published_at(institution=of, title=title, place=_words(book, fact, "place"))
        if fact.place
        else phrases.published(institution=of, title=title)
    )
    if fact.basis == "read":
        return cited
    return phrases.with_basis(citation=cited, basis=BASES[fact.basis]())


def full_citation(book: Book, fact: Fact) -> Message:
    """Where a fact comes from, with how it was derived, or with what its judgement judges."""
    cited_so = citation(book, fact)
    if fact.judges is not None:
        return phrases.with_basis(citation=cited_so, basis=JUDGED[fact.judges]())
    if fact.note and fact.basis in ("derived", "computed"):
        return phrases.explained(citation=cited_so, note=_words(book, fact, "note"))
    return cited_so


@lru_cache(maxsize=4096)
def cited(book: Book, name: str) -> Message | None:
    """A fact with its value and its source, or None where the book has no such fact."""
    fact = book.facts.get(name)
    if fact is None:
        return None
    return phrases.cited(
        name=_words(book, fact, "name"), value=printed(fact), citation=citation(book, fact)
    )


def fact_line(book: Book, name: str) -> Message:
    """A fact in one line, as its source prints it.

    Raises KeyError for an unknown one.
    """
    fact = book.facts[name]
    return phrases.line(
        name=_words(book, fact, "name"),
        value=printed(fact, scaled=False),
        citation=citation(book, fact),
    )


def _words(book: Book, fact: Fact, field: str) -> Message:
    return book_message(book, f"{fact_key(book, fact.name)}.{field}")
