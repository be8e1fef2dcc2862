"""Everything that is delivered was ordered in time, and comes before it is used."""

from collections.abc import Iterator

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.open_ground import FILL
from turfplan.records.plan_task import Task

# What comes by the truck, with a task that receives it.
PLANTS = ("sod", "plugs", "sprigs")
BULK = ("mix", "topsoil", *PLANTS)
LIFTING = "lift_and_fill"


def _orders_of(case: Case, delivery: Task) -> list[Task]:
    """The tasks that order what a delivery brings: the delivery hangs on them."""
    named = (case.by_id.get(name) for name in delivery.depends_on)
    return [task for task in named if task is not None and task.plays("ordering")]


def _deliveries_of(case: Case, layer: Task) -> list[Task]:
    named = (case.by_id.get(name) for name in layer.depends_on)
    return [task for task in named if task is not None and task.plays("delivery")]


def brings_soil(case: Case, delivery: Task) -> bool:
    """True where a delivery is of the soil of lifted hollows: lifting hangs on it."""
    return any(delivery.id in task.depends_on for task in case.all_jobs(LIFTING))


def in_bags(case: Case, delivery: Task) -> bool:
    """True where what comes that day is fetched in bags: no truckload stands in its line."""
    item = "topsoil" if brings_soil(case, delivery) else "mix"
    came = [line for line in case.plan.order if line.item == item]
    own = [line for line in came if line.deliver_by == delivery.start]
    return bool(own) and not any(line.loads for line in own)


def skipped(case: Case) -> bool:
    """True where the owner left out an order or a delivery: what is bought is then the owner's
    affair."""
    return any(
        task.closed == "skipped" for task in case.plan.tasks if task.plays("ordering", "delivery")
    )


def _brings_plants(case: Case, delivery: Task) -> bool:
    return any(line.item in PLANTS and delivery.id in line.tasks for line in case.plan.order)


def every_delivery_ordered(case: Case) -> Iterator[Fault]:
    """Every open delivery hangs on the task that orders it; an errand is its own."""
    for delivery in case.to_do("delivery") if not skipped(case) else ():
        if not _orders_of(case, delivery) and not in_bags(case, delivery):
            yield fault("delivery_without_order", delivery)


def ordered_in_time(case: Case) -> Iterator[Fault]:
    """Between an open order and its delivery lie the days that the supplier needs."""
    asked = case.brief.delivery.lead_days
    lead = asked if asked is not None else case.days("setting.lead_days_assumed")
    for delivery in case.to_do("delivery"):
        # A grower has days of its own.
        for order in _orders_of(case, delivery) if not _brings_plants(case, delivery) else ():
            if order.closed is None and (delivery.start - order.end).days < lead:
                yield fault(
                    "delivered_before_ordered",
                    delivery,
                    order,
                    day=delivery.start,
                    ordered=order.end,
                    least_days=lead,
                )


def delivered_before_use(case: Case) -> Iterator[Fault]:
    """A pass goes on after its mix has come and had its days in hand to be checked and dried.

    The soil of a lift need not dry.
    """
    for layer in case.to_do("spreading"):
        reserve = 0 if layer.operation == FILL else case.days("order.dry_reserve")
        for delivery in _deliveries_of(case, layer):
            if (
                delivery.closed is None
                and not delivery.overdue
                and (layer.start - delivery.end).days < reserve
            ):
                yield fault(
                    "pass_before_delivery",
                    layer,
                    delivery,
                    day=layer.start,
                    delivered=delivery.end,
                    least_days=reserve,
                )


def soil_before_lifting(case: Case) -> Iterator[Fault]:
    """Hollows are lifted only where a task before it brings their soil."""
    if skipped(case):
        return
    for lift in case.jobs(LIFTING):
        if not _deliveries_of(case, lift):
            yield fault("lifted_without_soil", lift, day=lift.start)


def lines_forward(case: Case) -> Iterator[Fault]:
    """No line of the order is delivered before it is ordered."""
    for line in case.plan.order:
        if line.deliver_by < line.order_by:
            yield fault(
                "line_delivered_before_ordered",
                item=line.item,
                ordered=line.order_by,
                delivered=line.deliver_by,
            )


def lines_on_their_days(case: Case) -> Iterator[Fault]:
    """Every open order and delivery of the calendar has a line of the order on its day."""
    if skipped(case):
        return
    ordered = {line.order_by for line in case.plan.order if line.item in BULK}
    delivered = {line.deliver_by for line in case.plan.order if line.item in BULK}
    for tasks, days in ((case.to_do("ordering"), ordered), (case.to_do("delivery"), delivered)):
        for task in tasks:
            if task.start not in days:
                yield fault("line_off_its_day", task, day=task.start)


INVARIANTS = (
    every_delivery_ordered,
    ordered_in_time,
    delivered_before_use,
    soil_before_lifting,
    lines_forward,
    lines_on_their_days,
)
