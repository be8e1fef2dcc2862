"""Everything that is bought has tasks that see to it, done before it is used."""

from collections.abc import Iterator

from turfplan.audit.case import Case
from turfplan.audit.deliveries import PLANTS
from turfplan.audit.faults import Fault, fault
from turfplan.audit.goods import BOUGHT_AS
from turfplan.message import Message
from turfplan.records.plan import OrderLine
from turfplan.records.plan_task import Role, Task

BUYING: tuple[Role, ...] = ("ordering", "calling", "delivery", "collecting")
CONTRACTOR = "contractor"
# What a soil test that is still out may change, and what the texture of the soil may.
BY_TEST = frozenset({"fertilizer", "lime", "potash", "phosphate", "sulfur", "gypsum"})


def _tasks_of(case: Case, line: OrderLine) -> list[Task]:
    named = (case.by_id.get(name) for name in line.tasks)
    return [task for task in named if task is not None and task.plays(*BUYING)]


def _left_out(case: Case) -> bool:
    """True where the owner skipped something of the buying: what is bought is then their affair."""
    return any(task.closed in ("skipped", "dropped") for task in case.all(*BUYING))


def lines_have_tasks(case: Case) -> Iterator[Fault]:
    """Each thing on the order is ordered, reserved or fetched by a task of the plan."""
    for line in case.plan.order if not _left_out(case) else ():
        if not _tasks_of(case, line):
            yield fault("line_without_task", item=line.item, day=line.order_by)


def bought_before_use(case: Case) -> Iterator[Fault]:
    """What a task takes is fetched or received on its first day, or before."""
    for line in case.plan.order:
        brought = [t for t in _tasks_of(case, line) if t.plays("delivery", "collecting")]
        for user in _users(case, line):
            late = [t for t in brought if t in case.open and t.end > user.start]
            if late:
                yield fault("used_before_bought", user, late[0], day=user.start, came=late[0].end)


def _users(case: Case, line: OrderLine) -> list[Task]:
    """The open tasks that take what a line brings, where one line brings all of it; what several
    bring has a line for each."""
    if sum(other.item == line.item for other in case.plan.order) > 1:
        return []
    return [
        task
        for task in case.open
        if not task.plays(*BUYING)
        and any(BOUGHT_AS.get(amount.item) == line.item for amount in task.amounts)
    ]


def machines_reserved(case: Case) -> Iterator[Fault]:
    """Before tines or blades of a hired machine go in, or on their day, somebody calls for it; a
    contractor brings machines."""
    if case.brief.work.by == CONTRACTOR or _left_out(case):
        return
    called = case.all("calling")
    for job in case.to_do("coring", "thatching"):
        owned = case.book.operations[job.operation].machine in case.brief.work.machines
        if not owned and not any(task.end <= job.start for task in called):
            yield fault("machine_not_reserved", job, day=job.start)


def plants_ordered_in_time(case: Case) -> Iterator[Fault]:
    """Between the open order of plants and their delivery lie the days that a grower needs."""
    lead = case.days("delivery.plants_lead")
    for line in case.plan.order:
        tasks = [task for task in _tasks_of(case, line) if task in case.open]
        orders = [task for task in tasks if task.plays("ordering")]
        brought = [task for task in tasks if task.plays("delivery")]
        for order in orders if line.item in PLANTS else ():
            for came in brought:
                if (came.start - order.end).days < lead:
                    yield fault(
                        "plants_ordered_late",
                        came,
                        order,
                        day=came.start,
                        ordered=order.end,
                        least_days=lead,
                    )


def estimates_said(case: Case) -> Iterator[Fault]:
    """What a soil test that is still to be taken may change says that it is an estimate, and so
    does a load whose mix was chosen beside a soil that was assumed."""
    test = any(task.operation == "soil_test" and task.id != QUESTIONS for task in case.open)
    assumed = case.brief.lawn.soil in (None, "unknown")
    for line in case.plan.order:
        fetched = any(task.plays("collecting") for task in _tasks_of(case, line))
        changed = (test and fetched and line.item in BY_TEST) or (assumed and bool(line.loads))
        if changed and line.estimate is None and _tasks_of(case, line):
            yield fault("estimate_unsaid", item=line.item)


def estimates_looked_into(case: Case) -> Iterator[Fault]:
    """What an order waits for has a job still to come that settles it."""
    for line in case.plan.order:
        estimate = line.estimate
        wanted = LOOKED_INTO.get(estimate.key) if isinstance(estimate, Message) else None
        look = case.by_id.get(wanted) if wanted is not None else None
        if wanted is not None and (look is None or look.closed == "done"):
            yield fault("estimate_without_look", item=line.item)


QUESTIONS = "soil_test.questions"
LOOKED_INTO = {
    "buying.estimate_depth": "inspect.depth",
    "buying.estimate_soil": "inspect.soil",
    "buying.estimate_grass": "inspect.grass",
}
INVARIANTS = (
    lines_have_tasks,
    bought_before_use,
    machines_reserved,
    plants_ordered_in_time,
    estimates_said,
    estimates_looked_into,
)
