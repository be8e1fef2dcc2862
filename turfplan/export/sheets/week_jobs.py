"""One job as a week's page shows it: from its tick to what is written down when it is done."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from turfplan.export.sheets.go_signs import Rules, Wait, rules_of, told_by, wait_of
from turfplan.export.sheets.ground_sheets import PassSheet
from turfplan.export.sheets.job_figures import JobFigures, job_figures
from turfplan.export.sheets.look import beside, task_days
from turfplan.export.sheets.slips import slip_text
from turfplan.export.sheets.task_amounts import PrintedAmount, labour_text, quantities
from turfplan.message import Days, Number, Sold, listed
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

State = Literal["open", "done", "skipped", "held", "overdue"]


@dataclass(frozen=True, slots=True)
class Job:
    """One task as a week's page shows it.

    `continued` where it began in an earlier week; `pointed` then, where that week stands in the
    same print and holds its tick and its steps. `rules` are what it asks before it begins,
    `done_when`, `wrong` and `looks` what the book says of its operation.
    """

    number: int
    task: Task
    state: State
    days: tuple[date, ...]
    when: str
    quantities: tuple[PrintedAmount, ...]
    figures: JobFigures
    rules: Rules
    wait: Wait
    done_when: str
    wrong: str
    looks: tuple[str, ...]
    slip: str
    hours: str
    fallback_day: str | None
    closed_note: str
    anchor: str = ""
    continued: bool = False
    pointed: bool = False
    map: str = ""

    @property
    def is_open(self) -> bool:
        """Whether there is something of it to tick."""
        return not self.closed_note and not self.pointed


def week_jobs(
    plan: Plan,
    monday: date,
    tasks: Sequence[Task],
    words: Words,
    maps: Mapping[str, PassSheet],
    *,
    alone: bool,
) -> tuple[Job, ...]:
    """The numbered jobs of a week; printed `alone`, it holds those whole that began before it."""
    jobs = []
    for number, task in enumerate(tasks, start=1):
        job = job_of(plan, number, task, words)
        continued = job.days[0] < monday
        jobs.append(
            replace(
                job,
                anchor=f"week-{monday.isoformat()}-{task.id.replace('.', '-')}",
                continued=continued,
                pointed=continued and not alone and task.closed is None and task.actual is None,
                map=maps[task.id].key if task.id in maps else "",
            )
        )
    return tuple(jobs)


def job_of(plan: Plan, number: int, task: Task, words: Words) -> Job:
    """What is told of a task in whatever week it stands."""
    days = task_days(task)
    return Job(
        number=number,
        task=task,
        state=_state(task),
        days=days,
        when=_when(task, days, words),
        quantities=quantities(task, words),
        figures=job_figures(task, words),
        rules=rules_of(plan, task, words),
        wait=wait_of(plan, task, words),
        done_when=told_by(plan.on_sheets, f"operations.{task.operation}.done_when"),
        wrong=told_by(plan.on_sheets, f"operations.{task.operation}.wrong"),
        looks=_looks(plan, task),
        slip=slip_text(plan, task, words),
        hours=labour_text(task.person_hours, plan.lawn.people, words),
        fallback_day=beside(task.start, task.fallback_day, words),
        closed_note=_closed_note(task, words),
    )


def _looks(plan: Plan, task: Task) -> tuple[str, ...]:
    """How the lawn should look in the days after a job, in order."""
    found: list[str] = []
    key = f"operations.{task.operation}.looks"
    while told := told_by(plan.on_sheets, f"{key}.{len(found) + 1}"):
        found.append(told)
    return tuple(found)


def _when(task: Task, days: Sequence[date], words: Words) -> str:
    """First to last day, with the number of working days where not all between are worked."""
    span = Days(days[0], days[-1], year=days[0].year != days[-1].year)
    of_span = (days[-1] - days[0]).days + 1
    if task.closed is None and 1 < task.duration_days < of_span:
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
