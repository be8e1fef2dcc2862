"""The id by which a lawn is known in its plans and feeds."""

from turfplan.records.brief import Brief
from turfplan.records.plan import Plan


def given_lawn_id(brief: Brief, previous: Plan | None) -> str | None:
    """The id that a lawn has already: its brief's, else the one that its plan before was given;
    None for a lawn without either, whose first plan takes one that is drawn."""
    if brief.lawn.id:
        return brief.lawn.id
    return previous.lawn_id if previous is not None else None
