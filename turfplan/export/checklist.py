"""Writes the weekly checklist: one page for each week that has work."""

from datetime import date

from turfplan.export.ground_sheets import fill_view
from turfplan.export.sheets import look_of, made_text, plain_name, short_name, shown, span_text
from turfplan.export.templates import compiled, render
from turfplan.export.weeks import week_sheets
from turfplan.plan import Plan

compiled("print/sheet.html.jinja", "print/checklist.html.jinja", "print/parts.html.jinja")
compiled("print/ground.html.jinja", "maps.svg.jinja")


def checklist_html(plan: Plan, week: date | None = None, large: bool = False, paper: str | None = None) -> str:
    """The checklist as a page that stands alone: all weeks that have work, or the one that holds the day `week`.

    The map of each pass follows the week it begins in; the whole checklist ends with the fill map and its stake-out list.
    Past weeks are left out of the whole checklist unless something in them is still open. `paper` is letter or a4.
    """
    look = look_of(plan, paper, large=large)
    weeks = week_sheets(plan, week, look)
    name = plain_name(plan.lawn.name)
    return render(
        "print/checklist.html.jinja",
        plan=plan,
        weeks=weeks,
        name=name,
        short=short_name(name),
        look=look,
        overdue=_overdue(plan),
        made=made_text(plan),
        fill=fill_view(plan) if week is None else None,
    )


def _overdue(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Tasks whose days have passed without an answer."""
    return tuple(
        (task.title, span_text(task.start, task.end, plan.lawn.units))
        for task in shown(plan.tasks)
        if task.overdue and task.closed is None
    )
