"""Counts the hours that crews have on a day against those that the work of lawns takes."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.business.business_record import Business
from turfplan.business.groups import ClientGroup
from turfplan.business.lawn_glance import GlancedJob
from turfplan.calendar_days import WEEKDAYS

WHOLE_PERCENT = 100.0
# The column of a business's own that names the crew of a lawn.
CREW_COLUMN = "crew"


@dataclass(frozen=True, slots=True)
class DayHours:
    """The hours that work takes on a day, and those that are there (None: nobody has said what
    crews there are)."""

    day: date
    needed: float
    there: float | None

    @property
    def is_over(self) -> bool:
        """Whether the work takes more hours than there are."""
        return self.there is not None and self.needed > self.there


def hours_there(business: Business, day: date, holidays: Collection[date]) -> float:
    """The hours of all people of all crews that may be planned with on a day."""
    rests = business.holidays == "rest" and day in holidays
    if rests or business.is_closed(day):
        return 0.0
    weekday = WEEKDAYS[day.weekday()]
    hours = sum(
        crew.people * crew.hours_per_day for crew in business.crew if weekday in crew.weekdays
    )
    return hours * business.load_percent / WHOLE_PERCENT


def with_crew_of(business: Business, group: ClientGroup | None) -> Business:
    """A business with one crew alone, where a group is the lawns of that crew: `crew=north`."""
    if group is None or group.column.casefold() != CREW_COLUMN:
        return business
    name = group.value.casefold()
    crews = tuple(crew for crew in business.crew if crew.name.casefold() == name)
    return business.model_copy(update={"crew": crews}) if crews else business


def hours_of_days(
    jobs: Iterable[GlancedJob],
    days: Iterable[date],
    business: Business | None,
    holidays: Collection[date],
) -> tuple[DayHours, ...]:
    """Each day with the hours of the jobs on it, and those that are there.

    The hours of a job are shared alike by those of its days on which somebody works, by all where
    nobody does, or nothing is known of crews.
    """
    known = business if business is not None and business.crew else None
    needed = dict.fromkeys(days, 0.0)

    def there(day: date) -> float | None:
        return hours_there(known, day, holidays) if known is not None else None

    for job in jobs:
        own = [job.start + timedelta(days=n) for n in range((job.end - job.start).days + 1)]
        worked = [day for day in own if there(day) != 0] or own
        for day in worked:
            if day in needed:
                needed[day] += job.hours / len(worked)
    return tuple(DayHours(day, hours, there(day)) for day, hours in needed.items())
