"""Finds irreducible conflicts, and which constraints to give up when not all can hold."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from turfplan.network.chains import Chain, contradiction
from turfplan.network.net import Net, build, check_names, nodes_of, without
from turfplan.network.propagation import start_up
from turfplan.records.constraints import Constraint, NetworkProblem, Strength


@dataclass(frozen=True, slots=True)
class Conflict:
    """Constraints that cannot all hold though any of them left out lets the rest hold, cause first.

    `chain` tells it from the other end: its first link is the day some node must not pass, the
    following ones why that node cannot be before (or after) it. `constraints` is empty when the
    done days and the horizon leave no room at all.
    """

    constraints: tuple[Constraint, ...]
    chain: Chain


def conflict(problem: NetworkProblem, fixed: Mapping[str, int] | None = None) -> Conflict | None:
    """An irreducible infeasible subset of the constraints in force, or None when all can hold.

    `fixed` are done nodes: kept at their actual day even outside the horizon and their allowed
    days. Raises ValueError for unknown or repeated names.
    """
    done = fixed or {}
    check_names(problem, done)
    return find_conflict(problem, done, problem.constraints)


def find_conflict(
    problem: NetworkProblem, fixed: Mapping[str, int], constraints: Collection[Constraint]
) -> Conflict | None:
    """As `conflict`, over some of the problem's constraints.

    Propagation names a sufficient set, the constraints along one chain; a deletion filter then
    tries to leave out each of them, strongest first so that what remains has something weak to give
    up.
    """
    return _conflict_of(build(problem, fixed, constraints), problem, fixed)


def _conflict_of(net: Net, problem: NetworkProblem, fixed: Mapping[str, int]) -> Conflict | None:
    """As `find_conflict`, of a network that is compiled."""
    story = _contradiction(net)
    if story is None:
        return None
    kept = _constraints(story)
    for candidate in sorted(kept.values(), key=lambda c: (-c.strength, c.yields, c.id)):
        if candidate.id in kept:
            rest = [c for c in kept.values() if c.id != candidate.id]
            shorter = _contradiction(build(_about(problem, rest), fixed, rest))
            if shorter is not None:
                story, kept = shorter, _constraints(shorter)
    return Conflict(tuple(reversed(kept.values())), story)


def _about(problem: NetworkProblem, constraints: Collection[Constraint]) -> NetworkProblem:
    """The problem of the nodes alone that `constraints` speak of."""
    touched = {name for constraint in constraints for name in nodes_of(constraint)}
    return replace(problem, nodes=tuple(node for node in problem.nodes if node.id in touched))


def feasible(
    problem: NetworkProblem, fixed: Mapping[str, int], constraints: Collection[Constraint]
) -> bool:
    """Whether all of `constraints` can hold."""
    return start_up(build(problem, fixed, constraints))[1] is None


def _contradiction(net: Net) -> Chain | None:
    """The chain that shows that not all constraints of a network can hold, or None."""
    front, failed = start_up(net)
    return None if failed is None else contradiction(net, front, failed)


def _constraints(story: Chain) -> dict[str, Constraint]:
    """The constraints of a chain in its order, by id."""
    return {link.constraint.id: link.constraint for link in story if link.constraint is not None}


def choose_constraints(
    problem: NetworkProblem, fixed: Mapping[str, int], wishes: Mapping[str, int | None]
) -> tuple[tuple[Constraint, ...], tuple[Constraint, ...]] | Conflict:
    """The constraints to keep and those to drop, or the conflict of HARD constraints alone.

    While a conflict remains its weakest constraint goes: lowest strength, then what yields, then
    latest node by `wishes` (without a wish: by its earliest day under the HARD constraints; then
    declaration order), then id. Afterwards each dropped one comes back if it can, strongest first,
    so none of those left out could be restored.
    """
    whole = build(problem, fixed)
    found = _conflict_of(whole, problem, fixed)
    if found is None:
        return problem.constraints, ()
    times = _times(problem, fixed, wishes)
    dropped: list[Constraint] = []
    while found is not None:
        soft = [c for c in found.constraints if c.strength < Strength.HARD]
        if not soft:
            return found
        by_id = sorted(soft, key=lambda c: c.id)
        dropped.append(
            min(
                by_id,
                key=lambda c: (c.strength, not c.yields, *(-part for part in _when(c, times))),
            )
        )
        found = _conflict_of(without(whole, _names(dropped)), problem, fixed)
    for candidate in sorted(dropped, key=lambda c: (-c.strength, c.yields, _when(c, times), c.id)):
        rest = [c for c in dropped if c.id != candidate.id]
        if start_up(without(whole, _names(rest)))[1] is None:
            dropped = rest
    return _without(problem, dropped), tuple(dropped)


def _names(constraints: Iterable[Constraint]) -> frozenset[str]:
    return frozenset(constraint.id for constraint in constraints)


def _without(problem: NetworkProblem, dropped: Collection[Constraint]) -> tuple[Constraint, ...]:
    gone = _names(dropped)
    return tuple(c for c in problem.constraints if c.id not in gone)


def _when(constraint: Constraint, times: Mapping[str, tuple[int, int]]) -> tuple[int, int]:
    """The time of the constraint's latest node."""
    return max(times[name] for name in nodes_of(constraint))


def _times(
    problem: NetworkProblem, fixed: Mapping[str, int], wishes: Mapping[str, int | None]
) -> dict[str, tuple[int, int]]:
    """For each node its day (done, wished, or earliest under the HARD constraints) and its place in
    the declaration."""
    front, failed = start_up(
        build(problem, fixed, [c for c in problem.constraints if c.strength == Strength.HARD])
    )
    earliest = front.level if failed is None else [problem.first_day] * len(problem.nodes)
    times = {}
    for number, node in enumerate(problem.nodes):
        wish = fixed.get(node.id, wishes.get(node.id))
        times[node.id] = (earliest[number] if wish is None else wish, number)
    return times
