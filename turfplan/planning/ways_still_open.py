"""The ways to fill a lawn of which a part is done: lifted hollows are not filled again."""

from dataclasses import replace

from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.filling import (
    leaves_all,
    less_what_lies,
    ways_of_filling,
    ways_once_lifted,
)
from turfplan.work.lawn import ResolvedLawn

HAIR_MM = 0.01


def ways_still_open(
    setting: ResolvedLawn, previous: Plan, history: TaskHistory, *, any_part: bool = False
) -> tuple[ResolvedLawn, ...]:
    """The ways of filling that what has happened leaves: all of them, or once turf was lifted those
    that spread the rest beside it; with `any_part` any number of passes, not the fewest alone."""
    begun = history.done.keys() | history.part_done.keys()
    relaid = [task for task in previous.tasks if task.id in begun and task.plays("relaying")]
    ways = ways_of_filling(setting, begun=bool(relaid), any_part=any_part)
    for task in relaid:
        depth_mm = _depth_mm(task)
        same = (way for way in ways if abs(_lift_mm(way) - depth_mm) <= HAIR_MM)
        lifted = next(same, None)
        if lifted is not None:
            return ways_once_lifted(lifted, any_part=any_part)
    lies_mm = _lies_mm(previous, history)
    if not lies_mm:
        return ways
    return tuple(
        replace(way, levelling=less_what_lies(way.levelling, lies_mm))
        if leaves_all(way.levelling)
        else way
        for way in ways
    )


def _lies_mm(previous: Plan, history: TaskHistory) -> float:
    """The settled depth that the passes which are done or begun have brought, mm."""
    shares = {**history.part_done, **dict.fromkeys(history.done, 1.0)}
    passes = (task for task in previous.tasks if task.operation == "topdress")
    return sum(_depth_mm(task) * shares[task.id] for task in passes if task.id in shares)


def _lift_mm(way: ResolvedLawn) -> float:
    return way.levelling.lift_depth_mm if way.levelling.lift_share else 0.0


def _depth_mm(task: Task) -> float:
    """The settled depth of a task that fills, mm."""
    return next(amount.value for amount in task.amounts if amount.item == "depth")
