"""Tells the sentences of a plan in the units of its reader alone."""

from collections.abc import Sequence
from typing import TypeVar, cast

from turfplan.plan import Plan, Record
from turfplan.units import System
from turfplan.wording import in_units

# What a person typed, what was measured, and titles of publications stay as they are.
AS_GIVEN = frozenset({"lawn", "place", "fill", "sources"})
Kept = TypeVar("Kept", bound=Record)


def told_in(records: Sequence[Kept], system: System) -> tuple[Kept, ...]:
    """Records whose sentences name each amount once: "3 in (8 cm)" of the book is 3 in to one reader, 8 cm to the other."""
    return tuple(cast("Kept", _told(record, system)) for record in records)


def plan_told_in(plan: Plan, system: System) -> Plan:
    """A plan whose own sentences name each amount once; see `told_in`."""
    found = {
        name: told
        for name in type(plan).model_fields
        if name not in AS_GIVEN and (told := _told(value := getattr(plan, name), system)) is not value
    }
    return plan.model_copy(update=found) if found else plan


def _told(value: object, system: System) -> object:
    """A text, or whatever holds texts, in one system of units; the same object where nothing is said twice."""
    if isinstance(value, str):
        return in_units(value, system)
    if isinstance(value, tuple):
        items = tuple(_told(item, system) for item in value)
        return items if any(new is not old for new, old in zip(items, value, strict=True)) else value
    if isinstance(value, Record):
        found = {
            name: told
            for name in type(value).model_fields
            if (told := _told(old := getattr(value, name), system)) is not old
        }
        return value.model_copy(update=found) if found else value
    return value
