"""A problem compiled to arcs that push bounds.

Both directions share one form. `Net.up` speaks of days: each arc says `target >= step(source)`.
`Net.down` says the same of negated days, so pushing latest days down is pushing negated days up,
and one piece of code does both.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.reckoned_once import reckoned_once
from turfplan.records.constraints import (
    Allowed,
    Constraint,
    DaySet,
    DayStep,
    Lag,
    NetworkProblem,
    Step,
    TableStep,
)

FAR = 1 << 40
"""Beyond every day: a bound that cannot be met (FAR) or that says nothing (-FAR)."""

Arc = tuple[int, int, Callable[[int], int] | None, int]
"""Target node, shift in days, step used instead of the shift (or None), index of the constraint."""


Columns = tuple[tuple[int, ...], tuple[int, ...]]
"""The usable days of one node: where its ranges start, and where they end."""


@dataclass(frozen=True, slots=True)
class Side:
    """One direction of the network: arcs by source node, and each node's usable days (both
    directions share them)."""

    up: bool
    arcs: tuple[list[Arc], ...]
    usable: tuple[Columns, ...]

    def reach(self, node: int, day: int) -> int:
        """The first usable day of `node` on or after `day` in this direction, FAR if there is
        none."""
        starts, ends = self.usable[node]
        if self.up:
            position = bisect_right(starts, day)
            if position and day <= ends[position - 1]:
                return day
            return starts[position] if position < len(starts) else FAR
        position = bisect_right(starts, -day)
        if not position:
            return FAR
        last = -ends[position - 1]
        return day if day > last else last


@dataclass(frozen=True, slots=True)
class Net:
    """The compiled problem. `allowed[n]` are the indices of node n's Allowed constraints.

    `fixed[n]` its done day.
    """

    ids: tuple[str, ...]
    index: Mapping[str, int]
    constraints: tuple[Constraint, ...]
    allowed: tuple[list[int], ...]
    fixed: tuple[int | None, ...]
    first_day: int
    last_day: int
    up: Side
    down: Side

    def usable(self, node: int, first: int, last: int) -> list[int]:
        """The usable days of `node` from `first` to `last`."""
        ranges = zip(*self.up.usable[node], strict=True)
        return [
            day for start, end in ranges for day in range(max(start, first), min(end, last) + 1)
        ]


def nodes_of(constraint: Constraint) -> tuple[str, ...]:
    """The ids of the nodes a constraint speaks of."""
    return (
        (constraint.node,)
        if isinstance(constraint, Allowed)
        else (constraint.before, constraint.after)
    )


def first_reaching(step: Step, target: int) -> int:
    """The first day whose step is on or after `target`: -FAR if every day's is, FAR if no day's
    is."""
    if isinstance(step, DayStep):
        return target - step.count
    position = bisect_left(step.targets, target)
    if position == 0:
        return -FAR
    return FAR if position == len(step.targets) else step.origin + position


def last_within(step: Step, target: int) -> int:
    """The last day whose step is on or before `target`: FAR if every day's is, -FAR if no day's
    is."""
    if isinstance(step, DayStep):
        return target - step.count
    position = bisect_right(step.targets, target)
    if position == len(step.targets):
        return FAR
    return -FAR if position == 0 else step.origin + position - 1


def check_names(problem: NetworkProblem, fixed: Mapping[str, int]) -> None:
    """Raise ValueError for repeated ids, and for constraints or done days of nodes that do not
    exist."""
    ids = [node.id for node in problem.nodes]
    known = set(ids)
    if len(known) != len(ids):
        raise ValueError(f"repeated nodes: {sorted({name for name in ids if ids.count(name) > 1})}")
    names = [constraint.id for constraint in problem.constraints]
    if len(set(names)) != len(names):
        raise ValueError(
            f"repeated constraints: {sorted({name for name in names if names.count(name) > 1})}"
        )
    strangers = set(fixed) - known
    strangers.update(
        name
        for constraint in problem.constraints
        for name in nodes_of(constraint)
        if name not in known
    )
    if strangers:
        raise ValueError(f"no such nodes: {sorted(strangers)}")


def build(
    problem: NetworkProblem,
    fixed: Mapping[str, int],
    constraints: Iterable[Constraint] | None = None,
) -> Net:
    """Compile `constraints` (default: all of the problem's), leaving out those that speak of done
    nodes alone."""
    ids = tuple(node.id for node in problem.nodes)
    index = {name: number for number, name in enumerate(ids)}
    chosen = problem.constraints if constraints is None else constraints
    active = (
        tuple(c for c in chosen if any(name not in fixed for name in nodes_of(c)))
        if fixed
        else tuple(chosen)
    )
    allowed: tuple[list[int], ...] = tuple([] for _ in ids)
    up: tuple[list[Arc], ...] = tuple([] for _ in ids)
    down: tuple[list[Arc], ...] = tuple([] for _ in ids)
    for number, constraint in enumerate(active):
        if isinstance(constraint, Allowed):
            allowed[index[constraint.node]].append(number)
        else:
            _add_arcs(up, down, constraint, number, index)
    usable = _usable_days(problem, active, allowed, tuple(fixed.get(name) for name in ids))
    return Net(
        ids,
        index,
        active,
        allowed,
        tuple(fixed.get(name) for name in ids),
        problem.first_day,
        problem.last_day,
        Side(True, up, usable),
        Side(False, down, usable),
    )


def without(net: Net, gone: Collection[str]) -> Net:
    """The same as `build` makes without the constraints called `gone`: what they do not touch is
    shared with `net`, and the numbers of the others stay."""
    numbers = {n for n, constraint in enumerate(net.constraints) if constraint.id in gone}
    if not numbers:
        return net
    allowed, up, down = list(net.allowed), list(net.up.arcs), list(net.down.arcs)
    usable = list(net.up.usable)
    for name in {name for n in numbers for name in nodes_of(net.constraints[n])}:
        node = net.index[name]
        up[node] = [arc for arc in up[node] if arc[3] not in numbers]
        down[node] = [arc for arc in down[node] if arc[3] not in numbers]
        if net.fixed[node] is None and not numbers.isdisjoint(allowed[node]):
            allowed[node] = [n for n in allowed[node] if n not in numbers]
            sets = _sets_of(net.constraints, allowed[node])
            usable[node] = _shared(net.first_day, net.last_day, *sets)
    days = tuple(usable)
    return replace(
        net,
        allowed=tuple(allowed),
        up=Side(True, tuple(up), days),
        down=Side(False, tuple(down), days),
    )


def _sets_of(active: Sequence[Constraint], numbers: Iterable[int]) -> list[DaySet]:
    """The days of the Allowed constraints of some numbers."""
    return [limit.days for number in numbers if isinstance(limit := active[number], Allowed)]


def _usable_days(
    problem: NetworkProblem,
    active: tuple[Constraint, ...],
    allowed: tuple[list[int], ...],
    fixed: tuple[int | None, ...],
) -> tuple[Columns, ...]:
    """For each node its done day, or what its Allowed constraints and the horizon share."""
    # Most nodes hang on the very same sets of days (those of work): each combination is worked out
    # once.
    known: dict[tuple[int, ...], Columns] = {}
    found: list[Columns] = []
    for numbers, done in zip(allowed, fixed, strict=True):
        if done is not None:
            found.append(((done,), (done,)))
            continue
        sets = _sets_of(active, numbers)
        key = tuple(map(id, sets))
        if key not in known:
            known[key] = _shared(problem.first_day, problem.last_day, *sets)
        found.append(known[key])
    return tuple(found)


@reckoned_once
def _shared(first: int, last: int, *sets: DaySet) -> Columns:
    """The days of the horizon that are in all of the sets, as starts and ends of ranges."""
    if first > last:
        return (), ()
    if not sets:
        return (first,), (last,)
    days = sets[0]
    for other in sets[1:]:
        days = days.intersect(other)
    if days.ranges and not (first <= days.ranges[0][0] and days.ranges[-1][1] <= last):
        days = DaySet(
            tuple((max(a, first), min(b, last)) for a, b in days.ranges if a <= last and first <= b)
        )
    return days.columns


def _add_arcs(
    up: tuple[list[Arc], ...],
    down: tuple[list[Arc], ...],
    lag: Lag,
    number: int,
    index: Mapping[str, int],
) -> None:
    """The four ways a lag moves bounds: its two steps forward, and their inverses backward."""
    before, after = index[lag.before], index[lag.after]
    if isinstance(lag.minimum, DayStep):
        up[before].append((after, lag.minimum.count, None, number))
        down[after].append((before, lag.minimum.count, None, number))
    elif lag.minimum is not None:
        least = lag.minimum
        up[before].append((after, 0, least, number))
        down[after].append((before, 0, _negated_last(least), number))
    if isinstance(lag.maximum, DayStep):
        up[after].append((before, -lag.maximum.count, None, number))
        down[before].append((after, -lag.maximum.count, None, number))
    elif lag.maximum is not None:
        most = lag.maximum
        up[after].append((before, 0, _first(most), number))
        down[before].append((after, 0, _negated(most), number))


def _first(step: TableStep) -> Callable[[int], int]:
    return lambda day: first_reaching(step, day)


def _negated_last(step: TableStep) -> Callable[[int], int]:
    return lambda negative_day: -last_within(step, -negative_day)


def _negated(step: TableStep) -> Callable[[int], int]:
    return lambda negative_day: -step(-negative_day)
