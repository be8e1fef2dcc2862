"""The words of a task: dates and amounts as people say them, the title and the text of a calendar entry."""

import re
import unicodedata
from datetime import date, time
from functools import lru_cache

from turfplan.plan import Amount, Series, Task
from turfplan.units import System, convert, dimension_of, format_number, pretty_unit, read_as

LONGEST_SUMMARY = 60
# Controls, direction and format marks, half characters, private ones: nothing that a reader sees.
_UNSEEN = ("Cc", "Cf", "Cs", "Co")
# Written out, not asked of the machine's locale: the same plan gives the same words everywhere.
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
# What a change is called, on the page of changes and by the command, what moves people's days first.
CHANGE_NAMES: dict[str, str] = {
    "moved": "Moved to other days",
    "added": "New",
    "dropped": "No longer needed",
    "amount": "Other amounts",
    "done": "Done",
    "skipped": "Skipped",
    "reworded": "Said differently",
}
# The unit of an amount decides how it is read and which way it is rounded: what can run short is rounded up.
_READ: dict[str, tuple[str, str]] = {
    "m3": ("volume", "up"),
    "kg": ("mass", "up"),
    "m2": ("area", "nearest"),
    "mm": ("depth", "nearest"),
    "g/m2": ("rate", "nearest"),
    "kg/m2": ("spread_weight", "nearest"),
    "L": ("water_volume", "up"),
    "min": ("minutes", "up"),
}

_NUMBER = r"\d[\d.,/]*(?: \d+/\d+)?"
_RANGE = rf"{_NUMBER}(?: to {_NUMBER})?"
_TWICE = re.compile(
    rf"(?P<us>(?<![\d/.]){_RANGE} (?:°F|in|ft|yd|lb|gal|lb/yd³)) "
    rf"\((?P<metric>{_RANGE} (?:°C|mm|cm|m|kg|t|L|t/m³))\)"
)


def day_text(day: date, system: System, *, weekday: bool = True, year: bool = True) -> str:
    """A date as it is read aloud: "Sat, Aug 14, 2027" in the US, "Sat 14 Aug 2027" elsewhere."""
    name, month = WEEKDAYS[day.weekday()], MONTHS[day.month - 1]
    if system is System.US:
        text = f"{month} {day.day}" + (f", {day.year}" if year else "")
        return f"{name}, {text}" if weekday else text
    text = f"{day.day} {month}" + (f" {day.year}" if year else "")
    return f"{name} {text}" if weekday else text


def month_day_text(month_day: str, system: System) -> str:
    """A day of every year, written as month and day, as it is read aloud: "Dec 1" in the US, "1 Dec" elsewhere."""
    month, day = (int(part) for part in month_day.split("-"))
    return f"{MONTHS[month - 1]} {day}" if system is System.US else f"{day} {MONTHS[month - 1]}"


def amount_text(amount: Amount, system: System) -> str:
    """An amount as people measure it; volumes, weights and minutes are rounded up, so that nothing runs short."""
    if amount.unit in _READ:
        kind, rounding = _READ[amount.unit]
        dimension = dimension_of(amount.unit) or "count"
        return read_as(convert(amount.value, amount.unit, dimension), kind, system, rounding).text
    return bought_text(amount.value, amount.unit, amount.value_us, amount.unit_us, system)


def bought_text(value: float, unit: str, value_us: float, unit_us: str, system: System) -> str:
    """A quantity already rounded to how it is sold, in the units of the reader."""
    number, name = (value_us, unit_us) if system is System.US else (value, unit)
    return f"{format_number(number, fractions=name == 'in')} {pretty_unit(name)}".strip()


def days_text(start: date, end: date, system: System, *, weekday: bool = True, year: bool = True) -> str:
    """One day, or the first to the last of several, in words."""
    if start == end:
        return day_text(start, system, weekday=weekday, year=year)
    first = day_text(start, system, weekday=weekday, year=year and start.year != end.year)
    return f"{first} to {day_text(end, system, weekday=weekday, year=year)}"


def clock_text(clock: time, system: System) -> str:
    """A time of day: "6:00 am" in the United States, "06:00" elsewhere."""
    if system is not System.US:
        return f"{clock.hour:02d}:{clock.minute:02d}"
    return f"{(clock.hour - 1) % 12 + 1}:{clock.minute:02d} {'am' if clock.hour < 12 else 'pm'}"


def runs_text(series: Series, system: System) -> str:
    """When a series runs: minutes, time of day, weekdays, first and last day, days left out."""
    text = f"{series.minutes} min at {clock_text(series.start_time, system)}"
    if series.weekdays:
        text += " on " + " and ".join(day.capitalize() for day in series.weekdays)
    text += f", {days_text(series.start, series.end, system)}"
    if series.skip:
        text += ", not on " + " and ".join(day_text(day, system, year=False) for day in series.skip)
    return text


@lru_cache(maxsize=4096)
def in_units(text: str, system: System) -> str:
    """A sentence with each amount in the units of one reader: "3 to 4 in (8 to 10 cm) deep" becomes "3 to 4 in deep".

    The book says such amounts in both, the metric ones in brackets.
    """
    return _TWICE.sub(r"\g<us>" if system is System.US else r"\g<metric>", text)


def capital(text: str) -> str:
    """A text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def item_text(item: str) -> str:
    """The name of an amount's item with a capital: `hold_back` becomes "Hold back"."""
    return capital(item.replace("_", " ").strip())


@lru_cache(maxsize=4096)
def plain_text(text: str) -> str:
    """A text of the user's on one line, without control and direction marks."""
    # The same instructions stand in many tasks: each is looked at once.
    if not text.isprintable():
        text = "".join(
            " " if c in "\r\n\t" else c for c in text if c in "\r\n\t" or unicodedata.category(c) not in _UNSEEN
        )
    return " ".join(text.split())


def shortened(text: str, most: int = LONGEST_SUMMARY) -> str:
    """A text cut at a word's end to at most so many characters; the whole text where it fits."""
    text = plain_text(text)
    if len(text) <= most:
        return text
    cut = re.sub(r"[\s,;:(]+\S*$", "", text[: most - 1]).rstrip(" ,;:(") or text[: most - 1]
    return cut + "…"


def named_amount(amount: Amount, system: System) -> str:
    """What and how much: "Volume 7.5 yd³"; a unit that is part of the name is said once: "Barrow loads 33"."""
    name, text = item_text(amount.item), amount_text(amount, system)
    return f"{name} {text}".removesuffix(f" {amount.unit}") if name.endswith(f" {amount.unit}") else f"{name} {text}"


def amounts_text(task: Task, system: System) -> str:
    """All amounts of a task in one line; empty for a task without any."""
    return "; ".join(named_amount(amount, system) for amount in task.amounts)


def summary(task: Task) -> str:
    """The title of a calendar entry, at most 60 characters, cut at a word's end."""
    return shortened(task.title)


def cancelled_summary(task: Task) -> str:
    """The title of an entry that will not be done; it says so itself, for the programs that do not look at the status."""
    return shortened(f"Cancelled: {task.title}")


def description(task: Task, system: System) -> str:
    """The text of a calendar entry: what, how much, why this day, the test of the day, what changed, cautions.

    It quotes no other task's date, no "today" and no version, so that it changes only when this task does.
    """
    lines = [
        task.why,
        *(f"Changed: {change}" for change in (task.change,) if change),
        *(f"How much: {amounts}." for amounts in (amounts_text(task, system),) if amounts),
        *(f"- {step}" for step in task.how),
        *(f"Only if: {go}" for go in (task.go,) if go),
        _fallback(task, system),
        *(f"Not earlier: {reason}" for reason in task.not_earlier[:1]),
        *(f"Not later: {reason}" for reason in task.not_later[:1]),
        *(("Take care: " + " ".join(task.cautions),) if task.cautions else ()),
    ]
    return "\n".join(plain for line in lines if (plain := plain_text(line)))


def _fallback(task: Task, system: System) -> str:
    """What to do when the day will not do, and the next day that would."""
    if not task.fallback:
        return ""
    following = f" The next such day: {day_text(task.fallback_day, system)}." if task.fallback_day else ""
    return f"If not: {task.fallback}{following}"
