"""The feedings of the plan before, as the rules of feeding know them."""

from datetime import date

from turfplan.records.past import KnownFeeding, TaskHistory
from turfplan.records.plan import Plan

_NITROGEN = "feed_nitrogen."
# What is added by a soil test, by the item of its rate.
ADDED: dict[str, str] = {"potash to add": "potash", "phosphate to add": "phosphate"}


def feedings_before(previous: Plan, history: TaskHistory) -> tuple[KnownFeeding, ...]:
    """Each feeding that was given or left out, or that the plan before still had to come."""
    over = history.fixed.keys() - history.held.keys() | history.done.keys() | history.skipped
    found = []
    for task in previous.tasks:
        if not (task.id.startswith(_NITROGEN) or task.operation == "amend"):
            continue
        given = history.done.get(task.id)
        on = task.start if given is None else date.fromordinal(given)
        if task.id in over:
            left_out = task.id in history.skipped and given is None
            added = {ADDED[a.item] for a in task.amounts if a.item in ADDED}
            gave = frozenset() if left_out else frozenset(added)
            found.append(KnownFeeding(task.id.removeprefix(_NITROGEN), on, over=True, gave=gave))
        elif task.status != "CANCELLED":
            found.append(KnownFeeding(task.id.removeprefix(_NITROGEN), on, over=False))
    return tuple(found)
