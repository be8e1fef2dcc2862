"""What works through the leaves keeps a day apart from what is watered in."""

from collections.abc import Sequence

from turfplan.phrases import amendments as phrases
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.work.drafts import Draft
from turfplan.work.feeding.amendments import IRON

# Operations whose material is watered in, but for the one that is sprayed on the leaves.
WATERED_IN = ("feed_nitrogen", "amend", "lime", "preemergent")


def apart_on_leaves(drafts: Sequence[Draft]) -> list[Lag]:
    """Iron goes on at least a day before or after each of those, as their wished days lie."""
    sprayed = [d for d in drafts if d.operation == "amend" and d.key == IRON]
    watered = [d for d in drafts if d.operation in WATERED_IN and d not in sprayed]
    return [_apart(iron, other) for iron in sprayed for other in watered]


def _apart(iron: Draft, other: Draft) -> Lag:
    first, then = (other, iron) if (other.ideal or 0) < (iron.ideal or 0) else (iron, other)
    return Lag(
        f"iron_apart:{first.id}>{then.id}",
        first.end_node,
        then.start_node,
        Strength.ADVICE,
        Reason("iron_apart", phrases.iron_apart()),
        DayStep(1),
    )
