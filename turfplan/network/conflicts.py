"""Finds irreducible conflicts, and which constraints to give up when not all can hold."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from turfplan.network.chains import Chain, contradiction
from turfplan.network.net import build, check_names, nodes_of
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
    story = _contradiction(problem, fixed, constraints)
    if story is None:
        return None
    kept = _constraints(story)
    for candidate in sorted(kept.values(), key=lambda c: (-c.strength, c.id)):
        if candidate.id in kept:
            rest = [c for c in kept.values() if c.id != candidate.id]
            shorter = _contradiction(_about(problem, rest), fixed, rest)
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


def _contradiction(
    problem: NetworkProblem, fixed: Mapping[str, int], constraints: Collection[Constraint]
) -> Chain | None:
    """The chain that shows some of `constraints` cannot all hold, or None."""
    net = build(problem, fixed, constraints)
    front, failed = start_up(net)
    return None if failed is None else contradiction(net, front, failed)


def _constraints(story: Chain) -> dict[str, Constraint]:
    """The constraints of a chain in its order, by id."""
    return {link.constraint.id: link.constraint for link in story if link.constraint is not None}


def choose_constraints(
    problem: NetworkProblem, fixed: Mapping[str, int], wishes: Mapping[str, int | None]
) -> tuple[tuple[Constraint, ...], tuple[Constraint, ...]] | Conflict:
    """The constraints to keep and those to drop, or the conflict of HARD constraints alone.

    While a conflict remains its weakest constraint goes: lowest strength, then latest node by
    `wishes` (without a wish: by its earliest day under the HARD constraints; then declaration
    order), then id. Afterwards each dropped one comes back if it can, strongest first, so none of
    those left out could be restored.
    """
    found = find_conflict(problem, fixed, problem.constraints)
    if found is None:
        return problem.constraints, ()
    times = _times(problem, fixed, wishes)
    dropped: list[Constraint] = []
    while found is not None:
        soft = [c for c in found.constraints if c.strength < Strength.HARD]
        if not soft:
            return found
        by_id = sorted(soft, key=lambda c: c.id)
        dropped.append(min(by_id, key=lambda c: (c.strength, *(-part for part in _when(c, times)))))
        found = find_conflict(problem, fixed, _without(problem, dropped))
    for candidate in sorted(dropped, key=lambda c: (-c.strength, _when(c, times), c.id)):
        rest = [c for c in dropped if c.id != candidate.id]
        if feasible(problem, fixed, _without(problem, rest)):
            dropped = rest
    return _without(problem, dropped), tuple(dropped)


def _without(problem: NetworkProblem, dropped: Collection[Constraint]) -> tuple[Constraint, ...]:
    gone = {constraint.id for constraint in dropped}
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
