"""What bounds the target: buildings, paving, trees; and whether water leaves the lawn."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, added, bowl, bowl_m3, grid, rectangle, slope
from told import all_told
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.feature_lines import Line
from turfplan.site.survey.limits import Bounded, _downhill, _meets_paving, _toe
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
        assert said(found, "tilted from 1.8 % to 2.0 %")
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

    def test_a_building_across_the_slope_holds_water_back(self) -> None:
        """The lawn falls to the wall; nothing runs through it."""
        sides = ((0.0, 0.0), (20.0, 0.0), (20.0, 14.0), (0.0, 14.0))
        wall_all = line("wall", [(5, -0.05), (15, -0.05)], [10.0, 10.0])
        dish = added(slope(0, 2), lambda x, y: 6.0 * (x - 10) ** 2)
        found = fill((*grid(20, 14, 41, 29, dish), *wall_all), replace(FINE, outline=(sides,)))
        free = fill(grid(20, 14, 41, 29, dish))
        assert said(found, "Water will still stand") and not said(free, "Water will still stand")

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
