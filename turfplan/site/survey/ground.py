"""Measured points become a ground: checked, joined where they repeat, and triangulated."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import coo_matrix, csr_matrix
from scipy.spatial import Delaunay, QhullError, cKDTree

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Message, Number, Worded, listed, said
from turfplan.phrases import survey as phrases
from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.records import HEIGHTLESS, SurveyPoint, SurveySettings

# Closer than this, two rods stood on the same spot.
SAME_PLACE_M = 0.002
# Triangles a place may walk through on its way; on the way from the nearest point it passes a
# handful.
MOST_STEPS = 100
# Two sound readings of one spot lie this many standard errors apart once in tens of thousands.
SAME_HEIGHT_ERRORS = 6.0
SAME_HEIGHT_MM = 1.0


@dataclass(frozen=True, slots=True)
class SurveyedGround:
    """The points of the bare ground, notes on them, and what each is called.

    Places (n, 2) in m, heights (n) in mm, the setup (n) that each was read from.
    """

    xy_m: Floats
    height_mm: Floats
    setup: npt.NDArray[np.int64]
    names: tuple[Worded, ...]
    notes: tuple[Message, ...]

    @property
    def count(self) -> int:
        """The number of points."""
        return len(self.height_mm)


def ground_of(points: Sequence[SurveyPoint], settings: SurveySettings) -> SurveyedGround:
    """The points that stand on the ground, checked.

    Raises TurfplanError naming every point that cannot be used.
    """
    faults = _broken(points)
    # Paving and swales lie beside the lawn: they bound its target, and are no part of its ground.
    used = [
        p
        for p in points
        if p.feature not in ("paving", "swale", "north") and p.height_mm is not None
    ]
    if not faults and len(used) < 3:
        faults.append(
            Problem(
                phrases.name_points(),
                phrases.fault_few_points(),
                str(len(used)),
                None,
                phrases.fault_few_points_hint(),
            )
        )
    if faults:
        raise TurfplanError(faults)
    xy = np.array([(p.x_m, p.y_m) for p in used], dtype=np.float64)
    height = np.array([p.height_mm for p in used], dtype=np.float64)
    setup = np.array([p.setup for p in used], dtype=np.int64)
    names = [p.name or phrases.name_point(number=n) for n, p in enumerate(used, 1)]
    ground = _joined(xy, height, setup, names, settings)
    if ground.count < 3 or _in_line(ground.xy_m):
        raise TurfplanError(
            Problem(
                phrases.name_points(),
                phrases.fault_one_line(),
                phrases.fault_one_line_got(n=ground.count),
                None,
                phrases.fault_one_line_hint(),
            )
        )
    return ground


def _broken(points: Sequence[SurveyPoint]) -> list[Problem]:
    faults = []
    for number, point in enumerate(points, 1):
        name = point.name or phrases.name_point(number=number)
        values = [point.x_m, point.y_m, *([] if point.height_mm is None else [point.height_mm])]
        if not all(np.isfinite(values)):
            faults.append(
                Problem(
                    name,
                    phrases.fault_not_finite(),
                    ", ".join(f"{v:g}" for v in values),
                    phrases.fault_finite(),
                )
            )
        elif point.height_mm is None and point.feature not in HEIGHTLESS:
            faults.append(Problem(name, phrases.fault_needs_height(feature=point.feature)))
    return faults


def _in_line(xy: Floats) -> bool:
    reach = np.linalg.svd(xy - xy.mean(axis=0), compute_uv=False)
    return bool(reach[-1] <= 1e-4 * reach[0])


def _joined(
    xy: Floats,
    height: Floats,
    setup: npt.NDArray[np.int64],
    names: list[Worded],
    settings: SurveySettings,
) -> SurveyedGround:
    """Readings of the same spot become their mean; where they disagree they are an error."""
    pairs = cKDTree(xy).query_pairs(SAME_PLACE_M, output_type="ndarray")
    if not len(pairs):
        return SurveyedGround(xy, height, setup, tuple(names), ())
    from scipy.sparse.csgraph import connected_components

    links = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(xy), len(xy)))
    count, label = connected_components(links, directed=False)
    order = np.argsort(label, kind="stable")
    starts = np.searchsorted(label[order], np.arange(count))
    top = np.maximum.reduceat(height[order], starts)
    bottom = np.minimum.reduceat(height[order], starts)
    allowed = max(SAME_HEIGHT_ERRORS * settings.instrument_error_mm, SAME_HEIGHT_MM)
    faults = []
    for group in np.nonzero(top - bottom > allowed)[0]:
        members = [names[i] for i in np.nonzero(label == group)[0]]
        faults.append(
            Problem(
                phrases.fault_together(points=listed(map(said, members[:4]), "every_and")),
                phrases.fault_same_spot(),
                phrases.fault_apart(mm=Number(float(top[group] - bottom[group]))),
                phrases.fault_apart_allowed(mm=Number(allowed)),
                phrases.fault_same_spot_hint(),
            )
        )
    if faults:
        raise TurfplanError(faults)
    sizes = np.diff(np.append(starts, len(order)))
    mean = np.add.reduceat(height[order], starts) / sizes
    middle = np.add.reduceat(xy[order], starts, axis=0) / sizes[:, None]
    first = order[starts]
    note = phrases.doubt_averaged(readings=len(xy), spots=int(count))
    return SurveyedGround(middle, mean, setup[first], tuple(names[i] for i in first), (note,))


@dataclass(frozen=True, slots=True)
class Mesh:
    """A triangulation of points that reads heights at places, as a matrix: places by points.

    `beyond` marks the places outside of the measured ground, which take the height of its nearest
    edge.
    """

    matrix: csr_matrix
    beyond: npt.NDArray[np.bool_]


def mesh_to(xy: Floats, places: Floats) -> Mesh:
    """The matrix (m, n) of linear interpolation on the triangles of `xy` (n, 2) at `places` (m, 2).

    Points are rounded to a tenth of a micrometre first, so that a survey that was turned or moved
    gives the same triangles. Raises TurfplanError where no triangle can be drawn.
    """
    try:
        mesh = Delaunay(np.round(xy, 7), qhull_options="Qbb Qc Qz Q12")
    except QhullError as error:
        raise TurfplanError(
            Problem(
                phrases.name_points(),
                phrases.fault_no_triangles(),
                None,
                None,
                phrases.fault_no_triangles_hint(),
            )
        ) from error
    simplex, shares = _located(mesh, xy, places)
    beyond = simplex < 0
    within = np.nonzero(~beyond)[0]
    rows, columns, values = (
        [np.repeat(within, 3)],
        [mesh.simplices[simplex[within]].ravel()],
        [shares[within].ravel()],
    )
    outside = np.nonzero(beyond)[0]
    if len(outside):
        pairs, share = _nearest_on_hull(xy, mesh.convex_hull, places[outside])
        rows.append(np.repeat(outside, 2))
        columns.append(pairs.ravel())
        values.append(np.column_stack([1 - share, share]).ravel())
    shape = (len(places), len(xy))
    matrix = csr_matrix(
        (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=shape
    )
    return Mesh(matrix, beyond)


def _located(mesh: Delaunay, xy: Floats, places: Floats) -> tuple[npt.NDArray[np.int64], Floats]:
    """The triangle that holds each place (-1 for none), and the place's shares of its corners.

    All places walk at once, from a triangle at the nearest point toward the place, over the side it
    lies furthest beyond (the visibility walk: Devillers, Pion and Teillaud, Int. J. Found. Comput.
    Sci. 13, 2002; it ends on Delaunay triangles).
    """
    at = mesh.vertex_to_simplex[cKDTree(xy).query(places)[1]].astype(np.int64)
    shares = np.zeros((len(places), 3))
    walking = np.nonzero(at >= 0)[0]
    for _ in range(MOST_STEPS):
        corners = xy[mesh.simplices[at[walking]]]
        here = _corner_shares(corners, places[walking])
        shares[walking] = here
        side = np.argmin(here, axis=1)
        out = here[np.arange(len(walking)), side] < -1e-9
        at[walking[out]] = mesh.neighbors[at[walking[out]], side[out]]
        walking = walking[out]
        walking = walking[at[walking] >= 0]
        if not len(walking):
            break
    at[walking] = -1
    at[~np.isfinite(shares).all(axis=1)] = -1
    return at, shares


def _corner_shares(corners: Floats, places: Floats) -> Floats:
    """Barycentric coordinates of places in triangles; a flat triangle sends its place on."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    whole = _cross(b - a, c - a)
    with np.errstate(divide="ignore", invalid="ignore"):
        first = _cross(b - places, c - places) / whole
        second = _cross(c - places, a - places) / whole
        shares = np.column_stack([first, second, 1 - first - second])
    return np.nan_to_num(shares, nan=-1.0, posinf=1e9, neginf=-1e9)


def _cross(u: Floats, v: Floats) -> Floats:
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


def _nearest_on_hull(
    xy: Floats, edges: npt.NDArray[np.int32], places: Floats
) -> tuple[npt.NDArray[np.int32], Floats]:
    """The hull's edge nearest to each place, and how far along it (0 to 1) the foot lies."""
    best = np.full(len(places), np.inf)
    pairs = np.zeros((len(places), 2), dtype=np.int32)
    share = np.zeros(len(places))
    for a, b in edges:
        side = xy[b] - xy[a]
        along = np.clip((places - xy[a]) @ side / (side @ side), 0.0, 1.0)
        away = np.linalg.norm(places - (xy[a] + along[:, None] * side), axis=1)
        nearer = away < best
        best[nearer], share[nearer], pairs[nearer] = away[nearer], along[nearer], (a, b)
    return pairs, share


def spacing_m(ground: SurveyedGround, cells: Cells) -> float:
    """The side of the square that one point stands for on this lawn, m."""
    return float(np.sqrt(cells.area_m2 / ground.count))
