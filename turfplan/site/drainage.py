"""Whether water leaves the finished lawn, and what would help where leveling cannot."""

import heapq
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy.ndimage import label

from turfplan.site.cells import Cells
from turfplan.site.lines import lines_of, nearest
from turfplan.site.records import SurveyPoint, SurveySettings
from turfplan.site.stakes import place_words
from turfplan.units import read_as

Floats = npt.NDArray[np.float64]
OTHER_WORK = "Regrading by machine or a drain with an outlet would give it; that is other work, for someone licensed for it where local rules say so, and is not planned here."


def drainage(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> tuple[str, ...]:
    """Sentences on where the finished surface falls too little or holds water; none where it drains."""
    said = [*_from_buildings(points, cells, finished_mm, settings)]
    said += _to_swale(points, cells, finished_mm, settings)
    said += _standing(points, cells, finished_mm, settings)
    return tuple(said)


def _from_buildings(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> list[str]:
    wanted, reach = settings.fall_from_building, settings.fall_distance_m
    if wanted is None or reach is None:
        return []
    worst: float | None = None
    for line in lines_of(points, "wall", cells):
        away, along, _ = nearest(line, cells.centroid_m)
        far = min(reach, float(away.max()))
        strip = away <= far
        if far < reach / 4 or strip.sum() < 3:
            continue
        bins = np.round(along).astype(int)
        for place in np.unique(bins[strip]):
            here = strip & (bins == place)
            # Read over the strip itself: near the wall the ground may have been raised.
            if here.sum() > 2 and np.ptp(away[here]) > far / 2:
                fall = -float(np.polyfit(away[here], finished_mm[here], 1)[0]) / 1000
                worst = fall if worst is None else min(worst, fall)
    if worst is None or worst >= wanted - 0.002:
        return []
    distance = read_as(reach * 1000, "distance", settings.system).text
    lacking = read_as((wanted - worst) * reach * 1000, "height", settings.system).text
    words = (
        f"falls only {worst:.1%}"
        if worst > 0.001
        else "does not fall"
        if worst > -0.001
        else f"falls {-worst:.1%} toward the wall"
    )
    return [
        f"Away from the building the finished lawn {words} where it falls least; {wanted:.0%} over the first {distance} keeps "
        f"water off the wall. Leveling cannot give that: {lacking} is lacking. {OTHER_WORK}"
    ]


def _to_swale(points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings) -> list[str]:
    wanted = settings.fall_to_swale
    if wanted is None or settings.target == "line":
        return []
    swales = lines_of(points, "swale", cells)
    basis = np.column_stack([np.ones(len(finished_mm)), cells.centroid_m])
    slope = np.linalg.lstsq(basis * cells.each_m2[:, None], finished_mm * cells.each_m2, rcond=None)[0][1:] / 1000
    fall, toward, length = float(np.linalg.norm(slope)), "to its low side", _length(cells, slope)
    if swales:
        reads = [nearest(line, cells.centroid_m) for line in swales]
        away = np.min([read[0] for read in reads], axis=0)
        height = np.array([reads[n][2][i] for i, n in enumerate(np.argmin([r[0] for r in reads], axis=0))])
        far = away > 1.0
        if not far.any():
            return []
        fall, toward = float(np.median((finished_mm - height)[far] / away[far])) / 1000, "toward the swale"
        length = float(away.max())
    if fall >= wanted - 0.002:
        return []
    lacking = read_as((wanted - fall) * length * 1000, "height", settings.system).text
    return [
        f"The finished lawn falls {fall:.1%} {toward}; {wanted:.0%} carries water off. Leveling cannot give that: {lacking} more "
        f"would be needed at the high end. {OTHER_WORK}"
    ]


def _length(cells: Cells, slope: Floats) -> float:
    """How far the lawn reaches along its fall, m."""
    size = float(np.linalg.norm(slope))
    direction = slope / size if size > 1e-9 else np.array([1.0, 0.0])
    along = cells.centroid_m @ direction
    return float(along.max() - along.min())


def _standing(points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings) -> list[str]:
    pond = ponds(points, cells, finished_mm)
    least = max(2 * settings.instrument_error_mm, settings.least_mm, 1.0)
    full = np.zeros((cells.rows, cells.columns))
    full[cells.row, cells.column] = np.where(pond > least, pond, 0.0)
    parts, count = label(full > 0, structure=np.ones((3, 3)))
    found = []
    for number in range(1, count + 1):
        here = parts[cells.row, cells.column] == number
        area = float(cells.each_m2[here].sum())
        if area < 0.5:
            continue
        spot = int(np.argmax(np.where(here, pond, -1.0)))
        x, y = (float(v) for v in cells.to_survey(cells.centroid_m[spot : spot + 1])[0])
        found.append((float(pond[spot]), area, x, y))
    found.sort(reverse=True)
    return [
        f"Water will still stand up to {read_as(deep, 'depth', settings.system, 'up').text} deep on {read_as(area, 'area', settings.system).text} "
        f"around {place_words(x, 'x', settings.system)}, {place_words(y, 'y', settings.system)}: that hollow is wider than leveling follows, "
        "or has no way out. Fill it to a level you set yourself, or drain it."
        for deep, area, x, y in found[:3]
    ]


def ponds(points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats) -> Floats:
    """How deep water stands at each cell, mm, when it runs off over every edge of the lawn but those along buildings.

    Filling from the lowest outlet inward (priority flood; Barnes, Lehman and Mulla, Computers & Geosciences 62, 2014).
    """
    height = np.full((cells.rows + 2, cells.columns + 2), np.inf)
    height[cells.row + 1, cells.column + 1] = finished_mm
    lawn = np.isfinite(height)
    walled = np.zeros_like(lawn)
    for line in lines_of(points, "wall", cells):
        close = nearest(line, cells.centroid_m)[0] < 1.5 * max(cells.width_m, cells.depth_m)
        walled[cells.row[close] + 1, cells.column[close] + 1] = True
    water = np.full_like(height, np.inf)
    queue: list[tuple[float, int, int]] = []
    for row, column in zip(cells.row + 1, cells.column + 1, strict=True):
        if not walled[row, column] and not lawn[row - 1 : row + 2, column - 1 : column + 2].all():
            water[row, column] = height[row, column]
            queue.append((float(height[row, column]), int(row), int(column)))
    heapq.heapify(queue)
    done = np.isfinite(water)
    while queue:
        level, row, column = heapq.heappop(queue)
        for r in (row - 1, row, row + 1):
            for c in (column - 1, column, column + 1):
                if lawn[r, c] and not done[r, c]:
                    done[r, c] = True
                    water[r, c] = max(level, float(height[r, c]))
                    heapq.heappush(queue, (float(water[r, c]), r, c))
    found = water[cells.row + 1, cells.column + 1] - finished_mm
    return np.where(np.isfinite(found), found, 0.0)
