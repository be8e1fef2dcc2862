"""Writes the page of what changed since the plan before."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.export.sheets.look import look_of, on_every_page
from turfplan.export.templates import render
from turfplan.messages import Words
from turfplan.records.plan import Change, Plan

# The kinds of change, what moves people's days first.
KINDS = ("moved", "added", "dropped", "amount", "done", "skipped", "reworded")


@dataclass(frozen=True, slots=True)
class ChangeView:
    """One change with the titles of the tasks that it is alike for."""

    titles: tuple[str, ...]
    change: Change


@dataclass(frozen=True, slots=True)
class Group:
    """All changes of one kind."""

    name: str
    changes: tuple[ChangeView, ...]


def changes_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """What differs from the plan before and why, as a page that stands alone. `paper` is letter or
    a4.
    """
    return render(
        "print/changes.html.jinja",
        words,
        groups=change_groups(plan, words),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def change_groups(plan: Plan, words: Words) -> tuple[Group, ...]:
    """The changes by kind, what moves people's days first; those of a kind by day, and jobs that
    change alike together.
    """
    groups = []
    for kind in KINDS:
        alike: dict[tuple[str, str, str], list[Change]] = {}
        for change in sorted((c for c in plan.changes if c.kind == kind), key=_first_day_in(plan)):
            said = (str(change.before or ""), str(change.after or ""), str(change.because))
            alike.setdefault(said, []).append(change)
        if alike:
            views = (_view(plan, changes, words) for changes in alike.values())
            groups.append(Group(kind_name(kind, words), tuple(views)))
    return tuple(groups)


def _first_day_in(plan: Plan) -> Callable[[Change], date]:
    """What orders changes: the first day of their task; those of no task come first."""

    def first_day(change: Change) -> date:
        task = plan.task(change.task)
        return task.days[0] if task is not None else date.min

    return first_day


def _view(plan: Plan, changes: Sequence[Change], words: Words) -> ChangeView:
    return ChangeView(tuple(_title(plan, change, words) for change in changes), changes[0])


def kind_name(kind: str, words: Words) -> str:
    """What a kind of change is called."""
    return words.say(f"changes.kind.{kind}")


def _title(plan: Plan, change: Change, words: Words) -> str:
    """The task's title; one that has left the plan is called by its number.

    What has changed all over the plan, such as its language, is of no task.
    """
    if not change.task:
        return words.say("changes.whole_plan")
    task = plan.task(change.task)
    return task.title.text if task is not None else change.task
