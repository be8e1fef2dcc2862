"""Changes a published schedule as little as possible.

Fewest moved nodes first, then fewest days, then the earliest days. A minimum cut over (node, day)
decides it exactly; what comes before the cut proves most nodes immovable or movable by a few days
only, so that the cut stays small.
"""

from bisect import bisect_left
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from turfplan.network.antichain import largest_antichain
from turfplan.network.conflicts import Conflict, choose_constraints
from turfplan.network.flow import INFINITE, Graph, source_side
from turfplan.network.net import Net, check_names
from turfplan.network.placing import (
    Schedule,
    bounds_of,
    in_turn,
    open_fronts,
    place_nodes,
    schedule_of,
)
from turfplan.network.propagation import Front, push
from turfplan.records.constraints import Constraint, NetworkProblem

Fronts = tuple[Front, Front]


@dataclass(frozen=True, slots=True)
class Move:
    """A published node that changes its day."""

    node: str
    was: int
    now: int


@dataclass(frozen=True, slots=True)
class Repair:
    """The repaired schedule, what moved (by new day, then id), and the constraints given up."""

    days: Mapping[str, int]
    moved: tuple[Move, ...]
    dropped: tuple[Constraint, ...]
    schedule: Schedule


def repair(
    problem: NetworkProblem, published: Mapping[str, int], fixed: Mapping[str, int] | None = None
) -> Repair | Conflict:
    """The schedule nearest the published one, or the conflict of HARD constraints that leaves none.

    Constraints are given up as in `solve_softly`, with published days for ideals. Among the
    schedules that keep the rest it takes the fewest moved nodes, then the fewest days moved in
    total, then the earliest days. Nodes without a published day are placed afterwards as `solve`
    would, moving nothing. Published days of nodes that are done or no longer exist do not count.
    `fixed` and errors as in `bounds`.
    """
    done = fixed or {}
    check_names(problem, done)
    wishes = {node.id: published.get(node.id, node.ideal) for node in problem.nodes}
    choice = choose_constraints(problem, done, wishes)
    if isinstance(choice, Conflict):
        return choice
    opened = open_fronts(problem, done, choice[0])
    if isinstance(opened, Conflict):
        return opened
    net, up, down = opened
    limits = bounds_of(net, up, down)
    turn = [node.id for node in in_turn(problem.nodes) if node.id not in done]
    old = {net.index[name]: published[name] for name in turn if name in published}
    new = {net.ids[node]: day for node, day in _least_change(net, up, down, old).items()}
    moves = [
        Move(name, published[name], day) for name, day in new.items() if day != published[name]
    ]
    settled = sorted(new, key=lambda name: new[name] != published[name])
    order = [(name, new[name]) for name in settled] + [
        (name, wishes[name]) for name in turn if name not in new
    ]
    up, down = place_nodes(net, up, down, order)
    schedule = schedule_of(net, limits, choice[1], up, down)
    moves.sort(key=lambda move: (move.now, move.node))
    return Repair(schedule.days, tuple(moves), choice[1], schedule)


def _least_change(net: Net, up: Front, down: Front, old: Mapping[int, int]) -> Mapping[int, int]:
    """The new days of the nodes in `old` (listed in the order of placing).

    The fronts are left as they are.
    """
    if not old or _pin((up, down), old) is not None:
        return old
    pushes = _pushes(up, down, old)
    stay = largest_antichain(pushes)
    touched = {node for node, others in pushes.items() if others}.union(*pushes.values())
    fronts = _pin((up, down), {node: old[node] for node in pushes if node not in touched})
    guess = _pin((up, down), {node: old[node] for node in stay})
    # Nodes that do not push each other can stay together.
    assert fronts is not None and guess is not None
    best, _ = place_nodes(net, *guess, ((net.ids[node], day) for node, day in old.items()))
    narrowed = _narrow(net, fronts, old, best.level, pushes.keys())
    days = {node: narrowed[0].level[node] for node in old}
    for group in _groups(net, narrowed, old):
        days.update(_cut(net, narrowed, old, group))
    return days


def _pin(fronts: Fronts, days: Mapping[int, int]) -> Fronts | None:
    """Copies of the fronts closed around the given days, or None if they cannot be taken
    together."""
    up, down = fronts[0].copy(), fronts[1].copy()
    if push(up, down.level, days.items()) is not None:
        return None
    if push(down, up.level, [(node, -day) for node, day in days.items()]) is not None:
        return None
    return up, down


def _pushes(up: Front, down: Front, old: Mapping[int, int]) -> dict[int, frozenset[int]]:
    """For each node that could stay by itself, those of its kind that it would push beyond their
    published day.

    A set of nodes can stay together exactly if none pushes another: bounds pushed by several nodes
    are the highest of those pushed by each. Pushing is transitive, so this is a strict partial
    order, and most nodes stay in its largest antichain. A node in no relation is in every largest
    antichain: it stays in every best repair.
    """
    pushed: dict[int, frozenset[int]] = {}
    for node, day in old.items():
        front, mark = up.copy(), len(up.events)
        if push(front, down.level, [(node, day)]) is None and front.level[node] == day:
            reached = {event[0] for event in front.events[mark:]}
            pushed[node] = frozenset(
                other for other in reached if other in old and front.level[other] > old[other]
            )
        del up.events[mark:]
    return {node: others & pushed.keys() for node, others in pushed.items()}


def _groups(net: Net, fronts: Fronts, old: Mapping[int, int]) -> list[list[int]]:
    """The nodes with more than one day left that lags among themselves connect to one in `old`, by
    connection.

    Decided nodes carry nothing from one group to another: the bounds already say all they demand.
    """
    up, down = fronts
    loose = {node for node in range(len(net.ids)) if up.level[node] < -down.level[node]}
    groups = []
    for node in old:
        if node not in loose:
            continue
        loose.discard(node)
        group = [node]
        for member in group:
            for target, *_ in (*net.up.arcs[member], *net.down.arcs[member]):
                if target in loose:
                    loose.discard(target)
                    group.append(target)
        groups.append(group)
    return groups


def _narrow(
    net: Net, fronts: Fronts, old: Mapping[int, int], guess: Sequence[int], free: Collection[int]
) -> Fronts:
    """The fronts narrowed to where a best repair can lie, given one with as few moved nodes
    (`guess`, a day per node).

    Every node but those `free` to stay moves at least as far as its nearest usable day. What the
    guess moves its group in total beyond that is as much farther as any one node of the group can
    move.
    """
    up, down = fronts[0].copy(), fronts[1].copy()
    lowest, highest = [], []
    for group in _groups(net, fronts, old):
        members = [node for node in group if node in old]
        least = {}
        for node in members:
            usable = () if node in free else net.usable(node, up.level[node], -down.level[node])
            least[node] = min((abs(day - old[node]) for day in usable), default=0)
        spare = sum(abs(guess[node] - old[node]) - least[node] for node in members)
        lowest += [(node, old[node] - least[node] - spare) for node in members]
        highest += [(node, -(old[node] + least[node] + spare)) for node in members]
    unmet = push(up, down.level, lowest), push(down, up.level, highest)
    assert unmet == (None, None)  # the best repair lies within its own cost
    return up, down


def _cut(
    net: Net, fronts: Fronts, old: Mapping[int, int], group: Collection[int]
) -> dict[int, int]:
    """The best days of a group within the fronts: the smallest minimum cut over statements "node is
    on or after day".

    A node's statements form a path from source to sink whose arcs cost what the day between them
    costs; infinite arcs keep every lag (Ishikawa's construction, 2003; Picard's closure, 1976). The
    smallest source side is the earliest.
    """
    up, down = fronts
    labels = {node: net.usable(node, up.level[node], -down.level[node]) for node in group}
    first, count = {}, 2
    for node, usable in labels.items():
        first[node] = count
        count += len(usable) - 1
    graph = Graph(count)
    big = 1 + sum(
        max(abs(day - old[node]) for day in usable)
        for node, usable in labels.items()
        if node in old
    )
    for node, usable in labels.items():
        places = [0, *range(first[node], first[node] + len(usable) - 1), 1]
        for tail, head, day in zip(places, places[1:], usable, strict=False):
            far = abs(day - old[node]) if node in old else 0
            graph.connect(
                tail, head, far + big if far else 0, INFINITE if tail and head != 1 else 0
            )
        for target, shift, step, _ in net.up.arcs[node]:
            days = labels.get(target, ())
            for tail, day in zip(places, usable, strict=False):
                position = bisect_left(days, day + shift if step is None else step(day))
                if position:
                    graph.connect(
                        tail, first[target] + position - 1 if position < len(days) else 1, INFINITE
                    )
    inside = source_side(graph)
    return {
        node: usable[sum(inside[first[node] : first[node] + len(usable) - 1])]
        for node, usable in labels.items()
        if node in old
    }
