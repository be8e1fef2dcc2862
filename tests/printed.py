"""Sheets and calendars as an English reader of a plan's country gets them, for tests that are not
about words.
"""

import re
from collections.abc import Collection
from datetime import date
from functools import cache
from typing import Any

from told import words_of
from turfplan.app import outputs as folder
from turfplan.app.outputs import Extra
from turfplan.export.calendar import season_ics as calendar
from turfplan.export.sheets import (
    care_charts,
    changes_page,
    checklist,
    glossary,
    look,
    order_sheet,
    season_book,
    season_charts,
    task_amounts,
    watering_card,
    weeks,
)
from turfplan.export.sheets import (
    soil_chart as soil,
)
from turfplan.export.typography import FRACTIONS, JOINER, NO_BREAK
from turfplan.messages import Words
from turfplan.messages.entry import measured
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount
from turfplan.units import System


@cache
def _words(system: System, region: str | None) -> Words:
    return words_of(system, region)


def english(plan: Plan) -> Words:
    """The words of the reader of a plan."""
    return _words(plan.lawn.units, plan.place.region)


def season_ics(plan: Plan, source_url: str | None = None) -> bytes:
    """The calendar of a plan."""
    return calendar.season_ics(plan, english(plan), source_url)


def todos_ics(plan: Plan) -> bytes:
    """The list of jobs of a plan."""
    return calendar.todos_ics(plan, english(plan))


def outputs(plan: Plan, extras: Collection[Extra] = ()) -> dict[str, bytes]:
    """The files of a plan's folder."""
    return folder.outputs(plan, english(plan), extras)


def checklist_html(plan: Plan, week: date | None = None, **look: Any) -> str:
    """The weekly checklist."""
    return checklist.checklist_html(plan, english(plan), week, **look)


def water_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The watering card."""
    return watering_card.water_html(plan, english(plan), paper, large)


def order_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The order sheet."""
    return order_sheet.order_html(plan, english(plan), paper, large)


def book_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The season book."""
    return season_book.book_html(plan, english(plan), paper, large)


def changes_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The page of changes."""
    return changes_page.changes_html(plan, english(plan), paper, large)


def week_sheets(
    plan: Plan, week: date | None = None, *, maps: bool = True
) -> tuple[weeks.WeekSheet, ...]:
    """The weeks as they are printed."""
    return weeks.week_sheets(plan, english(plan), week, maps=maps)


def timeline(plan: Plan) -> season_charts.Timeline:
    """The timeline of a plan."""
    return season_charts.timeline(plan, english(plan))


def soil_chart(plan: Plan) -> soil.SoilChart | None:
    """The chart of soil temperature."""
    return soil.soil_chart(plan, english(plan))


def months_of(axis: season_charts.Axis) -> tuple[season_charts.MonthMark, ...]:
    """The months of an axis."""
    return season_charts.months_of(axis, _words(System.US, None))


def water_chart(plan: Plan) -> care_charts.WaterChart | None:
    """The chart of the minutes of watering."""
    return care_charts.water_chart(plan, english(plan))


def nitrogen_chart(plan: Plan) -> care_charts.NitrogenChart | None:
    """The chart of nitrogen."""
    return care_charts.nitrogen_chart(plan, english(plan))


def terms_in(text: str, plan: Plan | None = None) -> tuple[tuple[str, str], ...]:
    """The words of the trade in a text, as a plan's book calls them."""
    if plan is None:
        return glossary.terms_in(text, _words(System.US, None), {})
    return glossary.terms_in(text, english(plan), plan.names)


def near_text(day: date, system: System, *, weekday: bool = True) -> str:
    """A day of the season at hand."""
    return look.near_text(day, _words(system, None), weekday=weekday)


def span_text(
    start: date, end: date, system: System, *, weekday: bool = True, year: bool = False
) -> str:
    """One day, or first to last day."""
    return look.span_text(start, end, _words(system, None), weekday=weekday, year=year)


def day_text(day: date, system: System, *, weekday: bool = True, year: bool = True) -> str:
    """A day."""
    return _words(system, None).day(day, weekday=weekday, year=year)


def amount_text(amount: Amount, system: System) -> str:
    """An amount with its unit."""
    return _words(system, None).value(measured(amount))


def plain_name(text: str) -> str:
    """A lawn's name on a page."""
    return look.plain_name(text, _words(System.US, None))


def short_name(text: str) -> str:
    """A lawn's name in a running head."""
    return look.short_name(text, _words(System.US, None))


def labour_text(person_hours: float, people: int | None = 1) -> str:
    """Labour in words."""
    return task_amounts.labour_text(person_hours, people, _words(System.US, None))


def unset(page: str) -> str:
    """A printed page as its words were told: fractions with a stroke, breaks between figures and
    units."""
    # The sign of 11/16 ends in that of 1/16.
    for plain, sign in sorted(FRACTIONS.items(), key=lambda pair: -len(pair[1])):
        page = re.sub(rf"(?<=\d){sign}", f" {plain}", page).replace(sign, plain)
    return page.replace(NO_BREAK, " ").replace(JOINER, "")
