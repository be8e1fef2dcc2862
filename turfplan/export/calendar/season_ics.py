"""Writes the season as an iCalendar file (RFC 5545, 7986, 9074): what a calendar shows, and nothing
that makes it flicker.
"""

import hashlib
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from icalendar import Calendar, Event, Todo
from icalendar.prop import vDatetime, vDDDLists, vDuration, vRecur, vText, vUri

from turfplan.calendar_days import WEEKDAYS
from turfplan.export.calendar.content_lines import escaped, instant, on_day, written
from turfplan.export.calendar.vtimezone import vtimezone, zone_rules
from turfplan.messages import Words
from turfplan.phrases import calendar as phrases
from turfplan.phrases import entry as entry_phrases
from turfplan.plain_text import plain_text
from turfplan.reckoned_once import reckoned_once
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarEntry, CalendarPart
from turfplan.records.plan_task import PublishedEntry, Series, Task
from turfplan.revision.feed_entries import rule_days, shown_in, within_days

PRODID = "-//turfplan//season//EN"
REFRESH = timedelta(hours=12)
COLOR = "seagreen"
PERCENT = {"NEEDS-ACTION": 0, "IN-PROCESS": 50, "COMPLETED": 100, "CANCELLED": 0}


def season_ics(
    plan: Plan,
    words: Words,
    source_url: str | None = None,
    part: CalendarPart = "all",
    days: tuple[date, date] | None = None,
) -> bytes:
    """The calendar of a plan, or its work or its waterings alone: UTF-8 bytes that depend on what
    the plan has published alone, not on when they are made.

    `words` tell what the calendar is; its entries stand as they were published. `source_url` is
    where the feed is served, if it is. With `days` it holds what falls on these (first, last).
    """
    calendar = head_of(
        _name(plan, words, part), words, plan.timezone, plan.part_stamps.of(part, plan.stamp)
    )
    _with_source(calendar, source_url)
    shown = shown_in(plan, part)
    if days is not None:
        shown = [(of, kept) for of, e in shown if (kept := within_days(e, *days)) is not None]
    zones = {entry.timezone for _, entry in shown if entry.timezone is not None}
    # A calendar without any component is none (RFC 5545, 3.6): an empty one has its zone.
    for zone in sorted(zones or ({plan.timezone} if not shown else set())):
        calendar.add_component(vtimezone(zone, plan.horizon.start.year, plan.horizon.end.year))
    return with_events(calendar, (event_bytes(plan, of, entry) for of, entry in shown))


def with_events(calendar: Calendar, events: Iterable[bytes]) -> bytes:
    """A calendar as bytes, with events after all that it holds."""
    head = bytes(calendar.to_ical(sorted=False)).removesuffix(_END)
    return b"".join((head, *events, _END))


def todos_ics(plan: Plan, words: Words) -> bytes:
    """The jobs of a plan as a to-do list with their states, for the programs that keep such lists.

    Waterings are left out.
    """
    calendar = head_of(
        _name(plan, words), words, plan.timezone, plan.part_stamps.of("all", plan.stamp)
    )
    for task, entry in shown_in(plan, "work"):
        if isinstance(task, Task):
            calendar.add_component(_todo(plan, task, entry))
    return bytes(calendar.to_ical(sorted=False))


_END = b"END:VCALENDAR\r\n"
_NAMES = {"work": entry_phrases.calendar_work, "water": entry_phrases.calendar_water}


def _name(plan: Plan, words: Words, part: CalendarPart = "all") -> str:
    """What the calendar of a lawn is called."""
    return part_name(plain_text(plan.lawn.name) or words.text(phrases.unnamed()), words, part)


def part_name(name: str, words: Words, part: CalendarPart) -> str:
    """What a part of a calendar is called."""
    return words.text(_NAMES[part](lawn=name)) if part in _NAMES else name


def head_of(name: str, words: Words, timezone: str, modified: datetime) -> Calendar:
    """A calendar without entries: its name, what it is, its zone, and when it last changed."""
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODID)
    calendar.add("calscale", "GREGORIAN")
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
    calendar.add("x-wr-timezone", vText(timezone))
    calendar.add("color", vText(COLOR))
    calendar.add("last-modified", modified)
    refresh = vDuration(REFRESH)
    refresh.params["VALUE"] = "DURATION"
    calendar.add("refresh-interval", refresh)
    calendar.add("x-published-ttl", vDuration(REFRESH))
    return calendar


def _with_source(calendar: Calendar, source_url: str | None) -> None:
    if source_url is not None:
        uri = vUri(source_url)
        uri.params["VALUE"] = "URI"
        calendar.add("source", uri)


def _common(plan: Plan, task: Task | CalendarEntry, entry: PublishedEntry, component: Todo) -> None:
    """What a to-do has of its task: identity, stamps, words."""
    component.add("uid", task.uid)
    component.add("dtstamp", task.last_modified or plan.stamp)
    component.add("created", task.created or plan.stamp)
    component.add("last-modified", task.last_modified or plan.stamp)
    component.add("sequence", task.sequence)
    component.add("summary", vText(entry.summary))
    component.add("description", vText(entry.description))
    component.add("categories", [entry.category])


@reckoned_once
def event_bytes(plan: Plan, task: Task | CalendarEntry, entry: PublishedEntry) -> bytes:
    """An entry as an event; that of the whole calendar is the same in those of its parts."""
    changed = instant(task.last_modified or plan.stamp)
    return written(
        (
            "BEGIN:VEVENT",
            f"UID:{task.uid}",
            f"DTSTAMP:{changed}",
            f"CREATED:{instant(task.created or plan.stamp)}",
            f"LAST-MODIFIED:{changed}",
            f"SEQUENCE:{task.sequence}",
            f"SUMMARY:{escaped(entry.summary)}",
            f"DESCRIPTION:{escaped(entry.description)}",
            f"CATEGORIES:{escaped(entry.category)}",
            *_when(entry),
            "TRANSP:TRANSPARENT",
            f"STATUS:{'CANCELLED' if entry.cancelled else 'CONFIRMED'}",
            *(_alarm(task.uid, entry.summary, *entry.alarm) if entry.alarm is not None else ()),
            "END:VEVENT",
        )
    )


def _when(entry: PublishedEntry) -> Iterable[str]:
    """On which days or at which times an entry stands."""
    if (entry.series is None or entry.timezone is None) and not entry.days:
        end = entry.end + timedelta(days=1)
        return (f"DTSTART;VALUE=DATE:{on_day(entry.start)}", f"DTEND;VALUE=DATE:{on_day(end)}")
    event = Event()
    if entry.series is not None and entry.timezone is not None:
        _repeat(entry.timezone, entry.series, event)
    else:
        _on_days(entry.days, event)
    lines = [str(line) for line in event.content_lines(sorted=False) if line]
    return lines[1:-1]


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


def _on_days(days: Sequence[date], event: Event) -> None:
    """A job of whole days that comes on several: every day from the first to the last, less those
    left out."""
    count = (days[-1] - days[0]).days + 1
    event.add("dtstart", days[0])
    event.add("dtend", days[0] + timedelta(days=1))
    event.add("rrule", vRecur({"FREQ": "DAILY", "COUNT": count}))
    every = (days[0] + timedelta(days=n) for n in range(count))
    if left_out := [day for day in every if day not in days]:
        skipped = vDDDLists(left_out)
        skipped.params["VALUE"] = "DATE"
        event.add("exdate", skipped)


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


def _alarm(uid: str, summary: str, days: int, at: time) -> tuple[str, ...]:
    """One reminder; its offset counts from the midnight that begins the day."""
    name = hashlib.sha256(f"{uid}\nalarm".encode()).hexdigest()[:32]
    offset: Any = vDuration(timedelta(hours=at.hour, minutes=at.minute) - timedelta(days=days))
    return (
        "BEGIN:VALARM",
        f"UID:{name}@turfplan",
        "ACTION:DISPLAY",
        f"DESCRIPTION:{escaped(summary)}",
        f"TRIGGER:{offset.to_ical().decode()}",
        "END:VALARM",
    )
