"""Makes the book of its data files, and says everything that is wrong with them at once."""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from turfplan.book.entries import (
    Book,
    CampaignWords,
    Cause,
    Caution,
    GrassName,
    Herbicide,
    Material,
    Mix,
    MixChoiceRule,
    Operation,
    OrderRule,
    Overlay,
    Soil,
    Species,
)
from turfplan.book.facts import Fact, Source
from turfplan.book.schema import (
    FILE,
    THINGS,
    Rule,
    Schema,
    fact_faults,
    missing_faults,
    rules_of,
    schema_of,
)
from turfplan.book.window_rules import WindowRule
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.reading.book_audit import Entries, name_faults, unread_faults
from turfplan.files.reading.book_contents import contents_of, version_of
from turfplan.files.reading.book_tables import (
    Raw,
    each_of,
    for_each_operation,
    form_fault,
    in_a_list,
    things_of,
    validated,
)
from turfplan.files.reading.toml_faults import not_toml
from turfplan.phrases import book_faults as phrases
from turfplan.phrases import errors

# Files whose tables are things with words and facts; all other files hold groups of facts alone.
WORDS = (
    "species",
    "materials",
    "mixes",
    "soils",
    "herbicides",
    "cautions",
    "causes",
    "campaigns",
    "operations",
)
# Files of another form, which are read by themselves.
APART = ("schema", "sources", "order", "windows", "mix_choices", "supplier", "names")


def read_book(folder: Traversable | Path) -> Book:
    """A book from a folder of data files; raises TurfplanError with every fault of every file."""
    return book_of(*read_files(folder))


def read_files(folder: Traversable | Path) -> tuple[Raw, str]:
    """The data files as they are written, by name, with the version that stands for their content.

    Raises TurfplanError for files that are not TOML.
    """
    contents = contents_of(folder)
    return _parsed(contents), version_of(contents)


def _parsed(contents: Mapping[str, bytes]) -> Raw:
    """The tables of each file; raises TurfplanError with every file that is not TOML."""
    faults: list[Problem] = []
    tables: Raw = {}
    for file, content in contents.items():
        try:
            tables[file.removesuffix(".toml")] = tomllib.loads(content.decode("utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
            faults.append(not_toml(file.removeprefix("regions/"), error))
    if faults:
        raise TurfplanError(faults)
    return tables


def book_of(raw: Raw, version: str) -> Book:
    """The book of parsed data files; raises TurfplanError with every fault of every file."""
    faults = list(_shape(raw))
    if faults:
        raise TurfplanError(faults)
    schema = schema_of(raw["schema"])
    rules = _rules(raw, schema)
    entries = _entries(raw, schema, rules, faults)
    faults += _checked(entries.facts, entries.places, rules, _holding(raw))
    sound = not faults
    faults += name_faults(entries)
    if sound:
        # What is wrong above may be what would have read these.
        faults += unread_faults(entries, rules)
    if faults:
        raise TurfplanError(faults)
    return Book(
        facts=entries.facts,
        sources=entries.sources,
        order=tuple(entries.order),
        windows=tuple(entries.windows),
        overlays=entries.overlays,
        version=version,
        supplier_questions=tuple(raw["supplier"]["questions"]),
        blend_questions=tuple(raw["supplier"]["blended"]),
        acceptance=tuple(raw["supplier"]["acceptance"]),
        species=entries.species,
        materials=entries.materials,
        mixes=entries.mixes,
        mix_choices=tuple(entries.choices),
        soils=entries.soils,
        herbicides=entries.herbicides,
        cautions=entries.cautions,
        causes=entries.causes,
        campaigns=entries.campaigns,
        operations=entries.operations,
        grass_names=tuple(entries.grass_names),
    )


def _entries(raw: Raw, schema: Schema, rules: Mapping[str, Rule], faults: list[Problem]) -> Entries:
    """All that can be read of the files; what is wrong with the rest is added to `faults`."""
    facts, places = _facts(raw, faults)
    windows = for_each_operation(raw["windows"]["window"])
    return Entries(
        raw=raw,
        schema=schema,
        facts=facts,
        places=places,
        species=things_of(raw, "species", Species, faults),
        materials=things_of(raw, "materials", Material, faults),
        mixes=things_of(raw, "mixes", Mix, faults),
        soils=things_of(raw, "soils", Soil, faults),
        herbicides=things_of(raw, "herbicides", Herbicide, faults),
        cautions=things_of(raw, "cautions", Caution, faults),
        causes=things_of(raw, "causes", Cause, faults),
        campaigns=things_of(raw, "campaigns", CampaignWords, faults),
        operations=things_of(raw, "operations", Operation, faults),
        sources=each_of("sources.toml", raw["sources"], Source, faults),
        order=in_a_list("order.toml", raw["order"]["rule"], OrderRule, faults),
        windows=in_a_list("windows.toml", windows, WindowRule, faults),
        choices=in_a_list("mix_choices.toml", raw["mix_choices"]["choice"], MixChoiceRule, faults),
        grass_names=in_a_list("names.toml", raw["names"]["name"], GrassName, faults),
        overlays=dict(_overlays(raw, rules, faults)),
    )


def _shape(raw: Raw) -> Iterator[Problem]:
    """The files that must be there, and the tables that those of another form may hold."""
    tables = {
        "order": ("rule",),
        "windows": ("window",),
        "mix_choices": ("choice",),
        "supplier": ("questions", "blended", "acceptance"),
        "names": ("name",),
    }
    for file in (*WORDS, *APART):
        if file not in raw:
            yield Problem(f"{file}.toml", errors.missing_from_book())
    for file, known in tables.items():
        for name in raw.get(file, known):
            if name not in known:
                hint = did_you_mean(name, known)
                where = f"{file}.toml: {name}"
                yield Problem(where, errors.unknown_key(), name, one_of(known), hint)
        missing = (name for name in known if name not in raw.get(file, known))
        yield from (Problem(f"{file}.toml: {name}", errors.missing_from_book()) for name in missing)


def _rules(raw: Raw, schema: Schema) -> dict[str, Rule]:
    """What the schema says of each fact that these grasses, soils, materials and mixes have."""
    things = {
        file: {thing: table.get("parts", ()) for thing, table in raw[file].items()}
        for file in THINGS
    }
    return rules_of(schema, raw["species"], raw["soils"], things)


def _holding(raw: Raw) -> dict[str, frozenset[str]]:
    """The things that need facts which others do without, by what holds of them."""
    species, kinds = raw["species"], {key: m.get("kind") for key, m in raw["materials"].items()}
    return {
        "seedable": frozenset(
            f"species.{key}" for key, grass in species.items() if grass.get("seedable")
        ),
        "spread": frozenset(f"materials.{key}" for key, kind in kinds.items() if kind != "cover"),
        "compost": frozenset(
            f"materials.{key}" for key, kind in kinds.items() if kind == "compost"
        ),
    }


def _facts(raw: Raw, faults: list[Problem]) -> tuple[dict[str, Fact], dict[str, str]]:
    """Every fact by name, and the file in which it stands.

    Of a thing its inline tables are facts, of a group all that it holds.
    """
    facts: dict[str, Fact] = {}
    places: dict[str, str] = {}
    for file, tables in raw.items():
        if file in APART or file.startswith("regions/"):
            continue
        prefix = f"{file}." if file in WORDS else ""
        for group, table in tables.items():
            places.setdefault(f"{prefix}{group}", f"{file}.toml")
            for name, value in table.items():
                if file in WORDS and not isinstance(value, dict):
                    continue
                dotted = f"{prefix}{group}.{name}"
                where = f"{file}.toml: {dotted}"
                if dotted in places:
                    faults.append(Problem(where, phrases.twice()))
                elif not isinstance(value, dict):
                    form = "{ value = …, unit = …, source = … }"
                    faults.append(Problem(where, phrases.not_fact(), repr(value), form))
                elif (fact := _fact(where, dotted, value, faults)) is not None:
                    facts[dotted] = fact
                places.setdefault(dotted, f"{file}.toml")
    return facts, places


def _checked(
    facts: Mapping[str, Fact],
    places: Mapping[str, str],
    rules: Mapping[str, Rule],
    holds: Mapping[str, frozenset[str]],
) -> Iterator[Problem]:
    """Facts beside the schema: unknown ones, those of another unit or size, those missing."""
    for name in places:
        if name in facts and name in rules:
            yield from fact_faults(f"{places[name]}: {name}", facts[name], rules[name].row)
        elif name in facts:
            where, hint = f"{places[name]}: {name}", did_you_mean(name, rules)
            yield Problem(where, phrases.unknown_fact(), name, None, hint)
    # A fact that is there and cannot be read is wrong, not missing.
    for name, fault in missing_faults(rules, places.keys() | facts.keys(), holds):
        file = places.get(name) or places.get(name.rpartition(".")[0]) or FILE
        yield replace(fault, where=f"{file}: {name}")


def _fact(where: str, name: str, table: Any, faults: list[Problem]) -> Fact | None:
    try:
        return Fact.model_validate({"name": name, **table})
    except ValidationError as error:
        faults += [form_fault(where, e, Fact) for e in error.errors(include_url=False)]
        return None


def _overlays(
    raw: Raw, rules: Mapping[str, Rule], faults: list[Problem]
) -> Iterator[tuple[str, Overlay]]:
    """What each region changes.

    It changes only what the book has, in the same dimension and between the same ends.
    """
    for file, table in raw.items():
        if not file.startswith("regions/"):
            continue
        changed: dict[str, Fact] = {}
        for name, value in table.get("facts", {}).items():
            where = f"{file}.toml: {name}"
            if name not in rules:
                hint = did_you_mean(name, rules)
                faults.append(Problem(where, phrases.changes_unknown(), name, None, hint))
            elif (fact := _fact(where, name, value, faults)) is not None:
                faults += fact_faults(where, fact, rules[name].row)
                changed[name] = fact
        region = file.removeprefix("regions/")
        overlay = validated(
            f"{file}.toml", {**table, "id": region, "facts": changed}, Overlay, faults
        )
        if overlay is not None:
            yield region, overlay
