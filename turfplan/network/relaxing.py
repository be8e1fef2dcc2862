"""Says by how little each constraint of a conflict would have to give way."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from turfplan.constraints import Allowed, Constraint, Days, DaySet, Lag, Problem, Step
from turfplan.network.conflicts import Conflict, feasible, find_conflict
from turfplan.network.net import check_names

Part = Literal["earlier", "later", "minimum", "maximum", "drop"]
Constraints = tuple[Constraint, ...]


@dataclass(frozen=True, slots=True)
class Relaxation:
    """One constraint changed so that the conflict is gone.

    `part` is what gives: allowed days reach `earlier` or `later` (before or after each of their ranges), the lag's
    `minimum` or `maximum`, or the whole constraint (`drop`; then `days` and `relaxed` are None). `days` is the smallest
    number that is enough. `remaining` is a conflict that stays even without the constraint; where there is one, `days`
    is enough for the conflict in question only, else the whole problem was verified to have a solution.
    """

    constraint: Constraint
    part: Part
    days: int | None
    relaxed: Constraint | None
    remaining: Conflict | None


@dataclass(frozen=True, slots=True)
class _Way:
    """One part of a constraint that may give: without any limit, and by a number of days."""

    part: Part
    unlimited: Constraint
    by: Callable[[int], Constraint]


def options(problem: Problem, fixed: Mapping[str, int] | None, conflict: Conflict) -> tuple[Relaxation, ...]:
    """The ways to end a conflict by changing one of its constraints, in their order, each verified by propagation.

    `fixed` and errors as in `bounds`.
    """
    done = fixed or {}
    check_names(problem, done)
    return tuple(option for given in conflict.constraints for option in _options(problem, done, conflict, given))


def _options(problem: Problem, fixed: Mapping[str, int], conflict: Conflict, given: Constraint) -> Iterator[Relaxation]:
    """The options of one constraint: the smallest change of each part that can help, then dropping it."""
    partners = tuple(c for c in conflict.constraints if c.id != given.id)
    others = tuple(c for c in problem.constraints if c.id != given.id)
    remaining = find_conflict(problem, fixed, others)
    for way in _ways(problem, given):
        days: int | None = 1
        for rest in (partners, others) if remaining is None else (partners,):
            if days is not None:
                days = _least_days(problem, fixed, rest, way, days)
        if days is not None:
            yield Relaxation(given, way.part, days, way.by(days), remaining)
    yield Relaxation(given, "drop", None, None, remaining)


def _least_days(problem: Problem, fixed: Mapping[str, int], rest: Constraints, way: _Way, least: int) -> int | None:
    """The smallest number of days from `least` up that lets `rest` hold too, or None if no number does."""
    if not feasible(problem, fixed, (*rest, way.unlimited)):
        return None
    most = least
    while not feasible(problem, fixed, (*rest, way.by(most))):
        least, most = most + 1, 2 * most
    while least < most:
        middle = (least + most) // 2
        if feasible(problem, fixed, (*rest, way.by(middle))):
            most = middle
        else:
            least = middle + 1
    return most


def _ways(problem: Problem, given: Constraint) -> Iterator[_Way]:
    """The parts of a constraint that may give."""
    if isinstance(given, Lag):
        if given.minimum is not None:
            least = given.minimum
            free = replace(given, minimum=None)
            yield _Way("minimum", free, lambda count: replace(given, minimum=_shifted(least, -count)))
        if given.maximum is not None:
            most = given.maximum
            free = replace(given, maximum=None)
            yield _Way("maximum", free, lambda count: replace(given, maximum=_shifted(most, count)))
    elif given.days.ranges:
        ranges = given.days.ranges
        start, end = ranges[0][0], ranges[-1][1]
        before = _with_days(given, [(min(start, problem.first_day), end)])
        yield _Way("earlier", before, lambda count: _with_days(given, [(a - count, b) for a, b in ranges]))
        after = _with_days(given, [(start, max(end, problem.last_day))])
        yield _Way("later", after, lambda count: _with_days(given, [(a, b + count) for a, b in ranges]))


def _with_days(given: Allowed, ranges: list[tuple[int, int]]) -> Allowed:
    return replace(given, days=DaySet.of(ranges))


def _shifted(step: Step, count: int) -> Step:
    """The step that arrives `count` days later."""
    if isinstance(step, Days):
        return Days(step.count + count)
    return replace(step, targets=tuple(day + count for day in step.targets))
