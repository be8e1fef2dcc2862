"""Tells month by month how grass that has rooted is watered, as a table."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from turfplan.message import Listed, Message, Month, Number, Quantity
from turfplan.messages import Words
from turfplan.phrases import season_book as phrases
from turfplan.phrases import watering

MONTHS = 12
_MONTH, _WATER = Month(1), Quantity(1.0, "rain")
MINUTES = watering.rooted_minutes(month=_MONTH, weekly=_WATER, minutes=1, n=2).key
HOURS = watering.rooted_hours(month=_MONTH, weekly=_WATER, hours=Number(1), n=2).key
SETTINGS = watering.rooted_settings(month=_MONTH, weekly=_WATER, minutes=1, n=2, settings=2).key
CYCLES = watering.rooted_in_cycles(minutes=1, pause=1).key


@dataclass(frozen=True, slots=True)
class RootedMonth:
    """How rooted grass is watered in one month: so much a week, so long at a time, how often, and
    how long at once where more would run off.
    """

    month: str
    weekly: str
    at_a_time: str
    every: str
    at_once: str


def rooted_months(
    notes: Iterable[Message], words: Words, first: int = 1
) -> tuple[tuple[RootedMonth, ...], tuple[str, ...]]:
    """The months that notes of the water tell of as rows, and the other notes as they are told.

    `first` is the month of the year, 1 to 12, with which the season begins: the others follow it.
    """
    rows: list[tuple[int, RootedMonth]] = []
    others: list[str] = []
    for note in notes:
        found = {part.key: dict(part.values) for part in _parts(note)}
        key = next((key for key in (MINUTES, HOURS, SETTINGS) if key in found), None)
        if key is None or not found.keys() <= {key, CYCLES}:
            others.append(note.text)
            continue
        month = found[key]["month"]
        assert isinstance(month, Month)
        row = _row(key, found[key], found.get(CYCLES), words)
        rows.append(((month.number - first) % MONTHS, row))
    return tuple(row for _, row in sorted(rows, key=lambda each: each[0])), tuple(others)


def _parts(note: Message) -> Iterator[Message]:
    parts = dict(note.values).get("parts")
    if isinstance(parts, Listed):
        yield from (part for part in parts.items if isinstance(part, Message))
    else:
        yield note


def _row(
    key: str, values: Mapping[str, object], cycles: Mapping[str, object] | None, words: Words
) -> RootedMonth:
    month, weekly, days = values["month"], values["weekly"], values["n"]
    assert isinstance(month, Month) and isinstance(weekly, Quantity) and isinstance(days, int)
    if key == HOURS:
        hours = values["hours"]
        assert isinstance(hours, Number)
        at_a_time = phrases.hours_in_parts(hours=hours)
    elif key == SETTINGS:
        minutes, settings = values["minutes"], values["settings"]
        assert isinstance(minutes, int) and isinstance(settings, int)
        at_a_time = phrases.minutes_in_settings(minutes=minutes, settings=settings)
    else:
        minutes = values["minutes"]
        assert isinstance(minutes, int)
        at_a_time = phrases.minutes_at_a_time(minutes=minutes)
    at_once = ""
    if cycles is not None:
        most, pause = cycles["minutes"], cycles["pause"]
        assert isinstance(most, int) and isinstance(pause, int)
        at_once = words.text(phrases.at_once(minutes=most, pause=pause))
    return RootedMonth(
        words.value(month),
        words.value(weekly),
        words.text(at_a_time),
        words.text(phrases.every_days(n=days)),
        at_once,
    )
