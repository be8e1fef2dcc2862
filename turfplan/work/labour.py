"""How long a job takes: person-hours, and whole working days of the people at hand."""

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from turfplan.book.entries import Operation
from turfplan.message import Message, as_written, listed
from turfplan.phrases import season as phrases
from turfplan.records.book_names import FactName
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import truck_loads_m3

# What takes the place of work by hand where these machines are at hand; the first that are counts.
# Lifts on bare ground are driven over and thick: a loader lays them, and no spreading machine does.
WITH_MACHINES: Mapping[str, Sequence[tuple[frozenset[str], FactName]]] = MappingProxyType(
    {
        "labour.load_wheel_spread": (
            (frozenset({"loader", "topdresser"}), "labour.spread_both"),
            (frozenset({"loader"}), "labour.spread_loader"),
            (frozenset({"topdresser"}), "labour.spread_topdresser"),
        ),
        "labour.hollow_fill": ((frozenset({"loader"}), "labour.spread_loader"),),
        "labour.lift_spread": ((frozenset({"loader"}), "labour.lift_loader"),),
        "labour.tread": ((frozenset({"roller"}), "labour.roll"),),
    }
)


def person_hours(
    setting: ResolvedLawn, operation: Operation, area_m2: float, loose_m3: float = 0.0
) -> float:
    """Person-hours of a job on `area_m2` with `loose_m3` of material to move.

    Figures per volume hold up to the haul distance they were measured at; beyond it they grow with
    the way. Machines at hand change them, and a machine of one's own is not fetched.
    """
    book, owned = setting.book, setting.brief.work.machines
    total = 0.0
    for name in operation.labour:
        fact = book.fact(_done_with(name, owned)[1])
        if fact.dimension == "labour":
            reach = book.si("labour.haul_reach") / 1000
            total += fact.si * loose_m3 * max(1.0, setting.labour.haul_m / reach)
        elif fact.dimension == "labour_area":
            total += fact.si * area_m2
        else:
            total += fact.si / 60
    if operation.hours_min and (operation.machine is None or operation.machine not in owned):
        total += book.si(operation.hours_min) / 60
    return total


def _done_with(name: FactName, owned: Sequence[str]) -> tuple[frozenset[str], FactName]:
    """The machines of one's own that a work is done with, and the figure for it."""
    others = WITH_MACHINES.get(name, ())
    return next((way for way in others if way[0].issubset(owned)), (frozenset(), name))


def machines_used(setting: ResolvedLawn, operation: Operation) -> frozenset[str]:
    """The machines at hand that change the hours of an operation."""
    owned = setting.brief.work.machines
    spread = (_done_with(name, owned)[0] for name in operation.labour)
    return frozenset(owned) & {operation.machine} | frozenset().union(*spread)


def idle_machines(setting: ResolvedLawn, drafts: Sequence[Draft]) -> tuple[Message, ...]:
    """What is said of machines at hand that no work here is done with."""
    operations = setting.book.operations
    used = frozenset().union(*(machines_used(setting, operations[d.operation]) for d in drafts))
    idle = [as_written(name) for name in setting.brief.work.machines if name not in used]
    return (phrases.idle_machines(machines=listed(idle)),) if idle else ()


def hours_of_trucks(setting: ResolvedLawn, loose_m3: float) -> float:
    """The hours that more than one truckload takes to be looked at and tipped."""
    trucks = len(truck_loads_m3(loose_m3, setting.brief.delivery.truck_limit_m3))
    return (trucks - 1) * setting.book.si("labour.delivery") / 60


def working_days(setting: ResolvedLawn, hours: float) -> int:
    """Whole working days for so many person-hours, at least one."""
    return max(1, math.ceil(hours / setting.labour.day_hours - 1e-9))
