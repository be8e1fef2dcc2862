"""Writes the weekly checklist: one page for each week that has work."""

from datetime import date

from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.look import look_of, on_every_page, shown, span_text
from turfplan.export.sheets.weeks import week_sheets
from turfplan.export.templates import compiled, render
from turfplan.messages import Words
from turfplan.records.plan import Plan

compiled("print/sheet.html.jinja", "print/checklist.html.jinja", "print/parts.html.jinja")
compiled("print/ground.html.jinja", "maps.svg.jinja")


def checklist_html(
    plan: Plan,
    words: Words,
    week: date | None = None,
    large: bool = False,
    paper: str | None = None,
) -> str:
    """The checklist as a page that stands alone: all weeks that have work, or the one that holds
    the day `week`.

    The map of each pass follows the week it begins in; the whole checklist ends with the fill map
    and its stake-out list. Past weeks are left out of the whole checklist unless something in them
    is still open. `paper` is letter or a4.
    """
    look = look_of(plan, paper, large=large)
    return render(
        "print/checklist.html.jinja",
        words,
        weeks=week_sheets(plan, words, week, look),
        overdue=_overdue(plan, words),
        fill=fill_view(plan, words) if week is None else None,
        **on_every_page(plan, words, look),
    )


def _overdue(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """Tasks whose days have passed without an answer."""
    return tuple(
        (task.title.text, span_text(task.start, task.end, words))
        for task in shown(plan.tasks)
        if task.overdue and task.closed is None
    )
