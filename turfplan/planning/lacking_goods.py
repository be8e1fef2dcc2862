"""What is missing of seed and plants that were fetched or brought, by what was logged of them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import ceil
from types import MappingProxyType
from typing import Final

from turfplan.message import Message, Number, Quantity
from turfplan.phrases import order as phrases
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount
from turfplan.work.drafts import Draft
from turfplan.work.phases.buying import MORE_SEED

# What is short by less than this part is within the seed held back, and the offcuts of sod.
WITHIN: Final = 0.05
_TOLD: Mapping[str, Callable[[float], Message]] = MappingProxyType(
    {
        "seed": lambda kg: phrases.sold(amount=Quantity(kg, "mass", "up")),
        "sod": lambda m2: phrases.sold(amount=Quantity(m2, "area", "up")),
        "plugs": lambda n: phrases.pieces(n=ceil(n), pieces=Number(ceil(n), "grouped")),
        "sprigs": lambda m3: phrases.sold(amount=Quantity(m3, "sprig_volume", "up")),
    }
)


def told_as_lacking(
    draft: Draft, amounts: Sequence[Amount], history: TaskHistory | None
) -> Message | None:
    """What is said of a sowing or planting still to come for which less is here than it takes; None
    where enough came, or nobody says how much. What is begun, or lost, has a buying of its own."""
    lacks = _lacking(draft, amounts, history)
    if lacks is None:
        return None
    need, missing = lacks
    tell = phrases.less_seed_came if need.item == "seed" else phrases.fewer_plants_came
    return tell(missing=_TOLD[need.item](missing))


def is_short_of_seed(draft: Draft, amounts: Sequence[Amount], history: TaskHistory) -> bool:
    """Whether less seed is here than a sowing to come takes."""
    lacks = _lacking(draft, amounts, history)
    return lacks is not None and lacks[0].item == "seed"


def with_missing_seed(
    drafts: Mapping[str, Draft], history: TaskHistory | None
) -> Mapping[str, Draft]:
    """The tasks as they are bought for: a sowing for which less seed is here than it takes with the
    seed that is missing alone."""
    return {name: _to_buy(draft, history) for name, draft in drafts.items()}


def _to_buy(draft: Draft, history: TaskHistory | None) -> Draft:
    lacks = _lacking(draft, draft.amounts, history)
    if lacks is None or lacks[0].item != "seed":
        return draft
    need, missing = lacks
    reason = phrases.more_seed_reason(missing=_TOLD["seed"](missing))
    part = Amount.of("seed", missing, need.unit, reason).model_copy(update={"facts": need.facts})
    return replace(draft, amounts=tuple(part if a is need else a for a in draft.amounts))


def _lacking(
    draft: Draft, amounts: Sequence[Amount], history: TaskHistory | None
) -> tuple[Amount, float] | None:
    """What a sowing or planting takes, and how much of that is missing; None where enough came, or
    nobody says how much. A second trip of which nobody says how much it fetched brought it all."""
    need = next((amount for amount in amounts if amount.item in _TOLD), None)
    if history is None or need is None or history.lost is not None:
        return None
    if draft.id in history.done or draft.id in history.part_done:
        return None
    again = f"collect.{MORE_SEED}"
    names = {*draft.bought_by, f"delivery.{draft.form}", again} & history.done.keys()
    came = {
        name: [used.value for used in history.actual[name].amounts if used.unit == need.unit]
        for name in names
        if name in history.actual
    }
    missing = need.value - sum(map(sum, came.values()))
    all_fetched = again in names and not came.get(again)
    if not any(came.values()) or all_fetched or missing <= WITHIN * need.value:
        return None
    return need, missing
