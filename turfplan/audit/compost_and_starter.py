"""Starter goes with seed alone, never beside compost.

Phosphorus only where law and test ask for it.
"""

from collections.abc import Iterator
from datetime import timedelta

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.ground_said import ground_m2
from turfplan.message import Message
from turfplan.records.plan_task import Task

# The sentence with which a plan leaves seed to the compost of its mix.
COMPOST_FEEDS = "feeding.starter.compost_feeds"
# What brings phosphate by its rate: along with a bag, or by itself.
PHOSPHATE = ("phosphate", "phosphate to add")


def no_starter_with_compost(case: Case) -> Iterator[Fault]:
    """Compost that lies under the seed feeds the seedlings: a starter beside it is too much."""
    if not any(part.item == "compost" for line in case.plan.order for part in line.parts):
        return
    if _layer_is_missed(case):
        return
    for task in case.to_do("starter"):
        yield fault("starter_with_compost", task, day=task.start)


def compost_lies_under_seed(case: Case) -> Iterator[Fault]:
    """No plan leaves seed to compost that lies on less than half of it, or is a season old."""
    said = {reason.key for reason in case.plan.campaign_reason if isinstance(reason, Message)}
    if COMPOST_FEEDS in said and _layer_is_missed(case, surely=True):
        for task in case.to_do("sowing"):
            yield fault("compost_feeds_other_ground", task, day=task.start)


def _layer_is_missed(case: Case, *, surely: bool = False) -> bool:
    """Whether most of the seed may lie off the mix, or the mix was spread too long before it;
    `surely` where it must, at the farther end of what the book gives.

    Of hollows and of thin spots nobody said how far they are the same ground.
    """
    covers = case.book.fact("feeding.compost_covers")
    least = covers.low_si if surely else covers.high_si
    if case.brief.leveling.survey is not None and not surely:
        # How much of the lawn a survey has filled is not told.
        return True
    for sowing in case.all("sowing"):
        sown, fresh = ground_m2(case, sowing), _fresh_m2(case, sowing, surely=surely)
        under = fresh if surely else max(0.0, fresh + sown - case.plan.lawn.area_m2)
        if under < least * sown:
            return True
    return False


def _fresh_m2(case: Case, sowing: Task, *, surely: bool) -> float:
    """The ground of the widest pass that was spread shortly before a sowing, m2.

    Zones and hollows that take more passes than the rest get the later ones alone. Where it is not
    to be sure, seed that rests over winter is counted from the day on which it can wake first.
    """
    fresh = case.book.fact("feeding.compost_fresh")
    wakes = sowing.start
    if sowing.plays("dormant") and not surely:
        wakes += timedelta(case.days("seeding.dormant_rest"))
    first = wakes - timedelta(round(fresh.high_si if surely else fresh.low_si))
    spread = case.all("spreading")
    return max((ground_m2(case, task) for task in spread if task.end >= first), default=0.0)


def starter_with_seed(case: Case) -> Iterator[Fault]:
    """A starter is given with seed, or within days of it, unless its owner moved it; to seed that
    rests over winter when it wakes, before it is looked for.
    """
    most = case.days("order.starter_most")
    sowings = case.all("sowing")
    for task in case.to_do("starter"):
        named = (
            [sowing for sowing in sowings if sowing.id in task.depends_on] if not task.held else []
        )
        if not sowings or not all(_in_its_time(case, task, sowing) for sowing in named):
            yield fault("starter_without_seed", task, day=task.start, most_days=most)


def _in_its_time(case: Case, starter: Task, sowing: Task) -> bool:
    """Within days of the seed, or strip by strip beside it; of seed that rests when it wakes."""
    if sowing.plays("dormant"):
        look = case.by_id.get("inspect.germination")
        rested = sowing.end + timedelta(case.days("seeding.dormant_rest"))
        return rested <= starter.start and (look is None or starter.start <= look.end)
    beside = (starter.start, starter.end) == (sowing.start, sowing.end)
    return beside or 0 <= (starter.start - sowing.end).days <= case.days("order.starter_most")


def phosphate_asked_for(case: Case) -> Iterator[Fault]:
    """No task gives phosphate where law or test does not ask for it, nor by the owner's own bag."""
    if _phosphate_may_be_given(case):
        return
    for task in case.open:
        for amount in task.amounts:
            if amount.item in PHOSPHATE and amount.value > 0:
                yield fault("phosphate_unasked", task, rate_g_m2=amount.value)


def _phosphate_may_be_given(case: Case) -> bool:
    """True where no law bans phosphorus and a dated test finds it low, by word or by number."""
    test, law = case.brief.soil_test, case.brief.local.phosphorus
    reading = test.phosphorus
    if law == "banned" or test.on is None or reading is None:
        return False
    usual = case.book.facts.get(f"reading.phosphorus_{reading.method}")
    if reading.value_mg_kg is None or usual is None:
        return reading.level == "low"
    return reading.value_mg_kg < usual.low_si


INVARIANTS = (
    no_starter_with_compost,
    compost_lies_under_seed,
    starter_with_seed,
    phosphate_asked_for,
)
