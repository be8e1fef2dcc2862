"""An independent judge of a finished plan: reads the plan as a suspicious expert would.

It shares facts with the rules, no code, so that one mistake cannot hide another. Closed and
cancelled tasks are history and are not judged.
"""

from collections.abc import Callable, Iterator

from turfplan.audit import (
    amounts_agree,
    amounts_in_place,
    buying,
    care,
    compost_and_starter,
    days,
    deliveries,
    goods,
    inputs_kept,
    marks,
    nitrogen,
    open_ground,
    order_of_work,
    passes,
    places,
    seedlings,
    soil_corrections,
    sowings,
    values_said,
    watering_law,
    whole_jobs,
)
from turfplan.audit.case import Case, case_of
from turfplan.audit.faults import LEFT_BY_EVENTS, Fault, FaultKind
from turfplan.audit.words import faults_listed
from turfplan.book.entries import Book
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan

__all__ = [
    "INVARIANTS",
    "LEFT_BY_EVENTS",
    "Fault",
    "FaultKind",
    "audit_plan",
    "faults_listed",
]

INVARIANTS: tuple[Callable[[Case], Iterator[Fault]], ...] = (
    *days.INVARIANTS,
    *order_of_work.INVARIANTS,
    *marks.INVARIANTS,
    *deliveries.INVARIANTS,
    *whole_jobs.INVARIANTS,
    *passes.INVARIANTS,
    *places.INVARIANTS,
    *seedlings.INVARIANTS,
    *sowings.INVARIANTS,
    *open_ground.INVARIANTS,
    *compost_and_starter.INVARIANTS,
    *soil_corrections.INVARIANTS,
    *watering_law.INVARIANTS,
    *nitrogen.INVARIANTS,
    *values_said.INVARIANTS,
    *amounts_agree.INVARIANTS,
    *amounts_in_place.INVARIANTS,
    *goods.INVARIANTS,
    *buying.INVARIANTS,
    *inputs_kept.INVARIANTS,
    *care.INVARIANTS,
)


def audit_plan(plan: Plan, brief: Brief, book: Book) -> tuple[Fault, ...]:
    """Every fault found; empty for a sound plan. `book` is the one the plan was made from.

    A fault of a task that its owner moved by hand is the owner's choice: the plan warns of it and
    is not refused.
    """
    case = case_of(plan, brief, book)
    held = {task.id for task in case.open if task.held}
    found = (fault for invariant in INVARIANTS for fault in invariant(case))
    return tuple(fault for fault in found if held.isdisjoint(fault.tasks))
