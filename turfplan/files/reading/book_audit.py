"""Looks through the book for names that lead nowhere, and for entries that nothing reads."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from string import Formatter
from typing import Any, get_args

from turfplan.book.entries import (
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
from turfplan.book.schema import Rule, Schema
from turfplan.book.window_rules import WindowRule
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.book_regions import (
    grass_name_faults,
    region_faults,
    unknown_name,
)
from turfplan.message import Message, listed
from turfplan.phrases import book_faults as phrases
from turfplan.phrases import errors
from turfplan.records.book_names import (
    COLLECTIVES,
    COMPUTED,
    DIGGING,
    FILLING_WORDS,
    NAMED_THINGS,
    OPERATIONS,
    OTHER_SOILS,
    CampaignName,
    CautionName,
    Selector,
    ThinCause,
)
from turfplan.site.soil_texture import CLASSES
from turfplan.units import dimension_of, parse_quantity

NO_SOURCE = ("judgement", "common_practice")
# Between an amount in one unit and what is written for the readers of the other: both are round
# numbers.
NEARLY = 0.2
# Amounts as they are printed, and as they are read.
PLAIN = str.maketrans({"²": "2", "³": "3", ",": None})
LABOUR = ("labour", "labour_area", "time")


@dataclass(frozen=True, slots=True)
class Entries:
    """The files as they are written, and all that could be read of them."""

    raw: Mapping[str, Mapping[str, Any]]
    schema: Schema
    facts: Mapping[str, Fact]
    places: Mapping[str, str]
    species: Mapping[str, Species]
    materials: Mapping[str, Material]
    mixes: Mapping[str, Mix]
    soils: Mapping[str, Soil]
    herbicides: Mapping[str, Herbicide]
    cautions: Mapping[str, Caution]
    causes: Mapping[str, Cause]
    campaigns: Mapping[str, CampaignWords]
    operations: Mapping[str, Operation]
    order: Collection[OrderRule]
    windows: Collection[WindowRule]
    choices: Collection[MixChoiceRule]
    grass_names: Collection[GrassName]
    overlays: Mapping[str, Overlay]
    sources: Mapping[str, Source]

    def ids(self, file: str) -> Collection[str]:
        """The names of the things of a file, also of those that could not be read."""
        return self.raw.get(file, {}).keys()


def name_faults(entries: Entries) -> Iterator[Problem]:
    """Every name in an entry that is none of the names it may be."""
    for check in (
        _sets,
        _facts_named,
        _things_named,
        _selectors,
        _choices,
        _shares,
        region_faults,
        grass_name_faults,
        _fillings,
        _sources,
    ):
        yield from check(entries)


def _sets(entries: Entries) -> Iterator[Problem]:
    """The things that code asks for by name must be there.

    Of operations, campaigns and soils there are no others.
    """
    whole: dict[str, Collection[str]] = {
        "operations": OPERATIONS,
        "campaigns": get_args(CampaignName),
        "soils": (*CLASSES, *OTHER_SOILS),
        "causes": get_args(ThinCause),
    }
    for file, names in {**whole, "cautions": get_args(CautionName), **NAMED_THINGS}.items():
        there = entries.ids(file)
        yield from (
            Problem(f"{file}.toml: {name}", errors.missing_from_book())
            for name in names
            if name not in there
        )
    for file, names in whole.items():
        for name in entries.ids(file):
            if name not in names:
                yield unknown_name(f"{file}.toml: {name}", phrases.unread(), name, names)
    covers = [key for key, grass in entries.species.items() if grass.winter_cover]
    if len(covers) != 1:
        got = ", ".join(covers) or errors.none()
        yield Problem("species.toml", phrases.one_winter_cover(), got)


def _facts_named(entries: Entries) -> Iterator[Problem]:
    """Every fact that an entry names must be there, in a dimension that makes sense of it."""
    for where, name, dimensions in _named(entries):
        if name in COMPUTED:
            continue
        fact = entries.facts.get(name)
        if fact is None:
            known = (*entries.facts, *COMPUTED)
            yield unknown_name(where, phrases.names_no_fact(), name, known)
        elif fact.dimension not in dimensions:
            fault = phrases.names_other_dimension(dimension=fact.dimension)
            allowed = phrases.fact_of(dimensions=listed(dimensions, "or"))
            yield Problem(where, fault, name, allowed)


def _named(entries: Entries) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Every fact that an entry names: the entry's place, the name, the dimensions it may have."""
    for operation in entries.operations.values():
        where = f"operations.toml: {operation.id}"
        yield from ((where, name, LABOUR) for name in operation.labour)
        if operation.hours_min is not None:
            yield where, operation.hours_min, ("time",)
    for rule in entries.order:
        dimension = "share" if rule.unit == "growth" else "days"
        named = (name for name in (rule.minimum, rule.maximum) if name is not None)
        yield from ((f"order.toml: {rule.id}", name, (dimension,)) for name in named)
    for campaign in entries.campaigns.values():
        yield f"campaigns.toml: {campaign.id}", campaign.cost, ("share",)
    for choice in entries.choices:
        yield from (
            (f"mix_choices.toml: {choice.id}", name, (*LABOUR, "length", "share", "days"))
            for name in choice.facts
        )
    for window in entries.windows:
        for name, dimensions in window.facts():
            for filled in _for_each_species(entries, window, name):
                yield f"windows.toml: {window.id}", filled, dimensions


def _for_each_species(entries: Entries, window: WindowRule, name: str) -> Iterator[str]:
    """A name with each grass in its braces that the window may be asked for."""
    if "{species}" not in name:
        yield name
        return
    for key, grass in entries.species.items():
        if window.grass in ("any", grass.season) and (not window.species or key in window.species):
            yield name.replace("{species}", key)


def _things_named(entries: Entries) -> Iterator[Problem]:
    """Cautions, grasses, soils and textures that entries name."""

    def each(where: str, names: Iterable[str], fault: Message, file: str) -> Iterator[Problem]:
        known = entries.ids(file)
        return (unknown_name(where, fault, name, known) for name in names if name not in known)

    for operation in entries.operations.values():
        yield from each(
            f"operations.toml: {operation.id}",
            operation.cautions,
            phrases.names_caution(),
            "cautions",
        )
    for herbicide in entries.herbicides.values():
        yield from each(
            f"herbicides.toml: {herbicide.id}",
            (h.grass for h in (*herbicide.harms, *herbicide.spares)),
            phrases.names_grass(),
            "species",
        )
    for campaign in entries.campaigns.values():
        yield from each(
            f"campaigns.toml: {campaign.id}", campaign.strong, phrases.names_grass(), "species"
        )
    for window in entries.windows:
        yield from each(
            f"windows.toml: {window.id}", window.species, phrases.names_grass(), "species"
        )
    for choice in entries.choices:
        yield from each(
            f"mix_choices.toml: {choice.id}", (choice.mix,), phrases.names_mix(), "mixes"
        )
    for mix in entries.mixes.values():
        yield from each(f"mixes.toml: {mix.id}", mix.soils, phrases.names_soil(), "soils")
        yield from each(f"mixes.toml: {mix.id}", mix.parts, phrases.names_material(), "materials")
    for material in entries.materials.values():
        texture = () if material.texture is None else (material.texture,)
        yield from each(f"materials.toml: {material.id}", texture, phrases.names_texture(), "soils")


def _selectors(entries: Entries) -> Iterator[Problem]:
    """What rules of order call tasks by: an operation or sowing, and a pick or key of it."""
    for rule in entries.order:
        where = f"order.toml: {rule.id}"
        for side, text in (("before", rule.before), ("after", rule.after)):
            selector = Selector.of(text)
            known = (*OPERATIONS, *COLLECTIVES, DIGGING)
            if selector.operation not in known:
                yield unknown_name(where, phrases.names_operation(), selector.operation, known)
            elif "." in text and selector.pick not in (picks := selector.allowed_picks(side)):
                parts = (f"{selector.operation}.{pick}" for pick in picks)
                fault = phrases.names_part(operation=selector.operation)
                yield unknown_name(where, fault, text, parts)


def _choices(entries: Entries) -> Iterator[Problem]:
    """Some mix is taken whatever the lawn is, and none after that one."""
    always = [number for number, choice in enumerate(entries.choices, 1) if not choice.when]
    if always[:1] != [len(entries.choices)]:
        yield Problem("mix_choices.toml", phrases.last_choice(), str(always))


def _shares(entries: Entries) -> Iterator[Problem]:
    """The parts of a mix are the whole of it."""
    for mix in entries.mixes.values():
        shares = [entries.facts.get(f"mixes.{mix.id}.{part}") for part in mix.parts]
        total = sum(share.si for share in shares if share is not None)
        if all(shares) and abs(total - 1) > 1e-9:
            yield Problem(f"mixes.toml: {mix.id}", phrases.parts_not_whole(), f"{total:g}", "1")


def _fillings(entries: Entries) -> Iterator[Problem]:
    """Words in braces that nothing fills."""
    for where, text, known in _texts(entries):
        try:
            words = [name for _, name, _, _ in Formatter().parse(text) if name is not None]
        except ValueError as error:
            yield Problem(where, phrases.unfillable(reason=str(error)), repr(text))
            continue
        for word in words:
            if "|" in word:
                yield from _two_units(where, word)
            elif word not in known:
                yield unknown_name(where, phrases.unfilled(), word, known)


def _texts(entries: Entries) -> Iterator[tuple[str, str, Collection[str]]]:
    """Every sentence of the book with its place and the words that its braces may hold."""
    for operation in entries.operations.values():
        steps = (operation.title, *operation.how, *operation.how_on_rain)
        tests = (operation.go, operation.go_frostless)
        said = (*steps, *tests, operation.fallback, operation.fallback_frostless)
        where = f"operations.toml: {operation.id}"
        yield from ((where, line, FILLING_WORDS) for line in said if line is not None)
        # What is told from the book alone holds for every lawn: nothing fills it.
        alone = (operation.done_when, operation.wrong, *operation.looks)
        yield from ((where, line, ()) for line in alone if line is not None)
    for choice in entries.choices:
        yield f"mix_choices.toml: {choice.id}", choice.reason, ("blend", "depth", "grass")
    for window in entries.windows:
        yield f"windows.toml: {window.id}", window.reason, ("opens", "closes", "grass")
        yield f"windows.toml: {window.id}", window.source, ()
    for cause in entries.causes.values():
        lines = (cause.title, cause.why, *cause.how, cause.over, *cause.tilled)
        yield from ((f"causes.toml: {cause.id}", line, ()) for line in lines)
    for caution in entries.cautions.values():
        yield f"cautions.toml: {caution.id}", caution.text, ("grass",)
        told = (caution.short, caution.condition)
        yield from ((f"cautions.toml: {caution.id}", line, ()) for line in told if line is not None)
    for material in entries.materials.values():
        asked = (*material.questions, *material.acceptance)
        yield from ((f"materials.toml: {material.id}", line, ()) for line in asked)
    for told in entries.raw["supplier"].values():
        yield from (("supplier.toml", line, ()) for line in told)


def _two_units(where: str, place: str) -> Iterator[Problem]:
    """An amount that is written for both readers: `3 to 4 in|8 to 10 cm`.

    Its units are known ones of one dimension, and the two are nearly the same.
    """
    try:
        us, metric = (_middle(part) for part in place.split("|"))
    except (ValueError, TurfplanError):
        yield Problem(where, phrases.not_two_units(), place, "{3 to 4 in|8 to 10 cm}")
        return
    if abs(us - metric) > NEARLY * max(abs(us), abs(metric)):
        yield Problem(where, phrases.two_amounts(), place)


def _middle(amount: str) -> float:
    """An amount, or the middle of a range, in the inside unit.

    Raises ValueError or TurfplanError for what is none.
    """
    numbers, unit = amount.strip().translate(PLAIN).rsplit(" ", 1)
    dimension = dimension_of(unit)
    if dimension is None:
        raise ValueError(unit)
    ends = [parse_quantity(f"{number} {unit}", dimension) for number in numbers.split(" to ")]
    return sum(ends) / len(ends)


def _sources(entries: Entries) -> Iterator[Problem]:
    """Sources that are not listed."""
    for where, source in _rests(entries):
        if source not in entries.ids("sources") and source not in NO_SOURCE:
            known = (*entries.ids("sources"), *NO_SOURCE)
            yield unknown_name(where, phrases.names_source(), source, known)


def _rests(entries: Entries) -> Iterator[tuple[str, str]]:
    """Everything that rests on a source: its place, and the source."""
    yield from (
        (f"{entries.places[name]}: {name}", fact.source) for name, fact in entries.facts.items()
    )
    for region, overlay in entries.overlays.items():
        yield from (
            (f"regions/{region}.toml: {name}", fact.source) for name, fact in overlay.facts.items()
        )
    for grass in entries.species.values():
        yield from (
            (f"species.toml: {grass.id}", source)
            for source in (grass.source, *(u.source for u in grass.unfed))
        )
    yield from (
        (f"cautions.toml: {caution.id}", caution.source) for caution in entries.cautions.values()
    )
    yield from ((f"names.toml: {name.said[0]}", name.source) for name in entries.grass_names)
    yield from ((f"causes.toml: {cause.id}", cause.source) for cause in entries.causes.values())
    for herbicide in entries.herbicides.values():
        yield from ((f"herbicides.toml: {herbicide.id}", source) for source in herbicide.sources)
    for window in entries.windows:
        yield from ((f"windows.toml: {window.id}", source) for source in window.rests_on)


def unread_faults(entries: Entries, rules: Mapping[str, Rule]) -> Iterator[Problem]:
    """Entries that nothing reads: facts that only entries name, sources, cautions, materials."""
    named = {name for _, name, _ in _named(entries)}
    for name in entries.facts:
        if name in rules and rules[name].row.by == "entries" and name not in named:
            yield Problem(f"{entries.places[name]}: {name}", phrases.fact_unnamed())
    faults = {"sources": phrases.source_unread()}
    for file, read in _read(entries).items():
        fault = faults.get(file, phrases.unread())
        yield from (
            Problem(f"{file}.toml: {key}", fault) for key in entries.ids(file) if key not in read
        )


def _read(entries: Entries) -> Mapping[str, Collection[str]]:
    """The sources, cautions and materials that something reads."""
    operations, mixes = entries.operations.values(), entries.mixes.values()
    always = (caution.id for caution in entries.cautions.values() if caution.always)
    named = (name for operation in operations for name in operation.cautions)
    parts = (part for mix in mixes for part in mix.parts)
    return {
        "sources": {source for _, source in _rests(entries)},
        "cautions": {*get_args(CautionName), *named, *always},
        "materials": {*NAMED_THINGS["materials"], *parts},
    }
