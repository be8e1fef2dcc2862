"""Turns the events of propagation into chains of binding constraints."""

from typing import Literal, NamedTuple

from turfplan.network.net import FAR, Net
from turfplan.network.propagation import BASE, CHOSEN, Front
from turfplan.records.constraints import Allowed, Constraint, Lag


class Link(NamedTuple):
    """One binding reason: `node` is not before (or not after) `day`.

    `kind` says why: `allowed` days; a `lag` to the node `other`, which the next link speaks of; the
    node is done (`fixed`); the `horizon`; or a `wish`: nothing forbids it, the day is its ideal,
    its published day, or, for a node placed as early as possible, its earliest. `constraint` is
    present for `allowed` and `lag`. A lag that no day can meet gives a day just past the horizon.
    """

    node: str
    day: int
    bound: Literal["not_before", "not_after"]
    kind: Literal["allowed", "lag", "fixed", "horizon", "wish"]
    constraint: Constraint | None = None
    other: str | None = None

    @property
    def step(self) -> Literal["minimum", "maximum"] | None:
        """Which step of the lag binds (of a lag from a node to itself: not told apart).

        None for other kinds.
        """
        if not isinstance(self.constraint, Lag):
            return None
        forward = self.node == self.constraint.after
        return "minimum" if forward == (self.bound == "not_before") else "maximum"


Chain = tuple[Link, ...]


ChainsSoFar = dict[tuple[bool, int], tuple[list[Link], int]]
"""The links of events already told, by side (up: True) and event, each with the event before it."""


def chain(net: Net, front: Front, event: int, told: ChainsSoFar) -> Chain:
    """The links from the node of `event` back to where its bound comes from.

    An event never changes, and the chains of many nodes run through the same ones: `told` keeps
    what each has to say.
    """
    links: list[Link] = []
    up = front.side is net.up
    while event >= 0:
        if (up, event) not in told:
            told[up, event] = _links(net, front, event)
        step, event = told[up, event]
        links += step
    return tuple(links)


def contradiction(net: Net, front: Front, event: int) -> Chain:
    """As `chain`, for an event that proves there is no solution: a cycle of lags is told once
    round, not to the end."""
    told: dict[tuple[str, str], Link] = {}
    gone_by: set[tuple[int, int]] = set()
    while event >= 0:
        node, day, constraint, previous, raw = front.events[event]
        if raw == day and (node, constraint) in gone_by:
            event = previous
            continue
        gone_by.add((node, constraint))
        links, event = _links(net, front, event)
        for link in links:
            told.setdefault((link.node, link.constraint.id if link.constraint else link.kind), link)
    return tuple(told.values())


def _links(net: Net, front: Front, event: int) -> tuple[list[Link], int]:
    """The links of one event, nearest cause first, and the event before it (-1: none)."""
    node, day, constraint, previous, raw = front.events[event]
    up = front.side is net.up
    sign = 1 if up else -1
    bound: Literal["not_before", "not_after"] = "not_before" if up else "not_after"
    name = net.ids[node]
    links = _jumps(net, front, node, raw, day)[::-1]
    if constraint == CHOSEN:
        links.append(Link(name, sign * raw, bound, "wish"))
    elif constraint != BASE:
        other = net.ids[front.events[previous][0]]
        edge = net.last_day + 1 if up else 1 - net.first_day
        links.append(
            Link(
                name,
                sign * (edge if raw >= FAR else raw),
                bound,
                "lag",
                net.constraints[constraint],
                other,
            )
        )
    elif net.fixed[node] is not None:
        links.append(Link(name, sign * raw, bound, "fixed"))
    elif not links:
        links.append(Link(name, sign * raw, bound, "horizon"))
    return links, previous


def _jumps(net: Net, front: Front, node: int, raw: int, day: int) -> list[Link]:
    """How the allowed days carry a bound from `raw` to `day`, the widest jump first at each step.

    Where no day is left (`day` is FAR) the last link names what ends: its day is the last one that
    could be used, and it bounds the other way.
    """
    up = front.side is net.up
    sign = 1 if up else -1
    links: list[Link] = []
    here = raw
    while here < day:
        best: tuple[int, Allowed] | None = None
        for number in net.allowed[node]:
            limit = net.constraints[number]
            if not isinstance(limit, Allowed):
                continue
            found = limit.days.next(here) if up else limit.days.previous(-here)
            there = FAR if found is None else sign * found
            if there > here and (best is None or there > best[0]):
                best = there, limit
        if best is None or best[0] == FAR:
            links.append(_end(net, node, up, best[1] if best else None))
            break
        here = best[0]
        links.append(
            Link(
                net.ids[node], sign * here, "not_before" if up else "not_after", "allowed", best[1]
            )
        )
    return links


def _end(net: Net, node: int, up: bool, limit: Allowed | None) -> Link:
    """The link that says `node` has no day left on this side: its allowed days, its done day or the
    horizon end."""
    bound: Literal["not_before", "not_after"] = "not_after" if up else "not_before"
    done = net.fixed[node]
    if limit is not None:
        ranges = limit.days.ranges
        edge = (
            (net.last_day if up else net.first_day)
            if not ranges
            else ranges[-1][1]
            if up
            else ranges[0][0]
        )
        return Link(net.ids[node], edge, bound, "allowed", limit)
    if done is not None:
        return Link(net.ids[node], done, bound, "fixed")
    return Link(net.ids[node], net.last_day if up else net.first_day, bound, "horizon")
