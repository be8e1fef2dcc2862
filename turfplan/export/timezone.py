"""A time zone as a VTIMEZONE with recurrence rules, from the footer of its compiled file in the tzdata package."""

import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from importlib.resources import files
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard
from icalendar.prop import vRecur

from turfplan.errors import Problem, TurfplanError

# POSIX.1-2017, section 8.3, TZ: std offset [dst [offset] [, start [/time], end [/time]]].
_POSIX = re.compile(
    r"^(?P<std>[A-Za-z]{3,}|<[^>]+>)(?P<off>[-+]?[\d:]+)"
    r"(?:(?P<dst>[A-Za-z]{3,}|<[^>]+>)(?P<dstoff>[-+]?[\d:]+)?,(?P<start>[^,]+),(?P<end>.+))?$"
)
_RULE = re.compile(r"^M(?P<month>\d+)\.(?P<week>\d)\.(?P<day>\d)(?:/(?P<time>[-+]?[\d:]+))?$")
_DAYS = ("SU", "MO", "TU", "WE", "TH", "FR", "SA")


@dataclass(frozen=True, slots=True)
class _Change:
    """A yearly change of the clock: month, week (5: last), weekday (0 Sunday) and local time as an interval."""

    month: int
    week: int
    day: int
    at: timedelta


def _interval(text: str) -> timedelta:
    sign = -1 if text.startswith("-") else 1
    parts = [int(p) for p in text.lstrip("+-").split(":")] + [0, 0]
    return sign * timedelta(hours=parts[0], minutes=parts[1], seconds=parts[2])


@lru_cache(maxsize=64)
def _footer(zone: str) -> str:
    try:
        path = files("tzdata") / "zoneinfo"
        for part in zone.split("/"):
            path = path / part
        raw = path.read_bytes()
    except (FileNotFoundError, IsADirectoryError, ModuleNotFoundError, ValueError):
        raise TurfplanError(Problem("timezone", "is not in the zone data", repr(zone))) from None
    return raw.rstrip(b"\n").rsplit(b"\n", 1)[-1].decode("ascii")


@lru_cache(maxsize=64)
def vtimezone(zone: str, year: int) -> Timezone:
    """The VTIMEZONE of a zone, valid from the start of `year` on by today's rules of that zone."""
    match = _POSIX.match(_footer(zone))
    found = Timezone()
    found.add("tzid", zone)
    if match is None:
        return _from_transitions(found, zone, year)
    standard = -_interval(match["off"])
    if match["dst"] is None:
        return _fixed(found, standard, match["std"], year)
    daylight = -_interval(match["dstoff"]) if match["dstoff"] else standard + timedelta(hours=1)
    start, end = _change(match["start"]), _change(match["end"])
    if start is None or end is None:
        return _from_transitions(found, zone, year)
    found.add_component(_part(TimezoneDaylight(), start, standard, daylight, match["dst"], year))
    found.add_component(_part(TimezoneStandard(), end, daylight, standard, match["std"], year))
    return found


def _change(text: str) -> _Change | None:
    match = _RULE.match(text)
    if match is None:
        return None
    at = _interval(match["time"]) if match["time"] else timedelta(hours=2)
    if not timedelta(0) <= at < timedelta(hours=24):
        return None
    return _Change(int(match["month"]), int(match["week"]), int(match["day"]), at)


def _first(change: _Change, year: int) -> datetime:
    """The local moment of a change in a year."""
    if change.week == 5:
        last = datetime(year + (change.month == 12), change.month % 12 + 1, 1) - timedelta(days=1)  # noqa: DTZ001  # local clock time
        day = last - timedelta(days=((last.weekday() + 1) % 7 - change.day) % 7)
    else:
        first = datetime(year, change.month, 1)  # noqa: DTZ001  # local clock time
        day = first + timedelta(days=(change.day - (first.weekday() + 1) % 7) % 7 + 7 * (change.week - 1))
    return day + change.at


def _part(
    part: TimezoneDaylight | TimezoneStandard,
    change: _Change,
    before: timedelta,
    after: timedelta,
    name: str,
    year: int,
) -> TimezoneDaylight | TimezoneStandard:
    part.add("dtstart", _first(change, year - 1))
    part.add("tzoffsetfrom", before)
    part.add("tzoffsetto", after)
    part.add("tzname", name.strip("<>"))
    week = -1 if change.week == 5 else change.week
    part.add("rrule", vRecur({"FREQ": "YEARLY", "BYMONTH": change.month, "BYDAY": f"{week}{_DAYS[change.day]}"}))
    return part


def _fixed(found: Timezone, offset: timedelta, name: str, year: int) -> Timezone:
    part = TimezoneStandard()
    part.add("dtstart", datetime(year - 1, 1, 1))  # noqa: DTZ001  # local clock time
    part.add("tzoffsetfrom", offset)
    part.add("tzoffsetto", offset)
    part.add("tzname", name.strip("<>"))
    found.add_component(part)
    return found


def _from_transitions(found: Timezone, zone: str, year: int) -> Timezone:
    """For a zone whose rule cannot be said as a recurrence: each change of five years, one by one."""
    info = ZoneInfo(zone)
    start = datetime(year - 1, 1, 1, tzinfo=UTC)
    _fixed(found, start.astimezone(info).utcoffset() or timedelta(0), start.astimezone(info).tzname() or zone, year)
    moment, end = start, datetime(year + 4, 1, 1, tzinfo=UTC)
    before = moment.astimezone(info).utcoffset() or timedelta(0)
    while moment < end:
        moment += timedelta(hours=1)
        after = moment.astimezone(info).utcoffset() or timedelta(0)
        if after != before:
            part = TimezoneDaylight() if after > before else TimezoneStandard()
            part.add("dtstart", (moment + before).replace(tzinfo=None))
            part.add("tzoffsetfrom", before)
            part.add("tzoffsetto", after)
            part.add("tzname", moment.astimezone(info).tzname() or zone)
            found.add_component(part)
            before = after
    return found
