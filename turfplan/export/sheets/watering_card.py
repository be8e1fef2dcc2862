"""Writes the watering card: months with the minutes of each day, and when a run is skipped."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.calendar_days import WEEKDAYS
from turfplan.export.sheets.look import look_of, on_every_page, series_days, shown, today_of
from turfplan.export.templates import render
from turfplan.message import Clock, Month, NamedWeekday
from turfplan.messages import Words
from turfplan.phrases import watering_card as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# The letters that stand for different waterings of one month; a month with more goes on with
# doubled ones.
LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class CardRun:
    """One run in the cell of its day: when, for how long, and the letter of what it is."""

    clock: str
    minutes: str
    letter: str


@dataclass(frozen=True, slots=True)
class CardDay:
    """The cell of a day; `number` is empty where the week reaches into another month."""

    number: str
    runs: tuple[CardRun, ...]


@dataclass(frozen=True, slots=True)
class CardWatering:
    """What a letter of a month stands for."""

    letter: str
    title: str


@dataclass(frozen=True, slots=True)
class CardMonth:
    """A month in weeks of seven days, with what its letters stand for, and the rules by which its
    runs are skipped."""

    anchor: str
    title: str
    weeks: tuple[tuple[CardDay, ...], ...]
    waterings: tuple[CardWatering, ...]
    rules: tuple[str, ...]


def water_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """The watering of a season by month, as a page that stands alone. `paper` is letter or a4."""
    return render(
        "print/water.html.jinja",
        words,
        months=card_months(plan, words),
        weekdays=tuple(words.value(NamedWeekday(n)) for n in range(len(WEEKDAYS))),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def card_months(plan: Plan, words: Words) -> tuple[CardMonth, ...]:
    """The months with waterings, from the present one on, in order."""
    present = today_of(plan).replace(day=1)
    by_day: dict[date, list[Task]] = {}
    for task in shown(plan.tasks):
        if task.series is not None and task.closed is None:
            for day in series_days(task.series):
                if day >= present:
                    by_day.setdefault(day, []).append(task)
    firsts = sorted({day.replace(day=1) for day in by_day})
    return tuple(_month(first, by_day, words) for first in firsts)


def _month(first: date, by_day: dict[date, list[Task]], words: Words) -> CardMonth:
    """One month: a letter for each watering that differs from the others by more than its clock."""
    days = [day for day in by_day if day.replace(day=1) == first]
    tasks = [task for day in sorted(days) for task in by_day[day]]
    letters = _letters(tasks)
    rules = dict.fromkeys(task.go.text for task in tasks if task.go is not None)
    return CardMonth(
        anchor=f"month-{first:%Y-%m}",
        title=words.text(phrases.month(month=Month(first.month), year=str(first.year))),
        weeks=tuple(
            tuple(_cell(day, first, by_day.get(day, []), letters, words) for day in week)
            for week in _weeks_of(first)
        ),
        waterings=tuple(CardWatering(letter, title) for title, letter in letters.items()),
        rules=tuple(rules),
    )


def _letters(tasks: Iterable[Task]) -> dict[str, str]:
    """A letter for each title, in the order in which they begin."""
    titles = dict.fromkeys(task.title.text for task in tasks)
    return {
        title: LETTERS[n % len(LETTERS)] * (n // len(LETTERS) + 1) for n, title in enumerate(titles)
    }


def _weeks_of(first: date) -> list[tuple[date, ...]]:
    """The weeks, Monday to Sunday, that hold days of a month."""
    monday = first - timedelta(days=first.weekday())
    weeks = []
    while monday < _next_month(first):
        weeks.append(tuple(monday + timedelta(days=n) for n in range(len(WEEKDAYS))))
        monday += timedelta(days=len(WEEKDAYS))
    return weeks


def _next_month(first: date) -> date:
    return (first + timedelta(days=31)).replace(day=1)


def _cell(
    day: date, first: date, tasks: Sequence[Task], letters: dict[str, str], words: Words
) -> CardDay:
    if day.replace(day=1) != first:
        return CardDay("", ())
    runs = sorted((t for t in tasks if t.series is not None), key=_clock)
    return CardDay(
        words.value(day.day),
        tuple(
            CardRun(
                words.value(Clock(task.series.start_time)),
                words.value(task.series.minutes),
                letters[task.title.text],
            )
            for task in runs
            if task.series is not None
        ),
    )


def _clock(task: Task) -> tuple[str, str]:
    assert task.series is not None  # the caller picked tasks that repeat
    return task.series.start_time.isoformat(), task.id
