"""Says where a date stands in a year of 365 days, which is how normals are kept, and on which days
a repeated job runs.
"""

from calendar import isleap, monthrange
from collections.abc import Collection, Sequence
from datetime import date, timedelta
from functools import lru_cache
from itertools import accumulate, pairwise
from typing import Literal, TypeVar, get_args

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: tuple[Weekday, ...] = get_args(Weekday)

ValueOfDay = TypeVar("ValueOfDay")

DAYS = 365
HALF_A_YEAR = DAYS // 2
# The mean of all months, leap days included.
DAYS_IN_MONTH = 365.25 / 12
# Any year without a 29 February: normals know none.
PLAIN_YEAR = 2027
MONTH_LENGTHS = tuple(monthrange(PLAIN_YEAR, month)[1] for month in range(1, 13))
MONTH_STARTS = tuple(accumulate(MONTH_LENGTHS[:-1], initial=0))
MID_MONTHS = tuple(date(PLAIN_YEAR, month, 15) for month in range(1, 13))


def day_index(day: date) -> int:
    """The place of a date in a 365-day curve, 0 to 364; 29 February shares 28 February's."""
    return MONTH_STARTS[day.month - 1] + min(day.day, MONTH_LENGTHS[day.month - 1]) - 1


def date_of(index: int, year: int) -> date:
    """The date in `year` at a place of a 365-day curve (any integer; whole years are carried
    over).
    """
    years, rest = divmod(index, DAYS)
    return (date(PLAIN_YEAR, 1, 1) + timedelta(days=rest)).replace(year=year + years)


def daily(values: Sequence[ValueOfDay], first: date, last: date) -> list[ValueOfDay]:
    """Values of the year (365, from 1 January) laid on the days from first to last; 29 February
    repeats the 28th.
    """
    laid: list[ValueOfDay] = []
    march = MONTH_STARTS[2]
    for year in range(first.year, last.year + 1):
        new_year = date(year, 1, 1)
        of_year = (*values[:march], values[march - 1], *values[march:]) if isleap(year) else values
        start = (max(first, new_year) - new_year).days
        laid += of_year[start : (last - new_year).days + 1]
    return laid


def month_totals(values: Sequence[float]) -> tuple[float, ...]:
    """Totals by month of 365 values of the year."""
    return tuple(sum(values[start:end]) for start, end in pairwise((*MONTH_STARTS, DAYS)))


def each_day(monthly: Sequence[ValueOfDay]) -> tuple[ValueOfDay, ...]:
    """Twelve values, January first, each repeated on every day of its month: 365 values."""
    return tuple(
        value for value, length in zip(monthly, MONTH_LENGTHS, strict=True) for _ in range(length)
    )


@lru_cache(maxsize=4096)
def recurring_days(
    start: date, end: date, weekdays: tuple[str, ...] = (), skip: tuple[date, ...] = ()
) -> tuple[date, ...]:
    """Every day, or every one of the given weekdays, from `start` to `end`, both included, less
    those to skip.
    """
    # Not dateutil's rrule: it takes several times as long for what is one comparison a day.
    days = (start + timedelta(days=number) for number in range((end - start).days + 1))
    return tuple(
        day
        for day in days
        if (not weekdays or WEEKDAYS[day.weekday()] in weekdays) and day not in skip
    )


def in_week_order(weekdays: Collection[str]) -> tuple[str, ...]:
    """Weekdays from Monday to Sunday, each once."""
    return tuple(day for day in WEEKDAYS if day in weekdays)


def week_of(day: date) -> tuple[date, ...]:
    """The seven days of the week of a day, from its Monday on."""
    monday = day - timedelta(days=day.weekday())
    return tuple(monday + timedelta(days=n) for n in range(len(WEEKDAYS)))
