"""Where to set stakes, and how deep the fill is at each."""

import numpy as np
import numpy.typing as npt
from scipy.ndimage import label, maximum_position

from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.fill_classes import passes_at
from turfplan.site.survey.records import Stake, SurveySettings

MOST_STAKES = 60


def stakes_of(cells: Cells, depth: Floats, settings: SurveySettings) -> tuple[Stake, ...]:
    """The deepest spot of every hollow, and a net of spots in hollows that are wider.

    The net is about `stake_spacing_m` wide. Hollows are lettered from the deepest, the stakes of
    one hollow numbered from its deepest spot. `depth` is the fill at each cell, mm.
    """
    full = np.zeros((cells.rows, cells.columns))
    full[cells.row, cells.column] = depth
    threshold = max(settings.least_mm, settings.instrument_error_mm, 0.15 * float(depth.max()))
    parts, count = label(full > threshold, structure=np.ones((3, 3)))
    if not count:
        return ()
    deepest = maximum_position(full, parts, range(1, count + 1))
    order = sorted(range(count), key=lambda n: -full[deepest[n]])
    stakes: list[Stake] = []
    for position, number in enumerate(order):
        spots = _spots(full, parts == number + 1, deepest[number], cells, settings.stake_spacing_m)
        for n, (row, column) in enumerate(spots, 1):
            if len(stakes) >= MOST_STAKES:
                return tuple(stakes)
            stakes.append(
                _stake(
                    f"{_letters(position)}{n}",
                    row,
                    column,
                    float(full[row, column]),
                    cells,
                    settings,
                )
            )
    return tuple(stakes)


def _spots(
    full: Floats, part: npt.NDArray[np.bool_], first: tuple[int, int], cells: Cells, spacing: float
) -> list[tuple[int, int]]:
    """The deepest spot, then each time the deepest one that is a spacing away from all chosen."""
    rows, columns = np.nonzero(part)
    spots = [(int(first[0]), int(first[1]))]
    away = np.full(len(rows), np.inf)
    while len(spots) <= len(rows):
        row, column = spots[-1]
        away = np.minimum(
            away, np.hypot((rows - row) * cells.depth_m, (columns - column) * cells.width_m)
        )
        free = np.nonzero(away >= spacing)[0]
        if not len(free):
            break
        best = free[np.argmax(full[rows[free], columns[free]])]
        spots.append((int(rows[best]), int(columns[best])))
    return spots


def _stake(
    sign: str, row: int, column: int, depth: float, cells: Cells, settings: SurveySettings
) -> Stake:
    index = int(np.nonzero((cells.row == row) & (cells.column == column))[0][0])
    x, y = (float(v) for v in cells.to_survey(cells.centroid_m[index : index + 1])[0])
    return Stake(sign, x, y, depth, passes_at(depth, settings))


def _letters(number: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text
