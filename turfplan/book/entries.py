"""The book: the typed, validated view of the agronomic data."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from pydantic import BaseModel, ConfigDict

from turfplan.book.facts import Fact, Source
from turfplan.book.window_rules import WindowRule
from turfplan.records.book_names import (
    CauseSeen,
    FactName,
    FactOption,
    Flag,
    Habit,
    HiredMachine,
    MachineName,
    MixCondition,
    NamedFact,
    PlantForm,
    RegionSetting,
    Trip,
    YearSeason,
)
from turfplan.records.plan_task import Phase, Role


class BookEntry(BaseModel):
    """Base of the book's word records: frozen, unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    id: str


class Unfed(BaseModel):
    """A season in which a grass takes no nitrogen, and the source that says so."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    season: YearSeason
    reason: str
    source: str


class Species(BookEntry):
    """A grass in words; its numbers are facts `species.<id>.…`.

    `leaf` is how broad its blades look; `common` marks what an unnamed lawn most likely is;
    `noxious_in` lists the countries where the law, or that of a state, calls it a noxious weed,
    `at_home_in` the climates of Köppen in which it is the lawn that keeps itself.
    """

    name: str
    season: Literal["cool", "warm"]
    habit: Habit
    leaf: Literal["fine", "medium", "broad"]
    common: bool = False
    seedable: bool
    spreads: bool
    plantable: tuple[PlantForm, ...] = ()
    dethatch: Literal["ok", "light", "wide", "never"] = "ok"
    winter_cover: bool = False
    noxious_in: tuple[str, ...] = ()
    at_home_in: tuple[Literal["Af", "Am", "Aw"], ...] = ()
    unfed: tuple[Unfed, ...] = ()
    source: str

    @property
    def combed(self) -> bool:
        """True where thatch is combed out within the work: not of grasses of thick runners above
        ground, which bear blades set wide apart alone, in a season of its own, or none."""
        return self.dethatch in ("ok", "light")

    @property
    def creeps(self) -> bool:
        """True for a strong creeper: warm-season grass with runners above and below the ground."""
        return self.season == "warm" and self.habit == "stolon and rhizome"


class Material(BookEntry):
    """A material with the questions for its supplier and the checks at the gate.

    `texture` is the soil it is, if it is one.
    """

    name: str
    kind: Literal["sand", "soil", "compost", "cover"]
    texture: str | None = None
    questions: tuple[str, ...] = ()
    acceptance: tuple[str, ...] = ()


class Mix(BookEntry):
    """A mix: its parts (shares are facts), and the soils and habits of grass that straight use of
    it suits."""

    name: str
    parts: tuple[str, ...]
    soils: tuple[str, ...] = ()
    habits: tuple[Habit, ...] = ()


class MixChoiceRule(BookEntry):
    """When a mix is taken and why; what conditions mean is explained in `mix_choices.toml`."""

    mix: str
    when: tuple[MixCondition, ...] = ()
    facts: tuple[NamedFact, ...] = ()
    reason: str


class Soil(BookEntry):
    """A USDA texture class; `as_one` names a soil of that class, `fine` where straight sand would
    lie on it as a layer. `beyond` are soils that no class tells: peat, chalk and the like."""

    name: str
    as_one: str
    fine: bool
    beyond: bool = False


class Harm(BaseModel):
    """A grass that a product harms, or spares, while it is young, and the source that says so."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    grass: str
    source: str


class Herbicide(BookEntry):
    """An active ingredient; its interval to seeding is the fact `herbicides.<id>.hold`.

    For the grasses it `harms` that interval does not hold, and that of an unknown ingredient is
    kept; those that it `spares` are sown or planted at any time after it. One that `stops` lasts in
    the soil and lets nothing grow: nothing is sown before its label or a pot test says so.
    `carried` is the source that says it lives on in clippings and compost; bags that feed and kill
    weeds at once are sold with those `in_bags`. One that `prevents` keeps weeds from coming up for
    as long as it keeps seed.
    """

    name: str
    harms: tuple[Harm, ...] = ()
    spares: tuple[Harm, ...] = ()
    stops: bool = False
    carried: str | None = None
    in_bags: bool = False
    prevents: bool = False

    @property
    def sources(self) -> tuple[str, ...]:
        """What its words rest on: whom it harms and spares, and that it lives on in clippings."""
        carried = () if self.carried is None else (self.carried,)
        return (*(each.source for each in (*self.harms, *self.spares)), *carried)


class Cause(BookEntry):
    """Why grass is thin: what comes first, step by step, and what says that it is over; `digs`
    where a spade, fork or tine goes in for it, `seen` when it can be seen, `clearest` when it shows
    best in the grass of one season. `tilled_how` and `tilled_over` take their place where the plan
    itself loosens the ground.
    """

    name: str
    title: str
    why: str
    how: tuple[str, ...]
    over: str
    source: str
    digs: bool = False
    seen: CauseSeen = "ground"
    clearest: CauseSeen | None = None
    clearest_in: Literal["cool", "warm"] = "cool"
    tilled_how: tuple[str, ...] = ()
    tilled_over: str | None = None

    @property
    def tilled(self) -> tuple[str, ...]:
        """What is said of it where the plan loosens the ground."""
        return (*self.tilled_how, *([self.tilled_over] if self.tilled_over else []))


class Caution(BookEntry):
    """A caution of the trade; `always` marks those that every plan carries, `short` is how it
    stands among what protects, `condition` what must hold before the work begins."""

    text: str
    source: str
    short: str | None = None
    condition: str | None = None
    always: bool = False


class CampaignWords(BookEntry):
    """A way through the season: its name, why it is taken (with passes, in other words where the
    fill is deeper than one session takes, or with seed alone; beside that where summers are hot or
    winters freeze, where no season to sow is left, where seed goes down), what speaks against it
    beside a better one (of seed, and in hot summers, in other words where it has them), the fact
    that prices it, and grasses that bear more in it."""

    name: str
    cost: NamedFact
    why: tuple[str, ...]
    why_deep: tuple[str, ...] = ()
    why_in_heat: tuple[str, ...] = ()
    why_season_over: tuple[str, ...] = ()
    why_with_frost: tuple[str, ...] = ()
    why_with_seed: tuple[str, ...] = ()
    why_with_seed_in_heat: tuple[str, ...] = ()
    why_without_passes: tuple[str, ...]
    against: str
    against_with_seed: str | None = None
    against_with_seed_in_heat: str | None = None
    strong: tuple[str, ...] = ()


# By which rule the amounts of an operation are reckoned.
HowMuch = Literal[
    "pass", "fill", "seed", "plants", "straw", "load", "starter", "feed", "lime", "worked_in"
]


class Operation(BookEntry):
    """An operation in words, with the tests of the day; hours are named facts; `office` where an
    office is asked, on its days of business; `in_rain` where rain takes no day from it. `hires`
    names the machine that is hired where nobody has one, `machine_name` as people call it, `trip`
    the trip on which what it takes is fetched, `buys` what is bought for it by the area.
    `how_on_rain` stands for `how` where nobody waters, `go_frostless` and `fallback_frostless` for
    theirs where it never freezes. `done_when` says how one knows that it is done, `wrong` what to
    do at once if it goes wrong, `looks` how it should look in the days after."""

    name: str
    phase: Phase
    title: str
    roles: tuple[Role, ...] = ()
    how: tuple[str, ...]
    how_on_rain: tuple[str, ...] = ()
    go: str | None = None
    go_frostless: str | None = None
    fallback: str | None = None
    fallback_frostless: str | None = None
    done_when: str | None = None
    wrong: str | None = None
    looks: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    weather: Literal["any", "dry", "dry_ground"] = "any"
    labour: tuple[NamedFact, ...] = ()
    hours_min: NamedFact | None = None
    amounts: HowMuch | None = None
    alarm: bool = False
    window: Literal["strong", "advice"] | None = None
    countries: tuple[str, ...] = ()
    optional: bool = False
    office: bool = False
    in_rain: bool = False
    turn: int | None = None
    hired: bool = False
    noisy: bool = False
    machine: MachineName | None = None
    hires: HiredMachine | None = None
    machine_name: str | None = None
    trip: Trip | None = None
    buys: Literal["preventer", "weed killer"] | None = None

    def plays(self, *roles: Role) -> bool:
        """Whether it plays one of these roles."""
        return not set(roles).isdisjoint(self.roles)


class OrderRule(BookEntry):
    """One rule of the order of work; selectors and units are explained in `order.toml`."""

    before: str
    after: str
    minimum: NamedFact | None = None
    maximum: NamedFact | None = None
    unit: Literal["days", "workdays", "growth"] = "days"
    whole: bool = False
    either: bool = False
    same_ground: bool = False
    strength: Literal["hard", "strong", "advice", "preference"]
    when: tuple[Flag, ...] = ()
    reason: str


class GrassName(BaseModel):
    """What a grass is called in some countries, or wherever no other grass bears the name.

    In the countries of `unlike` the name is another plant's.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    grass: str
    said: tuple[str, ...]
    countries: tuple[str, ...] = ()
    unlike: tuple[str, ...] = ()
    source: str


class Overlay(BaseModel):
    """What a region changes and why: facts, settings and local words."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    id: str
    name: str
    countries: tuple[str, ...]
    states: tuple[str, ...] = ()
    why: str
    settings: dict[RegionSetting, bool] = {}
    terms: dict[str, str] = {}
    facts: dict[str, Fact] = {}


@dataclass(frozen=True, slots=True, eq=False)
class Book:
    """Every fact, word and rule in force, with the region's overlay laid on. A book equals itself
    alone."""

    facts: Mapping[str, Fact]
    sources: Mapping[str, Source]
    species: Mapping[str, Species]
    materials: Mapping[str, Material]
    mixes: Mapping[str, Mix]
    mix_choices: tuple[MixChoiceRule, ...]
    soils: Mapping[str, Soil]
    herbicides: Mapping[str, Herbicide]
    cautions: Mapping[str, Caution]
    causes: Mapping[str, Cause]
    campaigns: Mapping[str, CampaignWords]
    operations: Mapping[str, Operation]
    grass_names: tuple[GrassName, ...]
    order: tuple[OrderRule, ...]
    windows: tuple[WindowRule, ...]
    overlays: Mapping[str, Overlay]
    supplier_questions: tuple[str, ...]
    blend_questions: tuple[str, ...]
    acceptance: tuple[str, ...]
    version: str
    region: str | None = None
    _cache: dict[str, float] = field(default_factory=dict, repr=False, compare=False)

    def fact(self, name: FactName) -> Fact:
        """The fact of that dotted name, which the book has: the loader has seen to it."""
        return self.facts[name]

    def get(self, name: FactName | FactOption) -> Fact | None:
        """The fact of that name, or None where the book may lack it."""
        return self.facts.get(name)

    def known(self, name: FactOption) -> NamedFact | None:
        """The name of a fact that the book may lack, where it has it."""
        return NamedFact(name) if name in self.facts else None

    def si(self, name: FactName) -> float:
        """The default of a fact in the inside unit of its dimension."""
        if name not in self._cache:
            self._cache[name] = self.facts[name].si
        return self._cache[name]

    def low_si(self, name: FactName) -> float:
        """The low end of a fact in the inside unit."""
        return self.facts[name].low_si

    def high_si(self, name: FactName) -> float:
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

    def setting(self, name: RegionSetting) -> bool | None:
        """A setting of the region in force, or None."""
        return self.overlays[self.region].settings.get(name) if self.region else None

    def judgements(self) -> int:
        """How many facts in force are judgement."""
        return sum(fact.is_judgement for fact in self.facts.values())


def choose_region(
    overlays: Mapping[str, Overlay], country: str | None, state: str | None, koppen: str | None
) -> str | None:
    """The overlay of a state, else of a whole country.

    None where no overlay speaks of the place.
    """
    for overlay in overlays.values():
        if country in overlay.countries and state is not None and state.upper() in overlay.states:
            return overlay.id
    for overlay in overlays.values():
        if country in overlay.countries and not overlay.states:
            return overlay.id
    return None
