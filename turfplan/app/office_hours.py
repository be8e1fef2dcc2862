"""The hours that the work of a week takes a business beside those that are there."""

from collections.abc import Iterable
from datetime import date

from turfplan.app.client_lists import holidays_of_business
from turfplan.app.office_list import OfficeLawn
from turfplan.business.business_record import Business
from turfplan.business.crew_hours import DayHours, hours_of_days
from turfplan.calendar_days import week_of


def week_hours(
    lawns: Iterable[OfficeLawn], business: Business | None, day: date
) -> tuple[DayHours, ...]:
    """Each day of the week of a day with the hours of the jobs on it that are sold and not paused,
    and those that crews have, as the list of the week has them."""
    days = week_of(day)
    jobs = [job for lawn in lawns for job in lawn.jobs_within(days[0], days[-1])]
    around = [day for job in jobs for day in (job.start, job.end)]
    return hours_of_days(jobs, days, business, holidays_of_business(business, (*days, *around)))
