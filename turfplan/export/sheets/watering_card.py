"""Writes the watering card: months with the minutes of each day, and when a run is skipped."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.calendar_days import WEEKDAYS
from turfplan.export.sheets.look import (
    days_of,
    look_of,
    near,
    near_text,
    on_every_page,
    series_days,
    shown,
    today_of,
)
from turfplan.export.sheets.week_days import StripRun, clock_of, letters_of, run_of
from turfplan.export.templates import render
from turfplan.message import Month, NamedWeekday
from turfplan.messages import Words
from turfplan.phrases import watering_card as phrases
from turfplan.phrases import week as week_phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


@dataclass(frozen=True, slots=True)
class CardDay:
    """The cell of a day; `number` is empty where the week reaches into another month."""

    number: str
    runs: tuple[StripRun, ...]


@dataclass(frozen=True, slots=True)
class CardWatering:
    """What a letter of a month stands for."""

    letter: str
    title: str


@dataclass(frozen=True, slots=True)
class CardMonth:
    """A month in weeks of seven days, with what its letters stand for, and the rules by which its
    runs are skipped; `keys` name the place of each week in a page that has no other for it."""

    anchor: str
    title: str
    weeks: tuple[tuple[CardDay, ...], ...]
    waterings: tuple[CardWatering, ...]
    rules: tuple[str, ...]
    keys: tuple[str, ...] = ()


def water_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """The watering of a season by month, as a page that stands alone. `paper` is letter or a4."""
    return render(
        "print/water.html.jinja",
        words,
        months=card_months(plan, words),
        waters=any(task.series is not None for task in plan.tasks),
        weekdays=tuple(words.value(NamedWeekday(n)) for n in range(len(WEEKDAYS))),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def card_months(plan: Plan, words: Words) -> tuple[CardMonth, ...]:
    """The months with waterings, from the present one on, in order."""
    present = today_of(plan).replace(day=1)
    by_day = _by_day(plan, present)
    firsts = sorted({day.replace(day=1) for day in by_day})
    return tuple(
        _card(
            f"month-{first:%Y-%m}",
            words.text(phrases.month(month=Month(first.month), year=str(first.year))),
            _weeks_of(first),
            {day: tasks for day, tasks in by_day.items() if day.replace(day=1) == first},
            tuple(_days_of_month(first)),
            words,
        )
        for first in firsts
    )


def card_of_weeks(plan: Plan, mondays: Sequence[date], words: Words) -> CardMonth:
    """The card of some weeks of watering alone; `mondays` name them, in order."""
    weeks = [days_of(monday) for monday in mondays]
    inside = tuple(day for week in weeks for day in week)
    card = _card(
        f"card-{mondays[0].isoformat()}",
        words.text(week_phrases.card_title(first=near(inside[0]), last=near(inside[-1]))),
        weeks,
        {day: tasks for day, tasks in _by_day(plan, inside[0]).items() if day in inside},
        inside,
        words,
    )
    return replace(card, keys=tuple(f"week-{monday.isoformat()}" for monday in mondays))


def _by_day(plan: Plan, present: date) -> dict[date, list[Task]]:
    """The open waterings of each day from a day on."""
    by_day: dict[date, list[Task]] = {}
    for task in shown(plan.tasks):
        if task.series is not None and task.closed is None:
            for day in series_days(task.series):
                if day >= present:
                    by_day.setdefault(day, []).append(task)
    return by_day


def _card(
    anchor: str,
    title: str,
    weeks: Sequence[tuple[date, ...]],
    by_day: Mapping[date, Sequence[Task]],
    inside: Sequence[date],
    words: Words,
) -> CardMonth:
    """A card: a letter for each watering that differs from the others by more than its clock.

    A day that is not `inside` has an empty cell.
    """
    tasks = [task for day in sorted(by_day) for task in by_day[day]]
    letters = letters_of(tasks)
    return CardMonth(
        anchor=anchor,
        title=title,
        weeks=tuple(
            tuple(_cell(day, by_day.get(day, ()), letters, words, of=inside) for day in week)
            for week in weeks
        ),
        waterings=tuple(CardWatering(letter, told) for told, letter in letters.items()),
        rules=tuple(dict.fromkeys(task.go.text for task in tasks if task.go is not None)),
    )


def _weeks_of(first: date) -> list[tuple[date, ...]]:
    """The weeks, Monday to Sunday, that hold days of a month."""
    mondays = dict.fromkeys(day - timedelta(days=day.weekday()) for day in _days_of_month(first))
    return [days_of(monday) for monday in mondays]


def _days_of_month(first: date) -> Iterator[date]:
    day = first
    while day.month == first.month:
        yield day
        day += timedelta(days=1)


def _cell(
    day: date,
    tasks: Sequence[Task],
    letters: Mapping[str, str],
    words: Words,
    *,
    of: Sequence[date],
) -> CardDay:
    """The cell of a day; the first of what the card shows and of each month names its month."""
    if day not in of:
        return CardDay("", ())
    runs = sorted(tasks, key=clock_of)
    named = len({d.month for d in of}) > 1 and (day == of[0] or day.day == 1)
    number = near_text(day, words, weekday=False) if named else words.value(day.day)
    return CardDay(number, tuple(run_of(task, day, letters, words) for task in runs))
