"""Lays out the weeks of a plan: what stands on the page of each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from turfplan.export.fitting import Fit, JobText, WeekText, fit_of, lengths
from turfplan.export.ground_sheets import PassSheet, pass_sheets
from turfplan.export.quantities import Quantity, hours_text, quantities
from turfplan.export.runs import Runs, WaterRow, runs_of, water_row
from turfplan.export.sheets import (
    DAYS_IN_WEEK,
    PHASE_LETTER,
    PHASE_NAME,
    Look,
    days_of,
    look_of,
    monday_of,
    near_text,
    shown,
    span_text,
    task_days,
    today_of,
)
from turfplan.plan import Plan, Task
from turfplan.units import System, format_number, read_as
from turfplan.wording import MONTHS, WEEKDAYS, bought_text

# The blanks for the day and the hours beside a job take the room of that many characters.
FILL_IN_LENGTH, USED_LENGTH = 46, 20
MAP_WORDS = "Where, and how deep at each stake: the map of this pass follows this week."
# Monday -> task -> its days in that week.
ByWeek = Mapping[date, Mapping[Task, list[date]]]
State = Literal["open", "done", "skipped", "held", "overdue"]


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution beside a step, with the letter by which later jobs of the page refer to it."""

    letter: str
    text: str


@dataclass(frozen=True, slots=True)
class Job:
    """One task as a week's page shows it."""

    number: int
    anchor: str
    task: Task
    state: State
    days: tuple[date, ...]
    when: str
    stamp: tuple[str, str, str]
    phase_letter: str
    phase_name: str
    quantities: tuple[Quantity, ...]
    cautions: tuple[Caution, ...]
    cautions_above: str
    window: str
    hours: str
    fallback_day: str | None
    closed_note: str
    continued: bool
    map: str


@dataclass(frozen=True, slots=True)
class Ahead:
    """One line of the look-ahead."""

    when: str
    title: str


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """Everything on the page of one week."""

    key: str
    first: date
    title: str
    days: tuple[tuple[str, str, str], ...]
    marks: tuple[str, ...]
    summary: str
    jobs: tuple[Job, ...]
    halves: tuple[tuple[Job, ...], ...]
    water: tuple[WaterRow, ...]
    runs: tuple[Runs, ...]
    water_cautions: tuple[str, ...]
    ahead_title: str
    ahead: tuple[Ahead, ...]
    fit: Fit
    classes: str
    note_lines: int
    maps: tuple[PassSheet, ...]


def week_sheets(
    plan: Plan, week: date | None = None, look: Look | None = None, *, maps: bool = True
) -> tuple[WeekSheet, ...]:
    """The pages: of the week that holds `week`, else of every week with work from the present one on.

    An earlier week has its page as long as a job of it is open. Without `maps` the passes' maps are not drawn.
    """
    look = look or look_of(plan)
    by_week, drawn = _by_week(shown(plan.tasks)), pass_sheets(plan) if maps else ()
    if week is not None:
        return (_sheet(plan, by_week, monday_of(week), look, drawn),)
    present = monday_of(today_of(plan))
    return tuple(
        _sheet(plan, by_week, monday, look, drawn)
        for monday, tasks in sorted(by_week.items())
        if monday >= present or any(task.closed is None and task.series is None for task in tasks)
    )


def _by_week(tasks: Iterable[Task]) -> ByWeek:
    """The tasks of each week, named by its Monday, with their days in it; in the order of the tasks."""
    weeks: dict[date, dict[Task, list[date]]] = {}
    for task in tasks:
        for day in task_days(task):
            weeks.setdefault(monday_of(day), {}).setdefault(task, []).append(day)
    return weeks


def _sheet(plan: Plan, by_week: ByWeek, monday: date, look: Look, drawn: Sequence[PassSheet]) -> WeekSheet:
    """One page: the jobs, the watering and the look-ahead of the week that begins on `monday`."""
    system = plan.lawn.units
    week = days_of(monday)
    here = by_week.get(monday, {})
    begun = {task.id for task in here if monday_of(task.start) == monday}
    maps = {sheet.task_id: sheet for sheet in drawn if sheet.task_id in begun}
    jobs = tuple(_jobs(monday, [task for task in here if task.series is None], system, maps))
    water = tuple(water_row(task, week, system) for task in here if task.series is not None)
    water_cautions = tuple(dict.fromkeys(c for row in water for c in row.task.cautions))
    ahead_title, ahead = _ahead(by_week, monday, system)
    fitting = fit_of(_week_text(jobs, water, water_cautions, ahead), look.paper, large=look.large)
    return WeekSheet(
        key=f"week-{monday.isoformat()}",
        first=monday,
        title=span_text(week[0], week[-1], system, weekday=False, year=True),
        days=tuple(stamp_of(day) for day in week),
        marks=tuple(_marks(jobs, day) for day in week),
        summary="; ".join((_summary(jobs, water), *_account(plan, monday))),
        jobs=jobs,
        halves=tuple(half for half in (jobs[: fitting.first_column], jobs[fitting.first_column :]) if half),
        water=water,
        runs=runs_of(((row.task, row.days) for row in water), system),
        water_cautions=water_cautions,
        ahead_title=ahead_title,
        ahead=ahead,
        fit=fitting.fit,
        classes=fitting.classes,
        note_lines=fitting.note_lines,
        maps=tuple(maps.values()),
    )


def _marks(jobs: Sequence[Job], day: date) -> str:
    """The numbers of the jobs of a day; in brackets where only some days between first and last are worked."""
    found = []
    for job in jobs:
        if day in job.days:
            sure = job.task.duration_days >= len(job.days) or day in (job.days[0], job.days[-1]) or job.closed_note
            if sure or job.task.duration_days > 2:
                found.append(str(job.number) if sure else f"({job.number})")
    return ", ".join(found)


def stamp_of(day: date) -> tuple[str, str, str]:
    """Weekday, day and month as the date stamp beside a job shows them."""
    return WEEKDAYS[day.weekday()], str(day.day), MONTHS[day.month - 1]


def _jobs(monday: date, tasks: Iterable[Task], system: System, maps: Mapping[str, PassSheet]) -> Iterator[Job]:
    """The numbered jobs of a week; a caution already printed on the page is referred to by its letter."""
    letters: dict[str, str] = {}
    for number, task in enumerate(tasks, start=1):
        again = [letters[text] for text in task.cautions if text in letters]
        fresh = [text for text in dict.fromkeys(task.cautions) if text not in letters]
        letters.update({text: chr(ord("A") + (len(letters) + n) % 26) for n, text in enumerate(fresh)})
        days = task_days(task)
        yield Job(
            number=number,
            anchor=f"week-{monday.isoformat()}-{task.id.replace('.', '-')}",
            task=task,
            state=_state(task),
            days=days,
            when=_when(task, days, system),
            stamp=stamp_of(days[0]),
            phase_letter=PHASE_LETTER[task.phase],
            phase_name=PHASE_NAME[task.phase],
            quantities=quantities(task, system),
            cautions=tuple(Caution(letters[text], text) for text in fresh),
            cautions_above=" and ".join(sorted(again)),
            window=_window(task, system),
            hours=hours_text(task.person_hours),
            fallback_day=near_text(task.fallback_day, system) if task.fallback_day else None,
            closed_note=_closed_note(task, system),
            continued=days[0] < monday,
            map=maps[task.id].key if task.id in maps else "",
        )


def _when(task: Task, days: Sequence[date], system: System) -> str:
    """First to last day, with the number of working days where not all between are worked."""
    text = span_text(days[0], days[-1], system)
    if task.closed is None and 1 < task.duration_days < len(days):
        return f"{text} ({task.duration_days} working days)"
    return text


def _state(task: Task) -> State:
    if task.closed == "done":
        return "done"
    if task.closed == "skipped":
        return "skipped"
    if task.held:
        return "held"
    return "overdue" if task.overdue else "open"


def _closed_note(task: Task, system: System) -> str:
    """What became of a closed task, with the amounts that were really used."""
    if task.closed == "skipped":
        return "Skipped."
    if task.closed != "done":
        return ""
    start, end = (task.actual.start, task.actual.end) if task.actual else (task.start, task.end)
    used = ", ".join(
        bought_text(a.value, a.unit, a.value_us, a.unit_us, system)
        for a in (task.actual.amounts if task.actual else ())
    )
    share = f", {task.actual.share:.0%} of it" if task.actual and task.actual.share < 1 else ""
    return f"Done {span_text(start, end, system)}{share}{': ' + used if used else ''}."


def _window(task: Task, system: System) -> str:
    """The days that would also do, where there is more than one."""
    if task.window.start == task.window.end or task.closed:
        return ""
    return f"Any day from {span_text(task.window.start, task.window.end, system, weekday=False)} would do."


def _summary(jobs: Sequence[Job], water: Sequence[WaterRow]) -> str:
    """The week in one line: how many jobs, how much labour, how much watering."""
    parts = []
    if jobs:
        hours = hours_text(sum(job.task.person_hours for job in jobs if job.state not in ("done", "skipped")))
        count = f"{len(jobs)} job" + ("" if len(jobs) == 1 else "s")
        parts.append(f"{count}, about {hours}" if hours else count)
    runs = sum(sum(row.on) for row in water)
    if runs:
        minutes = sum(row.minutes * sum(row.on) for row in water)
        parts.append(f"{runs} watering{'' if runs == 1 else 's'}, {format_number(minutes)} minutes in all")
    return "; ".join(parts) if parts else "No work this week"


def _account(plan: Plan, monday: date) -> Iterator[str]:
    """What the accounts of water and nitrogen hold for the week, in the usual weather or in that which is known."""
    system, following = plan.lawn.units, monday + timedelta(days=DAYS_IN_WEEK)
    for ledger in plan.ledgers:
        entries = next((w.entries for w in ledger.weeks if monday <= w.start < following), {})
        if ledger.item == "water" and entries:
            came = (f"{name} {read_as(entries[name], 'rain', system).text}" for name in ("rain", "watering"))
            yield f"water account: {', '.join(came)}, use {read_as(-entries['evapotranspiration'], 'rain', system).text}"
        elif entries.get("feed"):
            yield f"nitrogen {read_as(entries['feed'], 'rate', system).text}"


def _ahead(by_week: ByWeek, monday: date, system: System) -> tuple[str, tuple[Ahead, ...]]:
    """Next week's work, or else the next work there is."""
    later = sorted(m for m, tasks in by_week.items() if m > monday and any(t.closed is None for t in tasks))
    if not later:
        return "After this week", ()
    days = [(day, task) for task, days in by_week[later[0]].items() if task.closed is None for day in days]
    lines = _ahead_lines(days, system)
    following = monday + timedelta(days=DAYS_IN_WEEK)
    if later[0] == following:
        last = following + timedelta(days=DAYS_IN_WEEK - 1)
        return f"Next week, {span_text(following, last, system, weekday=False)}", lines
    return "Next week is free. Then comes", lines


def _ahead_lines(days: Sequence[tuple[date, Task]], system: System) -> tuple[Ahead, ...]:
    """One line for each job, and one for all watering."""
    first_days: dict[str, tuple[date, Task]] = {}
    for day, task in days:
        if task.series is None:
            first_days.setdefault(task.id, (day, task))
    lines = [(day, Ahead(near_text(day, system), task.title)) for day, task in first_days.values()]
    runs = sorted(day for day, task in days if task.series is not None)
    if runs:
        count = f"{len(runs)} watering{'' if len(runs) == 1 else 's'}"
        many = runs[0] != runs[-1]
        until = f", the last {near_text(runs[-1], system)}" if many else ""
        lines.append((runs[0], Ahead(near_text(runs[0], system), f"{'First of ' if many else ''}{count}{until}")))
    return tuple(line for _, line in sorted(lines, key=lambda pair: pair[0]))


def _week_text(
    jobs: Sequence[Job], water: Sequence[WaterRow], cautions: Sequence[str], ahead: Sequence[Ahead]
) -> WeekText:
    """How long everything on the page is."""
    return WeekText(
        jobs=tuple(
            JobText(
                title=len(job.task.title) + 6,
                facts=len(f"{job.phase_name}{job.when}{job.hours}") + FILL_IN_LENGTH,
                rule=len(" ".join(text for text in (job.task.go, job.task.fallback, job.fallback_day) if text)) + 38,
                steps=lengths((*job.task.how, *([MAP_WORDS] if job.map else []))),
                quantities=sum(len(f"{q.item} {q.planned}") + (USED_LENGTH if q.used else 3) for q in job.quantities),
                cautions=lengths(caution.text for caution in job.cautions),
                again=bool(job.cautions_above),
                why=len(job.task.why + job.window) + 9,
                closed=bool(job.closed_note),
            )
            for job in jobs
        ),
        water_labels=lengths(f"{row.label} at {row.clock} {row.minutes_words}" for row in water),
        water_rule=max((len(row.task.go or "") + 18 for row in water), default=0),
        water_cautions=lengths(cautions),
        ahead=lengths(f"{line.when} {line.title}" for line in ahead),
    )
