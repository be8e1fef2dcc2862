"""What benches measure against: known work of the same kind, done in turn with what is measured, in
time of the processor.

A bench and its yardstick take turns, so that both meet the same machine under the same load, as
often as one another; of each the shortest turn counts, which other work on the machine disturbs
least. Python is compared with a loop of Python, arrays with arrays.
"""

from collections.abc import Callable
from math import exp
from time import process_time

THIRTY_YEARS = 10_957
"""Days."""
TURNS = 7


def ratio(work: Callable[[], object], yardstick: Callable[[], object], turns: int = TURNS) -> float:
    """How many times as long as the yardstick the work takes; each is done once before, so that
    neither warms up in it.
    """
    work(), yardstick()
    pairs = [(_seconds(work), _seconds(yardstick)) for _ in range(turns)]
    return min(mine for mine, _ in pairs) / min(known for _, known in pairs)


def _seconds(work: Callable[[], object]) -> float:
    begin = process_time()
    work()
    return process_time() - begin


def plain_loop() -> float:
    """Ten exponentials for each day of thirty years: about 10 ms of Python."""
    return sum(
        exp(-0.001 * (day % 365) * part) for day in range(THIRTY_YEARS) for part in range(10)
    )


def array_loop() -> float:
    """Sorting, adding up and multiplying arrays of numbers, 2 MB each: about 20 ms outside
    Python.
    """
    import numpy as np

    numbers = np.random.default_rng(1).random(250_000)
    return float(sum(np.sort(numbers * part).cumsum()[-1] for part in range(1, 4)))
