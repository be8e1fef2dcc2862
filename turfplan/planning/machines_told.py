"""Says on a job whose day has moved that its machine was reserved for another one."""

from datetime import date

from turfplan.message import Day, Message
from turfplan.phrases import buying as phrases
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# The caution, and the value that keeps the day of the reservation from one plan to the next.
KEY, RESERVED = "buying.machine_moved", "reserved"


def with_machines_told(
    tasks: tuple[Task, ...], previous: Plan | None, history: TaskHistory
) -> tuple[Task, ...]:
    """The tasks, with a caution on each that is still to be done with a machine which was reserved,
    by the plan before, for another day than it has now."""
    if previous is None:
        return tasks
    old = {t.id: t for t in previous.tasks}
    return tuple(
        _told(task, old[task.id]) if _was_reserved(task, history) and task.id in old else task
        for task in tasks
    )


def _was_reserved(task: Task, history: TaskHistory) -> bool:
    calls = {name for name in task.depends_on if name.startswith("call.machines.")}
    return bool(calls) and task.id not in history.fixed and calls <= history.done.keys()


def _told(task: Task, before: Task) -> Task:
    known = next((c for c in before.cautions if c.key == KEY), None)
    reserved = _day_of(known) or before.start
    if task.start == reserved:
        return task
    caution = phrases.machine_moved(reserved=Day(reserved))
    return task.model_copy(update={"cautions": (caution, *task.cautions)})


def _day_of(caution: Message | None) -> date | None:
    value = dict(caution.values).get(RESERVED) if caution is not None else None
    return value.day if isinstance(value, Day) else None
