"""Traces lines of equal height through a grid of cells."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

Values = list[list[float]]
Loop = tuple[tuple[float, float], ...]
# Cells that the grid is carried on beyond the lawn's edge, so that lines run out under the outline that cuts them.
MARGIN = 2
# Squares that no line passes through.
FLAT = ((True,) * 4, (False,) * 4)
_Edge = tuple[int, int, bool]


@dataclass(frozen=True, slots=True)
class Field:
    """Values at the middles of cells, carried on beyond the lawn, with the position of the first value in cells."""

    values: Values
    offset: int = MARGIN


def field_of(cells: Sequence[float | None], columns: int, rows: int) -> Field:
    """The grid with a margin, the cells outside of the lawn taking the mean of their neighbours, nearest first."""
    wide, high = columns + 2 * MARGIN, rows + 2 * MARGIN
    grid: list[list[float | None]] = [[None] * wide for _ in range(high)]
    for row in range(rows):
        grid[row + MARGIN][MARGIN : MARGIN + columns] = list(cells[row * columns : (row + 1) * columns])
    while any(value is None for line in grid for value in line):
        grown = _grown(grid)
        if grown == grid:
            break
        grid = grown
    return Field([[0.0 if value is None else value for value in line] for line in grid])


def _grown(grid: list[list[float | None]]) -> list[list[float | None]]:
    """Every empty cell beside a full one takes the mean of the full ones around it."""
    high, wide = len(grid), len(grid[0])
    made = [list(line) for line in grid]
    for r in range(high):
        for c in range(wide):
            if grid[r][c] is None:
                near = [
                    value
                    for y in range(max(0, r - 1), min(high, r + 2))
                    for x in range(max(0, c - 1), min(wide, c + 2))
                    if (value := grid[y][x]) is not None
                ]
                if near:
                    made[r][c] = sum(near) / len(near)
    return made


def loops(field: Field, level: float) -> tuple[Loop, ...]:
    """The closed outlines of the ground above `level`, in cells from the first cell's middle; higher ground to the left.

    Marching squares; a saddle is parted by its middle. The grid is closed around with low ground, so every line closes.
    """
    low = min(level, min(min(line) for line in field.values)) - 1.0
    wide = len(field.values[0]) + 2
    padded = [[low] * wide, *([low, *line, low] for line in field.values), [low] * wide]
    highs = [[value > level for value in line] for line in padded]
    following: dict[_Edge, _Edge] = {}
    for r, (below, over) in enumerate(itertools.pairwise(highs)):
        # Most rows and most squares lie all above or all below.
        if below == over and all(below) == any(below):
            continue
        for c, above in enumerate(zip(below, below[1:], over[1:], over, strict=False)):
            if above not in FLAT:
                corners = (padded[r][c], padded[r][c + 1], padded[r + 1][c + 1], padded[r + 1][c])
                for start, end in _segments(r, c, corners, above, level):
                    following[start] = end
    found = []
    while following:
        first, at = following.popitem()
        loop = [first]
        while at != first:
            loop.append(at)
            at = following.pop(at)
        found.append(tuple(_point(padded, edge, level, field.offset + 1) for edge in loop))
    return tuple(found)


def _segments(
    r: int, c: int, corners: Sequence[float], above: Sequence[bool], level: float
) -> list[tuple[_Edge, _Edge]]:
    """The pieces of line in one square, each from the side where it comes in to the side where it goes out."""
    sides: tuple[_Edge, ...] = ((r, c, True), (r, c + 1, False), (r + 1, c, True), (r, c, False))
    # Going around against the clock: a line leaves where the ground drops below the level, and enters where it rises.
    falls = [sides[n] for n in range(4) if above[n] and not above[(n + 1) % 4]]
    rises = [sides[n] for n in range(4) if not above[n] and above[(n + 1) % 4]]
    if len(falls) == 1:
        return [(falls[0], rises[0])]
    middle_high = sum(corners) / 4 > level
    # In a saddle each fall is joined to the rise next to it: across the low corner, or around the high one.
    order = [(n, above[n] and not above[(n + 1) % 4]) for n in range(4)]
    pairs = []
    for n, falling in order:
        if falling:
            step = 1 if middle_high else -1
            pairs.append((sides[n], sides[(n + step) % 4]))
    return pairs


def _point(padded: Values, edge: _Edge, level: float, offset: int) -> tuple[float, float]:
    r, c, across = edge
    a, b = padded[r][c], padded[r][c + 1] if across else padded[r + 1][c]
    share = (level - a) / (b - a) if b != a else 0.5
    return (c + share - offset, float(r - offset)) if across else (float(c - offset), r + share - offset)


def levels(low: float, high: float, step: float) -> tuple[float, ...]:
    """The multiples of `step` strictly between two heights."""
    first = int(low // step) + 1
    found = []
    number = first
    while number * step < high:
        found.append(number * step)
        number += 1
    return tuple(found)
