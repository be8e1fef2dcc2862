"""Writes the page of what changed since the plan before."""

from dataclasses import dataclass

from turfplan.export.sheets import look_of, made_text, plain_name, short_name
from turfplan.export.templates import render
from turfplan.plan import Change, Plan
from turfplan.wording import CHANGE_NAMES


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


def changes_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """What differs from the plan before and why, as a page that stands alone. `paper` is letter or a4."""
    name = plain_name(plan.lawn.name)
    return render(
        "print/changes.html.jinja",
        plan=plan,
        groups=change_groups(plan),
        name=name,
        short=short_name(name),
        look=look_of(plan, paper, large=large),
        made=made_text(plan),
    )


def change_groups(plan: Plan) -> tuple[Group, ...]:
    """The changes by kind, what moves people's days first."""
    groups = []
    for kind, name in CHANGE_NAMES.items():
        found = tuple(ChangeView(_title(plan, c), c) for c in plan.changes if c.kind == kind)
        if found:
            groups.append(Group(name, found))
    return tuple(groups)


def _title(plan: Plan, change: Change) -> str:
    """The task's title; one that has left the plan is called by its number."""
    task = plan.task(change.task)
    return task.title if task is not None else change.task
