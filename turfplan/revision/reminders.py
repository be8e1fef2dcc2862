"""Entries that remind of work ahead: on the evening before a day, and one a week with its list."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, time, timedelta

from turfplan.messages.day_entry import eve_description, eve_title, week_description, week_title
from turfplan.records.plan_task import PublishedEntry, Series, Task
from turfplan.revision.feed_entries import evenings_ring
from turfplan.revision.news import RevisionRun
from turfplan.revision.watering_days import EntryDraft

_DAY, _WEEK = timedelta(days=1), timedelta(days=7)
# When a household is at home and can still make ready; a custom of calendars, as is the length.
EVENING, EVE_MINUTES = time(19), 15
# Days and clock time before an entry that is itself at the hour of the reminder.
AT_ONCE = (0, time(0))


def reminders(
    run: RevisionRun,
    shown: Sequence[tuple[Task, PublishedEntry]],
    known: Collection[str],
) -> dict[str, EntryDraft]:
    """The entries that the form of the plan asks for, by id; what is over is none unless it is
    `known`."""
    jobs = [
        task
        for task, entry in shown
        if task.series is None and task.closed is None and not entry.cancelled
    ]
    form = run.draft.calendar
    found = [*(_eves(run, jobs) if form.eve else ()), *(_weeks(run, jobs) if form.week else ())]
    return {
        name: draft for name, draft in found if name in known or draft.published.start >= run.today
    }


def _eves(run: RevisionRun, jobs: Sequence[Task]) -> Iterator[tuple[str, EntryDraft]]:
    """One entry on the evening before each day on which something has to be ready.

    It is called after the first job of that day that has to be made ready, and named by it alone.
    It rings for all of them, where that is when the reminder is wanted.
    """
    alarm = run.draft.alarm
    at = EVENING if alarm is None else alarm[1]
    for day in sorted({task.start for task in jobs if task.alarm}):
        of_day = sorted((t for t in jobs if _is_on(t, day)), key=lambda t: _place(run, t))
        first = next(task for task in of_day if task.alarm and task.start == day)
        eve = day - _DAY
        published = PublishedEntry(
            summary=eve_title(run.words, first.title),
            description=eve_description(run.words, of_day),
            start=eve,
            end=eve,
            category=run.words.say("entry.category.prepare"),
            series=Series(start=eve, end=eve, start_time=at, minutes=EVE_MINUTES),
            timezone=run.draft.timezone,
            alarm=AT_ONCE if evenings_ring(run.draft) else None,
        )
        yield f"eve.{first.id}", EntryDraft(tuple(t.id for t in of_day), published)


def _is_on(task: Task, day: date) -> bool:
    """Whether a job is worked on a day."""
    days = task.days_worked
    return day in days if days else task.start <= day <= task.end


def _weeks(run: RevisionRun, jobs: Sequence[Task]) -> Iterator[tuple[str, EntryDraft]]:
    """One entry on the Monday of each week with jobs, numbered from the first of the plan."""
    first = _monday(run.draft.horizon.start)
    for monday in sorted({_monday(task.start) for task in jobs}):
        of_week = sorted(
            (t for t in jobs if _monday(t.start) == monday),
            key=lambda t: (t.start, *_place(run, t)),
        )
        published = PublishedEntry(
            summary=week_title(run.words),
            description=week_description(run.words, of_week),
            start=monday,
            end=monday,
            category=run.words.say("entry.category.prepare"),
        )
        name = f"week.{(monday - first) // _WEEK + 1}"
        yield name, EntryDraft(tuple(t.id for t in of_week), published)


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _place(run: RevisionRun, task: Task) -> tuple[str, str]:
    return run.draft.places.get(task.operation, ""), task.id
