"""Gives every node its earliest, latest and chosen day."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from turfplan.network.chains import Chain, ChainsSoFar, chain
from turfplan.network.conflicts import Conflict, choose_constraints, find_conflict
from turfplan.network.net import Net, build, check_names
from turfplan.network.propagation import Front, push, start
from turfplan.records.constraints import Constraint, NetworkProblem, Node, Strength


@dataclass(frozen=True, slots=True)
class Trail:
    """What the chains are read from: the compiled problem and both sides' bounds with their
    causes."""

    net: Net
    up: Front
    down: Front
    told: ChainsSoFar = field(default_factory=dict)

    def not_earlier(self, node: str) -> Chain:
        """Why the bound of `node` is not lower."""
        return chain(self.net, self.up, self.up.cause[self.net.index[node]], self.told)

    def not_later(self, node: str) -> Chain:
        """Why the bound of `node` is not higher."""
        return chain(self.net, self.down, self.down.cause[self.net.index[node]], self.told)


@dataclass(frozen=True, slots=True)
class Bounds:
    """The earliest and latest day of each node.

    All earliest days together are a solution, all latest days too.
    """

    earliest: Mapping[str, int]
    latest: Mapping[str, int]
    _trail: Trail = field(repr=False, compare=False)

    def not_earlier(self, node: str) -> Chain:
        """Why `node` cannot be before its earliest day: binding constraints back to allowed days, a
        done node or the horizon."""
        return self._trail.not_earlier(node)

    def not_later(self, node: str) -> Chain:
        """Why `node` cannot be after its latest day."""
        return self._trail.not_later(node)


@dataclass(frozen=True, slots=True)
class Schedule:
    """A day for every node, the bounds it was chosen within, and the constraints given up (weakest
    first as they went).

    The chains explain the chosen day given the days of the nodes placed before it. They end in a
    `wish` link where nothing but the ideal holds the node; `bounds` then still tells what limits
    it.
    """

    days: Mapping[str, int]
    bounds: Bounds
    dropped: tuple[Constraint, ...]
    _trail: Trail = field(repr=False, compare=False)

    @property
    def earliest(self) -> Mapping[str, int]:
        """The earliest day of each node before any was chosen."""
        return self.bounds.earliest

    @property
    def latest(self) -> Mapping[str, int]:
        """The latest day of each node before any was chosen."""
        return self.bounds.latest

    def not_earlier(self, node: str) -> Chain:
        """Why `node` is not before its chosen day."""
        return self._trail.not_earlier(node)

    def not_later(self, node: str) -> Chain:
        """Why `node` is not after its chosen day."""
        return self._trail.not_later(node)


def bounds(problem: NetworkProblem, fixed: Mapping[str, int] | None = None) -> Bounds | Conflict:
    """The earliest and latest day of each node, or why there is no solution.

    `fixed` are done nodes at their actual day: it stands even outside the horizon and their allowed
    days; constraints that speak of done nodes alone fall away. Raises ValueError for unknown or
    repeated names.
    """
    done = fixed or {}
    check_names(problem, done)
    opened = open_fronts(problem, done, problem.constraints)
    return opened if isinstance(opened, Conflict) else bounds_of(*opened)


def solve(problem: NetworkProblem, fixed: Mapping[str, int] | None = None) -> Schedule | Conflict:
    """Place the nodes by (priority, id), each on the feasible day nearest its ideal, or say why
    there is no solution.

    Equally near days: the earlier one. No ideal: as early as possible. `fixed` and errors as in
    `bounds`.
    """
    done = fixed or {}
    check_names(problem, done)
    return place(problem, done, problem.constraints, ())


def solve_softly(
    problem: NetworkProblem,
    fixed: Mapping[str, int] | None = None,
    *,
    keep: Strength = Strength.HARD,
) -> Schedule | Conflict:
    """As `solve`, giving up the weakest constraints of each conflict first; a Conflict only of
    constraints to `keep`.

    Constraints of the strength `keep` or more are never given up. No constraint in `dropped` could
    be put back without a conflict.
    """
    done = fixed or {}
    check_names(problem, done)
    net = build(problem, done, problem.constraints)
    if (fronts := start(net)) is not None:
        return _placed(problem, (net, *fronts), ())
    if keep < Strength.HARD:
        found = find_conflict(problem, done, [c for c in problem.constraints if c.strength >= keep])
        if found is not None:
            return found
    choice = choose_constraints(problem, done, {node.id: node.ideal for node in problem.nodes})
    return choice if isinstance(choice, Conflict) else place(problem, done, *choice)


def place_again(schedule: Schedule, nodes: Iterable[Node]) -> Schedule:
    """The same nodes under the same constraints with other ideals or priorities: the bounds stand,
    only days are chosen anew."""
    trail = schedule.bounds._trail
    wishes = ((node.id, node.ideal) for node in in_turn(nodes))
    up, down = place_nodes(trail.net, trail.up.copy(), trail.down.copy(), wishes)
    return schedule_of(trail.net, schedule.bounds, schedule.dropped, up, down)


def open_fronts(
    problem: NetworkProblem, fixed: Mapping[str, int], constraints: tuple[Constraint, ...]
) -> tuple[Net, Front, Front] | Conflict:
    """The compiled problem with both sides at their fixpoints, or an irreducible conflict."""
    net = build(problem, fixed, constraints)
    fronts = start(net)
    if fronts is not None:
        return net, *fronts
    found = find_conflict(problem, fixed, constraints)
    assert found is not None
    return found


def bounds_of(net: Net, up: Front, down: Front) -> Bounds:
    """The bounds of both sides as a result of their own."""
    return Bounds(
        MappingProxyType(dict(zip(net.ids, up.level, strict=True))),
        MappingProxyType({name: -level for name, level in zip(net.ids, down.level, strict=True)}),
        Trail(net, up.copy(), down.copy()),
    )


def place(
    problem: NetworkProblem,
    fixed: Mapping[str, int],
    constraints: tuple[Constraint, ...],
    dropped: tuple[Constraint, ...],
) -> Schedule | Conflict:
    """The lexicographic schedule over `constraints`."""
    opened = open_fronts(problem, fixed, constraints)
    if isinstance(opened, Conflict):
        return opened
    return _placed(problem, opened, dropped)


def _placed(
    problem: NetworkProblem, opened: tuple[Net, Front, Front], dropped: tuple[Constraint, ...]
) -> Schedule:
    net, up, down = opened
    limits = bounds_of(net, up, down)
    up, down = place_nodes(
        net, up, down, ((node.id, node.ideal) for node in in_turn(problem.nodes))
    )
    return schedule_of(net, limits, dropped, up, down)


def in_turn(nodes: Iterable[Node]) -> list[Node]:
    """The nodes in the order they are placed."""
    return sorted(nodes, key=lambda node: (node.priority, node.id))


def schedule_of(
    net: Net, limits: Bounds, dropped: tuple[Constraint, ...], up: Front, down: Front
) -> Schedule:
    """The schedule of fronts that have met."""
    days = MappingProxyType(dict(zip(net.ids, up.level, strict=True)))
    return Schedule(days, limits, dropped, Trail(net, up, down, limits._trail.told))


def place_nodes(
    net: Net, up: Front, down: Front, wishes: Iterable[tuple[str, int | None]]
) -> tuple[Front, Front]:
    """Close both sides around each node in turn, on its feasible day nearest its wish."""
    for name, wish in wishes:
        node = net.index[name]
        first, last = up.level[node], -down.level[node]
        if first == last:
            continue
        if wish is None or wish <= first:
            push(down, up.level, [(node, -first)])
        elif wish >= last:
            push(up, down.level, [(node, last)])
        else:
            up, down = _nearest(up, down, node, wish)
    return up, down


def _nearest(up: Front, down: Front, node: int, wish: int) -> tuple[Front, Front]:
    """Both sides closed around the feasible day of `node` nearest `wish`, which lies strictly
    between its bounds.

    Pushing the earliest solution up to the wish gives the first feasible day from there on, pushing
    the latest one down the last feasible day up to there; neither can fail, for the other side's
    own bound is a solution beyond the wish.
    """
    above, below = up.copy(), down.copy()
    push(above, down.level, [(node, wish)])
    push(below, up.level, [(node, -wish)])
    later, earlier = above.level[node], -below.level[node]
    if wish - earlier <= later - wish:
        push(up, below.level, [(node, earlier)])
        return up, below
    push(down, above.level, [(node, -later)])
    return above, down
