"""Says beside a week what comes after it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.export.sheets.look import DAYS_IN_WEEK, near, near_text
from turfplan.message import Days
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan_task import Task

# Monday -> task -> its days in that week.
ByWeek = Mapping[date, Mapping[Task, list[date]]]


@dataclass(frozen=True, slots=True)
class Ahead:
    """One line of the look-ahead."""

    when: str
    title: str


def look_ahead(by_week: ByWeek, monday: date, words: Words) -> tuple[str, tuple[Ahead, ...]]:
    """Next week's work, or else the next work there is."""
    later = sorted(
        m for m, tasks in by_week.items() if m > monday and any(t.closed is None for t in tasks)
    )
    if not later:
        return words.text(phrases.after()), ()
    days = [
        (day, task)
        for task, days in by_week[later[0]].items()
        if task.closed is None
        for day in days
    ]
    lines = _ahead_lines(days, words)
    following = monday + timedelta(days=DAYS_IN_WEEK)
    if later[0] == following:
        last = following + timedelta(days=DAYS_IN_WEEK - 1)
        week = Days(following, last, weekday=False, year=False)
        return words.text(phrases.next(days=week)), lines
    return words.text(phrases.next_free()), lines


def _ahead_lines(days: Sequence[tuple[date, Task]], words: Words) -> tuple[Ahead, ...]:
    """One line for each job, and one for all watering."""
    first_days: dict[str, tuple[date, Task]] = {}
    for day, task in days:
        if task.series is None:
            first_days.setdefault(task.id, (day, task))
    lines = [
        (day, Ahead(near_text(day, words), task.title.text)) for day, task in first_days.values()
    ]
    runs = sorted(day for day, task in days if task.series is not None)
    if runs:
        all_runs = (
            phrases.runs(n=len(runs))
            if runs[0] == runs[-1]
            else phrases.first_of_runs(n=len(runs), last=near(runs[-1]))
        )
        lines.append((runs[0], Ahead(near_text(runs[0], words), words.text(all_runs))))
    return tuple(line for _, line in sorted(lines, key=lambda pair: pair[0]))
