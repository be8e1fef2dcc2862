"""Whether water leaves the finished lawn, and what would help where leveling cannot."""

import heapq
from collections.abc import Iterator, Sequence

import numpy as np
from scipy.ndimage import label

from turfplan.message import Message, Number, Quantity, SurveySpot, sentences
from turfplan.phrases import survey as phrases
from turfplan.site.survey.arrays import Floats, Mask
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.feature_lines import Line, lines_of, nearest
from turfplan.site.survey.records import SurveyPoint, SurveySettings

# A fall this near to the one that is wanted, as a share, is that one.
NEARLY = 0.002
# Less than this, as a share, is level.
LEVEL = 0.001
LEAST_POND_M2 = 0.5
MOST_PONDS = 3


def drainage(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> tuple[Message, ...]:
    """Where the finished surface falls too little or holds water; nothing where it drains.

    `finished_mm` is its height at each cell.
    """
    return (
        *_from_buildings(points, cells, finished_mm, settings),
        *_to_swale(points, cells, finished_mm, settings),
        *_standing(points, cells, finished_mm, settings),
    )


def _from_buildings(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> tuple[Message, ...]:
    wanted, reach = settings.fall_from_building, settings.fall_distance_m
    if wanted is None or reach is None:
        return ()
    falls = [
        fall
        for line in lines_of(points, "wall", cells)
        for fall in _falls_along(line, cells, finished_mm, reach)
    ]
    if not falls or min(falls) >= wanted - NEARLY:
        return ()
    worst, share = min(falls), Number(wanted, "percent")
    distance = Quantity(reach * 1000, "distance")
    lacking = Quantity((wanted - worst) * reach * 1000, "height")
    if abs(worst) <= LEVEL:
        fault = phrases.drainage_wall_none(wanted=share, distance=distance, lacking=lacking)
    else:
        way = phrases.drainage_wall_little if worst > 0 else phrases.drainage_wall_toward
        fall = Number(abs(worst), "percent_tenth")
        fault = way(fall=fall, wanted=share, distance=distance, lacking=lacking)
    return (sentences(fault, phrases.drainage_other_work()),)


def _falls_along(line: Line, cells: Cells, finished_mm: Floats, reach_m: float) -> Iterator[float]:
    """The fall away from a wall as a share, for every metre along it that has ground enough."""
    away, along, _ = nearest(line, cells.centroid_m)
    far = min(reach_m, float(away.max()))
    strip = away <= far
    if far < reach_m / 4 or strip.sum() < 3:
        return
    bins = np.round(along).astype(int)
    for place in np.unique(bins[strip]):
        here = strip & (bins == place)
        # Read over the strip itself: near the wall the ground may have been raised.
        if here.sum() > 2 and np.ptp(away[here]) > far / 2:
            yield -float(np.polyfit(away[here], finished_mm[here], 1)[0]) / 1000


def _to_swale(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> tuple[Message, ...]:
    wanted = settings.fall_to_swale
    if wanted is None or settings.target == "line":
        return ()
    swales = lines_of(points, "swale", cells)
    if swales:
        read = _fall_to(swales, cells, finished_mm)
        if read is None:
            return ()
        way, (fall, length) = phrases.drainage_to_swale, read
    else:
        way, (fall, length) = phrases.drainage_to_low_side, _own_fall(cells, finished_mm)
    if fall >= wanted - NEARLY:
        return ()
    fault = way(
        fall=Number(fall, "percent_tenth"),
        wanted=Number(wanted, "percent"),
        lacking=Quantity((wanted - fall) * length * 1000, "height"),
    )
    return (sentences(fault, phrases.drainage_other_work()),)


def _own_fall(cells: Cells, finished_mm: Floats) -> tuple[float, float]:
    """The fall of the plane through the lawn, as a share, and the reach of the lawn along it, m."""
    basis = np.column_stack([np.ones(len(finished_mm)), cells.centroid_m])
    area = cells.each_m2
    terms = np.linalg.lstsq(basis * area[:, None], finished_mm * area, rcond=None)[0]
    slope = terms[1:] / 1000
    return float(np.linalg.norm(slope)), _length(cells, slope)


def _fall_to(
    swales: Sequence[Line], cells: Cells, finished_mm: Floats
) -> tuple[float, float] | None:
    """The middle fall toward the nearest swale, as a share, and the furthest way to one, m."""
    reads = [nearest(line, cells.centroid_m) for line in swales]
    which = np.argmin([read[0] for read in reads], axis=0)
    away = np.min([read[0] for read in reads], axis=0)
    height = np.array([reads[n][2][i] for i, n in enumerate(which)])
    far = away > 1.0
    if not far.any():
        return None
    return float(np.median((finished_mm - height)[far] / away[far])) / 1000, float(away.max())


def _length(cells: Cells, slope: Floats) -> float:
    """How far the lawn reaches along its fall, m."""
    size = float(np.linalg.norm(slope))
    direction = slope / size if size > 1e-9 else np.array([1.0, 0.0])
    along = cells.centroid_m @ direction
    return float(along.max() - along.min())


def _standing(
    points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats, settings: SurveySettings
) -> tuple[Message, ...]:
    pond = ponds(points, cells, finished_mm)
    least = max(2 * settings.instrument_error_mm, settings.least_mm, 1.0)
    full = np.zeros((cells.rows, cells.columns))
    full[cells.row, cells.column] = np.where(pond > least, pond, 0.0)
    parts, count = label(full > 0, structure=np.ones((3, 3)))
    pools = []
    for number in range(1, count + 1):
        here = parts[cells.row, cells.column] == number
        area = float(cells.each_m2[here].sum())
        if area < LEAST_POND_M2:
            continue
        spot = int(np.argmax(np.where(here, pond, -1.0)))
        x, y = (float(v) for v in cells.to_survey(cells.centroid_m[spot : spot + 1])[0])
        pools.append((float(pond[spot]), area, x, y))
    pools.sort(reverse=True)
    return tuple(
        phrases.drainage_standing(
            depth=Quantity(deep, "depth", "up"),
            area=Quantity(area, "area"),
            place=SurveySpot(x, y),
        )
        for deep, area, x, y in pools[:MOST_PONDS]
    )


def ponds(points: Sequence[SurveyPoint], cells: Cells, finished_mm: Floats) -> Floats:
    """How deep water stands at each cell, mm, where it runs off over every edge but those at walls.

    `finished_mm` is the height at each cell.
    """
    height = np.full((cells.rows + 2, cells.columns + 2), np.inf)
    height[cells.row + 1, cells.column + 1] = finished_mm
    lawn = np.isfinite(height)
    walled = np.zeros_like(lawn)
    for line in lines_of(points, "wall", cells):
        close = nearest(line, cells.centroid_m)[0] < 1.5 * max(cells.width_m, cells.depth_m)
        walled[cells.row[close] + 1, cells.column[close] + 1] = True
    outlet = np.zeros_like(lawn)
    for row, column in zip(cells.row + 1, cells.column + 1, strict=True):
        if not walled[row, column] and not lawn[row - 1 : row + 2, column - 1 : column + 2].all():
            outlet[row, column] = True
    deep = flooded(height, outlet)[cells.row + 1, cells.column + 1] - finished_mm
    return np.where(np.isfinite(deep), deep, 0.0)


def flooded(height: Floats, outlet: Mask) -> Floats:
    """How high water stands over a grid of heights where it runs off at the outlets alone.

    Filling from the lowest outlet inward (priority flood; Barnes, Lehman and Mulla, Computers &
    Geosciences 62, 2014). Cells of infinite height, of which the border of the grid is made, are
    no ground; where no outlet is reached the water is infinite.
    """
    water = np.where(outlet, height, np.inf)
    queue = [
        (float(height[row, column]), int(row), int(column)) for row, column in np.argwhere(outlet)
    ]
    heapq.heapify(queue)
    lawn, done = np.isfinite(height), outlet.copy()
    while queue:
        level, row, column = heapq.heappop(queue)
        for r in (row - 1, row, row + 1):
            for c in (column - 1, column, column + 1):
                if lawn[r, c] and not done[r, c]:
                    done[r, c] = True
                    water[r, c] = max(level, float(height[r, c]))
                    heapq.heappush(queue, (float(water[r, c]), r, c))
    return water
