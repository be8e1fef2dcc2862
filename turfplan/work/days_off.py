"""On which days who works: the household, a contractor, suppliers, and machines that are heard.

A contractor comes while nobody is at home, and rests on public holidays like every business; a
household chooses. Machines that neighbours hear rest where law or custom says so.
"""

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from datetime import date, time
from typing import Final

from turfplan.book.entries import Book
from turfplan.book.facts import Fact
from turfplan.calendar_days import WEEKDAYS, Weekday
from turfplan.message import Clock, Message, listed
from turfplan.phrases import day_limits as phrases
from turfplan.phrases import lawn as assumed
from turfplan.phrases import level as of_load
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import FactName
from turfplan.records.brief import Brief, Span
from turfplan.records.constraints import DaySet, Reason
from turfplan.work.drafts import Draft
from turfplan.work.labour import machines_used
from turfplan.work.lawn import ResolvedLawn, WorkDays, country_of, weekday_days, without

WORK_DAYS, QUIET_DAYS = "calendar.work_days", "calendar.quiet_days"
# The public holidays from one ordinal day to another, both included.
HolidaysBetween = Callable[[int, int], Collection[int]]
BUSINESS_DAYS: tuple[Weekday, ...] = ("mon", "tue", "wed", "thu", "fri")
WEEKEND: tuple[Weekday, ...] = ("sat", "sun")
_SUNDAY = WEEKDAYS.index("sun")
# Orders, marks and permits are asked for up to two months before the first day of the plan.
ASKED_BEFORE_DAYS = 60
# Where national law gives machines in dwelling areas their hours; Sundays and holidays are quiet.
LAW_HOURS: Final[dict[str, tuple[FactName, FactName]]] = {
    "DE": ("law.de_machines_from", "law.de_machines_to")
}
# What is spread by a machine is heard.
HEARD_IF_OWNED = frozenset({"topdresser", "loader"})


@dataclass(frozen=True, slots=True)
class QuietLaw:
    """When machines rest: weekdays, public holidays, and outside which hours of the day (minutes).

    `source` is a fact of the law; None where the owner said it.
    """

    weekdays: tuple[str, ...] = ()
    on_holidays: bool = False
    hours: tuple[tuple[int, int], ...] = ()
    source: Fact | None = None

    @property
    def rests(self) -> bool:
        """True where some days are quiet."""
        return bool(self.weekdays) or self.on_holidays


def usual_weekdays(brief: Brief) -> tuple[Weekday, ...]:
    """The weekdays on which the lawn is worked: as its brief says, else those of who does it."""
    by_custom = BUSINESS_DAYS if brief.work.by == "contractor" else WEEKEND
    return brief.calendar.weekdays or by_custom


def no_holidays(_first: int, _last: int) -> Collection[int]:
    """No list of public holidays is known."""
    return ()


def quiet_law(brief: Brief, book: Book) -> QuietLaw:
    """What the owner has looked up, else the law of the country as the book has it."""
    local = brief.local
    named = LAW_HOURS.get(country_of(brief) or "")
    law = QuietLaw()
    if named is not None:
        first, last = (book.fact(name) for name in named)
        law = QuietLaw(("sun",), True, ((round(first.si), round(last.si)),), first)
    if local.quiet_days is not None:
        days = tuple(day for day in local.quiet_days if day != "holidays")
        law = QuietLaw(days, "holidays" in local.quiet_days, law.hours)
    if local.machine_hours is not None:
        law = QuietLaw(law.weekdays, law.on_holidays, tuple(map(_minutes, local.machine_hours)))
    return law


def _minutes(span: str) -> tuple[int, int]:
    first, last = (int(clock[:2]) * 60 + int(clock[3:]) for clock in span.split("-"))
    return first, last


def work_days(
    brief: Brief, book: Book, first: int, last: int, holidays: HolidaysBetween
) -> WorkDays:
    """The days of everybody who works on a lawn, from `first` to `last` (ordinals)."""
    asked, calendar = first - ASKED_BEFORE_DAYS, brief.calendar
    public = tuple(sorted(holidays(asked, last)))
    free, closed, away = _spans(public), _closed(calendar.unavailable), _closed(calendar.away)
    rest = () if calendar.holidays == "work" else free
    own = without(weekday_days(first, last, calendar.weekdays or WEEKEND), (*closed, *away, *rest))
    business = without(weekday_days(asked, last, BUSINESS_DAYS), free)
    work, receiving = own, (*closed, *away)
    if brief.work.by == "contractor":
        come = weekday_days(first, last, calendar.weekdays or BUSINESS_DAYS)
        work, receiving = without(come, (*closed, *free)), closed
    quiet = _quiet_days(quiet_law(brief, book), public, first, last)
    takes, sundays = brief.delivery.allowed_weekdays, weekday_days(asked, last, ("sun",)).ranges
    if not takes:
        # Business drives on its own days, and on Saturdays where somebody works then.
        takes = (*BUSINESS_DAYS, *(day for day in usual_weekdays(brief) if day == "sat"))
    trucks = without(weekday_days(first, last, takes), (*receiving, *free, *quiet))
    orders, at_home = without(own, (*sundays, *free)), without(business, (*closed, *away))
    hired = brief.work.by == "contractor"
    errands = trucks if hired or brief.delivery.allowed_weekdays else orders
    if not errands.ranges:
        # Whether a shop is open on the one day that a household has is asked of it.
        shut = "sun" in quiet_law(brief, book).weekdays
        errands = trucks if shut else without(own, free)
    # What fits into a car is fetched on days of one's own, whatever days lorries keep.
    shops = orders if orders.ranges and not hired else at_home if hired else errands
    if hired or not orders.ranges:
        orders = at_home
    # A contractor asks for marks while nobody is at home.
    offices = without(business, closed) if hired else at_home
    return WorkDays(
        work, without(work, quiet), own, trucks, business, offices, orders, errands, shops, public
    )


def _closed(spans: Collection[Span]) -> tuple[tuple[int, int], ...]:
    return tuple((span.start.toordinal(), span.end.toordinal()) for span in spans)


def _spans(days: Collection[int]) -> tuple[tuple[int, int], ...]:
    return tuple((day, day) for day in days)


def _quiet_days(
    law: QuietLaw, public: Collection[int], first: int, last: int
) -> tuple[tuple[int, int], ...]:
    """The days on which machines rest, as spans in any order."""
    return (
        *weekday_days(first, last, law.weekdays).ranges,
        *_spans(public if law.on_holidays else ()),
    )


def is_heard(setting: ResolvedLawn, operation: str) -> bool:
    """True where neighbours hear the work: it is done with a motor."""
    entry = setting.book.operations[operation]
    if entry.noisy:
        return True
    spread = "topdress" if operation == "incorporate" else operation
    return not HEARD_IF_OWNED.isdisjoint(machines_used(setting, setting.book.operations[spread]))


def days_for(setting: ResolvedLawn, operation: str) -> DaySet:
    """The days on which a task of this operation may begin or end."""
    calendar, entry = setting.calendar, setting.book.operations[operation]
    if "delivery" in entry.roles:
        return calendar.deliveries
    if not {"ordering", "calling"}.isdisjoint(entry.roles):
        return calendar.orders
    if "collecting" in entry.roles:
        return calendar.shops
    if entry.office:
        return calendar.offices
    if is_heard(setting, operation):
        return calendar.machines
    return calendar.work if entry.hired else calendar.household


def days_of(setting: ResolvedLawn, draft: Draft) -> DaySet:
    """The days of one task: those of its operation; what is fetched in bags is an errand of the
    household's own, and a call that cannot wait for its days is made on days of business.
    """
    if draft.urgent:
        return _united(days_for(setting, draft.operation), setting.calendar.offices)
    return setting.calendar.errands if draft.bags else days_for(setting, draft.operation)


def on_sundays_alone(days: DaySet) -> bool:
    """Whether a set of days holds Sundays and nothing else."""
    return bool(days.ranges) and all(
        date.fromordinal(day).weekday() == _SUNDAY for span in days.ranges for day in span
    )


def with_days(setting: ResolvedLawn, days: DaySet) -> WorkDays:
    """The days of everybody, where those who work on the lawn do so on these too.

    Machines rest on quiet days all the same, and those who are asked answer on days of business.
    """
    calendar, law = setting.calendar, quiet_law(setting.brief, setting.book)
    quiet = _quiet_days(law, calendar.public, setting.first_day, setting.last_day)
    asked = days.intersect(calendar.business)
    return replace(
        calendar,
        work=_united(calendar.work, days),
        household=_united(calendar.household, days),
        machines=_united(calendar.machines, without(days, quiet)),
        offices=_united(calendar.offices, asked),
        orders=_united(calendar.orders, asked),
        errands=_united(calendar.errands, asked),
        shops=_united(calendar.shops, asked),
    )


def _united(one: DaySet, other: DaySet) -> DaySet:
    return DaySet.of([*one.ranges, *other.ranges])


def why_days(setting: ResolvedLawn, operation: str, *, fetched: bool = False) -> Reason:
    """Why a task keeps to its days, in the words of who does it; `fetched` by a household."""
    entry, brief = setting.book.operations[operation], setting.brief
    if "delivery" in entry.roles:
        own = fetched and brief.work.by != "contractor" and not brief.delivery.allowed_weekdays
        return Reason(WORK_DAYS, phrases.work_days() if own else phrases.delivery_days())
    if entry.office:
        return Reason(WORK_DAYS, phrases.office_days())
    law = quiet_law(brief, setting.book)
    if is_heard(setting, operation) and law.rests:
        facts = () if law.source is None else (law.source.name,)
        return Reason(QUIET_DAYS, phrases.machine_days(), facts)
    hired = brief.work.by == "contractor" and entry.hired
    why = phrases.contractor_days() if hired else phrases.work_days()
    return Reason(WORK_DAYS, why)


def heard_when(setting: ResolvedLawn, operation: str) -> tuple[Message, ...]:
    """Between which hours a machine may be heard, where law or owner says so."""
    law = quiet_law(setting.brief, setting.book)
    if not law.hours or not is_heard(setting, operation):
        return ()
    spans = (
        phrases.clock_span(first=Clock(_clock(first)), last=Clock(_clock(last)))
        for first, last in law.hours
    )
    return (phrases.machine_hours(hours=listed(spans, "comma")),)


def _clock(minute: int) -> time:
    hour, rest = divmod(minute, 60)
    return time(hour % 24, rest)


def told_of_days(brief: Brief, book: Book, public: Collection[int]) -> tuple[Message, ...]:
    """What was assumed of the days of work, for the reader."""
    told: list[Message] = []
    if brief.calendar.weekdays is None:
        hired = brief.work.by == "contractor"
        told.append(assumed.business_days() if hired else assumed.weekends())
    if brief.calendar.holidays is None and public:
        told.append(assumed.holidays_rest())
    if country_of(brief) is None:
        told.append(assumed.no_country())
    return tuple(told)


def somebody_there(setting: ResolvedLawn) -> tuple[Message, ...]:
    """That somebody must be there for a load, where suppliers come on days on which the household
    does not work on the lawn and nobody said which days suit."""
    if setting.brief.delivery.allowed_weekdays or setting.brief.work.by == "contractor":
        return ()
    return (of_load.somebody_there(),) if _delivered_elsewhen(setting.calendar) else ()


@reckoned_once
def _delivered_elsewhen(calendar: WorkDays) -> bool:
    """Whether suppliers come on days on which nobody works."""
    return bool(without(calendar.deliveries, calendar.work.ranges).ranges)
