"""What bounds the target: buildings, paving, trees; and whether water leaves the lawn."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, added, bowl, bowl_m3, grid, rectangle, slope
from told import all_told
from turfplan.message import Quantity
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.feature_lines import Line
from turfplan.site.survey.limits import (
    Bounded,
    _away_from_wall,
    _clear_of_trunks,
    _downhill,
    _meets_paving,
    _steepened,
    _toe,
    apply,
)
from turfplan.site.survey.records import FillResult, SurveyPoint, SurveySettings
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import System

pytest.importorskip("scipy")
LAWN = (rectangle(20, 14),)
FINE = replace(BOOK_LIKE, instrument_error_mm=0.5, least_mm=0.0, outline=LAWN)


def line(
    feature: str, places: list[tuple[float, float]], heights: list[float | None]
) -> tuple[SurveyPoint, ...]:
    """A row of feature points."""
    return tuple(
        SurveyPoint(x, y, z, f"{feature} {n}", feature)  # type: ignore[arg-type]
        for n, ((x, y), z) in enumerate(zip(places, heights, strict=True), 1)
    )


def wall(height: float = 0.0) -> tuple[SurveyPoint, ...]:
    """A building along the whole lower side."""
    return line("wall", [(0, 0), (10, 0), (20, 0)], [height] * 3)


def fill(points: tuple[SurveyPoint, ...], settings: SurveySettings = FINE) -> FillResult:
    """The fill of points."""
    return fill_from_survey(points, settings)


def at(found: FillResult, x: float, y: float) -> tuple[float, float, float]:
    """Ground, finished ground and fill at a place, mm."""
    grid_ = found.grid
    assert grid_ is not None
    column, row = round((x - grid_.x_m) / grid_.width_m), round((y - grid_.y_m) / grid_.depth_m)
    n = row * grid_.columns + column
    values = (grid_.ground_mm[n], grid_.target_mm[n], grid_.fill_mm[n])
    assert all(v is not None for v in values)
    return tuple(v or 0.0 for v in values)  # type: ignore[return-value]


def said(found: FillResult, words: str, system: System = System.METRIC) -> bool:
    """Whether a caution or a note holds the words."""
    return any(words in text for text in all_told((*found.cautions, *found.notes), system))


CELLS = cells_of(LAWN, (), 280, (9.9, 7.0))


def heights(east: float, north: float) -> np.ndarray:
    """A plane at the cells, by its falls in mm a metre of the survey."""
    places = CELLS.to_survey(CELLS.centroid_m)
    return np.asarray(100.0 + places @ np.array([east, north]), dtype=np.float64)


def test_water_is_to_run_to_the_swale_else_down_the_plane() -> None:
    """Directions of length one; level ground without a swale has none."""
    down = {(-10.0, 0.0): (1, 0), (0.0, 10.0): (0, -1), (-3.0, -4.0): (0.6, 0.8)}
    for fall, toward in down.items():
        found = _downhill(heights(*fall), (), CELLS)
        assert CELLS.to_survey(found[None] + CELLS.to_frame(np.zeros((1, 2))))[0] == pytest.approx(
            toward
        )
    swale = line("swale", [(20, 0), (20, 14)], [0.0, 0.0])
    found = _downhill(heights(10.0, 3.0), swale, CELLS)
    origin = CELLS.to_frame(np.zeros((1, 2)))
    assert CELLS.to_survey(found[None] + origin)[0] == pytest.approx([1.0, 0.0], abs=1e-6)
    assert _downhill(heights(0.0, 0.0), (), CELLS) == pytest.approx([0.0, 0.0])


def test_the_far_end_of_a_strip_is_read_by_metres_of_the_wall() -> None:
    """Ground that falls by 20 mm a metre from the wall, and by 5 along it, is at its end what it is
    three metres off there.
    """
    away = np.tile(np.arange(0.25, 3.1, 0.5), 8)
    along = np.repeat(np.arange(8.0), 6)
    surface = 500.0 - 20.0 * away - 5.0 * along
    wall_line = Line(np.zeros((2, 2)), np.zeros(2))
    found = _toe(away, along, surface, wall_line, 3.0)
    assert found == pytest.approx(500.0 - 20.0 * 2.75 - 5.0 * along, abs=1e-6)
    # Two cells at the end tell a height and no fall.
    few = _toe(np.array([0.5, 2.5, 2.7]), np.zeros(3), np.array([9.0, 4.0, 6.0]), wall_line, 3.0)
    assert few == pytest.approx([5.0, 5.0, 5.0])
    assert _toe(away, along, surface, wall_line, -1.0) is surface


def test_paving_far_from_the_lawn_changes_nothing() -> None:
    """Within its taper the target runs to just under its edge."""
    bounded = Bounded(heights(0.0, 0.0), np.full(len(CELLS.share), np.inf))
    far, close = (
        Line(CELLS.to_frame(np.array([(0.0, y), (20.0, y)])), np.array([90.0, 90.0]))
        for y in (-5.0, 0.0)
    )
    assert _meets_paving(bounded, far, CELLS, heights(0.0, 0.0), FINE) is bounded
    near = _meets_paving(bounded, close, CELLS, heights(0.0, 0.0), FINE)
    away = CELLS.to_survey(CELLS.centroid_m)[:, 1]
    share = np.clip(away / FINE.paving_taper_m, 0, 1)
    edge = 90.0 - FINE.below_paving_mm
    assert near.target_mm == pytest.approx((1 - share) * edge + share * 100.0)


# Cells of one metre over 20 by 14; `survey_xy` is where they lie.
SURVEY_X, SURVEY_Y = CELLS.to_survey(CELLS.centroid_m).T
FREE = np.full(len(CELLS.share), np.inf)
PLANE = replace(FINE, target="plane")


def plane_of_fall(fall: float) -> np.ndarray:
    """Heights that fall to the east by a share."""
    return np.asarray(500.0 - 1000 * fall * SURVEY_X, dtype=np.float64)


def test_a_plane_that_falls_too_little_is_tilted_about_its_low_edge() -> None:
    """From one and a half percent to two: five millimetres a metre, none at the last cells."""
    target = plane_of_fall(0.015)
    found = _steepened(Bounded(target, FREE), (), CELLS, target, replace(PLANE, deep_limit_mm=100))
    assert found.target_mm - target == pytest.approx(5.0 * (19.5 - SURVEY_X), abs=1e-6)
    (note,) = found.notes
    values = dict(note.values)
    assert (values["before"].value, values["after"].value) == pytest.approx((1.5, 2.0))  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("fall", "ground_mm", "tilted"),
    [
        (0.02, 0.0, False),
        (0.0199, 0.0, True),
        (0.03, 0.0, False),
        (0.015, 4.9, True),
        (0.015, 5.1, False),
    ],
)
def test_a_plane_is_tilted_where_passes_can_fill_it(
    fall: float, ground_mm: float, *, tilted: bool
) -> None:
    """The high edge would lie 95 mm above its target, and the ground some below that: a hundred
    at most.
    """
    target = plane_of_fall(fall)
    settings = replace(PLANE, deep_limit_mm=100.0)
    found = _steepened(Bounded(target, FREE), (), CELLS, target - ground_mm, settings)
    assert (found.target_mm is not target) == tilted


def test_a_level_plane_without_a_swale_is_left() -> None:
    """It has no way down; toward a swale it has."""
    level, deep = plane_of_fall(0.0), replace(PLANE, deep_limit_mm=1e6)
    assert _steepened(Bounded(level, FREE), (), CELLS, level, deep).target_mm is level
    swale = line("swale", [(20, 0), (20, 14)], [0.0, 0.0])
    found = _steepened(Bounded(level, FREE), swale, CELLS, level, deep)
    assert found.target_mm - level == pytest.approx(20.0 * (19.5 - SURVEY_X), abs=1e-6)


def test_planes_alone_are_tilted_and_only_by_a_rule() -> None:
    """Of all limits this one asks what the target is."""
    target = plane_of_fall(0.015)
    deep = replace(PLANE, deep_limit_mm=1e6)
    assert apply((), CELLS, target, target, deep).notes
    assert not apply((), CELLS, target, target, replace(deep, target="own_fall")).notes
    assert not apply((), CELLS, target, target, replace(deep, fall_to_swale=None)).notes


# Cells of half a metre, so that the end of a strip of three metres has two rows of them.
CLOSE = cells_of(LAWN, (), 1120, (9.9, 7.0))
CLOSE_X, CLOSE_Y = CLOSE.to_survey(CLOSE.centroid_m).T
UNBOUND = np.full(len(CLOSE.share), np.inf)
THREE = replace(FINE, fall_from_building=0.05, fall_distance_m=3.0, deep_limit_mm=50.0)


def at_wall(
    target: np.ndarray,
    ground: np.ndarray,
    settings: SurveySettings = THREE,
    foot_mm: float = 600.0,
    south_m: float = 0.0,
) -> Bounded:
    """What a wall along the lower side leaves of a target."""
    places = CLOSE.to_frame(np.array([(0.0, -south_m), (20.0, -south_m)]))
    foot = Line(places, np.array([foot_mm, foot_mm]))
    return _away_from_wall(Bounded(target, UNBOUND), foot, (), CLOSE, ground, settings)


def falling(fall: float) -> np.ndarray:
    """Heights that fall away from the wall."""
    return np.asarray(500.0 - 1000 * fall * CLOSE_Y, dtype=np.float64)


def test_ground_at_a_wall_is_raised_to_its_fall() -> None:
    """From four percent to five over three metres: by ten millimetres a metre from there on
    inward, nothing beyond.
    """
    ground = falling(0.04)
    found = at_wall(ground, ground)
    rise = np.clip(10.0 * (3.0 - CLOSE_Y), 0.0, None)
    assert found.target_mm - ground == pytest.approx(rise, abs=1e-6)
    (note,) = found.notes
    values = dict(note.values)
    assert values["depth"].value == pytest.approx(27.5)  # type: ignore[union-attr]
    assert values["fall"].value == 0.05  # type: ignore[union-attr]


def test_ground_that_falls_enough_or_has_no_rule_is_left_at_a_wall() -> None:
    """Nor is a wall that lies far from the lawn."""
    for fall in (0.05001, 0.06):
        assert at_wall(falling(fall), falling(fall)).notes == ()
    ground = falling(0.04)
    for missing in ({"fall_from_building": None}, {"fall_distance_m": None}):
        found = at_wall(ground, ground, replace(THREE, **missing))  # type: ignore[arg-type]
        assert found.target_mm is ground
    assert at_wall(ground, ground, south_m=2.8).target_mm is ground
    assert at_wall(ground, ground, south_m=2.7).target_mm is not ground


@pytest.mark.parametrize(("deep", "raised"), [(27.6, True), (27.4, False)])
def test_a_wall_is_raised_to_as_far_as_passes_can(deep: float, *, raised: bool) -> None:
    """27.5 millimetres are needed in the first row; else the target stays below the line from the
    foot of the wall, or on the ground.
    """
    ground, strip = falling(0.04), CLOSE_Y <= 3
    target = ground + np.where(CLOSE_Y < 2, 40.0, 0.0)
    settings = replace(THREE, deep_limit_mm=deep)
    for foot in (600.0, 515.0):
        found = at_wall(target, ground, settings, foot)
        if raised:
            assert found.target_mm[CLOSE_Y > 2] == pytest.approx(
                (ground + np.clip(10.0 * (3.0 - CLOSE_Y), 0.0, None))[CLOSE_Y > 2]
            )
            continue
        held = np.maximum(foot - 50.0 * CLOSE_Y, ground)
        assert found.notes == ()
        assert found.target_mm[strip] == pytest.approx(np.minimum(target, held)[strip])
        assert found.target_mm[~strip] == pytest.approx(target[~strip])


def test_a_higher_target_stays_where_a_wall_is_raised() -> None:
    """Only what lies lower is raised."""
    ground, high = falling(0.04), (CLOSE_Y < 1) & (CLOSE_X < 5)
    target = ground + np.where(high, 100.0, 0.0)
    found = at_wall(target, ground)
    assert found.target_mm[high] == pytest.approx(target[high])
    assert (found.target_mm >= target - 1e-9).all() and found.notes


def test_one_row_of_wide_cells_at_the_end_of_a_strip_is_read_by_its_fall() -> None:
    """Cells of a metre have their last row two and a half metres off: the ground three metres off
    lies as much lower as the strip falls, so that ground that falls enough is left.
    """
    for fall, lift in ((0.06, 0.0), (0.04, 25.0)):
        ground = np.asarray(500.0 - 1000 * fall * SURVEY_Y, dtype=np.float64)
        places = CELLS.to_frame(np.array([(0.0, 0.0), (20.0, 0.0)]))
        foot = Line(places, np.array([500.0, 500.0]))
        found = _away_from_wall(Bounded(ground, FREE), foot, (), CELLS, ground, THREE)
        assert float((found.target_mm - ground).max()) == pytest.approx(lift, abs=1e-6)


PAVING = Line(CELLS.to_frame(np.array([(0.0, 0.0), (20.0, 0.0)])), np.array([0.0, 0.0]))
EDGED = replace(
    FINE, below_paving_mm=10.0, paving_taper_m=3.0, deep_limit_mm=50.0, least_mm=3.0,
    instrument_error_mm=2.0,
)  # fmt: skip


def beside_paving(target: float, ground: float, settings: SurveySettings = EDGED) -> Bounded:
    """A level lawn beside paving at nought."""
    level = np.full(len(CELLS.share), 1.0)
    return _meets_paving(Bounded(target * level, FREE), PAVING, CELLS, ground * level, settings)


def test_a_target_runs_to_under_the_edge_of_paving() -> None:
    """Ten millimetres under it, within three metres: the nearer the more."""
    found = beside_paving(-40.0, -45.0)
    share = np.clip(SURVEY_Y / 3, 0, 1)
    assert found.target_mm == pytest.approx((1 - share) * -10.0 + share * -40.0)
    assert found.cautions == ()


@pytest.mark.parametrize(
    ("ground", "told"), [(-6.1, False), (-6.0, False), (-5.9, True), (0.0, True)]
)
def test_ground_above_the_edge_of_paving_is_told(ground: float, *, told: bool) -> None:
    """By more than twice the error of a reading above what lies under the edge, in the nearer half
    of the taper; or by more than the least fill.
    """
    found = beside_paving(-10.0, ground)
    assert bool(found.cautions) == told
    if told:
        height = dict(found.cautions[0].values)["height"]
        assert height.value == pytest.approx(ground + 10.0)  # type: ignore[union-attr]
    rough = replace(EDGED, least_mm=ground + 10.1)
    assert beside_paving(-10.0, ground, rough).cautions == ()


def test_high_ground_in_the_further_half_of_the_taper_is_not_told() -> None:
    """A hump between one and a half and three metres from the edge."""
    level = np.full(len(CELLS.share), -10.0)
    for hump, told in ((SURVEY_Y < 1.0, True), ((SURVEY_Y > 1.6) & (SURVEY_Y < 3.0), False)):
        ground = np.where(hump, 30.0, level)
        found = _meets_paving(Bounded(level, FREE), PAVING, CELLS, ground, EDGED)
        assert bool(found.cautions) == told
    wide = replace(EDGED, paving_taper_m=4.0)
    hump = np.where((SURVEY_Y > 1.0) & (SURVEY_Y < 2.0), 30.0, level)
    assert _meets_paving(Bounded(level, FREE), PAVING, CELLS, hump, wide).cautions


@pytest.mark.parametrize(("ground", "told"), [(-59.9, False), (-60.1, True)])
def test_ground_far_below_the_edge_of_paving_is_told_and_not_filled_up_to_it(
    ground: float, *, told: bool
) -> None:
    """More than fifty millimetres: there the target stays, and rises no higher than the edge."""
    found = beside_paving(ground + 5.0, ground)
    assert bool(found.cautions) == told
    if told:
        assert found.target_mm == pytest.approx(np.full(len(SURVEY_Y), ground + 5.0))
        depth = dict(found.cautions[0].values)["depth"]
        assert depth.value == pytest.approx(-10.0 - ground)  # type: ignore[union-attr]
        over = beside_paving(20.0, ground)
        assert over.target_mm[SURVEY_Y < 3] == pytest.approx(-10.0)
        assert over.target_mm[SURVEY_Y > 3] == pytest.approx(20.0)


TREE = line("trunk", [(10, 7)], [None])
ROOTS = replace(FINE, trunk_clear_m=1.0, root_zone_m=3.0, root_fill_mm=25.0)


def near_tree(missing: float, settings: SurveySettings = ROOTS) -> Bounded:
    """A level lawn below its target, with a tree in its middle."""
    ground = np.zeros(len(CELLS.share))
    return _clear_of_trunks(Bounded(ground + missing, FREE), TREE, CELLS, ground, settings)


def test_a_tree_bears_nothing_at_its_trunk_and_little_over_its_roots() -> None:
    """None within a metre, 25 mm within three, anything further off; by the nearest of two."""
    away = np.hypot(SURVEY_X - 10, SURVEY_Y - 7)
    wanted = np.where(away < 1, 0.0, np.where(away < 3, 25.0, np.inf))
    assert near_tree(40.0).most_mm.tolist() == wanted.tolist()
    other = line("trunk", [(10, 7), (2, 2)], [None, None])
    ground = np.zeros(len(away))
    two = _clear_of_trunks(Bounded(ground, FREE), other, CELLS, ground, ROOTS)
    both = np.minimum(away, np.hypot(SURVEY_X - 2, SURVEY_Y - 2))
    assert two.most_mm.tolist() == np.where(both < 1, 0.0, np.where(both < 3, 25, np.inf)).tolist()
    none = Bounded(ground, FREE)
    assert _clear_of_trunks(none, (), CELLS, ground, ROOTS) is none


@pytest.mark.parametrize(
    ("changes", "keys"),
    [
        ({}, ["trunk", "roots"]),
        ({"root_fill_mm": None}, ["trunk"]),
        ({"trunk_clear_m": None}, []),
        ({"root_zone_m": None}, ["trunk", "roots"]),
    ],
)
def test_what_a_tree_holds_back_is_told(changes: dict[str, None], keys: list[str]) -> None:
    """Where more is missing than it bears; each rule where there is one."""
    settings = replace(ROOTS, **changes)  # type: ignore[arg-type]
    found = near_tree(40.0, settings)
    assert [note.key.rpartition(".")[2] for note in found.notes] == keys
    away = np.hypot(SURVEY_X - 10, SURVEY_Y - 7)
    if "root_fill_mm" in changes or "root_zone_m" in changes:
        assert np.isinf(found.most_mm[away >= 1]).all()
    if "trunk_clear_m" in changes:
        assert (found.most_mm[away < 3] == 25.0).all()


@pytest.mark.parametrize(("missing", "told"), [(0.4, False), (0.6, True)])
def test_half_a_millimetre_at_a_trunk_is_not_told(missing: float, *, told: bool) -> None:
    """It is a hair."""
    assert bool(near_tree(missing).notes) == told


def test_the_note_of_a_tree_has_its_distances() -> None:
    """A metre in the first, 25 mm rounded down in the second."""
    trunk, roots = near_tree(40.0).notes
    assert dict(trunk.values)["distance"] == Quantity(1000.0, "height")
    assert dict(roots.values)["depth"] == Quantity(25.0, "depth", "down")


class TestBuilding:
    """Five percent away from a building over the first ten feet, where the ground allows."""

    def test_enough_fall_needs_nothing(self) -> None:
        """Six percent away from the wall."""
        found = fill((*grid(20, 14, 21, 15, slope(0, -6)), *wall()))
        assert found.volume_m3 == 0.0
        assert not said(found, "Away from the building")

    def test_a_little_too_flat_is_raised_at_the_wall(self) -> None:
        """Four percent: 30 mm more at the wall give the fifth."""
        found = fill((*grid(20, 14, 21, 15, slope(0, -4)), *wall()))
        assert said(found, "raised by up to")
        assert not said(found, "Away from the building the finished lawn")
        _, near, raised = at(found, 10, 0.3)
        _, far, _ = at(found, 10, 3.0)
        assert 20 < raised < 35
        assert (near - far) / 2.7 / 1000 == pytest.approx(0.05, abs=0.003)

    def test_much_too_flat_is_told_and_left(self) -> None:
        """One percent: four inches are lacking, which passes cannot give."""
        found = fill((*grid(20, 14, 21, 15, slope(0, -1)), *wall()))
        assert said(found, "falls only 1.0%") and said(found, "Regrading by machine or a drain")
        assert found.volume_m3 == 0.0

    def test_ground_that_falls_toward_the_wall_is_said_to(self) -> None:
        """The worst case of all."""
        assert said(fill((*grid(20, 14, 21, 15, slope(0, 2)), *wall())), "toward the wall")

    @pytest.mark.full
    def test_fill_never_lessens_the_fall_there_is(self) -> None:
        """In a strip that is too flat a hollow is filled until it overflows, not to the ground
        around it.
        """
        ground = added(slope(0, -1), bowl(10, 2.2, 1.2, 60))
        found = fill((*grid(20, 14, 61, 43, ground), *wall()))
        _, finished, filled = at(found, 10, 2.2)
        assert finished == pytest.approx(-34, abs=3)
        free = fill(grid(20, 14, 61, 43, ground))
        assert filled < at(free, 10, 2.2)[2]

    def test_a_lawn_without_buildings_is_not_held(self) -> None:
        """No wall, no word of one."""
        assert not said(fill(grid(20, 14, 21, 15, slope(0, -1))), "building")


class TestPaving:
    """Edges meet paving, half an inch below it."""

    def paved(self, height: float, ground: float = 0.0) -> FillResult:
        """Level ground with paving along its right side."""
        return fill(
            (
                *grid(20, 14, 21, 15, lambda x, y: 0 * x + ground),
                *line("paving", [(20, 0), (20, 14)], [height] * 2),
            )
        )

    def test_a_lawn_below_its_paving_runs_up_to_it(self) -> None:
        """30 mm below: filled to half an inch under the edge, running out within a metre."""
        found = self.paved(30.0)
        assert at(found, 19.9, 7)[2] == pytest.approx(30 - 12.7, abs=5)
        assert at(found, 18.0, 7)[2] == 0.0

    def test_a_lawn_above_its_paving_gets_no_fill_and_a_word(self) -> None:
        """The turf has to be lifted there and soil taken out."""
        found = self.paved(5.0)
        assert said(found, "soil has to come out")
        assert found.volume_m3 == 0.0

    def test_a_lawn_far_below_its_paving_is_not_filled_by_passes(self) -> None:
        """More than the limit of passes."""
        found = self.paved(120.0)
        assert said(found, "below the edge of the paving")
        assert found.volume_m3 == 0.0

    def test_paving_is_no_part_of_the_ground(self) -> None:
        """Its height does not pull the ground up."""
        assert at(self.paved(30.0), 19.9, 7)[0] == pytest.approx(0.0, abs=1e-6)


class TestTrees:
    """Nothing against trunks, little over roots."""

    def test_no_fill_near_a_trunk_and_little_over_its_roots(self) -> None:
        """A tree in the middle of a deep hollow."""
        trunk = line("trunk", [(10, 7)], [None])
        found = fill((*grid(20, 14, 61, 43, added(slope(-2), bowl(10, 7, 2.2, 45))), *trunk))
        assert at(found, 10, 7)[2] == 0.0
        assert at(found, 11.0, 7)[2] == pytest.approx(25.4)
        assert said(found, "within 600 mm of a trunk") and said(found, "Over tree roots")


class TestDrainage:
    """Where water stays, it is said."""

    def test_a_lawn_too_flat_is_told(self) -> None:
        """Half a percent to its low side."""
        found = fill(grid(20, 14, 21, 15, slope(-0.5)))
        assert said(found, "falls 0.5% to its low side") and said(found, "2% carries water off")

    def test_a_swale_takes_the_water_of_a_lawn_that_falls_to_it(self) -> None:
        """Three percent is enough, one is not."""
        swale = line("swale", [(0, 14.5), (20, 14.5)], [-435.0, -435.0])
        assert not said(fill((*grid(20, 14, 21, 15, slope(0, -3)), *swale)), "toward the swale")
        high = tuple(replace(p, height_mm=-145.0) for p in swale)
        assert said(fill((*grid(20, 14, 21, 15, slope(0, -1)), *high)), "1.0% toward the swale")

    def test_a_plane_is_tilted_where_that_is_little(self) -> None:
        """1.8 percent over 20 m: 40 mm at the high side make two."""
        found = fill(grid(20, 14, 21, 15, slope(-1.8)), replace(FINE, target="plane"))
        assert said(found, "tilted from 1.8% to 2.0%")
        assert found.mean_fill_mm == pytest.approx(0.002 * 20_000 / 2, rel=0.04)
        assert not said(found, "carries water off")

    def test_a_plane_is_not_tilted_where_that_is_much(self) -> None:
        """From half a percent it would take a foot."""
        found = fill(grid(20, 14, 21, 15, slope(-0.5)), replace(FINE, target="plane"))
        assert found.volume_m3 == 0.0
        assert said(found, "carries water off")

    def test_a_dish_with_a_rim_around_it_is_filled(self) -> None:
        """A dish of thirteen metres that ends within the lawn: filled to its rim, it holds none."""
        found = fill(grid(20, 14, 41, 29, bowl(10, 7, 6.5, 60)))
        assert found.volume_m3 == pytest.approx(bowl_m3(6.5, 60), rel=0.1)
        assert not said(found, "Water will still stand")

    def test_a_hollow_wider_than_leveling_follows_holds_water(self) -> None:
        """A dish that both long edges cut, so that no rim closes it: what stays is told, its depth
        and place.

        Water runs out where an edge is lowest, seven metres from the middle.
        """
        found = fill(grid(20, 14, 41, 29, bowl(10, 7, 9, 60)))
        stands_mm = 60 * 7**2 / 9**2
        depths = range(round(stands_mm) - 3, round(stands_mm) + 2)
        assert any(said(found, f"Water will still stand up to {d} mm deep") for d in depths)
        assert said(found, "x 10") or said(found, "x 9.") or said(found, "x 10.")
        assert found.volume_m3 < 0.05 * bowl_m3(9, 60)

    @pytest.mark.full
    def test_a_building_across_the_slope_holds_water_back(self) -> None:
        """The lawn falls to the wall; nothing runs through it."""
        sides = ((0.0, 0.0), (20.0, 0.0), (20.0, 14.0), (0.0, 14.0))
        wall_all = line("wall", [(5, -0.05), (15, -0.05)], [10.0, 10.0])
        dish = added(slope(0, 2), lambda x, y: 6.0 * (x - 10) ** 2)
        found = fill((*grid(20, 14, 41, 29, dish), *wall_all), replace(FINE, outline=(sides,)))
        free = fill(grid(20, 14, 41, 29, dish))
        assert said(found, "Water will still stand") and not said(free, "Water will still stand")

    @pytest.mark.full
    def test_cuts_only_when_asked(self) -> None:
        """High spots stay and are told; with cutting allowed their volume is given."""
        hump = added(slope(-2), lambda x, y: -bowl(10, 7, 2, 40)(x, y))
        left = fill(grid(20, 14, 61, 43, hump))
        assert (left.volume_m3, left.cut_m3) == (pytest.approx(0.0, abs=0.01), 0.0)
        assert said(left, "High spots stay")
        cut = fill(grid(20, 14, 61, 43, hump), replace(FINE, allow_cut=True))
        assert cut.cut_m3 == pytest.approx(np.pi * 4 * 0.040 / 2, rel=0.05)
        assert not said(cut, "High spots stay")

    def test_words_follow_the_units(self) -> None:
        """Feet and inches for the US."""
        found = fill((*grid(20, 14, 21, 15, slope(0, -1)), *wall()))
        assert said(found, "over the first 10 ft", System.US)
        assert said(found, "over the first 3 m", System.METRIC)
