"""What a calendar shows of a task, and what of it a subscriber sees as another date."""

import hashlib
from datetime import date

from turfplan.calendar_days import in_week_order, recurring_days
from turfplan.message import Message
from turfplan.messages import Words
from turfplan.messages.entry import description, summary
from turfplan.phrases import buying
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarEntry, CalendarPart
from turfplan.records.plan_task import PublishedEntry, Series, Task


def uid(lawn_id: str, task_id: str) -> str:
    """The calendar identity of a task: the same for ever, whatever its date, title or order."""
    return (
        hashlib.sha256(f"turfplan/1\n{lawn_id}\n{task_id}".encode()).hexdigest()[:32] + "@turfplan"
    )


def rule_days(series: Series) -> tuple[date, ...]:
    """The days on which a series runs, before any is left out."""
    return recurring_days(series.start, series.end, series.weekdays)


def shown_anew(words: Words, plan: Plan, task: Task, *, hidden: bool = False) -> Task:
    """The task with what the feed shows of it, made anew from what it is."""
    return task.model_copy(update={"published": entry_of(words, plan, task, hidden=hidden)})


def entry_of(words: Words, plan: Plan, task: Task, *, hidden: bool = False) -> PublishedEntry:
    """What the feed shows of a task: its words, its days or runs, its reminder.

    `hidden` where another entry tells of it, or none.
    """
    place = _place(plan, task)
    start, end, series, timezone = task.start, task.end, None, None
    days = task.days_worked if (task.start, task.end) == task.days else ()
    if task.series is not None:
        series, timezone = plain_series(task.series), plan.timezone
        start, end = (
            series.start,
            next((d for d in reversed(rule_days(series)) if d not in series.skip), series.end),
        )
    return PublishedEntry(
        summary=summary(words, task, place=place),
        description=description(words, task, place=place, bought=_bought(plan, task)),
        start=start,
        end=end,
        category=words.say(f"entry.category.{task.phase}"),
        series=series,
        timezone=timezone,
        days=days,
        alarm=plan.alarm if task.alarm and not task.series and not evenings_ring(plan) else None,
        hidden=hidden,
    )


def evenings_ring(plan: Plan) -> bool:
    """Whether the entries of evenings before ring, once for all jobs of a day, and no job by
    itself: where that is when the reminder is wanted."""
    return plan.calendar.eve and plan.alarm is not None and plan.alarm[0] == 1


def _place(plan: Plan, task: Task) -> str:
    """The place of a job in the lawn's order of work; waterings come on days of their own."""
    return plan.places.get(task.operation, "") if task.series is None else ""


def _bought(plan: Plan, task: Task) -> tuple[Message, ...]:
    """What a task orders or receives; what is fetched on a trip, or called for, stands in its
    steps."""
    if not {"ordering", "delivery"}.intersection(task.roles):
        return ()
    lines = (line for line in plan.order if task.id in line.tasks)
    told = (buying.line(what=line.name, amount=line.text) for line in lines)
    return tuple(one for one in told if one not in task.how)


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
    when = shown.series or shown.days or (shown.start, shown.end)
    return shown.cancelled, shown.hidden, shown.timezone, when


def shown_in(plan: Plan, part: CalendarPart) -> list[tuple[Task | CalendarEntry, PublishedEntry]]:
    """What a part of the calendar shows, in the one order that no planning again changes."""
    shown: list[tuple[Task | CalendarEntry, PublishedEntry]] = [
        (task, task.published)
        for task in plan.tasks
        if task.published is not None
        and not task.published.hidden
        and part in ("all", "work" if task.series is None else "water")
    ]
    shown += [
        (entry, entry.published)
        for entry in plan.calendar_entries
        if part in ("all", "water" if entry.is_water else "work")
    ]
    return sorted(shown, key=lambda one: one[0].id)


def within_days(shown: PublishedEntry, first: date, last: date) -> PublishedEntry | None:
    """An entry as it stands on some days alone; None where it has none of them."""
    if shown.days:
        days = tuple(day for day in shown.days if first <= day <= last)
        if not days:
            return None
        several = days if len(days) > 1 else ()
        return shown.model_copy(update={"start": days[0], "end": days[-1], "days": several})
    if shown.series is None:
        return shown if shown.start <= last and shown.end >= first else None
    runs = [day for day in rule_days(shown.series) if first <= day <= last]
    if not any(day not in shown.series.skip for day in runs):
        return None
    return shown.model_copy(
        update={
            "series": plain_series(
                shown.series.model_copy(update={"start": runs[0], "end": runs[-1]})
            )
        }
    )


def feed_head(plan: Plan) -> tuple[str, ...]:
    """What the feed shows beside the tasks."""
    return plan.lawn.name, plan.timezone, plan.language
