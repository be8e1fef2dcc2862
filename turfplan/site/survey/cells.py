"""The lawn's outline becomes cells of nearly one size, each with the share of it that is lawn."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from turfplan.errors import Problem, TurfplanError
from turfplan.phrases import ground as phrases
from turfplan.site.outlines.polygons import Point, Ring, crossing_sides, signed_area
from turfplan.site.survey.arrays import Floats


@dataclass(frozen=True, slots=True)
class Cells:
    """The cells inside the lawn, in a frame along the smallest box around it.

    `row` (n) and `column` (n) place each cell; `middle_m` (n, 2) is the middle of the cell,
    `centroid_m` (n, 2) that of its lawn, both in the frame; `share` (n) is the part of it that is
    lawn. The frame is turned by `angle` about `centre_m` of the survey.
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
        """The area of lawn in each cell (n)."""
        return self.share * (self.width_m * self.depth_m)

    @property
    def area_m2(self) -> float:
        """The area of the lawn."""
        return float(self.each_m2.sum())

    def to_frame(self, xy: Floats) -> Floats:
        """Places (n, 2) of the survey in the frame of the cells."""
        moved = xy - np.array(self.centre_m)
        c, s = math.cos(self.angle), math.sin(self.angle)
        return np.column_stack(
            [c * moved[:, 0] + s * moved[:, 1], -s * moved[:, 0] + c * moved[:, 1]]
        )

    def to_survey(self, xy: Floats) -> Floats:
        """Places (n, 2) of the frame as places of the survey."""
        c, s = math.cos(self.angle), math.sin(self.angle)
        turned = np.column_stack([c * xy[:, 0] - s * xy[:, 1], s * xy[:, 0] + c * xy[:, 1]])
        return np.asarray(turned + np.array(self.centre_m), dtype=np.float64)


def check_rings(outline: Sequence[Ring], holes: Sequence[Ring]) -> None:
    """Raises TurfplanError for outlines that cross themselves or enclose nothing."""
    faults = []
    for called, rings in ((phrases.name_outline, outline), (phrases.name_hole, holes)):
        for number, ring in enumerate(rings, 1):
            where, corners = called(number=number), len(set(ring))
            if corners >= 3 and (sides := crossing_sides(ring)):
                faults.append(
                    Problem(
                        where,
                        phrases.fault_crosses(),
                        phrases.fault_sides(first=sides[0], second=sides[1]),
                        None,
                        phrases.fault_in_order(),
                    )
                )
            elif corners < 3 or signed_area(ring) == 0:
                faults.append(
                    Problem(where, phrases.fault_no_area(), phrases.fault_corners(n=corners))
                )
    if faults:
        raise TurfplanError(faults)


def cells_of(
    outline: Sequence[Ring], holes: Sequence[Ring], wanted: int, lean_m: tuple[float, float]
) -> Cells:
    """About `wanted` cells inside the outlines and outside of the holes.

    The frame lies along the smallest box around the lawn; which end of it comes first is settled by
    `lean_m`, a place that belongs to the lawn (the mean of its points), so that a turned survey is
    cut into the same cells. Raises TurfplanError where the holes leave no lawn.
    """
    angle, centre, length, width = least_box([point for ring in outline for point in ring])
    if rotated((lean_m[0] - centre[0], lean_m[1] - centre[1]), -angle)[0] < 0:
        angle += math.pi
    lawn = shapely.difference(_united(outline, centre, angle), _united(holes, centre, angle))
    area = lawn.area
    if area <= 0:
        raise TurfplanError(
            Problem(phrases.name_whole_outline(), phrases.fault_no_lawn(), f"{area:.1f} m2")
        )
    side = math.sqrt(area / wanted)
    columns, rows = max(1, round(length / side)), max(1, round(width / side))
    # The box is measured from the outline itself: a lawn with square corners fills its cells.
    wide, deep = length / columns, width / rows
    share, parts = _shares(lawn, columns, rows, length, width)
    row, column = np.nonzero(share > 1e-9)
    middle = np.column_stack([-length / 2 + (column + 0.5) * wide, -width / 2 + (row + 0.5) * deep])
    centroid = shapely.get_coordinates(shapely.centroid(parts[row, column]))
    return Cells(
        angle, centre, wide, deep, columns, rows, row, column, middle, centroid, share[row, column]
    )


def _united(rings: Sequence[Ring], centre: Point, angle: float) -> shapely.Geometry:
    """The outlines as one area, in the frame."""
    framed = [[rotated((x - centre[0], y - centre[1]), -angle) for x, y in ring] for ring in rings]
    return shapely.union_all([shapely.Polygon(ring) for ring in framed])


def _shares(
    lawn: shapely.Geometry, columns: int, rows: int, length: float, width: float
) -> tuple[Floats, npt.NDArray[np.object_]]:
    """The share of each cell (rows, columns) that is lawn, and that part of it."""
    xs = np.linspace(-length / 2, length / 2, columns + 1)
    ys = np.linspace(-width / 2, width / 2, rows + 1)[:, None]
    cells = shapely.box(xs[:-1], ys[:-1], xs[1:], ys[1:])
    shapely.prepare(lawn)
    # Most cells lie wholly inside and need no cutting.
    whole = shapely.covers(lawn, cells)
    parts = cells.copy()
    parts[~whole] = shapely.intersection(lawn, cells[~whole])
    share = np.clip(shapely.area(parts) * (columns * rows / (length * width)), 0.0, 1.0)
    return np.where(share > 1 - 1e-9, 1.0, share), parts


def hull(xy: Floats) -> Ring:
    """The corners of the convex hull of places (n, 2), against the clock from the furthest left."""
    corners = shapely.get_coordinates(
        shapely.normalize(shapely.convex_hull(shapely.multipoints(xy)))
    ).tolist()
    return tuple(dict.fromkeys((x, y) for x, y in reversed(corners)))


def least_box(places: Sequence[Point]) -> tuple[float, Point, float, float]:
    """The smallest box around the places: angle of its long side in radians, centre, length, width.

    Raises ValueError for no places.
    """
    # Not shapely's: of several equal boxes (a rectangle has four) it takes one or another as
    # rounding falls.
    ring = hull(np.array(places, dtype=np.float64))
    best: tuple[float, float, Point, float, float] | None = None
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        angle = math.atan2(y1 - y0, x1 - x0)
        turned = [rotated(point, -angle) for point in ring]
        xs, ys = [x for x, _ in turned], [y for _, y in turned]
        length, width = max(xs) - min(xs), max(ys) - min(ys)
        centre = rotated(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2), angle)
        if width > length:
            angle, length, width = angle + math.pi / 2, width, length
        # Equal boxes must give one answer whatever the rounding: a hair smaller is not smaller.
        if best is None or length * width < best[0] * (1 - 1e-9):
            best = (length * width, angle, centre, length, width)
    if best is None:
        raise ValueError("no points")
    return best[1], best[2], best[3], best[4]


def rotated(point: Point, angle: float) -> Point:
    """A point turned about the origin by an angle in radians, against the clock."""
    c, s = math.cos(angle), math.sin(angle)
    return c * point[0] - s * point[1], s * point[0] + c * point[1]
