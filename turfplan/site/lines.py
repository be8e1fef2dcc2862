"""Measured features as lines: how far each place lies from them, and how high they are there."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from turfplan.site.cells import Cells
from turfplan.site.records import Feature, SurveyPoint

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Line:
    """A wall, an edge of paving or a swale: its corners in the frame of the cells, m, and their heights, mm."""

    xy_m: Floats
    height_mm: Floats


def lines_of(points: Sequence[SurveyPoint], feature: Feature, cells: Cells) -> list[Line]:
    """The lines of one feature: points of it that follow each other in the survey belong together."""
    runs: list[list[SurveyPoint]] = []
    before: SurveyPoint | None = None
    for point in points:
        if point.feature == feature:
            if before is None or before.feature != feature:
                runs.append([])
            runs[-1].append(point)
        before = point
    return [
        Line(
            cells.to_frame(np.array([(p.x_m, p.y_m) for p in run], dtype=np.float64)),
            np.array([p.height_mm or 0.0 for p in run], dtype=np.float64),
        )
        for run in runs
    ]


def nearest(line: Line, places: Floats) -> tuple[Floats, Floats, Floats]:
    """For each place its distance to the line, how far along the line its foot lies (m), and the line's height there."""
    best = np.linalg.norm(places - line.xy_m[0], axis=1)
    along = np.zeros(len(places))
    height = np.full(len(places), line.height_mm[0])
    done = 0.0
    for n in range(len(line.xy_m) - 1):
        side = line.xy_m[n + 1] - line.xy_m[n]
        length = float(np.linalg.norm(side))
        if length < 1e-9:
            continue
        share = np.clip((places - line.xy_m[n]) @ side / length**2, 0.0, 1.0)
        away = np.linalg.norm(places - (line.xy_m[n] + share[:, None] * side), axis=1)
        nearer = away < best
        best[nearer] = away[nearer]
        along[nearer] = done + share[nearer] * length
        height[nearer] = (line.height_mm[n] + share * (line.height_mm[n + 1] - line.height_mm[n]))[nearer]
        done += length
    return best, along, height
