"""Says when the parts of plants come that go in on several days: none lies longer than it keeps."""

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from turfplan.message import Day, Sold, listed
from turfplan.messages import Words
from turfplan.phrases import order_sheet as phrases
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task

# What is counted or laid is told in whole ones, sprigs in hundredths of their measure.
_STEPS = {"pieces": 1.0, "m2": 1.0}
_FINE = 0.01
_HAIR = 1e-6


def planting_days(plan: Plan, line: OrderLine) -> tuple[date, ...]:
    """The days on which parts of plants are wanted: that of their delivery, then each further day
    of planting; none where all go in on one."""
    planted = [
        task
        for task in plan.tasks
        if task.closed is None and task.operation == "plant" and {*task.depends_on} & {*line.tasks}
    ]
    days = sorted({day for task in planted for day in _days(task)})
    return (line.deliver_by, *days[1:]) if len(days) > 1 else ()


def _days(task: Task) -> Iterator[date]:
    """The days on which a task is worked."""
    span = (task.start + timedelta(n) for n in range((task.end - task.start).days + 1))
    yield from task.worked_on or span


def by_days(plan: Plan, line: OrderLine, words: Words) -> str:
    """How much of what lives comes on which day; nothing where it all comes on one."""
    days = planting_days(plan, line)
    if not days:
        return ""
    step = _STEPS.get(line.unit, _FINE)
    each, each_us = (
        ceil(value / len(days) / step - _HAIR) * step for value in (line.value, line.value_us)
    )
    amount = Sold(each, line.unit, each_us, line.unit_us)
    return words.text(phrases.by_days(amount=amount, days=listed(map(Day, days))))
