"""Lays out the weeks of a plan: what stands on the page of each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from turfplan.export.sheets.first_notes import first_notes
from turfplan.export.sheets.ground_sheets import PassSheet, pass_sheets
from turfplan.export.sheets.look import (
    DAYS_IN_WEEK,
    Look,
    beside,
    days_of,
    look_of,
    monday_of,
    phase_letter,
    phase_name,
    shown,
    span_text,
    task_days,
    today_of,
)
from turfplan.export.sheets.page_fit import Fit, JobText, WeekText, fit_of, lengths
from turfplan.export.sheets.slips import slip_text
from turfplan.export.sheets.task_amounts import PrintedAmount, labour, labour_text, quantities
from turfplan.export.sheets.watering_times import Runs, WaterRow, runs_of, water_row
from turfplan.export.sheets.week_outlook import Ahead, ByWeek, look_ahead
from turfplan.message import (
    Days,
    Message,
    Month,
    NamedWeekday,
    Number,
    Quantity,
    Sold,
    listed,
)
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# The blanks for the day and the hours beside a job take the room of that many characters.
FILL_IN_LENGTH, USED_LENGTH = 46, 20
State = Literal["open", "done", "skipped", "held", "overdue"]


@dataclass(frozen=True, slots=True)
class LetteredCaution:
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
    quantities: tuple[PrintedAmount, ...]
    cautions: tuple[LetteredCaution, ...]
    cautions_above: str
    slip: str
    hours: str
    fallback_day: str | None
    closed_note: str
    continued: bool
    map: str


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
    notes: tuple[tuple[str, str], ...]
    water_cautions: tuple[str, ...]
    ahead_title: str
    ahead: tuple[Ahead, ...]
    fit: Fit
    classes: str
    note_lines: int
    maps: tuple[PassSheet, ...]


def week_sheets(
    plan: Plan,
    words: Words,
    week: date | None = None,
    look: Look | None = None,
    *,
    maps: bool = True,
) -> tuple[WeekSheet, ...]:
    """The pages: of the week that holds `week`, else of every week with work from the present one
    on.

    An earlier week has its page as long as a job of it is open. Without `maps` the passes' maps are
    not drawn.
    """
    look = look or look_of(plan)
    by_week, drawn = _by_week(shown(plan.tasks)), pass_sheets(plan, words) if maps else ()
    if week is not None:
        return (_sheet(plan, words, by_week, monday_of(week), look, drawn),)
    present = monday_of(today_of(plan))
    return tuple(
        _sheet(plan, words, by_week, monday, look, drawn)
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
    look: Look,
    drawn: Sequence[PassSheet],
) -> WeekSheet:
    """One page: the jobs, the watering and the look-ahead of the week that begins on `monday`."""
    week = days_of(monday)
    here = by_week.get(monday, {})
    maps = _maps_of(drawn, here, monday)
    tasks = [task for task in here if task.series is None]
    jobs = tuple(_jobs(plan, monday, tasks, words, maps))
    water = tuple(water_row(task, week, words) for task in here if task.series is not None)
    water_cautions = tuple(dict.fromkeys(c.text for row in water for c in row.task.cautions))
    notes = first_notes(plan, words) if monday == _first_monday(plan, by_week) else ()
    above = (*water_cautions, *(f"{rank} {text}" for rank, text in notes))
    ahead_title, ahead = look_ahead(by_week, monday, words)
    fitting = fit_of(_week_text(jobs, water, above, ahead, words), look.paper, large=look.large)
    return WeekSheet(
        key=f"week-{monday.isoformat()}",
        first=monday,
        title=span_text(week[0], week[-1], words, weekday=False, year=True),
        days=tuple(stamp_of(day, words) for day in week),
        marks=tuple(_marks(jobs, day, words) for day in week),
        summary=_in_one_line(plan, monday, jobs, water, words),
        jobs=jobs,
        halves=_halves(jobs, fitting.first_column),
        water=water,
        runs=runs_of(((row.task, row.days) for row in water), words),
        notes=notes,
        water_cautions=water_cautions,
        ahead_title=ahead_title,
        ahead=ahead,
        fit=fitting.fit,
        classes=fitting.classes,
        note_lines=fitting.note_lines,
        maps=tuple(maps.values()),
    )


def _first_monday(plan: Plan, by_week: ByWeek) -> date | None:
    """The Monday of the first sheet: of the first week with work from the present one on."""
    present = monday_of(today_of(plan))
    return min((monday for monday in by_week if monday >= present), default=None)


def _maps_of(
    drawn: Sequence[PassSheet], tasks: Iterable[Task], monday: date
) -> dict[str, PassSheet]:
    """The maps of the passes that begin in a week, by task."""
    begun = {task.id for task in tasks if monday_of(task.start) == monday}
    return {sheet.task_id: sheet for sheet in drawn if sheet.task_id in begun}


def _halves(jobs: tuple[Job, ...], first: int) -> tuple[tuple[Job, ...], ...]:
    """The jobs of the first column, of which there are `first`, and those of the second."""
    return tuple(half for half in (jobs[:first], jobs[first:]) if half)


def _marks(jobs: Sequence[Job], day: date, words: Words) -> str:
    """The numbers of the jobs of a day.

    In brackets where only some days between first and last are worked.
    """
    marks = []
    for job in jobs:
        if day in job.days:
            sure = (
                job.task.duration_days >= len(job.days)
                or day in (job.days[0], job.days[-1])
                or job.closed_note
            )
            if sure or job.task.duration_days > 2:
                marks.append(str(job.number) if sure else f"({job.number})")
    return words.value(listed(marks, "comma"))


def stamp_of(day: date, words: Words) -> tuple[str, str, str]:
    """Weekday, day and month as the date stamp beside a job shows them."""
    weekday, month = NamedWeekday(day.weekday()), Month(day.month, short=True)
    return words.value(weekday), words.value(day.day), words.value(month)


def _jobs(
    plan: Plan,
    monday: date,
    tasks: Iterable[Task],
    words: Words,
    maps: Mapping[str, PassSheet],
) -> Iterator[Job]:
    """The numbered jobs of a week.

    A caution already printed on the page is referred to by its letter.
    """
    letters: dict[str, str] = {}
    for number, task in enumerate(tasks, start=1):
        texts = [caution.text for caution in task.cautions]
        again = [letters[text] for text in texts if text in letters]
        fresh = [text for text in dict.fromkeys(texts) if text not in letters]
        letters.update(
            {text: chr(ord("A") + (len(letters) + n) % 26) for n, text in enumerate(fresh)}
        )
        days = task_days(task)
        yield Job(
            number=number,
            anchor=f"week-{monday.isoformat()}-{task.id.replace('.', '-')}",
            task=task,
            state=_state(task),
            days=days,
            when=_when(task, days, words),
            stamp=stamp_of(days[0], words),
            phase_letter=phase_letter(task.phase, words),
            phase_name=phase_name(task.phase, words),
            quantities=quantities(task, words),
            cautions=tuple(LetteredCaution(letters[text], text) for text in fresh),
            cautions_above=words.value(listed(sorted(again), "every_and")),
            slip=slip_text(plan, task, words),
            hours=labour_text(task.person_hours, plan.lawn.people, words),
            fallback_day=beside(task.start, task.fallback_day, words),
            closed_note=_closed_note(task, words),
            continued=days[0] < monday,
            map=maps[task.id].key if task.id in maps else "",
        )


def _when(task: Task, days: Sequence[date], words: Words) -> str:
    """First to last day, with the number of working days where not all between are worked."""
    span = Days(days[0], days[-1], year=days[0].year != days[-1].year)
    if task.closed is None and 1 < task.duration_days < len(days):
        return words.text(phrases.working_days(days=span, n=task.duration_days))
    return words.value(span)


def _state(task: Task) -> State:
    if task.closed == "done":
        return "done"
    if task.closed == "skipped":
        return "skipped"
    if task.held:
        return "held"
    return "overdue" if task.overdue else "open"


def _closed_note(task: Task, words: Words) -> str:
    """What became of a closed task, with the amounts that were really used."""
    if task.closed == "skipped":
        return words.text(phrases.skipped())
    if task.closed != "done":
        return ""
    done = task.actual
    if done is None:
        return words.text(phrases.done(days=Days(task.start, task.end, year=False)))
    days = Days(done.start, done.end, year=False)
    used = listed((Sold(a.value, a.unit, a.value_us, a.unit_us) for a in done.amounts), "comma")
    if done.share < 1:
        share = Number(done.share, "percent")
        return words.text(
            phrases.done_share_used(days=days, share=share, used=used)
            if done.amounts
            else phrases.done_share(days=days, share=share)
        )
    return words.text(
        phrases.done_used(days=days, used=used) if done.amounts else phrases.done(days=days)
    )


def _in_one_line(
    plan: Plan, monday: date, jobs: Sequence[Job], water: Sequence[WaterRow], words: Words
) -> str:
    """What the week holds, in one line."""
    told = (*_summary(jobs, water, plan.lawn.people), *_feeding(plan, monday))
    return words.value(listed(told, "semicolon"))


def _summary(
    jobs: Sequence[Job], water: Sequence[WaterRow], people: int | None
) -> Iterator[Message]:
    """The week in one line: how many jobs, how much labour, how much watering."""
    if jobs:
        hours = labour(
            sum(job.task.person_hours for job in jobs if job.state not in ("done", "skipped")),
            people,
        )
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


def _week_text(
    jobs: Sequence[Job],
    water: Sequence[WaterRow],
    cautions: Sequence[str],
    ahead: Sequence[Ahead],
    words: Words,
) -> WeekText:
    """How long everything on the page is."""
    return WeekText(
        jobs=tuple(_job_text(job, words) for job in jobs),
        water_labels=lengths(f"{row.label} {row.at} " for row in water),
        water_rule=max((len(_text(row.task.go)) + 18 for row in water), default=0),
        water_cautions=lengths(cautions),
        ahead=lengths(f"{line.when} {line.title}" for line in ahead),
    )


def _job_text(job: Job, words: Words) -> JobText:
    """How long everything about one job is."""
    task = job.task
    rule = (_text(task.go), _text(task.fallback), job.fallback_day, job.slip)
    steps = [step.text for step in task.how]
    if job.map:
        steps.append(words.text(phrases.see_map(link=words.text(phrases.map_link()))))
    return JobText(
        title=len(task.title.text) + 6,
        facts=len(f"{job.phase_name}{job.when}{job.hours}") + FILL_IN_LENGTH,
        rule=len(" ".join(text for text in rule if text)) + 38,
        steps=lengths(steps),
        quantities=sum(
            len(f"{q.item} {q.planned}") + (USED_LENGTH if q.used else 3) for q in job.quantities
        ),
        cautions=lengths(caution.text for caution in job.cautions),
        again=bool(job.cautions_above),
        why=len(task.why.text) + 9 if task.why else 0,
        closed=bool(job.closed_note),
    )


def _text(message: Message | None) -> str:
    return message.text if message is not None else ""
