"""The book's own sentences as messages."""

from dataclasses import replace

import pytest

from turfplan.book.words import (
    _lines,
    _places,
    book_message,
    book_messages,
    english_of,
    fact_key,
    grass_name,
    operation_name,
    optional_message,
    texts_of,
)
from turfplan.files.reading.book import load_book
from turfplan.message import as_written

BOOK = load_book()


def test_every_sentence_has_a_key_that_says_where_it_stands() -> None:
    """One under its key, several with their numbers from one on, none under none."""
    assert list(_lines("a.b", "one")) == [("a.b", "one")]
    assert list(_lines("a.b", ("one", "two"))) == [("a.b.1", "one"), ("a.b.2", "two")]
    assert list(_lines("a.b", ())) == list(_lines("a.b", None)) == []
    texts, english = texts_of(BOOK), english_of(BOOK)
    topdress = BOOK.operations["topdress"]
    assert texts["operations.topdress.title"] == topdress.title
    assert texts["operations.topdress.how.1"] == topdress.how[0]
    assert english["book.operations.topdress.title"] == topdress.title
    assert len(english) == len(texts)


def test_places_of_a_sentence_are_those_of_values() -> None:
    """Each once, in turn; amounts in both units are none."""
    assert _places("from {opens} to {closes}, {3 in|8 cm} deep, {opens}") == ("opens", "closes")
    assert _places("nothing") == ()


def test_a_field_of_several_sentences_is_told_in_order() -> None:
    """All of them; none where it is empty."""
    found = book_messages(BOOK, "supplier.questions")
    count = len(BOOK.supplier_questions)
    assert count > 1
    assert [m.key for m in found] == [f"book.supplier.questions.{n}" for n in range(1, count + 1)]
    assert book_messages(BOOK, "supplier.nothing") == ()


def test_a_sentence_has_the_values_it_has_places_for() -> None:
    """No others; one that is missing, or a key that is not there, raises."""
    key, text = next((k, t) for k, t in texts_of(BOOK).items() if _places(t))
    values = {name: as_written(name) for name in _places(text)}
    message = book_message(BOOK, key, {**values, "more": 1})
    assert message.key == f"book.{key}" and dict(message.values) == values
    with pytest.raises(KeyError):
        book_message(BOOK, key)
    with pytest.raises(KeyError):
        book_message(BOOK, "no.such.key")
    assert optional_message(BOOK, "no.such.key") is None
    assert optional_message(BOOK, key, values) == message


def test_names_of_grasses_and_operations_are_sentences_of_the_book() -> None:
    """By their ids."""
    assert grass_name(BOOK, "tall_fescue").key == "book.species.tall_fescue.name"
    assert operation_name(BOOK, "topdress").key == "book.operations.topdress.name"


def test_words_of_a_fact_stand_with_the_region_that_has_it() -> None:
    """Where a region is in force and has that fact; else with the facts."""
    region, overlay = next((r, o) for r, o in BOOK.overlays.items() if o.facts)
    name = next(iter(overlay.facts))
    other = next(n for n in BOOK.facts if n not in overlay.facts)
    there, nowhere = replace(BOOK, region=region), replace(BOOK, region=None)
    assert fact_key(there, name) == f"regions.{region}.facts.{name}"
    assert fact_key(there, other) == f"facts.{other}"
    assert fact_key(nowhere, name) == f"facts.{name}"
