"""No spade, tine, blade or edge goes in before the lines below it are marked, nor after the marks
have run out.
"""

from collections.abc import Iterator
from datetime import date, timedelta

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.records.book_names import option_of_family

BUSINESS_DAYS, WEEK = 5, 7


def marks_before_digging(case: Case) -> Iterator[Fault]:
    """Buried lines are marked, by as many business days as the utilities need, before anything
    goes into the ground."""
    lead, marks = case.days("order.locate_lead"), case.all("marking")
    for work in case.to_do("digging"):
        if not any(business_days(case, mark.end, work.start) >= lead for mark in marks):
            yield fault("digging_without_marks", work, *marks, day=work.start, least_days=lead)


def marks_still_hold(case: Case) -> Iterator[Fault]:
    """On every day of work in the ground marks lie there of a request that has not run out: a job
    that one request does not outlast has another before that."""
    most, lead = _hold(case), case.days("order.locate_lead")
    marks = case.all("marking")
    for work in case.to_do("digging"):
        if not any(business_days(case, mark.end, work.start) >= lead for mark in marks):
            continue
        for number in range((work.end - work.start).days + 1):
            day = work.start + timedelta(number)
            ages = [
                (day - mark.end).days
                for mark in marks
                if business_days(case, mark.end, day) >= lead
            ]
            if min(ages) > most:
                yield fault(
                    "marks_run_out",
                    work,
                    *marks,
                    day=day,
                    age_days=min(ages),
                    most_days=most,
                )
                break


def _hold(case: Case) -> int:
    """The days that a request for marks holds at this place."""
    place = case.plan.place
    state = f"{place.country or 'US'}_{place.state or ''}".lower()
    fact = case.book.known(option_of_family("law.{state}_marks_hold", state))
    return case.days(fact or "order.locate_ticket_days")


def business_days(case: Case, start: date, end: date) -> int:
    """Mondays to Fridays after `start` until `end`, the latter included, less public holidays.

    Below 0 where `end` comes first.
    """
    if end < start:
        return -1
    whole, rest = divmod((end - start).days, WEEK)
    days = BUSINESS_DAYS * whole + sum(
        (start + timedelta(k)).weekday() < BUSINESS_DAYS for k in range(1, rest + 1)
    )
    kept = case.plan.holidays
    public = kept.days if kept is not None else ()
    return days - sum(start < day <= end and day.weekday() < BUSINESS_DAYS for day in public)


INVARIANTS = (marks_before_digging, marks_still_hold)
