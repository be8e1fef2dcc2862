"""Which tests the README's command runs: all but those marked `full`, of which it keeps a small
sample in each file.

`.ci/run` runs both tiers, so that every test is run once. `DEVELOPERS.md` tells what each costs.
"""

from collections.abc import Iterable
from typing import Any

import pytest

full = pytest.mark.full


def sampled(values: Iterable[Any], *kept: Any) -> list[Any]:
    """Values of a parameter of which the quick tier keeps some; the others are marked `full`.

    Raises ValueError for a value to keep that is not among them, so that a renamed one does not
    empty the sample.
    """
    all_of_them = list(values)
    absent = [value for value in kept if value not in all_of_them]
    if absent:
        raise ValueError(f"not among the values: {absent}")
    return [value if value in kept else pytest.param(value, marks=full) for value in all_of_them]


def sampled_pairs(values: Iterable[tuple[Any, ...]], *kept: tuple[Any, ...]) -> list[Any]:
    """The same for several parameters together."""
    all_of_them = list(values)
    absent = [value for value in kept if value not in all_of_them]
    if absent:
        raise ValueError(f"not among the values: {absent}")
    return [value if value in kept else pytest.param(*value, marks=full) for value in all_of_them]
