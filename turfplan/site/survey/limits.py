"""Where the target must give way: falls from buildings, paving to meet, trunks to keep clear."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from turfplan.message import Message, Number, Quantity
from turfplan.phrases import survey as phrases
from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.drainage import ponds
from turfplan.site.survey.feature_lines import Line, lines_of, nearest
from turfplan.site.survey.records import SurveyPoint, SurveySettings


@dataclass(frozen=True, slots=True)
class Bounded:
    """The target within its limits at each cell, mm.

    The most fill it may take; what was changed.
    """

    target_mm: Floats
    most_mm: Floats
    notes: tuple[Message, ...] = ()
    cautions: tuple[Message, ...] = ()


def apply(
    points: Sequence[SurveyPoint],
    cells: Cells,
    ground_mm: Floats,
    target_mm: Floats,
    settings: SurveySettings,
) -> Bounded:
    """The target held within what building, paving and trees allow; the last word is the trees'.

    `ground_mm` and `target_mm` are the heights at each cell.
    """
    bounded = Bounded(target_mm, np.full(len(target_mm), np.inf))
    if settings.target == "plane" and settings.fall_to_swale is not None:
        bounded = _steepened(bounded, points, cells, ground_mm, settings)
    for line in lines_of(points, "wall", cells):
        bounded = _away_from_wall(bounded, line, points, cells, ground_mm, settings)
    for line in lines_of(points, "paving", cells):
        bounded = _meets_paving(bounded, line, cells, ground_mm, settings)
    return _clear_of_trunks(bounded, points, cells, ground_mm, settings)


def _steepened(
    bounded: Bounded,
    points: Sequence[SurveyPoint],
    cells: Cells,
    ground_mm: Floats,
    settings: SurveySettings,
) -> Bounded:
    """A plane that falls too little is tilted about its low edge, if passes can still fill it."""
    wanted = (settings.fall_to_swale or 0.0) * 1000
    downhill = _downhill(bounded.target_mm, points, cells)
    if not np.any(downhill):
        return bounded
    along = cells.centroid_m @ downhill
    fall = -float(np.polyfit(along, bounded.target_mm, 1)[0])
    if fall >= wanted - 1e-6:
        return bounded
    tilted = bounded.target_mm + (wanted - fall) * (along.max() - along)
    if float((tilted - ground_mm).max()) > settings.deep_limit_mm:
        return bounded
    note = phrases.limit_tilted(
        before=Number(fall / 10, "tenth"), after=Number(wanted / 10, "tenth")
    )
    return replace(bounded, target_mm=tilted, notes=(*bounded.notes, note))


def _downhill(target_mm: Floats, points: Sequence[SurveyPoint], cells: Cells) -> Floats:
    """The direction water should take.

    Toward the swale where one was measured, else down the plane itself.
    """
    swales = lines_of(points, "swale", cells)
    if swales:
        toward = np.concatenate([line.xy_m for line in swales]).mean(
            axis=0
        ) - cells.centroid_m.mean(axis=0)
    else:
        basis = np.column_stack([np.ones(len(target_mm)), cells.centroid_m])
        toward = -np.linalg.lstsq(basis, target_mm, rcond=None)[0][1:]
    length = float(np.linalg.norm(toward))
    return toward / length if length > 1e-9 else np.zeros(2)


def _away_from_wall(
    bounded: Bounded,
    line: Line,
    points: Sequence[SurveyPoint],
    cells: Cells,
    ground_mm: Floats,
    settings: SurveySettings,
) -> Bounded:
    """Along a building.

    Raised where passes can give the fall, else no fill that would lessen it.
    """
    fall, reach = settings.fall_from_building, settings.fall_distance_m
    if fall is None or reach is None:
        return bounded
    away, along, height = nearest(line, cells.centroid_m)
    strip = away <= reach
    if not strip.any():
        return bounded
    target = bounded.target_mm.copy()
    toe = _toe(away, along, np.maximum(target, ground_mm), line, reach)
    raised = toe + fall * 1000 * (np.minimum(reach, away.max()) - away)
    lift = np.where(strip, raised - ground_mm, 0.0)
    needed = float(lift.max())
    if needed <= settings.deep_limit_mm:
        better = strip & (raised > target)
        if not better.any():
            return bounded
        target[better] = raised[better]
        note = phrases.limit_raised(depth=Quantity(needed, "depth"), fall=Number(fall, "percent"))
        return replace(bounded, target_mm=target, notes=(*bounded.notes, note))
    # The fall there is must not get less: no fill above the line that falls away from the foot of
    # the wall; a hollow that holds water is filled until it overflows: it drains nowhere as it is.
    line_mm = np.maximum(height - fall * 1000 * away, ground_mm + ponds(points, cells, ground_mm))
    target[strip] = np.minimum(target, line_mm)[strip]
    return replace(bounded, target_mm=target)


def _toe(away: Floats, along: Floats, surface: Floats, line: Line, reach: float) -> Floats:
    """The ground's height at the far end of the strip for each cell, read by metres of the wall."""
    far = min(reach, float(away.max()))
    end = (away > 0.75 * far) & (away <= far * 1.1)
    if not end.any():
        return surface
    bins = np.round(along[end]).astype(int)
    places = np.unique(bins)
    heights = np.array([surface[end][bins == place].mean() for place in places])
    offsets = np.array([away[end][bins == place].mean() for place in places])
    # From the mean distance of those cells to the end of the strip, along the fall they have
    # themselves; one row of wide cells has none, and that of the whole strip is read.
    read = end if np.ptp(away[end]) > 1e-6 else away <= far * 1.1
    fall = (
        np.polyfit(away[read], surface[read], 1)[0]
        if read.sum() > 2 and np.ptp(away[read]) > 1e-6
        else 0.0
    )
    return np.interp(along, places, heights + fall * (far - offsets))


def _meets_paving(
    bounded: Bounded, line: Line, cells: Cells, ground_mm: Floats, settings: SurveySettings
) -> Bounded:
    """The target runs to just under the paving's edge within the taper.

    Ground that stands higher is told of, not cut.
    """
    away, _, height = nearest(line, cells.centroid_m)
    near = away < settings.paving_taper_m
    if not near.any():
        return bounded
    edge = height - settings.below_paving_mm
    share = np.clip(away / settings.paving_taper_m, 0.0, 1.0)
    target = np.where(near, (1 - share) * edge + share * bounded.target_mm, bounded.target_mm)
    cautions = list(bounded.cautions)
    rise = float((ground_mm - edge)[away < settings.paving_taper_m / 2].max(initial=-np.inf))
    drop = float((edge - ground_mm)[near].max())
    if rise > max(settings.least_mm, 2 * settings.instrument_error_mm):
        cautions.append(phrases.limit_above_paving(height=Quantity(rise, "depth")))
    if drop > settings.deep_limit_mm:
        target = np.where(
            near, np.minimum(bounded.target_mm, np.maximum(edge, ground_mm)), bounded.target_mm
        )
        cautions.append(phrases.limit_below_paving(depth=Quantity(drop, "depth")))
    return replace(bounded, target_mm=target, cautions=tuple(cautions))


def _clear_of_trunks(
    bounded: Bounded,
    points: Sequence[SurveyPoint],
    cells: Cells,
    ground_mm: Floats,
    settings: SurveySettings,
) -> Bounded:
    """No fill against a trunk, and no more over its roots than they bear."""
    trunks = [p for p in points if p.feature == "trunk"]
    if not trunks:
        return bounded
    most = bounded.most_mm.copy()
    places = cells.to_frame(np.array([(p.x_m, p.y_m) for p in trunks], dtype=np.float64))
    away = np.min(np.linalg.norm(cells.centroid_m[:, None] - places[None], axis=2), axis=1)
    if settings.root_zone_m is not None and settings.root_fill_mm is not None:
        most[away < settings.root_zone_m] = settings.root_fill_mm
    if settings.trunk_clear_m is not None:
        most[away < settings.trunk_clear_m] = 0.0
    held = bool((bounded.target_mm - ground_mm > most + 0.5).any())
    notes = bounded.notes
    if held and settings.trunk_clear_m is not None:
        clear = Quantity(settings.trunk_clear_m * 1000, "height")
        notes = (*notes, phrases.limit_trunk(distance=clear))
        if settings.root_fill_mm is not None:
            deep = Quantity(settings.root_fill_mm, "depth", "down")
            notes = (*notes, phrases.limit_roots(depth=deep))
    return replace(bounded, most_mm=most, notes=notes)
