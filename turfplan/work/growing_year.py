"""The growing year of a place: its turning points, and the days on which its curves pass a mark.

All of it moves smoothly from place to place. The height of summer and the depth of winter are the
middles of the warm and the cold part of the year, not single days; and a mark is passed on the day
that many years agree on, so that it has a day also where a normal year only just reaches it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import accumulate
from math import atan2, cos, sin, sqrt, tau

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS
from turfplan.climate.record import Climate, Curve
from turfplan.records.book_names import NamedFact
from turfplan.work.window_reasons import blended


@dataclass(frozen=True)
class GrowingYear:
    """One growing year as day numbers.

    It runs from the depth of winter over the height of summer to the next depth of winter.
    """

    climate: Climate
    book: Book
    species: str
    coldest: int
    hottest: int

    @property
    def next_coldest(self) -> int:
        """The depth of the winter that follows."""
        return self.coldest + DAYS

    @cached_property
    def summer(self) -> float:
        """How hot summers are, from 0 (cool) to 1."""
        mean = self.climate.air_mean_c
        return _share(
            max(mean), self.book, NamedFact("windows.cool_summer"), NamedFact("windows.hot_summer")
        )

    @cached_property
    def mild(self) -> float:
        """How mild winters are, from 0 (cold enough to end the season) to 1 (none)."""
        names = NamedFact("windows.mild_winter_none"), NamedFact("windows.mild_winter")
        return _share(min(self.climate.air_mean_c), self.book, *names)

    @cached_property
    def seasons(self) -> float:
        """How far the year has seasons, from 0 (all months are alike) to 1."""
        return _seasons(_usual(self.climate), self.book)

    @cached_property
    def endless(self) -> float:
        """How far no season ends the growing year, from 0 (it is told to have seasons) to 1."""
        few, full = self.book.si("windows.even_year"), self.book.si("windows.seasonal_year")
        told = few + self.book.si("windows.even_told") * (full - few)
        none = self.book.si("windows.endless_year")
        return min(1.0, max(0.0, (told - swing(_usual(self.climate))) / (told - none)))

    @cached_property
    def blur(self) -> float:
        """How far to either side of the normal (degrees C) a mark counts as passed in part.

        As far as years lie apart where seasons are marked, and where there are none. Where they
        fade into one another a season comes and goes by degrees: there it is more.
        """
        apart = self.book.si("windows.years_apart")
        names = NamedFact("windows.seasonal_year"), NamedFact("windows.marked_year")
        fading = self.seasons * (1 - _share(swing(_usual(self.climate)), self.book, *names))
        return apart + fading * (self.book.si("windows.fading_apart") - apart)

    @property
    def even(self) -> bool:
        """Whether the months are too much alike for seasons to be told of."""
        return self.seasons < self.book.si("windows.even_told")

    def number(self, name: NamedFact, cool: NamedFact | None = None) -> float:
        """The number of a condition here; towards `cool` where summers are cool."""
        return blended(self.book, self.species, name, cool, self.summer)

    def evened(self, day: float, turn: int) -> float:
        """A day of a year with seasons, brought to a turn of the year where it has none."""
        return turn + self.seasons * (day - turn)

    def after(self, index: int, start: int) -> int:
        """The first day number on or after `start` that has this place in the year."""
        return start + (index - start) % DAYS

    def air_c(self, day: int) -> float:
        """The normal daily mean of a day number, degrees C."""
        return self.climate.air_mean_c[day % DAYS]

    def rises(self, curve: Curve, mark: float, blur: float, lag: int = 0) -> int:
        """The day on which a curve has risen through a mark between winter and summer.

        At the depth of winter where it is always above it, at the height of summer where it is
        never. A curve that lags behind the air may rise so many days longer.
        """
        end = self.hottest + lag
        return end - round(_days_above(curve, mark, blur, self.coldest, end))

    def dries(self, curve: Curve, mark: float, blur: float) -> int:
        """The day up to the middle of spring on which the wet of winter is over, as `rises` has it:
        rain that comes back in summer is no winter's."""
        end = (self.coldest + self.hottest) // 2
        return end - round(_days_above(curve, mark, blur, self.coldest, end))

    def rains_from(self, day: int, end: int, days: int) -> int:
        """The first day up to `end` and the height of summer on which usual rain of the coming
        `days` covers their evapotranspiration; `day` where there is none, or it is already so."""
        rain, used = coming(self.climate.rain_mm, days), coming(self.climate.et0_mm, days)
        last = min(end, self.hottest)
        wet = (d for d in range(day, last + 1) if rain[d % DAYS] >= used[d % DAYS])
        return next(wet, day)

    def falls(self, curve: Curve, mark: float, blur: float) -> int:
        """The day on which a curve has fallen through a mark between summer and winter.

        At the height of summer where it is never above it, at the depth of winter where always.
        """
        above = _days_above(curve, mark, blur, self.hottest, self.next_coldest)
        return self.hottest + round(above)


def growing_year(climate: Climate, book: Book, species: str) -> GrowingYear:
    """The growing year of a place for a grass; of normals, also where the curves are one year's."""
    mean, within = _usual(climate), book.si("windows.turn_within")
    coldest, hottest = turning_points(mean, _seasons(mean, book), within)
    # Day numbers are counted so that coldest < hottest < coldest + 365.
    after = hottest if hottest > coldest else hottest + DAYS
    return GrowingYear(climate, book, species, coldest, after)


def _usual(climate: Climate) -> Curve:
    """The normal daily mean, also where the curves are those of one year."""
    return climate.usual_air_c or climate.air_mean_c


@lru_cache(maxsize=256)
def swing(mean_c: Curve) -> float:
    """How far apart summer and winter are, degrees C: the range of a wave that varies as much.

    No single month decides it, so that it moves less from place to place than the difference of
    the warmest and the coldest one.
    """
    middle = sum(mean_c) / DAYS
    return sqrt(8 * sum((value - middle) ** 2 for value in mean_c) / DAYS)


@lru_cache(maxsize=256)
def turning_points(
    mean_c: Curve, seasons: float = 1.0, within: float = DAYS / 2
) -> tuple[int, int]:
    """The depth of winter and the height of summer as places in the year.

    Each is the middle of the days on that side of the middle temperature of the year, weighed by
    the square of how far they are beyond it: close to the extreme day, and steadier. It lies no
    more than `within` days from the turn of the one yearly wave that fits the year best: where a
    year has two warm times, the middle leaps from one to the other. Where all months are alike
    (`seasons` 0) the turns are those of the wave.
    """
    middle = (min(mean_c) + max(mean_c)) / 2
    wave = _middle(mean_c)
    cold = _middle([max(0.0, middle - value) ** 2 for value in mean_c])
    warm = _middle([max(0.0, value - middle) ** 2 for value in mean_c])
    return (
        _between(wave + DAYS / 2, cold, seasons, within),
        _between(wave, warm, seasons, within),
    )


def _between(here: float, there: float, share: float, within: float) -> int:
    """The place in the year a share of the short way from one place to another, of which no more
    than so many days count."""
    way = (there - here + DAYS / 2) % DAYS - DAYS / 2
    return int(here + share * min(within, max(-within, way))) % DAYS


def _middle(weights: Sequence[float]) -> float:
    """The middle of the days of a year by their weights, round the year."""
    turns = [tau * (day + 0.5) / DAYS for day in range(DAYS)]
    east = sum(weight * cos(turn) for weight, turn in zip(weights, turns, strict=True))
    north = sum(weight * sin(turn) for weight, turn in zip(weights, turns, strict=True))
    return atan2(north, east) / tau * DAYS % DAYS


def days_above(climate: Climate, mark: float, blur: float) -> float:
    """On how many days of a usual year the daily mean lies above a mark, degrees C."""
    return _days_above(_usual(climate), mark, blur, 0, DAYS)


@lru_cache(maxsize=512)
def _days_above(curve: Curve, mark: float, blur: float, first: int, end: int) -> float:
    """On how many days from `first` to before `end` a curve lies above a mark in a usual year.

    Years lie up to `blur` to either side of the normal, so a normal day near the mark counts in
    part, as `share_below` has it.
    """
    surely, never, found = mark + blur, mark - blur, 0.0
    for day in range(first, end):
        value = curve[day % DAYS]
        if value >= surely:
            found += 1
        elif value > never:
            found += (value - never) / (2 * blur)
    return found


def share_below(value: float, mark: float, blur: float) -> float:
    """In what share of years a normal value lies below a mark; years lie up to `blur` about it."""
    return min(1.0, max(0.0, (mark - value + blur) / (2 * blur)))


def _share(value: float, book: Book, low: NamedFact, high: NamedFact) -> float:
    """How far a value is on the way from one number of the book to another, 0 to 1."""
    least, most = book.si(low), book.si(high)
    return min(1.0, max(0.0, (value - least) / (most - least)))


def _seasons(mean_c: Curve, book: Book) -> float:
    names = NamedFact("windows.even_year"), NamedFact("windows.seasonal_year")
    return _share(swing(mean_c), book, *names)


@lru_cache(maxsize=64)
def coming(curve: Curve, days: int) -> Curve:
    """The mean of so many days from each place in the year on."""
    sums = (0.0, *accumulate(curve[day % DAYS] for day in range(2 * DAYS)))
    return tuple((sums[day + days] - sums[day]) / days for day in range(DAYS))
