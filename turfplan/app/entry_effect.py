"""Says what an entry of the journal changes in a plan, and whether a wish can be planned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import islice
from pathlib import Path
from typing import Literal

from turfplan.app.inputs import PlanInputs, read_input
from turfplan.app.plan_lawn import known_place, now_of, planned
from turfplan.audit import Fault, audit_plan
from turfplan.audit.words import as_message
from turfplan.errors import Problem, TurfplanError
from turfplan.message import Day, Listed, Message, as_written
from turfplan.messages import Words
from turfplan.messages.problems import error_text
from turfplan.phrases import journal as phrases
from turfplan.planning import SoFar
from turfplan.planning.candidates import Candidate
from turfplan.planning.season_plan import dated_season
from turfplan.planning.wishes import broken_rules, days_that_work, is_dated
from turfplan.publishing import UnsoundPlanError
from turfplan.records.constraints import Strength
from turfplan.records.journal import WISHES, JournalEntry, standing
from turfplan.records.numbering import rules_id
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Series, Task

# So many days that work are told of a wish that does not, of so many that are tried.
TOLD_DAYS, TRIED_DAYS = 3, 9


MoveKind = Literal["moved", "dropped", "added", "watered"]


@dataclass(frozen=True, slots=True)
class MovedTask:
    """A task that an entry gives other days, drops from the plan, or adds to it; or all waterings
    together, with the days of those that are others than before (`watered`, with no task)."""

    task: str
    title: str
    kind: MoveKind
    start: date
    end: date


Effect = tuple[MovedTask, ...]
"""What an entry changes besides the task that it is about: jobs, and last the waterings; of a wish
jobs alone."""


@dataclass(frozen=True, slots=True)
class _Wish:
    """A wish against what is known: the entry, those before it, the plan, and today."""

    given: PlanInputs
    plan: Plan
    before: tuple[JournalEntry, ...]
    entry: JournalEntry
    today: date

    @property
    def task(self) -> str:
        """The task that is wished for another day."""
        assert self.entry.task is not None  # a wish has its task
        return self.entry.task

    @property
    def of_task(self) -> tuple[JournalEntry, ...]:
        """What stands of the task."""
        return tuple(e for e in standing(self.before) if e.task == self.task)

    @property
    def day(self) -> date:
        """The day that is wished for."""
        assert self.entry.to is not None  # a wish has its day
        return self.entry.to


def effect_of(
    brief: Path,
    plan: Plan,
    before: Sequence[JournalEntry],
    entry: JournalEntry,
    today: date,
    words: Words,
) -> tuple[Effect | None, tuple[Message, ...]]:
    """What an entry changes beside what the entries before it do; else why that is not known.

    The entry is written by then, and what stands in the way is told again by planning.
    """
    try:
        given = read_input(brief)
        old = planned(given, before, plan, today=today)
        new = planned(given, (*before, entry), plan, today=today)
    except (TurfplanError, UnsoundPlanError) as error:
        text = error_text(error, words) if isinstance(error, TurfplanError) else str(error)
        return None, (phrases.effect_unknown(reasons=as_written(text)),)
    if new.conflict is not None or old.conflict is not None:
        conflict = new.conflict or old.conflict
        assert conflict is not None  # one of both has it
        why = as_written(" ".join(str(reason) for reason in conflict.reasons))
        return None, (phrases.effect_unknown(reasons=why),)
    return (*_changes(old, new, entry.task), *_waterings(old, new, entry.task, today)), ()


def wish_effect(
    brief: Path, plan: Plan, before: Sequence[JournalEntry], entry: JournalEntry, today: date
) -> Effect:
    """What a wish drags along.

    Raises TurfplanError for one that breaks a rule of the work or its season, or that cannot be
    planned, with the reasons and the nearest days that work.
    """
    given = read_input(brief)
    wish = _Wish(given, plan, tuple(before), entry, today)
    _check(wish)
    reasons = tuple(_against(wish))
    made = None if reasons else _planned(wish)
    if made is None or isinstance(made, tuple):
        raise TurfplanError(_refusal(wish, made or reasons))
    return _changes(planned(given, before, plan, today=today), made, entry.task)


def _check(wish: _Wish) -> None:
    """Raises TurfplanError for a task that cannot be wished for another day, and for a day that is
    over."""
    task = wish.plan.task(wish.task)
    assert task is not None  # it was looked for when the entry was made
    if task.series is not None:
        raise TurfplanError(Problem("TASK", phrases.not_movable(), wish.task))
    ended = {"done", "delivered", "skipped"}
    over = [e for e in wish.of_task if e.kind in ended]
    if task.closed is not None or any(e.kind == "skipped" or e.share >= 1 for e in over):
        raise TurfplanError(Problem("TASK", phrases.closed(), wish.task))
    moved = [e for e in wish.of_task if e.kind == "moved"]
    if wish.entry.kind == "booked" and moved:
        held = phrases.held_by(number=moved[-1].number)
        raise TurfplanError(Problem("TASK", held, wish.task, None, phrases.undo_first()))
    if wish.day < wish.today:
        raise TurfplanError(Problem("--to", phrases.day_is_over(), str(wish.day)))


def _against(wish: _Wish) -> tuple[Message, ...]:
    """The rules of the work and its season that a wish breaks.

    Raises TurfplanError for a task that has no day of its own.
    """
    season, history, name = _season(wish)
    if season is None:
        return ()  # planning says why there is none
    if not is_dated(season, name):
        raise TurfplanError(Problem("TASK", phrases.not_movable(), wish.task))
    return broken_rules(season, history, name, wish.day)


def _season(wish: _Wish) -> tuple[Candidate | None, TaskHistory, str]:
    """The season without the wish, and the task by its rules' name."""
    # What was wished for the task before is no more what binds it.
    others = (e for e in wish.before if e.task != wish.task or e.kind not in WISHES)
    given, retired = wish.given, {task.id for task in wish.plan.retired}
    season, history = dated_season(
        given.brief,
        given.book,
        known_place(given),
        SoFar(tuple(others), wish.plan),
        now=now_of(wish.today, given.climate.timezone),
    )
    return season, history, rules_id(wish.task, retired) or wish.task


def _planned(wish: _Wish) -> Plan | tuple[Message, ...]:
    """The plan with a wish, or why there is none that has it."""
    try:
        made = planned(wish.given, (*wish.before, wish.entry), wish.plan, today=wish.today)
    except UnsoundPlanError as error:
        return tuple(map(as_message, error.faults))
    if made.conflict is not None:
        return tuple(as_written(str(reason)) for reason in made.conflict.reasons)
    task = made.task(wish.task)
    if task is None or task.start != wish.day or not (task.held or task.booked):
        season, history, name = _season(wish)
        advised = season and broken_rules(season, history, name, wish.day, Strength.ADVICE)
        return advised or (phrases.elsewhere(),)
    faults = _new_faults(wish, made)
    return tuple(map(as_message, faults)) if faults else made


def _new_faults(wish: _Wish, made: Plan) -> tuple[Fault, ...]:
    """What the judge of plans finds in one with a wish that it does not find without, as if nobody
    had asked for it: a day that was chosen by hand is not judged otherwise."""
    given, known = wish.given, {_name(fault) for fault in _faults(wish, wish.plan)}
    tasks = tuple(
        task.model_copy(update={"held": False, "booked": True}) if task.id == wish.task else task
        for task in made.tasks
    )
    unasked = made.model_copy(update={"tasks": tasks})
    return tuple(
        fault
        for fault in audit_plan(unasked, given.brief, given.book)
        if _name(fault) not in known and wish.task in fault.tasks
    )


def _faults(wish: _Wish, plan: Plan) -> tuple[Fault, ...]:
    return audit_plan(plan, wish.given.brief, wish.given.book)


def _name(fault: Fault) -> tuple[str, tuple[str, ...]]:
    """By which a fault is known again in another plan, on other days."""
    return fault.kind, fault.tasks


def _refusal(wish: _Wish, reasons: Sequence[Message]) -> Problem:
    """Why a wish is not written, with the nearest days that work."""
    days = tuple(_working_days(wish))
    hint = phrases.no_day_works()
    if days:
        hint = phrases.days_that_work(days=Listed(tuple(map(Day, sorted(days))), "or"))
    told = phrases.breaks(reasons=Listed(tuple(reasons), "sentences"))
    return Problem("--to", told, str(wish.day), None, hint)


def _working_days(wish: _Wish) -> Iterator[date]:
    """The nearest days on which the wish can be planned."""
    season, history, name = _season(wish)
    if season is None or not is_dated(season, name):
        return
    found = days_that_work(season, history, name, wish.day)
    tried = (day for day in islice(found, TRIED_DAYS) if _works(wish, day))
    yield from islice(tried, TOLD_DAYS)


def _works(wish: _Wish, day: date) -> bool:
    other = replace(wish, entry=wish.entry.model_copy(update={"to": day}))
    return isinstance(_planned(other), Plan)


def _changes(old: Plan, new: Plan, about: str | None) -> Effect:
    """What differs between two plans in the days of jobs, but for one task."""
    before, after = _open_jobs(old, about), _open_jobs(new, about)
    done = {task.id for task in new.tasks if task.closed in ("done", "skipped")}
    added = [_moved(task, "added") for name, task in after.items() if name not in before]
    moved = [
        _moved(task, "moved")
        for name, task in after.items()
        if name in before and (before[name].start, before[name].end) != (task.start, task.end)
    ]
    gone = [
        _moved(task, "dropped")
        for name, task in before.items()
        if name not in after and name not in done
    ]
    return tuple(sorted((*added, *moved, *gone), key=lambda move: (move.start, move.task)))


def _waterings(old: Plan, new: Plan, about: str | None, today: date) -> Iterator[MovedTask]:
    """The waterings from today on that are others than before, together."""
    before, after = _open_runs(old, about, today), _open_runs(new, about, today)
    names = {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}
    runs = [plan[name] for plan in (before, after) for name in names if name in plan]
    if runs:
        days = max(today, min(run.start for run in runs)), max(run.end for run in runs)
        yield MovedTask("", "", "watered", *days)


def _open_runs(plan: Plan, about: str | None, today: date) -> dict[str, Series]:
    """When each watering of a plan that is still to come runs, by id."""
    return {
        task.id: task.series
        for task in plan.tasks
        if task.series is not None and task.is_open and task.id != about and task.end >= today
    }


def _moved(task: Task, kind: MoveKind) -> MovedTask:
    return MovedTask(task.id, str(task.title), kind, task.start, task.end)


def _open_jobs(plan: Plan, about: str | None) -> dict[str, Task]:
    """The jobs of a plan that are still to be done, by id."""
    return {
        task.id: task
        for task in plan.tasks
        if task.series is None and task.is_open and task.id != about
    }
