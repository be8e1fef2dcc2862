"""Pushes bounds to their least fixpoint, remembering which event caused which.

Every arc is monotone, so the least fixpoint is itself a solution: the earliest one (on the `up`
side) or the latest one (on the `down` side, in negated days). A bound that passes the other side's
bound proves there is no solution.
"""

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.network.net import FAR, Net, Side

BASE = -1
"""In place of a constraint: the horizon, or the done day of a fixed node."""
CHOSEN = -2
"""In place of a constraint: the day was chosen."""

Event = tuple[int, int, int, int, int]
"""Node, its new bound, constraint (or BASE, CHOSEN), the event that caused this one (-1: none),
bound before usable days."""


@dataclass(slots=True)
class Front:
    """The bounds of one side (`level`, by node), and for each the event that set it. Changed in
    place; copies share events."""

    side: Side
    level: list[int]
    cause: list[int]
    events: list[Event]

    def copy(self) -> "Front":
        """The same bounds, free to move on their own."""
        return Front(self.side, self.level[:], self.cause[:], self.events)


def start(net: Net) -> tuple[Front, Front] | None:
    """The earliest and the latest solution (the latter in negated days), or None if there is
    none."""
    up, failed = start_up(net)
    if failed is not None:
        return None
    down, _ = _opening(net, net.down, -net.last_day)
    advance(down, up.level, range(len(net.ids)))
    return up, down


def start_up(net: Net) -> tuple[Front, int | None]:
    """The earliest solution alone, with the event that proves there is none where that is so."""
    up, failed = _opening(net, net.up, net.first_day)
    if failed is None:
        ends = [-ends[-1] for _, ends in net.up.usable]
        failed = advance(up, ends, range(len(net.ids)))
    return up, failed


def _opening(net: Net, side: Side, edge: int) -> tuple[Front, int | None]:
    """Bounds before any arc is used.

    With the event of the first node that has no usable day at all.
    """
    front = Front(side, [], [], [])
    failed = None
    for node, fixed in enumerate(net.fixed):
        raw = edge if fixed is None else fixed if side.up else -fixed
        day = side.reach(node, raw)
        if day == FAR and failed is None:
            failed = node
        front.level.append(day)
        front.cause.append(node)
        front.events.append((node, day, BASE, -1, raw))
    return front, failed


def advance(front: Front, opposite: list[int], seeds: Iterable[int]) -> int | None:
    """Push from `seeds` to the fixpoint.

    None, or the event whose bound passes `opposite` (then the front is unusable).
    """
    level, cause, events, side = front.level, front.cause, front.events, front.side
    arcs, reach = side.arcs, side.reach
    queue = deque(seeds)
    waiting = set(queue)
    while queue:
        source = queue.popleft()
        waiting.discard(source)
        for target, shift, step, constraint in arcs[source]:
            day = level[source]
            raw = day + shift if step is None else step(day)
            if raw <= level[target]:
                continue
            day = reach(target, raw)
            events.append((target, day, constraint, cause[source], raw))
            level[target] = day
            cause[target] = len(events) - 1
            if day > -opposite[target]:
                return cause[target]
            if target not in waiting:
                waiting.add(target)
                queue.append(target)
    return None


def push(front: Front, opposite: list[int], chosen: Iterable[tuple[int, int]]) -> int | None:
    """Push nodes to chosen days or beyond, then everything to the fixpoint.

    None, or the failing event.
    """
    seeds = []
    for node, day in chosen:
        if day <= front.level[node]:
            continue
        reached = front.side.reach(node, day)
        front.events.append((node, reached, CHOSEN, -1, day))
        front.level[node] = reached
        front.cause[node] = len(front.events) - 1
        if reached > -opposite[node]:
            return front.cause[node]
        seeds.append(node)
    return advance(front, opposite, seeds)
