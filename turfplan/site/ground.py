"""Measured points become a ground: checked, joined where they repeat, and triangulated over the cells of the lawn."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import coo_matrix, csr_matrix
from scipy.spatial import Delaunay, QhullError, cKDTree

from turfplan.errors import Problem, TurfplanError
from turfplan.site.cells import Cells
from turfplan.site.records import HEIGHTLESS, SurveyPoint, SurveySettings

Floats = npt.NDArray[np.float64]
# Closer than this, two rods stood on the same spot.
SAME_PLACE_M = 0.002
# Triangles a place may walk through on its way; on the way from the nearest point it passes a handful.
MOST_STEPS = 100
# Two sound readings of one spot lie this many standard errors apart once in tens of thousands.
SAME_HEIGHT_ERRORS = 6.0
SAME_HEIGHT_MM = 1.0


@dataclass(frozen=True, slots=True)
class Ground:
    """The points of the bare ground: places in m, heights in mm, the setup each was read from, and notes on them."""

    xy_m: Floats
    height_mm: Floats
    setup: npt.NDArray[np.int64]
    names: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def count(self) -> int:
        """The number of points."""
        return len(self.height_mm)


def ground_of(points: Sequence[SurveyPoint], settings: SurveySettings) -> Ground:
    """The points that stand on the ground, checked; raises TurfplanError naming every point that cannot be used."""
    faults = _broken(points)
    # Paving and swales lie beside the lawn: they bound its target, and are no part of its ground.
    used = [p for p in points if p.feature not in ("paving", "swale", "north") and p.height_mm is not None]
    if not faults and len(used) < 3:
        faults.append(
            Problem(
                "points", "a surface needs three points or more that are not in a line", str(len(used)), None,
                "about one point every 2 m (6 ft), and one in each hollow and on each rise",
            )
        )  # fmt: skip
    if faults:
        raise TurfplanError(faults)
    xy = np.array([(p.x_m, p.y_m) for p in used], dtype=np.float64)
    height = np.array([p.height_mm for p in used], dtype=np.float64)
    setup = np.array([p.setup for p in used], dtype=np.int64)
    names = [p.name or f"point {n}" for n, p in enumerate(used, 1)]
    ground = _joined(xy, height, setup, names, settings)
    if ground.count < 3 or _in_line(ground.xy_m):
        raise TurfplanError(
            Problem(
                "points", "all points lie in one line, so they say nothing of the ground beside it",
                f"{ground.count} points", None, "measure points to both sides of the line as well",
            )
        )  # fmt: skip
    return ground


def _broken(points: Sequence[SurveyPoint]) -> list[Problem]:
    faults = []
    for number, point in enumerate(points, 1):
        name = point.name or f"point {number}"
        values = [point.x_m, point.y_m, *([] if point.height_mm is None else [point.height_mm])]
        if not all(np.isfinite(values)):
            faults.append(Problem(name, "is not a number", ", ".join(f"{v:g}" for v in values), "finite numbers"))
        elif point.height_mm is None and point.feature not in HEIGHTLESS:
            faults.append(Problem(name, f"a point of {point.feature} needs a height"))
    return faults


def _in_line(xy: Floats) -> bool:
    reach = np.linalg.svd(xy - xy.mean(axis=0), compute_uv=False)
    return bool(reach[-1] <= 1e-4 * reach[0])


def _joined(
    xy: Floats, height: Floats, setup: npt.NDArray[np.int64], names: list[str], settings: SurveySettings
) -> Ground:
    """Readings of the same spot become their mean; where they disagree they are an error."""
    pairs = cKDTree(xy).query_pairs(SAME_PLACE_M, output_type="ndarray")
    if not len(pairs):
        return Ground(xy, height, setup, tuple(names), ())
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
                " and ".join(members[:4]), "stand on the same spot with different heights",
                f"{top[group] - bottom[group]:.0f} mm apart", f"up to {allowed:.0f} mm, six times the error of a reading",
                "measure that spot again and keep one reading",
            )
        )  # fmt: skip
    if faults:
        raise TurfplanError(faults)
    sizes = np.diff(np.append(starts, len(order)))
    mean = np.add.reduceat(height[order], starts) / sizes
    middle = np.add.reduceat(xy[order], starts, axis=0) / sizes[:, None]
    first = order[starts]
    note = f"{len(xy)} readings stand on {count} spots; readings of the same spot were averaged."
    return Ground(middle, mean, setup[first], tuple(names[i] for i in first), (note,))


@dataclass(frozen=True, slots=True)
class Mesh:
    """A triangulation of points that reads heights at places, as a matrix: places by points.

    `beyond` marks the places outside of the measured ground, which take the height of its nearest edge.
    """

    matrix: csr_matrix
    beyond: npt.NDArray[np.bool_]


def mesh_to(xy: Floats, places: Floats) -> Mesh:
    """The matrix of linear interpolation on the Delaunay triangles of `xy` at `places`.

    Places are rounded to a tenth of a micrometre first, so that a survey that was turned or moved gives the same triangles.
    """
    try:
        mesh = Delaunay(np.round(xy, 7), qhull_options="Qbb Qc Qz Q12")
    except QhullError as error:
        raise TurfplanError(
            Problem("points", "no triangles can be drawn through them", None, None, "are they in one line?")
        ) from error
    simplex, shares = _located(mesh, xy, places)
    beyond = simplex < 0
    within = np.nonzero(~beyond)[0]
    rows, columns, values = [np.repeat(within, 3)], [mesh.simplices[simplex[within]].ravel()], [shares[within].ravel()]
    outside = np.nonzero(beyond)[0]
    if len(outside):
        pairs, share = _nearest_on_hull(xy, mesh.convex_hull, places[outside])
        rows.append(np.repeat(outside, 2))
        columns.append(pairs.ravel())
        values.append(np.column_stack([1 - share, share]).ravel())
    shape = (len(places), len(xy))
    matrix = csr_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=shape)
    return Mesh(matrix, beyond)


def _located(mesh: Delaunay, xy: Floats, places: Floats) -> tuple[npt.NDArray[np.int64], Floats]:
    """The triangle that holds each place (-1 for none), and the place's shares of its corners.

    All places walk at once, from a triangle at the nearest point toward the place, over the side it lies furthest beyond
    (the visibility walk: Devillers, Pion and Teillaud, Int. J. Found. Comput. Sci. 13, 2002; it ends on Delaunay triangles).
    """
    at = mesh.vertex_to_simplex[cKDTree(xy).query(places)[1]].astype(np.int64)
    shares = np.zeros((len(places), 3))
    walking = np.nonzero(at >= 0)[0]
    for _ in range(MOST_STEPS):
        corners = xy[mesh.simplices[at[walking]]]
        found = _corner_shares(corners, places[walking])
        shares[walking] = found
        side = np.argmin(found, axis=1)
        out = found[np.arange(len(walking)), side] < -1e-9
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
    return np.nan_to_num(np.column_stack([first, second, 1 - first - second]), nan=-1.0, posinf=1e9, neginf=-1e9)


def _cross(u: Floats, v: Floats) -> Floats:
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


def _nearest_on_hull(xy: Floats, edges: npt.NDArray[np.int32], places: Floats) -> tuple[npt.NDArray[np.int32], Floats]:
    """The hull's edge nearest to each place, and how far along it the foot of the perpendicular lies (0 to 1)."""
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


def spacing_m(ground: Ground, cells: Cells) -> float:
    """The side of the square that one point stands for on this lawn, m."""
    return float(np.sqrt(cells.area_m2 / ground.count))
