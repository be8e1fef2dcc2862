"""Days of rain made from monthly normals, where no daily years of a place are at hand.

How many days of a month are wet is estimated from its rain and the warmth of the year
(`fitted_models.wet_days`). Wet and dry days follow each other as a chain with one day's memory
(Geng, Penning de Vries & Supit 1986, "A simple method for generating daily rainfall data",
Agricultural and Forest Meteorology 36:363-376); what falls beyond the least rain of a wet day has
the distribution of Selker & Haith 1990, "Development and testing of single-parameter precipitation
distributions", Water Resources Research 26:2733-2740.
"""

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from functools import lru_cache
from random import Random

from turfplan.calendar_days import DAYS, MONTH_LENGTHS, MONTH_STARTS, month_totals
from turfplan.climate.record import Climate

YEARS = 30
"""So many years are made."""
WET_DAY_MM = 1.0
"""A day with so much rain or more is wet (World Meteorological Organization, WMO-No. 1203)."""
# Geng et al. 1986: after a dry day a wet one comes 0.75 times as often as on a day of the month at
# large, after a wet day it comes more often than that by 0.25.
_AFTER_DRY = 0.75
_MORE_AFTER_WET = 0.25
# Selker & Haith 1990: a share exp(-(1.191 x / mean) ** 0.75) of wet days has more than x.
_FORM = 0.75
_MEAN_OF_FORM = math.gamma(1 + 1 / _FORM)
# Places within half a degree share their luck, so that a pin that moves a little changes little.
_CELL_DEGREES = 0.5

RainOfMonth = list[list[float]]


class GeneratedRain:
    """Rain of the days of `YEARS` made-up years, mm; a month is made when it is first asked for.

    The same place has the same years in every run.
    """

    def __init__(self, place: str, wet: Sequence[float], rain_mm: Sequence[float]) -> None:
        """For a place by its name in the drawing of lots, with each month's wet days and rain."""
        self._place, self._wet, self._rain_mm = place, tuple(wet), tuple(rain_mm)
        self._months: dict[int, RainOfMonth] = {}

    def month(self, month: int) -> RainOfMonth:
        """The days of a month (0 to 11), each with its rain in every year."""
        if month not in self._months:
            self._months[month] = self._made(month)
        return self._months[month]

    def of_day(self, index: int) -> Sequence[float]:
        """The rain of every year at a place in the year; any whole number.

        After New Year the weather of the next made-up year goes on.
        """
        ahead, day = divmod(index, DAYS)
        month = bisect_right(MONTH_STARTS, day) - 1
        rain = self.month(month)[day - MONTH_STARTS[month]]
        turned = ahead % YEARS
        return [*rain[turned:], *rain[:turned]] if turned else rain

    def _made(self, month: int) -> RainOfMonth:
        length, wet = MONTH_LENGTHS[month], self._wet[month]
        if wet <= 0:
            return [[0.0] * YEARS] * length
        share = wet / length
        after_dry = _AFTER_DRY * share
        after_wet = after_dry + _MORE_AFTER_WET
        scale = max(self._rain_mm[month] / wet - WET_DAY_MM, 0.0) / _MEAN_OF_FORM
        lots = Random(f"{self._place} {month}").random
        return _days(lots, length, (share, after_dry, after_wet), scale)


def _days(
    lots: Callable[[], float], length: int, chances: tuple[float, float, float], scale: float
) -> RainOfMonth:
    """For each day of a month its rain in every year: the chance of a wet day at first, then after
    a dry and after a wet one.

    The years of a day draw one lot of each thirtieth (McKay, Beckman & Conover 1979, Technometrics
    21:239-245): a few years then say as much as many that draw freely. A lot decides whether it
    rains, and by its place among those of a wet day how much.
    """
    chance, after_dry, after_wet = [chances[0]] * YEARS, *chances[1:]
    log, power, order = math.log, 1 / _FORM, list(range(YEARS))
    days = []
    for _ in range(length):
        rain = [0.0] * YEARS
        # Only the years with the lowest lots can be wet: no others are drawn.
        for rank in range(math.ceil(max(chance) * YEARS)):
            other = rank + int(lots() * (YEARS - rank))
            year, order[other] = order[other], order[rank]
            order[rank] = year
            lot = (rank + 1 - lots()) / YEARS
            if lot < chance[year]:
                rain[year] = WET_DAY_MM + scale * (-log(lot / chance[year])) ** power
        chance = [after_wet if fallen else after_dry for fallen in rain]
        days.append(rain)
    return days


def generated_rain(climate: Climate) -> GeneratedRain | None:
    """The made-up years of a place; None where nobody estimated its wet days."""
    if not climate.wet_days:
        return None
    return _generated(
        round(climate.latitude / _CELL_DEGREES),
        round(climate.longitude / _CELL_DEGREES),
        climate.wet_days,
        month_totals(climate.rain_mm),
    )


@lru_cache(maxsize=64)
def _generated(
    north: int, east: int, wet: tuple[float, ...], rain_mm: tuple[float, ...]
) -> GeneratedRain:
    return GeneratedRain(f"{north} {east}", wet, rain_mm)
