"""Rounds the parts of a whole so that they add up to it."""

import math
from collections.abc import Sequence

# Of a step: what a float may be off from a whole number of them.
HAIR = 1e-6


def allotted(parts: Sequence[float], step: float, whole: float | None = None) -> tuple[float, ...]:
    """The parts in whole steps that add up to the whole, by largest remainder.

    Each part is rounded down, and what the whole (else the sum of the parts, to the nearest step)
    then lacks goes step by step to those that were cut most, the earlier of equal ones first.
    Raises ValueError for a step that is not above nothing.
    """
    if step <= 0:
        raise ValueError("a step must be above nothing")
    steps = round((sum(parts) if whole is None else whole) / step)
    cut = [math.floor(part / step + HAIR) for part in parts]
    lost = [part / step - down for part, down in zip(parts, cut, strict=True)]
    for place in sorted(range(len(parts)), key=lambda n: (-lost[n], n))[: max(0, steps - sum(cut))]:
        cut[place] += 1
    return tuple(number * step for number in cut)
