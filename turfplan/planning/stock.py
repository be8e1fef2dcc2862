"""Reckons what is still to be bought after what was ordered, delivered and used."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final

from turfplan.planning.ordered_before import asked_of_loads
from turfplan.planning.short_of_mix import (
    LEAST_M3,
    fetched_by_load,
    logged_m3,
    open_passes,
    shared_out,
    still_lacking,
)
from turfplan.records.book_names import COLLECTIVES
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft, Load
from turfplan.work.season import FillVolumes

# What is short by less than this part of a load no shovel tells.
WORTH_A_TRIP: Final = 0.01
# Nothing of any load.
NOTHING: Final[Mapping[int, float]] = MappingProxyType({})
# The call for a load that was sent back, by what the load is called.
REFUSED: Final = "call.refused"


@dataclass(frozen=True, slots=True)
class Stock:
    """What is here and what is missing, loose m3.

    `more` is what the order of a load takes more (below zero: less) than its passes need,
    `short_m3` what is short and has to be fetched, `settled` the tasks whose goods are here, or not
    wanted any more; `unasked` are orders that were skipped, `lacks` what is short of each load.
    `as_it_comes` are the loads of which was logged how much was ordered or came: they are told as
    they are, not as they would be sold. `left_over_m3` is what nothing to come takes up.
    """

    more: Mapping[int, float] = field(default_factory=dict)
    short_m3: float = 0.0
    settled: frozenset[str] = frozenset()
    unasked: frozenset[str] = frozenset()
    lacks: Mapping[int, float] = field(default_factory=dict)
    as_it_comes: frozenset[int] = frozenset()
    left_over_m3: float = 0.0

    def missing_m3(self, load: int) -> float:
        """What a load that has come lacks of what it is for, less what others brought beyond and
        what was fetched; 0 where it is still to come, was left out, or brought enough."""
        came = f"delivery.{load}" in self.settled - self.unasked
        return self.lacks.get(load, 0.0) if came else 0.0


def needed_m3(loads: Sequence[Load], volumes: FillVolumes) -> dict[int, float]:
    """The loose m3 that each load is for: its passes, with the last the touch-up."""
    needed = {load.number: load.loose_m3 for load in loads}
    if needed:
        needed[max(needed)] += volumes.touch_up_m3
    return needed


def skipped_passes(volumes: FillVolumes, history: TaskHistory) -> set[int]:
    """The numbers of the passes that were skipped."""
    return _passes_among(history.left_out, volumes)


def _passes_among(names: Collection[str], volumes: FillVolumes) -> set[int]:
    """The numbers of the passes among some tasks."""
    ids = {f"{operation}.{n}": n for operation in COLLECTIVES["spreading"] for n in volumes.passes}
    return {number for name, number in ids.items() if name in names}


def wanted_loads(
    loads: Sequence[Load], volumes: FillVolumes, history: TaskHistory, skipped: Collection[int]
) -> tuple[Load, ...]:
    """The loads without what passes take that were `skipped` (by number) before it was ordered; one
    that comes in place of what has spoiled is for the passes that are still to come."""
    spread = {*skipped, *_passes_among(history.done, volumes)}
    over = {load.number: spread if load.number in history.spoiled else skipped for load in loads}
    return tuple(
        load
        if is_under_way(load, history)
        else replace(load, loose_m3=load.loose_m3 * _still_spread(load, volumes, over[load.number]))
        for load in loads
    )


def not_spread_m3(
    loads: Sequence[Load], volumes: FillVolumes, history: TaskHistory, skipped: Collection[int]
) -> dict[int, float]:
    """What the loads under way have for passes that were `skipped`: it lies there for others."""
    return {
        load.number: load.loose_m3 * (1 - _still_spread(load, volumes, skipped))
        for load in loads
        if is_under_way(load, history)
    }


def is_under_way(load: Load, history: TaskHistory) -> bool:
    """Whether a load is ordered, or here."""
    names = (f"order_material.{load.order}", f"delivery.{load.number}")
    return any(name in history.done for name in names)


def _still_spread(load: Load, volumes: FillVolumes, skipped: Collection[int]) -> float:
    """The share of a load that is for passes that were not skipped."""
    whole = sum(volumes.passes[number] for number in load.passes)
    left = (volumes.passes[number] for number in load.passes if number not in skipped)
    return sum(left) / whole if whole else 1.0


def stock_of(
    needed: Mapping[int, float],
    ordered: Mapping[int, float],
    drafts: Sequence[Draft],
    history: TaskHistory,
    loads: Sequence[Load] = (),
    idle: Mapping[int, float] = NOTHING,
) -> Stock:
    """What the journal leaves to be ordered.

    `needed` and `ordered` are loose m3 by load, needed exactly and as sold; `drafts` are the
    passes; `loads` say which order each is part of (else its own), `idle` what of a load is for
    passes that were skipped. What came beyond the order, and what a pass took less than planned, is
    over and makes the next open order smaller. The contrary is short, as far as rounding up to what
    is sold has not covered it: it is fetched for the passes of that load, so no later order grows.
    """
    orders = {number: number for number in ordered} | {load.number: load.order for load in loads}
    asked, beyond = asked_of_loads(loads, ordered, history)
    came = {n: _came(n, asked, orders, history) for n in asked}
    under_way = {n: m3 + beyond[n] for n, m3 in came.items() if m3 is not None}
    more = {n: m3 - needed[n] for n, m3 in under_way.items()}
    used, unserved = _used_by_load(drafts, history, loads, set(under_way))
    balance = {n: m3 + idle.get(n, 0.0) - used.get(n, 0.0) for n, m3 in more.items()}
    for n, m3 in fetched_by_load(more, drafts, loads, history).items():
        balance[n] += m3
    here = {n for n in under_way if f"delivery.{n}" in history.done}
    lacks, left = shared_out(balance, here)
    # What rounding up to what is sold brings is no reason to order less.
    rounded = {n: max(0.0, ordered[n] - needed[n]) for n in left}
    over = sum(max(0.0, m3 - rounded[n]) for n, m3 in left.items()) - unserved
    for number in ordered:
        if number not in more and abs(over) > LEAST_M3:
            taken = min(over, needed[number])
            more[number] = -taken
            over -= taken
    lacks = {n: m3 for n, m3 in lacks.items() if m3 > WORTH_A_TRIP * needed[n]}
    lacks = still_lacking(lacks, drafts, loads, history)
    # An order that brought just what was asked for is told as it was.
    differing = {n: m for n, m in more.items() if abs(m - (ordered[n] - needed[n])) > LEAST_M3}
    return Stock(
        differing,
        sum(lacks.values()) - min(0.0, over),
        frozenset(history.done) | history.left_out,
        history.left_out,
        lacks,
        frozenset(n for n in under_way if _logged_of(n, orders, history) is not None),
        max(0.0, over),
    )


def _came(
    load: int, ordered: Mapping[int, float], orders: Mapping[int, int], history: TaskHistory
) -> float | None:
    """The volume that a load brought, or will bring by its share of what was logged of its order;
    None while it is not ordered."""
    planned_m3, names = ordered[load], (f"delivery.{load}", f"order_material.{orders[load]}")
    if not any(name in history.done for name in names):
        return None
    logged = _logged_of(load, orders, history)
    if logged is None or names[0] in history.done:
        return planned_m3 if logged is None else logged
    whole_m3 = sum(each for other, each in ordered.items() if orders[other] == orders[load])
    return logged * planned_m3 / whole_m3


def _logged_of(load: int, orders: Mapping[int, int], history: TaskHistory) -> float | None:
    """The volume that was logged of what a load brought, or, before it is here, of its order."""
    delivery, order = f"delivery.{load}", f"order_material.{orders[load]}"
    return logged_m3(delivery if delivery in history.done else order, history)


def _used_by_load(
    drafts: Sequence[Draft],
    history: TaskHistory,
    loads: Sequence[Load],
    under_way: Collection[int],
) -> tuple[dict[int, float], float]:
    """What passes took beyond what was planned, loose m3, by the load that is under way for them,
    and of those that have none."""
    by_load: dict[int, float] = {}
    unserved = 0.0
    for draft in drafts:
        served = [load.number for load in loads if draft.position in load.passes]
        shares = not served or any(open_passes(n, drafts, loads, history) for n in served)
        more = _used(draft, history, shares=shares)
        # A heap of which no load is known is that of the last.
        if own := [n for n in (served or under_way) if n in under_way]:
            by_load[max(own)] = by_load.get(max(own), 0.0) + more
        else:
            unserved += more
    return by_load, unserved


def _used(draft: Draft, history: TaskHistory, *, shares: bool) -> float:
    """What a pass took beyond what was planned, loose m3; nothing where no volume is logged. More
    than was planned takes from others where it `shares` their load, else it came from elsewhere."""
    logged = logged_m3(draft.id, history)
    if logged is None or not draft.loose_m3:
        return 0.0
    more = logged - draft.loose_m3 * history.actual[draft.id].share
    return more if shares else min(0.0, more)
