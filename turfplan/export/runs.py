"""Says when a lawn is watered: the days, the times of day, the minutes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.export.quantities import Quantity, quantities
from turfplan.export.sheets import near_text, series_days, span_text
from turfplan.plan import Task
from turfplan.units import System
from turfplan.wording import clock_text


@dataclass(frozen=True, slots=True)
class WaterRow:
    """One watering series in this week: when, how long, and on which of the seven days."""

    task: Task
    label: str
    clock: str
    minutes: int
    minutes_words: str
    on: tuple[bool, ...]
    days: str
    amounts: tuple[Quantity, ...]


@dataclass(frozen=True, slots=True)
class Runs:
    """Waterings that are alike but for the time of day, in one line."""

    title: str
    days: str
    clocks: str
    water: str


def water_row(task: Task, week: Sequence[date], system: System) -> WaterRow:
    """A watering series cut to one week."""
    assert task.series is not None  # the caller picked tasks that repeat
    days = set(series_days(task.series))
    minutes = f"{task.series.minutes} min"
    return WaterRow(
        task=task,
        label=task.title,
        clock=clock_text(task.series.start_time, system),
        minutes=task.series.minutes,
        minutes_words="" if minutes in task.title else minutes,
        on=tuple(day in days for day in week),
        days=day_list([day for day in week if day in days], system),
        amounts=quantities(task, system),
    )


def runs_of(runs: Iterable[tuple[Task, str]], system: System) -> tuple[Runs, ...]:
    """Waterings with their days in words, those of one title and the same days in one line."""
    groups: dict[tuple[str, str], list[Task]] = {}
    for task, days in runs:
        groups.setdefault((task.title, days), []).append(task)
    return tuple(
        Runs(
            title=title,
            days=days,
            clocks=", ".join(clock_text(t.series.start_time, system) for t in tasks if t.series),
            water=", ".join(dict.fromkeys(q.planned for t in tasks for q in quantities(t, system))),
        )
        for (title, days), tasks in groups.items()
    )


def day_list(days: Sequence[date], system: System) -> str:
    """Days in words: a run as first to last, else one by one."""
    if len(days) > 2 and (days[-1] - days[0]).days + 1 == len(days):
        return f"daily {span_text(days[0], days[-1], system)}"
    return ", ".join(near_text(day, system) for day in days)
