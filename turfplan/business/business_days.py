"""On which days a business works on a lawn: those of its crew, but for when it is closed."""

import hashlib

from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.crew_hours import CREW_COLUMN
from turfplan.calendar_days import WEEKDAYS, Weekday
from turfplan.records.brief import Brief


def with_business_days(brief: Brief, client: Client, business: Business) -> Brief:
    """A brief of a lawn that a business works on, with the days on which it does: closed days are
    unavailable, and the weekdays, where the brief says none, are those of the lawn's crew, or of
    all crews where no column names one."""
    if brief.work.by != "contractor":
        return brief
    calendar, update = brief.calendar, dict[str, object]()
    closed = tuple(span for span in business.closed if span not in calendar.unavailable)
    if closed:
        update["unavailable"] = (*calendar.unavailable, *closed)
    if calendar.weekdays is None and business.crew:
        update["weekdays"] = _weekdays(client, business)
    if not update:
        return brief
    return brief.model_copy(update={"calendar": calendar.model_copy(update=update)})


def sum_of_days(business: Business | None) -> str:
    """What tells whether a business works on other days than before: empty where it says none."""
    if business is None or not (business.closed or business.crew):
        return ""
    crews = "\n".join(f"{crew.name.casefold()} {crew.weekdays}" for crew in business.crew)
    said = f"{business.closed!r}\n{crews}"
    return hashlib.sha256(said.encode()).hexdigest()[:16]


def _weekdays(client: Client, business: Business) -> tuple[Weekday, ...]:
    named = {
        value.strip().casefold()
        for column, value in client.own.items()
        if column.casefold() == CREW_COLUMN
    }
    own = [crew for crew in business.crew if crew.name.casefold() in named]
    worked = {day for crew in own or business.crew for day in crew.weekdays}
    return tuple(day for day in WEEKDAYS if day in worked)
