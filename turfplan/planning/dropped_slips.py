"""What is asked back of an entry about a task that the plan has dropped."""

from collections.abc import Sequence

from turfplan.message import Message, as_written
from turfplan.phrases import slips as phrases
from turfplan.records.dropped_tasks import WORKED, same_kind
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def told_of_dropped(
    entry: JournalEntry, before: Sequence[JournalEntry], plan: Plan | None, task: Task
) -> Message:
    """That a task is in the plan no more, and which one the work would count as."""
    title, other = as_written(str(task.title)), None
    if plan is not None and entry.kind in WORKED and entry.on is not None:
        taken = {e.task for e in before if e.kind in WORKED and e.task is not None}
        other = same_kind(plan, task.id, entry.on, taken)
    if other is None:
        return phrases.was_dropped(task=title)
    return phrases.counts_as(task=title, other=as_written(str(other.title)), name=other.id)
