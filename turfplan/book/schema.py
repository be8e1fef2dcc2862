"""The schema of the book: which facts there are, in which dimension, how large, of what."""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, ValidationError

from turfplan.book.facts import Fact
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.message import Message, Number
from turfplan.phrases import book_faults as phrases
from turfplan.phrases import errors
from turfplan.records.form_faults import form_message
from turfplan.units import dimensions, inside_unit

FILE = "schema.toml"
# Files of things: a fact of theirs is file.thing.fact; all others are group.fact.
THINGS = ("species", "materials", "mixes", "herbicides")
_BRACES = re.compile(r"\{(\w+)\}")


class Row(BaseModel):
    """What the schema says of one fact, or of one for each of the words that its braces stand for.

    `least` and `most` are in the inside unit of the dimension. `needed` says where it must be:
    `always`, of things that are `seedable`, `spread` or `compost`, or `no`; `paired` names what it
    is there with or not at all. `by` says who reads it.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    dimension: str
    least: float
    most: float
    needed: Literal["always", "no", "seedable", "spread", "compost"] = "always"
    paired: str | None = None
    by: Literal["code", "entries"] = "code"


class Schema(BaseModel):
    """The whole schema: rows by group and name, words that braces stand for, countries."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    words: dict[str, tuple[str, ...]]
    countries: dict[str, tuple[str, ...]]
    facts: dict[str, dict[str, Row]]


@dataclass(frozen=True, slots=True)
class Rule:
    """One row, with what the one fact that it speaks of is there with."""

    row: Row
    paired: str | None = None


def schema_of(table: Mapping[str, Any]) -> Schema:
    """The schema in a parsed `schema.toml`; raises TurfplanError with every fault of it."""
    try:
        schema = Schema.model_validate(table)
    except ValidationError as error:
        raise TurfplanError(
            Problem(f"{FILE}: {'.'.join(map(str, fault['loc']))}", form_message(fault))
            for fault in error.errors(include_url=False)
        ) from None
    faults = tuple(_faults(schema))
    if faults:
        raise TurfplanError(faults)
    return schema


def _faults(schema: Schema) -> Iterator[Problem]:
    known = {*schema.words, "species", "soil", "part"}
    for group, rows in schema.facts.items():
        for name, row in rows.items():
            where = f"{FILE}: facts.{group}.{name}"
            if row.dimension not in dimensions():
                yield _unknown(where, phrases.no_dimension(), row.dimension, dimensions())
            if row.least > row.most:
                most = errors.to_most(most=Number(row.most, "plain"))
                yield Problem(where, phrases.least_above_most(), f"{row.least:g}", most)
            for word in _BRACES.findall(name):
                if word not in known:
                    yield _unknown(where, phrases.unlisted_words(), word, known)


def _unknown(where: str, fault: Message, got: str, known: Iterable[str]) -> Problem:
    return Problem(where, fault, repr(got), None, did_you_mean(got, known))


def rules_of(
    schema: Schema,
    species: Iterable[str],
    soils: Iterable[str],
    parts: Mapping[str, Mapping[str, Iterable[str]]],
) -> dict[str, Rule]:
    """Every fact by its full name.

    `parts` are the things by file (species, materials, mixes, herbicides), each with the words that
    `{part}` stands for.
    """
    words = {**schema.words, "species": tuple(species), "soil": tuple(soils)}
    found: dict[str, Rule] = {}
    for group, rows in schema.facts.items():
        for name, row in rows.items():
            things = parts.get(group) if group in THINGS else None
            if things is None:
                found |= {
                    f"{group}.{key}": rule for key, rule in _each(name, row, words, f"{group}.")
                }
                continue
            for thing, own in things.items():
                each = _each(name, row, {**words, "part": tuple(own)}, f"{group}.{thing}.")
                found |= {f"{group}.{thing}.{key}": rule for key, rule in each}
    return found


def _each(
    name: str, row: Row, words: Mapping[str, tuple[str, ...]], prefix: str
) -> Iterator[tuple[str, Rule]]:
    """A row's names with each word in place of the braces."""
    braces = _BRACES.findall(name)
    for chosen in product(*(words[brace] for brace in braces)):
        filled, paired = name, row.paired
        for brace, word in zip(braces, chosen, strict=True):
            filled = filled.replace(f"{{{brace}}}", word, 1)
            paired = paired and paired.replace(f"{{{brace}}}", word, 1)
        yield filled, Rule(row, paired and f"{prefix}{paired}")


def fact_faults(where: str, fact: Fact, row: Row) -> Iterator[Problem]:
    """What is wrong with the unit and the size of a fact."""
    if row.dimension == "count":
        if fact.unit != "":
            yield Problem(where, phrases.not_plain(), fact.unit, '""')
            return
    elif fact.dimension != row.dimension:
        fault = phrases.other_unit(got=fact.dimension, wanted=row.dimension)
        yield Problem(where, fault, fact.unit)
        return
    unit = inside_unit(row.dimension)
    for number in dict.fromkeys((fact.low_si, fact.si, fact.high_si)):
        if not row.least - 1e-9 <= number <= row.most + 1e-9:
            yield Problem(
                where, phrases.out_of_bounds(), f"{number:g} {unit}".strip(), _ends(row, unit)
            )


def _ends(row: Row, unit: str) -> Message:
    """The least and the most that a fact may be."""
    least, most = Number(row.least, "plain"), Number(row.most, "plain")
    if not unit:
        return errors.number_range(low=least, high=most)
    return errors.unit_range(low=least, high=most, unit=unit)


def missing_faults(
    rules: Mapping[str, Rule], facts: Collection[str], holds: Mapping[str, frozenset[str]]
) -> Iterator[tuple[str, Problem]]:
    """Facts that the schema asks for and that are not there, each with its fault without a place.

    `holds` are the things of which `seedable`, `spread` and `compost` hold.
    """
    for name, rule in rules.items():
        if name in facts:
            if rule.paired is not None and rule.paired not in facts:
                yield name, Problem("", phrases.stands_alone(), None, rule.paired)
            continue
        thing = name.rpartition(".")[0]
        if rule.row.needed == "always" or thing in holds.get(rule.row.needed, frozenset()):
            yield name, Problem("", errors.missing_from_book())
