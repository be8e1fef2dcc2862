"""What work that was done otherwise than planned leaves to be said: mix that nothing takes up any
more, and a pass that was spread deeper than its grass bears."""

from collections.abc import Iterator

from turfplan.message import Message, Number, length_mm
from turfplan.phrases import order as of_order
from turfplan.phrases import plan_cautions as phrases
from turfplan.planning.bought_for_tasks import bulk_orders
from turfplan.planning.candidates import Candidate
from turfplan.planning.load_reasons import loose
from turfplan.planning.rest_of_fill import ALIKE, laid_part
from turfplan.records.past import TaskHistory
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import sold_step_m3


def told_of_material(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory
) -> tuple[Message, ...]:
    """What is told of mix that is left over and of passes that lie too thick."""
    return (*_left_over(setting, candidate, history), *_laid_thick(setting, candidate, history))


def _left_over(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory
) -> Iterator[Message]:
    """That mix is left over, from the least that is sold on, and what becomes of it; of a load that
    has not come, that it can still be smaller."""
    season = candidate.season
    _, stock = bulk_orders(setting, season, candidate.mix, candidate.volumes, history)
    if stock.left_over_m3 < sold_step_m3(setting.system):
        return
    coming = any(
        f"order_material.{load.order}" in stock.settled - stock.unasked
        and f"delivery.{load.number}" not in stock.settled
        for load in season.loads
    )
    tell = of_order.left_over_ordered if coming else of_order.left_over
    yield tell(volume=loose(stock.left_over_m3))


def _laid_thick(
    setting: ResolvedLawn, candidate: Candidate, history: TaskHistory
) -> Iterator[Message]:
    """Of the last pass that is done, while the grass grows through it: that it lies deeper than
    grass bears at once."""
    passes = [p for p in candidate.campaign.passes if f"topdress.{p.number}" in history.done]
    if setting.on_open_ground or not passes:
        return
    last = max(passes, key=lambda p: (history.done[f"topdress.{p.number}"], p.number))
    name = f"topdress.{last.number}"
    depth_mm = last.depth_mm * laid_part(name, last, history)
    grown = history.done[name] + setting.days("order.leaf_tips_most")
    if depth_mm <= last.cap_mm * (1 + ALIKE) or setting.today.toordinal() > grown:
        return
    yield phrases.laid_thick(
        number=Number(last.number), depth=length_mm(depth_mm), most=length_mm(last.cap_mm)
    )
