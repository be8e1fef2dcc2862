"""What a reader would read of what a plan says, for tests of rules that make messages."""

from collections.abc import Iterable

from turfplan.book.words import english_of
from turfplan.files.reading.book import load_book
from turfplan.message import Message, Worded, said
from turfplan.messages import Words, words_for
from turfplan.units import System


def words_of(system: System = System.US, region: str | None = None) -> Words:
    """The English words of a reader, with the book's own of a region."""
    return words_for("en", system, english_of(load_book(region)))


def told(message: Worded | None, system: System = System.US, region: str | None = None) -> str:
    """A message as an English reader reads it; nothing for none."""
    return "" if message is None else words_of(system, region).text(said(message))


def typed(message: Worded | None) -> str:
    """A message as it is read at a terminal: with the keys of the brief and the commands."""
    return "" if message is None else words_of().on_terminal().text(said(message))


def all_told(messages: Iterable[Worded | Message], system: System = System.US) -> tuple[str, ...]:
    """Several messages as an English reader reads them."""
    return tuple(told(message, system) for message in messages)
