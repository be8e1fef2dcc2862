"""Keeps the words of what has not moved, and says why the rest has."""

from collections.abc import Collection, Mapping, Sequence

from turfplan.message import Message
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def with_kept_words(
    tasks: tuple[Task, ...],
    previous: Plan | None,
    brief_sha256: str,
    data_version: str,
    moved: Collection[str] = (),
) -> tuple[Task, ...]:
    """Tasks that have not moved keep the reasons they were published with, as long as brief and
    book are the same.

    A repair explains a day by its published day; the first plan explained it by the rules, and that
    stays true. `moved` are operations whose windows are others than before.
    """
    if previous is None or (previous.brief_sha256, previous.data_version) != (
        brief_sha256,
        data_version,
    ):
        return tasks
    old = {t.id: t for t in previous.tasks}
    return tuple(
        _kept(task, old.get(task.id), with_window=task.operation not in moved) for task in tasks
    )


def _kept(task: Task, before: Task | None, *, with_window: bool) -> Task:
    if before is None or (before.start, before.end) != (task.start, task.end):
        return task
    # What was done outside its window, and goes on, has that of the days that are left for it.
    inside = before.window.start <= task.start <= before.window.end
    kept = [
        "not_earlier",
        "not_later",
        *(["window", "best", "fallback_day"] if with_window and inside else []),
    ]
    return task.model_copy(update={name: getattr(before, name) for name in kept})


def with_window_reasons(
    because: Mapping[str, Message],
    tasks: Sequence[Task],
    previous: Plan | None,
    moved: Mapping[str, Message],
    forecast: Mapping[str, Message],
) -> dict[str, Message]:
    """Why tasks have moved: what the journal says of them, else the forecast for the day they were
    on (`forecast`, by task), else what moved their windows (`moved`, by operation)."""
    before = {t.id: t.start for t in previous.tasks} if previous is not None else {}
    away = [t for t in tasks if before.get(t.id, t.start) != t.start]
    windows = {
        t.id: moved[t.operation]
        for t in away
        if t.operation in moved and not t.window.start <= before[t.id] <= t.window.end
    }
    return {**windows, **{t.id: forecast[t.id] for t in away if t.id in forecast}, **because}
