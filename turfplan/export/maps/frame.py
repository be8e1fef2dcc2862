"""Places a surveyed lawn on the paper of its maps: cells, ticks, labels and the scale bar."""

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from turfplan.export.maps.contours import Loop
from turfplan.message import Number
from turfplan.messages import Words
from turfplan.records.plan import FillMap
from turfplan.units import FOOT_M, System

WIDTH, TALLEST = 720.0, 560.0
LEFT, RIGHT, TOP = 46.0, 20.0, 20.0
# A lawn turned by less than this has its survey's axes along the paper.
STRAIGHT = 0.01
LABEL_ROOM = 34.0


@dataclass(frozen=True, slots=True)
class Mark:
    """A text at a place."""

    x: float
    y: float
    text: str


@dataclass(frozen=True, slots=True)
class ScaleBar:
    """The scale bar: where it begins, how long it is, and what it measures."""

    x: float
    y: float
    length: float
    text: str


@dataclass(frozen=True, slots=True)
class Frame:
    """How places of the survey and cells of the grid become places on the paper."""

    origin_x_m: float
    origin_y_m: float
    angle: float
    cell_m: tuple[float, float]
    low_m: tuple[float, float]
    per_m: float
    width: float
    bottom: float

    def place(self, x_m: float, y_m: float) -> tuple[float, float]:
        """A place of the survey on the paper."""
        dx, dy = x_m - self.origin_x_m, y_m - self.origin_y_m
        c, s = math.cos(self.angle), math.sin(self.angle)
        return self._paper(c * dx + s * dy, -s * dx + c * dy)

    def cell(self, column: float, row: float) -> tuple[float, float]:
        """The middle of a cell on the paper."""
        return self._paper(column * self.cell_m[0], row * self.cell_m[1])

    def _paper(self, across_m: float, up_m: float) -> tuple[float, float]:
        return (
            round(LEFT + (across_m - self.low_m[0]) * self.per_m, 1),
            round(self.bottom - (up_m - self.low_m[1]) * self.per_m, 1),
        )

    def label_spot(
        self, loop: Loop, lawn: FillMap, taken: Sequence[Mark]
    ) -> tuple[float, float] | None:
        """The place of a line inside the lawn that is furthest from other labels.

        None for no room.
        """
        best, room = None, LABEL_ROOM
        for column, row in loop:
            c, r = round(column), round(row)
            if (
                not (1 <= c < lawn.columns - 1 and 1 <= r < lawn.rows - 1)
                or lawn.fill_mm[r * lawn.columns + c] is None
            ):
                continue
            x, y = self.cell(column, row)
            free = min((math.hypot(x - m.x, y - m.y) for m in taken), default=1e6)
            # In the middle of the line's run rather than at its ends under the outline.
            if free > room:
                best, room = (x, y), min(free, 3 * LABEL_ROOM) + 1e-6
        return best


def frame_of(lawn: FillMap) -> Frame:
    """The frame in which the lawn and all its features fit the paper."""
    c, s = math.cos(lawn.angle), math.sin(lawn.angle)

    def turned(x: float, y: float) -> tuple[float, float]:
        dx, dy = x - lawn.x_m, y - lawn.y_m
        return c * dx + s * dy, -s * dx + c * dy

    spots = [turned(*p) for ring in lawn.outline for p in ring]
    spots += [turned(*p) for _, line in lawn.features for p in line]
    low = (min(x for x, _ in spots), min(y for _, y in spots))
    high = (max(x for x, _ in spots), max(y for _, y in spots))
    per_m = min((WIDTH - LEFT - RIGHT) / (high[0] - low[0]), TALLEST / (high[1] - low[1]))
    bottom = TOP + (high[1] - low[1]) * per_m
    return Frame(
        lawn.x_m,
        lawn.y_m,
        lawn.angle,
        (lawn.width_m, lawn.depth_m),
        low,
        per_m,
        WIDTH,
        round(bottom, 1),
    )


def path(traced: Sequence[Loop], frame: Frame) -> str:
    """Closed lines in cells as SVG path data."""
    return "".join(
        "M" + " ".join(f"{x:g},{y:g}" for x, y in (frame.cell(*point) for point in loop)) + "Z"
        for loop in traced
    )


def ticks_of(
    lawn: FillMap, frame: Frame, words: Words
) -> tuple[tuple[str, float, float, str], ...]:
    """Ticks along the survey's own axes as (axis, x, y, number); none where the lawn lies askew."""
    if abs(lawn.angle) > STRAIGHT:
        return ()
    unit = FOOT_M if words.system is System.US else 1.0
    xs = [x for ring in lawn.outline for x, _ in ring]
    ys = [y for ring in lawn.outline for _, y in ring]
    step = _round_step((max(xs) - min(xs)) / unit / 8, words.system)
    marks: list[tuple[str, float, float, str]] = []
    for axis, low, high in (("x", min(xs), max(xs)), ("y", min(ys), max(ys))):
        for n in range(
            math.ceil(low / unit / step - 1e-6), math.floor(high / unit / step + 1e-6) + 1
        ):
            value = n * step * unit
            x, y = frame.place(value, min(ys)) if axis == "x" else frame.place(min(xs), value)
            number = words.value(Number(n * step, "plain"))
            marks.append((axis, x, frame.bottom if axis == "x" else y, number))
    return tuple(marks)


def _round_step(wished: float, system: System) -> float:
    steps = (
        (1, 2, 5, 10, 20, 25, 50, 100, 200)
        if system is System.US
        else (0.5, 1, 2, 5, 10, 20, 50, 100)
    )
    return next((float(step) for step in steps if step >= wished), 500.0)


def scale_of(frame: Frame, words: Words) -> ScaleBar:
    """A bar of a round length, about a fifth of the paper."""
    unit, name = (FOOT_M, "ft") if words.system is System.US else (1.0, "m")
    step = _round_step((frame.width / 6) / frame.per_m / unit, words.system)
    return ScaleBar(
        LEFT,
        frame.bottom + 34,
        round(step * unit * frame.per_m, 1),
        f"{words.value(Number(step, 'plain'))} {name}",
    )


def letter_spots(
    lawn: FillMap, spans: Sequence[tuple[str, float, float]], frame: Frame, taken: Sequence[Mark]
) -> tuple[Mark, ...]:
    """A letter in the middle of every patch of a class that has room, one at least for each class.

    `spans` are the classes by sign with their depths in mm, `taken` marks that stand already.
    """
    marks: list[Mark] = []
    kind = [""] * len(lawn.fill_mm)
    for sign, low, high in reversed(spans):
        for n, v in enumerate(lawn.fill_mm):
            if v is not None and low < v <= high:
                kind[n] = sign
    depth = _from_edge(kind, lawn)
    seen = [False] * len(kind)
    room = 15.0 / (frame.per_m * min(lawn.width_m, lawn.depth_m))
    best: dict[str, list[int]] = {}
    for start, sign in enumerate(kind):
        if not sign or seen[start]:
            continue
        patch = _patch(start, kind, seen, lawn)
        best.setdefault(sign, []).extend(patch)
        spot = max(patch, key=lambda n: depth[n])
        if depth[spot] >= room:
            _put(spot, sign, 20.0, lawn, frame, taken, marks)
    for sign, cells in best.items():
        if all(mark.text != sign for mark in marks):
            # Widest first; a narrow ring takes its letter where no other stands.
            any(
                _put(n, sign, 11.0, lawn, frame, taken, marks)
                for n in sorted(cells, key=lambda n: -depth[n])
            )
    return tuple(marks)


def _put(
    spot: int,
    sign: str,
    apart: float,
    lawn: FillMap,
    frame: Frame,
    taken: Sequence[Mark],
    marks: list[Mark],
) -> bool:
    """Puts a letter on a cell unless another mark stands too near."""
    x, y = frame.cell(spot % lawn.columns, spot // lawn.columns)
    free = all(math.hypot(x - m.x - 6, y - m.y) > apart for m in (*taken, *marks))
    if free:
        marks.append(Mark(x, y, sign))
    return free


# Patches and distances are found here and not by scipy, whose import takes longer than drawing all
# maps of a lawn.
@lru_cache(maxsize=4)
def _neighbours(columns: int, rows: int) -> tuple[tuple[int, ...], ...]:
    """The cells beside each cell of a grid; kept, since every map of a lawn has the same grid."""
    return tuple(
        (
            *([n - 1] if n % columns else []),
            *([n + 1] if (n + 1) % columns else []),
            *([n - columns] if n >= columns else []),
            *([n + columns] if n < columns * (rows - 1) else []),
        )
        for n in range(columns * rows)
    )


def _from_edge(kind: Sequence[str], lawn: FillMap) -> list[int]:
    """How many cells each cell of a class lies from one of another class.

    Below 1 for one of none.
    """
    depth = [0 if sign else -1 for sign in kind]
    neighbours = _neighbours(lawn.columns, lawn.rows)
    queue: deque[int] = deque()
    for n, sign in enumerate(kind):
        if sign and (len(neighbours[n]) < 4 or any(kind[m] != sign for m in neighbours[n])):
            depth[n] = 1
            queue.append(n)
    while queue:
        n = queue.popleft()
        for m in neighbours[n]:
            if depth[m] == 0:
                depth[m] = depth[n] + 1
                queue.append(m)
    return depth


def _patch(start: int, kind: Sequence[str], seen: list[bool], lawn: FillMap) -> list[int]:
    """All cells of one class that hang together with the first."""
    patch, queue, neighbours = [start], deque([start]), _neighbours(lawn.columns, lawn.rows)
    seen[start] = True
    while queue:
        for m in neighbours[queue.popleft()]:
            if not seen[m] and kind[m] == kind[start]:
                seen[m] = True
                patch.append(m)
                queue.append(m)
    return patch
