"""The ways to fill a lawn of which a part is done: lifted hollows are not filled again."""

from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.filling import ways_of_filling, ways_once_lifted
from turfplan.work.lawn import ResolvedLawn

HAIR_MM = 0.01


def ways_still_open(
    setting: ResolvedLawn, previous: Plan, history: TaskHistory
) -> tuple[ResolvedLawn, ...]:
    """The ways of filling that what has happened leaves: all of them, or once turf was lifted those
    that spread the rest beside it."""
    begun = history.done.keys() | history.part_done.keys()
    relaid = [task for task in previous.tasks if task.id in begun and task.plays("relaying")]
    ways = ways_of_filling(setting, begun=bool(relaid))
    for task in relaid:
        depth_mm = _depth_mm(task)
        same = (way for way in ways if abs(_lift_mm(way) - depth_mm) <= HAIR_MM)
        lifted = next(same, None)
        if lifted is not None:
            return ways_once_lifted(lifted)
    return ways


def _lift_mm(way: ResolvedLawn) -> float:
    return way.levelling.lift_depth_mm if way.levelling.lift_share else 0.0


def _depth_mm(task: Task) -> float:
    """The settled depth to which lifted hollows are filled, mm."""
    return next(amount.value for amount in task.amounts if amount.item == "depth")
