"""Writes the weekly checklist: the weeks that have work, day by day, and cards for those that are
watering alone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from turfplan.calendar_days import WEEKDAYS
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.leaves import PrintedPart, leaves
from turfplan.export.sheets.look import look_of, on_every_page, shown, span_text
from turfplan.export.sheets.watering_card import card_of_weeks
from turfplan.export.sheets.weeks import WeekSheet, protecting, water_alone, week_sheets
from turfplan.export.templates import compiled, css_string, render, stylesheet
from turfplan.message import NamedWeekday
from turfplan.messages import Words
from turfplan.records.plan import Plan

compiled("print/sheet.html.jinja", "print/checklist.html.jinja", "print/parts.html.jinja")
compiled("print/week.html.jinja", "print/ground.html.jinja")


def checklist_html(
    plan: Plan,
    words: Words,
    week: date | None = None,
    large: bool = False,
    paper: str | None = None,
) -> str:
    """The checklist as a page that stands alone: all weeks that have work, or the one that holds
    the day `week`.

    In the print of a season the watering card stands in for weeks of watering alone; a week that is
    printed alone has all its jobs and waterings. The map of each pass follows the week it begins
    in; the whole checklist ends with the fill map and its stake-out list. Past weeks are left out
    of the whole checklist unless something in them is still open. `paper` is letter or a4.
    """
    look = look_of(plan, paper, large=large)
    weeks, page = week_sheets(plan, words, week), on_every_page(plan, words, look)
    return render(
        "print/checklist.html.jinja",
        words,
        weeks=weeks,
        leaves=leaves(_printed(plan, weeks, words), look, protecting(plan, words)),
        weekdays=tuple(words.value(NamedWeekday(n)) for n in range(len(WEEKDAYS))),
        overdue=_overdue(plan, weeks, words),
        fill=fill_view(plan, words) if week is None else None,
        week_css=stylesheet("week.css"),
        foot=css_string(words.say("week.made", day=page["made"], revision=plan.revision)),
        script=stylesheet("week.js"),
        **page,
    )


def _printed(plan: Plan, weeks: Sequence[WeekSheet], words: Words) -> Iterator[PrintedPart]:
    """The weeks in order, those of watering alone that follow one another as one card."""
    for alone, those in groupby(weeks, water_alone):
        if alone:
            yield card_of_weeks(plan, [week.first for week in those], words)
        else:
            yield from those


@dataclass(frozen=True, slots=True)
class Overdue:
    """A task whose days have passed without an answer; `link` is the place of its tick in this
    print, empty where its week is not in it."""

    title: str
    when: str
    tick: str
    link: str


def _overdue(plan: Plan, weeks: Sequence[WeekSheet], words: Words) -> tuple[Overdue, ...]:
    """Tasks whose days have passed without an answer; none has two ticks."""
    places = {job.task.id: job.anchor for week in weeks for job in week.jobs if not job.pointed}
    return tuple(
        Overdue(
            task.title.text,
            span_text(task.start, task.end, words),
            task.id,
            places.get(task.id, ""),
        )
        for task in shown(plan.tasks)
        if task.overdue and task.closed is None
    )
