"""Says how much of something a task takes, and how long people work on it."""

from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.messages.entry import amount_value, item_name, of_its_day
from turfplan.phrases import sheet as phrases
from turfplan.records.plan_task import Amount, Task
from turfplan.units import System

# Amounts that are measured again on the day: volumes and weights, but not those reckoned from
# others.
WRITTEN_DOWN = ("m3", "kg", "bales", "pieces", "")
RECKONED = ("weight", "water", "water each time", "nitrogen total", "nitrogen_total")

# A call, a look, a delivery: nobody gathers people for so few hours.
ALONE_HOURS = 1.0
# Less than so many hours are told as ten minutes.
FEW_MINUTES = 0.25


@dataclass(frozen=True, slots=True)
class PrintedAmount:
    """How much of what; `used` where the amount that was really used is worth writing down."""

    item: str
    planned: str
    reason: str
    used: bool = False


def quantities(task: Task, words: Words) -> tuple[PrintedAmount, ...]:
    """The amounts of a task as people measure them."""
    return tuple(printed_amount(a, words) for a in of_its_day(task) if is_printed(a, words))


def is_printed(amount: Amount, words: Words) -> bool:
    """Whether an amount is printed: not one that has no US unit where US units are read."""
    return not (words.system is System.US and amount.unit_us == amount.unit == "kg/m2")


def printed_amount(amount: Amount, words: Words) -> PrintedAmount:
    """An amount as people measure it."""
    return PrintedAmount(
        words.text(item_name(amount.item)),
        words.value(amount_value(amount)),
        amount.reason.text,
        amount.unit in WRITTEN_DOWN and amount.item not in RECKONED,
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


def labour_together(each: Iterable[float], people: int | None) -> Message | None:
    """How long several jobs take one after another, by their person-hours: what is told of each
    added up, so that a page's sum is that of its jobs."""
    hours = [job for job in each if job > 0]
    if people is None or not hours:
        return labour(sum(hours), people)
    shared = people if any(job > ALONE_HOURS for job in hours) else 1
    told = _half_hours(
        sum(_told_hours(job if job <= ALONE_HOURS else job / people) for job in hours)
    )
    return told if shared == 1 else phrases.hours_for_people(hours=told, n=shared)


def _told_hours(hours: float) -> float:
    """Hours as `_half_hours` tells them, which calls less than a quarter ten minutes."""
    return round(hours * 2) / 2 if hours >= FEW_MINUTES else hours


def _half_hours(hours: float) -> Message:
    """Hours to the half: "2 1/2 hours"; ten minutes below a quarter of an hour."""
    halves = round(hours * 2)
    if hours < FEW_MINUTES:
        return phrases.hours_minutes()
    if halves <= 1:
        return phrases.hours_half() if halves == 1 else phrases.hours_quarter()
    return (phrases.hours_and_half if halves % 2 else phrases.hours_whole)(n=halves // 2)


def labour_text(person_hours: float, people: int | None, words: Words) -> str:
    """The same in words; nothing for none."""
    hours = labour(person_hours, people)
    return words.text(hours) if hours is not None else ""
