"""The waterings of a season as its page tells them: a line a stage, with its times of the day."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Clock, Message, NamedWeekday, listed
from turfplan.phrases import season_page as phrases
from turfplan.records.plan_task import Task

# Of fewer days in a row nobody has to say that somebody must be there each day.
MANY_DAYS = 3
# Runs with more days than these between them are of two stages.
MOST_BETWEEN = timedelta(days=4)


@dataclass(frozen=True, slots=True)
class ToldStage:
    """Waterings of one kind, one week after the other: from the first day to the last, the first
    of them, and what is told of their times."""

    start: date
    end: date
    task: Task
    told: tuple[Message, ...]


def watering_stages(tasks: Iterable[Task]) -> tuple[ToldStage, ...]:
    """The stages of all runs of water that a plan has, in the order in which they begin."""
    runs = [task for task in tasks if task.series is not None and task.closed is None]
    return tuple(_stage(stage) for stage in _stages(runs))


def _stages(runs: Iterable[Task]) -> Iterator[list[Task]]:
    """Runs of one kind that follow each other; those of another kind begin a stage."""
    stage: list[Task] = []
    for run in sorted(runs, key=lambda run: (run.start, run.id)):
        apart = stage and run.start > max(one.end for one in stage) + MOST_BETWEEN
        if stage and (apart or _kind(run) != _kind(stage[0])):
            yield stage
            stage = []
        stage.append(run)
    if stage:
        yield stage


def _kind(run: Task) -> tuple[str, str]:
    """What kind of watering a run is: its task, and what it is called but for its minutes."""
    return run.operation, run.title.key if isinstance(run.title, Message) else str(run.title)


def _stage(runs: list[Task]) -> ToldStage:
    series = [run.series for run in runs if run.series is not None]
    times = listed(map(Clock, sorted({one.start_time for one in series})))
    minutes = sorted({one.minutes for one in series})
    days = {day for one in series for day in one.weekdays}
    told = [
        phrases.runs_alike(times=times, n=minutes[0])
        if len(minutes) == 1
        else phrases.runs_at(times=times, least=minutes[0], most=minutes[-1])
    ]
    start, end = runs[0].start, max(run.end for run in runs)
    if days and all(one.weekdays for one in series):
        names = (NamedWeekday(n) for n, day in enumerate(WEEKDAYS) if day in days)
        told.append(phrases.runs_on(days=listed(names)))
    elif (end - start).days >= MANY_DAYS:
        told.append(phrases.be_there())
    return ToldStage(start, end, runs[0], tuple(told))
