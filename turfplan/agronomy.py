"""The book: the typed, validated view of the agronomic data."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from turfplan.facts import Fact, Source
from turfplan.plan import Phase, Role
from turfplan.timing import WindowRule
from turfplan.units import System, convert, format_number, from_inside, pretty_unit


class Entry(BaseModel):
    """Base of the book's word records: frozen, unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: str


class Species(Entry):
    """A grass in words; its numbers are facts `species.<id>.…`."""

    name: str
    season: Literal["cool", "warm"]
    habit: str
    seedable: bool
    spreads: bool
    plantable: tuple[str, ...] = ()
    dethatch: Literal["ok", "light", "never"] = "ok"
    winter_cover: bool = False
    source: str


class Material(Entry):
    """A material with the questions for its supplier and the checks at the gate; `texture` is the soil it is, if it is one."""

    name: str
    texture: str | None = None
    questions: tuple[str, ...] = ()
    acceptance: tuple[str, ...] = ()


class Mix(Entry):
    """A mix: its parts (shares are facts), and the soils and grasses that straight use of it suits."""

    name: str
    parts: tuple[str, ...]
    soils: tuple[str, ...] = ()
    species: tuple[str, ...] = ()


class Soil(Entry):
    """A USDA texture class; `fine` where straight sand would lie on it as a layer."""

    name: str
    fine: bool


class Harm(BaseModel):
    """A grass that a product harms while it is young, and the source that says so."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    grass: str
    source: str


class Herbicide(Entry):
    """An active ingredient; its interval to seeding is the fact `herbicides.<id>.hold`.

    For the grasses it `harms` that interval does not hold, and that of an unknown ingredient is kept.
    """

    name: str
    harms: tuple[Harm, ...] = ()


class Caution(Entry):
    """A caution of the trade; `always` marks those that every plan carries."""

    text: str
    source: str
    always: bool = False


class CampaignWords(Entry):
    """A way through the season: its name, why it is taken (with passes, or with seed alone), what speaks against it beside a
    better one, the fact that prices it, and grasses that bear more in it."""

    name: str
    seasons: tuple[str, ...]
    cost: str
    why: tuple[str, ...]
    why_without_passes: tuple[str, ...]
    against: str
    strong: tuple[str, ...] = ()


class Operation(Entry):
    """An operation in words, with the tests of the day; hours are named facts."""

    name: str
    phase: Phase
    title: str
    roles: tuple[Role, ...] = ()
    how: tuple[str, ...]
    go: str | None = None
    fallback: str | None = None
    cautions: tuple[str, ...] = ()
    weather: Literal["any", "dry", "dry_ground", "growing"] = "any"
    labour: tuple[str, ...] = ()
    hours_min: str | None = None
    amounts: Literal["pass", "fill", "seed", "plants", "straw", "load", "starter", "feed", "lime"] | None = None
    alarm: bool = False
    inspect: str | None = None


class OrderRule(Entry):
    """One rule of the order of work; selectors and units are explained in `order.toml`."""

    before: str
    after: str
    minimum: str | None = None
    maximum: str | None = None
    unit: Literal["days", "workdays", "growth"] = "days"
    strength: Literal["hard", "strong", "advice", "preference"]
    when: tuple[str, ...] = ()
    reason: str


class Overlay(BaseModel):
    """What a region changes and why: facts, settings and local words."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: str
    name: str
    countries: tuple[str, ...]
    states: tuple[str, ...] = ()
    why: str
    settings: dict[str, bool] = {}
    terms: dict[str, str] = {}
    facts: dict[str, Fact] = {}


@dataclass(frozen=True, slots=True, eq=False)
class Book:
    """Every fact, word and rule in force, with the region's overlay laid on. A book equals itself alone."""

    facts: Mapping[str, Fact]
    sources: Mapping[str, Source]
    species: Mapping[str, Species]
    materials: Mapping[str, Material]
    mixes: Mapping[str, Mix]
    soils: Mapping[str, Soil]
    herbicides: Mapping[str, Herbicide]
    cautions: Mapping[str, Caution]
    campaigns: Mapping[str, CampaignWords]
    operations: Mapping[str, Operation]
    order: tuple[OrderRule, ...]
    windows: tuple[WindowRule, ...]
    overlays: Mapping[str, Overlay]
    supplier_questions: tuple[str, ...]
    acceptance: tuple[str, ...]
    version: str
    region: str | None = None
    _cache: dict[str, float] = field(default_factory=dict, repr=False, compare=False)

    def fact(self, name: str) -> Fact:
        """The fact of that dotted name; KeyError for a name the book does not have."""
        return self.facts[name]

    def get(self, name: str) -> Fact | None:
        """The fact of that name, or None."""
        return self.facts.get(name)

    def si(self, name: str) -> float:
        """The default of a fact in the inside unit of its dimension."""
        if name not in self._cache:
            self._cache[name] = self.facts[name].si
        return self._cache[name]

    def low_si(self, name: str) -> float:
        """The low end of a fact in the inside unit."""
        return self.facts[name].low_si

    def high_si(self, name: str) -> float:
        """The high end of a fact in the inside unit."""
        return self.facts[name].high_si

    @property
    def winter_cover(self) -> str:
        """The grass that greens a dormant lawn for one winter."""
        return next(grass.id for grass in self.species.values() if grass.winter_cover)

    @property
    def region_ids(self) -> tuple[str, ...]:
        """The regions there are overlays for."""
        return tuple(self.overlays)

    @property
    def region_name(self) -> str | None:
        """The name of the region in force."""
        return self.overlays[self.region].name if self.region else None

    def setting(self, name: str) -> bool | None:
        """A setting of the region in force, or None."""
        return self.overlays[self.region].settings.get(name) if self.region else None

    def term(self, word: str) -> str:
        """The local word for a trade word, or the word itself."""
        return self.overlays[self.region].terms.get(word, word) if self.region else word

    def said_by(self, source: str) -> str:
        """Who stands behind a number, in words: the institution of a source, or whose judgement it is."""
        if source in self.sources:
            return self.sources[source].institution
        return "our own judgement" if source == "judgement" else source.replace("_", " ")

    def judgements(self) -> int:
        """How many facts in force are judgement."""
        return sum(fact.is_judgement for fact in self.facts.values())

    def fact_text(self, name: str) -> str:
        """A fact in one line: what, how much, and where it comes from."""
        fact = self.facts[name]
        return f"{name.replace('_', ' ')}: {printed(fact)} ({citation(self, fact)})"


@dataclass(frozen=True, slots=True)
class FactRow:
    """One line of the table of facts."""

    name: str
    printed: str
    source: str
    judgement: bool
    fact: Fact

    def as_dict(self) -> dict[str, Any]:
        """The row for JSON."""
        return self.fact.model_dump(mode="json") | {"name": self.name, "citation": self.source}


def facts_table(book: Book, prefix: str = "") -> tuple[FactRow, ...]:
    """The facts whose names begin with `prefix`, in order of name."""
    return tuple(_rows(book, prefix))


def _rows(book: Book, prefix: str) -> Iterator[FactRow]:
    for name in sorted(book.facts):
        if name.startswith(prefix):
            fact = book.facts[name]
            yield FactRow(name, printed(fact), citation(book, fact), fact.is_judgement, fact)


def printed(fact: Fact, system: System | None = None) -> str:
    """The number of a fact with its range and unit, as its source prints them; temperatures in the scale of `system`."""
    scale = _scale(fact, system)
    unit = f" {pretty_unit(scale)}" if scale else ""

    def number(value: float) -> str:
        if scale == fact.unit:
            return format_number(value)
        told = from_inside(convert(value, fact.unit, fact.dimension), scale, fact.dimension)
        return format_number(round(told, 1 if abs(told) < 100 else -1))

    spread = f"{number(fact.low)} to {number(fact.high)}" if fact.low is not None and fact.high is not None else ""
    if fact.value is None:
        return f"{spread}{unit}"
    value = number(fact.value)
    return f"{value}{unit}" + (f" ({spread})" if spread and fact.low != fact.high else "")


def _scale(fact: Fact, system: System | None) -> str:
    """The unit a fact is printed in: its own, but a temperature in the reader's scale, where there is a reader."""
    scales = {"temperature": ("F", "C"), "degree_days": ("degF day", "degC day")}
    if system is None or fact.dimension not in scales:
        return fact.unit
    us, metric = scales[fact.dimension]
    return us if system is System.US else metric


def citation(book: Book, fact: Fact) -> str:
    """Where a fact comes from, in words."""
    if fact.source == "judgement":
        return f"judgement: {fact.note}"
    if fact.source == "common_practice":
        return "common practice" + (f": {fact.note}" if fact.note else "")
    source = book.sources[fact.source]
    place = f", {fact.place}" if fact.place else ""
    basis = f" [{fact.basis}]" if fact.basis != "read" else ""
    return f"{source.institution}: {source.title}{place}{basis}"


def choose_region(
    overlays: Mapping[str, Overlay], country: str | None, state: str | None, koppen: str | None
) -> str | None:
    """The overlay of a state, else of a whole country; None where no overlay speaks of the place."""
    for overlay in overlays.values():
        if country in overlay.countries and state is not None and state.upper() in overlay.states:
            return overlay.id
    for overlay in overlays.values():
        if country in overlay.countries and not overlay.states:
            return overlay.id
    return None
