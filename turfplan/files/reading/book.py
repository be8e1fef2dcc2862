"""Loads the book that comes with turfplan."""

import pickle
import sys
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache, partial
from hashlib import sha256
from importlib.resources import files
from pathlib import Path

import pydantic

import turfplan
from turfplan.book.entries import Book
from turfplan.book.words import english_of
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.reading.book_contents import contents_of
from turfplan.messages import problems
from turfplan.phrases import book_faults as phrases
from turfplan.user_cache import keep, kept

PACKAGE = Path(turfplan.__file__).parent
# The code that a book is made by: a book that older code made and kept is not taken for its own.
MADE_BY = ("book", "files/reading", "records", ".")


@lru_cache(maxsize=16)
def load_book(region: str | None = None) -> Book:
    """The book that comes with turfplan, with a region's overlay laid on.

    Raises TurfplanError for an unknown region.
    """
    book = _packaged()
    if region is None:
        return book
    if region not in book.overlays:
        hint = did_you_mean(region, book.overlays)
        known = one_of(book.overlays)
        raise TurfplanError(Problem("region", phrases.unknown_region(), repr(region), known, hint))
    return with_region(book, region)


@lru_cache(maxsize=1)
def _packaged() -> Book:
    """The packaged book; once made and found sound it is kept in the user's cache, from where it
    comes in a twentieth of the time, until its data or the code that makes it are others.
    """
    folder = files("turfplan") / "data"
    made_from = repr((contents_of(folder), _code(), sys.version, pydantic.VERSION)).encode()
    name = f"book-{sha256(str(PACKAGE).encode()).hexdigest()[:16]}"
    if (content := kept(name, made_from)) is not None:
        book: Book = pickle.loads(content)
    else:
        # Checking is most of what a run costs, and what it needs is imported with it.
        from turfplan.files.reading.book_files import read_book

        book = read_book(folder)
        keep(name, made_from, pickle.dumps(book, pickle.HIGHEST_PROTOCOL))
    # What is wrong with a brief may name its grass.
    problems.book_words = partial(english_of, book)
    return book


def _code() -> list[tuple[str, int, int]]:
    """Name, time and size of the modules, by which Python too tells compiled code from its
    source.
    """
    modules = [path for room in MADE_BY for path in sorted((PACKAGE / room).glob("*.py"))]
    facts = [(str(path), path.stat()) for path in modules]
    return [(name, fact.st_mtime_ns, fact.st_size) for name, fact in facts]


def with_region(book: Book, region: str) -> Book:
    """The book with the facts of an overlay in place of its own, and its local names."""
    overlay = book.overlays[region]
    species = {
        key: value.model_copy(update={"name": overlay.terms.get(value.name, value.name)})
        for key, value in book.species.items()
    }
    operations = {
        key: value.model_copy(
            update={
                "name": overlay.terms.get(value.name, value.name),
                "title": _localised(value.title, overlay.terms),
                "machine_name": overlay.terms.get(value.machine_name or "", value.machine_name),
            }
        )
        for key, value in book.operations.items()
    }
    return replace(
        book,
        facts={**book.facts, **overlay.facts},
        region=region,
        species=species,
        operations=operations,
        _cache={},
    )


def _localised(text: str, terms: Mapping[str, str]) -> str:
    for word, local in terms.items():
        text = text.replace(word, local)
    return text
