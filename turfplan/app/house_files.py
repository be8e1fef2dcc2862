"""Says which files the folder of a house holds beside those of its lawns, and writes them."""

from collections.abc import Sequence
from pathlib import Path

from turfplan.app.house import HouseLawn, planned_in_house
from turfplan.errors import Problem, TurfplanError
from turfplan.export.calendar.house_ics import LabelledPlan, house_ics
from turfplan.export.house_plan import house_plan
from turfplan.files.data_folder import LAWNS, PLAN
from turfplan.files.house_folder import lawns_of_house
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import FILES, CalendarPart


def house_calendar(lawns: Sequence[HouseLawn], part: CalendarPart = "all") -> bytes:
    """The calendar of the planned lawns of a house, or a part of it."""
    labelled = [LabelledPlan(lawn.label, lawn.plan) for lawn in lawns]
    return house_ics(labelled, lawns[0].words, part)


def plan_of_house(lawns: Sequence[HouseLawn]) -> Plan:
    """The plans of the lawns of a house as one that sheets are printed from."""
    return house_plan([lawn.part for lawn in lawns], lawns[0].words)


def house_files(lawns: Sequence[HouseLawn]) -> dict[str, bytes]:
    """The files of the whole house by name; they follow from the plans of its lawns."""
    from turfplan.export.sheets.checklist import checklist_html
    from turfplan.export.sheets.order_sheet import order_html

    plan, words = plan_of_house(lawns), lawns[0].words
    return {
        **{FILES[part]: house_calendar(lawns, part) for part in FILES},
        "checklist.html": checklist_html(plan, words).encode(),
        "order.html": order_html(plan, words).encode(),
    }


def write_house(root: Path) -> tuple[str, ...]:
    """Write what is of the whole house into its folder: calendars, checklist and order.

    Raises TurfplanError where no lawn has a plan, or where it cannot be written.
    """
    lawns, _ = planned_in_house(root)
    return _written(root, lawns)


def refresh_house(lawn: Path) -> tuple[str, ...]:
    """Write what is of the whole house again after a lawn of it was planned alone; nothing where
    the lawn lies in no house, where the house has no such files yet, or where a plan beside it
    cannot be read, whose work would vanish from them.

    Raises TurfplanError where they cannot be written.
    """
    here = lawn.resolve()
    root = here.parent.parent
    # The files first: a folder of thousands of clients is not listed for each of them.
    if here.parent.name != LAWNS or not (root / FILES["all"]).is_file():
        return ()
    if here not in lawns_of_house(root):
        return ()
    lawns = readable_house(root)
    return () if lawns is None else _written(root, lawns)


def readable_house(root: Path) -> tuple[HouseLawn, ...] | None:
    """The planned lawns of a house; None where a plan cannot be read, and where there is none. A
    lawn that has no plan yet has nothing to show."""
    try:
        lawns, faults = planned_in_house(root)
    except TurfplanError:
        return None
    problems = (problem for fault in faults for problem in fault.problems)
    return None if any(map(_is_plan, problems)) else lawns


def _is_plan(problem: Problem) -> bool:
    """Whether a fault is that of a plan's file."""
    return PLAN in str(problem.where)


def _written(root: Path, lawns: Sequence[HouseLawn]) -> tuple[str, ...]:
    files = house_files(lawns)
    with folder_lock(root, traceless=True):
        write_outputs(root, files)
    return tuple(files)
