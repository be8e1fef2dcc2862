"""Says how much of something a task takes, and how long people work on it."""

from dataclasses import dataclass

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.messages.entry import amount_value, item_name, of_its_day
from turfplan.phrases import sheet as phrases
from turfplan.records.plan_task import Task
from turfplan.units import System

# Amounts that are measured again on the day: volumes and weights, but not those reckoned from
# others.
WRITTEN_DOWN = ("m3", "kg", "bales", "pieces", "")
RECKONED = ("weight", "water", "water each time", "nitrogen total", "nitrogen_total")

# A call, a look, a delivery: nobody gathers people for so few hours.
ALONE_HOURS = 1.0


@dataclass(frozen=True, slots=True)
class PrintedAmount:
    """How much of what; `used` where the amount that was really used is worth writing down."""

    item: str
    planned: str
    reason: str
    used: bool = False


def quantities(task: Task, words: Words) -> tuple[PrintedAmount, ...]:
    """The amounts of a task as people measure them.

    One that has no US unit is left out where US units are read.
    """
    return tuple(
        PrintedAmount(
            words.text(item_name(a.item)),
            words.value(amount_value(a)),
            a.reason.text,
            a.unit in WRITTEN_DOWN and a.item not in RECKONED,
        )
        for a in of_its_day(task)
        if not (words.system is System.US and a.unit_us == a.unit == "kg/m2")
    )


def labour(person_hours: float, people: int | None) -> Message | None:
    """How long so many people work on so many person-hours; None for none.

    Where it is unknown how many they are, the hours of all of them together. What takes one person
    an hour or less is not shared out.
    """
    if person_hours <= 0:
        return None
    if people is not None and person_hours <= ALONE_HOURS:
        people = 1
    hours = _half_hours(person_hours / (people or 1))
    if people is None:
        return phrases.hours_of_work(hours=hours)
    return hours if people == 1 else phrases.hours_for_people(hours=hours, n=people)


def _half_hours(hours: float) -> Message:
    """Hours to the half: "2 1/2 hours"; a few minutes below a quarter of an hour."""
    halves = round(hours * 2)
    if hours < 0.25:
        return phrases.hours_minutes()
    if halves <= 1:
        return phrases.hours_half() if halves == 1 else phrases.hours_quarter()
    return (phrases.hours_and_half if halves % 2 else phrases.hours_whole)(n=halves // 2)


def labour_text(person_hours: float, people: int | None, words: Words) -> str:
    """The same in words; nothing for none."""
    hours = labour(person_hours, people)
    return words.text(hours) if hours is not None else ""
