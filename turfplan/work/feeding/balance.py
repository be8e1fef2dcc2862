"""The one account of nitrogen: what any twelve months hold, and how far feedings lie apart."""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from turfplan.calendar_days import DAYS, daily

YEAR = timedelta(DAYS)


@dataclass(frozen=True, slots=True)
class Given:
    """Nitrogen, g/m2, on one of the days from `first` to `last`.

    What compost counts for is no feeding: `feeding` is false, and no gap is kept from it. What a
    second grass takes that grows while the lawn's own sleeps is not `own`: each grass
    has its own year. `share` is the part of the lawn that gets it: the fullest part decides what
    may still be given, the mean of the lawn what it has had.
    """

    first: date
    last: date
    rate_g_m2: float
    feeding: bool = True
    own: bool = True
    share: float = 1.0

    @property
    def mean_g_m2(self) -> float:
        """What it comes to over the whole lawn."""
        return self.rate_g_m2 * self.share


def room_g_m2(high_g_m2: float, given: Sequence[Given], first: date, last: date) -> float:
    """What may still be given on a day from first to last without any twelve months above the high
    end."""
    given = [g for g in given if g.own]
    near_by = [g for g in given if g.last > first - YEAR and g.first <= last]
    starts = {day for g in near_by for day in (g.first, g.last)}
    fullest = max(
        sum(g.rate_g_m2 for g in given if g.last >= start and g.first < start + YEAR)
        for start in (*starts, first, last)
    )
    return high_g_m2 - fullest


def near(given: Iterable[Given], day: date, gap_days: int) -> bool:
    """True where a feeding lies, or may lie, less than so many days from a day."""
    return any(after < day < before for after, before in closed_around(given, gap_days))


def closed_around(given: Iterable[Given], gap_days: int) -> list[tuple[date, date]]:
    """The two days between which, both excluded, each feeding leaves no room for another."""
    gap = timedelta(gap_days)
    return [(g.first - gap, g.last + gap) for g in given if g.feeding]


def share_of_growth(curve: Sequence[float], first: date, last: date) -> float:
    """The share of a year's growth in the days from first to last, 1 at most."""
    whole = sum(curve)
    if last < first:
        return 0.0
    return min(1.0, sum(daily(curve, first, last)) / whole) if whole else 1.0


def counted_g_m2(
    given: Iterable[Given], first: date, lasts_days: float, idle: Container[int] = ()
) -> float:
    """What of the feedings before `first` still counts in the year from it.

    Each fades over so many days from its own; what fades on `idle` days (ordinals), on which the
    grass takes none, is lost.
    """
    counted = 0.0
    for g in given:
        gone = (first - g.last).days
        if not (g.own and 0 < gone < lasts_days):
            continue
        left = range(first.toordinal(), g.last.toordinal() + ceil(lasts_days))
        taking = sum(day not in idle for day in left) / len(left)
        counted += g.mean_g_m2 * (1 - gone / lasts_days) * taking
    return counted
