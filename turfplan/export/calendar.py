"""The season as an iCalendar file (RFC 5545, 7986): what a calendar shows, and nothing that makes it flicker."""

import hashlib
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from icalendar import Alarm, Calendar, Event, Todo
from icalendar.prop import vDuration, vRecur, vText, vUri

from turfplan.brief import WEEKDAYS
from turfplan.export.timezone import vtimezone
from turfplan.plan import Plan, Series, Task
from turfplan.wording import plain_text

PRODID = "-//turfplan//season//EN"
REFRESH = timedelta(hours=12)
COLOR = "seagreen"


def season_ics(plan: Plan, source_url: str | None = None) -> bytes:
    """The calendar of a plan. Bytes depend on the plan's published content alone, not on when they are made."""
    calendar = _head(plan, source_url)
    tasks = [t for t in sorted(plan.tasks, key=lambda t: t.id) if t.published is not None]
    if any(t.series is not None for t in tasks):
        calendar.add_component(vtimezone(plan.timezone, plan.horizon.start.year))
    for task in tasks:
        calendar.add_component(_event(plan, task))
    return bytes(calendar.to_ical(sorted=False))


def todos_ics(plan: Plan) -> bytes:
    """The open and done jobs as a to-do list, for the programs that keep such lists."""
    calendar = _head(plan, None)
    for task in sorted(plan.tasks, key=lambda t: t.id):
        if task.published is None or task.series is not None:
            continue
        todo = Todo()
        _common(plan, task, todo)
        todo.add("dtstart", task.published.start)
        todo.add("due", task.published.end + timedelta(days=1))
        todo.add("status", task.status)
        calendar.add_component(todo)
    return bytes(calendar.to_ical(sorted=False))


def _head(plan: Plan, source_url: str | None) -> Calendar:
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODID)
    calendar.add("calscale", "GREGORIAN")
    name = plain_text(plan.lawn.name) or "Lawn"
    words = plain_text(f"Lawn renovation: {plan.campaign_name}. Dates rest on {plan.climate.source}.")
    for key, value in (("name", name), ("x-wr-calname", name), ("description", words), ("x-wr-caldesc", words)):
        calendar.add(key, vText(value))
    calendar.add("x-wr-timezone", vText(plan.timezone))
    calendar.add("color", vText(COLOR))
    calendar.add("last-modified", plan.stamp)
    refresh = vDuration(REFRESH)
    refresh.params["VALUE"] = "DURATION"
    calendar.add("refresh-interval", refresh)
    calendar.add("x-published-ttl", vDuration(REFRESH))
    if source_url is not None:
        uri = vUri(source_url)
        uri.params["VALUE"] = "URI"
        calendar.add("source", uri)
    return calendar


def _common(plan: Plan, task: Task, component: Event | Todo) -> None:
    """What events and to-dos share: identity, stamps, words."""
    assert task.published is not None
    component.add("uid", task.uid)
    component.add("dtstamp", task.last_modified or plan.stamp)
    component.add("created", task.created or plan.stamp)
    component.add("last-modified", task.last_modified or plan.stamp)
    component.add("sequence", task.sequence)
    component.add("summary", vText(task.published.summary))
    component.add("description", vText(task.published.description))
    component.add("categories", [task.phase])


def _event(plan: Plan, task: Task) -> Event:
    event = Event()
    _common(plan, task, event)
    assert task.published is not None
    cancelled = task.status == "CANCELLED"
    if task.series is not None and not cancelled:
        _series(plan, task.series, event)
    else:
        event.add("dtstart", task.published.start)
        event.add("dtend", task.published.end + timedelta(days=1))
    event.add("transp", "TRANSPARENT")
    event.add("status", "CANCELLED" if cancelled else "CONFIRMED")
    if task.alarm and plan.alarm is not None and not cancelled and task.series is None:
        event.add_component(_alarm(plan, task))
    return event


def _series(plan: Plan, series: Series, event: Event) -> None:
    """A repeated job in the lawn's zone: COUNT, not UNTIL; days to skip as EXDATE in the form of DTSTART."""
    zone = ZoneInfo(plan.timezone)
    days = tuple(_days(series))
    first = datetime.combine(days[0], series.start_time, zone)
    event.add("dtstart", first)
    event.add("dtend", datetime.combine(days[0], series.start_time, zone) + timedelta(minutes=series.minutes))
    rule: dict[str, object] = {"FREQ": "WEEKLY" if series.weekdays else "DAILY"}
    if series.weekdays:
        rule["BYDAY"] = [day[:2].upper() for day in sorted(series.weekdays, key=WEEKDAYS.index)]
    rule["COUNT"] = len(days)
    event.add("rrule", vRecur(rule))
    skipped = [datetime.combine(day, series.start_time, zone) for day in series.skip if day in days]
    if skipped:
        event.add("exdate", skipped)


def _days(series: Series) -> Iterable[date]:
    """The days of a series before any is skipped."""
    for step in range((series.end - series.start).days + 1):
        day = series.start + timedelta(days=step)
        if not series.weekdays or WEEKDAYS[day.weekday()] in series.weekdays:
            yield day


def _alarm(plan: Plan, task: Task) -> Alarm:
    """One reminder; its offset counts from the midnight that begins the day."""
    assert plan.alarm is not None and task.published is not None
    days, at = plan.alarm
    alarm = Alarm()
    alarm.add("uid", hashlib.sha256(f"{task.uid}\nalarm".encode()).hexdigest()[:32] + "@turfplan")
    alarm.add("action", "DISPLAY")
    alarm.add("description", vText(task.published.summary))
    alarm.add("trigger", timedelta(hours=at.hour, minutes=at.minute) - timedelta(days=days))
    return alarm
