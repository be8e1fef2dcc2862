"""Says how much of something a task takes, and how long people work on it."""

from dataclasses import dataclass

from turfplan.plan import Amount, Task
from turfplan.units import System
from turfplan.wording import item_text, named_amount

# Amounts that are measured again on the day: volumes and weights, but not those reckoned from others.
WRITTEN_DOWN = ("m3", "kg", "bales", "pieces", "")
RECKONED = ("weight", "water", "nitrogen total", "nitrogen_total")


@dataclass(frozen=True, slots=True)
class Quantity:
    """How much of what; `used` where the amount that was really used is worth writing down."""

    item: str
    planned: str
    reason: str
    used: bool = False


def quantities(task: Task, system: System) -> tuple[Quantity, ...]:
    """The amounts of a task as people measure them; one that has no US unit is left out where US units are read."""
    return tuple(
        Quantity(
            item_text(a.item), planned_text(a, system), a.reason, a.unit in WRITTEN_DOWN and a.item not in RECKONED
        )
        for a in task.amounts
        if not (system is System.US and a.unit_us == a.unit == "kg/m2")
    )


def planned_text(amount: Amount, system: System) -> str:
    """How much, without the unit that the item's name ends in: "Barrow loads 33", as the calendar says it."""
    return named_amount(amount, system).removeprefix(item_text(amount.item)).strip()


def hours_text(person_hours: float) -> str:
    """Labour in half hours: "2 1/2 person-hours"; nothing for less than a quarter of an hour."""
    halves = round(person_hours * 2)
    if person_hours < 0.25:
        return ""
    if halves <= 1:
        return "half a person-hour" if halves == 1 else "a quarter of a person-hour"
    text = f"{halves // 2}" + (" 1/2" if halves % 2 else "")
    return f"{text} person-hour" + ("" if halves == 2 else "s")
