"""A job of several days keeps its promises on its last day as on its first."""

from collections.abc import Iterator

from turfplan.audit.case import Case
from turfplan.audit.deliveries import brings_soil, in_bags
from turfplan.audit.faults import Fault, fault
from turfplan.records.plan_task import Task

DRY_MIX = "topdress"


def _side_by_side(one: Task, other: Task) -> bool:
    """Strip by strip: two jobs of several days on the same days."""
    return one.start != one.end and (one.start, one.end) == (other.start, other.end)


def heap_is_fresh(case: Case) -> Iterator[Fault]:
    """On the first and the last day of a pass lies a load that is not older than a heap keeps.

    Soil for lifts on ground without grass is not kept dry, and may lie; closed bags keep.
    """
    most = case.days("order.storage_days")
    came = [
        task
        for task in case.all("delivery")
        if task.closed not in ("skipped", "dropped") and not brings_soil(case, task)
    ]
    closed = any(task.closed or task.overdue or task.held for task in came)
    bagged = any(in_bags(case, task) for task in came)
    for layer in case.jobs(DRY_MIX) if came and not closed and not bagged else ():
        for day in {layer.start, layer.end}:
            if not any(0 <= (day - load.end).days <= most for load in came):
                yield fault("heap_too_old", layer, *came, day=day, most_days=most)


def cut_is_fresh(case: Case) -> Iterator[Fault]:
    """The mix is never dragged through grass that has grown since its low cut for too long."""
    most = case.days("order.low_cut_fresh")
    cuts = case.to_do("low_cut")
    for layer in case.to_do("spreading"):
        before = [c for c in cuts if c.id in layer.depends_on]
        if not before or any(_side_by_side(cut, layer) for cut in cuts):
            continue
        last = max(before, key=lambda cut: cut.start)
        if (layer.end - last.start).days > most:
            yield fault("cut_too_old", layer, last, day=layer.end, cut=last.start, most_days=most)


def seed_in_fresh_mix(case: Case) -> Iterator[Fault]:
    """Seed that goes on a pass lies on every part of it within days."""
    most = case.days("seeding.on_pass_most")
    for sowing in case.to_do("sowing"):
        if sowing.plays("dormant"):
            continue
        for layer in case.to_do("spreading"):
            late = (sowing.end - layer.start).days > most and layer.end <= sowing.end
            follows = 0 <= (sowing.start - layer.end).days <= most
            if late and follows and not _side_by_side(sowing, layer):
                yield fault(
                    "seed_off_its_pass",
                    sowing,
                    layer,
                    day=sowing.end,
                    spread=layer.start,
                    most_days=most,
                )


INVARIANTS = (heap_is_fresh, cut_is_fresh, seed_in_fresh_mix)
