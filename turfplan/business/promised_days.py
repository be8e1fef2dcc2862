"""Which days were promised to clients, and what is no longer as it was told."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from turfplan.records.plan_task import Role, Task

# What the office does beside the lawn, or on the way to it: no client waits for it.
UNSEEN: tuple[Role, ...] = ("ordering", "calling", "collecting")


@dataclass(frozen=True, slots=True)
class PromisedDays:
    """The days of a job as its client was, or is to be, told them."""

    title: str
    start: date
    end: date


@dataclass(frozen=True, slots=True)
class PromiseNews:
    """A job whose days are others than were last told: `before` is None for one that was never
    told, `now` for one that falls away."""

    task: str
    title: str
    before: PromisedDays | None
    now: PromisedDays | None


def promised_days(
    jobs: Iterable[Task], by_client: Collection[str], today: date
) -> dict[str, PromisedDays]:
    """The days on which a business comes for main work that is still to come, by task."""
    return {
        task.id: PromisedDays(str(task.title), task.start, task.end)
        for task in jobs
        if task.plays("headline")
        and not task.plays(*UNSEEN)
        and task.operation not in by_client
        and task.end >= today
    }


def promise_news(
    told: Mapping[str, PromisedDays],
    now: Mapping[str, PromisedDays],
    open_tasks: Collection[str],
    over: Collection[str],
) -> tuple[PromiseNews, ...]:
    """What is to be told, in the order of its days: days that differ, jobs that are new, and those
    that fall away. What is `over` is no news, nor is a job that is open and only past its days."""
    news = [
        PromiseNews(task, days.title, told.get(task), days)
        for task, days in now.items()
        if task not in told or (told[task].start, told[task].end) != (days.start, days.end)
    ]
    gone = [
        PromiseNews(task, days.title, days, None)
        for task, days in told.items()
        if task not in now and task not in open_tasks and task not in over
    ]
    news.sort(key=lambda one: (now[one.task].start, one.task))
    return (*news, *gone)
