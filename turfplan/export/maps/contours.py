"""Traces lines of equal height through a grid of cells."""

import hashlib
import json
from collections.abc import Sequence
from itertools import count, takewhile
from typing import TYPE_CHECKING

from turfplan.site.outlines.geodesy import missing_survey_tools
from turfplan.user_cache import keep, kept

# Imported when a map is drawn: plans without a survey draw none, and need no extra.
if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Field = npt.NDArray[np.float64]

Loop = tuple[tuple[float, float], ...]
# Cells that the grid is carried on beyond the lawn's edge, so that lines run out under the outline
# that cuts them.
MARGIN = 2
# How what is kept is written; another number for another way.
FORM = 1


def outlines(
    use: str,
    cells: Sequence[float | None],
    columns: int,
    rows: int,
    heights: Sequence[float],
) -> tuple[tuple[Loop, ...], ...]:
    """The closed outlines of the ground above each of `heights`, as `loops` traces them.

    They are kept in the user's cache under the `use` that a map makes of them: the maps of a plan
    are traced as it is made, and printing it again imports no library of arrays, which is most of
    the time and the memory that a map takes. Raises MissingToolError where they are traced without
    the extra `survey`.
    """
    made_from = repr((FORM, tuple(cells), columns, rows, tuple(heights))).encode()
    # Lawns share so many places that the cache stays small.
    name = f"outlines-{use}-{hashlib.sha256(made_from).hexdigest()[:2]}"
    if (content := kept(name, made_from)) is not None:
        return tuple(
            tuple(tuple((x, y) for x, y in loop) for loop in above) for above in json.loads(content)
        )
    field = field_of(cells, columns, rows)
    traced = tuple(loops(field, height) for height in heights)
    keep(name, made_from, json.dumps(traced, separators=(",", ":")).encode())
    return traced


def field_of(cells: Sequence[float | None], columns: int, rows: int) -> "Field":
    """The values of the cells (rows, columns) with a margin around them.

    What lies outside of the lawn takes the mean of its neighbours, nearest first. Raises
    MissingToolError without the extra `survey`.
    """
    try:
        import numpy as np
    except ImportError as error:
        raise missing_survey_tools(error.name or "numpy") from None
    values = np.array(cells, dtype=np.float64).reshape(rows, columns)
    grid = np.pad(values, MARGIN, constant_values=np.nan)
    while (empty := np.isnan(grid)).any() and not empty.all():
        near = np.lib.stride_tricks.sliding_window_view(
            np.pad(grid, 1, constant_values=np.nan), (3, 3)
        )
        known = (~np.isnan(near)).sum(axis=(2, 3))
        grown = empty & (known > 0)
        grid[grown] = np.nansum(near[grown], axis=(1, 2)) / known[grown]
    return np.nan_to_num(grid)


def loops(field: "Field", level: float) -> tuple[Loop, ...]:
    """The closed outlines of the ground above `level`, in cells from the first cell's middle.

    Higher ground lies to the left. The grid (rows, columns) is closed around with low ground, so
    every line closes. Raises MissingToolError without the extra `survey`.
    """
    try:
        import numpy as np
        from contourpy import contour_generator
    except ImportError as error:
        raise missing_survey_tools(error.name or "contourpy") from None
    closed = np.pad(field, 1, constant_values=min(level, float(field.min())) - 1.0)
    lines = contour_generator(z=closed).lines(level)
    return tuple(
        tuple((x, y) for x, y in (np.array(line[:-1]) - (MARGIN + 1)).tolist()) for line in lines
    )


def levels(low: float, high: float, step: float) -> tuple[float, ...]:
    """The multiples of `step` strictly between two heights."""
    first = int(low // step) + 1
    return tuple(takewhile(lambda level: level < high, (n * step for n in count(first))))
