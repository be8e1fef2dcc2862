"""What is bought covers what is used, in parts and loads that add up to it."""

import math
from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from turfplan.audit.case import Case
from turfplan.audit.deliveries import BULK
from turfplan.audit.faults import Fault, fault

M3, SHARE = 1e-4, 1e-4
# The last digit of a mass.
KG = 0.001
# The line of the order that brings what a task's amount names.
BOUGHT_AS = {
    "seed": "seed",
    "straw": "straw",
    "mat": "mat",
    "pegs": "pegs",
    "sod": "sod",
    "plugs": "plugs",
    "sprigs": "sprigs",
    "lime": "lime",
    "sulfur": "sulfur",
    "iron sulfate": "iron sulfate",
    "gypsum": "gypsum",
    "potash to add in all": "potash",
    "phosphate to add in all": "phosphate",
}


def deliveries_as_ordered(case: Case) -> Iterator[Fault]:
    """An open delivery brings, and an open order asks for, what a line of the order on its day
    says."""
    for role in ("ordering", "delivery"):
        for task in case.to_do("ordering" if role == "ordering" else "delivery"):
            for amount in task.amounts:
                values = _asked_on(case, task.start, ordering=role == "ordering")
                if values and not any(
                    math.isclose(amount.value, value, rel_tol=SHARE) for value in values
                ):
                    yield fault("load_differs", task, volume_m3=amount.value, line_m3=values[0])


def _asked_on(case: Case, day: date, *, ordering: bool) -> list[float]:
    """What lines of the order say of a day, m3; an order asks for several deliveries at once."""
    values: list[float] = []
    for item in BULK:
        own = [
            line.value
            for line in case.plan.order
            if line.item == item and day == (line.order_by if ordering else line.deliver_by)
        ]
        values += own
        values += [sum(own)] if ordering and len(own) > 1 else []
    return values


def mix_covers_passes(case: Case) -> Iterator[Fault]:
    """Before anything is ordered or spread, the order covers every pass and the touch-up."""
    users = (*case.to_do("spreading"), *case.jobs("touch_up"))
    needed = sum(
        amount.value for task in users for amount in task.amounts if amount.item == "volume"
    )
    bought = sum(line.value for line in case.plan.order if line.item == "mix")
    begun = any(
        task.closed for task in case.plan.tasks if task.plays("spreading", "delivery", "ordering")
    )
    if needed and not begun and bought < needed - M3:
        yield fault("mix_short", bought_m3=bought, needed_m3=needed)


def goods_cover_tasks(case: Case) -> Iterator[Fault]:
    """Seed, plants, straw and lime of the order cover what the open tasks take.

    Fertilizer at hand is not bought.
    """
    needed: dict[str, float] = defaultdict(float)
    for task in case.open:
        for amount in task.amounts:
            if amount.item in BOUGHT_AS:
                needed[BOUGHT_AS[amount.item]] += amount.value
    for item, value in needed.items():
        bought = sum(line.value for line in case.plan.order if line.item == item)
        if bought < value * (1 - SHARE) - KG:
            yield fault("goods_short", item=item, bought=bought, needed=value)


def parts_add_up(case: Case) -> Iterator[Fault]:
    """The parts of what is bought add up to it, each by its share."""
    for line in case.plan.order:
        if not line.parts:
            continue
        total = sum(part.value for part in line.parts)
        shares = [part.share for part in line.parts if part.share is not None]
        alike = all(
            math.isclose(part.value, line.value * part.share, rel_tol=SHARE, abs_tol=1e-5)
            for part in line.parts
            # Whole bags bring more of one part than of another.
            if part.share is not None and (line.loads or line.item != "mix")
        )
        if (
            not math.isclose(total, line.value, rel_tol=SHARE)
            or abs(sum(shares) - 1) > SHARE
            or not alike
        ):
            yield fault("parts_differ", item=line.item, parts=total, value=line.value)


def loads_add_up(case: Case) -> Iterator[Fault]:
    """The truckloads of a line bring all of it."""
    for line in case.plan.order:
        if line.loads and not math.isclose(sum(line.loads), line.value, rel_tol=SHARE):
            yield fault(
                "loads_differ", item=line.item, loads_m3=sum(line.loads), value_m3=line.value
            )


def loads_fit_truck(case: Case) -> Iterator[Fault]:
    """No load is more than the truck may bring."""
    limit = case.brief.delivery.truck_limit_m3
    for line in case.plan.order:
        if limit is not None and line.item == "mix" and max(line.loads, default=0.0) > limit + M3:
            yield fault("load_over_limit", item=line.item, load_m3=max(line.loads), limit_m3=limit)


INVARIANTS = (
    deliveries_as_ordered,
    mix_covers_passes,
    goods_cover_tasks,
    parts_add_up,
    loads_add_up,
    loads_fit_truck,
)
