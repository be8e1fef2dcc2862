"""The ground that a task says it is for, and how much of the lawn a sowing sows."""

from turfplan.audit.case import Case
from turfplan.message import Message, Quantity
from turfplan.records.brief import Seeding
from turfplan.records.plan_task import Task

# The step that says where a job is done, and how large that is.
WHERE, AREA = "places.first_of", "area"
G_IN_KG = 1000


def ground_m2(case: Case, task: Task) -> float:
    """The ground that a task says it is for, m2: of a part what its step says, else the lawn."""
    for step in task.how:
        if isinstance(step, Message) and step.key == WHERE:
            area = dict(step.values).get(AREA)
            if isinstance(area, Quantity):
                return area.value
    return case.plan.lawn.area_m2


def live_share(seeding: Seeding) -> float:
    """The share of the seed at hand that comes up, 0 to 1; all of it where its tag was not told."""
    if seeding.purity_percent is None or seeding.germination_percent is None:
        return 1.0
    return seeding.purity_percent * seeding.germination_percent / 1e4


def sown_m2(case: Case, sowing: Task) -> float | None:
    """The ground that the seed of a sowing is enough for at its own rate, m2; None without seed."""
    values = {amount.item: amount.value for amount in sowing.amounts}
    if "seed" not in values or not values.get("seed rate"):
        return None
    return values["seed"] * live_share(case.brief.seeding) * G_IN_KG / values["seed rate"]
