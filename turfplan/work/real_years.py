"""Judges dates by real years: in how many of them would the day have worked?

The window of each year comes from the same rules as the planned one, laid over that year's own
temperatures, soil and frosts. What no normal can tell is asked of the days themselves: was it dry,
did frost stay away, did the grass grow?
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS, HALF_A_YEAR, day_index
from turfplan.climate.real_years import SOUTHERN_BEGIN, RealYear
from turfplan.climate.record import Curve
from turfplan.message import Listed, Message, listed
from turfplan.phrases import real_years as phrases
from turfplan.records.book_names import of_species
from turfplan.records.plan_task import Role
from turfplan.work.rain_years import dry_day, moist_years
from turfplan.work.windows import WindowPolicy, windows_of_years

# A condition: the number of a year and a place in it, to whether it held.
_Holds = Callable[[int, int], bool]


@dataclass(frozen=True, slots=True)
class Tally:
    """How many years bear a day out: all conditions together, and each condition."""

    years: int
    worked: int
    parts: tuple[tuple[Message, int], ...]

    @property
    def share(self) -> float:
        """The share of years in which the day would have worked."""
        return self.worked / self.years

    @property
    def message(self) -> Message:
        """In how many years each condition held: window open in 27, dry in 21 of 30 years."""
        held = (phrases.held(condition=condition, years=count) for condition, count in self.parts)
        return phrases.tally(held=listed(held, "comma"), years=self.years)


@dataclass(frozen=True, slots=True)
class Spread:
    """A window in real years: in how many it opened at all, and its first and last days.

    Each from the 10th to the 90th of a hundred years.
    """

    years: int
    opened: int
    start: tuple[date, date] | None
    end: tuple[date, date] | None


@dataclass(frozen=True, slots=True)
class RealYears:
    """The real years of a place for one grass.

    Spans of every window rule, by place in the year, and the growth of each day. `on_rain` are the
    days until what is sown is up, and those in which it must not dry out, where nobody waters.
    """

    years: tuple[RealYear, ...]
    book: Book
    species: str
    spans: tuple[Mapping[str, tuple[int, int]], ...]
    growth: tuple[Curve, ...]
    on_rain: tuple[int, int] | None = None

    @property
    def labels(self) -> Listed:
        """The first and the last year: 1982 to 2018."""
        return listed((str(self.years[0].label), str(self.years[-1].label)), "range")

    def of_day(self, index: int) -> tuple[float, ...]:
        """The rain (mm) of every year at a place in the year.

        A day without a reading counts as dry. Where a year ends, the next one goes on; after the
        last, the first.
        """
        every = self.years
        turn = SOUTHERN_BEGIN if every[0].climate.southern else 0
        day, ahead = index % DAYS, (index - turn) // DAYS
        return tuple(
            every[(number + ahead) % len(every)].rain_mm[day] or 0.0 for number in range(len(every))
        )

    def asks(self, operation: str) -> bool:
        """Whether the days themselves, beside any window, can speak for or against an operation."""
        return bool(self._asked(operation, ""))

    def tally(self, operation: str, rule: str, first: date, last: date | None = None) -> Tally:
        """In how many years the day lay in the window of `rule`, and the work would have gone well.

        With `last` the work takes several days: the window must be open on the first, the weather
        do on the first and the last.
        """
        days = [day_index(day) for day in dict.fromkeys((first, last or first))]
        asked = self._asked(operation, rule)
        answers = [
            [all(holds(number, index) for index in days[:most]) for _, most, holds in asked]
            for number in range(len(self.years))
        ]
        counts = [sum(column) for column in zip(*answers, strict=True)]
        conditions = [condition for condition, _, _ in asked]
        return Tally(
            len(self.years),
            sum(all(row) for row in answers),
            tuple(zip(conditions, counts, strict=True)),
        )

    def moist(self, day: date) -> list[bool]:
        """For every year whether rain alone would have kept moist what was sown on a day."""
        return moist_years(self, self._losses(), self.on_rain or (0, 0), day_index(day))

    def _losses(self) -> list[float]:
        """What a wet seedbed loses on each day of the year, mm; the normals' in every year."""
        wet = self.book.si("water.kc_wet_surface")
        return [wet * et for et in self.years[0].climate.et0_mm]

    def spread(self, rule: str, year: int) -> Spread:
        """First and last days of a rule's window, told as dates of `year` and the next."""
        opened = [spans[rule] for spans in self.spans if rule in spans]
        if not opened:
            return Spread(len(self.years), 0, None, None)
        # Days are counted from the middle of the first ones, so that New Year cuts nothing.
        middle = sorted(start for start, _ in opened)[len(opened) // 2]
        starts = sorted((start - middle + HALF_A_YEAR) % DAYS - HALF_A_YEAR for start, _ in opened)
        ends = sorted(
            offset + length
            for offset, length in (
                ((start - middle + HALF_A_YEAR) % DAYS - HALF_A_YEAR, length)
                for start, length in opened
            )
        )
        base = date(year, 1, 1).toordinal() + middle

        def between(values: Sequence[int]) -> tuple[date, date]:
            tenth = (len(values) - 1) // 10
            return date.fromordinal(base + values[tenth]), date.fromordinal(
                base + values[-1 - tenth]
            )

        return Spread(len(self.years), len(opened), between(starts), between(ends))

    def _asked(self, operation: str, rule: str) -> list[tuple[Message, int, _Holds]]:
        """The conditions for an operation, each with of how many days of the work it is asked."""
        book, entry = self.book, self.book.operations[operation]
        asked: list[tuple[Message, int, _Holds]] = []
        if rule:
            asked.append((phrases.window_open(), 1, lambda n, index: self._open(n, rule, index)))
        if entry.weather == "dry":
            asked.append((phrases.dry(), 2, self._dry))
        if (
            _plays(entry.roles, "sowing")
            and not _plays(entry.roles, "dormant")
            and self._frost_ends(rule)
        ):
            days = round(book.si(of_species(self.species, "days_before_frost")))
            asked.append((phrases.no_frost(n=days), 1, partial(self._frost_free, days=days)))
        young = _plays(entry.roles, "sowing") or _plays(entry.roles, "planting")
        if self.on_rain and young and not _plays(entry.roles, "dormant"):
            asked.append((phrases.rain_enough(n=self.on_rain[1]), 1, self._rain_enough))
        if _plays(entry.roles, "spreading"):
            within = round(book.si(of_species(self.species, "pass_interval_min")))
            asked.append((phrases.grows_through(n=within), 1, partial(self._grows, days=within)))
        return asked

    def _frost_ends(self, rule: str) -> bool:
        """Whether frost is what comes after a sowing.

        In the falling half of the year, and always for warm-season grass.

        Spring frosts do not kill seedlings of cool-season grass.
        """
        half = next((r.half for r in self.book.windows if r.id == rule), "falling")
        return half == "falling" or self.book.species[self.species].season == "warm"

    def _open(self, number: int, rule: str, index: int) -> bool:
        span = self.spans[number].get(rule)
        return span is not None and (index - span[0]) % DAYS <= span[1]

    def _dry(self, number: int, index: int) -> bool:
        """Little rain on the day and no soaking the day before.

        A day without a reading counts as dry.
        """
        rain = self.years[number].rain_mm
        return dry_day(self.book, rain[index] or 0.0, rain[index - 1] or 0.0)

    def _frost_free(self, number: int, index: int, days: int) -> bool:
        nights = (self.years[number].min_c[(index + k) % DAYS] for k in range(days))
        return not any(night is not None and night <= 0 for night in nights)

    def _rain_enough(self, number: int, index: int) -> bool:
        """As much rain as a wet seedbed loses, until what was sown is up and for as long as it must
        not dry out."""
        year, wet = self.years[number], self.book.si("water.kc_wet_surface")
        return all(
            sum(year.rain_mm[(index + k) % DAYS] or 0.0 for k in range(days))
            >= wet * sum(year.climate.et0_mm[(index + k) % DAYS] for k in range(days))
            for days in self.on_rain or ()
        )

    def _grows(self, number: int, index: int, days: int) -> bool:
        curve = self.growth[number]
        mean = sum(curve[(index + k) % DAYS] for k in range(days)) / days
        return mean >= self.book.si("real_years.least_growth")


def record_of(
    years: Sequence[RealYear],
    book: Book,
    stand: Sequence[str],
    settings: WindowPolicy | None = None,
    on_rain: tuple[int, int] | None = None,
) -> RealYears | None:
    """The record of a stand of grass over real years.

    None where there are too few years to say anything.
    """
    if len(years) < round(book.si("real_years.least_years")):
        return None
    spans, growth = [], []
    season = book.species[stand[0]].season
    for year in years:
        windows = windows_of_years(year.climate, book, stand, (year.label,), settings).windows
        spans.append({w.rule: (day_index(w.start), (w.end - w.start).days) for w in windows})
        growth.append(year.climate.growth_curve(season))
    return RealYears(tuple(years), book, stand[0], tuple(spans), tuple(growth), on_rain)


def _plays(roles: Sequence[Role], role: Role) -> bool:
    return role in roles
