"""The lawn's outline becomes cells of nearly one size, each with the share of it that is lawn."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from turfplan.errors import Problem, TurfplanError
from turfplan.site.polygons import Ring, clip_to_box, crossing_sides, least_box, rotated, signed_area

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Cells:
    """The cells inside the lawn, in a frame along the smallest box around it.

    `row` and `column` place each cell; `middle_m` is the middle of the cell, `centroid_m` that of its lawn, both in the
    frame; `share` is the part of it that is lawn. The frame is turned by `angle` about `centre_m` of the survey.
    """

    angle: float
    centre_m: tuple[float, float]
    width_m: float
    depth_m: float
    columns: int
    rows: int
    row: npt.NDArray[np.int64]
    column: npt.NDArray[np.int64]
    middle_m: Floats
    centroid_m: Floats
    share: Floats

    @property
    def each_m2(self) -> Floats:
        """The area of lawn in each cell."""
        return self.share * (self.width_m * self.depth_m)

    @property
    def area_m2(self) -> float:
        """The area of the lawn."""
        return float(self.each_m2.sum())

    def to_frame(self, xy: Floats) -> Floats:
        """Places of the survey in the frame of the cells."""
        moved = xy - np.array(self.centre_m)
        c, s = math.cos(self.angle), math.sin(self.angle)
        return np.column_stack([c * moved[:, 0] + s * moved[:, 1], -s * moved[:, 0] + c * moved[:, 1]])

    def to_survey(self, xy: Floats) -> Floats:
        """Places of the frame as places of the survey."""
        c, s = math.cos(self.angle), math.sin(self.angle)
        turned = np.column_stack([c * xy[:, 0] - s * xy[:, 1], s * xy[:, 0] + c * xy[:, 1]])
        return np.asarray(turned + np.array(self.centre_m), dtype=np.float64)


def check_rings(outline: Sequence[Ring], holes: Sequence[Ring]) -> None:
    """Raises TurfplanError for outlines that cross themselves or enclose nothing."""
    faults = []
    for kind, rings in (("outline", outline), ("hole", holes)):
        for number, ring in enumerate(rings, 1):
            where = f"{kind} {number}"
            if len(set(ring)) >= 3 and (found := crossing_sides(ring)):
                faults.append(
                    Problem(where, "crosses itself", f"side {found[0]} and side {found[1]}", None, "give the corners in order, all the way round")
                )  # fmt: skip
            elif len(set(ring)) < 3 or signed_area(ring) == 0:
                faults.append(Problem(where, "encloses no area", f"{len(set(ring))} different corners"))
    if faults:
        raise TurfplanError(faults)


def cells_of(outline: Sequence[Ring], holes: Sequence[Ring], wanted: int, lean_m: tuple[float, float]) -> Cells:
    """About `wanted` cells inside the outlines and outside of the holes.

    The frame lies along the smallest box around the lawn; which end of it comes first is settled by `lean_m`, a place that
    belongs to the lawn (the mean of its points), so that a turned survey is cut into the same cells.
    """
    angle, centre, length, width = least_box(point for ring in outline for point in ring)
    if rotated((lean_m[0] - centre[0], lean_m[1] - centre[1]), -angle)[0] < 0:
        angle += math.pi
    framed = [(1.0, _framed(ring, centre, angle)) for ring in outline] + [
        (-1.0, _framed(r, centre, angle)) for r in holes
    ]
    area = sum(sign * abs(signed_area(ring)) for sign, ring in framed)
    if area <= 0:
        raise TurfplanError(Problem("outline", "no lawn is left once the holes are taken out", f"{area:.1f} m2"))
    side = math.sqrt(area / wanted)
    columns, rows = max(1, round(length / side)), max(1, round(width / side))
    # The box is measured from the outline itself, so that a lawn with square corners fills its cells exactly.
    wide, deep = length / columns, width / rows
    share, centroid = _shares(framed, columns, rows, length, width)
    row, column = np.nonzero(share > 1e-9)
    middle = np.column_stack([-length / 2 + (column + 0.5) * wide, -width / 2 + (row + 0.5) * deep])
    return Cells(
        angle, centre, wide, deep, columns, rows, row, column, middle, centroid[row, column], share[row, column]
    )  # fmt: skip


def _framed(ring: Ring, centre: tuple[float, float], angle: float) -> Ring:
    return tuple(rotated((x - centre[0], y - centre[1]), -angle) for x, y in ring)


def _shares(
    framed: Sequence[tuple[float, Ring]], columns: int, rows: int, length: float, width: float
) -> tuple[Floats, Floats]:
    """The share of each cell that is lawn, and the centroid of that part; cut exactly where an outline passes through."""
    wide, deep = length / columns, width / rows
    cell = wide * deep
    area = np.zeros((rows, columns))
    moment = np.zeros((rows, columns, 2))
    xs: Floats = -length / 2 + (np.arange(columns, dtype=np.float64) + 0.5) * wide
    ys: Floats = -width / 2 + (np.arange(rows, dtype=np.float64) + 0.5) * deep
    for sign, ring in framed:
        edge = _touched(ring, columns, rows, length, width)
        within = _inside(ring, xs, ys) & ~edge
        area += sign * cell * within
        moment += sign * cell * within[..., None] * np.stack(np.meshgrid(xs, ys), axis=-1)
        for column in np.unique(np.nonzero(edge)[1]):
            left = -length / 2 + column * wide
            strip = clip_to_box(ring, left, -width, left + wide, width)
            for row in np.nonzero(edge[:, column])[0]:
                bottom = -width / 2 + row * deep
                part = clip_to_box(strip, left, bottom, left + wide, bottom + deep) if strip else []
                if len(part) > 2 and (size := abs(signed_area(part))) > 1e-12:
                    area[row, column] += sign * size
                    moment[row, column] += sign * size * np.array(_middle(part))
    with np.errstate(invalid="ignore", divide="ignore"):
        centroid = np.where(area[..., None] > 1e-12, moment / area[..., None], 0.0)
    share = np.clip(area / cell, 0.0, 1.0)
    return np.where(share > 1 - 1e-9, 1.0, share), centroid


def _middle(part: Sequence[tuple[float, float]]) -> tuple[float, float]:
    from turfplan.site.polygons import centroid

    return centroid(part)


def _inside(ring: Ring, xs: Floats, ys: Floats) -> npt.NDArray[np.bool_]:
    """The middles of cells inside an outline, by the even-odd rule along each row."""
    found = np.zeros((len(ys), len(xs)), dtype=bool)
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        rows = np.nonzero((y0 > ys) != (y1 > ys))[0]
        if len(rows):
            crossing = x0 + (ys[rows] - y0) * (x1 - x0) / (y1 - y0)
            found[rows] ^= xs[None, :] < crossing[:, None]
    return found


def _touched(ring: Ring, columns: int, rows: int, length: float, width: float) -> npt.NDArray[np.bool_]:
    """The cells that an outline may pass through, and their neighbours."""
    wide, deep = length / columns, width / rows
    touched = np.zeros((rows + 2, columns + 2), dtype=bool)
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        steps = 2 + 4 * int(math.hypot((x1 - x0) / wide, (y1 - y0) / deep))
        t = np.linspace(0.0, 1.0, steps)
        column = np.clip(np.floor((x0 + t * (x1 - x0) + length / 2) / wide), -1, columns).astype(int) + 1
        row = np.clip(np.floor((y0 + t * (y1 - y0) + width / 2) / deep), -1, rows).astype(int) + 1
        touched[row, column] = True
    grown = touched.copy()
    grown[1:] |= touched[:-1]
    grown[:-1] |= touched[1:]
    grown[:, 1:] |= touched[:, :-1]
    grown[:, :-1] |= touched[:, 1:]
    return grown[1:-1, 1:-1]
