"""What is missing of seed and plants that were fetched or brought, by what was logged of them."""

from collections.abc import Callable, Mapping, Sequence
from math import ceil
from types import MappingProxyType
from typing import Final

from turfplan.message import Message, Number, Quantity
from turfplan.phrases import order as phrases
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount
from turfplan.work.drafts import Draft

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
    need = next((amount for amount in amounts if amount.item in _TOLD), None)
    if history is None or need is None or history.lost is not None:
        return None
    if draft.id in history.done or draft.id in history.part_done:
        return None
    names = {*draft.bought_by, f"delivery.{draft.form}"} & history.done.keys()
    came = [
        used.value
        for name in names
        if name in history.actual
        for used in history.actual[name].amounts
        if used.unit == need.unit
    ]
    missing = need.value - sum(came)
    if not came or missing <= WITHIN * need.value:
        return None
    tell = phrases.less_seed_came if need.item == "seed" else phrases.fewer_plants_came
    return tell(missing=_TOLD[need.item](missing))
