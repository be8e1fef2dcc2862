"""Steps of the network that are not plain days: working days, and days of growth."""

from functools import lru_cache

from turfplan.climate.record import Climate
from turfplan.records.constraints import DaySet, Step, TableStep


@lru_cache(maxsize=256)
def workday_step(days: DaySet, first: int, last: int, count: int) -> Step:
    """From a day to the `count`-th member of `days` after it.

    Count 0 is the day itself, or the next member. Where there is none, it is a day after the last
    of the plan and of the members, which may go on beyond the plan.
    """
    members = days.days()
    never = max(last, members[-1] if members else last) + 1
    targets: list[int] = []
    index = 0
    for day in range(first, last + 1):
        while index < len(members) and members[index] < day + (1 if count else 0):
            index += 1
        at = index + max(count - 1, 0)
        targets.append(members[at] if at < len(members) else never)
    return TableStep(first, tuple(targets))


def span_step(days: DaySet, first: int, last: int, length: int) -> Step:
    """From the first working day of a job to its last, `length` working days long."""
    return workday_step(days, first, last, length - 1)


@lru_cache(maxsize=64)
def growth_step(climate: Climate, season: str, first: int, last: int, units: float) -> Step:
    """From a day to the first with `units` of daily growth potential (0 to 1) summed up since."""
    from datetime import date

    total = [0.0]
    for day in range(first, last + 1):
        total.append(total[-1] + climate.growth_potential(date.fromordinal(day), season))
    targets: list[int] = []
    reach = 0
    for start in range(last - first + 1):
        reach = max(reach, start)
        while reach <= last - first and total[reach] - total[start] < units:
            reach += 1
        targets.append(first + reach)
    return TableStep(first, tuple(targets))
