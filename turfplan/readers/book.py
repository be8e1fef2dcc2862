"""Loads the book from its data files, and says everything that is wrong with them at once."""

import hashlib
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from turfplan.agronomy import (
    Book,
    CampaignWords,
    Caution,
    Herbicide,
    Material,
    Mix,
    Operation,
    OrderRule,
    Overlay,
    Soil,
    Species,
)
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.facts import Fact, Source
from turfplan.timing import WindowRule

Model = TypeVar("Model", bound=BaseModel)
# Files whose tables are things with words and facts; all other files hold groups of facts alone.
WORDS: dict[str, type[BaseModel]] = {
    "species": Species, "materials": Material, "mixes": Mix, "soils": Soil, "herbicides": Herbicide, "cautions": Caution,
    "campaigns": CampaignWords, "operations": Operation,
}  # fmt: skip
NO_SOURCE = ("judgement", "common_practice")


@lru_cache(maxsize=16)
def load_book(region: str | None = None) -> Book:
    """The book that comes with turfplan, with a region's overlay laid on; raises TurfplanError for an unknown region."""
    book = _packaged()
    if region is None:
        return book
    if region not in book.overlays:
        near = nearest(region, book.overlays)
        raise TurfplanError(
            Problem(
                "region", "unknown region", repr(region), ", ".join(book.overlays), near and f"did you mean {near!r}?"
            )
        )
    return with_region(book, region)


@lru_cache(maxsize=1)
def _packaged() -> Book:
    return read_book(files("turfplan") / "data")


def with_region(book: Book, region: str) -> Book:
    """The book with the facts of an overlay in place of its own, and the local names of the grasses."""
    overlay = book.overlays[region]
    species = {
        key: value.model_copy(update={"name": overlay.terms.get(value.name, value.name)})
        for key, value in book.species.items()
    }
    operations = {
        key: value.model_copy(
            update={"name": overlay.terms.get(value.name, value.name), "title": _localised(value.title, overlay.terms)}
        )
        for key, value in book.operations.items()
    }
    return replace(
        book, facts={**book.facts, **overlay.facts}, region=region, species=species, operations=operations, _cache={}
    )


def _localised(text: str, terms: Mapping[str, str]) -> str:
    for word, local in terms.items():
        text = text.replace(word, local)
    return text


def read_book(folder: Traversable | Path) -> Book:
    """A book from a folder of data files; raises TurfplanError with every fault of every file."""
    faults: list[Problem] = []
    raw: dict[str, dict[str, Any]] = {}
    digest = hashlib.sha256()
    entries = sorted((e for e in folder.iterdir() if e.name.endswith(".toml")), key=lambda e: e.name)
    regions = sorted((e for e in (folder / "regions").iterdir() if e.name.endswith(".toml")), key=lambda e: e.name)
    for entry in [*entries, *regions]:
        content = entry.read_bytes()
        digest.update(entry.name.encode() + b"\0" + content)
        try:
            key = entry.name.removesuffix(".toml")
            raw[f"regions/{key}" if entry in regions else key] = tomllib.loads(content.decode("utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
            faults.append(Problem(entry.name, f"is not TOML: {error}"))
    if faults:
        raise TurfplanError(faults)
    book = _assemble(raw, digest.hexdigest()[:12], faults)
    if faults or book is None:
        raise TurfplanError(faults)
    return book


def _assemble(raw: dict[str, dict[str, Any]], version: str, faults: list[Problem]) -> Book | None:
    facts: dict[str, Fact] = {}
    words: dict[str, dict[str, Any]] = {name: {} for name in WORDS}
    for file, tables in raw.items():
        if file in WORDS:
            words[file] = _things(file, tables, WORDS[file], facts, faults)
        elif file not in ("sources", "order", "windows", "supplier") and not file.startswith("regions/"):
            _groups(file, tables, facts, faults)
    sources = _each("sources.toml", raw.get("sources", {}), Source, faults)
    order = _listed("order.toml", raw.get("order", {}).get("rule", []), OrderRule, faults)
    windows = _listed("windows.toml", raw.get("windows", {}).get("window", []), WindowRule, faults)
    overlays = {
        file.removeprefix("regions/"): overlay
        for file, table in raw.items()
        if file.startswith("regions/") and (overlay := _overlay(file, table, facts, faults)) is not None
    }
    supplier = raw.get("supplier", {})
    if not faults:
        _check_names(facts, words, order, windows, faults)
        _check_sources(facts, words, overlays.values(), sources, faults)
    if faults:
        return None
    return Book(
        facts=facts, sources=sources, order=tuple(order), windows=tuple(windows), overlays=overlays, version=version,
        supplier_questions=tuple(supplier.get("questions", ())), acceptance=tuple(supplier.get("acceptance", ())),
        species=words["species"], materials=words["materials"], mixes=words["mixes"], soils=words["soils"], herbicides=words["herbicides"],
        cautions=words["cautions"], campaigns=words["campaigns"], operations=words["operations"],
    )  # fmt: skip


def _fact(where: str, name: str, table: Any, faults: list[Problem]) -> Fact | None:
    try:
        return Fact.model_validate({"name": name, **table})
    except ValidationError as error:
        faults += [_fault(f"{where}: {name}", dict(e), Fact) for e in error.errors(include_url=False)]
        return None


def _fault(where: str, error: dict[str, Any], model: type[BaseModel]) -> Problem:
    key = ".".join(str(step) for step in error["loc"])
    place = f"{where}.{key}" if key else where
    if error["type"] == "extra_forbidden":
        near = nearest(key, model.model_fields)
        return Problem(place, "unknown key", key, ", ".join(model.model_fields), near and f"did you mean {near!r}?")
    return Problem(place, str(error["msg"]).removeprefix("Value error, ").lower(), None)


def _is_fact(value: Any) -> bool:
    return isinstance(value, dict)


def _things(
    file: str, tables: dict[str, Any], model: type[BaseModel], facts: dict[str, Fact], faults: list[Problem]
) -> dict[str, Any]:
    """Things with words: their inline tables are facts, everything else is words."""
    found = {}
    for key, table in tables.items():
        for name, value in table.items():
            if _is_fact(value):
                dotted = f"{file}.{key}.{name}"
                if (fact := _fact(f"{file}.toml", dotted, value, faults)) is not None:
                    facts[dotted] = fact
        plain = {name: value for name, value in table.items() if not _is_fact(value)}
        thing = _validated(f"{file}.toml: {key}", {"id": key, **plain}, model, faults)
        if thing is not None:
            found[key] = thing
    return found


def _groups(file: str, tables: dict[str, Any], facts: dict[str, Fact], faults: list[Problem]) -> None:
    for group, table in tables.items():
        for name, value in table.items():
            dotted = f"{group}.{name}"
            if dotted in facts:
                faults.append(Problem(f"{file}.toml: {dotted}", "is in the book twice"))
            elif not _is_fact(value):
                faults.append(
                    Problem(
                        f"{file}.toml: {dotted}", "is not a fact", repr(value), "{ value = …, unit = …, source = … }"
                    )
                )
            elif (fact := _fact(f"{file}.toml", dotted, value, faults)) is not None:
                facts[dotted] = fact


def _validated(where: str, data: dict[str, Any], model: type[Model], faults: list[Problem]) -> Model | None:
    try:
        return model.model_validate(data)
    except ValidationError as error:
        faults += [_fault(where, dict(e), model) for e in error.errors(include_url=False)]
        return None


def _each(where: str, tables: dict[str, Any], model: type[Model], faults: list[Problem]) -> dict[str, Model]:
    found = {}
    for key, table in tables.items():
        if (item := _validated(f"{where}: {key}", {"id": key, **table}, model, faults)) is not None:
            found[key] = item
    return found


def _listed(where: str, rows: list[dict[str, Any]], model: type[Model], faults: list[Problem]) -> list[Model]:
    found = []
    seen: set[str] = set()
    for number, row in enumerate(rows, 1):
        name = str(row.get("id", number))
        if name in seen:
            faults.append(Problem(f"{where}: {name}", "the id is used twice"))
        seen.add(name)
        if (item := _validated(f"{where}: {name}", row, model, faults)) is not None:
            found.append(item)
    return found


def _overlay(file: str, table: dict[str, Any], facts: Mapping[str, Fact], faults: list[Problem]) -> Overlay | None:
    changed: dict[str, Fact] = {}
    for name, value in table.get("facts", {}).items():
        if name not in facts:
            near = nearest(name, facts)
            faults.append(
                Problem(
                    f"{file}.toml: {name}",
                    "changes a fact that the book does not have",
                    None,
                    None,
                    near and f"did you mean {near!r}?",
                )
            )
        elif (fact := _fact(f"{file}.toml", name, value, faults)) is not None:
            changed[name] = fact
    return _validated(f"{file}.toml", {**table, "id": file.removeprefix("regions/"), "facts": changed}, Overlay, faults)


def _check_names(
    facts: Mapping[str, Fact],
    words: dict[str, dict[str, Any]],
    order: list[OrderRule],
    windows: list[WindowRule],
    faults: list[Problem],
) -> None:
    """Every fact, caution, operation, material, grass and soil that a record names must be there."""
    for where, name in _facts_named(words, order, windows):
        if name is not None and name not in facts and name not in COMPUTED:
            near = nearest(name, (*facts, *COMPUTED))
            hint = near and f"did you mean {near!r}?"
            faults.append(Problem(where, "names a fact that the book does not have", name, None, hint))
    for where, fault, name, known in _things_named(words, order):
        if name not in known:
            faults.append(Problem(where, fault, name, ", ".join(known)))
    for mix in words["mixes"].values():
        for part in mix.parts:
            if part not in words["materials"] or f"mixes.{mix.id}.{part}" not in facts:
                faults.append(Problem(f"mixes.toml: {mix.id}", "has a part without a material or a share", part))


def _facts_named(
    words: dict[str, dict[str, Any]], order: list[OrderRule], windows: list[WindowRule]
) -> Iterable[tuple[str, str | None]]:
    """Every fact that a record names, with the place of the record."""
    for operation in words["operations"].values():
        yield from ((f"operations.toml: {operation.id}", name) for name in (*operation.labour, operation.hours_min))
    for rule in order:
        yield from ((f"order.toml: {rule.id}", name) for name in (rule.minimum, rule.maximum))
    for campaign in words["campaigns"].values():
        yield f"campaigns.toml: {campaign.id}", campaign.cost
    for window in windows:
        yield from ((f"windows.toml: {window.id}", name) for name in window.fact_names())


def _things_named(
    words: dict[str, dict[str, Any]], order: list[OrderRule]
) -> Iterable[tuple[str, str, str, Iterable[str]]]:
    """Every thing of the book that a record names: the place of the record, what is wrong where it is unknown, and what is known."""
    for operation in words["operations"].values():
        for caution in operation.cautions:
            yield f"operations.toml: {operation.id}", "names an unknown caution", caution, words["cautions"]
    for herbicide in words["herbicides"].values():
        for harm in herbicide.harms:
            yield f"herbicides.toml: {herbicide.id}", "harms an unknown grass", harm.grass, words["species"]
    for rule in order:
        for selector in (rule.before, rule.after):
            known = (*words["operations"], "sowing")
            yield f"order.toml: {rule.id}", "names an unknown operation", selector.split(".")[0], known
    for material in words["materials"].values():
        if material.texture is not None:
            yield f"materials.toml: {material.id}", "names an unknown texture", material.texture, words["soils"]


def _check_sources(
    facts: Mapping[str, Fact],
    words: dict[str, dict[str, Any]],
    overlays: Iterable[Overlay],
    sources: Mapping[str, Source],
    faults: list[Problem],
) -> None:
    """No unknown source, and none that nothing rests on."""
    used: set[str] = set()
    every: list[tuple[str, str]] = [(name, fact.source) for name, fact in facts.items()]
    every += [(f"{o.id}: {name}", fact.source) for o in overlays for name, fact in o.facts.items()]
    every += [(thing.id, thing.source) for kind in ("species", "cautions") for thing in words[kind].values()]
    every += [
        (thing.id, source) for thing in words["herbicides"].values() for source in (harm.source for harm in thing.harms)
    ]
    for name, source in every:
        used.add(source)
        if source not in sources and source not in NO_SOURCE:
            near = nearest(source, sources)
            faults.append(Problem(name, "names an unknown source", source, None, near and f"did you mean {near!r}?"))
    faults += [Problem(f"sources.toml: {key}", "nothing rests on this source") for key in sources if key not in used]


# Numbers that rules work out from the lawn and that rules of order may name like facts.
COMPUTED = (
    "setting.lead_days", "setting.pass_interval", "setting.pass_interval_least", "setting.germination_most",
    "setting.germination_look_most", "setting.first_mow_least", "setting.first_mow_most", "setting.colour_look",
    "setting.colour_look_most",
)  # fmt: skip
