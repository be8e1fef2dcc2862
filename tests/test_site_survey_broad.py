"""The broad form of a lawn: its windows, and a fit that hollows do not pull."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, rectangle
from turfplan.site.survey.broad import (
    LOOSE,
    STRICT,
    BroadFall,
    Standard,
    Window,
    _closed,
    _fitted,
    _robust,
    _smoothed,
    _solution,
    _terms,
    _windows,
    broad_fall,
)
from turfplan.site.survey.cells import cells_of

pytest.importorskip("scipy")


@pytest.mark.parametrize(
    ("length", "stretch_m", "count"),
    [(10.0, 16.0, 1), (16.0, 16.0, 1), (20.0, 16.0, 2), (24.0, 16.0, 2), (60.0, 16.0, 7)],
)
def test_a_long_lawn_has_windows_that_overlap_by_half(
    length: float, stretch_m: float, count: int
) -> None:
    """From one end to the other, each as long as a stretch, as few as half an overlap allows; at
    each place their shares make one.
    """
    cells = cells_of((rectangle(length, 9.0),), (), round(length * 9), (length / 2 - 0.1, 4.5))
    windows = _windows(cells, stretch_m)
    half = min(stretch_m, length) / 2
    assert len(windows) == count and {window.half_m for window in windows} == {half}
    middles = [window.middle_m for window in windows]
    assert middles[0] - half == pytest.approx(-length / 2)
    assert middles[-1] + half == pytest.approx(length / 2)
    steps = np.diff(middles)
    assert (steps <= half + 1e-6).all() and steps == pytest.approx(np.full(count - 1, steps[:1]))
    places = np.column_stack([np.linspace(-length / 2, length / 2, 41), np.zeros(41)])
    assert sum(window.share(places) for window in windows) == pytest.approx(np.ones(41))


def test_a_form_is_told_by_most_of_its_ground() -> None:
    """A quadratic of 121 points, a fifth of which lie in a hollow, is met to a tenth of a
    millimetre.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(-1, 1, 11), np.linspace(-1, 1, 11)))
    basis = np.column_stack([np.ones(len(x)), x, y, x * x, x * y, y * y])
    terms = np.array([100.0, 20.0, -5.0, 15.0, 8.0, -12.0])
    height = basis @ terms
    height[(np.abs(x) < 0.45) & (np.abs(y - 0.2) < 0.45)] -= 60.0
    assert 0.1 < (height < basis @ terms - 1).mean() < 0.25
    found = _robust(basis, height, np.ones(len(x)), 1.0) @ height
    assert found == pytest.approx(terms, abs=0.1)


@pytest.mark.parametrize(("deep_mm", "is_hollow"), [(11.0, False), (40.0, True)])
def test_what_is_filled_stands_out_of_the_spread_fourfold(
    deep_mm: float, *, is_hollow: bool
) -> None:
    """Ground that is two millimetres below its form on one side and above it on the other spreads
    by three: eleven may be a hollow, which the form is not fitted to, and is filled by none; forty
    are one.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(0, 26, 14), np.linspace(0, 16, 9)))
    xy = np.column_stack([x, y])
    cells = cells_of((rectangle(26.0, 16.0),), (), 416, (12.9, 8.0))
    places = cells.to_survey(cells.centroid_m)
    low = np.where(places[:, 0] < 13, 2.0, -2.0)
    low[np.hypot(places[:, 0] - 19.5, places[:, 1] - 8.0) < 4] += deep_mm
    settings = replace(BOOK_LIKE, instrument_error_mm=1.0)
    found = broad_fall(cells.to_frame(xy), np.zeros(len(xy)), cells, -low, settings)
    assert found is not None
    assert found.hollow.any() == is_hollow
    away = np.hypot(x - 19.5, y - 8.0)
    assert not found.hollow[away > 8].any()


LAWN = cells_of((rectangle(26.0, 16.0),), (), 416, (12.9, 8.0))
SETTINGS = replace(BOOK_LIKE, instrument_error_mm=1.0, least_mm=3.0)


def survey_xy() -> tuple[np.ndarray, np.ndarray]:
    """Where the cells lie in the survey."""
    x, y = LAWN.to_survey(LAWN.centroid_m).T
    return x, y


def test_a_window_reads_places_by_its_middle_and_its_half() -> None:
    """Six terms: one, along, across, and their products; what lies in it, ends included."""
    window = Window(3.0, 4.0, -1.0, 7.0)
    places = np.array([(5.0, -2.0), (-1.0, 4.0), (7.0, 1.0), (7.1, 0.0), (-1.1, 0.0)])
    assert window.basis(places[:2]) == pytest.approx(
        np.array([(1.0, 0.5, -0.5, 0.25, -0.25, 0.25), (1.0, -1.0, 1.0, 1.0, -1.0, 1.0)])
    )
    assert window.holds(places).tolist() == [True, True, True, False, False]
    assert window.share(places) == pytest.approx([0.5, 0.0, 0.0, 0.0, 0.0])
    first, last = Window(3.0, 4.0, -np.inf, 7.0), Window(3.0, 4.0, -1.0, np.inf)
    assert first.share(places) == pytest.approx([0.5, 1.0, 0.0, 0.0, 1.0])
    assert last.share(places) == pytest.approx([1.0, 0.0, 1.0, 1.0, 0.0])


def test_a_window_is_told_by_twelve_points_that_settle_its_terms() -> None:
    """Not by eleven, nor by such as stand for no ground, nor by points in two rows."""
    window = Window(0.0, 4.0, -np.inf, np.inf)
    x, y = (a.ravel() for a in np.meshgrid([-3.0, -1.0, 1.0, 3.0], [-3.0, 0.0, 3.0]))
    xy = np.column_stack([x, y])
    area = np.ones(12)
    assert window.is_told_by(xy, area)
    assert not window.is_told_by(xy[:11], area[:11])
    assert not window.is_told_by(xy, np.where(np.arange(12) == 5, 0.0, 1.0))
    assert not window.is_told_by(xy + np.array([6.0, 0.0]), area)
    rows = np.column_stack([np.linspace(-3, 3, 12), np.where(np.arange(12) % 2, 3.0, -3.0)])
    assert not window.is_told_by(rows, area)
    # Two of three rows would not tell the square of what lies across: the third has to weigh.
    for third, told in ((0.003, False), (0.006, True), (300.0, True), (1000.0, False)):
        assert window.is_told_by(xy, np.where(y == 0, third, 1.0)) == told


def test_terms_of_windows_have_their_shares() -> None:
    """Side by side."""
    first, second = Window(-2.0, 4.0, -np.inf, 2.0), Window(2.0, 4.0, -2.0, np.inf)
    places = np.array([(-1.0, 1.0)])
    found = _terms((first, second), places)
    assert found.shape == (1, 12)
    assert found[0, :6] == pytest.approx(0.75 * first.basis(places)[0])
    assert found[0, 6:] == pytest.approx(0.25 * second.basis(places)[0])


def test_each_window_is_fitted_to_its_own_points() -> None:
    """Two quadratics on either side of the middle, each met by its window alone."""
    first, second = Window(-5.0, 5.0, -np.inf, 5.0), Window(5.0, 5.0, -5.0, np.inf)
    x, y = (a.ravel() for a in np.meshgrid(np.arange(-9.5, 10.0, 1.0), np.arange(-4.0, 5.0)))
    xy = np.column_stack([x, y])
    one, two = np.array([5.0, 1, -2, 3, 0, 1]), np.array([-7.0, 0, 4, 0, 2, -1])
    height = np.where(x < 0, first.basis(xy) @ one, second.basis(xy) @ two)
    terms = _fitted((first, second), xy, height, np.ones(len(x)), 1.0)
    assert terms.shape == (12, len(x))
    assert terms @ height == pytest.approx(np.concatenate([one, two]), abs=1e-6)
    assert not terms[:6, x > 0].any() and not terms[6:, x < 0].any()


def test_a_form_is_that_of_weighted_least_squares() -> None:
    """By numpy, with weights of their own."""
    random = np.random.default_rng(4)
    basis, weight = random.normal(size=(20, 6)), random.uniform(0.5, 2, 20)
    height = random.normal(size=20)
    root = np.sqrt(weight)
    wanted = np.linalg.lstsq(basis * root[:, None], height * root, rcond=None)[0]
    assert _solution(basis, weight) @ height == pytest.approx(wanted)


def test_ground_counts_by_its_area_and_slips_do_not() -> None:
    """A point that stands for a thousand times the ground is met; one off by a metre is left out
    altogether.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(-1, 1, 7), np.linspace(-1, 1, 7)))
    basis = np.column_stack([np.ones(49), x, y, x * x, x * y, y * y])
    height = np.random.default_rng(2).normal(0, 2.0, 49)
    matrix = _robust(basis, height, np.ones(49), 1.0)
    wild = height.copy()
    wild[20] += 1000.0
    away = _robust(basis, wild, np.ones(49), 1.0)
    assert abs(away[:, 20]).max() == 0.0
    assert away @ wild == pytest.approx(matrix @ height, abs=0.6)
    area = np.ones(49)
    area[24] = 1e4
    heavy = _robust(basis, height, area, 1.0) @ height
    assert (basis @ heavy)[24] == pytest.approx(height[24], abs=0.02)
    # Ground without area has no say.
    none = np.where(np.arange(49) < 10, 0.0, 1.0)
    assert not _robust(basis, height, none, 1.0)[:, :10].any()


def robust_terms(
    basis: np.ndarray, height: np.ndarray, area: np.ndarray, floor: float
) -> np.ndarray:
    """Twenty steps by least absolute deviations, six by the biweight, by numpy's least squares."""

    def rest_of(weight: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        root = np.sqrt(weight)
        terms = np.linalg.lstsq(basis * root[:, None], height * root, rcond=None)[0]
        return terms, np.abs(height - basis @ terms)

    tiny, weight = max(0.05 * floor, 0.001), area
    for _ in range(20):
        weight = area / np.maximum(rest_of(weight)[1], tiny)
    for _ in range(6):
        rest = rest_of(weight)[1]
        scale = max(1.4826 * float(np.median(rest[area > 0])), 0.2 * floor, tiny)
        weight = area * np.clip(1 - (rest / (4.685 * scale)) ** 2, 0, None) ** 2
    return rest_of(weight)[0]


@pytest.mark.parametrize(("spread", "floor"), [(2.0, 1.0), (2.0, 20.0), (0.001, 0.01), (5.0, 80.0)])
def test_a_robust_fit_ends_where_its_steps_lead(spread: float, floor: float) -> None:
    """Of noise with some slips among it, on ground of unequal area: as reckoned otherwise."""
    random = np.random.default_rng(11)
    x, y, height = random.uniform(-1, 1, (3, 40))
    basis = np.column_stack([np.ones(40), x, y, x * x, x * y, y * y])
    height = basis @ np.array([9.0, 4, -3, 2, 1, -2]) + spread * height
    height[:6] += 9 * spread
    area = random.uniform(0.2, 3.0, 40)
    area[30:33] = 0.0
    found = _robust(basis, height, area, floor) @ height
    assert found == pytest.approx(robust_terms(basis, height, area, floor), rel=1e-6)


def hollow_at(x0: float, y0: float, radius: float, deep_mm: float) -> np.ndarray:
    """Ground below the form: a paraboloid."""
    x, y = survey_xy()
    return np.clip(deep_mm * (1 - ((x - x0) ** 2 + (y - y0) ** 2) / radius**2), 0.0, None)


@pytest.mark.parametrize(
    ("x0", "radius", "deep_mm", "spread", "closed"),
    [
        (13.0, 4.0, 40.0, 1.0, True),
        (13.0, 4.0, 3.9, 1.0, False),
        (13.0, 4.0, 4.4, 1.0, True),
        (13.0, 4.0, 4.4, 1.2, False),
        (13.0, 4.0, 3.1, 0.1, True),
        (13.0, 4.0, 2.9, 0.1, False),
        (13.0, 1.9, 40.0, 1.0, True),
        (13.0, 1.2, 40.0, 1.0, False),
        (25.0, 4.0, 40.0, 1.0, False),
        (22.5, 4.0, 40.0, 1.0, True),
    ],
)
def test_a_broad_hollow_is_deep_wide_and_closed(
    x0: float, radius: float, deep_mm: float, spread: float, *, closed: bool
) -> None:
    """Deeper than four spreads and the least fill, wider than three tenths of the span, and with
    half of its depth under water where it reaches the edge.
    """
    below = hollow_at(x0, 8.0, radius, deep_mm)
    found = _closed(below, spread, STRICT, LAWN, SETTINGS)
    assert found.any() == closed
    if closed:
        assert below[found].max() == below.max()
        assert (below[found] > 0).all()


@pytest.mark.parametrize(("deep_mm", "told"), [(0.0009, False), (0.0012, True)])
def test_less_than_a_thousandth_of_a_millimetre_is_no_hollow(deep_mm: float, *, told: bool) -> None:
    """On ground without any spread, where nothing is left alone."""
    settings = replace(SETTINGS, least_mm=0.0)
    below = hollow_at(13.0, 8.0, 4.0, deep_mm)
    assert _closed(below, 0.0, STRICT, LAWN, settings).any() == told


def test_of_two_hollows_each_is_judged_by_itself() -> None:
    """The broad one is told, the narrow one beside it is not."""
    broad, narrow = hollow_at(7.0, 8.0, 3.5, 40.0), hollow_at(19.0, 8.0, 1.0, 60.0)
    found = _closed(broad + narrow, 1.0, STRICT, LAWN, SETTINGS)
    assert found[broad == broad.max()].all() and not found[narrow > 0].any()
    loose = _closed(broad + narrow, 1.0, Standard(2.0, 0.1), LAWN, SETTINGS)
    assert loose[broad == broad.max()].all() and loose[narrow == narrow.max()].all()
    # The rim of the shallow one is less than a twentieth of the deepest.
    assert not _closed(broad * 0.04 + narrow * 2, 0.1, LOOSE, LAWN, SETTINGS)[broad > 0].any()


def test_a_bed_in_a_lawn_is_no_way_out_for_water() -> None:
    """A hollow around it is as closed as without it."""
    bed = tuple((x + 12.0, y + 7.0) for x, y in rectangle(2.0, 2.0))
    cells = cells_of((rectangle(26.0, 16.0),), (bed,), 416, (12.9, 8.0))
    x, y = cells.to_survey(cells.centroid_m).T
    below = np.clip(40.0 * (1 - ((x - 13) ** 2 + (y - 8) ** 2) / 16), 0.0, None)
    assert _closed(below, 1.0, STRICT, cells, SETTINGS).any()


def test_a_bed_joins_no_hollows_at_its_ends() -> None:
    """A broad one and a narrow one, of less depth than would make a rim of a millimetre."""
    bed = tuple((x + 8.0, y + 7.0) for x, y in rectangle(10.0, 2.0))
    cells = cells_of((rectangle(26.0, 16.0),), (bed,), 396, (12.9, 8.0))
    x, y = cells.to_survey(cells.centroid_m).T
    broad, narrow = (
        np.clip(15.0 * (1 - ((x - at) ** 2 + (y - 8) ** 2) / radius**2), 0.0, None)
        for at, radius in ((5.0, 3.5), (19.0, 1.2))
    )
    found = _closed(broad + narrow, 1.0, STRICT, cells, SETTINGS)
    assert found[broad == broad.max()].all() and not found[narrow > 0].any()


def test_what_is_missing_is_averaged_over_the_cells_around() -> None:
    """Even ground stays even up to its edges; a single cell is spread over a fifth of the span, or
    over seven tenths of the distance between points where that is more, alike both ways.
    """
    x, y = survey_xy()
    assert _smoothed(np.full(len(x), 5.0), LAWN, 1.0, SETTINGS) == pytest.approx(
        np.full(len(x), 5.0)
    )
    for cells in (LAWN, cells_of((rectangle(26.0, 16.0),), (), 1664, (12.9, 8.0))):
        x, y = cells.to_survey(cells.centroid_m).T
        spike = np.zeros(len(x))
        spike[np.hypot(x - 13, y - 8).argmin()] = 1.0
        cx, cy = x[spike == 1][0], y[spike == 1][0]
        for spacing, sigma in ((1.0, 1.0), (2.0, 1.4)):
            found = _smoothed(spike, cells, spacing, SETTINGS)
            ways = ((found * (v - c) ** 2).sum() / found.sum() for v, c in ((x, cx), (y, cy)))
            assert [float(way) ** 0.5 for way in ways] == pytest.approx([sigma] * 2, rel=0.04)


def broad(low_mm: np.ndarray, xy: np.ndarray, **changes: float) -> BroadFall | None:
    """The broad form of a lawn whose points all have one height, of which the cells are known."""
    settings = replace(SETTINGS, **changes)  # type: ignore[arg-type]
    return broad_fall(LAWN.to_frame(xy), np.zeros(len(xy)), LAWN, -low_mm, settings)


def test_a_lawn_whose_fall_sees_all_of_it_has_no_broad_form() -> None:
    """A quarter of sixteen metres is less than three tenths of a span of fourteen; of thirteen it
    is not. Nor has one that is read in two rows, nor one that is hollow for the most part.
    """
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(0, 26, 14), np.linspace(0, 16, 9)))
    xy, even = np.column_stack([x, y]), np.zeros(len(LAWN.share))
    assert broad(even, xy, span_m=13.3) is not None
    assert broad(even, xy, span_m=13.4) is None
    assert broad(even, xy[(y == 0) | (y == 16)]) is None
    found = broad(even, xy)
    assert found is not None and found.follows and not found.hollow.any()


def test_the_form_is_followed_where_the_lawn_keeps_to_it() -> None:
    """Its spread is no more than the error of a reading, or the least fill."""
    x, y = (a.ravel() for a in np.meshgrid(np.linspace(0, 26, 14), np.linspace(0, 16, 9)))
    xy = np.column_stack([x, y])
    cx, _ = survey_xy()
    wavy = np.where(cx < 13, 2.0, -2.0)
    spread = 1.4826 * 2.0
    for error, least, follows in (
        (1.0, 3.0, True),
        (3.0, 0.0, True),
        (1.0, 2.9, False),
        (2.9, 0.0, False),
    ):
        found = broad(wavy, xy, instrument_error_mm=error, least_mm=least)
        assert found is not None and spread == pytest.approx(2.965, abs=0.001)
        assert found.follows == follows
        heights = np.arange(len(xy), dtype=float)
        under = found.under_points(heights), found.under_cells(heights)
        assert len(under[0]) == len(xy) and len(under[1]) == len(cx)
        assert all(part.any() == follows for part in under)


def test_hollow_points_are_filled_up_to_the_form() -> None:
    """The others stay as they are; the form is linear in the heights."""
    hollow = np.array([True, False, False])
    form = BroadFall(np.eye(3), np.eye(3)[:2], np.full((3, 3), 0.5), hollow, follows=True)
    heights = np.array([1.0, 2.0, 6.0])
    assert form.filled(heights).tolist() == [4.5, 2.0, 6.0]
    assert heights.tolist() == [1.0, 2.0, 6.0]
    assert form.under_points(heights).tolist() == [4.5] * 3
    assert form.under_cells(heights).tolist() == [4.5] * 2
    level = replace(form, follows=False)
    assert level.under_points(heights).tolist() == [0.0] * 3
    assert level.under_cells(heights).tolist() == [0.0] * 2
    assert level.filled(heights).tolist() == [4.5, 2.0, 6.0]
