"""A finished plan with its brief and book, laid out for those who judge it."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.calendar_days import WEEKDAYS
from turfplan.records.book_names import FactName
from turfplan.records.brief import Brief, GrassShare
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task

# Kilograms are written to three decimals.
ROUNDED_G = 1.0


@dataclass(frozen=True, slots=True)
class NitrogenGiven:
    """Nitrogen on one day, g/m2.

    `task` gives it, None for what was given before the plan; `ahead` where it is still to do.
    `share` is the part of the lawn that gets it; of a lawn made anew, of what is fed there.
    """

    on: date
    rate_g_m2: float
    task: Task | None = None
    ahead: bool = False
    share: float = 1.0

    @property
    def mean_g_m2(self) -> float:
        """What it comes to over the whole lawn."""
        return self.rate_g_m2 * self.share


@dataclass(frozen=True, slots=True)
class Case:
    """What is judged. `open` are the tasks still to be done; `kept` are those and what is closed,
    less what is cancelled. `nitrogen` is the one account of it, by day: the brief's history,
    what the journal closed as done, and what is planned.

    History explains a plan but is not judged: of closed, overdue, past and cancelled tasks no fault
    is found.
    """

    plan: Plan
    brief: Brief
    book: Book
    open: tuple[Task, ...]
    kept: tuple[Task, ...]
    by_id: Mapping[str, Task]
    open_by_role: Mapping[str, Sequence[Task]]
    kept_by_role: Mapping[str, Sequence[Task]]
    open_by_operation: Mapping[str, Sequence[Task]]
    kept_by_operation: Mapping[str, Sequence[Task]]
    nitrogen: Sequence[NitrogenGiven]

    def to_do(self, *roles: Role) -> list[Task]:
        """The open tasks that play one of these roles; one that plays two of them stands twice."""
        return [task for role in roles for task in self.open_by_role.get(role, ())]

    def all(self, *roles: Role) -> list[Task]:
        """The open and the closed tasks that play one of these roles."""
        return [task for role in roles for task in self.kept_by_role.get(role, ())]

    def jobs(self, *operations: str) -> list[Task]:
        """The open tasks of these operations of the book."""
        return [task for name in operations for task in self.open_by_operation.get(name, ())]

    def all_jobs(self, *operations: str) -> list[Task]:
        """The open and the closed tasks of these operations of the book."""
        return [task for name in operations for task in self.kept_by_operation.get(name, ())]

    def days(self, name: FactName) -> int:
        """A fact of the book in whole days."""
        return round(self.book.si(name))


def case_of(plan: Plan, brief: Brief, book: Book) -> Case:
    """The plan with its tasks sorted by what they are.

    Where the brief names no grass, it is read with the grasses that the plan says it is held to.
    """
    brief = _with_named_grass(brief, plan, book)
    kept = tuple(task for task in plan.tasks if task.status != "CANCELLED")
    still = tuple(
        task
        for task in kept
        if task.closed is None and not task.overdue and task.status != "COMPLETED"
    )
    by_role, by_operation = _sorted(still)
    all_by_role, all_by_operation = (
        (by_role, by_operation) if len(still) == len(kept) else _sorted(kept)
    )
    return Case(
        plan,
        brief,
        book,
        still,
        kept,
        {task.id: task for task in plan.tasks},
        by_role,
        all_by_role,
        by_operation,
        all_by_operation,
        _account(plan, brief, all_by_role.get("feeding", ()), still),
    )


def _with_named_grass(brief: Brief, plan: Plan, book: Book) -> Brief:
    if all(grass.species in book.species for grass in brief.lawn.grass):
        return brief
    held_to = tuple(GrassShare(species=g.species, share=g.share) for g in plan.lawn.grass)
    return brief.model_copy(update={"lawn": brief.lawn.model_copy(update={"grass": held_to})})


def _sorted(tasks: Sequence[Task]) -> tuple[Mapping[str, list[Task]], Mapping[str, list[Task]]]:
    """Tasks by role, and by operation."""
    by_role: dict[str, list[Task]] = defaultdict(list)
    by_operation: dict[str, list[Task]] = defaultdict(list)
    for task in tasks:
        by_operation[task.operation].append(task)
        for role in task.roles:
            by_role[role].append(task)
    return by_role, by_operation


def _account(
    plan: Plan, brief: Brief, feedings: Sequence[Task], still: Sequence[Task]
) -> Sequence[NitrogenGiven]:
    found = [NitrogenGiven(use.on, use.rate_g_m2) for use in brief.history.nitrogen]
    ahead = {task.id for task in still}
    grown_m2 = _grown_m2(plan, brief, feedings)
    for task in feedings:
        for amount in task.amounts:
            if (
                amount.item == "nitrogen"
                and amount.unit == "g/m2"
                and task.closed not in ("skipped", "dropped")
            ):
                share = _fed_share(task, amount.value * grown_m2)
                found.append(NitrogenGiven(task.start, amount.value, task, task.id in ahead, share))
    return sorted(found, key=lambda given: given.on)


def _grown_m2(plan: Plan, brief: Brief, feedings: Sequence[Task]) -> float:
    """The ground on which grass grows once the work is done, m2: the lawn, but of ground without
    grass no more than any feeding is for."""
    if brief.lawn.condition != "bare" and brief.seeding.intent != "renovate":
        return plan.lawn.area_m2
    fed_m2 = [
        1000 * values["nitrogen_total"] / values["nitrogen"]
        for task in feedings
        if (values := {amount.item: amount.value for amount in task.amounts}).get("nitrogen")
        and "nitrogen_total" in values
    ]
    return max(fed_m2, default=plan.lawn.area_m2)


def _fed_share(task: Task, whole_g: float) -> float:
    """The part of the lawn that a feeding is for, by what it takes in all; what differs from the
    whole by less than its rounding is the whole."""
    total_g = [1000 * a.value for a in task.amounts if a.item == "nitrogen_total"]
    if not total_g or total_g[0] > whole_g - ROUNDED_G:
        return 1.0
    return total_g[0] / whole_g


def last_day_of(task: Task) -> date:
    """The last day on which a task was worked on, where it is known, else its last day in the
    plan."""
    return task.actual.end if task.closed == "done" and task.actual else task.end


def series_days(task: Task) -> list[date]:
    """The days on which a repeated task is done."""
    series = task.series
    if series is None:
        return []
    days = [series.start + timedelta(days=k) for k in range((series.end - series.start).days + 1)]
    return [
        day
        for day in days
        if (not series.weekdays or WEEKDAYS[day.weekday()] in series.weekdays)
        and day not in series.skip
    ]


def in_yearly_span(day: date, start: tuple[int, int], end: tuple[int, int]) -> bool:
    """True where a day lies in a yearly stretch from month and day to month and day, which may run
    over New Year."""
    point = (day.month, day.day)
    return start <= point <= end if start <= end else point >= start or point <= end
