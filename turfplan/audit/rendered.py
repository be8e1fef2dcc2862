"""The second check: reads the texts that a plan is shown as, in any language, against the plan
itself."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import timedelta
from typing import Final, Literal

from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount, Task
from turfplan.units import System, from_inside

TextFaultKind = Literal[
    "entry_missing",
    "brace_left",
    "sentence_empty",
    "nothing_named",
    "key_left",
    "amount_missing",
    "date_missing",
]


@dataclass(frozen=True, slots=True)
class Shown:
    """What is shown of one task: its title, and the text under it."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class TextFault:
    """One thing wrong with a text: its kind, the task it tells of, and what was found or missed
    there."""

    kind: TextFaultKind
    task: str
    what: str = ""


# A number as people of any country write it: 1,250.5 or 1.250,5 or 1 250 or 3/8 or 1 1/2.
_NUMBER = re.compile(
    r"\d+(?:[.,'\u2009\u202f\u00a0 ]\d{3})+(?:[.,]\d+)?(?!\d)|\d+[.,]\d+|(?:\d+ )?\d+/\d+|\d+"
)
_KEY = re.compile(r"\b[a-z][a-z0-9]*(?:_[a-z0-9]+)+\b|\b[a-z]+\.[a-z]+\.[a-z]+\b")
# Within half a year a day and a month mean one day.
NEAR: Final = timedelta(days=182)
_QUOTED = re.compile(r"`[^`]*`")
_NOTHING = re.compile(r"\b(?:None|NaN|nan|null|inf)\b")
# A line of marks alone, a sentence end with nothing before it, or a label with nothing behind it.
_EMPTY = re.compile(r"^\W*$|(?:^|[\s:;,(])[.;,!?](?:\s|$)|[:;,]\s*$", re.MULTILINE)
# Amounts are told as people measure them: in whole pounds, hundreds of gallons, quarters of a yard.
TOLD_SHARE, TOLD_STEP = 0.1, 0.06
# What is bought is told rounded up to how it is sold.
SOLD_STEP = {"yd3": 0.25, "m3": 0.1, "bu": 0.5, "L": 5.0, "lb": 1.0, "kg": 0.5, "g/m2": 0.5}


def audit_text(plan: Plan, shown: Mapping[str, Shown]) -> tuple[TextFault, ...]:
    """Every fault of the texts in which the open tasks of a plan are shown, by task id; empty for
    sound ones.

    No language is read: braces, keys and values that stand where words should, and numbers that are
    not told.
    """
    found: list[TextFault] = []
    for task in plan.tasks:
        if task.closed is not None or task.status in ("CANCELLED", "COMPLETED"):
            continue
        entry = shown.get(task.id)
        if entry is None:
            found.append(TextFault("entry_missing", task.id))
            continue
        found += _words(task, entry)
        found += _values(task, entry, plan.lawn.units)
    return tuple(found)


def _words(task: Task, entry: Shown) -> Iterator[TextFault]:
    whole = f"{entry.title}\n{entry.text}"
    for brace in re.findall(r"[{}]", whole)[:1]:
        yield TextFault("brace_left", task.id, brace)
    for empty in _EMPTY.findall(whole)[:1]:
        yield TextFault("sentence_empty", task.id, empty)
    for nothing in _NOTHING.findall(whole)[:1]:
        yield TextFault("nothing_named", task.id, nothing)
    # What is quoted is typed as it stands.
    for key in _KEY.findall(_QUOTED.sub("", whole)):
        yield TextFault("key_left", task.id, key)


def _values(task: Task, entry: Shown, system: System) -> Iterator[TextFault]:
    """The amounts that are not told, and the next day that would do where that is not told."""
    numbers = [
        value for text in _NUMBER.findall(f"{entry.title}\n{entry.text}") for value in _read(text)
    ]
    each_time = any(amount.item == "water each time" for amount in task.amounts)
    for amount in task.amounts:
        if each_time and amount.item == "water":
            # What repeats is told as one time takes it.
            continue
        if not any(_tells(number, amount, system) for number in numbers):
            yield TextFault("amount_missing", task.id, amount.item)
    day = task.fallback_day
    # A day that is near can be told without its year.
    told = set() if day is None else {float(day.day)}
    if day is not None and abs(day - task.start) > NEAR:
        told.add(float(day.year))
    if task.fallback and day is not None and not told <= set(numbers):
        yield TextFault("date_missing", task.id, day.isoformat())


def _tells(number: float, amount: Amount, system: System) -> bool:
    """True where a number in a text can be this amount in the units of the reader."""
    value, unit = (
        (amount.value_us, amount.unit_us) if system is System.US else (amount.value, amount.unit)
    )
    if amount.item == "sprigs" and amount.unit == "m3":
        # They are sold by the bushel and by the litre.
        unit = "bu" if system is System.US else "L"
        value = from_inside(amount.value, unit, "volume")
    near = math.isclose(number, value, rel_tol=TOLD_SHARE, abs_tol=TOLD_STEP)
    return near or value <= number <= value + SOLD_STEP.get(unit, 0.0)


def _read(text: str) -> Iterator[float]:
    """What a written number can mean: a mark before three figures parts thousands or decimals, by
    country."""
    if "/" in text:
        whole, _, part = text.rpartition(" ")
        above, below = (int(side) for side in part.split("/"))
        if below:
            yield int(whole or 0) + above / below
        return
    bare = re.sub(r"['\u2009\u202f\u00a0 ]", "", text)
    for thousands, decimal in ((",", "."), (".", ",")):
        plain = bare.replace(thousands, "").replace(decimal, ".")
        if plain.count(".") <= 1:
            yield float(plain)
