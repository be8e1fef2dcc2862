"""Groups what stands behind the numbers of a plan: what is published, practice, our judgement."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.export.sheets.said_once import SaidOnce
from turfplan.export.sheets.told_parts import parts_of
from turfplan.export.templates import sentence
from turfplan.message import Message, Value, as_written, listed
from turfplan.messages import Words
from turfplan.phrases import facts as phrases
from turfplan.phrases import season_book as of_book
from turfplan.records.plan import Plan

CITED = phrases.cited(name=as_written(""), value=as_written(""), citation=as_written("")).key
WITH_BASIS = phrases.with_basis(citation=as_written(""), basis=as_written("")).key
PUBLISHED = (
    phrases.published(institution="", title="").key,
    phrases.published_at(institution="", title="", place=as_written("")).key,
)
JUDGED = phrases.judged(note=as_written("")).key
MEMORY = phrases.basis_memory().key
ASIDE = re.compile(r" \(| - ")
CLAUSE = re.compile(r"[:;.(](?=\s)|\s\(")
# The groups of facts that have a name for readers; facts of others are other numbers.
TOPICS = frozenset(
    {
        "windows",
        "water",
        "feeding",
        "species",
        "materials",
        "mixes",
        "mowing",
        "order",
        "delivery",
        "labour",
        "topdress",
        "passes",
        "seeding",
        "aerate",
        "dethatch",
        "site",
        "starter",
        "herbicides",
        "planting",
        "law",
    }
)


@dataclass(frozen=True, slots=True)
class Publication:
    """A publication with its address, and what was taken from it."""

    title: str
    address: str
    topics: str


@dataclass(frozen=True, slots=True)
class Sources:
    """What stands behind the numbers of a plan."""

    published: tuple[Publication, ...]
    practice: tuple[str, ...]
    judgement: tuple[str, ...]


NO_SOURCES = Sources((), (), ())


def sources_of(plan: Plan, names: Iterable[str], words: Words, said: SaidOnce) -> Sources:
    """The facts of those names by who says so, each once."""
    addresses = {_title(plan.sources[key]): address for key, address in plan.addresses.items()}
    published: dict[str, list[str]] = {}
    practice: list[str] = []
    judgement: list[str] = []
    customary: list[str] = []
    for name in dict.fromkeys(names):
        cited = plan.citations.get(name)
        if cited is None:
            if (source := plan.sources.get(name)) is not None:
                published.setdefault(_title(source), [])
            continue
        citation, basis = _unwrapped(dict(cited.values).get("citation"))
        told = parts_of(cited.text, CITED, words)
        if citation is None or not told:
            practice.append(cited.text)
            continue
        inner = dict(citation.values)
        if citation.key in PUBLISHED and basis != MEMORY:
            title = _title(f"{inner['institution']}: {inner['title']}")
            published.setdefault(title, []).append(_topic(name, words))
            continue
        note = parts_of(told["citation"], citation.key, words).get("note", "")
        if note:
            (judgement if citation.key == JUDGED else practice).append(_first(note))
        else:
            customary.append(_topic(name, words))
    if customary:
        topics = listed(dict.fromkeys(customary), "comma")
        practice.append(words.text(of_book.customary(topics=topics)))
    return Sources(
        tuple(
            Publication(
                title,
                addresses.get(title, ""),
                words.value(listed(dict.fromkeys(topics), "comma")),
            )
            for title, topics in sorted(published.items(), key=lambda item: item[0].casefold())
            if said.new_of(title)
        ),
        said.all_new(map(sentence, practice)),
        said.all_new(map(sentence, judgement)),
    )


def _title(source: str) -> str:
    """A publication without how it came into the book: that stands in parentheses or after a dash
    behind its institution.
    """
    institution, _, title = source.partition(": ")
    return f"{ASIDE.split(institution)[0]}: {title}"


def _first(note: str) -> str:
    """What a note says first: the rest of it explains."""
    return CLAUSE.split(note)[0]


def _topic(fact: str, words: Words) -> str:
    """What a fact is about, by the group of the book that it stands in."""
    group = fact.split(".")[0]
    return words.say(f"season_book.topic.{group if group in TOPICS else 'other'}")


def _unwrapped(citation: Value | None) -> tuple[Message | None, str]:
    """A citation without how its number was come by, and the key of that."""
    if not isinstance(citation, Message):
        return None, ""
    if citation.key != WITH_BASIS:
        return citation, ""
    values = dict(citation.values)
    inner, basis = values.get("citation"), values.get("basis")
    return (
        inner if isinstance(inner, Message) else None,
        basis.key if isinstance(basis, Message) else "",
    )
