"""Judges a day that somebody wishes for a task by the rules of the work and its season."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Days, Message
from turfplan.network import conflict, feasible
from turfplan.phrases import history as phrases
from turfplan.planning.candidates import Candidate
from turfplan.planning.days_left import fixed_nodes
from turfplan.planning.reasons import conflict_reasons
from turfplan.planning.task_names import plain_titles
from turfplan.records.constraints import (
    Allowed,
    Constraint,
    DaySet,
    NetworkProblem,
    Reason,
    Strength,
)
from turfplan.records.past import TaskHistory
from turfplan.work.day_limits import day_constraints
from turfplan.work.days_off import QUIET_DAYS, WORK_DAYS, with_days

WISH = "wish"
# The rules of which days are days of work, and how many of them a job takes.
OF_CALENDAR = (WORK_DAYS, QUIET_DAYS, "work.length")


@dataclass(frozen=True, slots=True)
class _Judged:
    """A season as a wish is held against it: what binds it, and what is past."""

    problem: NetworkProblem
    fixed: dict[str, int]
    bound: tuple[Constraint, ...]


def is_dated(season: Candidate, task: str) -> bool:
    """Whether a season has a day for a task that somebody could wish otherwise."""
    return any(draft.id == task for draft in season.dated.season.drafts)


def broken_rules(
    season: Candidate,
    history: TaskHistory,
    task: str,
    day: date,
    least: Strength = Strength.STRONG,
) -> tuple[Message, ...]:
    """The rules, and the season of the work, that a task would break on a day; nothing where the
    rest can follow.

    What is of less strength than `least` may be overruled: advice and preferences, and the weekdays
    of work. The season is planned without the wish.
    """
    judged = _judged(season, history, task, least, _opened(season, task, day.toordinal()))
    first, last = judged.problem.first_day, judged.problem.last_day
    if not first <= day.toordinal() <= last:
        return (phrases.outside_plan(days=Days(date.fromordinal(first), date.fromordinal(last))),)
    wish = _on(task, DaySet.of([(day.toordinal(), day.toordinal())]))
    found = conflict(replace(judged.problem, constraints=(*judged.bound, wish)), judged.fixed)
    if found is None:
        return ()
    against = tuple(c for c in found.constraints if c.id != WISH)
    return conflict_reasons(against, plain_titles(season.setting, season.season))


def days_that_work(season: Candidate, history: TaskHistory, task: str, day: date) -> Iterator[date]:
    """The days on which a task breaks nothing, nearest to a day first, within half a year."""
    judged, wished = _judged(season, history, task), day.toordinal()
    open_days = DaySet.of([(wished - HALF_A_YEAR, wished + HALF_A_YEAR)])
    for constraint in judged.bound:
        if isinstance(constraint, Allowed) and constraint.node == task:
            open_days = open_days.intersect(constraint.days)
    for other in sorted(open_days.days(), key=lambda one: (abs(one - wished), one)):
        wish = _on(task, DaySet.of([(other, other)]))
        if other != wished and feasible(judged.problem, judged.fixed, (*judged.bound, wish)):
            yield date.fromordinal(other)


def _judged(
    season: Candidate,
    history: TaskHistory,
    task: str,
    least: Strength = Strength.STRONG,
    opened: Mapping[str, Constraint] = MappingProxyType({}),
) -> _Judged:
    """What binds a season with a strength of `least` or more, less what had to be given up in it
    already; `opened` stand in for constraints of their ids."""
    dated = season.dated
    gone = {constraint.id for constraint in dated.dropped}
    bound = tuple(
        opened.get(c.id, c)
        for c in dated.problem.constraints
        if c.strength >= least and c.id not in gone
    )
    fixed = {
        node: on
        for node, on in fixed_nodes(dated.season, history).items()
        if node not in _nodes_of(season, task)
    }
    return _Judged(replace(dated.problem, constraints=bound), fixed, bound)


def _opened(season: Candidate, task: str, day: int) -> dict[str, Constraint]:
    """The days of everybody's work, by id, where a task may begin on a day off: it goes on until it
    is done, and what goes with it may be done then too."""
    draft = next(draft for draft in season.dated.season.drafts if draft.id == task)
    if day in season.setting.calendar.work:
        return {}
    span = DaySet.of([(day, day + draft.duration_days - 1)])
    setting = replace(season.setting, calendar=with_days(season.setting, span))
    return {
        c.id: c
        for c in day_constraints(setting, season.campaign, season.dated.season.drafts)
        if c.reason.rule in OF_CALENDAR
    }


def _nodes_of(season: Candidate, task: str) -> set[str]:
    return {
        node
        for draft in season.dated.season.drafts
        if draft.id == task
        for node in (draft.start_node, draft.end_node)
    }


def _on(task: str, days: DaySet) -> Allowed:
    """The wish as the network reads it."""
    return Allowed(WISH, task, days, Strength.HARD, Reason(WISH, ""))
