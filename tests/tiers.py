"""Which tests the README's command runs: all but those marked `full`, of which it keeps a small
sample in each file; and which part of the others, and of the campaigns, comes at a turn.

`.ci/run` runs the README's and, turn by turn, one of four parts of the rest, so that four runs have
run every test. `DEVELOPERS.md` tells what each costs.
"""

import re
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


def part_of(asked: str) -> tuple[int, int]:
    """Which of how many parts is meant, from 1: `2/3` is the second of three.

    Raises ValueError for anything else.
    """
    found = re.fullmatch(r"(\d+)/(\d+)", asked)
    one, of = (int(found[1]), int(found[2])) if found else (0, 0)
    if not 1 <= one <= of:
        raise ValueError(f"{asked!r} is no part: write 2/3 for the second of three")
    return one, of
