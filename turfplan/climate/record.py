"""The climate of one place: daily normals with their source and error band."""

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from math import exp

from turfplan.calendar_days import DAYS, HALF_A_YEAR, day_index
from turfplan.climate.growth import Bell, growth_potential
from turfplan.message import Message

Curve = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Frost:
    """The date of the last or first frost as places in the year, 0 to 364.

    Median, and the days passed in one year of ten.

    `early_10` lies before the median, `late_10` after it: after a last frost's `late_10`, only one
    year in ten still freezes; before a first frost's `early_10`, one in ten has frozen already.
    They may leave 0 to 364 where the season runs over New Year.
    """

    median: int
    early_10: int
    late_10: int
    error_days: int


@dataclass(frozen=True, slots=True)
class Excess:
    """How much warmer than usual a place was measured on a day, degrees Celsius.

    Below zero it was colder.

    It fades before and after that day, to 1/e of it within `memory_days`.
    """

    day: date
    measured_c: float
    memory_days: float

    def on(self, day: date) -> float:
        """The excess of a day."""
        return self.measured_c * exp(-abs((day - self.day).days) / self.memory_days)


@dataclass(frozen=True)
class Climate:
    """Daily normals of one place, 365 values each, by place in the year (`day_index`).

    Temperatures in degrees Celsius, rain and reference evapotranspiration in mm a day. `error_days`
    is how far a date read from these curves may be off, `soil_error_days` one read from the soil,
    `air_error_c` and `soil_error_c` the error of a daily mean. `last_frost` and `first_frost` are
    None where frost is rarer than every other year. With an `excess` the methods that take a date,
    of air, soil and growth, tell of the year in which it was measured; the curves stay normals.
    `usual_air_c` is the normal daily mean where the curves are those of one year.
    `coldest_night_c` is the coldest night of a usual year, off by `coldest_error_c`. `wet_days` are
    the days of each month with 1 mm of rain or more, estimated from the normals; empty where nobody
    estimated them. `wet_days_error` is the share by which those of a year may be off.
    `found` is where the place lies as a reader knows it: a town, or the way from the nearest one.
    `water_share` is what want of water leaves of growth on each day of a usual year, 0 to 1; None
    where a lawn is watered. `warm_bell` is the bell of growth of a warm-season grass that has one
    of its own (`climate.growth.Bell`). `rain_doubt` is why the rain is not to be built on, where it
    is not.
    """

    latitude: float
    longitude: float
    elevation_m: float | None
    timezone: str
    koppen: str | None
    source: Message
    error_days: int
    air_error_c: float
    soil_error_c: float
    air_mean_c: Curve
    air_min_c: Curve
    air_max_c: Curve
    rain_mm: Curve
    soil_5cm_c: Curve
    soil_10cm_c: Curve
    et0_mm: Curve
    last_frost: Frost | None
    first_frost: Frost | None
    attribution: str = ""
    state: str | None = None
    soil_error_days: int = 0
    excess: Excess | None = None
    usual_air_c: Curve | None = None
    coldest_night_c: float = 0.0
    coldest_error_c: float = 0.0
    wet_days: tuple[float, ...] = ()
    wet_days_error: float = 0.0
    found: Message | None = None
    water_share: Curve | None = None
    warm_bell: Bell | None = None
    rain_doubt: Message | None = None

    @property
    def southern(self) -> bool:
        """True south of the equator."""
        return self.latitude < 0

    @property
    def frostless(self) -> bool:
        """Whether even the coldest night of a usual year stays above freezing, error and all."""
        return self.coldest_night_c - self.coldest_error_c > 0

    def thawed(self, first: date, last: date) -> bool:
        """Whether the ground is not frozen on any day from `first` to `last`: each lies between the
        last frost and the first, one year in ten and the error of both aside, or frost is rarer
        than every other year.
        """
        spring, autumn = self.last_frost, self.first_frost
        if self.frostless or spring is None or autumn is None:
            return True
        opens = spring.late_10 + spring.error_days
        # Counted from the medians: a date of one year in ten may lie beyond New Year.
        free = (autumn.median - spring.median) % DAYS
        free -= opens - spring.median + autumn.median - autumn.early_10 + autumn.error_days
        passed = (day_index(first) - opens) % DAYS
        return passed + (last - first).days < free

    def air_c(self, day: date) -> float:
        """Daily mean air temperature to be expected."""
        return self.air_mean_c[day_index(day)] + self._over(day)

    def soil_c(self, day: date, depth_cm: int = 10) -> float:
        """Daily mean soil temperature to be expected at 5 or 10 cm."""
        return (self.soil_5cm_c if depth_cm == 5 else self.soil_10cm_c)[
            day_index(day)
        ] + self._over(day)

    def _over(self, day: date) -> float:
        return self.excess.on(day) if self.excess is not None else 0.0

    def year_measured(self) -> "Climate":
        """The curves of the year, half of it to each side, in which an excess was measured."""
        excess = self.excess
        if excess is None:
            return self
        middle = day_index(excess.day)
        over = [
            excess.measured_c
            * exp(-abs((index - middle + HALF_A_YEAR) % DAYS - HALF_A_YEAR) / excess.memory_days)
            for index in range(DAYS)
        ]

        def warmed(curve: Curve) -> Curve:
            return tuple(value + more for value, more in zip(curve, over, strict=True))

        return replace(
            self,
            air_mean_c=warmed(self.air_mean_c),
            soil_5cm_c=warmed(self.soil_5cm_c),
            soil_10cm_c=warmed(self.soil_10cm_c),
            usual_air_c=self.air_mean_c,
            excess=None,
        )

    @cached_property
    def _warmth(self) -> dict[str, Curve]:
        return {
            season: tuple(growth_potential(t, season) for t in self.air_mean_c)
            for season in ("cool", "warm")
        }

    @cached_property
    def _growth(self) -> dict[str, Curve]:
        return {
            season: tuple(self._grown(t, season, place) for place, t in enumerate(self.air_mean_c))
            for season in ("cool", "warm")
        }

    def _grown(self, air_c: float, season: str, place: int) -> float:
        """Growth, 0 to 1, at a temperature on a place of the year, less want of water."""
        growth = growth_potential(air_c, season, self.warm_bell)
        return growth if self.water_share is None else growth * self.water_share[place]

    @cached_property
    def drying_mm(self) -> Curve:
        """By how much evapotranspiration exceeds usual rain on each day, mm; below zero in wet
        times."""
        return tuple(used - rain for used, rain in zip(self.et0_mm, self.rain_mm, strict=True))

    def warmth_curve(self, season: str) -> Curve:
        """What warmth alone lets cool- or warm-season grass grow, 0 to 1, for each place in the
        year: growth potential as seasons of work are told by."""
        return self._warmth[season]

    def growth_curve(self, season: str) -> Curve:
        """Growth of the lawn's cool- or warm-season grass, 0 to 1, for each place in the year: by
        warmth, and by water where nobody waters."""
        return self._growth[season]

    def growth_potential(self, day: date, season: str) -> float:
        """Growth of the lawn's cool- or warm-season grass on a day, 0 to 1, as `growth_curve`."""
        if self.excess is not None:
            return self._grown(self.air_c(day), season, day_index(day))
        return self._growth[season][day_index(day)]

    def __hash__(self) -> int:
        return hash((self.latitude, self.longitude, self.source, self.air_mean_c[:30]))
