"""Everything a plan needs to know about its lawn, with each missing answer assumed and said."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from turfplan.agronomy import Book, Species
from turfplan.brief import WEEKDAYS, Brief, Intent, Weekday
from turfplan.climate.record import Climate
from turfplan.constraints import DaySet
from turfplan.rules.draft import Band, OpenDays
from turfplan.rules.real_years import Record
from turfplan.site.shapes import Zone
from turfplan.units import System, read_as


@dataclass(frozen=True, slots=True)
class Setting:
    """A lawn, resolved: nothing in it is unknown, and `assumptions` says what was not told.

    Lengths in mm, areas in m2, days as ordinals. `bands` are the parts of the lawn that are levelled by passes;
    `lift_share` and `lift_depth_mm` the hollows too deep for that.
    """

    brief: Brief
    book: Book
    climate: Climate
    today: date
    first_day: int
    last_day: int
    system: System
    country: str | None
    area_m2: float
    species: Species
    stand: tuple[str, ...]
    sown: Species
    soil: str
    thatch_mm: float
    condition: str
    intent: Intent
    sowing: str | None
    bands: tuple[Band, ...]
    lift_share: float
    lift_depth_mm: float
    settle_share: float
    weekdays: tuple[Weekday, ...]
    work_days: DaySet
    delivery_days: DaySet
    business_days: DaySet
    people: int
    hours_per_day: float
    haul_m: float
    lead_days: int
    assumptions: tuple[str, ...] = ()
    windows: tuple[OpenDays, ...] = ()
    closed: tuple[str, ...] = field(default=())
    missed: tuple[OpenDays, ...] = ()
    no_sowing: tuple[tuple[int, int], ...] = ()
    record: Record | None = None
    zones: tuple[Zone, ...] = ()
    missing_mm: float | None = None

    @property
    def touch_up_depth_mm(self) -> float:
        """The settled depth of the touch-up: what was measured as missing after the last pass, else a last thin layer."""
        return self.book.si("topdress.touch_up_depth") if self.missing_mm is None else self.missing_mm

    @property
    def accounted_until(self) -> date:
        """The day to which feeding is planned and accounted for: the work and the growth that follows it, within the plan."""
        season = round(self.book.si("setting.horizon_days"))
        return date.fromordinal(min(self.last_day, self.first_day + season))

    @property
    def zone_grasses(self) -> tuple[str, ...]:
        """The grasses of zones that are not the lawn's own."""
        return tuple(dict.fromkeys(z.grass for z in self.zones if z.grass and z.grass != self.species.id))

    @property
    def shaded_zones(self) -> tuple[str, ...]:
        """The names of zones in shade."""
        return tuple(zone.name for zone in self.zones if zone.sun == "shade")

    @property
    def depth_mm(self) -> float:
        """The settled fill where the passes are deepest, mm."""
        return max((band.depth_mm for band in self.bands), default=0.0)

    @property
    def mean_fill_mm(self) -> float:
        """The settled fill of the passes averaged over the whole area, mm."""
        return sum(band.depth_mm * band.share for band in self.bands)

    @property
    def cool(self) -> bool:
        """True for a cool-season grass."""
        return self.species.season == "cool"

    @property
    def living(self) -> bool:
        """True where living turf must grow through what is spread: not on bare ground, nor under a lawn sown anew."""
        return self.condition != "bare" and self.intent != "renovate"

    @property
    def pass_interval_days(self) -> int:
        """The fewest days between two passes: what the grass needs, or on bare ground what a layer needs to settle."""
        name = f"species.{self.species.id}.pass_interval_min" if self.living else "passes.bare_interval"
        return round(self.book.si(name))

    @property
    def covered_share(self) -> float:
        """The share of the area that the passes cover."""
        return min(1.0, sum(band.share for band in self.bands))

    def days(self, name: str) -> int:
        """A fact of the book in whole days."""
        return round(self.book.si(name))

    def open(self, operation: str) -> tuple[OpenDays, ...]:
        """The windows of an operation in order of time."""
        return tuple(sorted((w for w in self.windows if w.operation == operation), key=lambda w: w.start))

    def length(self, mm: float, kind: str = "depth", rounding: str = "nearest") -> str:
        """A length in the words of the brief's units."""
        return read_as(mm, kind, self.system, rounding).text

    def cut(self, mm: float) -> str:
        """A height of cut as a mower is set: eighths of an inch or 5 mm, never below what is asked."""
        return read_as(mm, "height", self.system, "up", step=0.125 if self.system is System.US else 5.0).text

    def rate(self, g_m2: float) -> str:
        """A rate per area in the words of the brief's units."""
        return read_as(g_m2, "rate", self.system).text


def weekday_days(first: int, last: int, weekdays: Sequence[str]) -> DaySet:
    """The days from first to last (ordinals, both included) that fall on the given weekdays."""
    wanted = {WEEKDAYS.index(day) for day in weekdays}
    return DaySet.from_days([d for d in range(first, last + 1) if (d - 1) % 7 in wanted])


def without(days: DaySet, spans: Sequence[tuple[int, int]]) -> DaySet:
    """The days of a set that lie in none of the closed spans."""
    return DaySet.from_days(d for d in days.days() if not any(a <= d <= b for a, b in spans))


def country_of(brief: Brief) -> str | None:
    """The country of a lawn: a postal code without one is read as one of the United States."""
    return brief.place.country or ("US" if brief.place.postal_code else None)


def units_of(brief: Brief) -> System:
    """The units in which a brief's reader is spoken to: those asked for, else those of the country."""
    return brief.units or (System.US if country_of(brief) == "US" else System.METRIC)


def resolve(
    brief: Brief,
    book: Book,
    climate: Climate,
    today: date,
    *,
    horizon: tuple[date, date] | None = None,
    area_m2: float | None = None,
    bands: Sequence[Band] | None = None,
    zones: Sequence[Zone] = (),
) -> Setting:
    """The brief with every missing answer assumed. `area_m2`, `bands` and `zones` come from shapes or a survey where there are any."""
    # Longer than most functions: half of it only names the parts of the record.
    told: list[str] = []
    first, last = horizon or _horizon(brief, book, today)
    country, system = country_of(brief), units_of(brief)
    if brief.units is None and country is None:
        told.append("No country was given: metric units are used.")
    species = book.species[brief.dominant.species]
    sown = book.species[brief.seeding.species or _default_seed(brief, book, species)]
    start, end = first.toordinal(), last.toordinal()
    weekdays, work, delivery = _days_at_hand(brief, start, end, told)
    area = area_m2 if area_m2 is not None else brief.lawn.area_m2 or 0.0
    people, hours, haul_m, lead_days = _labour(brief, book, system, told)
    shallow, lift_share, lift_depth = _bands(brief, book, bands, system, told)
    told += _of_zones(zones, species, sown if brief.seeding.intent != "none" else None, book, system)
    return Setting(
        brief=brief,
        book=book,
        climate=climate,
        today=today,
        first_day=start,
        last_day=end,
        system=system,
        country=country,
        area_m2=area,
        species=species,
        stand=_stand(brief, zones, book, told),
        sown=sown,
        soil=_soil(brief, told),
        thatch_mm=_thatch(brief, book, system, told),
        condition=brief.lawn.condition or _assume("thin", "The lawn is taken to be thin.", told),
        intent=brief.seeding.intent,
        sowing=_sowing(brief.seeding.intent, species.season),
        bands=shallow,
        lift_share=lift_share,
        lift_depth_mm=lift_depth,
        settle_share=_settle(brief, book, bool(shallow), told),
        zones=tuple(zones),
        weekdays=weekdays,
        work_days=work,
        delivery_days=delivery,
        business_days=weekday_days(start - 60, end, ("mon", "tue", "wed", "thu", "fri")),
        people=people,
        hours_per_day=hours,
        haul_m=haul_m,
        lead_days=lead_days,
        assumptions=tuple(told),
    )


def _assume(value: str, sentence: str, told: list[str]) -> str:
    told.append(sentence)
    return value


def _horizon(brief: Brief, book: Book, today: date) -> tuple[date, date]:
    start = max(brief.season.start or today, today)
    last = brief.season.until or (brief.season.start or today) + timedelta(days=round(book.si("setting.horizon_days")))
    return start, last


def _days_at_hand(brief: Brief, start: int, end: int, told: list[str]) -> tuple[tuple[Weekday, ...], DaySet, DaySet]:
    """The weekdays of work, and the days on which work is done and deliveries are taken."""
    weekdays: tuple[Weekday, ...] = brief.calendar.weekdays or ("sat", "sun")
    if brief.calendar.weekdays is None:
        told.append("No working days were given: Saturdays and Sundays are used.")
    closed = [(s.start.toordinal(), s.end.toordinal()) for s in brief.calendar.unavailable]
    work = without(weekday_days(start, end, weekdays), closed)
    takes = brief.delivery.allowed_weekdays
    return weekdays, work, without(weekday_days(start, end, takes), closed) if takes else work


def _default_seed(brief: Brief, book: Book, species: Species) -> str:
    return book.winter_cover if brief.seeding.intent == "winter_overseed" else species.id


def _sowing(intent: Intent, season: str) -> str | None:
    """The operation that an intent asks for: warm-season grass is seeded with its own kind by `seed`."""
    if intent in ("none",):
        return None
    if intent == "plant":
        return "plant"
    if intent == "dormant":
        return "dormant_seed"
    if intent == "winter_overseed":
        return "overseed"
    return "overseed" if season == "cool" and intent in ("overseed", "patch") else "seed"


def _stand(brief: Brief, zones: Sequence[Zone], book: Book, told: list[str]) -> tuple[str, ...]:
    least = book.si("setting.counted_share")
    counted = tuple(g.species for g in brief.lawn.grass if g.share >= least) or (brief.dominant.species,)
    if len(brief.lawn.grass) > 1:
        told.append("In the mixed stand the windows are those that suit every grass with a fifth of the cover or more.")
    return tuple(dict.fromkeys((*counted, *(z.grass for z in zones if z.grass and z.share >= least))))


def _of_zones(zones: Sequence[Zone], species: Species, sown: Species | None, book: Book, system: System) -> list[str]:
    """What is done about zones with a depth, grass or sun of their own."""
    said = []
    for zone in zones:
        if zone.depth_mm is not None:
            area, depth = read_as(zone.area_m2, "area", system).text, read_as(zone.depth_mm, "depth", system).text
            said.append(f"{zone.name} ({area}, {zone.share:.0%} of the lawn) is filled by {depth}, settled.")
        if zone.grass and zone.grass != species.id:
            grass = book.species[zone.grass].name
            said.append(
                f"In {zone.name} grows {grass}: passes and cuts are held to what both grasses bear"
                + (
                    "; the days suit both."
                    if zone.share >= book.si("setting.counted_share")
                    else "; the days are those of the larger part."
                )
            )
            if sown is not None and sown.id != zone.grass:
                said.append(
                    f"Seed is reckoned as {sown.name} over the whole lawn: where {zone.name} is to stay {grass}, plan it as a lawn of its own."
                )
        if zone.sun == "shade":
            said.append(
                f"{zone.name} lies in shade: grass grows through more slowly there, so every pass without seed is held to what slow turf takes."
            )
        elif zone.sun == "part":
            said.append(
                f"{zone.name} lies in part sun: nothing is changed for it; look there first whether the leaf tips are through."
            )
    return said


def _soil(brief: Brief, told: list[str]) -> str:
    soil = (brief.lawn.soil or "").strip().lower().replace(" ", "_").replace("-", "_")
    return soil or _assume("loam", "The soil was not named: loam is assumed.", told)


def _thatch(brief: Brief, book: Book, system: System, told: list[str]) -> float:
    if brief.lawn.thatch_mm is not None:
        return brief.lawn.thatch_mm
    thatch = book.si("setting.thatch_assumed")
    told.append(f"Thatch was not measured: {read_as(thatch, 'depth', system).text} is assumed, too little to remove.")
    return thatch


def _settle(brief: Brief, book: Book, fills: bool, told: list[str]) -> float:
    if brief.leveling.settle_percent is not None:
        return brief.leveling.settle_percent / 100
    share = book.si("topdress.settle_allowance")
    if fills:
        told.append(f"Loose material is taken to settle by {share:.0%}; no turf source prints a figure.")
    return share


def _bands(
    brief: Brief, book: Book, given: Sequence[Band] | None, system: System, told: list[str]
) -> tuple[tuple[Band, ...], float, float]:
    """What the passes level, and the share and mean depth of hollows to lift and fill instead."""
    lows = list(given) if given is not None else [Band(low.depth_mm, low.share) for low in brief.leveling.lows]
    limit = book.si("site.deep_limit")
    deep = [band for band in lows if band.depth_mm > limit]
    share = sum(band.share for band in deep)
    depth = sum(band.depth_mm * band.share for band in deep) / share if share else 0.0
    shallow = [band for band in lows if band.depth_mm <= limit and band.depth_mm > 0]
    mean = brief.leveling.depth_mm
    if mean and not shallow:
        # The mean over the whole area holds the hollows too: what they take is lifted and filled, the rest is spread.
        rest = mean - share * depth
        shallow = [Band(rest / (1 - share), 1 - share)] if rest > 0.1 and share < 1 else []
    if deep:
        told.append(
            f"Hollows deeper than {read_as(limit, 'depth', system).text} ({share:.0%} of the lawn) are lifted and filled, not top-dressed."
        )
    return tuple(sorted(shallow, key=lambda band: -band.depth_mm)), share, depth


def _labour(brief: Brief, book: Book, system: System, told: list[str]) -> tuple[int, float, float, int]:
    work = brief.work
    people = work.people or round(book.si("setting.people_assumed"))
    # Times are held in minutes inside.
    hours = work.hours_per_day or book.si("setting.hours_per_day_assumed") / 60
    haul_m = (
        work.haul_distance_mm if work.haul_distance_mm is not None else book.si("setting.haul_distance_assumed")
    ) / 1000
    lead = (
        brief.delivery.lead_days
        if brief.delivery.lead_days is not None
        else round(book.si("setting.lead_days_assumed"))
    )
    if work.people is None or work.hours_per_day is None or work.haul_distance_mm is None:
        told.append(
            f"Work is reckoned for {people} {'person' if people == 1 else 'people'}, {hours:g} hours a day and "
            f"{read_as(haul_m * 1000, 'distance', system).text} of wheeling."
        )
    if brief.delivery.lead_days is None:
        told.append(f"The supplier is taken to need {lead} days from order to delivery.")
    return people, hours, haul_m, lead
