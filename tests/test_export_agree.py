"""Checklist, season book, order sheet, calendar and plan.json tell the same days and the same
amounts.
"""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import lru_cache
from html.parser import HTMLParser
from typing import Any

import pytest
import recurring_ical_events
from icalendar import Calendar

from page_plan import page_plan
from planning import NAMES, POSSIBLE, example
from printed import (
    amount_text,
    book_html,
    checklist_html,
    english,
    near_text,
    order_html,
    season_ics,
    span_text,
    unset,
)
from tiers import sampled
from turfplan.calendar_days import WEEKDAYS
from turfplan.export.sheets.look import monday_of
from turfplan.export.sheets.week_days import stamp_of
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.message import Days
from turfplan.messages.entry import amount_value, item_name, of_its_day, summary
from turfplan.phrases import entry as phrases
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount, Task
from turfplan.revision.feed_entries import shown_anew
from turfplan.units import System, format_volume

INVENTED = {"invented-us": System.US, "invented-metric": System.METRIC}
ALL_PLANS = (*INVENTED, *NAMES)
QUICK = (*INVENTED, "cool-overseed", "british-metric")
DAY = timedelta(days=1)


class Text(HTMLParser):
    """The words of a page, by the week they stand in; all of them under None.

    What a watering card says below its weeks is said of each of them.
    """

    def __init__(self, html: str) -> None:
        super().__init__()
        self.parts: dict[date | None, list[str]] = {None: []}
        self.week: date | None = None
        self.joined: dict[date | None, str] = {}
        self.card: list[date] | None = None
        self.together: dict[date, list[date]] = {}
        self.feed(unset(html))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if given.get("class") == "card":
            self.card = []
        found = re.fullmatch(r"week-(\d{4}-\d\d-\d\d)", given.get("id") or "")
        if found:
            self.week = date.fromisoformat(found[1])
            if self.card is not None:
                self.card.append(self.week)
                self.together[self.week] = self.card

    def handle_endtag(self, tag: str) -> None:
        if tag == "section":
            self.card = None

    def handle_data(self, data: str) -> None:
        for key in {None, *(self.card or (self.week,))}:
            self.parts.setdefault(key, []).append(data)

    def of(self, week: date | None = None) -> str:
        """The words of one week, or of the whole page."""
        if week not in self.joined:
            self.joined[week] = " ".join(" ".join(self.parts.get(week, [])).split())
        return self.joined[week]


@dataclass(frozen=True, slots=True)
class Sheets:
    """Everything that is printed or fed from one plan."""

    checklist: Text
    book: Text
    order: Text
    events: tuple[tuple[str, str, date], ...]
    record: dict[str, Any]


def published(plan: Plan) -> Plan:
    """The plan with the words that its feed shows."""
    words = english(plan)
    shown = (shown_anew(words, plan, task) for task in plan.tasks)
    return plan.model_copy(update={"tasks": tuple(shown), "calendar_entries": ()})


def sheets_of(plan: Plan) -> Sheets:
    """All sheets of a plan, the calendar as uid, title and day of each occurrence: a several-day
    event on each day.
    """
    found = []
    for event in recurring_ical_events.of(Calendar.from_ical(season_ics(plan))).between(
        plan.horizon.start - 400 * DAY, plan.horizon.end + 400 * DAY
    ):
        if event.get("status") == "CANCELLED":
            continue
        start, end = event["dtstart"].dt, event["dtend"].dt
        uid, title = str(event["uid"]), str(event["summary"])
        if isinstance(start, datetime):
            found.append((uid, title, start.date()))
        else:
            found += [(uid, title, start + n * DAY) for n in range((end - start).days)]
    pages = [Text(write(plan)) for write in (checklist_html, book_html, order_html)]
    return Sheets(*pages, tuple(found), json.loads(plan_to_json(plan)))


@lru_cache(maxsize=len(ALL_PLANS))
def made(name: str) -> tuple[Plan, Sheets]:
    """A plan as its feed shows it, with its sheets."""
    plan = published(page_plan(INVENTED[name]) if name in INVENTED else example(name))
    return plan, sheets_of(plan)


def open_tasks(plan: Plan) -> list[Task]:
    """What is still to be done."""
    return [task for task in plan.tasks if task.closed is None]


def open_records(record: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The same in plan.json."""
    return (task for task in record["tasks"] if task["closed"] is None)


def days_of_record(task: dict[str, Any]) -> set[date]:
    """The days of a task as plan.json holds them, reckoned here and not by the exports."""
    series = task["series"]
    first, last = (date.fromisoformat(text) for text in (task["start"], task["end"]))
    if series is not None:
        first, last = date.fromisoformat(series["from"]), date.fromisoformat(series["to"])
    days = {first + n * DAY for n in range((last - first).days + 1)}
    if task.get("worked_on"):
        # Between first and last lie days off.
        worked = {date.fromisoformat(text) for text in task["worked_on"]}
        assert {first, last} <= worked < days
        days = worked
    if series is not None:
        days -= {date.fromisoformat(text) for text in series["skip"]}
        if series["weekdays"]:
            days = {day for day in days if WEEKDAYS[day.weekday()] in series["weekdays"]}
    return days


def calendar_days(plan: Plan, sheets: Sheets) -> list[str]:
    """Tasks whose days in the calendar are not those of plan.json."""
    by_uid: dict[str, set[date]] = {}
    for uid, _, day in sheets.events:
        by_uid.setdefault(uid, set()).add(day)
    return [
        t["id"]
        for t in open_records(sheets.record)
        if by_uid.get(t["uid"], set()) != days_of_record(t)
    ]


def entry_title(plan: Plan, task: Task, *, bare: bool = False) -> str:
    """The title of a task's entry, `bare` without its place in the order of work."""
    place = "" if task.series else plan.places.get(task.operation, "")
    title = summary(english(plan), task, place=place)
    return title.removeprefix(f"{place} ") if bare and place else title


def checklist_lacks(plan: Plan, sheets: Sheets) -> list[str]:
    """Days of the calendar whose title does not stand on the page of their week."""
    titles = {entry_title(plan, t): entry_title(plan, t, bare=True) for t in open_tasks(plan)}
    return [
        f"{title} {day}"
        for _, title, day in sheets.events
        if title in titles and titles[title].rstrip("…") not in sheets.checklist.of(monday_of(day))
    ]


def calendar_lacks(plan: Plan, sheets: Sheets) -> list[str]:
    """Titles on the page of a week that the calendar does not have in that week."""
    weeks = {(title, monday_of(day)) for _, title, day in sheets.events}
    found = []
    for monday in sheets.checklist.parts:
        if monday is None:
            continue
        body = re.split(r"Next week(?:, | is free)|After this week", sheets.checklist.of(monday))[0]
        # Jobs of other weeks stand in quotes, where a job says what moves with it.
        body = re.sub("“[^”]*”", "", body)
        # A title may be the beginning of a longer one that the page tells: the longer is taken out.
        titles = {task.title.text: entry_title(plan, task) for task in open_tasks(plan)}
        for title in sorted(titles, key=len, reverse=True):
            those = sheets.checklist.together.get(monday, [monday])
            # What is bought may be called as its job is: "1.5 kg" of so much that is asked for.
            told = re.search(rf"{re.escape(title)}(?! of )", body) is not None
            if told and not weeks & {(titles[title], week) for week in those}:
                found.append(f"{title} {monday}")
            body = body.replace(title, "")
    return found


def days_in_words(plan: Plan, sheets: Sheets) -> list[str]:
    """Jobs whose first to last day is not said alike by plan.json, the week's page and the reasons
    of the book.
    """
    book, system, found = sheets.book.of(), plan.lawn.units, []
    for task in open_records(sheets.record):
        if task["series"] is not None:
            continue
        start, end = (date.fromisoformat(text) for text in (task["start"], task["end"]))
        near, full = (span_text(start, end, system, year=year) for year in (False, True))
        said = f"(?:{re.escape(near)}|{re.escape(full)})"
        # A job of one day stands under the stamp of that day.
        stamp = re.escape(" ".join(stamp_of(start, english(plan))))
        on_page = re.search(stamp if start == end else said, sheets.checklist.of(monday_of(start)))
        in_book = english(plan).value(Days(start, end, weekday=False, year=start.year != end.year))
        if not (on_page and unset(in_book) in unset(book)):
            found.append(task["id"])
    return found


def waterings_in_words(plan: Plan, sheets: Sheets) -> list[str]:
    """Waterings whose time of day or days are not on the page of each of their weeks."""
    found = []
    for task in open_tasks(plan):
        if task.series is not None:
            record = next(r for r in open_records(sheets.record) if r["id"] == task.id)
            for day in days_of_record(record):
                page = sheets.checklist.of(monday_of(day))
                if (
                    task.title.text not in page
                    or english(plan).clock(task.series.start_time) not in page
                ):
                    found.append(f"{task.id} {day}")
    return found


def amounts_in_words(plan: Plan, sheets: Sheets) -> list[str]:
    """Amounts that calendar and checklist do not say alike."""
    found, system = [], plan.lawn.units
    reader = english(plan)
    for task in open_tasks(plan):
        for amount in of_its_day(task):
            if system is System.US and amount.unit == amount.unit_us == "kg/m2":
                continue
            name = reader.text(item_name(amount.item))
            words = reader.value(amount_value(amount))
            named = reader.text(
                phrases.amount(item=item_name(amount.item), amount=amount_value(amount))
            )
            said = task.published is not None and named in task.published.description
            if task.series is None:
                week = sheets.checklist.of(monday_of(task.start))
                # A layer's depth is told with what it is loose.
                loose = r"(?:, at most)?(?:, settled(?: \([^)]*\))?)?"
                told = re.escape(name) + loose + " " + re.escape(words)
                said = said and re.search(told, week) is not None
            if not said:
                found.append(f"{task.id} {amount.item}")
    return found


def short_amounts(plan: Plan, sheets: Sheets) -> list[str]:
    """Amounts that can run short and are printed below the value in plan.json, in the unit they are
    printed in.
    """
    value = "value_us" if plan.lawn.units is System.US else "value"
    found = []
    for task, record in zip(plan.tasks, sheets.record["tasks"], strict=True):
        for amount, written in zip(task.amounts, record["amounts"], strict=True):
            # The weight of a mix is told as it is near: what is bought of it is its volume. So is
            # what has a limit: it is never told above that.
            limited = ("nitrogen_total", "potash to add in all", "phosphate to add in all")
            as_near = ("weight", "product", *limited)
            if written["unit"] in ("m3", "kg", "L") and amount.item not in as_near:
                printed = float(amount_text(amount, plan.lawn.units).split()[0].replace(",", ""))
                # Loose material is rounded up where it is reckoned, and told to a hundredth.
                hundredth = 0.0051 if written["unit"] == "m3" else 0.0012
                if printed < written[value] - max(hundredth, 1e-4 * written[value]):
                    found.append(f"{task.id} {amount.item}")
    return found


def orders_in_words(plan: Plan, sheets: Sheets) -> list[str]:
    """Orders whose days and amounts on the list are not those of plan.json."""
    body = sheets.order.of()
    body = body[body.index("What to buy") :].split("Ask before you order")[0]
    found = []
    for line in sheets.record["order"]:
        for key in ("order_by", "deliver_by"):
            day = near_text(date.fromisoformat(line[key]), plan.lawn.units)
            if day not in body:
                found.append(f"{line['item']} {key}")
        if line["unit"] == "m3":
            us = plan.lawn.units is System.US
            value, unit = (line["value_us"], "yd3") if us else (line["value"], "m3")
            number = format_volume(value, unit)
            words = f"{number} {'yd³' if us else 'm³'}"
            if words not in body:
                found.append(line["item"])
    return found


JUDGES: dict[str, Callable[[Plan, Sheets], list[str]]] = {
    judge.__name__: judge
    for judge in (
        calendar_days,
        checklist_lacks,
        calendar_lacks,
        days_in_words,
        waterings_in_words,
        amounts_in_words,
        short_amounts,
        orders_in_words,
    )
}


@pytest.mark.parametrize("name", sampled(ALL_PLANS, *QUICK))
@pytest.mark.parametrize("judge", JUDGES)
def test_sheets_feed_and_file_say_the_same(judge: str, name: str) -> None:
    """Every date and amount reads alike wherever it stands, for every example."""
    assert JUDGES[judge](*made(name)) == []


@pytest.mark.parametrize("name", sampled((*INVENTED, *POSSIBLE), *QUICK))
def test_there_is_much_to_compare(name: str) -> None:
    """Each example that can be done has many days, amounts and at least one order."""
    plan, sheets = made(name)
    assert len(sheets.events) > 25
    assert sum(len(task.amounts) for task in open_tasks(plan)) >= 5
    assert sheets.record["order"]


def moved(plan: Plan) -> Plan:
    """The plan with each open job a day later."""
    tasks = (
        t
        if t.closed or t.series
        else t.model_copy(update={"start": t.start + DAY, "end": t.end + DAY})
        for t in plan.tasks
    )
    return plan.model_copy(update={"tasks": tuple(tasks)})


def drier(plan: Plan) -> Plan:
    """The plan with the first day of each watering that has more than one left out."""
    tasks = (
        t.model_copy(
            update={
                "series": t.series.model_copy(update={"skip": (*t.series.skip, t.series.start)})
            }
        )
        if t.series and t.series.end > t.series.start
        else t
        for t in plan.tasks
    )
    return plan.model_copy(update={"tasks": tuple(tasks)})


def more(amount: Amount) -> Amount:
    """Half as much again."""
    return amount.model_copy(
        update={"value": amount.value * 1.5, "value_us": amount.value_us * 1.5}
    )


def larger(plan: Plan) -> Plan:
    """The plan with half as much again of everything."""
    tasks = (
        t.model_copy(update={"amounts": tuple(more(a) for a in t.amounts)}) for t in plan.tasks
    )
    order = (
        line.model_copy(
            update={
                "value": line.value * 1.5,
                "value_us": line.value_us * 1.5,
                "order_by": line.order_by + DAY,
            }
        )
        for line in plan.order
    )
    return plan.model_copy(update={"tasks": tuple(tasks), "order": tuple(order)})


def emptied(plan: Plan) -> Plan:
    """The plan without its open tasks, and what is counted of them."""
    kept = tuple(t for t in plan.tasks if t.closed is not None)
    return plan.model_copy(update={"tasks": kept, "real_years": (), "generated_years": ()})


@pytest.mark.parametrize(
    ("change", "sheet", "judge"),
    [
        (moved, "events", "calendar_days"),
        (drier, "events", "calendar_days"),
        (moved, "record", "calendar_days"),
        (moved, "record", "days_in_words"),
        (moved, "book", "days_in_words"),
        (moved, "checklist", "days_in_words"),
        (emptied, "checklist", "checklist_lacks"),
        (emptied, "events", "calendar_lacks"),
        (emptied, "checklist", "waterings_in_words"),
        (larger, "checklist", "amounts_in_words"),
        (larger, "record", "short_amounts"),
        (larger, "order", "orders_in_words"),
        (larger, "record", "orders_in_words"),
    ],
)
@pytest.mark.parametrize("name", sampled(["invented-us", "british-metric"], "invented-us"))
def test_each_comparison_can_fail(
    change: Callable[[Plan], Plan], sheet: str, judge: str, name: str
) -> None:
    """A sheet made from a plan with other days or amounts is found out by the judge of it."""
    plan, sheets = made(name)
    other = sheets_of(published(change(plan)))
    fields = {
        key: getattr(sheets, key) for key in ("checklist", "book", "order", "events", "record")
    }
    assert JUDGES[judge](plan, Sheets(**fields | {sheet: getattr(other, sheet)})) != []
