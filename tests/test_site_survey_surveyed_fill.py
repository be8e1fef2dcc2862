"""Fill from surveys: volumes against closed forms, and what must not change when it should not."""

import math
import random
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from lawn_surveys import (
    BOOK_LIKE,
    EXACT,
    added,
    bowl,
    bowl_m3,
    cone,
    grid,
    moved,
    points_at,
    rectangle,
    scattered,
    slope,
)
from tiers import full, sampled, sampled_pairs
from told import all_told
from told_errors import refused
from turfplan.site.outlines.polygons import signed_area
from turfplan.site.survey.cells import rotated
from turfplan.site.survey.records import (
    FillResult,
    SurveyPoint,
    SurveySettings,
    Target,
)
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import System

pytest.importorskip("scipy")
HALF_PERCENT = 0.005
LAWN = (rectangle(20, 14),)


def fill(
    points: tuple[SurveyPoint, ...], settings: SurveySettings = EXACT, **keys: object
) -> FillResult:
    """The fill of points with settings changed by keyword."""
    return fill_from_survey(points, replace(settings, **keys))  # type: ignore[arg-type]


class TestClosedForms:
    """Volumes of exact surveys, within half a percent."""

    def test_a_wedge_below_the_line(self) -> None:
        """From nothing to 60 mm over 20 m: half of the box."""
        found = fill(grid(20, 14, 9, 7, lambda x, y: -3.0 * x), target="line")
        assert found.volume_m3 == pytest.approx(20 * 14 * 0.060 / 2, rel=HALF_PERCENT)

    @pytest.mark.full
    @pytest.mark.parametrize("target", ["own_fall", "fill_only"])
    def test_a_cone_in_a_slope(self, target: Target) -> None:
        """A third of its base times its depth."""
        ground = added(slope(-2, 1), cone(9, 7, 1.8, 40))
        found = fill(grid(20, 14, 101, 71, ground), target=target, straightedge_m=4.0)
        assert found.volume_m3 == pytest.approx(math.pi * 1.8**2 * 0.040 / 3, rel=HALF_PERCENT)

    @pytest.mark.full
    @pytest.mark.parametrize("target", ["own_fall", "fill_only"])
    def test_a_paraboloid_in_a_slope(self, target: Target) -> None:
        """Half of its base times its depth."""
        ground = added(slope(-2, 1), bowl(11, 6, 1.9, 35))
        found = fill(grid(20, 14, 61, 43, ground), target=target, straightedge_m=4.0)
        assert found.volume_m3 == pytest.approx(bowl_m3(1.9, 35), rel=HALF_PERCENT)

    def test_a_cone_below_the_line(self) -> None:
        """Depths measured from a string, at scattered points with one in the bottom."""
        ground = cone(9, 7, 6, 50)
        points = (*scattered(20, 14, 2400, ground, 3), SurveyPoint(9, 7, -50.0))
        assert fill(points, target="line").volume_m3 == pytest.approx(
            math.pi * 36 * 0.050 / 3, rel=HALF_PERCENT
        )

    def test_a_sinusoid_against_its_plane(self) -> None:
        """What lies below the mean plane of whole waves is amplitude over pi, on average; fill and
        cut are equal.
        """
        ground = added(slope(-2), lambda x, y: 20.0 * np.sin(2 * math.pi * x / 5))
        found = fill(
            grid(20, 14, 161, 5, ground), target="plane", allow_cut=True, cells_wanted=8000
        )
        # The plane of least squares over four whole waves is tilted a little: its slope is -3 a /
        # (pi k L^2) of a wave sin kx beginning at nought, so the tilt is found from the same points
        # by numpy.
        x = (np.arange(100_000) + 0.5) / 100_000 * 20
        wave = 20.0 * np.sin(2 * math.pi * x / 5)
        rest = np.polyval(np.polyfit(x, wave, 1), x) - wave
        assert found.volume_m3 == pytest.approx(
            float(np.clip(rest, 0, None).mean()) / 1000 * 280, rel=HALF_PERCENT
        )
        assert found.cut_m3 == pytest.approx(found.volume_m3, rel=HALF_PERCENT)

    @full
    def test_a_sinusoid_under_the_straightedge(self) -> None:
        """Filled to its crests: the amplitude, on average, between the first crest and the last."""

        def ground(x: np.ndarray, y: np.ndarray) -> np.ndarray:
            return 20.0 * np.cos(2 * math.pi * x / 5)

        found = fill(
            grid(20, 14, 321, 5, ground),
            target="fill_only",
            straightedge_m=5.5,
            cells_wanted=20_000,
        )
        assert found.volume_m3 == pytest.approx(280 * 0.020, rel=HALF_PERCENT)

    @pytest.mark.parametrize("seed", sampled(range(6), 0, 1))
    def test_prisms_over_random_polygons(self, seed: int) -> None:
        """An even depth over any outline is its area times the depth, to the last digit; holes are
        taken out.
        """
        chance = random.Random(seed)
        turns = sorted(chance.uniform(0, 2 * math.pi) for _ in range(12))
        ring = tuple(
            (10 + r * math.cos(t), 7 + r * math.sin(t))
            for t, r in ((t, chance.uniform(3, 7)) for t in turns)
        )
        points = grid(20, 14, 11, 8, lambda x, y: 0 * x - 25.0)
        assert fill(points, target="line", outline=(ring,)).volume_m3 == pytest.approx(
            abs(signed_area(ring)) * 0.025, rel=1e-9
        )
        bed = tuple((10 + 0.8 * math.cos(n), 7 + 0.8 * math.sin(n)) for n in range(6))
        found = fill(points, target="line", outline=LAWN, holes=(bed,))
        assert found.area_m2 == pytest.approx(280 - abs(signed_area(bed)), rel=1e-9)
        assert found.volume_m3 == pytest.approx(found.area_m2 * 0.025, rel=1e-9)

    def test_two_lawns_are_one_survey(self) -> None:
        """Two outlines with a gap between them."""
        right = tuple((x + 12, y) for x, y in rectangle(8, 14))
        found = fill(
            grid(20, 14, 11, 8, lambda x, y: 0 * x - 10.0),
            target="line",
            outline=(rectangle(9, 14), right),
        )
        assert found.area_m2 == pytest.approx(17 * 14)
        assert found.volume_m3 == pytest.approx(17 * 14 * 0.010)


class TestNothingToDo:
    """Even ground needs no material, however it slopes."""

    @pytest.mark.full
    @pytest.mark.parametrize("target", ["own_fall", "plane", "fill_only"])
    @pytest.mark.parametrize("settings", [EXACT, BOOK_LIKE])
    def test_a_plane_that_falls_two_percent(self, target: Target, settings: SurveySettings) -> None:
        """Grid or scattered, with the outline running on beyond the points."""
        beyond = (((-1.0, -1.0), (21.0, -1.0), (21.0, 15.0), (-1.0, 15.0)),)
        for points in (grid(20, 14, 9, 7, slope(-2)), scattered(20, 14, 300, slope(-1.2, 1.6), 1)):
            found = fill(points, settings, target=target, outline=beyond)
            assert (found.volume_m3, found.passes, found.stakes) == (0.0, (), ())
            assert "no material is needed" in " ".join(all_told(found.notes))

    def test_noise_alone_stays_within_its_own_band(self) -> None:
        """What errors of reading put on a plane is told as such: the band reaches down to
        nought.
        """
        random_ = np.random.default_rng(2)
        points = grid(20, 14, 15, 11, lambda x, y: -20 * x + random_.normal(0, 3, x.shape))
        found = fill(points, BOOK_LIKE)
        assert found.low_m3 < 0.02 * found.high_m3


TURNS = list(product(("own_fall", "plane", "fill_only"), (0.3, 1.3, 2.9, 4.4)))


class TestMetamorphic:
    """What the answer may not depend on."""

    GROUND = staticmethod(added(slope(-2, 0.7), bowl(6, 5, 1.7, 34), bowl(14, 9, 2.0, 26)))

    @pytest.mark.full
    @pytest.mark.parametrize(("target", "angle"), sampled_pairs(TURNS, *TURNS[::5]))
    def test_turning_and_moving_the_survey(self, target: Target, angle: float) -> None:
        """The same lawn from another corner of the world."""
        points = scattered(20, 14, 220, self.GROUND, 4)
        ring = tuple((x + 300, y - 70) for x, y in (rotated(p, angle) for p in LAWN[0]))
        here = fill(points, BOOK_LIKE, target=target, outline=LAWN)
        there = fill(moved(points, angle, 300, -70), BOOK_LIKE, target=target, outline=(ring,))
        assert there.volume_m3 == pytest.approx(here.volume_m3, rel=1e-9)
        assert (there.low_m3, there.high_m3) == pytest.approx((here.low_m3, here.high_m3), rel=1e-9)
        assert [s.depth_mm for s in there.stakes] == pytest.approx(
            [s.depth_mm for s in here.stakes]
        )
        for mine, theirs in zip(here.stakes, there.stakes, strict=True):
            x, y = rotated((mine.x_m, mine.y_m), angle)
            assert (theirs.x_m, theirs.y_m) == pytest.approx((x + 300, y - 70))

    @pytest.mark.full
    def test_raising_the_datum(self) -> None:
        """Heights above the sea or above the doorstep."""
        points = scattered(20, 14, 220, self.GROUND, 4)
        high = tuple(replace(p, height_mm=(p.height_mm or 0.0) + 1e5) for p in points)
        assert fill(high).volume_m3 == pytest.approx(fill(points).volume_m3, rel=1e-6)

    @pytest.mark.full
    def test_the_order_of_the_points(self) -> None:
        """Walked in rows or in circles."""
        points = list(scattered(20, 14, 220, self.GROUND, 4))
        before = fill(tuple(points)).volume_m3
        random.Random(1).shuffle(points)
        assert fill(tuple(points)).volume_m3 == pytest.approx(before, rel=1e-9)

    @pytest.mark.full
    @pytest.mark.parametrize(
        ("target", "reach"), [("own_fall", 5.0 + 1.5), ("fill_only", 3.0 + 1.5)]
    )
    def test_raising_one_stake_changes_its_neighbourhood_alone(
        self, target: Target, reach: float
    ) -> None:
        """Beyond the span (or the straightedge) and one triangle nothing moves."""
        points = list(grid(30, 20, 31, 21, self.GROUND))
        at = 31 * 9 + 14
        raised = replace(points[at], height_mm=(points[at].height_mm or 0.0) + 25.0)
        before = fill(tuple(points), target=target).grid
        after = fill((*points[:at], raised, *points[at + 1 :]), target=target).grid
        assert before is not None and after is not None
        near = far = 0
        for n, (a, b) in enumerate(zip(before.fill_mm, after.fill_mm, strict=True)):
            row, column = divmod(n, before.columns)
            away = math.hypot(
                before.x_m + column * before.width_m - raised.x_m,
                before.y_m + row * before.depth_m - raised.y_m,
            )
            if a != b:
                near += 1
                assert away <= reach
            else:
                far += 1
        assert near > 10 and far > 10

    @pytest.mark.full
    def test_us_and_metric_are_one_survey(self) -> None:
        """Only the words differ."""
        points = scattered(20, 14, 220, self.GROUND, 4)
        found = fill(points, BOOK_LIKE)
        assert any("yd³" in note for note in all_told(found.notes, System.US))
        assert any("m³" in note for note in all_told(found.notes, System.METRIC))


class TestBadSurveys:
    """A clear answer to each."""

    @pytest.mark.parametrize(
        ("points", "words"),
        [
            (points_at([0], [0], [0]), "needs three points or more"),
            (points_at([0, 1], [0, 1], [0, 1]), "needs three points or more"),
            (points_at([0, 1, 2], [0, 1, 2], [0, 5, 1]), "lie in one line"),
            (points_at([0, 5, 0, 5], [0, 0, 5, math.nan], [0, 5, 1, 2]), "P4: is not a number"),
            (points_at([0, 5, 0, 5], [0, 0, 5, 5], [0, 5, math.inf, 2]), "P3: is not a number"),
            (
                points_at([0, 5, 0, 0], [0, 0, 5, 0], [0, 5, 1, 200]),
                "P1 and P4: stand on the same spot",
            ),
            (
                (SurveyPoint(0, 0, None, "wall 1", "wall"),),
                "wall 1: a point of wall needs a height",
            ),
        ],
    )
    def test_points_that_make_no_surface(self, points: tuple[SurveyPoint, ...], words: str) -> None:
        """Too few, in line, not numbers, or contradicting each other: named."""
        with refused(words):
            fill(points)

    @pytest.mark.parametrize(
        ("ring", "words"),
        [
            (((0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)), "outline 1: crosses itself"),
            (((0.0, 0.0), (9.0, 0.0), (0.0, 0.0)), "outline 1: encloses no area"),
        ],
    )
    def test_outlines_that_enclose_nothing(
        self, ring: tuple[tuple[float, float], ...], words: str
    ) -> None:
        """Crossing or flat."""
        with refused(words):
            fill(grid(10, 10, 5, 5, slope(1)), outline=(ring,))

    def test_a_hole_as_large_as_the_lawn(self) -> None:
        """Nothing is left to fill."""
        with refused("no lawn is left"):
            fill(
                grid(10, 10, 5, 5, slope(1)),
                outline=(rectangle(10, 10),),
                holes=(rectangle(10, 10),),
            )

    def test_readings_of_one_spot_that_agree_are_averaged(self) -> None:
        """And told."""
        points = (*grid(10, 10, 5, 5, slope(1)), SurveyPoint(0, 0, 4.0, "again"))
        found = fill(points, BOOK_LIKE)
        assert found.points == 25
        assert any("26 readings stand on 25 spots" in note for note in all_told(found.notes))

    def test_three_points_are_a_plane_and_little_more(self) -> None:
        """The answer says how little it is worth."""
        found = fill(points_at([0, 10, 0], [0, 0, 10], [0, 5, 9]), BOOK_LIKE)
        assert found.volume_m3 == 0.0
        assert any("3 points" in caution for caution in all_told(found.cautions))

    @full
    def test_fifty_thousand_points(self) -> None:
        """A scan is one survey like any other."""
        found = fill(scattered(60, 40, 50_000, added(slope(-2), bowl(30, 20, 2, 40)), 6))
        assert found.points == pytest.approx(50_004, rel=1e-3)
        assert found.volume_m3 == pytest.approx(bowl_m3(2, 40), rel=0.02)

    @pytest.mark.full
    def test_a_slip_is_named_and_kept(self) -> None:
        """One reading far from all around it; a hollow of several points is no slip."""
        points = list(grid(20, 14, 15, 11, added(slope(-2), bowl(12, 7, 3.2, 40))))
        points[33] = replace(points[33], height_mm=(points[33].height_mm or 0.0) - 120.0)
        found = fill(tuple(points), BOOK_LIKE)
        assert [o.name for o in found.outliers] == [points[33].name]
        assert any(str(points[33].name) in c and "kept" in c for c in all_told(found.cautions))
        assert found.volume_m3 > bowl_m3(3.2, 40)

    @pytest.mark.full
    def test_points_too_far_apart_are_said_to_be(self) -> None:
        """Hollows between them are unseen."""
        assert self.unseen(fill(grid(40, 30, 9, 7, slope(-2)), BOOK_LIKE))
        assert not self.unseen(fill(grid(20, 14, 15, 11, slope(-2)), BOOK_LIKE))

    def unseen(self, found: FillResult) -> bool:
        """Whether hollows that no point met are spoken of."""
        return any("unseen" in caution for caution in all_told(found.cautions))

    @pytest.mark.full
    def test_ground_outside_of_the_points_is_told(self) -> None:
        """The share of the lawn that no point surrounds."""
        outline = (((-4.0, 0.0), (20.0, 0.0), (20.0, 14.0), (-4.0, 14.0)),)
        assert any(
            "17% of the lawn lies outside" in c
            for c in all_told(fill(grid(20, 14, 9, 7, slope(1)), outline=outline).cautions)
        )
