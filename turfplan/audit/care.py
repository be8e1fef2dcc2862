"""A plan of care alone is one where neither fill nor seed was asked for, and does neither."""

from collections.abc import Iterator

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.message import Message
from turfplan.records.plan_task import Role

# What a lawn that is neither filled nor sown has none of.
NOT_CARE: tuple[Role, ...] = ("spreading", "sowing", "planting", "relaying", "delivery", "mending")
# By which a plan says that thatch is left, and why.
LEFT = frozenset(
    {
        "plan_cautions.thatch_left",
        "plan_cautions.thatch_not_combed",
        "care_alone.thick",
        "care_alone.not_combed",
        "slopes.no_heavy_machines",
    }
)


def nothing_more_than_asked(case: Case) -> Iterator[Fault]:
    """Nothing is spread, sown, planted or brought for it in a plan of care alone."""
    if case.plan.care_alone:
        for task in case.to_do(*NOT_CARE):
            yield fault("work_not_asked", task, day=task.start)


def nothing_less_than_asked(case: Case) -> Iterator[Fault]:
    """A lawn for which fill or seed is asked is no lawn of care alone."""
    brief, plan = case.brief, case.plan
    filled = bool(brief.leveling.depth_mm or brief.leveling.lows)
    if plan.care_alone and (filled or brief.seeding.intent != "none"):
        yield fault("care_instead_of_work", intent=brief.seeding.intent)


def thatch_answered(case: Case) -> Iterator[Fault]:
    """Thatch over the limit is taken down, or the plan says why it is left."""
    limit, plan = case.book.si("dethatch.limit"), case.plan
    combed = any(task.plays("thatching") for task in plan.tasks)
    if not plan.care_alone or plan.lawn.thatch_mm <= limit or combed:
        return
    said = {text.key for text in plan.cautions if isinstance(text, Message)}
    if said.isdisjoint(LEFT):
        yield fault("thatch_unanswered", thatch_mm=plan.lawn.thatch_mm, limit_mm=limit)


INVARIANTS = (nothing_more_than_asked, nothing_less_than_asked, thatch_answered)
