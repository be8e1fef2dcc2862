"""Looks up the numbers in force."""

from dataclasses import dataclass
from typing import Any

from turfplan.app.reader_language import language_of
from turfplan.book.citations import full_citation, printed
from turfplan.book.facts import Fact
from turfplan.book.words import english_of
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.reading.book import load_book
from turfplan.messages import words_for
from turfplan.phrases import files as phrases
from turfplan.units import System


@dataclass(frozen=True, slots=True)
class FactRow:
    """One line of the table of facts, in words: the number as its source prints it, and where it
    comes from.
    """

    name: str
    printed: str
    source: str
    judgement: bool
    fact: Fact

    def as_dict(self) -> dict[str, Any]:
        """The row for JSON."""
        return self.fact.model_dump(mode="json") | {"name": self.name, "citation": self.source}


def book_facts(name: str | None = None, region: str | None = None) -> tuple[FactRow, ...]:
    """The facts whose names begin with `name`, all without one.

    The overlay of a region is laid on where one is named. Raises TurfplanError for a name or region
    that the book does not know.
    """
    book = load_book(region)
    # Numbers are told in the unit of their source: the reader's own units play no part.
    words = words_for(language_of(None), System.METRIC, english_of(book), terminal=True)
    facts = [book.facts[key] for key in sorted(book.facts) if key.startswith(name or "")]
    if not facts:
        hint = did_you_mean(name or "", book.facts)
        raise TurfplanError(Problem("NAME", phrases.no_fact(), repr(name), None, hint))
    return tuple(
        FactRow(
            fact.name,
            words.text(printed(fact, scaled=False)),
            words.text(full_citation(book, fact)),
            fact.is_judgement,
            fact,
        )
        for fact in facts
    )
