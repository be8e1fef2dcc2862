"""Gives the tightest differences between the days of every two nodes.

The minimal network of Dechter, Meiri & Pearl, "Temporal constraint networks", Artificial Intelligence 49 (1991) 61-95:
shortest paths in the distance graph, for problems with unbroken allowed days and lags in whole days only.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from turfplan.constraints import Allowed, Constraint, Days, Problem
from turfplan.network.conflicts import Conflict, find_conflict
from turfplan.network.net import check_names


@dataclass(frozen=True, slots=True)
class MinimalNetwork:
    """The first and last day of each node, and the least and greatest difference second − first of each ordered pair.

    Each day and each difference within them is part of some solution.
    """

    days: Mapping[str, tuple[int, int]]
    differences: Mapping[tuple[str, str], tuple[int, int]]


def minimal_network(problem: Problem) -> MinimalNetwork | Conflict:
    """The minimal network, or why there is no solution.

    Raises ValueError for allowed days with gaps, steps that are not in whole days, and repeated or unknown names.
    """
    check_names(problem, {})
    names = [node.id for node in problem.nodes]
    index = {name: place for place, name in enumerate(names, 1)}
    count = len(names) + 1
    unbounded = float("inf")
    far = [[0.0 if a == b else unbounded for b in range(count)] for a in range(count)]
    for constraint in problem.constraints:
        for a, b, most in _limits(constraint, index):
            far[a][b] = min(far[a][b], most)
    found = find_conflict(problem, {}, problem.constraints)
    if found is not None:
        return found
    for node in range(1, count):
        far[0][node] = min(far[0][node], problem.last_day)
        far[node][0] = min(far[node][0], -problem.first_day)
    for middle in range(count):
        for a in range(count):
            through = far[a][middle]
            far[a] = [min(far[a][b], through + far[middle][b]) for b in range(count)]
    days = {name: (-int(far[place][0]), int(far[0][place])) for name, place in index.items()}
    differences = {
        (one, two): (-int(far[index[two]][index[one]]), int(far[index[one]][index[two]]))
        for one in names
        for two in names
        if one != two
    }
    return MinimalNetwork(MappingProxyType(days), MappingProxyType(differences))


def _limits(constraint: Constraint, index: Mapping[str, int]) -> Iterator[tuple[int, int, int]]:
    """What a constraint says as "b − a is at most so many days", with place 0 for day 0."""
    if isinstance(constraint, Allowed):
        if len(constraint.days.ranges) > 1:
            raise ValueError(f"{constraint.id}: a minimal network needs allowed days without gaps")
        for first, last in constraint.days.ranges:
            yield index[constraint.node], 0, -first
            yield 0, index[constraint.node], last
        return
    before, after = index[constraint.before], index[constraint.after]
    for step in (constraint.minimum, constraint.maximum):
        if step is not None and not isinstance(step, Days):
            raise ValueError(f"{constraint.id}: a minimal network needs lags in whole days")
    if isinstance(constraint.minimum, Days):
        yield after, before, -constraint.minimum.count
    if isinstance(constraint.maximum, Days):
        yield before, after, constraint.maximum.count
