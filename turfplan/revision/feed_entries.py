"""What a calendar shows of a task, and what of it a subscriber sees as another date."""

import hashlib
from datetime import date

from turfplan.calendar_days import in_week_order, recurring_days
from turfplan.messages import Words
from turfplan.messages.entry import description, summary
from turfplan.records.plan import Plan
from turfplan.records.plan_task import PublishedEntry, Series, Task


def uid(lawn_id: str, task_id: str) -> str:
    """The calendar identity of a task: the same for ever, whatever its date, title or order."""
    return (
        hashlib.sha256(f"turfplan/1\n{lawn_id}\n{task_id}".encode()).hexdigest()[:32] + "@turfplan"
    )


def rule_days(series: Series) -> tuple[date, ...]:
    """The days on which a series runs, before any is left out."""
    return recurring_days(series.start, series.end, series.weekdays)


def shown_anew(words: Words, plan: Plan, task: Task) -> Task:
    """The task with what the feed shows of it, made anew from what it is."""
    return task.model_copy(update={"published": entry_of(words, plan, task)})


def entry_of(words: Words, plan: Plan, task: Task) -> PublishedEntry:
    """What the feed shows of a task: its words, its days or runs, its reminder."""
    start, end, series, timezone = task.start, task.end, None, None
    if task.series is not None:
        series, timezone = plain_series(task.series), plan.timezone
        start, end = (
            series.start,
            next((d for d in reversed(rule_days(series)) if d not in series.skip), series.end),
        )
    return PublishedEntry(
        summary=summary(words, task),
        description=description(words, task),
        start=start,
        end=end,
        category=words.say(f"entry.category.{task.phase}"),
        series=series,
        timezone=timezone,
        alarm=plan.alarm if task.alarm and task.series is None else None,
    )


def plain_series(series: Series) -> Series:
    """The one way of writing a series down.

    From its first to its last day, and only days that it would run on left out.
    """
    days = rule_days(series)
    update = {
        "start": days[0],
        "end": days[-1],
        "weekdays": in_week_order(series.weekdays),
        "skip": tuple(sorted(set(series.skip) & set(days))) if series.skip else (),
    }
    # Most are plain as they come: a record of its own is needed where one is not.
    same = all(getattr(series, name) == value for name, value in update.items())
    return series if same else series.model_copy(update=update)


def timing(shown: PublishedEntry | None) -> tuple[object, ...]:
    """What the sequence number watches: DTSTART, DTEND, RRULE, EXDATE and STATUS."""
    if shown is None:
        return ()
    return shown.cancelled, shown.timezone, shown.series or (shown.start, shown.end)


def feed_head(plan: Plan) -> tuple[str, ...]:
    """What the feed shows beside the tasks."""
    return plan.lawn.name, plan.timezone, plan.language
