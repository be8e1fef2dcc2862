"""The story of a survey: ground, cells, target, limits, depths, doubt, passes, stakes, notes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.spatial import cKDTree

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Worded
from turfplan.phrases import survey as phrases
from turfplan.site.outlines.polygons import Ring
from turfplan.site.survey import findings, limits
from turfplan.site.survey.arrays import Floats, Ints
from turfplan.site.survey.broad import BroadFall, broad_fall
from turfplan.site.survey.cell_zones import zone_of_cells
from turfplan.site.survey.cells import Cells, cells_of, check_rings, hull
from turfplan.site.survey.doubt import Reach, errors_of_reading, halves, reach_of
from turfplan.site.survey.drainage import drainage
from turfplan.site.survey.fill_classes import ZoneCells, classes_of, zone_fill
from turfplan.site.survey.ground import Mesh, SurveyedGround, ground_of, mesh_to, spacing_m
from turfplan.site.survey.lattice import lattice_of
from turfplan.site.survey.outliers import outliers_of
from turfplan.site.survey.picture_grid import grid_of
from turfplan.site.survey.records import (
    FillResult,
    LooseOrder,
    PassFill,
    SurveyPoint,
    SurveySettings,
    Target,
    ZoneFill,
)
from turfplan.site.survey.rod_readings import Leveled
from turfplan.site.survey.stakes import stakes_of
from turfplan.site.survey.target import own_fall_matrix, plane_of, straightedge
from turfplan.site.survey.thinning import thinned

# Ground read better than it was said to be is judged by its own spread, down to this share of the
# stated error.
SCALE_FLOOR = 0.2
# What the lawn's own fall is compared with.
OTHERS: tuple[Target, ...] = ("plane", "fill_only")
# What rounding places to a tenth of a micrometre leaves behind on a slope is no fill.
NO_FILL_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Surface:
    """Ground and target at the cells, mm, and how both follow from measured heights.

    `read` takes heights by points and surveys (n, m) or of one survey (n).
    """

    ground_mm: Floats
    target_mm: Floats
    read: Callable[[Floats], tuple[Floats, Floats]]
    beyond: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class SurveyedLawn:
    """A surveyed lawn on its cells; `depth_mm` is the settled fill at each of them."""

    ground: SurveyedGround
    outline: tuple[Ring, ...]
    cells: Cells
    surface: Surface
    bounded: limits.Bounded
    depth_mm: Floats

    @property
    def volume_m3(self) -> float:
        """The settled volume of the fill."""
        return float((self.depth_mm * self.cells.each_m2).sum()) / 1000

    @property
    def above_target_mm(self) -> Floats:
        """How far the ground stands above the target at each cell.

        Below it the number is negative.
        """
        return self.surface.ground_mm - self.bounded.target_mm


def fill_of(
    points: Sequence[SurveyPoint], settings: SurveySettings, leveled: Leveled | None
) -> FillResult:
    """See `surveyed_fill.fill_from_survey`; raises TurfplanError."""
    lawn = _surveyed_lawn(points, settings)
    result = replace(
        _result(lawn, points, settings), misclosure_mm=leveled.misclosure_mm if leveled else None
    )
    seen = _seen(lawn, settings)
    if settings.target == "own_fall":
        plane, straight = (_volume_to(target, lawn, points, settings) for target in OTHERS)
        seen = replace(seen, plane_m3=plane, straightedge_m3=straight)
    return findings.with_findings(result, settings, lawn.ground.notes, leveled, seen)


def _volume_to(
    target: Target, lawn: SurveyedLawn, points: Sequence[SurveyPoint], settings: SurveySettings
) -> float:
    """The settled volume in m3 that another target would need, inside its limits."""
    other = replace(settings, target=target)
    surface = surface_of(lawn.ground, lawn.cells, other)
    bounded = limits.apply(points, lawn.cells, surface.ground_mm, surface.target_mm, other)
    depth = settled_depth(bounded.target_mm - surface.ground_mm, bounded, other.least_mm)
    return float((depth * lawn.cells.each_m2).sum()) / 1000


def _surveyed_lawn(points: Sequence[SurveyPoint], settings: SurveySettings) -> SurveyedLawn:
    """The ground cut into cells, with its target inside its limits and the fill up to it."""
    ground = ground_of(points, settings)
    outline = settings.outline or _outline(points, ground)
    check_rings(outline, settings.holes)
    lean = ground.xy_m.mean(axis=0)
    cells = cells_of(
        outline, settings.holes, settings.cells_wanted, (float(lean[0]), float(lean[1]))
    )
    surface = surface_of(ground, cells, settings)
    bounded = limits.apply(points, cells, surface.ground_mm, surface.target_mm, settings)
    depth = settled_depth(bounded.target_mm - surface.ground_mm, bounded, settings.least_mm)
    return SurveyedLawn(ground, outline, cells, surface, bounded, depth)


def _result(
    lawn: SurveyedLawn, points: Sequence[SurveyPoint], settings: SurveySettings
) -> FillResult:
    """All figures of the fill, without its notes."""
    cells, depth, volume = lawn.cells, lawn.depth_mm, lawn.volume_m3
    ground, target = lawn.surface.ground_mm, lawn.bounded.target_mm
    reach = _reach(lawn, settings)
    names, member = _present(*zone_of_cells(cells, points, settings))
    zones = _zones(depth, cells, names, member, settings)
    cut = float((np.clip(lawn.above_target_mm, 0.0, None) * cells.each_m2).sum()) / 1000
    finished = target if settings.allow_cut else np.maximum(ground, target)
    return FillResult(
        area_m2=cells.area_m2,
        mean_fill_mm=volume / cells.area_m2 * 1000,
        deepest_mm=float(depth.max()),
        volume_m3=volume,
        low_m3=reach.low_m3,
        high_m3=reach.high_m3,
        cut_m3=cut if settings.allow_cut else 0.0,
        doubt=reach.doubt,
        classes=classes_of(depth, cells.each_m2, settings),
        zones=zones,
        passes=_all_passes(zones),
        order=_order(reach, volume, cells, settings),
        points=lawn.ground.count,
        spacing_m=spacing_m(lawn.ground, cells),
        grid=grid_of(cells, ground, finished, depth, member),
        outline=tuple(lawn.outline),
        holes=settings.holes,
        features=tuple(p for p in points if p.feature != "ground"),
        stakes=stakes_of(cells, depth, settings),
        outliers=outliers_of(lawn.ground, settings),
        cautions=lawn.bounded.cautions,
        drainage=drainage(points, cells, finished, settings),
    )


def _seen(lawn: SurveyedLawn, settings: SurveySettings) -> findings.LevelFindings:
    """What the reckoning noticed beside its figures."""
    area = lawn.cells.each_m2
    high = np.where(settings.allow_cut, 0.0, lawn.above_target_mm)
    proud = high > max(settings.least_mm, 3 * settings.instrument_error_mm)
    return findings.LevelFindings(
        beyond_share=float(area[lawn.surface.beyond].sum() / lawn.cells.area_m2),
        proud_mm=float(high.max()),
        proud_m2=float(area[proud].sum()),
        bounded=lawn.bounded.notes,
    )


def settled_depth(missing: Floats, bounded: limits.Bounded, least_mm: float) -> Floats:
    """The fill at each cell, mm: what is missing there, not over its limit.

    Nothing where nothing may lie or too little is missing. `missing` has a row for each cell, and a
    column for each survey where there are several.
    """
    depth = np.minimum(
        np.clip(missing, 0.0, None),
        bounded.most_mm[:, None] if missing.ndim == 2 else bounded.most_mm,
    )
    return np.where(depth > max(least_mm, NO_FILL_MM), depth, 0.0)


def surface_of(ground: SurveyedGround, cells: Cells, settings: SurveySettings) -> Surface:
    """Ground and target at the cells."""
    xy = np.round(cells.to_frame(ground.xy_m), 7)
    middle = settings.target == "fill_only"
    mesh = mesh_to(xy, cells.middle_m if middle else cells.centroid_m)
    broad = None
    if settings.target == "own_fall":
        bare = np.asarray(mesh.matrix @ ground.height_mm)
        broad = broad_fall(xy, ground.height_mm, cells, bare, settings)
    target = _target_reader(xy, ground, cells, mesh, broad, settings)

    measured = np.nonzero(~mesh.beyond)[0]
    beyond = np.nonzero(mesh.beyond)[0] if len(measured) else measured
    # Rounded, so that of several cells at one distance the same one is taken however the survey
    # lies.
    places = np.round(cells.centroid_m, 6)
    beside = (
        measured[cKDTree(places[measured]).query(places[beyond])[1]] if len(measured) else beyond
    )

    def read(heights: Floats) -> tuple[Floats, Floats]:
        here = np.asarray(mesh.matrix @ heights)
        if broad:
            # Between points of a crown the ground stands above their chord.
            here += broad.under_cells(heights) - mesh.matrix @ broad.under_points(heights)
        wanted = target(heights, here)
        # Beyond the points as much is missing as at their nearest cell: a slope that runs on asks
        # for no fill.
        missing = (wanted - here)[beside]
        if middle:
            wanted[beyond] = here[beyond] + missing
        else:
            here[beyond] = wanted[beyond] - missing
        return here, wanted

    bare, wanted = read(ground.height_mm)
    return Surface(bare, wanted, read, mesh.beyond)


def _target_reader(
    xy: Floats,
    ground: SurveyedGround,
    cells: Cells,
    mesh: Mesh,
    broad: BroadFall | None,
    settings: SurveySettings,
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
        basis, terms = plane_of(
            mesh.matrix, cells.centroid_m, np.where(mesh.beyond, 0.0, cells.each_m2)
        )
        return lambda heights, here: np.asarray(basis @ (terms @ heights))
    means = thinned(xy, settings.span_m)
    lattice = lattice_of(cells)
    floor = SCALE_FLOOR * settings.instrument_error_mm

    def leveled(heights: Floats) -> Floats:
        return broad.filled(heights) - broad.under_points(heights) if broad else heights

    inner = own_fall_matrix(
        lattice.xy_m, means.xy_m, means.matrix @ leveled(ground.height_mm), settings.span_m, floor
    )

    def own_fall(heights: Floats, here: Floats) -> Floats:
        local = np.asarray(lattice.matrix @ (inner @ (means.matrix @ leveled(heights))))
        return local + broad.under_cells(heights) if broad else local

    return own_fall


def _each_column(work: Callable[[Floats], Floats], heights: Floats) -> Floats:
    if heights.ndim == 1:
        return work(heights)
    return np.stack([work(column) for column in heights.T], axis=1)


def _outline(points: Sequence[SurveyPoint], ground: SurveyedGround) -> tuple[Ring, ...]:
    """The outline where none was drawn: the edge points in order, else the hull of all points."""
    edge = tuple((p.x_m, p.y_m) for p in points if p.feature == "edge")
    if len(edge) >= 3:
        return (edge,)
    if edge:
        raise TurfplanError(
            Problem(phrases.name_points(), phrases.fault_few_edge_points(), str(len(edge)))
        )
    return (hull(ground.xy_m),)


def _reach(lawn: SurveyedLawn, settings: SurveySettings) -> Reach:
    """The band around the volume, from volumes in which no shallow fill is left out."""
    ground, cells, surface, bounded = lawn.ground, lawn.cells, lawn.surface, lawn.bounded
    area = cells.each_m2[:, None] / 1000
    shift = (bounded.target_mm - surface.target_mm)[:, None]

    def volumes(bare: Floats, wanted: Floats) -> Floats:
        return np.asarray((settled_depth(wanted + shift - bare, bounded, 0.0) * area).sum(axis=0))

    def volume_of(kept: npt.NDArray[np.int64]) -> float:
        part = SurveyedGround(ground.xy_m[kept], ground.height_mm[kept], ground.setup[kept], (), ())
        read = surface_of(part, cells, settings)
        return float(volumes(read.ground_mm[:, None], read.target_mm[:, None])[0])

    whole = float(volumes(surface.ground_mm[:, None], surface.target_mm[:, None])[0])
    errors = errors_of_reading(ground, settings, 24 if settings.target == "fill_only" else 60)
    trials = volumes(*surface.read(ground.height_mm[:, None] + errors))
    parts = () if ground.count < findings.FEW_POINTS else halves(ground, volume_of)
    missing = settled_depth(bounded.target_mm - surface.ground_mm, bounded, 0.0)
    return reach_of(
        lawn.volume_m3, whole, trials, parts, *_pieces(ground, cells, missing), settings.unseen_mm
    )


def _pieces(ground: SurveyedGround, cells: Cells, missing: Floats) -> tuple[Floats, Floats]:
    """What rests on each point: the volume in m3 and the ground in m2 that is nearest to it."""
    places = cells.to_frame(ground.xy_m)
    owner = np.asarray(cKDTree(places).query(cells.centroid_m)[1])
    area = np.bincount(owner, cells.each_m2, minlength=ground.count)
    here = missing[np.asarray(cKDTree(cells.centroid_m).query(places)[1])]
    return np.asarray(area * here / 1000), np.asarray(area)


def _present(names: tuple[Worded, ...], member: Ints) -> tuple[tuple[Worded, ...], Ints]:
    """The zones that hold a cell, numbered anew."""
    held, member = np.unique(member, return_inverse=True)
    return tuple(names[n] for n in held), member.astype(np.int64)


def _zones(
    depth: Floats, cells: Cells, names: Sequence[Worded], member: Ints, settings: SurveySettings
) -> tuple[ZoneFill, ...]:
    """The fill of each zone; cells in no zone are the lawn."""
    grass: dict[Worded, tuple[str | None, str | None]] = {
        zone.name: (zone.grass, zone.sun) for zone in settings.zones
    }
    area = cells.each_m2
    return tuple(
        zone_fill(
            ZoneCells(name, depth[member == n], area[member == n], *grass.get(name, (None, None))),
            cells.area_m2,
            settings,
        )
        for n, name in enumerate(names)
    )


def _all_passes(zones: Sequence[ZoneFill]) -> tuple[PassFill, ...]:
    """Each pass over all zones that need it."""
    most = max((len(zone.passes) for zone in zones), default=0)
    passes = []
    for number in range(most):
        here = [zone.passes[number] for zone in zones if number < len(zone.passes)]
        passes.append(
            PassFill(
                number + 1,
                max(p.depth_mm for p in here),
                sum(p.area_m2 for p in here),
                sum(p.volume_m3 for p in here),
            )
        )
    return tuple(passes)


def _order(reach: Reach, volume: float, cells: Cells, settings: SurveySettings) -> LooseOrder:
    """Loose material: settled volume, its allowance for settling, a reserve for touching up."""
    reserve = (
        cells.area_m2
        * settings.touch_up_share
        * settings.touch_up_mm
        / 1000
        * (1 + settings.settle_share)
    )
    return LooseOrder(
        reach.low_m3 * (1 + settings.settle_low) + (reserve if volume else 0.0),
        volume * (1 + settings.settle_share) + (reserve if volume else 0.0),
        reach.high_m3 * (1 + settings.settle_high) + (reserve if volume else 0.0),
        reserve if volume else 0.0,
    )
