"""The book's own sentences as messages: their English stands beside their rule, and their key says
where.

A key is the file, the thing and the field (`operations.topdress.title`,
`operations.topdress.how.2`); in messages and in catalogs of other languages it begins with `book.`.
Amounts in a sentence are places with both units: `{3 in|8 cm}`.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from string import Formatter
from types import MappingProxyType

from turfplan.book.entries import Book
from turfplan.book.facts import Fact
from turfplan.message import Message, Value
from turfplan.reckoned_once import reckoned_once

BOOK = "book."
NO_VALUES: Mapping[str, Value] = MappingProxyType({})
# The fields of a thing of the book that are sentences or names, by its file.
WORDED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "species": ("name",),
        "materials": ("name", "questions", "acceptance"),
        "mixes": ("name",),
        "soils": ("name", "as_one"),
        "herbicides": ("name",),
        "cautions": ("text", "short", "condition"),
        "causes": ("name", "title", "why", "how", "over", "tilled_how", "tilled_over"),
        "campaigns": (
            "name",
            "why",
            "why_deep",
            "why_in_heat",
            "why_season_over",
            "why_with_frost",
            "why_with_seed",
            "why_with_seed_in_heat",
            "why_without_passes",
            "against",
            "against_with_seed",
            "against_with_seed_in_heat",
        ),
        "operations": (
            "name",
            "title",
            "how",
            "how_on_rain",
            "go",
            "go_frostless",
            "fallback",
            "fallback_frostless",
            "done_when",
            "wrong",
            "looks",
            "machine_name",
        ),
    }
)


@lru_cache(maxsize=16)
def texts_of(book: Book) -> Mapping[str, str]:
    """Every sentence and name of a book by key, in English, with the local words of the region in
    force."""
    return MappingProxyType(dict(_texts(book)))


@lru_cache(maxsize=16)
@reckoned_once
def english_of(book: Book) -> Mapping[str, str]:
    """The same by the key that messages have."""
    return MappingProxyType({BOOK + key: text for key, text in texts_of(book).items()})


def _texts(book: Book) -> Iterator[tuple[str, str]]:
    for file, names in WORDED.items():
        for thing in getattr(book, file).values():
            for name in names:
                yield from _lines(f"{file}.{thing.id}.{name}", getattr(thing, name))
    for grass in book.species.values():
        for rest in grass.unfed:
            yield f"species.{grass.id}.unfed.{rest.season}", rest.reason
    for rule in book.order:
        yield f"order.{rule.id}.reason", rule.reason
    for window in book.windows:
        yield f"windows.{window.id}.reason", window.reason
        yield f"windows.{window.id}.source", window.source
    for choice in book.mix_choices:
        yield f"mix_choices.{choice.id}.reason", choice.reason
    yield from _lines("supplier.questions", book.supplier_questions)
    yield from _lines("supplier.blended", book.blend_questions)
    yield from _lines("supplier.acceptance", book.acceptance)
    for fact in book.facts.values():
        yield from _fact_texts(fact_key(book, fact.name), fact)
    for region in book.overlays.values():
        yield f"regions.{region.id}.name", region.name
        for fact in region.facts.values():
            yield from _fact_texts(f"regions.{region.id}.facts.{fact.name}", fact)


def fact_key(book: Book, name: str) -> str:
    """Where the words of a fact in force stand: with the region's, where its overlay has that
    fact."""
    overlay = book.overlays[book.region] if book.region else None
    if overlay is not None and name in overlay.facts:
        return f"regions.{overlay.id}.facts.{name}"
    return f"facts.{name}"


def _fact_texts(key: str, fact: Fact) -> Iterator[tuple[str, str]]:
    """What a fact is called, the note to it, and the place in its source."""
    yield f"{key}.name", fact.name.replace(".", ", ").replace("_", " ")
    yield from _lines(f"{key}.note", fact.note)
    yield from _lines(f"{key}.place", fact.place)


def _lines(key: str, text: str | tuple[str, ...] | None) -> Iterator[tuple[str, str]]:
    """One sentence under its key, or several with their numbers from 1 on."""
    if isinstance(text, str):
        yield key, text
    elif text is not None:
        yield from ((f"{key}.{number}", line) for number, line in enumerate(text, 1))


def book_message(book: Book, key: str, values: Mapping[str, Value] = NO_VALUES) -> Message:
    """The sentence of a key with the values that it has places for.

    Raises KeyError for a key or a value that is not there.
    """
    return Message(BOOK + key, tuple((name, values[name]) for name in _places(texts_of(book)[key])))


def book_messages(
    book: Book, key: str, values: Mapping[str, Value] = NO_VALUES
) -> tuple[Message, ...]:
    """The sentences of a field that has several, in order; none where the field is empty."""
    found: list[Message] = []
    while f"{key}.{len(found) + 1}" in texts_of(book):
        found.append(book_message(book, f"{key}.{len(found) + 1}", values))
    return tuple(found)


def optional_message(
    book: Book, key: str, values: Mapping[str, Value] = NO_VALUES
) -> Message | None:
    """The sentence of a key, or None where the book has none."""
    return book_message(book, key, values) if key in texts_of(book) else None


def grass_name(book: Book, species: str) -> Message:
    """What a grass is called within a sentence."""
    return book_message(book, f"species.{species}.name")


def operation_name(book: Book, operation: str) -> Message:
    """What an operation is called."""
    return book_message(book, f"operations.{operation}.name")


@lru_cache(maxsize=4096)
def _places(text: str) -> tuple[str, ...]:
    names = (name for _, name, _, _ in Formatter().parse(text) if name is not None)
    return tuple(dict.fromkeys(name for name in names if "|" not in name))
