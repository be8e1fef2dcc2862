"""What the watering of a season depends on, with its numbers looked up once."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, time, timedelta
from math import ceil

from turfplan.book.entries import Book
from turfplan.calendar_days import daily, day_index
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.climate.record import Climate
from turfplan.message import Message
from turfplan.records.book_names import of_family
from turfplan.records.brief import Span, Water
from turfplan.work.watering.balance import (
    SoilWater,
    crop_coefficients,
    effective_rain_year,
    soil_of,
)
from turfplan.work.watering.hose import by_hand
from turfplan.work.watering.hours import Law, law_of
from turfplan.work.watering.intake import Intake, intake_of
from turfplan.work.watering.run_times import WateringZone

WEEK = 7
FREEZING_C = 0.0  # definition: water freezes


@dataclass(frozen=True, slots=True)
class WeatherDay:
    """What is known of one day, measured or forecast: rain, reference evapotranspiration."""

    rain_mm: float | None = None
    et0_mm: float | None = None


def weather_day(
    day: date,
    latitude_deg: float,
    *,
    rain_mm: float | None = None,
    min_c: float | None = None,
    max_c: float | None = None,
) -> WeatherDay:
    """A day of a weather file or forecast.

    Evapotranspiration is by Hargreaves, where both extremes are known.
    """
    if min_c is None or max_c is None:
        return WeatherDay(rain_mm)
    ra = extraterrestrial_mj_m2(latitude_deg, day.timetuple().tm_yday)
    return WeatherDay(rain_mm, hargreaves_mm(min_c, max_c, ra))


@dataclass(frozen=True, slots=True)
class KnownSeries:
    """A watering as the calendar has it."""

    start: date
    end: date
    start_time: time
    minutes: int
    weekdays: tuple[str, ...]
    skip: tuple[date, ...]
    settings: int = 1
    cycles: int = 1
    soak_min: int = 0


@dataclass(frozen=True, slots=True)
class WateredPart:
    """The part of a lawn that a stage waters: what it is called, and the drawn zones that it is,
    where it is nothing else."""

    where: Message
    zones: tuple[Message, ...] = ()


# Roots end nowhere before: a limit where nobody met rock.
MOST_ROOTS_MM = float("inf")


@dataclass(frozen=True, slots=True)
class WateringRequest:
    """Everything the watering of one season depends on, after the work has its dates.

    `passes` are the days of top-dressing, or on `open_ground`, without living grass, of lifts, and
    `pass_shares` the parts of the lawn that they cover, by day, where it is not all of it, and
    `pass_parts` what those are called; no grass stands from `open_from` until the ground is sown
    or planted;
    `germination_days` the days from sowing within which the species is up (the late end),
    `wakes_on` the day from which they count for seed that rests over winter, `sown_season` the
    season of a second grass over the lawn's own, which is given back on `second_until`,
    `germinated_on` the day it was seen; `begun_on` is the day on which a part of it went in before
    the rest, and `resown` how often it was sown anew;
    `first_mow_on` ends the seedling stage where known; roots end at `rock_depth_mm`. `strips` are
    the days of a pass done strip by strip, by its last day, `sown_strips`, `planted_strips` and
    `relaid_strips` those of sowing, planting and relaying;
    `sown_share` is the part of the lawn that is sown, `sown_part` what it is called, `relaid_share`
    that whose turf was lifted and laid back by `relaid_on`. `weather` holds measured days (journal,
    weather file) and forecast days, `rained` those on which rain has done a run's work, by its id.
    `start` and `end` bound the account. `previous` are the series
    that the calendar already has, by id, seen from `today`.
    """

    water: Water
    book: Book
    climate: Climate
    season: str
    soil: str
    area_m2: float
    zones: tuple[WateringZone, ...]
    start: date
    end: date
    seeded_on: date | None = None
    begun_on: date | None = None
    resown: int = 0
    wakes_on: date | None = None
    sown_season: str | None = None
    second_until: date | None = None
    planted_on: date | None = None
    planted_before: date | None = None
    relaid_on: date | None = None
    relaid_share: float = 0.0
    passes: tuple[date, ...] = ()
    pass_shares: Mapping[date, float] = field(default_factory=dict)
    pass_parts: Mapping[date, WateredPart] = field(default_factory=dict)
    open_ground: bool = False
    open_from: date | None = None
    germination_days: int = field(kw_only=True)
    germinated_on: date | None = None
    first_mow_on: date | None = None
    slope_percent: float = 0.0
    rock_depth_mm: float | None = None
    monthly_kc: bool = False
    away: tuple[tuple[date, date], ...] = ()
    strips: Mapping[date, tuple[date, ...]] = field(default_factory=dict)
    sown_strips: tuple[date, ...] = ()
    planted_strips: tuple[date, ...] = ()
    relaid_strips: tuple[date, ...] = ()
    sown_share: float = 1.0
    sown_part: WateredPart | None = None
    weather: Mapping[date, WeatherDay] = field(default_factory=dict)
    rained: Mapping[str, frozenset[date]] = field(default_factory=dict)
    previous: Mapping[str, KnownSeries] = field(default_factory=dict)
    today: date | None = None

    @property
    def first_day(self) -> date:
        """First day of the account: the start, or the first work before it."""
        work = (
            d
            for d in (
                self.seeded_on,
                self.begun_on,
                self.planted_on,
                self.planted_before,
                self.relaid_on,
                *self.passes,
            )
            if d is not None
        )
        passes = (day for strip in self.strips.values() for day in strip)
        days = [*work, *self.sown_strips, *self.planted_strips, *self.relaid_strips, *passes]
        return min(self.start, *days, self.start)

    def days_of(self, last: date) -> tuple[date, ...]:
        """The days of the pass that ends on this day: one, or one for each strip."""
        return self.strips.get(last, (last,))

    def sown_days(self, last: date) -> tuple[date, ...]:
        """The days of the sowing that ends on this day; seed that wakes does so all at once."""
        return (last,) if self.wakes_on else self.sown_strips or (last,)

    @property
    def law(self) -> Law:
        """The days and hours open to watering.

        Days on which nobody is there, and hours in which people sleep, are closed to water that
        somebody has to turn on; those hours not where the law leaves no others.
        """
        law = self.law_of_stand_in
        if not by_hand(self.water):
            return law
        absent = tuple(Span(start=first, end=last) for first, last in self.away)
        return replace(law, banned=(*law.banned, *absent))

    @property
    def law_of_stand_in(self) -> Law:
        """The days and hours open to somebody who waters while the household is away."""
        law = law_of(self.water)
        if not by_hand(self.water):
            return law
        first, last = self.book.si("water.by_hand_from"), self.book.si("water.by_hand_until")
        awake = law.between(first, last)
        return awake if awake.spans else law

    def waits_for_stand_in(self, day: date) -> bool:
        """Whether water that somebody has to turn on has nobody of the household on that day."""
        return by_hand(self.water) and any(first <= day <= last for first, last in self.away)

    @property
    def supply_l_min(self) -> float:
        """What the supply gives at once: as told, else the most that one tap usually does."""
        return self.water.flow_l_min or self.book.fact("water.tap_flow").high_si

    def parts_of(self, zone: WateringZone) -> int:
        """In how many parts, one after the other, the supply waters a zone with valves."""
        if zone.hose is not None:
            return 1
        return max(1, ceil(zone.flow_l_min / self.supply_l_min - 1e-6))

    @property
    def moist_from(self) -> date | None:
        """The day from which seed is kept moist: of its sowing, or of its waking in spring."""
        return None if self.seeded_on is None else self.wakes_on or self.seeded_on

    @property
    def young_days(self) -> tuple[tuple[date, date], ...]:
        """The first and the last day on which each part of what is sown or planted goes in."""
        found = []
        if self.begun_on is not None:
            found.append((self.begun_on, self.begun_on))
        if self.moist_from is not None:
            found.append((self.sown_days(self.moist_from)[0], self.moist_from))
        if self.planted_before is not None:
            found.append((self.planted_before, self.planted_before))
        if self.planted_on is not None:
            found.append((min((*self.planted_strips, self.planted_on)), self.planted_on))
        return tuple(found)

    def up_on(self, sown: date) -> date:
        """The day the seed is up: as seen, else the late end of what is usual."""
        return self.germinated_on or sown + timedelta(self.germination_days - 1)

    @property
    def of_begun(self) -> "WateringRequest | None":
        """The same request for the part that went in before the rest; None where there is none."""
        if self.begun_on is None:
            return None
        return replace(
            self,
            seeded_on=self.begun_on,
            begun_on=None,
            resown=0,
            wakes_on=None,
            second_until=None,
            first_mow_on=None,
            germinated_on=None,
            sown_strips=(),
        )


@dataclass(frozen=True, slots=True)
class WateredGround:
    """A request with its numbers looked up once: soil, law, roots, days.

    `et0_mm`, `rain_mm` and `usable_rain_mm` have a value for each day of the account from `first`
    on, `kc` one for each month.
    """

    request: WateringRequest
    soil: SoilWater
    law: Law
    first: date
    root_mm: float
    seed_root_mm: float
    root_growth_mm_day: float
    kc_wet: float
    kc_young: float
    et0_mm: tuple[float, ...]
    rain_mm: tuple[float, ...]
    usable_rain_mm: tuple[float, ...]
    kc: tuple[float, ...]
    intake: Intake

    def at(self, day: date) -> int:
        """Index of a day in the daily tuples."""
        return (day - self.first).days

    def mean_et0_mm(self, start: date, end: date) -> float:
        """Mean reference evapotranspiration of the days from start to end."""
        part = self.et0_mm[self.at(start) : self.at(end) + 1]
        return sum(part) / len(part)

    def mean_rain_mm(self, start: date, end: date) -> float:
        """Mean normal rain that grass can use, of the days from start to end."""
        part = self.usable_rain_mm[self.at(start) : self.at(end) + 1]
        return sum(part) / len(part)

    def mean_whole_rain_mm(self, start: date, end: date) -> float:
        """Mean normal rain of the days from start to end, whatever becomes of it."""
        part = self.rain_mm[self.at(start) : self.at(end) + 1]
        return sum(part) / len(part)

    def frozen(self, day: date) -> bool:
        """True where the ground under the grass is usually frozen."""
        return self.request.climate.soil_5cm_c[day_index(day)] <= FREEZING_C

    def crop_et_mm(self, day: date, *, seedling: bool, wet: bool) -> float:
        """Evapotranspiration without stress, in mm.

        It is that of mature grass, of a young stand, or of a surface that is kept wet.
        """
        kc = self.kc[day.month - 1]
        if wet:
            kc = self.kc_wet
        elif seedling:
            kc = self.kc_young
        return kc * self.et0_mm[self.at(day)]

    def root_depth_mm(self, day: date) -> float:
        """Depth of the roots that are watered for.

        It begins with the seed's, deepens daily after emergence, and ends with the lawn's.
        """
        begun, up = None, None
        request = self.request
        moist = request.moist_from
        if moist is not None and request.sown_days(moist)[0] <= day:
            begun, up = request.sown_days(moist)[0], request.up_on(moist)
        elif request.begun_on is not None and request.begun_on <= day:
            begun = request.begun_on
            up = begun + timedelta(request.germination_days - 1)
        planted = min(
            (
                *request.planted_strips,
                request.planted_before or date.max,
                request.planted_on or date.max,
            )
        )
        if planted <= day and (begun is None or planted >= begun):
            begun, up = planted, planted
        if up is None:
            return self.root_mm
        grown = self.root_growth_mm_day * (day.toordinal() - up.toordinal())
        return self.seed_root_mm if grown <= 0 else min(self.root_mm, self.seed_root_mm + grown)

    def growing(self, day: date, least: float) -> bool:
        """True where grass grows at `least` of its best or more by the usual warmth of the day.

        A second grass grows while the one below it rests.
        """
        request = self.request
        seasons = {request.season, request.sown_season or request.season}
        return any(request.climate.growth_potential(day, season) >= least for season in seasons)


def roots_of(book: Book, rock_depth_mm: float | None) -> float:
    """How deep the roots of a lawn are watered for, mm: no deeper than to the rock."""
    return min(book.si("water.root_depth"), rock_depth_mm or MOST_ROOTS_MM)


def ground_of(request: WateringRequest) -> WateredGround:
    """The numbers of a request: normals laid on its days, and known weather in their place."""
    book = request.book
    first, last = request.first_day, request.end + timedelta(WEEK)
    soil = soil_of(book, request.soil, request.season)
    # California has a monthly table of its own; elsewhere FAO-56 holds.
    monthly = request.monthly_kc or request.climate.state == "CA"
    kc = crop_coefficients(book, request.season, monthly=monthly)
    root = roots_of(book, request.rock_depth_mm)
    et0 = daily(request.climate.et0_mm, first, last)
    rain = daily(request.climate.rain_mm, first, last)
    usable = daily(effective_rain_year(request.climate, kc, soil.ready_mm(root)), first, last)
    for day, weather in request.weather.items():
        index = (day - first).days
        if 0 <= index < len(et0) and weather.et0_mm is not None:
            et0[index] = weather.et0_mm
    return WateredGround(
        request=request,
        soil=soil,
        law=request.law,
        first=first,
        root_mm=root,
        seed_root_mm=book.si("water.seed_moist_depth"),
        root_growth_mm_day=book.si("water.root_growth"),
        kc_wet=book.si("water.kc_wet_surface"),
        kc_young=book.si(of_family("water.kc_{season}_initial", request.season)),
        et0_mm=tuple(et0),
        rain_mm=tuple(rain),
        usable_rain_mm=tuple(usable),
        kc=kc,
        intake=intake_of(book, request.soil, request.slope_percent, bare=request.open_ground),
    )
