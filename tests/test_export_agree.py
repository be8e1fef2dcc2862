"""Checklist, season book, calendar and plan.json tell the same days and the same amounts."""

import json
import re
from datetime import date, datetime, timedelta
from html.parser import HTMLParser

import pytest
import recurring_ical_events
from icalendar import Calendar

from page_plan import page_plan
from turfplan.export.book import book_html
from turfplan.export.calendar import season_ics
from turfplan.export.checklist import checklist_html
from turfplan.export.plan_json import plan_to_json
from turfplan.export.sheets import monday_of, span_text
from turfplan.plan import Plan, Task
from turfplan.revision import publish
from turfplan.units import System
from turfplan.wording import amount_text, summary


class Text(HTMLParser):
    """The words of a page, by the week whose section they stand in; all of them under None."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.parts: dict[date | None, list[str]] = {None: []}
        self.week: date | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        found = re.fullmatch(r"week-(\d{4}-\d\d-\d\d)", given.get("id") or "")
        if tag == "section" and found:
            self.week = date.fromisoformat(found[1])

    def handle_data(self, data: str) -> None:
        for key in {None, self.week}:
            self.parts.setdefault(key, []).append(data)

    def of(self, week: date | None = None) -> str:
        """The words of one week, or of the whole page."""
        return " ".join(" ".join(self.parts.get(week, [])).split())


def published(plan: Plan) -> Plan:
    """The plan with the words that its feed shows."""
    return plan.model_copy(update={"tasks": tuple(publish(plan, task) for task in plan.tasks)})


@pytest.fixture(scope="module", params=[System.US, System.METRIC])
def plan(request: pytest.FixtureRequest) -> Plan:
    """The invented plan as a feed shows it, in both systems of units."""
    return published(page_plan(request.param))


@pytest.fixture(scope="module")
def checklist(plan: Plan) -> Text:
    """The words of the weekly checklist."""
    return Text(checklist_html(plan))


@pytest.fixture(scope="module")
def events(plan: Plan) -> list[tuple[str, date]]:
    """Every occurrence in the calendar as its title and day, a several-day event on each of its days."""
    calendar = Calendar.from_ical(season_ics(plan))
    found = []
    for event in recurring_ical_events.of(calendar).between(plan.horizon.start, plan.horizon.end):
        if event.get("status") == "CANCELLED":
            continue
        start, end = event["dtstart"].dt, event["dtend"].dt
        if isinstance(start, datetime):
            found.append((str(event["summary"]), start.date()))
        else:
            found += [(str(event["summary"]), start + timedelta(days=n)) for n in range((end - start).days)]
    return found


def open_tasks(plan: Plan) -> list[Task]:
    """What is still to be done."""
    return [task for task in plan.tasks if task.closed is None]


def test_every_day_of_the_calendar_is_on_the_checklist(
    plan: Plan, checklist: Text, events: list[tuple[str, date]]
) -> None:
    """Each open event has its title on the page of its week."""
    titles = {summary(task) for task in open_tasks(plan)}
    wanted = [(title, day) for title, day in events if title in titles]
    assert len(wanted) > 40
    missing = [(title, day) for title, day in wanted if title.rstrip("…") not in checklist.of(monday_of(day))]
    assert missing == []


def test_nothing_stands_on_the_checklist_that_the_calendar_lacks(
    plan: Plan, checklist: Text, events: list[tuple[str, date]]
) -> None:
    """A title on the page of a week has an event in that week."""
    weeks = {(title, monday_of(day)) for title, day in events}
    for monday in checklist.parts:
        if monday is None:
            continue
        body = checklist.of(monday).split("Next week")[0].split("After this week")[0]
        for task in open_tasks(plan):
            if task.title in body:
                assert (summary(task), monday) in weeks


def test_the_days_of_a_job_read_the_same_on_every_sheet(plan: Plan, checklist: Text) -> None:
    """First to last day in words: on the week's page, in the agenda, the timeline and the reasons of the book."""
    book = Text(book_html(plan)).of()
    for task in open_tasks(plan):
        if task.series is None:
            near = span_text(task.start, task.end, plan.lawn.units)
            full = span_text(task.start, task.end, plan.lawn.units, year=True)
            assert near in checklist.of(monday_of(task.start))
            assert f"{near}: {task.title}" in book
            assert book.count(full) >= 2, task.id


def test_amounts_read_the_same_in_calendar_checklist_and_book(plan: Plan, checklist: Text) -> None:
    """One rounding for all: what the calendar says is what the paper says."""
    book = Text(book_html(plan)).of()
    checked = 0
    for task in open_tasks(plan):
        for amount in task.amounts:
            words = amount_text(amount, plan.lawn.units)
            assert task.published is not None and words in task.published.description
            assert words in book
            if task.series is None:
                assert words in checklist.of(monday_of(task.start))
            checked += 1
    assert checked >= 10


def test_no_sheet_says_less_than_the_plan_needs(plan: Plan) -> None:
    """The printed number is never below the value in plan.json, in the unit it is printed in."""
    data = json.loads(plan_to_json(plan))
    value, unit = ("value_us", "unit_us") if plan.lawn.units is System.US else ("value", "unit")
    for task, record in zip(plan.tasks, data["tasks"], strict=True):
        for amount, written in zip(task.amounts, record["amounts"], strict=True):
            if written["unit"] in ("m3", "kg", "L"):
                printed = float(amount_text(amount, plan.lawn.units).split()[0].replace(",", ""))
                assert printed >= written[value] - 1e-6, (task.id, written[unit])


def test_orders_read_the_same_in_order_sheet_and_book(plan: Plan) -> None:
    """The order sheet in the book is the order sheet."""
    from turfplan.export.order import order_html

    book, sheet = Text(book_html(plan)).of(), Text(order_html(plan)).of()
    body = sheet[sheet.index("What to buy") : sheet.index("Give this card")]
    assert body in book
