"""Says on which days a repeated job runs."""

from collections.abc import Collection
from datetime import date, timedelta
from functools import lru_cache

from turfplan.brief import WEEKDAYS

_NUMBER: dict[str, int] = {name: number for number, name in enumerate(WEEKDAYS)}


@lru_cache(maxsize=4096)
def recurring_days(
    start: date, end: date, weekdays: tuple[str, ...] = (), skip: tuple[date, ...] = ()
) -> tuple[date, ...]:
    """Every day, or every one of the given weekdays, from `start` to `end`, both included, less those to skip."""
    if skip:
        return tuple(day for day in recurring_days(start, end, weekdays) if day not in skip)
    first, length = start.weekday(), (end - start).days + 1
    if not weekdays:
        return tuple(start + timedelta(number) for number in range(length))
    wanted = {_NUMBER[name] for name in weekdays}
    return tuple(start + timedelta(number) for number in range(length) if (first + number) % 7 in wanted)


def in_week_order(weekdays: Collection[str]) -> tuple[str, ...]:
    """Weekdays from Monday to Sunday, each once."""
    return tuple(day for day in WEEKDAYS if day in weekdays)
