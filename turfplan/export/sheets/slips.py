"""Says how far a job can slip with all others where they are, and what moves beyond that."""

from datetime import date

from turfplan.message import Day, Message, listed
from turfplan.messages import Words
from turfplan.phrases import slips_told as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# So many of the jobs that would move are named.
NAMED = 2


def slip_text(plan: Plan, task: Task, words: Words) -> str:
    """The sentence about the slack of an open task; empty where nobody reckoned it, or where the
    task has but one day and nothing to move."""
    if task.slack is None or task.closed is not None:
        return ""
    moved = [t for t in plan.tasks if t.id in task.slack.moves and t.closed is None]
    later = [t for t in moved if t.start >= task.start]
    told = _told(task, task.slack.end, later, moved)
    return "" if told is None else words.text(told)


def _told(task: Task, last: date, later: list[Task], moved: list[Task]) -> Message | None:
    slips = last > task.start
    day = Day(last, year=last.year != task.start.year)
    names = listed(f"“{t.title}”" for t in (later or moved)[:NAMED])
    if not slips:
        return phrases.moves(tasks=names) if later else None
    if later:
        return phrases.can_wait_moves(day=day, tasks=names)
    return phrases.can_wait_after(day=day, tasks=names) if moved else phrases.can_wait(day=day)
