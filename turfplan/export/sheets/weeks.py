"""Lays out the weeks of a plan: the strip of their seven days, and what stands at each day."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.export.sheets.first_notes import first_notes
from turfplan.export.sheets.go_signs import rules_of
from turfplan.export.sheets.ground_sheets import PassSheet, pass_sheets
from turfplan.export.sheets.look import (
    DAYS_IN_WEEK,
    days_of,
    first_day_of,
    monday_of,
    shown,
    span_text,
    task_days,
    today_of,
)
from turfplan.export.sheets.task_amounts import labour_together
from turfplan.export.sheets.watering_times import Runs, WaterRow, runs_of, water_row
from turfplan.export.sheets.week_days import DayWork, StripDay, day_parts, strip_of
from turfplan.export.sheets.week_jobs import Job, week_jobs
from turfplan.export.sheets.week_outlook import Ahead, ByWeek, look_ahead
from turfplan.message import Message, Number, Quantity, listed
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """All that is printed of one week.

    `waterings` are what the letters of the strip stand for, `water_rules` by what a run is skipped.
    `ahead` says what follows, where the week is printed alone.
    """

    key: str
    first: date
    title: str
    summary: str
    strip: tuple[StripDay, ...]
    days: tuple[DayWork, ...]
    jobs: tuple[Job, ...]
    water: tuple[WaterRow, ...]
    runs: tuple[Runs, ...]
    waterings: tuple[tuple[str, str], ...]
    water_rules: tuple[str, ...]
    water_cautions: tuple[str, ...]
    notes: tuple[tuple[str, str], ...]
    ahead_title: str
    ahead: tuple[Ahead, ...]
    alone: bool
    maps: tuple[PassSheet, ...]


def week_sheets(
    plan: Plan, words: Words, week: date | None = None, *, maps: bool = True
) -> tuple[WeekSheet, ...]:
    """The week that holds the day `week`, else every week with work from the present one on.

    An earlier week is printed as long as a job of it is open. Without `maps` the passes' maps are
    not drawn.
    """
    by_week, drawn = _by_week(shown(plan.tasks)), pass_sheets(plan, words) if maps else ()
    if week is not None:
        return (_sheet(plan, words, by_week, monday_of(week), drawn, alone=True),)
    present = monday_of(today_of(plan))
    return tuple(
        _sheet(plan, words, by_week, monday, drawn, alone=False)
        for monday, tasks in sorted(by_week.items())
        if monday >= present or any(task.closed is None and task.series is None for task in tasks)
    )


def _by_week(tasks: Iterable[Task]) -> ByWeek:
    """The tasks of each week, named by its Monday, with their days in it.

    In the order of the tasks.
    """
    weeks: dict[date, dict[Task, list[date]]] = {}
    for task in tasks:
        for day in task_days(task):
            weeks.setdefault(monday_of(day), {}).setdefault(task, []).append(day)
    return weeks


def _sheet(
    plan: Plan,
    words: Words,
    by_week: ByWeek,
    monday: date,
    drawn: Sequence[PassSheet],
    *,
    alone: bool,
) -> WeekSheet:
    """The week that begins on `monday`."""
    week = days_of(monday)
    here = by_week.get(monday, {})
    maps = maps_of(drawn, here, monday)
    # A job that was begun before stands where its days in this week begin.
    first = {task: first_day_of(task, days, monday) or monday for task, days in here.items()}
    tasks = sorted((task for task in here if task.series is None), key=first.__getitem__)
    jobs = week_jobs(plan, monday, tasks, words, maps, alone=alone)
    water = tuple(
        water_row(task, week, words)
        for task in here
        if task.series is not None and task.closed is None
    )
    strip, waterings = strip_of(week, jobs, [row.task for row in water], words)
    ahead_title, ahead = look_ahead(by_week, monday, words) if alone else ("", ())
    return WeekSheet(
        key=f"week-{monday.isoformat()}",
        first=monday,
        title=span_text(week[0], week[-1], words, weekday=False, year=True),
        summary=_in_one_line(plan, monday, jobs, water, words),
        strip=strip,
        days=tuple(
            part
            for day in week
            if _is_worked(day, monday, jobs)
            for part in day_parts(day, jobs, words, plan.names)
        ),
        jobs=jobs,
        water=water,
        runs=runs_of(((row.task, row.days) for row in water), words),
        waterings=waterings,
        water_rules=tuple(dict.fromkeys(r.task.go.text for r in water if r.task.go is not None)),
        water_cautions=tuple(dict.fromkeys(c.text for row in water for c in row.task.cautions)),
        notes=first_notes(plan, words) if monday == _first_monday(plan, by_week) else (),
        ahead_title=ahead_title,
        ahead=ahead,
        alone=alone,
        maps=tuple(maps.values()),
    )


def _is_worked(day: date, monday: date, jobs: Sequence[Job]) -> bool:
    """Whether a day has a job that begins on it, or that goes on from an earlier week."""
    return any(first_day_of(job.task, job.days, monday) == day for job in jobs)


def _first_monday(plan: Plan, by_week: ByWeek) -> date | None:
    """The Monday of the first sheet: of the first week with work from the present one on."""
    present = monday_of(today_of(plan))
    return min((monday for monday in by_week if monday >= present), default=None)


def maps_of(drawn: Sequence[PassSheet], tasks: Iterable[Task], day: date) -> dict[str, PassSheet]:
    """The maps of the passes that begin in the week of a day, by task."""
    begun = {task.id for task in tasks if monday_of(task.start) == monday_of(day)}
    return {sheet.task_id: sheet for sheet in drawn if sheet.task_id in begun}


def _in_one_line(
    plan: Plan, monday: date, jobs: Sequence[Job], water: Sequence[WaterRow], words: Words
) -> str:
    """What the week holds, in one line."""
    told = (*_summary(monday, jobs, water, plan.lawn.people), *_feeding(plan, monday))
    return words.value(listed(told, "semicolon"))


def _hours_in_week(job: Job, monday: date) -> float:
    """Person-hours of a job that fall into a week: a job of several weeks is shared out over its
    days."""
    here = sum(monday_of(day) == monday for day in job.days)
    return job.task.person_hours * here / len(job.days)


def _summary(
    monday: date, jobs: Sequence[Job], water: Sequence[WaterRow], people: int | None
) -> Iterator[Message]:
    """The week in one line: how many jobs, how much labour, how much watering."""
    if jobs:
        left = (job for job in jobs if job.state not in ("done", "skipped"))
        hours = labour_together((_hours_in_week(job, monday) for job in left), people)
        yield (
            phrases.jobs(n=len(jobs))
            if hours is None
            else phrases.jobs_hours(n=len(jobs), hours=hours)
        )
    runs = sum(sum(row.on) for row in water)
    if runs:
        minutes = sum(row.minutes * sum(row.on) for row in water)
        yield phrases.waterings(n=runs, minutes=Number(minutes, "short"))
    if not jobs and not runs:
        yield phrases.no_work()


def _feeding(plan: Plan, monday: date) -> Iterator[Message]:
    """What the feedings of the week come to."""
    following = monday + timedelta(days=DAYS_IN_WEEK)
    for ledger in plan.ledgers:
        entries = next((w.entries for w in ledger.weeks if monday <= w.start < following), {})
        if entries.get("feed"):
            yield phrases.nitrogen(amount=Quantity(entries["feed"], "rate"))


def water_alone(sheet: WeekSheet) -> bool:
    """Whether a week is nothing but watering: the watering card stands in for it in a print of the
    season."""
    return bool(sheet.water) and not sheet.jobs and not sheet.notes and not sheet.alone


def protecting(plan: Plan, words: Words) -> Mapping[str, int]:
    """The number of each caution that protects, the same all season: by the first job that has
    it."""
    texts: dict[str, int] = {}
    for task in shown(plan.tasks):
        for text in rules_of(plan, task, words).protect if task.series is None else ():
            texts.setdefault(text, len(texts) + 1)
    return texts
