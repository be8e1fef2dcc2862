"""Lawns as the planner resolves them, with their windows: of any brief, and of the plain one with
changes, each made once.
"""

from typing import Any

from planning import EXAMPLES, TODAY, brief_of
from turfplan.app.inputs import input_of
from turfplan.planning.window_dates import with_windows
from turfplan.records.brief import Brief
from turfplan.work.assumptions import resolve
from turfplan.work.lawn import ResolvedLawn

_LAWNS: dict[str, ResolvedLawn] = {}


def setting_of(brief: Brief) -> ResolvedLawn:
    """The setting of a brief as the planner resolves it."""
    given = input_of(brief, EXAMPLES)
    ground = given.ground
    return with_windows(resolve(brief, given.book, given.climate, TODAY.date(), ground=ground))


def lawn(*changes: dict[str, Any]) -> ResolvedLawn:
    """The plain lawn, thin tall fescue on clay loam with half an inch of fill, with changes."""
    key = repr(changes)
    if key not in _LAWNS:
        _LAWNS[key] = setting_of(brief_of(*changes))
    return _LAWNS[key]
