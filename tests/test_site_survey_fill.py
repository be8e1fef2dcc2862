"""Each step of the way from points to a fill, on lawns small enough to be reckoned by hand."""

import math
from dataclasses import replace
from unittest import mock

import numpy as np
import pytest

from lawn_surveys import EXACT, bowl, bowl_m3, grid, points_at, rectangle, slope
from told_errors import refused
from turfplan.message import Quantity
from turfplan.site.survey import fill
from turfplan.site.survey.cells import Cells, cells_of, hull
from turfplan.site.survey.doubt import Doubt, Reach, errors_of_reading
from turfplan.site.survey.fill import (
    Surface,
    SurveyedLawn,
    _all_passes,
    _each_column,
    _order,
    _outline,
    _pieces,
    _present,
    _reach,
    _seen,
    _surveyed_lawn,
    _zones,
    fill_of,
    settled_depth,
    surface_of,
)
from turfplan.site.survey.ground import ground_of, mesh_to
from turfplan.site.survey.limits import Bounded
from turfplan.site.survey.records import (
    PassFill,
    SurveyPoint,
    SurveySettings,
    ZoneFill,
    ZoneOutline,
)
from turfplan.site.survey.rod_readings import Leveled
from turfplan.site.survey.target import straightedge

pytest.importorskip("scipy")
# 12 points 2 m apart on 6 by 4 m, cut into cells of half a metre.
LINE = replace(EXACT, target="line", outline=(rectangle(6, 4),), cells_wanted=96)
PLAIN = points_at(
    [2.0 * (n % 4) for n in range(12)], [2.0 * (n // 4) for n in range(12)], [-25.0] * 12
)


def at_cells(cells: Cells) -> tuple[np.ndarray, np.ndarray]:
    """Where the middles of the cells lie in the survey."""
    x, y = cells.to_survey(cells.centroid_m).T
    return x, y


def surface(points: tuple[SurveyPoint, ...], settings: SurveySettings) -> tuple[Cells, Surface]:
    """The cells of a survey, with ground and target."""
    lawn = _surveyed_lawn(points, settings)
    return lawn.cells, lawn.surface


def test_the_volume_is_the_depth_over_the_lawn() -> None:
    """24 square metres, 25 mm below the line: 0.6 cubic metres; the ground lies 25 mm under it."""
    lawn = _surveyed_lawn(PLAIN, LINE)
    assert lawn.cells.area_m2 == pytest.approx(24.0)
    assert lawn.volume_m3 == pytest.approx(0.6)
    assert lawn.above_target_mm == pytest.approx(np.full(96, -25.0))
    assert lawn.depth_mm == pytest.approx(np.full(96, 25.0))
    assert len(lawn.depth_mm) == 96


def test_the_frame_leans_to_where_the_points_lie() -> None:
    """Points crowd at one end or at the other: the first cell lies at the other end of the lawn."""
    firsts = []
    for crowd in (0.5, 5.5):
        more = points_at([crowd, crowd, crowd + 0.2], [1.0, 3.0, 2.0], [-25.0] * 3)
        lawn = _surveyed_lawn((*PLAIN, *more), LINE)
        firsts.append(float(at_cells(lawn.cells)[0][0]))
    assert firsts == pytest.approx([5.75, 0.25])


def test_the_outline_is_that_of_the_settings_or_of_the_points() -> None:
    """Drawn; else the points of the edge in order; else the hull of all."""
    assert _surveyed_lawn(PLAIN, LINE).outline == LINE.outline
    ground = ground_of(PLAIN, EXACT)
    assert _outline(PLAIN, ground) == (hull(ground.xy_m),)
    corners = ((0.0, 0.0), (5.0, 0.0), (3.0, 3.0), (0.0, 4.0))
    edge = tuple(SurveyPoint(x, y, None, "", "edge") for x, y in corners)
    assert _outline((*PLAIN, *edge), ground) == (corners,)
    assert _outline((*PLAIN, *edge[:3]), ground) == (corners[:3],)
    with refused("2"):
        _outline((*PLAIN, *edge[:2]), ground)


def test_what_settles_is_what_is_missing_within_its_limits() -> None:
    """Nothing above the target, not over the most, nothing up to the least."""
    most = np.array([np.inf, 30.0, 30.0, 30.0, 30.0, 0.0])
    missing = np.array([80.0, 80.0, -5.0, 3.0, 3.1, 9.0])
    held = Bounded(missing, most)
    assert settled_depth(missing, held, 3.0).tolist() == [80.0, 30.0, 0.0, 0.0, 3.1, 0.0]
    two = settled_depth(np.column_stack([missing, missing + 40.0]), held, 3.0)
    assert two[:, 0].tolist() == [80.0, 30.0, 0.0, 0.0, 3.1, 0.0]
    assert two[:, 1].tolist() == [120.0, 30.0, 30.0, 30.0, 30.0, 0.0]
    hair = settled_depth(np.array([0.0009, 0.0011]), Bounded(missing, np.full(2, np.inf)), 0.0)
    assert hair.tolist() == [0.0, 0.0011]


def test_a_line_is_the_target_and_the_ground_a_plane_between_points() -> None:
    """Also of ground that was read otherwise, in columns."""
    points = tuple(replace(p, height_mm=-10.0 - 3.0 * p.x_m) for p in PLAIN)
    cells, found = surface(points, LINE)
    x, _ = at_cells(cells)
    assert found.ground_mm == pytest.approx(-10.0 - 3.0 * x)
    assert found.target_mm.tolist() == [0.0] * 96
    assert not found.beyond.any()
    here, wanted = found.read(np.full((12, 2), [-5.0, 7.0]))
    assert here == pytest.approx(np.tile([-5.0, 7.0], (96, 1))) and not wanted.any()


def test_a_plane_target_is_that_of_least_squares_over_the_measured_cells() -> None:
    """One point raised tilts it; cells beyond the points have no say."""
    points = tuple(
        replace(p, height_mm=4.0 * p.x_m - 2.0 * p.y_m + (60.0 if n == 6 else 0.0))
        for n, p in enumerate(PLAIN)
    )
    wide = ((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0))
    settings = replace(LINE, target="plane", outline=(wide,), cells_wanted=128)
    cells, found = surface(points, settings)
    x, y = at_cells(cells)
    inside = x < 6.0
    assert found.beyond.tolist() == (~inside).tolist()
    basis = np.column_stack([np.ones(len(x)), x, y])
    terms = np.linalg.lstsq(basis[inside], found.ground_mm[inside], rcond=None)[0]
    assert found.target_mm == pytest.approx(basis @ terms)


def test_beyond_the_points_as_much_is_missing_as_at_the_nearest_measured_cell() -> None:
    """The line stays, so the ground there is what is told otherwise."""
    points = tuple(replace(p, height_mm=-10.0 - 3.0 * p.x_m - 2.0 * p.y_m) for p in PLAIN)
    wide = ((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0))
    cells, found = surface(points, replace(LINE, outline=(wide,), cells_wanted=128))
    x, y = at_cells(cells)
    assert found.target_mm.tolist() == [0.0] * 128
    assert found.ground_mm == pytest.approx(-10.0 - 3.0 * np.minimum(x, 5.75) - 2.0 * y)


def test_a_straightedge_rests_on_measured_ground() -> None:
    """As it does on the cells themselves; beyond the points the target is what is told
    otherwise.
    """
    points = tuple(replace(p, height_mm=5.0 * p.y_m - abs(p.x_m - 4.0) ** 2) for p in PLAIN)
    wide = ((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0))
    settings = replace(
        LINE, target="fill_only", outline=(wide,), cells_wanted=128, straightedge_m=2.4
    )
    cells, found = surface(points, settings)
    mesh = mesh_to(
        np.round(cells.to_frame(np.array([(p.x_m, p.y_m) for p in points])), 7), cells.middle_m
    )
    bare = mesh.matrix @ np.array([p.height_mm for p in points])
    assert found.ground_mm == pytest.approx(bare)
    rests = straightedge(cells, np.where(mesh.beyond, -np.inf, bare), 2.4)
    inside = ~mesh.beyond
    assert found.target_mm[inside] == pytest.approx(rests[inside])
    assert mesh.beyond.sum() == 32
    x, y = at_cells(cells)
    for cell in np.nonzero(mesh.beyond)[0]:
        (beside,) = np.nonzero(np.isclose(x, x[inside].max()) & np.isclose(y, y[cell]))[0]
        missing = found.target_mm[cell] - found.ground_mm[cell]
        assert missing == pytest.approx(rests[beside] - bare[beside])


def test_each_survey_of_several_is_worked_by_itself() -> None:
    """Columns stay columns."""
    heights = np.array([[1.0, 5.0], [2.0, 3.0]])
    assert _each_column(lambda h: h + h.max(), heights).tolist() == [[3.0, 10.0], [4.0, 8.0]]
    assert _each_column(lambda h: h + h.max(), heights[:, 0]).tolist() == [3.0, 4.0]


BOWL = replace(EXACT, outline=(rectangle(8, 6),), cells_wanted=192)


def test_the_lawns_own_fall_fills_a_hollow_in_a_slope() -> None:
    """Half of its base times its depth, within a twentieth; the ground is the measured one."""
    points = grid(8, 6, 33, 25, lambda x, y: slope(2.0, -1.0)(x, y) + bowl(4, 3, 1.2, 40)(x, y))
    lawn = _surveyed_lawn(points, BOWL)
    assert lawn.volume_m3 == pytest.approx(bowl_m3(1.2, 40), rel=0.05)
    x, y = at_cells(lawn.cells)
    even = np.hypot(x - 4, y - 3) > 1.7
    assert lawn.surface.ground_mm[even] == pytest.approx(slope(2.0, -1.0)(x, y)[even], abs=1e-6)


def test_a_fill_tells_what_other_targets_would_need() -> None:
    """Each as it is found by itself; a string line has no others."""
    points = tuple(replace(p, height_mm=9.0 * (p.x_m == 2.0) - p.x_m) for p in PLAIN)
    settings = replace(LINE, target="own_fall", straightedge_m=2.5)
    volumes = {
        target: _surveyed_lawn(points, replace(settings, target=target)).volume_m3
        for target in ("plane", "fill_only")
    }
    assert 0 < volumes["plane"] != volumes["fill_only"] > 0
    (told,) = (n for n in fill_of(points, settings, None).notes if n.key.endswith("other_targets"))
    said = dict(told.values)
    assert isinstance(said["plane"], Quantity) and isinstance(said["straightedge"], Quantity)
    assert said["plane"].value == pytest.approx(volumes["plane"])
    assert said["straightedge"].value == pytest.approx(volumes["fill_only"])
    line = fill_of(points, LINE, None)
    assert not any(n.key.endswith("other_targets") for n in line.notes)


def test_the_run_of_levels_brings_its_misclosure() -> None:
    """None where there is no run."""
    assert fill_of(PLAIN, LINE, None).misclosure_mm is None
    run = Leveled((0.0,), (1,), 4.0, 2)
    assert fill_of(PLAIN, LINE, run).misclosure_mm == 4.0


def test_the_figures_of_a_flat_fill() -> None:
    """25 mm over 24 square metres with a cap of 10: three passes, one stake or more, no cut."""
    found = fill_of(PLAIN, LINE, None)
    assert (found.area_m2, found.volume_m3) == pytest.approx((24.0, 0.6))
    assert (found.mean_fill_mm, found.deepest_mm) == pytest.approx((25.0, 25.0))
    assert [p.depth_mm for p in found.passes] == pytest.approx([25 / 3] * 3)
    assert (found.points, found.spacing_m) == (12, pytest.approx(math.sqrt(2.0)))
    assert found.cut_m3 == 0.0 and found.features == () and found.outliers == ()
    assert found.grid is not None and set(found.grid.fill_mm) == {25.0}
    assert found.stakes[0].depth_mm == pytest.approx(25.0)


def test_ground_above_the_target_is_cut_only_where_that_is_allowed() -> None:
    """From 30 mm above to 30 mm below the line: 0.18 cubic metres each; the finished ground is the
    line, or the ground where it stands above.
    """
    points = tuple(replace(p, height_mm=30.0 - 10.0 * p.x_m) for p in PLAIN)
    trunk = SurveyPoint(5.0, 2.0, None, "oak", "trunk")
    kept = fill_of((*points, trunk), LINE, None)
    level = fill_of((*points, trunk), replace(LINE, allow_cut=True), None)
    assert (kept.cut_m3, kept.features) == (0.0, (trunk,))
    assert level.cut_m3 == pytest.approx(0.18) and level.volume_m3 == pytest.approx(0.18)
    assert kept.grid is not None and level.grid is not None
    assert set(level.grid.target_mm) == {0.0}
    grounds = kept.grid.ground_mm
    assert list(kept.grid.target_mm) == [max(g, 0.0) if g is not None else None for g in grounds]


@pytest.mark.parametrize(
    ("settings", "square_metres"),
    [
        ({"instrument_error_mm": 3.3}, 24.0),
        ({"instrument_error_mm": 3.4}, 0.0),
        ({"instrument_error_mm": 3.3, "least_mm": 9.9}, 24.0),
        ({"instrument_error_mm": 3.3, "least_mm": 10.0}, 0.0),
        ({"instrument_error_mm": 3.3, "allow_cut": True}, 0.0),
    ],
)
def test_ground_stands_proud_by_more_than_three_errors_and_the_least(
    settings: dict[str, float], square_metres: float
) -> None:
    """10 mm above the line, all of it."""
    points = tuple(replace(p, height_mm=10.0) for p in PLAIN)
    chosen = replace(LINE, **settings)  # type: ignore[arg-type]
    seen = _seen(_surveyed_lawn(points, chosen), chosen)
    assert seen.proud_m2 == pytest.approx(square_metres)
    assert seen.proud_mm == pytest.approx(0.0 if chosen.allow_cut else 10.0)
    assert seen.beyond_share == 0.0 and seen.bounded == ()


def test_the_share_of_the_lawn_beyond_the_points_is_seen() -> None:
    """A quarter, where two metres of eight have none."""
    wide = ((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0))
    settings = replace(LINE, outline=(wide,), cells_wanted=128)
    assert _seen(_surveyed_lawn(PLAIN, settings), settings).beyond_share == pytest.approx(0.25)


def test_each_point_stands_for_the_ground_nearest_to_it() -> None:
    """Two inside for 4 square metres, six on the sides for 2, four in the corners for 1; the volume
    is that of the depth at the point.
    """
    cells = _surveyed_lawn(PLAIN, LINE).cells
    x, _ = at_cells(cells)
    volume, area = _pieces(ground_of(PLAIN, LINE), cells, np.where(x < 3.0, 20.0, 0.0))
    assert area == pytest.approx([1.0, 2.0, 2.0, 1.0, 2.0, 4.0, 4.0, 2.0, 1.0, 2.0, 2.0, 1.0])
    assert volume == pytest.approx([0.02, 0.04, 0, 0, 0.04, 0.08, 0, 0, 0.02, 0.04, 0, 0])


def test_the_band_comes_from_readings_and_gaps() -> None:
    """A flat 25 mm: the two halves agree, so the gaps are those of twelve counted pieces; with less
    than twelve points they are the whole. Readings move the volume by what they move the mean.
    """
    settings = replace(LINE, instrument_error_mm=1.0, unseen_mm=10.0)
    lawn = _surveyed_lawn(PLAIN, settings)
    found = _reach(lawn, settings)
    pieces = np.array([1.0, 2.0, 2.0, 1.0, 2.0, 4.0, 4.0, 2.0, 1.0, 2.0, 2.0, 1.0])
    assert found.doubt.gaps_m3 == pytest.approx(0.025 * math.sqrt((pieces**2).sum()))
    errors = errors_of_reading(lawn.ground, settings, 60)
    mesh = mesh_to(lawn.cells.to_frame(lawn.ground.xy_m), lawn.cells.centroid_m)
    moved = (mesh.matrix @ errors * lawn.cells.each_m2[:, None]).sum(axis=0) / 1000
    assert found.doubt.readings_m3 == pytest.approx(1.6449 * moved.std(ddof=1))
    assert found.doubt.noise_m3 == pytest.approx(0.0, abs=1e-9)
    unseen = 1.6449**2 / 2 * (pieces**2).sum() / 24 * 10.0 / 1000
    assert found.doubt.unseen_m3 == pytest.approx(2 * unseen)
    few = _surveyed_lawn(PLAIN[:6] + PLAIN[7:], settings)
    assert few.ground.count == 11
    assert _reach(few, settings).doubt.gaps_m3 == pytest.approx(0.6)


def test_halves_that_disagree_leave_gaps() -> None:
    """One deep point of twelve is in one half alone: more doubt than the counted pieces leave."""
    points = tuple(replace(p, height_mm=-80.0 if n == 5 else -1.0) for n, p in enumerate(PLAIN))
    settings = replace(LINE, instrument_error_mm=1.0)
    lawn = _surveyed_lawn(points, settings)
    ground, area = lawn.ground, lawn.cells.each_m2

    def volume(kept: np.ndarray) -> float:
        mesh = mesh_to(lawn.cells.to_frame(ground.xy_m[kept]), lawn.cells.centroid_m)
        inside = ~mesh.beyond
        assert inside.any()
        depth = -(mesh.matrix @ ground.height_mm[kept])
        places = lawn.cells.centroid_m
        for cell in np.nonzero(mesh.beyond)[0]:
            near = np.hypot(*(places[inside] - places[cell]).T)
            depth[cell] = depth[inside][near.argmin()]
        return float((depth * area).sum()) / 1000

    with mock.patch.object(fill, "halves", wraps=fill.halves) as asked:
        found = _reach(lawn, settings)
    ((_, volume_of), _) = asked.call_args
    kept = np.array([0, 1, 3, 5, 8, 10, 11])
    assert volume_of(kept) == pytest.approx(volume(kept), rel=0.02)
    assert found.doubt.gaps_m3 > 0


@pytest.mark.parametrize(("target", "trials"), [("fill_only", 24), ("line", 60), ("plane", 60)])
def test_a_straightedge_is_tried_less_often(target: str, trials: int) -> None:
    """It takes longer."""
    settings = replace(LINE, target=target, instrument_error_mm=1.0)  # type: ignore[arg-type]
    lawn = _surveyed_lawn(PLAIN, settings)
    with mock.patch.object(fill, "errors_of_reading", wraps=errors_of_reading) as asked:
        _reach(lawn, settings)
    assert asked.call_args.args[2] == trials


def test_limits_hold_for_all_volumes_of_the_band() -> None:
    """The target was raised by 5 mm, and takes 20 mm at most on half of the lawn."""
    settings = replace(LINE, instrument_error_mm=0.0)
    lawn = _surveyed_lawn(PLAIN, settings)
    x, _ = at_cells(lawn.cells)
    bounded = Bounded(lawn.surface.target_mm + 5.0, np.where(x < 3, 20.0, np.inf))
    depth = settled_depth(bounded.target_mm - lawn.surface.ground_mm, bounded, 0.0)
    held = replace(lawn, bounded=bounded, depth_mm=depth)
    assert held.volume_m3 == pytest.approx(12 * 0.020 + 12 * 0.030)
    found = _reach(held, settings)
    pieces = np.array([0.02, 0.04, 0.06, 0.03, 0.04, 0.08, 0.12, 0.06, 0.02, 0.04, 0.06, 0.03])
    assert found.doubt.gaps_m3 == pytest.approx(math.sqrt((pieces**2).sum()))
    assert (found.low_m3, found.high_m3) == pytest.approx(
        (0.6 - found.doubt.gaps_m3, 0.6 + found.doubt.gaps_m3)
    )


def test_zones_that_hold_no_cell_are_left_out() -> None:
    """And the others numbered anew."""
    names, member = _present(("front", "side", "back"), np.array([2, 0, 2, 2]))
    assert (names, member.tolist()) == (("front", "back"), [1, 0, 1, 1])


def test_each_zone_has_its_own_cells_grass_and_sun() -> None:
    """A third of the lawn at 10 mm, the rest, of no drawn zone, at 25."""
    cells = _surveyed_lawn(PLAIN, LINE).cells
    x, _ = at_cells(cells)
    member = np.where(x < 2.0, 0, 1).astype(np.int64)
    zones = (ZoneOutline("front", rectangle(2, 4), "fine_fescue", "shade"),)
    front, rest = _zones(
        np.where(x < 2.0, 10.0, 25.0), cells, ("front", "rest"), member, replace(LINE, zones=zones)
    )
    assert (front.name, front.grass, front.sun) == ("front", "fine_fescue", "shade")
    assert (rest.name, rest.grass, rest.sun) == ("rest", None, None)
    assert (front.area_m2, front.share, front.volume_m3) == pytest.approx((8.0, 1 / 3, 0.08))
    assert (rest.area_m2, rest.share, rest.volume_m3) == pytest.approx((16.0, 2 / 3, 0.4))
    assert (len(front.passes), len(rest.passes)) == (1, 3)


def zone(*passes: PassFill) -> ZoneFill:
    """A zone of which the passes alone matter."""
    return ZoneFill("zone", 10.0, 0.5, 5.0, 9.0, 0.1, passes)


def test_passes_lie_on_all_zones_that_need_them() -> None:
    """The first on both, the second on one; the thickest is told."""
    one = zone(PassFill(1, 8.0, 10.0, 0.08), PassFill(2, 8.0, 6.0, 0.04))
    two = zone(PassFill(1, 9.0, 5.0, 0.045))
    first, second = _all_passes((one, two, zone()))
    assert (first.number, first.depth_mm, first.area_m2) == (1, 9.0, 15.0)
    assert first.volume_m3 == pytest.approx(0.125)
    assert second == PassFill(2, 8.0, 6.0, 0.04)
    assert _all_passes(()) == ()


def test_what_is_ordered_is_loose_with_a_reserve() -> None:
    """Least, best and most by their own settling; the reserve is a tenth of the lawn at 3 mm;
    none where nothing is filled.
    """
    settings = replace(
        LINE,
        settle_low=0.1,
        settle_share=0.15,
        settle_high=0.3,
        touch_up_share=0.1,
        touch_up_mm=3.0,
    )
    cells = cells_of((rectangle(20, 10),), (), 50, (9.0, 5.0))
    reach = Reach(1.0, 3.0, Doubt(0.0, 0.0, 0.0))
    reserve = 200 * 0.1 * 0.003 * 1.15
    order = _order(reach, 2.0, cells, settings)
    assert order.low_m3 == pytest.approx(1.0 * 1.1 + reserve)
    assert order.best_m3 == pytest.approx(2.0 * 1.15 + reserve)
    assert order.high_m3 == pytest.approx(3.0 * 1.3 + reserve)
    assert order.touch_up_m3 == pytest.approx(reserve)
    none = _order(reach, 0.0, cells, settings)
    assert (none.low_m3, none.best_m3, none.high_m3) == pytest.approx((1.1, 0.0, 3.9))
    assert none.touch_up_m3 == 0.0


def test_a_surveyed_lawn_is_what_it_was_made_of() -> None:
    """Ground and cells as `surface_of` has them."""
    lawn = _surveyed_lawn(PLAIN, LINE)
    again = surface_of(lawn.ground, lawn.cells, LINE)
    assert isinstance(lawn, SurveyedLawn)
    assert again.ground_mm == pytest.approx(lawn.surface.ground_mm)


def test_a_cell_at_the_edge_is_read_in_the_middle_of_its_lawn() -> None:
    """Under a straightedge in its own middle, which may lie beside the lawn."""
    triangle = ((0.0, 0.0), (6.0, 0.0), (0.0, 4.0))
    points = tuple(replace(p, height_mm=-10.0 - 3.0 * p.x_m + 2.0 * p.y_m) for p in PLAIN)
    settings = replace(LINE, outline=(triangle,))
    cells, found = surface(points, settings)
    x, y = at_cells(cells)
    assert found.ground_mm == pytest.approx(-10.0 - 3.0 * x + 2.0 * y)
    cells, found = surface(points, replace(settings, target="fill_only"))
    x, y = cells.to_survey(cells.middle_m).T
    assert found.ground_mm[~found.beyond] == pytest.approx((-10.0 - 3 * x + 2 * y)[~found.beyond])


def test_shallow_fills_count_in_the_band() -> None:
    """Half a millimetre everywhere is left alone, and is there."""
    settings = replace(LINE, least_mm=3.0)
    lawn = _surveyed_lawn(tuple(replace(p, height_mm=-0.5) for p in PLAIN), settings)
    found = _reach(lawn, settings)
    assert lawn.volume_m3 == 0.0
    assert found.doubt.gaps_m3 == pytest.approx(0.0005 * math.sqrt(60.0))
    assert found.high_m3 == pytest.approx(0.012 + found.doubt.gaps_m3)


def test_a_crown_between_points_is_no_hollow() -> None:
    """A lawn that falls away from its middle line, read every four metres: the ground stands on
    the crown, not on the chords between its points, and is the target.
    """
    points = grid(24, 16, 7, 5, lambda x, y: -0.3 * (y - 8.0) ** 2 + 0 * x)
    settings = replace(EXACT, outline=(rectangle(24, 16),), cells_wanted=384, least_mm=3.0)
    lawn = _surveyed_lawn(points, settings)
    _, y = at_cells(lawn.cells)
    assert lawn.surface.ground_mm == pytest.approx(-0.3 * (y - 8.0) ** 2, abs=0.05)
    assert lawn.surface.target_mm == pytest.approx(-0.3 * (y - 8.0) ** 2, abs=0.5)
    assert lawn.volume_m3 == 0.0
