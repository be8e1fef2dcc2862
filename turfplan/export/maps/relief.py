"""The heights of a lawn on its map: contours at a round step, numbered, and arrows downhill."""

import math

from turfplan.export.maps.contours import levels, outlines
from turfplan.export.maps.frame import Frame, Mark, path
from turfplan.export.maps.picture import Contour
from turfplan.message import Message, Number
from turfplan.messages import Words
from turfplan.phrases import maps as phrases
from turfplan.records.plan import FillMap
from turfplan.units import INCH_MM, System, from_inside

CellValues = tuple[float | None, ...]
# Lines of one height that are numbered, the longest first.
MOST_NUMBERED = 3


def height_lines(
    use: str, heights: CellValues, frame: Frame, lawn: FillMap, words: Words
) -> tuple[float, tuple[Contour, ...], tuple[Mark, ...]]:
    """Contours of a surface at a round step (mm), each with its number where there is room.

    `heights` are those of the cells in mm; `use` says which surface they are of.
    """
    low, high = lowest(heights), highest(heights)
    step = _step(high - low, words.system)
    contours: list[Contour] = []
    labels: list[Mark] = []
    steps = levels(low, high, step)
    all_traced = outlines(use, heights, lawn.columns, lawn.rows, steps)
    for level, traced in zip(steps, all_traced, strict=True):
        contours.append(Contour(path(traced, frame)))
        for loop in sorted(traced, key=len, reverse=True)[:MOST_NUMBERED]:
            if (spot := frame.label_spot(loop, lawn, labels)) is not None:
                labels.append(Mark(*spot, _number(level, words)))
    return step, tuple(contours), tuple(labels)


def highest(values: CellValues) -> float:
    """The greatest value of the cells; 0 for a map without any."""
    return max((v for v in values if v is not None), default=0.0)


def lowest(values: CellValues) -> float:
    """The least value of the cells; raises ValueError for a map without any."""
    return min(v for v in values if v is not None)


def height_text(mm: float, words: Words) -> str:
    """A height on the map, to a hundredth of an inch or of a millimetre."""
    return f"{_number(mm, words)} {'in' if words.system is System.US else 'mm'}"


def unit_name(words: Words) -> Message:
    """What the numbers of the contours count."""
    return phrases.unit_in() if words.system is System.US else phrases.unit_mm()


def _number(mm: float, words: Words) -> str:
    value = from_inside(mm, "in", "length") if words.system is System.US else mm
    return words.value(Number(value, "trimmed"))


def _step(rise_mm: float, system: System) -> float:
    """A round step that gives about eight contours."""
    unit = INCH_MM if system is System.US else 1.0
    steps = (
        (0.25, 0.5, 1, 2, 3, 6, 12, 24, 48)
        if system is System.US
        else (5, 10, 20, 50, 100, 200, 500, 1000)
    )
    return next((s * unit for s in steps if rise_mm <= 9.5 * s * unit), steps[-1] * unit)


def arrows(heights: CellValues, lawn: FillMap, frame: Frame) -> str:
    """Short arrows down the slope on a coarse net, all of one length.

    The direction of water, not its speed.
    """
    step = max(2, round(max(lawn.columns, lawn.rows) / 7))
    reach = max(1, step // 3)
    data = []
    for row in range(step // 2, lawn.rows, step):
        for column in range(step // 2, lawn.columns, step):
            near = [
                _at(heights, lawn, column + dx, row + dy)
                for dx, dy in ((reach, 0), (-reach, 0), (0, reach), (0, -reach))
            ]
            if any(v is None for v in near):
                continue
            east, west, up, down = (v for v in near if v is not None)
            gx, gy = (west - east) / lawn.width_m, (down - up) / lawn.depth_m
            size = math.hypot(gx, gy)
            if size / (2 * reach) < 0.5:
                continue
            x, y = frame.cell(column, row)
            data.append(_arrow(x, y, gx / size, -gy / size))
    return "".join(data)


def _at(values: CellValues, lawn: FillMap, column: int, row: int) -> float | None:
    if not (0 <= column < lawn.columns and 0 <= row < lawn.rows):
        return None
    return values[row * lawn.columns + column]


def _arrow(x: float, y: float, dx: float, dy: float, length: float = 18.0) -> str:
    tip_x, tip_y = x + dx * length / 2, y + dy * length / 2
    head = ""
    for turn in (0.5, -0.5):
        c, s = math.cos(turn), math.sin(turn)
        back_x, back_y = -5 * (dx * c - dy * s), -5 * (dx * s + dy * c)
        head += f"M{tip_x:.1f},{tip_y:.1f}l{back_x:.1f},{back_y:.1f}"
    return f"M{x - dx * length / 2:.1f},{y - dy * length / 2:.1f}L{tip_x:.1f},{tip_y:.1f}{head}"
