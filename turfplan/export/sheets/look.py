"""What every printed sheet shares: paper, weeks, and the words for days and amounts."""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any, Literal, get_args
from zoneinfo import ZoneInfo

from turfplan.calendar_days import WEEKDAYS, recurring_days
from turfplan.export.house_ids import lawn_of_task
from turfplan.export.templates import stylesheet
from turfplan.message import Day, Days
from turfplan.messages import Words
from turfplan.phrases import sheet as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Phase, Series, Task
from turfplan.units import System

Paper = Literal["letter", "a4"]
LETTER_COUNTRIES = frozenset({"US", "CA"})
DAYS_IN_WEEK = 7
SHORT_NAME = 40
# What a name loses; the joiners stay, for emoji and some scripts are spelt with them.
UNHELD = ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")
JOINERS = "\u200c\u200d"

# In the order of the work.
PHASES: tuple[Phase, ...] = get_args(Phase)


@dataclass(frozen=True, slots=True)
class Look:
    """How a sheet is set: the paper, large print or not, the stylesheet to write into the page."""

    paper: Paper
    large: bool
    css: str


def look_of(plan: Plan, paper: str | None = None, *, large: bool = False) -> Look:
    """The look of a sheet of this plan.

    Paper is Letter in the United States and Canada, A4 elsewhere.
    """
    return Look(paper_of(plan, paper), large, stylesheet())


def paper_of(plan: Plan, paper: str | None = None) -> Paper:
    """`letter` or `a4` for a sheet of this plan; see `paper_for`."""
    return paper_for(plan.place.country, plan.lawn.units, paper)


def paper_for(country: str | None, system: System, paper: str | None = None) -> Paper:
    """`letter` or `a4`: as asked, else by country, else by the units people there read.

    Raises ValueError for another paper.
    """
    if paper is not None:
        if paper not in ("letter", "a4"):
            raise ValueError(f"paper is letter or a4, not {paper!r}")
        return "letter" if paper == "letter" else "a4"
    if country:
        return "letter" if country in LETTER_COUNTRIES else "a4"
    return "letter" if system is System.US else "a4"


def today_of(plan: Plan) -> date:
    """The day on which the plan was made, where the lawn is."""
    return plan.now.astimezone(ZoneInfo(plan.timezone)).date()


def monday_of(day: date) -> date:
    """The Monday of that day's week.

    A week runs to Sunday, so that a weekend of work stays on one page.
    """
    return day - timedelta(days=day.weekday())


def days_of(first: date, count: int = DAYS_IN_WEEK) -> tuple[date, ...]:
    """`count` days in a row."""
    return tuple(first + timedelta(days=n) for n in range(count))


def phase_name(phase: Phase, words: Words) -> str:
    """What a phase of the work is called."""
    return words.say(f"sheet.phase.{phase}.name")


def phase_letter(phase: Phase, words: Words) -> str:
    """The letter that stands for a phase of the work."""
    return words.say(f"sheet.phase.{phase}.letter")


def near(day: date, *, weekday: bool = True) -> Day:
    """A day of the season at hand, told without its year: "Sat, Aug 14" or "Sat 14 Aug"."""
    return Day(day, weekday=weekday, year=False)


def near_text(day: date, words: Words, *, weekday: bool = True) -> str:
    """The same in words."""
    return words.value(near(day, weekday=weekday))


def beside(task_day: date, day: date | None, words: Words) -> str | None:
    """Another day of a task in words, with its year where that is not the task's."""
    if day is None:
        return None
    return words.value(Day(day, year=day.year != task_day.year))


def span_text(
    start: date, end: date, words: Words, *, weekday: bool = True, year: bool = False
) -> str:
    """One day, or first to last day."""
    return words.value(Days(start, end, weekday=weekday, year=year))


def on_every_page(plan: Plan, words: Words, look: Look) -> dict[str, Any]:
    """What the template of every sheet is filled with: the plan, the lawn's name, the look, the day
    it was made.
    """
    name = plain_name(plan.lawn.name, words)
    return {
        "plan": plan,
        "name": name,
        "short": short_name(name, words),
        "look": look,
        "made": words.day(today_of(plan), weekday=False),
    }


def series_days(series: Series) -> tuple[date, ...]:
    """Every day on which a repeated job runs."""
    return recurring_days(series.start, series.end, series.weekdays, series.skip)


def task_days(task: Task) -> tuple[date, ...]:
    """The days a task asks for: those of its series, else first to last day less days off.

    A done one keeps the days it was done.
    """
    if task.series is not None:
        return series_days(task.series)
    if task.days_worked:
        return task.days_worked
    start, end = task.days
    return days_of(start, (end - start).days + 1)


def first_day_of(task: Task, days: Sequence[date], monday: date) -> date | None:
    """The first of the days of a job that lies in a week, or after it; of what is begun the first
    of those that are left, where one of them is in the week."""
    begun = task.actual is not None and task.is_open
    if begun and monday <= task.start < monday + timedelta(len(WEEKDAYS)):
        return task.start
    return next((day for day in days if day >= monday), None)


def shown(tasks: Iterable[Task]) -> tuple[Task, ...]:
    """Tasks that belong on paper, in the order they are done: by day, and within a day what others
    wait for first.
    """
    return in_order_of_work(
        [
            t
            for t in tasks
            if t.closed == "skipped" or (t.closed != "dropped" and t.status != "CANCELLED")
        ]
    )


def in_order_of_work(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Tasks in the order they are done: by day, and within a day what others wait for first."""
    of_day: dict[date, list[Task]] = {}
    for task in tasks:
        # Of what is begun the rest is still to do.
        first = task.start if task.actual is not None and task.is_open else task.days[0]
        of_day.setdefault(first, []).append(task)
    return tuple(task for start in sorted(of_day) for task in _in_order(of_day[start]))


def _in_order(tasks: Sequence[Task]) -> Iterator[Task]:
    """The tasks of one first day: nothing before what it waits for, else by lawn, where a sheet has
    several, phase, time of day and id.
    """

    def rank(task: Task) -> tuple[str, int, time, date, str]:
        return (
            lawn_of_task(task.id),
            PHASES.index(task.phase),
            task.series.start_time if task.series else time(),
            task.end,
            task.id,
        )

    waiting = sorted(tasks, key=rank)
    while waiting:
        names = {task.id for task in waiting}
        # A circle cannot be ordered; then the first by rank goes.
        following = next(
            (t for t in waiting if not names.intersection(t.depends_on) - {t.id}), waiting[0]
        )
        waiting.remove(following)
        yield following


def plain_name(text: str, words: Words) -> str:
    """A typed name without what no page can hold: controls, line breaks, marks that turn the
    direction; never empty.
    """
    kept = "".join(
        " " if unicodedata.category(c) in UNHELD and c not in JOINERS else c for c in text
    )
    return " ".join(kept.split()) or words.text(phrases.unnamed())


def short_name(text: str, words: Words, most: int = SHORT_NAME) -> str:
    """A name that fits a running head: cut at `most` characters, with three dots."""
    name = plain_name(text, words)
    return name if len(name) <= most else name[: most - 1].rstrip() + "…"
