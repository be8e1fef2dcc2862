"""Says when a lawn is watered: the days, the times of day, the minutes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.export.sheets.look import near, series_days
from turfplan.export.sheets.task_amounts import quantities
from turfplan.message import Clock, Days, listed
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan_task import Task


@dataclass(frozen=True, slots=True)
class WaterRow:
    """One watering series in this week: when, how long, and on which of the seven days."""

    task: Task
    label: str
    at: str
    minutes: int
    on: tuple[bool, ...]
    days: str


@dataclass(frozen=True, slots=True)
class Runs:
    """Waterings that are alike but for the time of day, in one line."""

    title: str
    days: str
    clocks: str
    water: str


def water_row(task: Task, week: Sequence[date], words: Words) -> WaterRow:
    """A watering series cut to one week; its title names the minutes."""
    assert task.series is not None  # the caller picked tasks that repeat
    days = set(series_days(task.series))
    return WaterRow(
        task=task,
        label=task.title.text,
        at=words.text(phrases.run_at(clock=Clock(task.series.start_time))),
        minutes=task.series.minutes,
        on=tuple(day in days for day in week),
        days=day_list([day for day in week if day in days], words),
    )


def runs_of(runs: Iterable[tuple[Task, str]], words: Words) -> tuple[Runs, ...]:
    """Waterings with their days in words, those of one title and the same days in one line."""
    groups: dict[tuple[str, str], list[Task]] = {}
    for task, days in runs:
        groups.setdefault((task.title.text, days), []).append(task)
    return tuple(
        Runs(
            title=title,
            days=days,
            clocks=words.value(
                listed((Clock(t.series.start_time) for t in tasks if t.series), "comma")
            ),
            water=words.value(
                listed(
                    dict.fromkeys(q.planned for t in tasks for q in quantities(t, words)), "comma"
                )
            ),
        )
        for (title, days), tasks in groups.items()
    )


def day_list(days: Sequence[date], words: Words) -> str:
    """Days in words: a run as first to last, else one by one."""
    if len(days) > 2 and (days[-1] - days[0]).days + 1 == len(days):
        return words.text(phrases.daily(days=Days(days[0], days[-1], year=False)))
    return words.value(listed((near(day) for day in days), "comma"))
