"""What lists of many lawns say of one: its jobs that are still to be done, and its season in a
line."""

from collections.abc import Collection, Iterable, Mapping
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from pydantic import BaseModel, ConfigDict

from turfplan.business.promised_days import UNSEEN
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


class GlancedJob(BaseModel):
    """A job that is still to be done: its days, and the hours of all people that it takes.

    `last` is its last safe day: begun later, it or what follows from it falls out of its season,
    even if all that follows moves along. `alone` is the last day on which it may begin with all
    other jobs where they are. `overdue` as the plan tells it.

    `seen` is main work that clients are told of, `operation` what it is; `leads` is what seed, fill
    or plants wait for, and these themselves.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    task: str
    title: str
    start: date
    end: date
    hours: float
    last: date
    alone: date | None = None
    overdue: bool = False
    main: bool = False
    seen: bool = False
    leads: bool = False
    operation: str = ""

    def in_hours_of(self, times: Mapping[str, float]) -> "GlancedJob":
        """It in the hours that such jobs take a business: so many times those of the plan, by
        operation."""
        factor = times.get(self.task.partition(".")[0], 1.0)
        return self if factor == 1.0 else self.model_copy(update={"hours": self.hours * factor})


class GlancedQuestion(BaseModel):
    """An open question of a lawn, and the last day on which its answer comes in time."""

    model_config = ConfigDict(frozen=True, extra="ignore")
    asked: str
    by: date


class LawnGlance(BaseModel):
    """A lawn at one look: its name, its season, what is bought, and its open jobs by their days.

    `zone` is its time zone, `place` its town; `main_work` is the last day of seed or fill. Of main
    work `open_main` is what the plan still wants, `over_main` what is done. `made` is the day there
    on which it was planned.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    name: str
    zone: str
    campaign: str
    first_work: date | None
    main_work: date | None
    order: str
    revision: int
    warnings: int
    jobs: tuple[GlancedJob, ...]
    questions: tuple[GlancedQuestion, ...] = ()
    open_main: tuple[str, ...] = ()
    over_main: tuple[str, ...] = ()
    place: str = ""
    made: date | None = None

    @property
    def hours(self) -> float:
        """The hours of all jobs that are still to be done."""
        return sum(job.hours for job in self.jobs)

    def next_job(self, today: date) -> GlancedJob | None:
        """The first job that is not over."""
        return next((job for job in self.jobs if job.end >= today), None)

    def overdue(self, today: date) -> tuple[GlancedJob, ...]:
        """The jobs whose days are over, and of which nobody has said that they were done."""
        return tuple(job for job in self.jobs if job.end < today)

    def near_last(self, today: date, within: int) -> tuple[GlancedJob, ...]:
        """The main jobs that can still be begun, but within so many days for the last time."""
        until = today + timedelta(days=within)
        return tuple(job for job in self.jobs if job.main and today <= job.last <= until)

    def told_over(self, today: date) -> bool:
        """Whether the plan tells every job that is over by a day."""
        return all(job.overdue for job in self.overdue(today))


def glance_of(
    plan: Plan,
    open_jobs: Iterable[Task],
    done: Collection[str] = (),
    questions: Iterable[GlancedQuestion] = (),
) -> LawnGlance:
    """What lists say of a plan; `open_jobs` are those of its tasks of which neither plan nor
    journal say that they are over, in the order of their work, `done` those that the journal says
    were done."""
    last = _LastDays(plan)
    leading = _leading(plan)
    work = [task for task in plan.tasks if task.series is None]
    main = [task for task in work if task.plays("spreading", "sowing", "planting")]
    return LawnGlance(
        name=plan.lawn.name,
        zone=plan.timezone,
        campaign=str(plan.campaign_name),
        first_work=min((task.start for task in work), default=None),
        main_work=max((task.end for task in main), default=None),
        order="; ".join(f"{line.name} {line.text}" for line in plan.order),
        revision=plan.revision,
        warnings=len(plan.warnings),
        jobs=tuple(_job(task, last, leads=task.id in leading) for task in open_jobs),
        place=str(plan.place.name or ""),
        questions=tuple(questions),
        made=plan.now.astimezone(ZoneInfo(plan.timezone)).date(),
        open_main=tuple(t.id for t in plan.tasks if t.is_open and t.plays("headline")),
        over_main=tuple(
            t.id for t in plan.tasks if t.plays("headline") and (t.closed == "done" or t.id in done)
        ),
    )


def _leading(plan: Plan) -> frozenset[str]:
    """The tasks that seed, fill or plants wait for, and these themselves; not those that something
    else would hold to earlier days first, as a spring feeding holds the soil test."""
    tasks = {task.id: task for task in plan.tasks if task.is_open}
    main = [task.id for task in tasks.values() if task.plays("spreading", "sowing", "planting")]
    left, found = list(main), set[str]()
    while left:
        name = left.pop()
        if name in tasks and name not in found:
            found.add(name)
            left += tasks[name].depends_on
    return frozenset(
        name
        for name in found
        if name in main or (slack := tasks[name].slack) is None or found & set(slack.moves)
    )


def _job(task: Task, last: "_LastDays", *, leads: bool) -> GlancedJob:
    return GlancedJob(
        task=task.id,
        title=str(task.title),
        start=task.start,
        end=task.end,
        hours=task.person_hours,
        last=last.of(task),
        alone=task.slack.end if task.slack is not None else None,
        overdue=task.overdue,
        main=task.plays("headline"),
        seen=task.plays("headline") and not task.plays(*UNSEEN),
        operation=task.operation,
        leads=leads,
    )


class _LastDays:
    """The last safe days of the tasks of a plan: what binds a task are its own days, the end of its
    season, and the tasks that a later day would move, which may move as long as they are safe."""

    def __init__(self, plan: Plan) -> None:
        self._tasks = {task.id: task for task in plan.tasks if task.is_open}
        self._found: dict[str, date] = {}

    def of(self, task: Task) -> date:
        """The last day on which a task may begin."""
        known = self._found.get(task.id)
        if known is not None:
            return known
        window = max(task.start, task.window.end - timedelta(days=task.duration_days - 1))
        if task.slack is None:
            self._found[task.id] = window
            return window
        # Tasks that move each other move together: each is asked once.
        self._found[task.id] = window
        room = [
            self.of(moved) - moved.start
            for name in task.slack.moves
            if (moved := self._tasks.get(name)) is not None
        ]
        last = task.slack.end + min(room, default=timedelta())
        self._found[task.id] = max(task.start, min(last, window))
        return self._found[task.id]
