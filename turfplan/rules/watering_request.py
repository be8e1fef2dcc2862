"""What the watering of a season depends on, with its numbers looked up once."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Water
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.climate.record import Climate
from turfplan.irrigation import RunTime, Zone, run_time
from turfplan.rules.water_balance import Soil, crop_coefficients, daily, effective_rain_year, soil_of
from turfplan.rules.watering_hours import Law, law_of
from turfplan.units import System

WEEK = 7


@dataclass(frozen=True, slots=True)
class WeatherDay:
    """What is known of one day, measured or forecast: rain that fell, reference evapotranspiration where known."""

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
    """A day of a weather file or forecast: evapotranspiration by Hargreaves where both extremes are known."""
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


@dataclass(frozen=True, slots=True)
class WateringRequest:
    """Everything the watering of one season depends on, after the work has its dates.

    `passes` are the days of top-dressing; `germination_days` the days from sowing within which the species is up (the
    late end), `germinated_on` the day it was seen; `first_mow_on` ends the seedling stage where known. `weather` holds
    measured days (journal, weather file) and forecast days. `start` and `end` bound the account. `previous` are the series
    that the calendar already has, by id, seen from `today`.
    """

    water: Water
    book: Book
    climate: Climate
    season: str
    soil: str
    area_m2: float
    zones: tuple[Zone, ...]
    start: date
    end: date
    system: System = System.US
    seeded_on: date | None = None
    dormant: bool = False
    planted_on: date | None = None
    passes: tuple[date, ...] = ()
    germination_days: int = field(kw_only=True)
    germinated_on: date | None = None
    first_mow_on: date | None = None
    slope_percent: float = 0.0
    monthly_kc: bool = False
    away: tuple[tuple[date, date], ...] = ()
    weather: Mapping[date, WeatherDay] = field(default_factory=dict)
    previous: Mapping[str, KnownSeries] = field(default_factory=dict)
    today: date | None = None

    @property
    def first_day(self) -> date:
        """First day of the account: the start, or the first work before it."""
        work = (d for d in (self.seeded_on, self.planted_on, *self.passes) if d is not None)
        return min(self.start, *work, self.start)

    def up_on(self, sown: date) -> date:
        """The day the seed is up: as seen, else the late end of what is usual."""
        return self.germinated_on or sown + timedelta(self.germination_days - 1)


@dataclass(frozen=True, slots=True)
class Ground:
    """A request with its numbers looked up once: soil, law, roots, and the days of the account from `first`."""

    request: WateringRequest
    soil: Soil
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
    storage_mm: float

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

    def crop_et_mm(self, day: date, *, seedling: bool, wet: bool) -> float:
        """Evapotranspiration without stress: of mature grass, of a young stand, or of a surface that is kept wet."""
        kc = self.kc[day.month - 1]
        if wet:
            kc = self.kc_wet
        elif seedling:
            kc = self.kc_young
        return kc * self.et0_mm[self.at(day)]

    def root_depth_mm(self, day: date) -> float:
        """Depth of the roots that are watered for: from the seed's, deepening daily after emergence, to the lawn's."""
        begun, up = None, None
        request = self.request
        if request.seeded_on is not None and not request.dormant and request.seeded_on <= day:
            begun, up = request.seeded_on, request.up_on(request.seeded_on)
        planted = request.planted_on
        if planted is not None and planted <= day and (begun is None or planted >= begun):
            begun, up = planted, planted
        if up is None:
            return self.root_mm
        grown = self.root_growth_mm_day * (day.toordinal() - up.toordinal())
        return self.seed_root_mm if grown <= 0 else min(self.root_mm, self.seed_root_mm + grown)

    def growing(self, day: date, least: float) -> bool:
        """True where grass grows at `least` of its best or more by the usual warmth of the day."""
        return self.request.climate.growth_potential(day, self.request.season) >= least

    def run(self, depth_mm: float, zone: Zone) -> RunTime:
        """A depth on a zone in as many cycles as soil and slope ask for."""
        book = self.request.book
        return run_time(
            depth_mm,
            zone,
            intake_mm_h=self.soil.intake_mm_h,
            storage_mm=self.storage_mm,
            soak_min=book.si("water.soak_gap"),
            most_cycles=round(book.si("water.cycles_most")),
        )


def ground_of(request: WateringRequest) -> Ground:
    """The numbers of a request: normals laid on its days, with what is known of the weather in their place."""
    book = request.book
    first, last = request.first_day, request.end + timedelta(WEEK)
    soil = soil_of(book, request.soil, request.season)
    # California has a monthly table of its own; elsewhere FAO-56 holds.
    monthly = request.monthly_kc or request.climate.state == "CA"
    kc = crop_coefficients(book, request.season, monthly=monthly)
    root = book.si("water.root_depth")
    et0 = daily(request.climate.et0_mm, first, last)
    rain = daily(request.climate.rain_mm, first, last)
    usable = daily(effective_rain_year(request.climate, kc, soil.ready_mm(root)), first, last)
    for day, weather in request.weather.items():
        index = (day - first).days
        if 0 <= index < len(et0) and weather.et0_mm is not None:
            et0[index] = weather.et0_mm
    level, per_percent = book.si("water.surface_storage"), book.si("water.storage_loss_per_percent")
    held = max(book.si("water.surface_storage_least"), level - per_percent * request.slope_percent)
    return Ground(
        request=request,
        soil=soil,
        law=law_of(request.water),
        first=first,
        root_mm=root,
        seed_root_mm=book.si("water.seed_moist_depth"),
        root_growth_mm_day=book.si("water.root_growth"),
        kc_wet=book.si("water.kc_wet_surface"),
        kc_young=book.si(f"water.kc_{request.season}_initial"),
        et0_mm=tuple(et0),
        rain_mm=tuple(rain),
        usable_rain_mm=tuple(usable),
        kc=kc,
        storage_mm=held,
    )
