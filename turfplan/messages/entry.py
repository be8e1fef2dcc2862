"""The words of a calendar entry: its title, its text, and the amounts in it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from turfplan.message import (
    Amounted,
    Day,
    Days,
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
from turfplan.plain_text import CUT, LONGEST_TEXT, plain_text, shortened
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


# Jobs whose test says what has to be so when they are done, and not on which day they can be.
_CHECKED = frozenset(("marking", "ordering", "calling", "collecting", "looking", "permit"))

# Of what the trade says at every such job, what stops it.
_STOPS = ("book.cautions.utilities.text",)

# How minutes, and the shares of a year, were reckoned.
_RECKONED = (
    "feeding.why",
    "watering.why.moist",
    "watering.why.moist_less",
    "watering.why.weaning",
    "watering.why.weaning_often",
)

# What a small screen does without, of what is told shortly.
_LEFT_OUT = ("source", "in_all")

# Reasons that say no more than that a day is good, or comes after another.
_SLACK = (
    "day_limits.length",
    "day_limits.work_days",
    "reasons.before_is_done",
    "reasons.begins_with_plan",
    "reasons.earlier.best",
    "reasons.earlier.distance_from",
    "reasons.earlier.with",
    "reasons.first_day",
    "reasons.follows",
    "reasons.later.keeps_step",
    "reasons.later.less_time",
    "reasons.later.too_little",
    "reasons.nearest_day",
    "reasons.on_best_day",
    "reasons.plan_starts",
)

# What goes first where a text is too long for a small screen, and how many of it stay: why, then of
# steps and of cautions the last. What stops a day is never left out, however long the text.
_LEAST = (
    ("why", 0),
    ("others", 3),
    ("steps", 3),
    ("others", 2),
    ("steps", 2),
    ("fallback", 0),
    ("steps", 1),
    ("steps", 0),
    ("others", 1),
    ("bought", 1),
)

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


def summary(words: Words, task: Task, *, place: str = "", cancelled: bool = False) -> str:
    """The title of a calendar entry, at most 50 characters, cut at a word's end.

    `place` is that of its operation in the lawn's order of work. The title of one that will not be
    done says so itself, for the programs that do not look at the status.
    """
    title = phrases.placed(place=place, title=task.title) if place else task.title
    return shortened(words.text(changes.cancelled(title=task.title) if cancelled else title))


def description(
    words: Words, task: Task, *, place: str = "", bought: Sequence[Message] = ()
) -> str:
    """The text of a calendar entry: what changed, the title where it was cut, how much, whether the
    day will do and what stops it, the steps, one reason, cautions: what a phone shows first is
    what is asked on the day.

    `bought` says what is ordered, fetched or received. What is longer than a phone shows at once
    goes on upon the sheet of its week. The text quotes no other task's date, no
    "today" and no version, so that it changes only when this task does. Nothing is said twice.
    """
    stops = tuple(c for c in task.cautions if _stops(task, c))
    others = tuple(c for c in task.cautions if c not in stops)
    told = _EntryParts(
        first=(
            *([phrases.changed(change=task.change)] if task.change else []),
            *([task.title] if summary(words, task, place=place).endswith(CUT) else []),
            *_how_much(task),
            *_working_days(task),
            *([test] if (test := test_line(task)) else []),
        ),
        stops=tuple(map(shortly, stops)),
        fallback=_fallback(task),
        next_day=_next_day(task),
        bought=tuple(bought),
        steps=tuple(map(shortly, task.how)),
        why=_why_this_day(task) or _why(task),
        others=tuple(map(shortly, others)),
    )
    return _fitting(words, told)


def _fitting(words: Words, told: "_EntryParts") -> str:
    """The text with as much left out as a small screen asks for; then what fits all the same."""
    text, gone = told.text(words), list[tuple[str, tuple[Message, ...]]]()
    while len(text) > LONGEST_TEXT and (name := told.least_needed()) is not None:
        held = getattr(told, name)
        gone.append((name, held))
        told = told.with_(name, held[:-1])
        text = told.text(words)
    for name, held in reversed(gone):
        fuller = told.with_(name, held)
        if len(longer := fuller.text(words)) <= LONGEST_TEXT and len(longer) > len(text):
            told, text = fuller, longer
    return text


@dataclass(frozen=True, slots=True)
class _EntryParts:
    """What the text of an entry says, by what can be left out of it for a small screen: where that
    is what to do instead, the next day is told alone.
    """

    first: tuple[Message, ...]
    stops: tuple[Message, ...]
    fallback: tuple[Message, ...]
    next_day: tuple[Message, ...]
    bought: tuple[Message, ...]
    steps: tuple[Message, ...]
    why: tuple[Message, ...]
    others: tuple[Message, ...]
    more: bool = False

    def text(self, words: Words) -> str:
        """The lines of it, each once."""
        lines = [
            *self.first,
            *(
                [phrases.before_you_start(cautions=listed(self.stops, "sentences"))]
                * bool(self.stops)
            ),
            *(self.fallback or self.next_day),
            *(phrases.step(step=step) for step in (*self.bought, *self.steps)),
            *self.why,
            *([phrases.take_care(cautions=listed(self.others, "sentences"))] * bool(self.others)),
            *([phrases.more_on_sheet()] * self.more),
        ]
        told = (plain_text(words.text(line)) for line in lines)
        return "\n".join(dict.fromkeys(plain for plain in told if plain))

    def with_(self, name: str, held: tuple[Message, ...]) -> "_EntryParts":
        """The same with so much of one kind, and where the rest stands."""
        changed: dict[str, Any] = {name: held, "more": True}
        return replace(self, **changed)

    def least_needed(self) -> str | None:
        """Of what the next piece may go; None where all is needed."""
        return next((name for name, least in _LEAST if len(getattr(self, name)) > least), None)


def change_line(words: Words, task: Task) -> str:
    """What the text of a task says of its change; empty where nothing has."""
    return plain_text(words.text(phrases.changed(change=task.change))) if task.change else ""


def amount_lines(words: Words, task: Task) -> tuple[str, ...]:
    """What the text of a task says of how much."""
    return tuple(plain_text(words.text(line)) for line in _how_much(task))


def test_line(task: Task) -> Message | None:
    """Whether the day will do, or what has to be so before a job counts as done; None where
    nothing is asked."""
    if task.go is None:
        return None
    if task.series is not None:
        return phrases.watered(test=task.go)
    checked = _CHECKED.intersection(task.roles) or task.operation in _CHECKED
    return (phrases.check if checked else phrases.only_if)(test=task.go)


def _stops(task: Task, caution: Message) -> bool:
    """Whether a caution can stop the day: what holds of this lawn and day, and marks where they are
    not what is asked for; not what the trade says at every such job."""
    if caution.key in _STOPS:
        return not task.plays("marking")
    return not caution.key.startswith("book.cautions.")


def _how_much(task: Task) -> tuple[Message, ...]:
    """The amounts of a task; in all where they are those of several days."""
    if not task.amounts:
        return ()
    amounts = changes.amounts(amounts=amounts_listed(task))
    several = task.series is None and task.end > task.start
    told = (phrases.how_much_in_all if several else phrases.how_much)(amounts=amounts)
    items = {amount.item for amount in task.amounts}
    by_bag = (phrases.by_bag(),) if "nitrogen_total" in items and "product" not in items else ()
    return (told, *by_bag)


def _working_days(task: Task) -> tuple[Message, ...]:
    """How many of the days of a job are worked, where that is not all of them."""
    days = (task.end - task.start).days + 1
    if task.series is not None or task.closed or not 1 < task.duration_days < days:
        return ()
    span = Days(task.start, task.end, year=False)
    return (phrases.working_days(days=span, n=task.duration_days),)


def shortly(message: Message) -> Message:
    """A step or a caution as it is told on a small screen: without its source or what it counts,
    where `entry.short_…` has it."""
    parts = dict(message.values).get("parts")
    if message.key == "sentences" and isinstance(parts, Listed):
        each = [shortly(part) if isinstance(part, Message) else part for part in parts.items]
        return Message("sentences", (("parts", listed(each, "sentences")),))
    make = getattr(phrases, f"short_{message.key.replace('.', '_')}", None)
    if make is None:
        return message
    values = {name: value for name, value in message.values if name not in _LEFT_OUT}
    told: Message = make(**values)
    return told


def _why(task: Task) -> tuple[Message, ...]:
    """Why the job is done, but how its minutes or its share were reckoned: sheets tell that."""
    return () if task.why.key in _RECKONED else (task.why,)


def _why_this_day(task: Task) -> tuple[Message, ...]:
    """What holds the day most: why not earlier, else why not later; not what is said already, and
    not that the day is merely good."""
    early, late = task.not_earlier[:1], task.not_later[:1]
    if early and early[0].key == "reasons.earlier.in_time_for":
        return (phrases.in_time_for(task=_within(early[0], "task")),)
    label = phrases.not_earlier if early else phrases.not_later
    held = (
        _within(one, "reason") if one.key == "reasons.hangs_on" else one for one in early or late
    )
    return tuple(label(reason=r) for r in held if r != task.why and r.key not in _SLACK)


def _within(message: Message, name: str) -> Message:
    """A message that stands in another."""
    found = dict(message.values)[name]
    assert isinstance(found, Message)
    return found


def _next_day(task: Task) -> tuple[Message, ...]:
    """The next day that would do, alone."""
    day = task.fallback_day
    return () if day is None else (phrases.else_on(day=Day(day, year=False)),)


def _fallback(task: Task) -> tuple[Message, ...]:
    """What to do when the day will not do, and the next day that would."""
    if task.fallback is None:
        return ()
    if task.fallback_day is None:
        return (phrases.if_not(what=task.fallback),)
    return (phrases.if_not_next(what=task.fallback, day=Day(task.fallback_day)),)
