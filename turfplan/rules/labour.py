"""How long a job takes: person-hours from editable figures, and whole working days from the people at hand."""

import math

from turfplan.agronomy import Operation
from turfplan.rules.setting import Setting


def person_hours(setting: Setting, operation: Operation, area_m2: float, loose_m3: float = 0.0) -> float:
    """Person-hours of a job on `area_m2` with `loose_m3` of material to move.

    Figures per volume hold up to the haul distance they were measured at; beyond it they grow with the way.
    """
    book = setting.book
    total = 0.0
    for name in operation.labour:
        fact = book.fact(name)
        if fact.dimension == "labour":
            reach = book.si("labour.haul_reach") / 1000
            total += fact.si * loose_m3 * max(1.0, setting.haul_m / reach)
        elif fact.dimension == "labour_area":
            total += fact.si * area_m2
        else:
            total += fact.si / 60
    if operation.hours_min:
        total += book.si(operation.hours_min) / 60
    return total


def working_days(setting: Setting, hours: float) -> int:
    """Whole working days for so many person-hours, at least one."""
    return max(1, math.ceil(hours / (setting.people * setting.hours_per_day) - 1e-9))
