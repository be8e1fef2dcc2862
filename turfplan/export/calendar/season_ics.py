"""Writes the season as an iCalendar file (RFC 5545, 7986, 9074): what a calendar shows, and nothing
that makes it flicker.
"""

import hashlib
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta

from icalendar import Alarm, Calendar, Event, Todo
from icalendar.prop import vDatetime, vDDDLists, vDuration, vRecur, vText, vUri

from turfplan.calendar_days import WEEKDAYS
from turfplan.export.calendar.vtimezone import vtimezone, zone_rules
from turfplan.messages import Words
from turfplan.phrases import calendar as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan import Plan
from turfplan.records.plan_task import PublishedEntry, Series, Task
from turfplan.revision.feed_entries import rule_days

PRODID = "-//turfplan//season//EN"
REFRESH = timedelta(hours=12)
COLOR = "seagreen"
PERCENT = {"NEEDS-ACTION": 0, "IN-PROCESS": 50, "COMPLETED": 100, "CANCELLED": 0}


def season_ics(plan: Plan, words: Words, source_url: str | None = None) -> bytes:
    """The calendar of a plan: UTF-8 bytes that depend on what the plan has published alone, not on
    when they are made.

    `words` tell what the calendar is; its entries stand as they were published. `source_url` is
    where the feed is served, if it is.
    """
    calendar = _head(plan, words, source_url)
    shown = _shown(plan.tasks)
    for zone in sorted({entry.timezone for _, entry in shown if entry.timezone is not None}):
        calendar.add_component(vtimezone(zone, plan.horizon.start.year, plan.horizon.end.year))
    for task, entry in shown:
        calendar.add_component(_event(plan, task, entry))
    return bytes(calendar.to_ical(sorted=False))


def todos_ics(plan: Plan, words: Words) -> bytes:
    """The jobs of a plan as a to-do list with their states, for the programs that keep such lists.

    Waterings are left out.
    """
    calendar = _head(plan, words, None)
    for task, entry in _shown(plan.tasks):
        if task.series is None:
            calendar.add_component(_todo(plan, task, entry))
    return bytes(calendar.to_ical(sorted=False))


def _shown(tasks: Iterable[Task]) -> list[tuple[Task, PublishedEntry]]:
    """The published tasks, in the one order that no re-planning changes."""
    return [(t, t.published) for t in sorted(tasks, key=lambda t: t.id) if t.published is not None]


def _head(plan: Plan, words: Words, source_url: str | None) -> Calendar:
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODID)
    calendar.add("calscale", "GREGORIAN")
    name = plain_text(plan.lawn.name) or words.text(phrases.unnamed())
    # No campaign, no source: what may change while every entry stays has no place in the file.
    description = words.text(phrases.description())
    # Both spellings, the standard's and the older one; as vText, else icalendar writes X-
    # properties unescaped.
    for key, value in (
        ("name", name),
        ("x-wr-calname", name),
        ("description", description),
        ("x-wr-caldesc", description),
    ):
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


def _common(plan: Plan, task: Task, entry: PublishedEntry, component: Event | Todo) -> None:
    """What events and to-dos share: identity, stamps, words."""
    component.add("uid", task.uid)
    component.add("dtstamp", task.last_modified or plan.stamp)
    component.add("created", task.created or plan.stamp)
    component.add("last-modified", task.last_modified or plan.stamp)
    component.add("sequence", task.sequence)
    component.add("summary", vText(entry.summary))
    component.add("description", vText(entry.description))
    component.add("categories", [entry.category])


def _event(plan: Plan, task: Task, entry: PublishedEntry) -> Event:
    event = Event()
    _common(plan, task, entry, event)
    if entry.series is not None and entry.timezone is not None:
        _repeat(entry.timezone, entry.series, event)
    else:
        event.add("dtstart", entry.start)
        event.add("dtend", entry.end + timedelta(days=1))
    event.add("transp", "TRANSPARENT")
    event.add("status", "CANCELLED" if entry.cancelled else "CONFIRMED")
    if entry.alarm is not None:
        event.add_component(_alarm(task.uid, entry.summary, *entry.alarm))
    return event


def _todo(plan: Plan, task: Task, entry: PublishedEntry) -> Todo:
    todo = Todo()
    _common(plan, task, entry, todo)
    todo.add("dtstart", entry.start)
    todo.add("due", entry.end + timedelta(days=1))
    todo.add("status", "CANCELLED" if entry.cancelled else task.status)
    todo.add("percent-complete", 0 if entry.cancelled else PERCENT[task.status])
    return todo


def _repeat(timezone: str, series: Series, event: Event) -> None:
    """A repeated job in the lawn's zone: COUNT, not UNTIL.

    Days left out as EXDATE in the form of DTSTART.
    """
    days = list(rule_days(series))
    skipped = [day for day in series.skip if day in days]
    if not _exists(days[0], series.start_time, timezone):
        # DTSTART must be a time that the clock shows: the series begins a run earlier, and that run
        # is left out.
        earlier = _run_before(series)
        days.insert(0, earlier)
        skipped.insert(0, earlier)
    first = datetime.combine(days[0], series.start_time)
    end = _instant(first, timezone) + timedelta(minutes=series.lasts_minutes)
    event.add("dtstart", _local(first, timezone))
    event.add("dtend", _local(end.astimezone(zone_rules(timezone)).replace(tzinfo=None), timezone))
    rule: dict[str, object] = {"FREQ": "WEEKLY" if series.weekdays else "DAILY", "COUNT": len(days)}
    if series.weekdays:
        rule["BYDAY"] = [day[:2].upper() for day in series.weekdays]
    event.add("rrule", vRecur(rule))
    if skipped:
        left_out = vDDDLists([datetime.combine(day, series.start_time) for day in skipped])
        left_out.params["TZID"] = timezone
        event.add("exdate", left_out)


def _run_before(series: Series) -> date:
    """The day of the run that would come before a series' first."""
    day = series.start - timedelta(days=1)
    while series.weekdays and WEEKDAYS[day.weekday()] not in series.weekdays:
        day -= timedelta(days=1)
    return day


def _instant(local: datetime, timezone: str) -> datetime:
    return local.replace(tzinfo=zone_rules(timezone)).astimezone(UTC)


def _exists(day: date, at: time, timezone: str) -> bool:
    """Whether the clock of a zone shows that time on that day: in spring an hour is left out."""
    local = datetime.combine(day, at)
    return _instant(local, timezone).astimezone(zone_rules(timezone)).replace(tzinfo=None) == local


def _local(moment: datetime, timezone: str) -> vDatetime:
    """A local time with its zone, also where the zone is UTC itself."""
    written = vDatetime(moment)
    written.params["TZID"] = timezone
    return written


def _alarm(uid: str, summary: str, days: int, at: time) -> Alarm:
    """One reminder; its offset counts from the midnight that begins the day."""
    alarm = Alarm()
    alarm.add("uid", hashlib.sha256(f"{uid}\nalarm".encode()).hexdigest()[:32] + "@turfplan")
    alarm.add("action", "DISPLAY")
    alarm.add("description", vText(summary))
    alarm.add("trigger", timedelta(hours=at.hour, minutes=at.minute) - timedelta(days=days))
    return alarm
