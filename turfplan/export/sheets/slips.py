"""Says how far a job can slip with all others where they are, and what moves first beyond that."""

from datetime import date

from turfplan.message import Day, Message
from turfplan.messages import Words
from turfplan.phrases import slips_told as phrases
from turfplan.phrases import week as of_week
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def slip_text(plan: Plan, task: Task, words: Words) -> str:
    """The sentence about the slack of an open task; empty where nobody reckoned it, or where the
    task has but one day and nothing to move."""
    if task.slack is None or task.closed is not None:
        return ""
    moved = [t for t in plan.tasks if t.id in task.slack.moves and t.closed is None]
    later = [t for t in moved if t.start >= task.start]
    told = _told(task, task.slack.end, later, moved)
    return "" if told is None else words.text(told)


def later_text(plan: Plan, task: Task, last: date, words: Words) -> str:
    """What moves first beyond the slack of an open task, where its `last` day stands beside it;
    empty where nothing does but what is done on the same day and goes with it."""
    if task.slack is None or task.closed is not None:
        return ""
    moved = [t for t in plan.tasks if t.id in task.slack.moves and t.closed is None]
    later = [t for t in moved if t.start > task.start]
    before = [t for t in moved if t.start < task.start]
    if not later and (not before or task.slack.end <= task.start):
        return ""
    name = f"“{(later or before)[0].title}”"
    if not later:
        return words.text(phrases.too_long(task=name))
    if task.fallback_day is not None and task.fallback_day > task.slack.end:
        return words.text(of_week.moves_too(task=name))
    if task.start < task.slack.end < last:
        day = Day(task.slack.end, year=task.slack.end.year != task.start.year)
        return words.text(of_week.moves_after(day=day, task=name))
    return words.text(phrases.moves(task=name))


def _told(task: Task, last: date, later: list[Task], moved: list[Task]) -> Message | None:
    slips = last > task.start
    day = Day(last, year=last.year != task.start.year)
    # The nearest of them is named: it is what anybody asks about first.
    name = f"“{(later or moved)[0].title}”" if moved else ""
    if not slips:
        return phrases.moves(task=name) if later else None
    if later:
        return phrases.can_wait_moves(day=day, task=name)
    return phrases.can_wait_after(day=day, task=name) if moved else phrases.can_wait(day=day)
