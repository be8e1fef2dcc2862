"""The waterings of a plan as one entry a day: which runs stand in it, and on which days."""

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.messages.day_entry import DayRun, watering_description, watering_title
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarEntry
from turfplan.records.plan_task import PublishedEntry, Task
from turfplan.revision.feed_entries import rule_days
from turfplan.revision.news import RevisionRun

# `water.STAGE.wN` with what stands in for the household; what follows is the time of day.
_COMMON = re.compile(r"(water\..+?\.w\d+(?:\.stand-in)?)(?:\..+)?")


@dataclass(frozen=True, slots=True)
class EntryDraft:
    """An entry as it is to be shown: its tasks and what is published of it."""

    tasks: tuple[str, ...]
    published: PublishedEntry


def common_id(task_id: str) -> str:
    """The part of a watering's id that those of its stage and week share."""
    found = _COMMON.fullmatch(task_id)
    return found[1] if found else task_id


def hidden_groups(
    draft: Plan, tasks: Iterable[Task], previous: Plan | None, today: date
) -> set[str]:
    """The stages and weeks of watering whose runs have no entries of their own.

    What has begun goes on in the form in which it has begun.
    """
    by_form = draft.calendar.watering != "each"
    groups = {common_id(task.id): by_form for task in tasks if task.series is not None}
    for task in previous.tasks if previous is not None else ():
        shown = task.published
        if task.series is None or shown is None or shown.cancelled:
            continue
        if shown.start < today:
            groups[common_id(task.id)] = shown.hidden
    return {name for name, hidden in groups.items() if hidden}


def watering_days(
    run: RevisionRun,
    shown: Sequence[tuple[Task, PublishedEntry]],
    before: Mapping[str, CalendarEntry],
    taken: Collection[str],
) -> dict[str, EntryDraft]:
    """The entries of days by id: one for each stage and week, and never two on one day.

    `shown` are the tasks with what is published of them, `before` the entries of the plan before,
    `taken` ids that no entry may have. A day on which several stages run belongs to the entry that
    begins first, which tells of all of them.
    """
    groups: dict[str, list[tuple[Task, PublishedEntry]]] = {}
    for task, entry in shown:
        if entry.hidden and entry.series is not None and not entry.cancelled:
            groups.setdefault(_entry_id(task, taken), []).append((task, entry))
    told = {name: of for name, of in groups.items() if _is_told(run, before.get(name))}
    runs = {task.id: _run_days(entry) for of in told.values() for task, entry in of}
    owners = _owners(run, told, runs, before)
    drafts = {}
    for name in told:
        days = tuple(sorted(day for day, owner in owners.items() if owner == name))
        # Of days that are over nothing may be left once their work is on others.
        if any(not of_run.isdisjoint(days) for of_run in runs.values()):
            drafts[name] = _draft(run, told, runs, days)
    return drafts


def _entry_id(task: Task, taken: Collection[str]) -> str:
    """The id of a task's entry; that of no task, so that no two entries share an identity."""
    name = common_id(task.id)
    return f"{name}.day" if name in taken else name


def _is_told(run: RevisionRun, before: CalendarEntry | None) -> bool:
    """Whether a stage's week is told by days: by the form of the plan, or since it has begun so."""
    if run.draft.calendar.watering == "day":
        return True
    begun = before is not None and not before.published.cancelled
    return begun and before is not None and before.published.start < run.today


def _run_days(entry: PublishedEntry) -> frozenset[date]:
    assert entry.series is not None  # it is a watering
    return frozenset(rule_days(entry.series)) - frozenset(entry.series.skip)


def days_of(entry: PublishedEntry) -> tuple[date, ...]:
    """The days of an entry of whole days."""
    return entry.days or (entry.start,)


def _owners(
    run: RevisionRun,
    told: Mapping[str, Sequence[tuple[Task, PublishedEntry]]],
    runs: Mapping[str, frozenset[date]],
    before: Mapping[str, CalendarEntry],
) -> dict[date, str]:
    """By day the entry that it belongs to: days gone by stay as they were shown."""
    owners: dict[date, str] = {}
    for name, entry in before.items():
        if entry.kind == "watering" and not entry.published.cancelled:
            owners |= {day: name for day in days_of(entry.published) if day < run.today}
    of_group = {name: frozenset().union(*(runs[t.id] for t, _ in of)) for name, of in told.items()}
    begins = {name: min(days, default=date.max) for name, days in of_group.items()}
    for name in sorted(told, key=lambda name: (begins[name], name)):
        for day in of_group[name]:
            if day >= run.today or run.previous is None:
                owners.setdefault(day, name)
    return owners


def _draft(
    run: RevisionRun,
    told: Mapping[str, Sequence[tuple[Task, PublishedEntry]]],
    runs: Mapping[str, frozenset[date]],
    days: tuple[date, ...],
) -> EntryDraft:
    """An entry of some days with all that runs on them."""
    on_days = [
        DayRun(task, entry.series, entry.description, on)
        for of in told.values()
        for task, entry in of
        if entry.series is not None and (on := tuple(sorted(runs[task.id].intersection(days))))
    ]
    on_days.sort(key=lambda one: (one.days[0], one.series.start_time, one.task.id))
    category = next(
        entry.category for of in told.values() for task, entry in of if task is on_days[0].task
    )
    published = PublishedEntry(
        summary=watering_title(run.words, on_days),
        description=watering_description(run.words, on_days, days),
        start=days[0],
        end=days[-1],
        category=category,
        days=days if len(days) > 1 else (),
    )
    return EntryDraft(tuple(one.task.id for one in on_days), published)
