"""A monotone temporal network: earliest, latest and chosen days, with reasons; it knows no turf.

Constraints are allowed days and monotone lags, so solutions are closed under componentwise minimum
and maximum, and propagation of bounds decides everything exactly.
"""

from turfplan.network.chains import Chain, Link
from turfplan.network.conflicts import Conflict, conflict, feasible
from turfplan.network.net import nodes_of
from turfplan.network.placing import Bounds, Schedule, bounds, place_again, solve, solve_softly
from turfplan.network.repairing import Move, Repair, repair

__all__ = [
    "Bounds",
    "Chain",
    "Conflict",
    "Link",
    "Move",
    "Repair",
    "Schedule",
    "bounds",
    "conflict",
    "feasible",
    "nodes_of",
    "place_again",
    "repair",
    "solve",
    "solve_softly",
]
