"""Says which hours the lawns of a house have promised, and which lawn gives way where the same
hours were promised twice.

What was planned knowing the hours of another lawn stands. Where neither plan knew of the other,
the lawn that comes later in the order of the house gives way.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.calendar_days import WEEKDAYS
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan
from turfplan.work.days_off import WEEKEND
from turfplan.work.elsewhere import Elsewhere
from turfplan.work.shared_hands import HAIR_H
from turfplan.work.shared_visits import VISITS


@dataclass(frozen=True, slots=True)
class PromisedHours:
    """The hours that another lawn has promised, by day, and those of other lawns that its plan
    knew; `visits` are the days on which something is brought or fetched for it. `goes_first` where
    it comes earlier in the order of the house."""

    hours: Mapping[date, float]
    known: Mapping[date, float]
    visits: tuple[tuple[str, date], ...] = ()
    goes_first: bool = False


def same_hands(one: Brief, other: Brief | None) -> bool:
    """Whether the same people work on two lawns of a house: its own, or those of its contractor;
    its own where a brief cannot be read."""
    return _is_hired(one) == _is_hired(other)


def _is_hired(brief: Brief | None) -> bool:
    return brief is not None and brief.work.by == "contractor"


def promised_hours(
    plan: Plan, brief: Brief | None, book: Book, since: date = date.min
) -> Mapping[date, float]:
    """The hours that the open work of a plan takes of those who do it, by day from `since` on;
    those of a job of several days in equal parts on its days of work."""
    hired = _is_hired(brief)
    usual = [name for name in WEEKDAYS if (name in WEEKEND) != hired]
    weekdays = (brief and brief.calendar.weekdays) or usual
    hours: dict[date, float] = defaultdict(float)
    for task in plan.tasks:
        entry = book.operations.get(task.operation)
        counted = not hired or (entry is not None and entry.hired)
        if not counted or task.series is not None or not task.is_open or task.overdue:
            continue
        span = [task.start + timedelta(days=n) for n in range((task.end - task.start).days + 1)]
        own = [day for day in span if WEEKDAYS[day.weekday()] in weekdays]
        days = own if len(own) >= task.duration_days else span
        for day in days:
            hours[day] += task.person_hours / len(days)
    return {day: had for day, had in sorted(hours.items()) if day >= since and had > HAIR_H}


def known_hours(plan: Plan) -> Mapping[date, float]:
    """The hours of other lawns that a plan was made around."""
    return {one.day: one.hours for one in plan.elsewhere}


def promised_visits(plan: Plan) -> tuple[tuple[str, date], ...]:
    """The days on which a plan has something brought or fetched, with the operation."""
    return tuple(
        (task.operation, task.start)
        for task in plan.tasks
        if task.operation in VISITS and task.is_open and not task.overdue
    )


def elsewhere_of(others: Iterable[PromisedHours]) -> Elsewhere:
    """What the other lawns of a house have promised, as a plan is made around it."""
    others = tuple(others)
    hours = tuple(sorted((day.toordinal(), had) for day, had in all_hours(others).items()))
    visits = {(name, day.toordinal()) for other in others for name, day in other.visits}
    return Elsewhere(hours, tuple(sorted(visits)))


def all_hours(others: Iterable[PromisedHours]) -> Mapping[date, float]:
    """The hours that all other lawns have promised, by day."""
    hours: dict[date, float] = defaultdict(float)
    for other in others:
        for day, had in other.hours.items():
            hours[day] += had
    return dict(hours)


def gives_way(
    plan: Plan, own: Mapping[date, float], others: Iterable[PromisedHours], day_hours: float
) -> bool:
    """Whether a plan has promised hours that are taken, and is the one to give way.

    A day counts that holds more than its hours, that this plan was not made knowing, and that no
    plan which comes later in the order was made knowing either.
    """
    known = known_hours(plan)
    others = tuple(others)
    taken = all_hours(others)
    for day, mine in own.items():
        there = taken.get(day, 0.0)
        if there <= known.get(day, 0.0) + HAIR_H or mine + there <= day_hours + HAIR_H:
            continue
        if any(
            _is_news(other, day, mine) for other in others if other.hours.get(day, 0.0) > HAIR_H
        ):
            return True
    return False


def _is_news(other: PromisedHours, day: date, mine: float) -> bool:
    """Whether a day was promised by another lawn that goes first and whose plan did not know of
    the hours promised here."""
    return other.goes_first and other.known.get(day, 0.0) < mine - HAIR_H
