"""Measured features as lines: how far each place lies from them, and how high they are there."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.records import Feature, SurveyPoint


@dataclass(frozen=True, slots=True)
class Line:
    """A wall, an edge of paving or a swale.

    Its corners in the frame of the cells, m, and their heights, mm.
    """

    xy_m: Floats
    height_mm: Floats


def lines_of(points: Sequence[SurveyPoint], feature: Feature, cells: Cells) -> list[Line]:
    """The lines of one feature.

    Points of it that follow each other in the survey belong together.
    """
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
    """For each of the places (n, 2) its distance to a line, where its foot lies, the height there.

    Distance (n) and way along the line to the foot (n) are in m, the line's height (n) in mm.
    """
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
        height[nearer] = (line.height_mm[n] + share * (line.height_mm[n + 1] - line.height_mm[n]))[
            nearer
        ]
        done += length
    return best, along, height
