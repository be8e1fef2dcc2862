"""Reckons what is still to be bought after what was ordered, delivered and used."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from turfplan.planner.history import History
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft
from turfplan.rules.season import Volumes

# Less than a handful is no difference.
LEAST_M3 = 0.001


@dataclass(frozen=True, slots=True)
class Stock:
    """Loose m3 that the order of a session takes more (below zero: less) than its passes need; what is short with no
    order left to take it; and the tasks whose goods are here, or not wanted any more."""

    more: Mapping[int, float] = field(default_factory=dict)
    short_m3: float = 0.0
    settled: frozenset[str] = frozenset()


def needed_m3(campaign: Campaign, volumes: Volumes) -> dict[int, float]:
    """The loose volume that each session's order is for: its passes, and after the last of them the touch-up."""
    needed = {s.number: sum(volumes.passes[p.number] for p in s.passes) for s in campaign.sessions}
    if needed:
        needed[max(needed)] += volumes.touch_up_m3
    return needed


def stock_of(
    needed: Mapping[int, float], ordered: Mapping[int, float], drafts: Sequence[Draft], history: History
) -> Stock:
    """What the journal leaves to be ordered; `needed` and `ordered` are loose m3 by session, needed exactly and as sold;
    `drafts` are the passes.

    What came beyond the order, and what a pass took less than planned, is over and makes the next open order smaller. The
    contrary is short, as far as rounding up to what is sold has not covered it, and makes it larger.
    """
    more: dict[int, float] = {}
    over = spare = 0.0
    for number, planned in ordered.items():
        amount = _came(number, planned, history)
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
    told = {n: m for n, m in more.items() if abs(m - (ordered[n] - needed[n])) > LEAST_M3}
    return Stock(told, max(0.0, -left) if left < -LEAST_M3 else 0.0, frozenset(history.done) | history.skipped)


def _came(session: int, planned_m3: float, history: History) -> float | None:
    """The volume that a session's order brought, or will bring; None while it is not ordered."""
    for task in (f"delivery.{session}", f"order_material.{session}"):
        if task in history.done:
            logged = _logged_m3(task, history)
            return planned_m3 if logged is None else logged
    return None


def _used(draft: Draft, history: History) -> float:
    """What a pass took beyond the volume it was planned with, loose m3; nothing where no volume is logged."""
    logged = _logged_m3(draft.id, history)
    if logged is None or not draft.loose_m3:
        return 0.0
    return logged - draft.loose_m3 * history.actual[draft.id].share


def _logged_m3(task: str, history: History) -> float | None:
    if task not in history.actual:
        return None
    volumes = [amount.value for amount in history.actual[task].amounts if amount.unit == "m3"]
    return sum(volumes) if volumes else None
