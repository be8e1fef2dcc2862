"""What rain alone does for a lawn that nobody waters: on which days it can be sown on rain, and how
far its turf grows.
"""

from collections.abc import Sequence
from datetime import date
from itertools import accumulate

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS, WEEKDAYS, day_index, each_day
from turfplan.climate.record import Climate
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import FactName
from turfplan.records.constraints import DaySet
from turfplan.work.growing_year import coming
from turfplan.work.watering.balance import (
    RootZoneWater,
    crop_coefficients,
    day_flow,
    soil_of,
    stress,
)

ENOUGH = 1.0
WEEK = len(WEEKDAYS)
RAIN_FACTS: tuple[FactName, ...] = ("water.kc_wet_surface",)


def rain_share(book: Book, climate: Climate, up_days: int, tender_days: int) -> tuple[float, ...]:
    """For a sowing on each day of the year (365 places): usual rain over what a wet seedbed loses.

    Until it is up (`up_days`) and over all days in which it must not dry out (`tender_days`),
    whichever is less. From 0 up; 1 or more where the rain keeps it wet.
    """
    wet = book.si("water.kc_wet_surface")
    losses = [wet * et for et in climate.et0_mm]
    spans = (_over(climate.rain_mm, losses, days) for days in (up_days, tender_days))
    return tuple(min(both) for both in zip(*spans, strict=True))


def _over(rain_mm: Sequence[float], losses_mm: Sequence[float], days: int) -> list[float]:
    """Rain over losses of so many days from each place in the year."""
    rains, lost = (
        list(accumulate((*values, *values, *values), initial=0.0))
        for values in (rain_mm, losses_mm)
    )
    return [(rains[k + days] - rains[k]) / max(lost[k + days] - lost[k], 1e-9) for k in range(DAYS)]


def kept_wet(book: Book, climate: Climate, season: str, share: Sequence[float]) -> tuple[bool, ...]:
    """On which days of the year (365 places) what is sown is kept wet by rain while grass of its
    season grows."""
    least = book.si("water.dormant_growth")
    growth = climate.warmth_curve(season)
    return tuple(
        kept >= ENOUGH and grows >= least for kept, grows in zip(share, growth, strict=True)
    )


def days_without(held: Sequence[bool], first: int, last: int) -> tuple[tuple[int, int], ...]:
    """The stretches of days (ordinals, both ends included) from `first` to `last` on which
    something of the year does not hold."""
    days = range(first, last + 1)
    return DaySet.from_days(d for d in days if not held[day_index(date.fromordinal(d))]).ranges


@reckoned_once
def water_share(
    book: Book, climate: Climate, season: str, soil: str, root_mm: float
) -> tuple[float, ...]:
    """What usual rain alone leaves of the growth of turf of a season, 0 to 1, for each day of the
    year (365 places).

    The stress coefficient Ks of FAO-56 (equation 84), which is evapotranspiration over its
    potential; grass grown for its leaves loses growth in the same proportion (FAO Irrigation and
    Drainage Paper 33: yield response factor about 1; from memory). Over two years, so that the
    account begins as it ends. Rain counts whole: what the soil cannot hold drains in the account.
    """
    water = soil_of(book, soil, season)
    kc = crop_coefficients(book, season, monthly=False)
    total = water.total_mm(root_mm)
    use = [et * k for et, k in zip(climate.et0_mm, each_day(kc), strict=True)]
    store, left = RootZoneWater(root_mm, 0.0, 0.0), [1.0] * DAYS
    for day in (*range(DAYS), *range(DAYS)):
        ready = water.ready_mm(root_mm, use[day])
        _, _, store = day_flow(store, total, ready, use[day], climate.rain_mm[day], 0.0)
        left[day] = stress(store.depletion_mm, total, ready)
    return tuple(left)


def grows_over(book: Book, share: Sequence[float]) -> tuple[bool, ...]:
    """On which days of the year (365 places) turf grows over work on it: rain leaves it enough of
    its growth on the day and on all of the weeks that follow.

    A spell of fewer such days than those weeks is no season: other years miss it.
    """
    least, days = book.si("water.grows_over"), round(book.si("water.grows_over_days"))
    enough = [left >= least for left in share]
    lasts = [all(enough[(day + k) % DAYS] for k in range(days + 1)) for day in range(DAYS)]
    return tuple(
        any(all(lasts[(day - back + k) % DAYS] for k in range(days)) for back in range(days))
        for day in range(DAYS)
    )


def washes_out(book: Book, climate: Climate) -> tuple[bool, ...]:
    """On which days of the year (365 places) so much more usual rain falls in a week than dries up
    that it carries what is fed below the roots."""
    most = book.si("feeding.washed_out")
    return tuple(-mean * WEEK >= most for mean in coming(climate.drying_mm, WEEK))
