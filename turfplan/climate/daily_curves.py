"""Daily curves from monthly values, so that every month's mean comes back."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from turfplan.calendar_days import DAYS, MONTH_LENGTHS, MONTH_STARTS

_ROUNDS = 40


def daily_curve(monthly: Sequence[float]) -> tuple[float, ...]:
    """365 daily values whose monthly means are the given ones (to 0.01), smooth over New Year.

    Straight lines between values at mid-month are corrected until the means come back: the
    iteration of Rymes & Myers (2001), "Mean preserving algorithm for smoothly interpolating
    averaged data", Solar Energy 71(4), in its idea.
    """
    centres = [
        start + length / 2 for start, length in zip(MONTH_STARTS, MONTH_LENGTHS, strict=True)
    ]
    knots = list(monthly)
    days = _between(knots, centres)
    for _ in range(_ROUNDS):
        errors = [
            target - sum(days[start : start + length]) / length
            for target, start, length in zip(monthly, MONTH_STARTS, MONTH_LENGTHS, strict=True)
        ]
        if max(abs(e) for e in errors) < 0.005:
            break
        knots = [knot + error for knot, error in zip(knots, errors, strict=True)]
        days = _between(knots, centres)
    return tuple(days)


def _between(knots: Sequence[float], centres: Sequence[float]) -> list[float]:
    """A periodic cubic (Catmull-Rom) through the middles of months, at the middle of each day."""
    days: list[float] = []
    # December's middle of the year before, and January's of the year after.
    middles = [centres[-1] - DAYS, *centres, centres[0] + DAYS]
    for day in range(DAYS):
        x = day + 0.5
        after = bisect_left(middles, x)
        part = (x - middles[after - 1]) / (middles[after] - middles[after - 1])
        a, b, c, d = (knots[(after + k) % 12] for k in (-3, -2, -1, 0))
        days.append(
            b
            + 0.5
            * part
            * (c - a + part * (2 * a - 5 * b + 4 * c - d + part * (3 * (b - c) + d - a)))
        )
    return days


def crossing(
    curve: Sequence[float], threshold: float, *, rising: bool, start: int, length: int = DAYS
) -> int | None:
    """The first place in the year from `start` on at which a curve crosses a threshold, or None.

    The curve is periodic, and the place may pass 364.
    """
    first = (start - 1) % len(curve)
    rounds = 1 + (first + length) // len(curve)
    days = (tuple(curve) * rounds)[first : first + length + 1]
    steps = enumerate(pairwise(days), start)
    if rising:
        return next((k for k, (before, after) in steps if before < threshold <= after), None)
    return next((k for k, (before, after) in steps if before >= threshold > after), None)
