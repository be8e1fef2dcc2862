"""Broad hollows: closed ones below the lawn's broad form, wider than its local fall can see."""

import math
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import binary_erosion, binary_fill_holes, gaussian_filter, label, maximum
from scipy.spatial import cKDTree

from turfplan.site.survey.arrays import Floats, Mask
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.drainage import flooded
from turfplan.site.survey.records import SurveySettings
from turfplan.site.survey.target import BIWEIGHT, MEDIAN_TO_SIGMA

# Twice the terms of the form: with fewer it would follow every point.
LEAST_POINTS = 12
# The least singular value of its terms beside the greatest: on an even lawn it is a tenth, and
# nought where points stand in two rows.
LEAST_REACH = 0.02
# Steps of the robust fit: by least absolute deviations, then by Tukey's biweight.
ABSOLUTE_STEPS, BIWEIGHT_STEPS = 20, 6
# Cells are smoothed over this share of the span, or of the distance between points.
SMOOTHED_SPAN, SMOOTHED_SPACING = 0.2, 0.7
# Without this share of the lawn its form is anybody's guess.
MOST_HOLLOW = 0.5
# Smoothing spreads a hollow beyond its rim: less than this share of the deepest is none of it.
RIM = 0.05
EIGHT = np.ones((3, 3))


@dataclass(frozen=True, slots=True)
class Standard:
    """What ground below the form must be to count as a hollow.

    Deeper than so many spreads of the smoothed ground, and as wide as a circle whose radius is this
    share of the span.
    """

    spreads: float
    radius: float


# The form is fitted again without whatever may be a hollow: their shallow rims would still pull it.
LOOSE = Standard(2.0, 0.15)
# What is filled: noise and a form that fits badly reach four spreads nowhere, and a narrower hollow
# the local fall fills as well.
STRICT = Standard(4.0, 0.3)


@dataclass(frozen=True, slots=True)
class BroadFall:
    """The lawn's broad form, and the points that lie in broad hollows.

    The form is the product of its terms at points or cells, (n, t), and the matrix (t, points) that
    takes measured heights to them. `follows` says that most of the lawn keeps to it.
    """

    at_points: Floats
    at_cells: Floats
    terms: Floats
    hollow: Mask
    follows: bool

    def under_points(self, heights: Floats) -> Floats:
        """The form at the points where the lawn keeps to it, else nought."""
        return self.at_points @ (self.terms @ heights) if self.follows else 0.0 * heights

    def under_cells(self, heights: Floats) -> Floats:
        """The form at the cells where the lawn keeps to it, else nought."""
        found = self.at_cells @ (self.terms @ heights)
        return np.asarray(found if self.follows else 0.0 * found)

    def filled(self, heights: Floats) -> Floats:
        """Heights of the points with broad hollows filled up to the form."""
        full = np.array(heights)
        full[self.hollow] = self.at_points[self.hollow] @ (self.terms @ heights)
        return full


def broad_fall(
    xy: Floats, height: Floats, cells: Cells, bare: Floats, settings: SurveySettings
) -> BroadFall | None:
    """The lawn's broad form: a quadratic (slope, twist, crown) fitted robustly over the lawn.

    A long lawn has one for each stretch. A broad hollow is ground that would hold water if the
    form were level, and wider than the local fall can see; ground that falls away at the lawn's
    edge is none. `bare` is the ground at the cells. None where the points are too few or stand in
    too few rows, or the lawn is so narrow that its local fall sees all of it. What follows from the
    form is linear in the heights: hollows are found once, from the measured ones.
    """
    width = cells.rows * cells.depth_m
    if width / 4 < STRICT.radius * settings.span_m:
        return None
    near = cKDTree(xy).query(cells.centroid_m)[1]
    area = np.bincount(near, weights=cells.each_m2, minlength=len(xy))
    cell_of = cKDTree(cells.centroid_m).query(xy)[1]
    windows = _windows(cells, settings.broad_window * width)
    at_points, at_cells = _terms(windows, xy), _terms(windows, cells.centroid_m)
    spacing = math.sqrt(cells.area_m2 / len(xy))
    hollow = np.zeros(len(xy), dtype=bool)
    for last in (False, False, True):
        even_area = np.where(hollow, 0.0, area)
        if not all(window.is_told_by(xy, even_area) for window in windows):
            return None
        terms = _fitted(windows, xy, height, even_area, settings.instrument_error_mm)
        below = _smoothed(at_cells @ (terms @ height) - bare, cells, spacing, settings)
        spread = MEDIAN_TO_SIGMA * float(np.median(np.abs(below[~hollow[near]])))
        here = _closed(below, spread, STRICT if last else LOOSE, cells, settings)
        hollow = here[cell_of]
        if area[hollow].sum() > MOST_HOLLOW * cells.area_m2:
            return None
    follows = spread <= max(settings.instrument_error_mm, settings.least_mm)
    return BroadFall(at_points, at_cells, terms, hollow, follows)


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of the lawn along its length: its middle and its half length, m.

    `before_m` and `after_m` are the middles of its neighbours.
    """

    middle_m: float
    half_m: float
    before_m: float
    after_m: float

    def basis(self, places: Floats) -> Floats:
        """The six terms of a quadratic at places (n, 2)."""
        x, y = (places[:, 0] - self.middle_m) / self.half_m, places[:, 1] / self.half_m
        return np.column_stack([np.ones(len(x)), x, y, x * x, x * y, y * y])

    def is_told_by(self, xy: Floats, area: Floats) -> bool:
        """Whether the points that stand for ground settle all six terms."""
        inside = self.holds(xy) & (area > 0)
        if inside.sum() < LEAST_POINTS:
            return False
        reach = np.linalg.svd(
            self.basis(xy[inside]) * np.sqrt(area[inside, None]), compute_uv=False
        )
        return bool(reach[-1] > LEAST_REACH * reach[0])

    def holds(self, xy: Floats) -> Mask:
        """The places (n, 2) inside of it."""
        return np.asarray(np.abs(xy[:, 0] - self.middle_m) <= self.half_m * (1 + 1e-9))

    def share(self, places: Floats) -> Floats:
        """How much of the form at places (n, 2) is this window's: the shares of all make one."""
        return np.interp(
            places[:, 0],
            [self.before_m, self.middle_m, self.after_m],
            [float(math.isinf(self.before_m)), 1.0, float(math.isinf(self.after_m))],
        )


def _windows(cells: Cells, stretch_m: float) -> tuple[Window, ...]:
    """Windows of one length that overlap by half or more."""
    length = cells.columns * cells.width_m
    half = min(stretch_m, length) / 2
    count = 1 + math.ceil((length - 2 * half) / half - 1e-9)
    middles = np.linspace(half - length / 2, length / 2 - half, count)
    if count == 1:
        middles = np.zeros(1)
    ends = [-math.inf, *middles.tolist(), math.inf]
    return tuple(
        Window(here, half, before, after)
        for before, here, after in zip(ends[:-2], ends[1:-1], ends[2:], strict=True)
    )


def _terms(windows: tuple[Window, ...], places: Floats) -> Floats:
    """The terms of all windows at places, each with its share."""
    return np.hstack([w.basis(places) * w.share(places)[:, None] for w in windows])


def _fitted(
    windows: tuple[Window, ...], xy: Floats, height: Floats, area: Floats, floor_mm: float
) -> Floats:
    """The matrix (terms, points) that takes heights to the terms of all windows."""
    parts = []
    for window in windows:
        inside = window.holds(xy)
        part = np.zeros((6, len(xy)))
        part[:, inside] = _robust(window.basis(xy[inside]), height[inside], area[inside], floor_mm)
        parts.append(part)
    return np.vstack(parts)


def _robust(basis: Floats, height: Floats, area: Floats, floor_mm: float) -> Floats:
    """The matrix (6, points) of the robust fit of one window."""
    value, tiny = height - np.median(height), max(0.05 * floor_mm, 1e-3)
    weight = area
    for step in range(ABSOLUTE_STEPS + BIWEIGHT_STEPS):
        rest = np.abs(value - basis @ (_solution(basis, weight) @ value))
        if step < ABSOLUTE_STEPS:
            weight = area / np.maximum(rest, tiny)
        else:
            scale = max(MEDIAN_TO_SIGMA * float(np.median(rest[area > 0])), 0.2 * floor_mm, tiny)
            weight = area * np.clip(1 - (rest / (BIWEIGHT * scale)) ** 2, 0.0, None) ** 2
    return _solution(basis, weight)


def _solution(basis: Floats, weight: Floats) -> Floats:
    weighted = basis * weight[:, None]
    return np.asarray(np.linalg.lstsq(basis.T @ weighted, weighted.T, rcond=1e-9)[0])


def _closed(
    below: Floats, spread: float, standard: Standard, cells: Cells, settings: SurveySettings
) -> Mask:
    """The cells that lie in broad hollows, of the smoothed ground below the form, mm."""
    least = max(standard.spreads * spread, settings.least_mm, 1e-3)
    if below.max() <= least:
        return np.zeros(len(below), dtype=bool)
    level = np.full((cells.rows + 2, cells.columns + 2), np.inf)
    level[cells.row + 1, cells.column + 1] = -below
    lawn = np.isfinite(level)
    # Beds and other holes inside the lawn are no way out for water.
    edge = lawn & ~binary_erosion(binary_fill_holes(lawn), EIGHT)
    pond = np.where(lawn, flooded(level, edge), 0.0) - np.where(lawn, level, 0.0)
    parts, count = label(pond > max(spread / 2, RIM * below.max()), structure=EIGHT)
    part = parts[cells.row + 1, cells.column + 1]
    number = np.arange(1, count + 1)
    size = np.bincount(part, weights=cells.each_m2, minlength=count + 1)[1:]
    ponded = np.array(maximum(pond[cells.row + 1, cells.column + 1], part, number))
    deepest = np.array(maximum(below, part, number))
    broad = (
        (ponded > least)
        & (ponded >= settings.broad_closed * deepest)
        & (size >= math.pi * (standard.radius * settings.span_m) ** 2)
    )
    return np.asarray(np.concatenate([[False], broad])[part], dtype=np.bool_)


def _smoothed(missing: Floats, cells: Cells, spacing_m: float, settings: SurveySettings) -> Floats:
    """What is missing, averaged over the cells around each."""
    reach = max(SMOOTHED_SPAN * settings.span_m, SMOOTHED_SPACING * spacing_m)
    sigma = (reach / cells.depth_m, reach / cells.width_m)
    full, lawn = np.zeros((2, cells.rows, cells.columns))
    full[cells.row, cells.column] = missing
    lawn[cells.row, cells.column] = 1.0
    mean, share = (gaussian_filter(part, sigma, mode="constant") for part in (full, lawn))
    return np.asarray((mean / np.maximum(share, 1e-12))[cells.row, cells.column])
