"""Every task has one id, days that run forward, and days on which it may be done."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from turfplan.audit.case import Case, last_day_of
from turfplan.audit.deliveries import in_bags
from turfplan.audit.faults import Fault, fault
from turfplan.audit.open_ground import on_open_slope
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Day
from turfplan.records.brief import Span
from turfplan.records.plan_task import Task

SUNDAY = 6
# Operations of the book that have no role of their own and go with the seed.
WITH_SEED = ("cover", "roll")
# What is done on the same days on the open ground of a slope.
ON_SLOPE = (
    *WITH_SEED,
    "starter_feed",
    "grade",
    "seed",
    "dormant_seed",
    "clear_stand",
    "till",
    "raise_fittings",
    "fill",
    "nurse_cover",
)
BUSINESS, WEEKEND = WEEKDAYS[:5], WEEKDAYS[5:]
# Where the law keeps machines quiet on Sundays and public holidays.
QUIET_COUNTRIES = ("DE",)
# Hours are told in halves; what is rounded off is no fault.
ROUNDED_H = 0.3


def ids_once(case: Case) -> Iterator[Fault]:
    """No two tasks share an id."""
    seen: set[str] = set()
    for task in case.plan.tasks:
        if task.id in seen:
            yield fault("id_used_twice", task)
        seen.add(task.id)


def days_forward(case: Case) -> Iterator[Fault]:
    """No task ends before it starts, history included."""
    for task in case.plan.tasks:
        if task.end < task.start:
            yield fault("ends_before_start", task, start=task.start, end=task.end)


def inside_window(case: Case) -> Iterator[Fault]:
    """Every open task starts inside the window that it shows."""
    for task in case.open:
        if not task.window.start <= task.start <= task.window.end:
            yield fault(
                "outside_window",
                task,
                day=task.start,
                first=task.window.start,
                last=task.window.end,
            )


def inside_horizon(case: Case) -> Iterator[Fault]:
    """Every open task starts within the days of the plan.

    A watering may begin before: it is under way where what is left of a season is laid out anew,
    or it follows work that its owner did before those days.
    """
    horizon = case.plan.horizon
    done = {task.id for task in case.plan.tasks if task.closed == "done" or task.held}
    for task in case.open:
        watered = task.series is not None and task.start < horizon.start
        if watered and (task.end >= horizon.start or not done.isdisjoint(task.depends_on)):
            continue
        if not horizon.start <= task.start <= horizon.end:
            yield fault(
                "outside_horizon", task, day=task.start, first=horizon.start, last=horizon.end
            )


def days_of_work(case: Case) -> Iterator[Fault]:
    """Work begins and ends on weekdays of work, a delivery on the supplier's.

    What an owner moved by hand is theirs, and so is what goes with it.
    """
    own = _own_days(case)
    asked, supplier = case.brief.calendar.weekdays, case.brief.delivery.allowed_weekdays
    for task in _dated(case):
        if case.book.operations[task.operation].office:
            continue  # an office has days of its own
        days = asked or (BUSINESS if _hired(case, task) else WEEKEND)
        if task.plays("ordering", "calling", "collecting"):
            days = (*days, *BUSINESS)
        allowed = supplier or (*days, *BUSINESS) if task.plays("delivery") else days
        for day in _ends(task):
            if WEEKDAYS[day.weekday()] not in allowed and (
                task.plays("delivery") or day not in own
            ):
                yield fault("not_a_work_day", task, day=day)


def days_available(case: Case) -> Iterator[Fault]:
    """No work begins or ends on a day that the brief keeps free."""
    for task, day in _inside(case, case.brief.calendar.unavailable):
        yield fault("day_unavailable", task, day=day)


def somebody_is_there(case: Case) -> Iterator[Fault]:
    """While nobody is at home only a contractor works."""
    for task, day in _inside(case, case.brief.calendar.away):
        if not _hired(case, task):
            yield fault("work_while_away", task, day=day)


def holidays_are_kept(case: Case) -> Iterator[Fault]:
    """Deliveries and hired work rest on public holidays, a household's where it does not choose."""
    kept = case.plan.holidays
    days = set(kept.days) if kept is not None else set[date]()
    own = _own_days(case)
    for task in _dated(case):
        office = case.book.operations[task.operation].office
        rests = office or task.plays("delivery") or _hired(case, task)
        if not rests and case.brief.calendar.holidays == "work":
            continue
        for day in _ends(task):
            if day in days and (rests or day not in own):
                yield fault("work_on_holiday", task, day=day)


def suppliers_rest(case: Case) -> Iterator[Fault]:
    """Nothing is ordered or brought on a Sunday, unless the brief names it for deliveries; what is
    fetched in bags is so where the household has no other day.
    """
    asked = case.brief.delivery.allowed_weekdays or ()
    alone = set(case.brief.calendar.weekdays or ()) == {"sun"} and "sun" not in _quiet(case)
    errand = alone and case.brief.work.by != "contractor" and not asked
    for task in _dated(case):
        fetched = errand and in_bags(case, task)
        free = task.plays("delivery") and ("sun" in asked or fetched)
        if task.plays("ordering", "delivery") and not free and task.start.weekday() == SUNDAY:
            yield fault("delivered_on_sunday", task, day=task.start)


def offices_answer(case: Case) -> Iterator[Fault]:
    """Marks and permits are asked for on weekdays of business."""
    for task in _dated(case):
        weekend = WEEKDAYS[task.start.weekday()] in WEEKEND
        if case.book.operations[task.operation].office and weekend:
            yield fault("office_closed", task, day=task.start)


def _quiet(case: Case) -> tuple[str, ...]:
    """The days on which machines rest, as the owner looked them up, or by law."""
    said = case.brief.local.quiet_days
    lawful = ("sun", "holidays") if case.brief.place.country in QUIET_COUNTRIES else ()
    return lawful if said is None else said


def machines_rest(case: Case) -> Iterator[Fault]:
    """Machines are not heard on the quiet days that the owner has looked up, or the law names."""
    quiet = _quiet(case)
    kept = case.plan.holidays
    public = set(kept.days) if kept is not None and "holidays" in quiet else set[date]()
    for task in _dated(case):
        if not case.book.operations[task.operation].noisy:
            continue
        for day in _ends(task):
            if WEEKDAYS[day.weekday()] in quiet or day in public:
                yield fault("machine_on_quiet_day", task, day=day)


def machines_stay_upright(case: Case) -> Iterator[Fault]:
    """A household runs no machine on a slope beyond its limit."""
    slope = (case.brief.site.slope_percent or 0.0) / 100
    if case.brief.work.by == "contractor":
        return
    heavy, mower = case.book.si("site.slope_aerator"), case.book.si("site.slope_mower")
    for task in (*case.to_do("coring", "thatching"), *case.jobs("roll")):
        if slope > heavy:
            yield fault(
                "machine_on_steep_slope", task, day=task.start, slope_percent=round(slope * 100)
            )
    for task in case.open if slope > mower else ():
        if case.book.operations[task.operation].noisy and not task.plays("coring", "thatching"):
            yield fault(
                "machine_on_steep_slope", task, day=task.start, slope_percent=round(slope * 100)
            )


def days_hold_their_work(case: Case) -> Iterator[Fault]:
    """No day asks for more hours of work than the people at hand have, or the plan says so."""
    work, book = case.brief.work, case.book
    people = work.people or round(book.si("setting.people_assumed"))
    there = people * (work.hours_per_day or book.si("setting.hours_per_day_assumed") / 60)
    hours: dict[date, float] = defaultdict(float)
    for task in _dated(case):
        if work.by != "contractor" or _hired(case, task):
            # What lies between the first and the last day of a job is as full as they are.
            for day in _ends(task):
                hours[day] += task.person_hours / max(1, task.duration_days)
    told = {day.day for day in _told_full(case)}
    elsewhere = {one.day: one.hours for one in case.plan.elsewhere}
    for day, had in hours.items():
        left = max(0.0, there - elsewhere.get(day, 0.0))
        if had > left + ROUNDED_H and day not in told:
            yield fault("day_too_full", day=day, hours=round(had, 2), there=left)


# What a plan says of a day that holds too much, on its own and with another lawn's.
_FULL = ("season.overfull", "season.overfull_elsewhere")


def _told_full(case: Case) -> Iterator[Day]:
    """The days of which the plan says that they hold more work than there are hours."""
    for said in case.plan.cautions:
        day = dict(said.values).get("day") if said.key in _FULL else None
        if isinstance(day, Day):
            yield day


def _dated(case: Case) -> Iterator[Task]:
    """The open tasks whose day the plan has chosen; what goes with seed that was moved or is in the
    ground, or with other work on the open ground of a slope, is not its choice."""
    moved = {(task.id, task.start) for task in case.open if task.held}
    moved_days = {day for _, day in moved} if on_open_slope(case) else set()
    moved |= {(task.id, last_day_of(task)) for task in case.kept if task.closed == "done"}
    for task in case.open:
        with_seed = task.operation in WITH_SEED and any(
            (name, task.start) in moved for name in task.depends_on
        )
        on_slope = task.operation in ON_SLOPE and task.start in moved_days
        if task.series is None and not task.held and not with_seed and not on_slope:
            yield task


def _own_days(case: Case) -> set[date]:
    """The days that somebody chose for some work, whatever the brief says of days of work."""
    chosen = [task for task in case.open if task.held or task.booked]
    return {
        task.start + timedelta(days=n)
        for task in chosen
        for n in range((task.end - task.start).days + 1)
    }


def _hired(case: Case, task: Task) -> bool:
    operation = case.book.operations.get(task.operation)
    return case.brief.work.by == "contractor" and operation is not None and operation.hired


def _ends(task: Task) -> tuple[date, ...]:
    return (task.start, task.end) if task.start != task.end else (task.start,)


def _inside(case: Case, spans: Sequence[Span]) -> Iterator[tuple[Task, date]]:
    """The tasks that begin or end inside one of the spans, with that day; not what the owner wished
    for then, or goes with it."""
    own = _own_days(case) if spans else ()
    for task in _dated(case) if spans else ():
        for day in _ends(task):
            if day not in own and any(span.start <= day <= span.end for span in spans):
                yield task, day


INVARIANTS = (
    ids_once,
    days_forward,
    inside_window,
    inside_horizon,
    days_of_work,
    days_available,
    somebody_is_there,
    holidays_are_kept,
    suppliers_rest,
    offices_answer,
    machines_rest,
    machines_stay_upright,
    days_hold_their_work,
)
