"""Everything a plan needs to know about its lawn, with each missing answer assumed and said."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.book.entries import Book, Species
from turfplan.calendar_days import DAYS, WEEKDAYS
from turfplan.climate.record import Climate
from turfplan.message import Message, Worded
from turfplan.records.book_names import FactName, OperationName, StandStage, of_species
from turfplan.records.brief import Brief, Intent
from turfplan.records.constraints import DaySet
from turfplan.records.past import KnownFeeding
from turfplan.site.outlines.shapes import LawnZone
from turfplan.units import System, read_as
from turfplan.work.drafts import Band, OpenDays
from turfplan.work.elsewhere import NOTHING_ELSEWHERE, Elsewhere
from turfplan.work.light import Light, told_of_shade
from turfplan.work.ordered_loads import NOTHING_ORDERED, OrderedLoads
from turfplan.work.parts import PlotPart
from turfplan.work.real_years import RealYears
from turfplan.work.seed_mix import SownArea, grasses_of
from turfplan.work.stand import OPEN_GROUND, stage_worked
from turfplan.work.weed_killers import Hold, holds_of


@dataclass(frozen=True, slots=True)
class Plot:
    """The ground: area in m2, texture class, zones with a depth, grass or sun of their own.

    `parts` are treated by themselves; `light` is what the lawn has of sun.
    """

    area_m2: float
    soil: str
    zones: tuple[LawnZone, ...] = ()
    parts: tuple[PlotPart, ...] = ()
    light: Light | None = None

    @property
    def dark_h(self) -> float | None:
        """The hours of sun, where they are too few for any grass; None elsewhere."""
        return self.light.hours if self.light is not None and self.light.dark else None

    @property
    def shaded(self) -> tuple[Worded, ...]:
        """The names of zones in shade."""
        return tuple(zone.name for zone in self.zones if zone.sun == "shade")


@dataclass(frozen=True, slots=True)
class Turf:
    """What grows: the main grass, every grass whose windows count, thatch in mm, condition."""

    species: Species
    stand: tuple[str, ...]
    thatch_mm: float
    condition: str


@dataclass(frozen=True, slots=True)
class Sowing:
    """What is sown or planted, to what end, and by which operation; None where nothing is.

    `grass` is what most of the lawn is sown with, `areas` what goes where. `cautions` speak of the
    choice; `refused` says why nothing is sown at all, `unsown` which parts of the lawn are left.
    """

    grass: Species
    intent: Intent
    operation: str | None
    areas: tuple[SownArea, ...] = ()
    cautions: tuple[Message, ...] = ()
    refused: Message | None = None
    unsown: tuple[Message, ...] = ()

    @property
    def grasses(self) -> tuple[str, ...]:
        """Every grass that is sown or planted somewhere; the main one alone where none is."""
        return grasses_of(self.areas) or (self.grass.id,)

    @property
    def needs_water(self) -> bool:
        """Whether what is sown or planted has to be kept wet from its first day."""
        return self.operation in ("seed", "overseed", "plant")

    @property
    def share(self) -> float:
        """The share of the lawn that is sown or planted, 0 to 1."""
        return sum(area.share for area in self.areas)


@dataclass(frozen=True, slots=True)
class Levelling:
    """The fill: `bands` are levelled by passes, hollows too deep for that are lifted.

    Depths are settled ones in mm; shares are of the area, the share for settling of the depth (0 to
    1). `missing_mm` is what was measured as missing after the last pass. `left` is what is left out
    of the fill for another season, `lies_mm` what of it lies there where no pass is to come.
    `lift_borne` is the part of `lift_share` through which grass would grow in a few passes.
    """

    bands: tuple[Band, ...]
    lift_share: float
    lift_depth_mm: float
    settle_share: float
    missing_mm: float | None = None
    left: tuple[Band, ...] = ()
    lift_borne: float = 0.0
    lies_mm: float = 0.0

    @property
    def depth_mm(self) -> float:
        """The settled fill where the passes are deepest, mm."""
        return max((band.depth_mm for band in self.bands), default=0.0)

    @property
    def mean_mm(self) -> float:
        """The settled fill of the passes averaged over the whole area, mm."""
        return sum(band.depth_mm * band.share for band in self.bands)

    @property
    def covered_share(self) -> float:
        """The share of the area that the passes cover."""
        return min(1.0, sum(band.share for band in self.bands))


@dataclass(frozen=True, slots=True)
class WorkDays:
    """The days of each who works on a lawn.

    `work` are those of the lawn's heavy work, by the household or a contractor, `machines` those of
    them on which machines may be heard, `household` what is left to the household, `business` those
    of suppliers and utilities, `offices` those of them on which somebody is there to ask, `orders`
    those of the household on which a supplier answers, `errands` those on which it
    fetches what is heavy, `shops` those on which it goes to a shop; `public` are the public
    holidays that were kept (ordinals).
    """

    work: DaySet
    machines: DaySet
    household: DaySet
    deliveries: DaySet
    business: DaySet
    offices: DaySet
    orders: DaySet
    errands: DaySet
    shops: DaySet
    public: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Labour:
    """Who works: people, hours of each on a day, the way to wheel in m, the supplier's days, and
    what the same hands have promised elsewhere."""

    people: int
    hours_per_day: float
    haul_m: float
    lead_days: int
    elsewhere: Elsewhere = NOTHING_ELSEWHERE

    @property
    def day_hours(self) -> float:
        """The person-hours of a working day."""
        return self.people * self.hours_per_day

    def hours_left(self, day: int) -> float:
        """The person-hours of a day (an ordinal) that nothing else has taken."""
        return max(0.0, self.day_hours - self.elsewhere.taken(day))


@dataclass(frozen=True, slots=True)
class Openings:
    """When operations are open in the years of the plan, and what real years say of that.

    `closed` are those that are not, each with its reason, `never` those of them that no rule opens
    here in any season, `missed` windows that ended just before the plan; no sowing in the spans of
    days (ordinals, both included) of `no_sowing`, since a watering ban would follow, nor, where
    nobody waters, in those of `too_dry`; in those of `dry_turf` turf that nobody waters grows over
    nothing.
    """

    windows: tuple[OpenDays, ...] = ()
    closed: tuple[Message, ...] = ()
    never: tuple[tuple[OperationName, Message], ...] = ()
    missed: tuple[OpenDays, ...] = ()
    no_sowing: tuple[tuple[int, int], ...] = ()
    too_dry: tuple[tuple[int, int], ...] = ()
    dry_turf: tuple[tuple[int, int], ...] = ()
    record: RealYears | None = None


@dataclass(frozen=True, slots=True)
class ResolvedLawn:
    """A lawn, resolved: nothing in it is unknown, and `assumptions` says what was not told.

    `first_day` and `last_day` of the plan are ordinals, and `alive_until` too: the day on which a
    cause that was found alive is looked for again. `answered` are the looks for a cause that are
    over. `kept_end` is the least last day where the owner gave none, None where one was given: a
    campaign then takes the days that it and its follow-ups need, up to `last_day`. From
    `strip_days` on a pass is done strip by strip; None for what the book holds people to.
    `passes_apart` where days off may lie between its days. `dethatched_ahead` where thatch is taken
    down a season before the fill and the seed, `thatch_down` where it has been; `ordered` is mix.
    `fed_before` are the feedings of the plan before (None: there is none), `begins` its first day,
    where it is laid out anew.
    """

    brief: Brief
    book: Book
    climate: Climate
    today: date
    first_day: int
    last_day: int
    system: System
    country: str | None
    plot: Plot
    turf: Turf
    sowing: Sowing
    levelling: Levelling
    calendar: WorkDays
    labour: Labour
    assumptions: tuple[Message, ...] = ()
    openings: Openings = Openings()
    alive_until: int | None = None
    answered: frozenset[str] = frozenset()
    strip_days: int | None = None
    passes_apart: bool = False
    kept_end: int | None = None
    dethatched_ahead: bool = False
    thatch_down: bool = False
    begins: int | None = None
    fed_before: tuple[KnownFeeding, ...] | None = None
    ordered: OrderedLoads = NOTHING_ORDERED

    @property
    def holds(self) -> tuple[Hold, ...]:
        """What weed killers of the past keep free of seed, in the order of the brief."""
        return holds_of(self.book, self.brief.history.herbicides, self.sowing.grasses)

    @property
    def told_of_shade(self) -> tuple[Message, ...]:
        """What is said of sun that is only just enough for what is sown or planted, or that is
        enough though shade is named as a cause."""
        light, sowing = self.plot.light, self.sowing
        if light is None or sowing.operation is None or sowing.intent == "winter_overseed":
            return ()
        apart = any(part.kind == "shade" for part in self.plot.parts)
        blamed = "shade" in self.brief.site.thin_cause and not apart
        return tuple(told_of_shade(light, sowing.grasses, blamed=blamed))

    @property
    def touch_up_depth_mm(self) -> float:
        """The settled depth of the touch-up: what was measured as missing, or a last thin layer."""
        missing = self.levelling.missing_mm
        return self.book.si("topdress.touch_up_depth") if missing is None else missing

    @property
    def accounted_until(self) -> date:
        """The day to which feeding is planned: the work and the growth that follows it, within the
        plan; one of several years is fed in the last of them too."""
        season = round(self.book.si("setting.horizon_days"))
        end = (self.begins or self.first_day) + season
        while end < self.today.toordinal() + DAYS:
            end += DAYS
        return date.fromordinal(min(self.last_day, end))

    @property
    def zone_grasses(self) -> tuple[str, ...]:
        """The grasses of zones that are not the lawn's own."""
        own = self.turf.species.id
        return tuple(dict.fromkeys(z.grass for z in self.plot.zones if z.grass and z.grass != own))

    @property
    def cool(self) -> bool:
        """True for a cool-season grass."""
        return self.turf.species.season == "cool"

    @property
    def worked(self) -> StandStage:
        """The stage of the stand when a fill is spread, or seed or plants go in."""
        return stage_worked(self.turf.condition, self.sowing.intent)

    @property
    def on_open_ground(self) -> bool:
        """True where that work meets no living grass: on bare ground, or on a killed stand."""
        return self.worked in OPEN_GROUND

    @property
    def care_alone(self) -> bool:
        """True where nothing is filled, sown or planted, now or later: what grows is cared for."""
        fill = self.levelling
        asked = fill.bands or fill.left or fill.lift_share or self.sowing.operation is not None
        return not asked and not self.on_open_ground

    @property
    def near_trees(self) -> bool:
        """Whether roots of trees lie in the ground that is worked: as told, or as a part of it."""
        parts = self.plot.parts
        return self.brief.site.trees or any(part.kind == "tree_roots" for part in parts)

    @property
    def needs_daily_water(self) -> bool:
        """Whether something young lives on daily water: seed, plants, or turf that is relaid."""
        return self.sowing.needs_water or self.levelling.lift_share > 0

    @property
    def thin_share(self) -> float:
        """The share of the lawn that is thin, dead or bare, where turf is patched or planted: as
        told, else as the book reckons."""
        fact: FactName = (
            "planting.thin_share" if self.sowing.intent == "plant" else "seeding.patch_share"
        )
        return self.brief.lawn.thin_share or self.book.si(fact)

    @property
    def mended_share(self) -> float:
        """The share of the lawn that is sown or planted: of living turf that is patched or planted
        what is thin, of any other all."""
        mends = self.sowing.intent in ("patch", "plant") and not self.on_open_ground
        return self.thin_share if mends else 1.0

    @property
    def pass_interval_days(self) -> int:
        """The fewest days between two passes.

        What the slowest grass that counts needs, or on bare ground what a layer needs to settle.
        """
        if self.on_open_ground:
            return round(self.book.si("passes.bare_interval"))
        grasses = {self.turf.species.id, *self.turf.stand}
        return round(max(self.book.si(of_species(g, "pass_interval_min")) for g in grasses))

    def days(self, name: FactName) -> int:
        """A fact of the book in whole days."""
        return round(self.book.si(name))

    def never_opens(self, operation: OperationName) -> tuple[Message, ...]:
        """Why an operation has no season at this place for this grass; none where it has one."""
        return tuple(why for name, why in self.openings.never if name == operation)

    def open(self, operation: str) -> tuple[OpenDays, ...]:
        """The windows of an operation in order of time."""
        return tuple(
            sorted(
                (w for w in self.openings.windows if w.operation == operation),
                key=lambda w: w.start,
            )
        )

    def length(self, mm: float, kind: str = "depth", rounding: str = "nearest") -> str:
        """A length in the words of the brief's units."""
        return read_as(mm, kind, self.system, rounding).text

    def cut(self, mm: float) -> str:
        """A height of cut as a mower is set: by 1/8 in or 5 mm, never below what is asked."""
        return read_as(
            mm, "height", self.system, "up", step=0.125 if self.system is System.US else 5.0
        ).text

    @property
    def bears_winter_cover(self) -> bool:
        """Whether winter ryegrass may be sown into this grass without harm."""
        return self.turf.species.id in self.book.campaigns["winter_cover"].strong

    def rate(self, g_m2: float) -> str:
        """A rate per area in the words of the brief's units."""
        return read_as(g_m2, "rate", self.system).text


def weekday_days(first: int, last: int, weekdays: Sequence[str]) -> DaySet:
    """The days from first to last (ordinals, both included) that fall on the given weekdays."""
    wanted = {WEEKDAYS.index(day) for day in weekdays}
    return DaySet.from_days([d for d in range(first, last + 1) if (d - 1) % 7 in wanted])


def without(days: DaySet, spans: Sequence[tuple[int, int]]) -> DaySet:
    """The days of a set that lie in none of the closed spans."""
    return days.without(DaySet.of(spans))


def country_of(brief: Brief) -> str | None:
    """The country of a lawn: a postal code without one is read as one of the United States."""
    return brief.place.country or ("US" if brief.place.postal_code else None)


def in_its_state(brief: Brief, climate: Climate) -> Brief:
    """The brief with the state that its postal code lies in, where it names none."""
    if brief.place.state is not None or climate.state is None:
        return brief
    place = brief.place.model_copy(update={"state": climate.state})
    return brief.model_copy(update={"place": place})


def units_of(brief: Brief) -> System:
    """The units that a brief's reader is told: those asked for, else those of the country."""
    return brief.units or (System.US if country_of(brief) == "US" else System.METRIC)
