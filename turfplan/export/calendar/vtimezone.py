"""Writes a time zone as a VTIMEZONE, with recurrence rules from the footer of its compiled file in
the tzdata package.
"""

# Own code beside icalendar's Timezone.from_tzid, which lists every change of the clock one by one:
# a rule is a tenth of the bytes, and calendars that follow it stay right in years that the plan
# does not reach.

import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from zoneinfo import ZoneInfo

from dateutil.relativedelta import relativedelta
from dateutil.rrule import weekdays
from icalendar import Timezone, TimezoneDaylight, TimezoneStandard
from icalendar.prop import vRecur

from turfplan.errors import Problem, TurfplanError
from turfplan.phrases import tools as phrases

# POSIX.1-2017, section 8.3, TZ: std offset [dst [offset] [, start [/time], end [/time]]].
_POSIX = re.compile(
    r"^(?P<std>[A-Za-z]{3,}|<[^>]+>)(?P<off>[-+]?[\d:]+)"
    r"(?:(?P<dst>[A-Za-z]{3,}|<[^>]+>)(?P<dstoff>[-+]?[\d:]+)?,(?P<start>[^,]+),(?P<end>.+))?$"
)
_RULE = re.compile(r"^M(?P<month>\d+)\.(?P<week>\d)\.(?P<day>\d)(?:/(?P<time>[-+]?[\d:]+))?$")
_NAME = re.compile(r"[A-Za-z0-9+_-]+(?:/[A-Za-z0-9+_-]+)*")
_LAST_WEEK = 5
_DAY, _SECOND = timedelta(days=1), timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class _Yearly:
    """A yearly change of the clock: month, week (5: the last), weekday (0: Sunday), local time of
    day before it, new offset.
    """

    month: int
    week: int
    day: int
    at: timedelta
    before: timedelta
    after: timedelta
    name: str

    def moment(self, year: int) -> datetime:
        """The change of a year in the local time before it."""
        weekday = weekdays[self.day - 1]
        last = self.week == _LAST_WEEK
        offset = (
            relativedelta(day=31, weekday=weekday(-1))
            if last
            else relativedelta(day=1, weekday=weekday(self.week))
        )
        first = datetime(year, self.month, 1)  # noqa: DTZ001 — local clock time
        day: datetime = first + offset
        return day + self.at


@dataclass(frozen=True, slots=True)
class _ClockChange:
    """One change of the clock, in the local time before it."""

    local: datetime
    before: timedelta
    after: timedelta
    name: str


@lru_cache(maxsize=64)
def zone_rules(zone: str) -> ZoneInfo:
    """The rules of a zone from the tzdata package, not from the machine, so that bytes do not
    differ between machines.
    """
    with _file(zone).open("rb") as opened:
        return ZoneInfo.from_file(opened, key=zone)


@lru_cache(maxsize=64)
def vtimezone(zone: str, first_year: int, last_year: int) -> Timezone:
    """The VTIMEZONE of a zone, right from the year before `first_year` to the year after
    `last_year`.

    It has recurrence rules where the zone's rule says all that happens in those years, else each
    change one by one. Raises TurfplanError for a zone that is not in the data.
    """
    years = range(first_year - 1, last_year + 2)
    changes = tuple(_changes(zone, years))
    timezone = Timezone()
    timezone.add("tzid", zone)
    rules = _rules(zone)
    by_rule = tuple(sorted((r.moment(y), r.before, r.after) for r in rules for y in years))
    if by_rule == tuple((c.local, c.before, c.after) for c in changes):
        for rule in rules:
            timezone.add_component(
                _part(rule.moment(years[0]), rule.before, rule.after, rule.name, _recurrence(rule))
            )
    if not rules or len(timezone.subcomponents) == 0:
        start = datetime(years[0], 1, 1, tzinfo=UTC).astimezone(zone_rules(zone))
        offset = start.utcoffset() or timedelta(0)
        # A day early: the first change must find the zone as it was before it.
        timezone.add_component(
            _part(start.replace(tzinfo=None) - _DAY, offset, offset, start.tzname() or zone)
        )
        for change in changes:
            timezone.add_component(_part(change.local, change.before, change.after, change.name))
    return timezone


def _file(zone: str) -> Traversable:
    if not _NAME.fullmatch(zone):
        raise TurfplanError(
            Problem(
                "timezone",
                phrases.no_zone_name(),
                repr(zone),
                hint=phrases.such_a_zone(),
            )
        )
    path = files("tzdata").joinpath("zoneinfo", *zone.split("/"))
    if not path.is_file() or path.read_bytes()[:4] != b"TZif":
        raise TurfplanError(
            Problem("timezone", phrases.no_zone_data(), repr(zone), hint=phrases.such_a_zone())
        )
    return path


def _rules(zone: str) -> tuple[_Yearly, ...]:
    """The two yearly changes that the footer of the zone's file states.

    None for a zone without, or with rarer forms.
    """
    footer = _file(zone).read_bytes().rstrip(b"\n").rsplit(b"\n", 1)[-1].decode("ascii")
    match = _POSIX.match(footer)
    if match is None or match["dst"] is None:
        return ()
    standard = -_interval(match["off"])
    daylight = -_interval(match["dstoff"]) if match["dstoff"] else standard + timedelta(hours=1)
    start = _yearly(match["start"], standard, daylight, match["dst"])
    end = _yearly(match["end"], daylight, standard, match["std"])
    return (start, end) if start is not None and end is not None else ()


def _yearly(text: str, before: timedelta, after: timedelta, name: str) -> _Yearly | None:
    match = _RULE.match(text)
    if match is None:
        return None
    at = _interval(match["time"]) if match["time"] else timedelta(hours=2)
    if not timedelta(0) <= at < _DAY:
        return None
    return _Yearly(
        int(match["month"]),
        int(match["week"]),
        int(match["day"]),
        at,
        before,
        after,
        name.strip("<>"),
    )


def _interval(text: str) -> timedelta:
    sign = -1 if text.startswith("-") else 1
    parts = [int(p) for p in text.lstrip("+-").split(":")] + [0, 0]
    return sign * timedelta(hours=parts[0], minutes=parts[1], seconds=parts[2])


def _recurrence(rule: _Yearly) -> vRecur:
    week = -1 if rule.week == _LAST_WEEK else rule.week
    return vRecur(
        {"FREQ": "YEARLY", "BYMONTH": rule.month, "BYDAY": f"{week}{weekdays[rule.day - 1]}"}
    )


def _changes(zone: str, years: range) -> Iterator[_ClockChange]:
    """Every change of the clock in those years (in UTC), in order."""
    info = zone_rules(zone)
    start, end = datetime(years[0], 1, 1, tzinfo=UTC), datetime(years[-1] + 1, 1, 1, tzinfo=UTC)
    days = (start + n * _DAY for n in range((end - start).days + 1))
    for low, high in itertools.pairwise(days):
        before, after = low.astimezone(info).utcoffset(), high.astimezone(info).utcoffset()
        if before == after or before is None or after is None:
            continue
        while high - low > _SECOND:
            middle = low + timedelta(seconds=(high - low) // _SECOND // 2)
            if middle.astimezone(info).utcoffset() == before:
                low = middle
            else:
                high = middle
        yield _ClockChange(
            (high + before).replace(tzinfo=None),
            before,
            after,
            high.astimezone(info).tzname() or zone,
        )


def _part(
    start: datetime,
    before: timedelta,
    after: timedelta,
    name: str,
    recurrence: vRecur | None = None,
) -> TimezoneDaylight | TimezoneStandard:
    part = TimezoneDaylight() if after > before else TimezoneStandard()
    part.add("dtstart", start)
    part.add("tzoffsetfrom", before)
    part.add("tzoffsetto", after)
    part.add("tzname", name)
    if recurrence is not None:
        part.add("rrule", recurrence)
    return part
