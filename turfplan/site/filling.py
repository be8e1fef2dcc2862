"""The story of a survey on one screen: ground, cells, target, limits, depths, doubt, passes, stakes, sentences."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.spatial import cKDTree

from turfplan.errors import Problem, TurfplanError
from turfplan.site import limits, telling
from turfplan.site.cells import Cells, cells_of, check_rings
from turfplan.site.drainage import drainage
from turfplan.site.gridding import grid_of
from turfplan.site.ground import Ground, Mesh, ground_of, mesh_to, spacing_m
from turfplan.site.lattice import lattice_of
from turfplan.site.levelling import Leveled
from turfplan.site.outliers import outliers_of
from turfplan.site.passes import classes_of, zone_fill
from turfplan.site.polygons import Ring, hull
from turfplan.site.records import (
    FillResult,
    Order,
    PassFill,
    SurveyPoint,
    SurveySettings,
    ZoneFill,
)
from turfplan.site.stakes import stakes_of
from turfplan.site.target import own_fall_matrix, plane_of, straightedge
from turfplan.site.thinning import thinned
from turfplan.site.uncertainty import Reach, errors_of_reading, halves, reach_of
from turfplan.site.zones import zone_of_cells

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
# Ground read better than it was said to be is judged by its own spread, down to this share of the stated error.
SCALE_FLOOR = 0.2
# What rounding places to a tenth of a micrometre leaves behind on a slope is no fill.
NO_FILL_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Surface:
    """Ground and target at the cells, mm, and how both follow from measured heights (one column a survey)."""

    ground_mm: Floats
    target_mm: Floats
    read: Callable[[Floats], tuple[Floats, Floats]]
    beyond: npt.NDArray[np.bool_]


def fill_of(points: Sequence[SurveyPoint], settings: SurveySettings, leveled: Leveled | None) -> FillResult:
    """See `survey.fill_from_survey`."""
    ground = ground_of(points, settings)
    outline = settings.outline or _outline(points, ground)
    check_rings(outline, settings.holes)
    lean = ground.xy_m.mean(axis=0)
    cells = cells_of(outline, settings.holes, settings.cells_wanted, (float(lean[0]), float(lean[1])))
    surface = surface_of(ground, cells, settings)
    bounded = limits.apply(points, cells, surface.ground_mm, surface.target_mm, settings)
    depth = settled_depth(bounded.target_mm - surface.ground_mm, bounded, settings.least_mm)
    area = cells.each_m2
    volume = float((depth * area).sum()) / 1000
    reach = _reach(ground, cells, surface, bounded, volume, settings)
    names, member = _present(*zone_of_cells(cells, points, settings))
    zones = _zones(depth, cells, names, member, settings)
    cut = float((np.clip(surface.ground_mm - bounded.target_mm, 0.0, None) * area).sum()) / 1000
    outliers = outliers_of(ground, settings)
    finished = bounded.target_mm if settings.allow_cut else np.maximum(surface.ground_mm, bounded.target_mm)
    drained = drainage(points, cells, finished, settings)
    result = FillResult(
        area_m2=cells.area_m2, mean_fill_mm=volume / cells.area_m2 * 1000, deepest_mm=float(depth.max()), volume_m3=volume,
        low_m3=reach.low_m3, high_m3=reach.high_m3, cut_m3=cut if settings.allow_cut else 0.0, doubt=reach.doubt,
        classes=classes_of(depth, area, settings), zones=zones, passes=_all_passes(zones), order=_order(reach, volume, cells, settings),
        points=ground.count, spacing_m=spacing_m(ground, cells), grid=grid_of(cells, surface.ground_mm, finished, depth, member),
        outline=tuple(outline), holes=settings.holes, features=tuple(p for p in points if p.feature != "ground"),
        stakes=stakes_of(cells, depth, settings), outliers=outliers, cautions=bounded.cautions, drainage=drained,
        misclosure_mm=leveled.misclosure_mm if leveled else None,
    )  # fmt: skip
    high = np.where(settings.allow_cut, 0.0, surface.ground_mm - bounded.target_mm)
    return telling.told(result, settings, ground.notes, leveled, telling.Seen(
        beyond_share=float(area[surface.beyond].sum() / cells.area_m2), proud_mm=float(high.max()),
        proud_m2=float(area[high > max(settings.least_mm, 3 * settings.instrument_error_mm)].sum()), bounded=bounded.notes,
    ))  # fmt: skip


def settled_depth(missing: Floats, bounded: limits.Bounded, least_mm: float) -> Floats:
    """The fill at each cell, mm: what is missing, not over its limit, nothing where nothing may lie or too little is missing."""
    depth = np.minimum(np.clip(missing, 0.0, None), bounded.most_mm[:, None] if missing.ndim == 2 else bounded.most_mm)
    return np.where(depth > max(least_mm, NO_FILL_MM), depth, 0.0)


def surface_of(ground: Ground, cells: Cells, settings: SurveySettings) -> Surface:
    """Ground and target at the cells."""
    xy = np.round(cells.to_frame(ground.xy_m), 7)
    middle = settings.target == "fill_only"
    mesh = mesh_to(xy, cells.middle_m if middle else cells.centroid_m)
    target = _target_reader(xy, ground, cells, mesh, settings)

    measured = np.nonzero(~mesh.beyond)[0]
    beyond = np.nonzero(mesh.beyond)[0] if len(measured) else measured
    # Rounded, so that of several cells at one distance the same one is taken however the survey lies.
    places = np.round(cells.centroid_m, 6)
    beside = measured[cKDTree(places[measured]).query(places[beyond])[1]] if len(measured) else beyond

    def read(heights: Floats) -> tuple[Floats, Floats]:
        here = np.asarray(mesh.matrix @ heights)
        wanted = target(heights, here)
        # Beyond the points as much is missing as at their nearest cell: a slope that runs on asks for no fill.
        missing = (wanted - here)[beside]
        if middle:
            wanted[beyond] = here[beyond] + missing
        else:
            here[beyond] = wanted[beyond] - missing
        return here, wanted

    bare, wanted = read(ground.height_mm)
    return Surface(bare, wanted, read, mesh.beyond)


def _target_reader(
    xy: Floats, ground: Ground, cells: Cells, mesh: Mesh, settings: SurveySettings
) -> Callable[[Floats, Floats], Floats]:
    """The target at the cells from measured heights and the ground there."""
    if settings.target == "line":
        return lambda heights, here: np.zeros_like(here)
    if settings.target == "fill_only":
        # The straightedge rests on measured ground alone.
        rest = np.where(mesh.beyond, -np.inf, 0.0)
        return lambda heights, here: _each_column(
            lambda h: straightedge(cells, h + rest, settings.straightedge_m), here
        )
    if settings.target == "plane":
        basis, terms = plane_of(mesh.matrix, cells.centroid_m, np.where(mesh.beyond, 0.0, cells.each_m2))
        return lambda heights, here: np.asarray(basis @ (terms @ heights))
    means = thinned(xy, settings.span_m)
    lattice = lattice_of(cells)
    floor = SCALE_FLOOR * settings.instrument_error_mm
    inner = own_fall_matrix(lattice.xy_m, means.xy_m, means.matrix @ ground.height_mm, settings.span_m, floor)
    return lambda heights, here: lattice.matrix @ (inner @ (means.matrix @ heights))


def _each_column(work: Callable[[Floats], Floats], heights: Floats) -> Floats:
    if heights.ndim == 1:
        return work(heights)
    return np.stack([work(column) for column in heights.T], axis=1)


def _outline(points: Sequence[SurveyPoint], ground: Ground) -> tuple[Ring, ...]:
    """The lawn's outline where none was drawn: the edge points in order, else the hull of all points."""
    edge = tuple((p.x_m, p.y_m) for p in points if p.feature == "edge")
    if len(edge) >= 3:
        return (edge,)
    if edge:
        raise TurfplanError(Problem("points", "an outline needs three edge points or more", str(len(edge))))
    return (hull((float(x), float(y)) for x, y in ground.xy_m),)


def _reach(
    ground: Ground, cells: Cells, surface: Surface, bounded: limits.Bounded, volume_m3: float, settings: SurveySettings
) -> Reach:
    """The band around the volume, from volumes in which no shallow fill is left out."""
    area = cells.each_m2[:, None] / 1000
    shift = (bounded.target_mm - surface.target_mm)[:, None]

    def volumes(bare: Floats, wanted: Floats) -> Floats:
        return np.asarray((settled_depth(wanted + shift - bare, bounded, 0.0) * area).sum(axis=0))

    def volume_of(kept: npt.NDArray[np.int64]) -> float:
        part = Ground(ground.xy_m[kept], ground.height_mm[kept], ground.setup[kept], (), ())
        found = surface_of(part, cells, settings)
        return float(volumes(found.ground_mm[:, None], found.target_mm[:, None])[0])

    whole = float(volumes(surface.ground_mm[:, None], surface.target_mm[:, None])[0])
    errors = errors_of_reading(ground, settings, 24 if settings.target == "fill_only" else 60)
    trials = volumes(*surface.read(ground.height_mm[:, None] + errors))
    parts = () if ground.count < telling.FEW_POINTS else halves(ground, volume_of)
    missing = settled_depth(bounded.target_mm - surface.ground_mm, bounded, 0.0)
    return reach_of(volume_m3, whole, trials, parts, *_pieces(ground, cells, missing), settings.unseen_mm)


def _pieces(ground: Ground, cells: Cells, missing: Floats) -> tuple[Floats, Floats]:
    """What rests on each point: the volume in m3 and the ground in m2 nearer to it than to any other, as deep as at it."""
    places = cells.to_frame(ground.xy_m)
    owner = np.asarray(cKDTree(places).query(cells.centroid_m)[1])
    area = np.bincount(owner, cells.each_m2, minlength=ground.count)
    here = missing[np.asarray(cKDTree(cells.centroid_m).query(places)[1])]
    return np.asarray(area * here / 1000), np.asarray(area)


def _present(names: tuple[str, ...], member: Ints) -> tuple[tuple[str, ...], Ints]:
    """The zones that hold a cell, numbered anew."""
    held, member = np.unique(member, return_inverse=True)
    return tuple(names[n] for n in held), member.astype(np.int64)


def _zones(
    depth: Floats, cells: Cells, names: Sequence[str], member: Ints, settings: SurveySettings
) -> tuple[ZoneFill, ...]:
    """The fill of each zone; cells in no zone are the lawn."""
    grass = {zone.name: (zone.grass, zone.sun) for zone in settings.zones}
    area = cells.each_m2
    return tuple(
        zone_fill(name, depth[member == n], area[member == n], cells.area_m2, settings, *grass.get(name, (None, None)))
        for n, name in enumerate(names)
    )


def _all_passes(zones: Sequence[ZoneFill]) -> tuple[PassFill, ...]:
    """Each pass over all zones that need it."""
    most = max((len(zone.passes) for zone in zones), default=0)
    found = []
    for number in range(most):
        here = [zone.passes[number] for zone in zones if number < len(zone.passes)]
        found.append(
            PassFill(
                number + 1, max(p.depth_mm for p in here), sum(p.area_m2 for p in here), sum(p.volume_m3 for p in here)
            )
        )
    return tuple(found)


def _order(reach: Reach, volume: float, cells: Cells, settings: SurveySettings) -> Order:
    """Loose material: settled volume and its allowance for settling, with a reserve for touching up."""
    reserve = cells.area_m2 * settings.touch_up_share * settings.touch_up_mm / 1000 * (1 + settings.settle_share)
    return Order(
        reach.low_m3 * (1 + settings.settle_low) + (reserve if volume else 0.0),
        volume * (1 + settings.settle_share) + (reserve if volume else 0.0),
        reach.high_m3 * (1 + settings.settle_high) + (reserve if volume else 0.0),
        reserve if volume else 0.0,
    )
