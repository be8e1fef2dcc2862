"""Loads that were ordered already: what an order asks for serves the loads that are still to come,
whatever number the campaign that asked for it gave them."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from turfplan.work.drafts import Load

HAIR_M3 = 1e-6


@dataclass(frozen=True, slots=True)
class OrderedLoads:
    """What is ordered and has not come, loose m3 by the number of its order, and the numbers of the
    loads that are here, or left out."""

    left_m3: tuple[tuple[int, float], ...] = ()
    over: frozenset[int] = frozenset()


NOTHING_ORDERED = OrderedLoads()


def with_orders_kept(
    loads: Sequence[Load], ordered: OrderedLoads, least: float
) -> tuple[Load, ...]:
    """The loads of a campaign, each that is still to come with the order that was placed for it,
    or for as much: first those that have that order by their number, then, in order of use, those
    that have another, which is not placed. A load of which a placed order has less than the part
    `least` left is ordered by itself; what an order that is called for lacks is bought besides."""
    left = dict(ordered.left_m3)
    if not left:
        return tuple(loads)
    found: dict[int, int] = {}
    open_loads = [load for load in loads if load.number not in ordered.over and not load.bags]
    for own in (True, False):
        for load in open_loads:
            if load.number in found or (own and load.order not in left):
                continue
            least_m3 = least * load.loose_m3
            orders = (load.order,) if own else tuple(left)
            order = next((n for n in orders if left[n] > max(least_m3, HAIR_M3)), None)
            if order is not None:
                left[order] -= min(left[order], load.loose_m3)
                found[load.number] = order
    alone = [load for load in open_loads if load.number not in found]
    return tuple(
        replace(load, order=found.get(load.number, load.order))
        for load in _ordered_alone(loads, alone, left)
    )


def _ordered_alone(
    loads: Sequence[Load], alone: Sequence[Load], placed: Collection[int]
) -> Iterator[Load]:
    """The loads, each of those that no placed order serves with an order that is still to be
    placed: that of the first of them that were to be ordered together."""
    taken = {*placed, *(load.number for load in loads)}
    orders: dict[int, int] = {}
    for load in alone:
        free = load.number if load.number not in placed else max(taken) + 1
        orders.setdefault(load.order, free)
        taken.add(orders[load.order])
    names = {load.number for load in alone}
    for load in loads:
        yield replace(load, order=orders[load.order]) if load.number in names else load
