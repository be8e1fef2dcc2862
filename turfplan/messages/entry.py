"""The words of a calendar entry: its title, its text, and the amounts in it."""

from turfplan.message import (
    Amounted,
    Day,
    Listed,
    Message,
    Quantity,
    Sold,
    as_written,
    listed,
    nutrient_mass,
)
from turfplan.messages.telling import Words
from turfplan.phrases import changes, items
from turfplan.phrases import entry as phrases
from turfplan.plain_text import plain_text, shortened
from turfplan.records.items import UNIT_IN_NAME
from turfplan.records.plan_task import Amount, Task
from turfplan.units import convert, dimension_of

# The unit of an amount decides how it is read and which way it is rounded: what can run short is
# rounded up.
_READ: dict[str, tuple[str, str]] = {
    "m3": ("loose", "nearest"),
    "kg": ("mass", "up"),
    "m2": ("area", "nearest"),
    "mm": ("depth", "nearest"),
    "g/m2": ("rate", "nearest"),
    "kg/m2": ("spread_weight", "nearest"),
    "L": ("water_volume", "up"),
    "min": ("minutes", "up"),
}


# What is never more than a law or a grass allows is told to the nearest of a fine step.
_NUTRIENTS = ("nitrogen_total", "potash to add in all", "phosphate to add in all")


# What is told of one time in place of all together.
_EACH_TIME = {"water each time": "water"}


# What is bought by its area runs short as well.
_BOUGHT_BY_AREA = ("sod", "mat")


def amount_value(amount: Amount) -> Amounted:
    """An amount beside what it is of: without its unit, where that is part of the name."""
    if amount.unit not in _READ and unit_in_name(amount):
        unit_us = amount.unit_us if amount.unit_us != amount.unit else ""
        return Sold(amount.value, "", amount.value_us, unit_us)
    return measured(amount)


def measured(amount: Amount) -> Amounted:
    """An amount as people measure it.

    Volumes, weights and minutes are rounded up, so that nothing runs short; not what has a limit.
    """
    if amount.item in _NUTRIENTS:
        return nutrient_mass(amount.value)
    if amount.item == "product":
        return Quantity(amount.value, "mass", us_step=0.25, metric_step=0.1)
    if (amount.item, amount.unit) == ("sprigs", "m3"):
        return Quantity(amount.value, "sprig_volume", "up")
    if amount.item in _BOUGHT_BY_AREA:
        return Quantity(amount.value, "area", "up")
    if amount.unit in _READ:
        kind, rounding = _READ[amount.unit]
        return Quantity(
            convert(amount.value, amount.unit, dimension_of(amount.unit) or "count"), kind, rounding
        )
    return Sold(amount.value, amount.unit, amount.value_us, amount.unit_us)


def unit_in_name(amount: Amount) -> bool:
    """Whether the unit is part of what the item is called: "Barrow loads 33" has no unit of its
    own.
    """
    return amount.item in UNIT_IN_NAME


def item_name(item: str) -> Message:
    """What an amount is of; what no catalog names is called as it is written."""
    make = getattr(items, item.strip().replace(" ", "_"), None)
    return as_written(item.replace("_", " ")) if make is None else make()


def of_its_day(task: Task) -> tuple[Amount, ...]:
    """The amounts of a task as its day needs them: of what is repeated those of one time, not of
    all together."""
    each = {amount.item for amount in task.amounts} & _EACH_TIME.keys()
    in_all = {_EACH_TIME[item] for item in each}
    return tuple(amount for amount in task.amounts if amount.item not in in_all)


def amounts_listed(task: Task) -> Listed:
    """The amounts of a task's day with what they are of."""
    amounts = (
        phrases.amount(item=item_name(a.item), amount=amount_value(a)) for a in of_its_day(task)
    )
    return listed(amounts, "semicolon")


def amounts_text(words: Words, task: Task) -> str:
    """All amounts of a task in one line; empty for a task without any."""
    return words.value(amounts_listed(task))


def summary(words: Words, task: Task, *, cancelled: bool = False) -> str:
    """The title of a calendar entry, at most 60 characters, cut at a word's end.

    That of one that will not be done says so itself, for the programs that do not look at the
    status.
    """
    return shortened(words.text(changes.cancelled(title=task.title) if cancelled else task.title))


def description(words: Words, task: Task) -> str:
    """The text of a calendar entry: what, how much, why this day, the test of the day, what
    changed, cautions.

    It quotes no other task's date, no "today" and no version, so that it changes only when this
    task does.
    """
    amounts = changes.amounts(amounts=amounts_listed(task))
    lines = [
        task.why,
        *([phrases.changed(change=task.change)] if task.change else []),
        *([phrases.how_much(amounts=amounts)] if task.amounts else []),
        *(phrases.step(step=step) for step in task.how),
        *([phrases.only_if(test=task.go)] if task.go else []),
        *_fallback(task),
        *(phrases.not_earlier(reason=reason) for reason in task.not_earlier[:1]),
        *(phrases.not_later(reason=reason) for reason in task.not_later[:1]),
        *(
            [phrases.take_care(cautions=listed(task.cautions, "sentences"))]
            if task.cautions
            else []
        ),
    ]
    return "\n".join(plain for line in lines if (plain := plain_text(words.text(line))))


def _fallback(task: Task) -> tuple[Message, ...]:
    """What to do when the day will not do, and the next day that would."""
    if task.fallback is None:
        return ()
    if task.fallback_day is None:
        return (phrases.if_not(what=task.fallback),)
    return (phrases.if_not_next(what=task.fallback, day=Day(task.fallback_day)),)
