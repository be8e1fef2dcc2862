"""Where stakes are set."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from turfplan.site.survey.cells import Cells, cells_of
from turfplan.site.survey.records import Stake
from turfplan.site.survey.stakes import _letters, stakes_of

pytest.importorskip("scipy")
SETTINGS = replace(EXACT, deep_limit_mm=50.0, stake_spacing_m=3.0)


def lawn(across: int, up: int) -> Cells:
    """Cells of one metre, the first at the left below."""
    return cells_of((rectangle(across, up),), (), across * up, (across / 2 + 0.1, up / 2))


def stakes(deep: dict[tuple[int, int], float], across: int = 12, **keys: float) -> list[Stake]:
    """The stakes of a lawn of five rows that is so deep in some cells, by row and column."""
    cells = lawn(across, 5)
    full = np.zeros((cells.rows, cells.columns))
    for place, depth in deep.items():
        full[place] = depth
    settings = replace(SETTINGS, **keys)  # type: ignore[arg-type]
    return list(stakes_of(cells, full[cells.row, cells.column], settings))


def where(found: list[Stake]) -> list[tuple[str, float, float]]:
    """Their signs, and their places by row and column from the left below."""
    return [(s.sign, round(s.y_m - 0.5, 6), round(s.x_m - 0.5, 6)) for s in found]


def test_hollows_are_lettered_from_the_deepest() -> None:
    """Each at its deepest cell, with its depth and its passes; cells that touch at a corner are
    one.
    """
    found = stakes({(1, 1): 20.0, (2, 2): 25.0, (2, 6): 60.0, (3, 10): 9.5})
    assert where(found) == [("A1", 2.0, 6.0), ("B1", 2.0, 2.0), ("C1", 3.0, 10.0)]
    assert [s.depth_mm for s in found] == [60.0, 25.0, 9.5]
    assert [s.passes for s in found] == [None, 3, 1]


@pytest.mark.parametrize(
    ("shallow", "keys", "count"),
    [
        (6.1, {}, 2),
        (6.0, {}, 1),
        (8.0, {"least_mm": 8.0}, 1),
        (8.1, {"least_mm": 8.0}, 2),
        (9.0, {"instrument_error_mm": 9.0}, 1),
        (9.1, {"instrument_error_mm": 9.0}, 2),
    ],
)
def test_shallow_hollows_have_no_stake(shallow: float, keys: dict[str, float], count: int) -> None:
    """Up to 15 hundredths of the deepest, the least fill, the error of a reading."""
    assert len(stakes({(2, 2): 40.0, (2, 8): shallow}, **keys)) == count
    assert stakes({}, least_mm=1.0) == []


def test_wide_hollows_have_a_net_of_stakes() -> None:
    """The deepest first, then each time the deepest that is a spacing away from all before."""
    trench = {(2, column): 30.0 - abs(column - 4) for column in range(12)}
    assert where(stakes(trench)) == [
        ("A1", 2.0, 4.0),
        ("A2", 2.0, 1.0),
        ("A3", 2.0, 7.0),
        ("A4", 2.0, 10.0),
    ]
    closer = where(stakes(trench, stake_spacing_m=2.9))
    assert closer == where(stakes(trench))
    assert len(stakes(trench, stake_spacing_m=3.1)) == 3
    up = {(row, 3): 30.0 - row for row in range(5)}
    assert where(stakes(up)) == [("A1", 0.0, 3.0), ("A2", 3.0, 3.0)]


def test_there_are_no_more_than_sixty() -> None:
    """Of sixty-five single hollows."""
    deep = {(row, column): 20.0 for row in (0, 2, 4) for column in range(0, 44, 2)}
    found = stakes(deep, across=44)
    assert len(deep) == 66 and len(found) == 60


def test_letters_go_on_after_the_last() -> None:
    """A to Z, AA to ZZ, then three."""
    assert [_letters(n) for n in (0, 1, 25, 26, 27, 51, 52, 701, 702)] == [
        "A",
        "B",
        "Z",
        "AA",
        "AB",
        "AZ",
        "BA",
        "ZZ",
        "AAA",
    ]
