"""Makes of a published calendar one that has ended: what is to come is cancelled."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event
from icalendar.prop import vInt, vRecur, vText

from turfplan.calendar_days import WEEKDAYS
from turfplan.messages import Words
from turfplan.phrases import published as phrases

# What a cancelled entry needs no longer: it may say what is not for everybody.
_LEFT_OUT = ("description", "categories")


def ended_ics(published: bytes, timezone: str, words: Words, now: datetime) -> bytes:
    """The calendar that takes the place of a published one at `now`, by the days of its zone.

    Entries that are not over are cancelled with a higher SEQUENCE (RFC 5546, 3.2.5), those that
    repeat and have begun end with the day before; what is over stays as it was. Raises ValueError
    for bytes that are no calendar.
    """
    calendar = Calendar.from_ical(published)
    now = now.replace(microsecond=0)
    today = now.astimezone(ZoneInfo(timezone)).date()
    name = words.text(phrases.ended_name(name=str(calendar.get("name", ""))))
    ended = words.text(phrases.ended())
    for key, text in (
        ("name", name),
        ("x-wr-calname", name),
        ("description", ended),
        ("x-wr-caldesc", ended),
    ):
        calendar[key] = vText(text)
    for event in calendar.events:
        _end(event, today, now)
    _stamp(calendar, now)
    return bytes(calendar.to_ical(sorted=False))


def _end(event: Event, today: date, now: datetime) -> None:
    """Ends an entry, unless it is over or cancelled already."""
    start = _day(event.decoded("dtstart"))
    if str(event.get("status")) == "CANCELLED":
        return
    rule = event.get("rrule")
    if isinstance(rule, vRecur) and start < today:
        count, gone = int(rule["COUNT"][0]), _turns_before(rule, start, today)
        if gone >= count:
            return
        rule["COUNT"] = [gone]
    elif _day(event.decoded("dtend") - timedelta(microseconds=1)) < today:
        return
    else:
        event["status"] = vText("CANCELLED")
        for key in _LEFT_OUT:
            event.pop(key, None)
    event.subcomponents.clear()  # nothing is to be reminded of
    event["sequence"] = vInt(event.decoded("sequence") + 1)
    _stamp(event, now)


def _turns_before(rule: vRecur, start: date, today: date) -> int:
    """How many turns of a rule there were before a day, those left out counted."""
    weekdays = [str(day) for day in rule.get("BYDAY", ())]
    days = (start + timedelta(days=n) for n in range((today - start).days))
    return sum(not weekdays or WEEKDAYS[d.weekday()][:2].upper() in weekdays for d in days)


def _stamp(component: Calendar | Event, now: datetime) -> None:
    """Says that something changed now, in any case later than it last did."""
    before = component.decoded("last-modified")
    at = max(now, before + timedelta(seconds=1))
    for key in ("dtstamp", "last-modified"):
        if key in component:
            del component[key]
            component.add(key, at)


def _day(moment: date) -> date:
    return moment.date() if isinstance(moment, datetime) else moment
