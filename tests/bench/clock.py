"""What benches measure against: a plain loop of known work, and the shortest of several runs."""

from collections.abc import Callable
from math import exp
from time import perf_counter

THIRTY_YEARS = 10_957
"""Days."""


def best_time(work: Callable[[], object]) -> float:
    """The shortest of several runs in seconds, which other work on the machine disturbs least."""
    times = []
    for _ in range(7):
        begin = perf_counter()
        work()
        times.append(perf_counter() - begin)
    return min(times)


def plain_loop() -> float:
    """Ten exponentials for each day of thirty years: about 10 ms."""
    return sum(exp(-0.001 * (day % 365) * part) for day in range(THIRTY_YEARS) for part in range(10))
