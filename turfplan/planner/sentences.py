"""Tells the sentences of a plan in the units of its reader alone."""

from collections.abc import Sequence
from functools import cache
from operator import is_not
from typing import Literal, TypeVar, cast, get_args, get_origin

from turfplan.plan import Plan, Record
from turfplan.units import System
from turfplan.wording import in_units

# What a person typed, what was measured, and titles of publications stay as they are.
AS_GIVEN = frozenset({"lawn", "place", "fill", "sources"})
# Names that programs read: no sentences.
CODES = frozenset({"id", "uid", "operation", "task", "item", "unit", "unit_us", "facts", "depends_on"})
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
    # Most of what a plan holds is empty, or a text without brackets: neither costs a call.
    if isinstance(value, str):
        told = in_units(value, system)
        return value if told == value else told
    if isinstance(value, tuple):
        items = tuple([item if type(item) is str and "(" not in item else _told(item, system) for item in value])
        return items if any(map(is_not, items, value)) else value
    if isinstance(value, Record):
        held, found = value.__dict__, {}
        for name in _worded(type(value)):
            old = held[name]
            if not old or (type(old) is str and "(" not in old):
                continue
            if (new := _told(old, system)) is not old:
                found[name] = new
        return value.model_copy(update=found) if found else value
    return value


@cache
def _worded(kind: type[Record]) -> tuple[str, ...]:
    """The fields of a record that can hold sentences: texts, records that hold some, tuples of either. Most fields hold none."""
    fields = kind.model_fields.items()
    return tuple(name for name, field in fields if name not in CODES and _holds_words(field.annotation))


def _holds_words(annotation: object) -> bool:
    if isinstance(annotation, type):
        return annotation is str or (issubclass(annotation, Record) and bool(_worded(annotation)))
    # The words of a Literal are codes, and keyed tables hold numbers or titles of sources.
    return get_origin(annotation) not in (Literal, dict) and any(_holds_words(part) for part in get_args(annotation))
