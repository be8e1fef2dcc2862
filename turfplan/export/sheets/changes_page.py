"""Writes the page of what changed since the plan before."""

from dataclasses import dataclass

from turfplan.export.sheets.look import look_of, on_every_page
from turfplan.export.templates import render
from turfplan.messages import Words
from turfplan.records.plan import Change, Plan

# The kinds of change, what moves people's days first.
KINDS = ("moved", "added", "dropped", "amount", "done", "skipped", "reworded")


@dataclass(frozen=True, slots=True)
class ChangeView:
    """One change with the title of its task."""

    title: str
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
    """The changes by kind, what moves people's days first."""
    groups = []
    for kind in KINDS:
        changes = tuple(
            ChangeView(_title(plan, c, words), c) for c in plan.changes if c.kind == kind
        )
        if changes:
            groups.append(Group(kind_name(kind, words), changes))
    return tuple(groups)


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
