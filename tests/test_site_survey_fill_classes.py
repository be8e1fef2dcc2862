"""Classes, passes, zones, stakes and the order."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from lawn_surveys import BOOK_LIKE, added, bowl, bowl_m3, grid, points_at, rectangle, slope
from told import all_told, told
from turfplan.site.survey.fill_classes import (
    ZoneCells,
    classes_of,
    layers,
    pass_depths,
    passes_at,
    zone_fill,
)
from turfplan.site.survey.records import FillResult, SurveySettings, ZoneOutline
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import System

pytest.importorskip("scipy")
LAWN = (rectangle(20, 14),)
FINE = replace(BOOK_LIKE, instrument_error_mm=0.5, outline=LAWN)
GROUND = added(slope(-2), bowl(5, 7, 2.2, 28), bowl(14, 8, 2.0, 70))


@cache
def with_two_hollows() -> FillResult:
    """The lawn read at every quarter of a metre."""
    return fill_from_survey(grid(20, 14, 81, 57, GROUND), FINE)


@pytest.mark.parametrize(
    ("depth", "passes"),
    [(0.0, 0), (3.0, 0), (3.1, 1), (10.0, 1), (10.1, 2), (50.8, 6), (51.0, None)],
)
def test_passes_by_depth(depth: float, passes: int | None) -> None:
    """Left alone up to the least fill, as many as the cap asks for, lifted beyond the limit."""
    assert passes_at(depth, BOOK_LIKE) == passes


def test_layers_are_alike_within_the_cap_and_add_up() -> None:
    """22 mm under a cap of 10: three of 7.3."""
    assert pass_depths(22.0, BOOK_LIKE) == pytest.approx((22 / 3,) * 3)
    depth, area = np.array([2.0, 9.0, 22.0]), np.array([5.0, 4.0, 1.0])
    found = layers(depth, area, pass_depths(22.0, BOOK_LIKE))
    assert sum(p.volume_m3 for p in found) == pytest.approx(float((depth * area).sum()) / 1000)
    assert [p.area_m2 for p in found] == [10.0, 5.0, 1.0]
    assert all(p.depth_mm <= BOOK_LIKE.cap_mm for p in found)


CELL_DEPTHS = np.array([0.0, 3.0, 3.1, 10.0, 10.1, 50.8, 51.0, 70.0])
CELL_AREAS = np.array([4.0, 1.0, 2.0, 0.5, 0.25, 0.75, 0.1, 0.3])


def test_each_cell_is_of_the_class_of_its_depth() -> None:
    """Borders belong to the class below; by hand, with area, share, mean and volume."""
    found = {c.letter: c for c in classes_of(CELL_DEPTHS, CELL_AREAS, BOOK_LIKE)}
    assert {letter: c.area_m2 for letter, c in found.items()} == pytest.approx(
        {"·": 5.0, "1": 2.5, "2": 0.25, "6": 0.75, "L": 0.4}
    )
    assert [found[letter].passes for letter in "·126L"] == [0, 1, 2, 6, None]
    one, lifted = found["1"], found["L"]
    assert (one.low_mm, one.high_mm, one.share) == pytest.approx((3.0, 10.0, 2.5 / 8.9))
    assert one.volume_m3 == pytest.approx((2 * 3.1 + 0.5 * 10) / 1000)
    assert one.mean_mm == pytest.approx((2 * 3.1 + 0.5 * 10) / 2.5)
    assert (lifted.low_mm, lifted.high_mm) == (50.8, 70.0)
    assert (found["6"].low_mm, found["6"].high_mm) == (50.0, 50.8)
    assert (found["·"].low_mm, found["·"].high_mm) == (0.0, 3.0)


def test_a_lawn_without_fill_is_one_class() -> None:
    """And one that is filled throughout has none of nothing."""
    (none,) = classes_of(np.zeros(3), np.ones(3), BOOK_LIKE)
    assert (none.letter, none.area_m2, none.mean_mm, none.volume_m3) == ("·", 3.0, 0.0, 0.0)
    (one,) = classes_of(np.full(3, 8.0), np.ones(3), BOOK_LIKE)
    assert (one.letter, one.share) == ("1", 1.0)


@pytest.mark.parametrize(
    ("depth", "layers_mm"),
    [
        (0.0, ()),
        (3.0, ()),
        (8.0, (8.0,)),
        (10.0, (10.0,)),
        (22.0, (22 / 3,) * 3),
        (50.8, (50.8 / 6,) * 6),
        (70.0, (50.8 / 6,) * 6),
    ],
)
def test_passes_are_as_few_as_the_cap_allows(depth: float, layers_mm: tuple[float, ...]) -> None:
    """All alike, and no deeper together than the limit."""
    assert pass_depths(depth, BOOK_LIKE) == pytest.approx(layers_mm)


def test_a_hair_over_a_border_is_the_border() -> None:
    """A billionth of a millimetre lifts no turf and takes no pass more."""
    assert passes_at(50.8 + 1e-10, BOOK_LIKE) == 6 and passes_at(10.0 + 1e-10, BOOK_LIKE) == 1
    assert passes_at(0.0, replace(BOOK_LIKE, least_mm=-1.0)) == 0
    assert passes_at(0.1, replace(BOOK_LIKE, least_mm=0.0)) == 1


def test_passes_lie_one_upon_the_other() -> None:
    """Of 4, 6 and 5 mm: by hand, what each takes where something is still missing."""
    depth, area = np.array([3.0, 9.0, 15.0]), np.array([5.0, 4.0, 2.0])
    first, second, third = layers(depth, area, (4.0, 6.0, 5.0))
    assert [p.number for p in (first, second, third)] == [1, 2, 3]
    assert [p.depth_mm for p in (first, second, third)] == [4.0, 6.0, 5.0]
    assert [p.area_m2 for p in (first, second, third)] == [11.0, 6.0, 2.0]
    assert first.volume_m3 == pytest.approx((5 * 3 + 4 * 4 + 2 * 4) / 1000)
    assert second.volume_m3 == pytest.approx((4 * 5 + 2 * 6) / 1000)
    assert third.volume_m3 == pytest.approx(2 * 5 / 1000)


def test_a_zone_is_filled_and_lifted_by_its_cells() -> None:
    """What is deeper than the limit is lifted, what is shallow left alone, and both are in the
    volume.
    """
    cells = ZoneCells("front", np.array([2.0, 9.0, 60.0]), np.array([5.0, 4.0, 1.0]), "rye", "full")
    found = zone_fill(cells, 40.0, BOOK_LIKE)
    assert (found.name, found.grass, found.sun) == ("front", "rye", "full")
    assert (found.area_m2, found.share, found.deepest_mm) == (10.0, 0.25, 60.0)
    assert found.volume_m3 == pytest.approx((10 + 36 + 60) / 1000)
    assert found.mean_mm == pytest.approx(10.6)
    assert (found.lift_m2, found.lift_m3) == pytest.approx((1.0, 0.06))
    (layer,) = found.passes
    assert (layer.depth_mm, layer.area_m2, layer.volume_m3) == pytest.approx((9.0, 4.0, 0.036))
    none = zone_fill(ZoneCells("none", np.zeros(0), np.zeros(0)), 40.0, BOOK_LIKE)
    assert (none.area_m2, none.mean_mm, none.deepest_mm, none.passes) == (0.0, 0.0, 0.0, ())
    assert (none.grass, none.sun) == (None, None)


@pytest.mark.full
def test_classes_share_out_the_lawn() -> None:
    """Their areas add up to it, their volumes to the fill; the deep hollow is lifted."""
    found = with_two_hollows()
    assert sum(c.area_m2 for c in found.classes) == pytest.approx(280.0)
    assert sum(c.share for c in found.classes) == pytest.approx(1.0)
    assert sum(c.volume_m3 for c in found.classes) == pytest.approx(found.volume_m3)
    assert [c.letter for c in found.classes] == ["·", "1", "2", "3", "4", "5", "6", "L"]
    # From the least fill to the limit each class begins where the one before ends.
    bounds = [0.0, 3.0, 10.0, 20.0, 30.0, 40.0, 50.0, 50.8]
    assert [c.low_mm for c in found.classes] == pytest.approx(bounds)
    assert [c.high_mm for c in found.classes[:-1]] == pytest.approx(bounds[1:])
    assert all(c.low_mm <= c.mean_mm <= c.high_mm for c in found.classes)
    lifted = found.classes[-1]
    # Deeper than 50.8 of 70 mm: a paraboloid of its own, inside the radius where the depth is 50.8.
    assert lifted.area_m2 == pytest.approx(math.pi * 4 * (1 - 50.8 / 70), rel=0.05)
    assert any("the turf is lifted" in c for c in all_told(found.cautions, System.METRIC))


@pytest.mark.full
def test_passes_take_everything_but_what_is_lifted() -> None:
    """Volumes of passes and of lifting add up to the fill, zone by zone."""
    zones = (
        ZoneOutline("left", rectangle(10, 14)),
        ZoneOutline("right", tuple((x + 10, y) for x, y in rectangle(10, 14))),
    )
    found = fill_from_survey(grid(20, 14, 81, 57, GROUND), replace(FINE, zones=zones))
    assert [zone.name for zone in found.zones] == ["left", "right"]
    for zone in found.zones:
        assert sum(p.volume_m3 for p in zone.passes) + zone.lift_m3 == pytest.approx(
            zone.volume_m3, rel=1e-9
        )
    left, right = found.zones
    assert left.volume_m3 == pytest.approx(bowl_m3(2.2, 28), rel=0.03)
    assert (left.lift_m2, len(left.passes)) == (0.0, 3)
    assert right.lift_m3 > 0
    assert sum(p.volume_m3 for p in found.passes) == pytest.approx(
        sum(p.volume_m3 for z in found.zones for p in z.passes)
    )
    assert len(found.passes) == max(len(left.passes), len(right.passes))


@pytest.mark.full
def test_zones_named_by_points_take_the_ground_nearest_to_them() -> None:
    """Without drawn outlines."""
    points = tuple(
        replace(p, zone="shade" if p.x_m < 10 else "sun") for p in grid(20, 14, 21, 15, GROUND)
    )
    found = fill_from_survey(points, FINE)
    assert {zone.name: zone.area_m2 for zone in found.zones} == pytest.approx(
        {"shade": 133.0, "sun": 147.0}, rel=0.02
    )


@pytest.mark.full
def test_a_zone_keeps_its_grass_and_sun() -> None:
    """They are handed through for the planner."""
    zone = ZoneOutline("under the maple", rectangle(10, 14), "fine_fescue", "shade")
    found = fill_from_survey(grid(20, 14, 21, 15, GROUND), replace(FINE, zones=(zone,)))
    assert [(told(z.name), z.grass, z.sun) for z in found.zones] == [
        ("under the maple", "fine_fescue", "shade"),
        ("lawn", None, None),
    ]


@pytest.mark.full
def test_stakes_stand_in_the_deepest_spots_first() -> None:
    """Each hollow has its letter by depth, and its first stake at its bottom."""
    found = with_two_hollows()
    first, second = (next(s for s in found.stakes if s.sign == sign) for sign in ("A1", "B1"))
    assert (first.x_m, first.y_m) == pytest.approx((14, 8), abs=0.3)
    assert first.depth_mm == pytest.approx(70, abs=3) and first.passes is None
    assert (second.x_m, second.y_m) == pytest.approx((5, 7), abs=0.3)
    assert second.passes == 3


@pytest.mark.full
def test_wide_hollows_have_more_stakes_apart_from_each_other() -> None:
    """A trough along the lawn."""
    trough = added(
        slope(0, -2), lambda x, y: -30.0 * np.clip(1 - (np.abs(y - 7) / 1.5) ** 2, 0, None)
    )
    found = fill_from_survey(grid(20, 14, 81, 57, trough), FINE)
    stakes = [s for s in found.stakes if s.sign.startswith("A")]
    assert len(stakes) >= 5
    gaps = [
        math.hypot(a.x_m - b.x_m, a.y_m - b.y_m) for n, a in enumerate(stakes) for b in stakes[:n]
    ]
    assert min(gaps) >= FINE.stake_spacing_m - 0.5


@pytest.mark.full
def test_the_order_allows_for_settling_and_a_reserve() -> None:
    """Low, best and high, and a tenth of the lawn an eighth of an inch deep."""
    found = fill_from_survey(grid(20, 14, 41, 29, GROUND), FINE)
    reserve = 280 * 0.1 * 0.003175 * 1.1
    assert found.order.touch_up_m3 == pytest.approx(reserve)
    assert found.order.low_m3 == pytest.approx(found.low_m3 + reserve)
    assert found.order.best_m3 == pytest.approx(found.volume_m3 * 1.1 + reserve)
    assert found.order.high_m3 == pytest.approx(found.high_m3 * 1.2 + reserve)


def test_nothing_to_fill_is_nothing_to_order() -> None:
    """Not even a reserve."""
    found = fill_from_survey(grid(20, 14, 21, 15, slope(-3)), FINE)
    assert (found.order.best_m3, found.order.touch_up_m3) == (0.0, 0.0)


@pytest.mark.full
def test_the_grid_lies_as_the_survey_does() -> None:
    """Its first cell is the lower left one, also of a lawn that is higher than wide, and of one
    that lies askew.
    """
    for ring, corner in (((rectangle(20, 14)), (3.0, 11.0)), (rectangle(9, 20), (2.0, 17.0))):
        xs, ys = max(x for x, _ in ring), max(y for _, y in ring)
        points = grid(xs, ys, 37, 41, bowl(*corner, 1.2, 30))
        grid_ = fill_from_survey(points, replace(FINE, outline=(ring,))).grid
        assert grid_ is not None and abs(grid_.angle) < 1e-9
        deepest = max(range(len(grid_.fill_mm)), key=lambda n: grid_.fill_mm[n] or 0.0)
        row, column = divmod(deepest, grid_.columns)
        here = (grid_.x_m + column * grid_.width_m, grid_.y_m + row * grid_.depth_m)
        assert here == pytest.approx(corner, abs=0.5)
        assert len(grid_.fill_mm) == grid_.rows * grid_.columns


def test_an_askew_lawn_has_an_askew_grid() -> None:
    """Within 45 degrees of the survey's axes, cells beside the lawn empty."""
    ring = tuple(
        (x * math.cos(0.5) - y * math.sin(0.5), x * math.sin(0.5) + y * math.cos(0.5))
        for x, y in rectangle(20, 12)
    )
    xs, ys = zip(*ring, strict=True)
    points = points_at([*xs, 5.0], [*ys, 8.0], [0.0, 0.0, 0.0, 0.0, -20.0])
    grid_ = fill_from_survey(points, replace(FINE, outline=(ring,))).grid
    assert grid_ is not None
    assert grid_.angle == pytest.approx(0.5)
    assert (grid_.columns > grid_.rows) and all(v is not None for v in grid_.ground_mm)


def test_settings_are_frozen() -> None:
    """A survey is judged by one set of settings."""
    with pytest.raises(AttributeError):
        SurveySettings(10.0, 50.0).cap_mm = 3.0  # type: ignore[misc]
