"""Reckons what is still to be bought after what was ordered, delivered and used."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from turfplan.records.book_names import COLLECTIVES
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft, Load
from turfplan.work.season import FillVolumes

# Less than a handful is no difference.
LEAST_M3 = 0.001
# The trip on which more mix is fetched; later ones are numbered from 2.
MORE_MIX: Final = "collect.mix"


@dataclass(frozen=True, slots=True)
class Stock:
    """What is here and what is missing, loose m3.

    `more` is what the order of a load takes more (below zero: less) than its passes need,
    `short_m3` what is short with no order left to take it, `settled` the tasks whose goods are
    here, or not wanted any more; `unasked` are orders that were skipped.
    """

    more: Mapping[int, float] = field(default_factory=dict)
    short_m3: float = 0.0
    settled: frozenset[str] = frozenset()
    unasked: frozenset[str] = frozenset()

    def missing_m3(self, load: int) -> float:
        """What a load that has come lacks of what it is for, less what earlier ones brought beyond;
        0 where it is still to come, was left out, or brought enough."""
        if f"delivery.{load}" not in self.settled - self.unasked:
            return 0.0
        came = [m for n, m in self.more.items() if n <= load and f"delivery.{n}" in self.settled]
        return max(0.0, -sum(came)) if self.more.get(load, 0.0) < -LEAST_M3 else 0.0


def needed_m3(loads: Sequence[Load], volumes: FillVolumes) -> dict[int, float]:
    """The loose m3 that each load is for: its passes, with the last the touch-up."""
    needed = {load.number: load.loose_m3 for load in loads}
    if needed:
        needed[max(needed)] += volumes.touch_up_m3
    return needed


def skipped_passes(volumes: FillVolumes, history: TaskHistory) -> set[int]:
    """The numbers of the passes that were skipped."""
    ids = {f"{operation}.{n}": n for operation in COLLECTIVES["spreading"] for n in volumes.passes}
    return {number for name, number in ids.items() if name in history.left_out}


def wanted_loads(
    loads: Sequence[Load], volumes: FillVolumes, history: TaskHistory, skipped: Collection[int]
) -> tuple[Load, ...]:
    """The loads without what passes take that were `skipped` (by number) before it was ordered."""
    return tuple(
        load
        if is_under_way(load, history)
        else replace(load, loose_m3=load.loose_m3 * _still_spread(load, volumes, skipped))
        for load in loads
    )


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
) -> Stock:
    """What the journal leaves to be ordered.

    `needed` and `ordered` are loose m3 by load, needed exactly and as sold; `drafts` are the
    passes; `loads` say which order each is part of (else its own). What came beyond the order, and
    what a pass took less than planned, is over and makes the next open order smaller. The contrary
    is short, as far as rounding up to what is sold has not covered it, and makes it larger.
    """
    more: dict[int, float] = {}
    over = spare = 0.0
    orders = {number: number for number in ordered} | {load.number: load.order for load in loads}
    for number, planned in ordered.items():
        amount = _came(number, ordered, orders, history)
        if amount is not None:
            over += amount - planned
            spare += planned - needed[number]
            more[number] = amount - needed[number]
    over -= sum(_used(draft, history) for draft in drafts)
    left = over if over > 0 else min(0.0, over + spare)
    for number in ordered:
        if number not in more and abs(left) > LEAST_M3:
            taken = min(left, needed[number])
            more[number] = -taken
            left -= taken
    # An order that brought just what was asked for is told as it was.
    differing = {n: m for n, m in more.items() if abs(m - (ordered[n] - needed[n])) > LEAST_M3}
    return Stock(
        differing,
        _still_short(-left, history) if left < -LEAST_M3 else 0.0,
        frozenset(history.done) | history.left_out,
        history.left_out,
    )


def _still_short(short_m3: float, history: TaskHistory) -> float:
    """What is short less what was fetched for it since; a trip without an amount fetched it all."""
    fetched = [name for name in history.done if is_more(name)]
    logged = [_logged_m3(name, history) for name in fetched]
    if None in logged:
        return 0.0
    left = short_m3 - sum(m3 for m3 in logged if m3 is not None)
    return left if left > LEAST_M3 else 0.0


def is_more(task: str) -> bool:
    """Whether a trip fetches what is short of the mix."""
    return f"{task}.".startswith(f"{MORE_MIX}.")


def _came(
    load: int, ordered: Mapping[int, float], orders: Mapping[int, int], history: TaskHistory
) -> float | None:
    """The volume that a load brought, or will bring by its share of what was logged of its order;
    None while it is not ordered."""
    planned_m3 = ordered[load]
    if f"delivery.{load}" in history.done:
        logged = _logged_m3(f"delivery.{load}", history)
        return planned_m3 if logged is None else logged
    order = f"order_material.{orders[load]}"
    if order not in history.done:
        return None
    logged = _logged_m3(order, history)
    whole_m3 = sum(each for other, each in ordered.items() if orders[other] == orders[load])
    return planned_m3 if logged is None else logged * planned_m3 / whole_m3


def _used(draft: Draft, history: TaskHistory) -> float:
    """What a pass took beyond what was planned, loose m3; nothing where no volume is logged."""
    logged = _logged_m3(draft.id, history)
    if logged is None or not draft.loose_m3:
        return 0.0
    return logged - draft.loose_m3 * history.actual[draft.id].share


def _logged_m3(task: str, history: TaskHistory) -> float | None:
    if task not in history.actual:
        return None
    volumes = [amount.value for amount in history.actual[task].amounts if amount.unit == "m3"]
    return sum(volumes) if volumes else None
