"""The words of a task: dates and amounts as people say them, the title and the text of a calendar entry."""

import re
import unicodedata
from datetime import date

from turfplan.plan import Amount, Task
from turfplan.units import System, convert, dimension_of, format_number, pretty_unit, read_as

LONGEST_SUMMARY = 60
# Controls, direction and format marks, half characters, private ones: nothing that a reader sees.
_UNSEEN = ("Cc", "Cf", "Cs", "Co")
# Written out, not asked of the machine's locale: the same plan gives the same words everywhere.
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
# The unit of an amount decides how it is read and which way it is rounded: what can run short is rounded up.
_READ: dict[str, tuple[str, str]] = {
    "m3": ("volume", "up"),
    "kg": ("mass", "up"),
    "m2": ("area", "nearest"),
    "mm": ("depth", "nearest"),
    "g/m2": ("rate", "nearest"),
    "L": ("water_volume", "up"),
    "min": ("minutes", "up"),
}


def day_text(day: date, system: System = System.METRIC, *, weekday: bool = True, year: bool = True) -> str:
    """A date as it is read aloud: "Sat, Aug 14, 2027" in the US, "Sat 14 Aug 2027" elsewhere."""
    name, month = WEEKDAYS[day.weekday()], MONTHS[day.month - 1]
    if system is System.US:
        text = f"{month} {day.day}" + (f", {day.year}" if year else "")
        return f"{name}, {text}" if weekday else text
    text = f"{day.day} {month}" + (f" {day.year}" if year else "")
    return f"{name} {text}" if weekday else text


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


def item_text(item: str) -> str:
    """The name of an amount's item with a capital: `hold_back` becomes "Hold back"."""
    words = item.replace("_", " ").strip()
    return words[:1].upper() + words[1:]


def plain_text(text: str) -> str:
    """A text of the user's on one line, without control and direction marks."""
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


def summary(task: Task) -> str:
    """The title of a calendar entry, at most 60 characters."""
    return shortened(task.title)


def description(task: Task, system: System) -> str:
    """The text of a calendar entry: what, how much, why this day, the test of the day, what changed, cautions.

    It quotes no other task's date, no "today" and no version, so that it changes only when this task does.
    """
    parts = [task.why]
    if task.change:
        parts.append(f"Changed: {task.change}")
    if task.amounts:
        parts.append(
            "How much: " + "; ".join(f"{item_text(a.item)} {amount_text(a, system)}" for a in task.amounts) + "."
        )
    parts += [f"- {line}" for line in task.how]
    if task.go:
        parts.append(f"Only if: {task.go}")
    if task.fallback:
        parts.append(f"If not: {task.fallback}")
    if task.not_earlier:
        parts.append(f"Not earlier: {task.not_earlier[0]}")
    if task.not_later:
        parts.append(f"Not later: {task.not_later[0]}")
    if task.cautions:
        parts.append("Take care: " + " ".join(task.cautions))
    return "\n".join(plain_text(part) for part in parts if part)
