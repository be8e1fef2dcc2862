"""Areas of drawn lawns, by simple shapes with the standard library alone."""

import math
import random
import subprocess
import sys
from decimal import Decimal, localcontext

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from told import told
from told_errors import refused
from turfplan.errors import TurfplanError
from turfplan.message import Message
from turfplan.records.brief import Shape
from turfplan.site.outlines.polygons import Ring, crossing_sides, signed_area
from turfplan.site.outlines.shapes import (
    area_of_shape,
    area_of_shapes,
    heron_area,
    holds,
    is_placed,
    overlap,
    ring_of_m,
    spans,
    zones_of_shapes,
)
from turfplan.site.survey.cells import hull, least_box, rotated
from turfplan.units import SQUARE_FOOT_M2


def shape(**keys: object) -> Shape:
    """A shape as a brief writes it."""
    return Shape.model_validate(keys)


def polygon(*corners: tuple[float, float], **keys: object) -> Shape:
    """A polygon with corners in m."""
    return shape(kind="polygon", points=[[f"{x} m", f"{y} m"] for x, y in corners], **keys)


@pytest.mark.parametrize(
    ("drawn", "area_m2"),
    [
        ({"kind": "rectangle", "length": "60 ft", "width": "70 ft"}, 4200 * SQUARE_FOOT_M2),
        ({"kind": "circle", "radius": "2 m"}, math.pi * 4),
        ({"kind": "circle", "diameter": "4 m"}, math.pi * 4),
        ({"kind": "triangle", "base": "8 m", "height": "3 m"}, 12.0),
        ({"kind": "triangle", "a": "3 m", "b": "4 m", "c": "5 m"}, 6.0),
        (
            {"kind": "polygon", "points": [["0 ft", "0 ft"], ["10 ft", "0 ft"], ["10 ft", "5 ft"]]},
            25 * SQUARE_FOOT_M2,
        ),
    ],
)
def test_each_shape_has_its_area(drawn: dict[str, object], area_m2: float) -> None:
    """Rectangle, circle, triangle and polygon by their formulas."""
    assert area_of_shapes([shape(**drawn)]) == pytest.approx(area_m2, rel=1e-12)


def test_holes_are_taken_out_and_shapes_added() -> None:
    """A lawn of two pieces with a bed and a tree."""
    lawn = [
        shape(kind="rectangle", length="20 m", width="10 m"),
        shape(kind="triangle", base="6 m", height="4 m"),
        shape(kind="circle", radius="1 m", hole=True),
        shape(kind="rectangle", length="3 m", width="2 m", hole=True),
    ]
    assert area_of_shapes(lawn) == pytest.approx(200 + 12 - math.pi - 6)


def test_zones_have_their_own_area_depth_grass_and_sun() -> None:
    """A placed hole belongs to the zone around it, another to all; shares add up to one."""
    lawn = [
        polygon((0, 0), (10, 0), (10, 10), (0, 10), name="front", depth="12 mm", sun="full"),
        polygon((20, 0), (30, 0), (30, 20), (20, 20), name="back", grass="fine_fescue"),
        shape(kind="circle", radius="2 m", hole=True, at=["5 m", "5 m"]),
        shape(kind="rectangle", length="3 m", width="2 m", hole=True),
    ]
    front, back = zones_of_shapes(lawn)
    assert (told(front.name), front.depth_mm, front.sun, back.grass) == (
        "front",
        12.0,
        "full",
        "fine_fescue",
    )
    whole = 300 - 4 * math.pi
    assert front.area_m2 == pytest.approx((100 - 4 * math.pi) * (1 - 6 / whole))
    assert front.area_m2 + back.area_m2 == pytest.approx(area_of_shapes(lawn))
    assert front.share + back.share == pytest.approx(1.0)
    assert told(zones_of_shapes([shape(kind="circle", radius="2 m")])[0].name) == "zone 1"


@pytest.mark.full
@pytest.mark.parametrize(
    ("lawn", "words"),
    [
        ([polygon((0, 0), (2, 2), (2, 0), (0, 2))], "crosses itself"),
        ([polygon((0, 0), (2, 0), (4, 0), (1, 0))], "crosses itself"),
        ([polygon((0, 0), (1, 0), (2, 0))], "enclose no area"),
        ([polygon((0, 0), (1, 0), (0, 0))], "fewer than three different corners"),
        ([shape(kind="triangle", a="1 m", b="1 m", c="3 m")], "do not meet in a triangle"),
        (
            [polygon((0, 0), (9, 0), (9, 9)), polygon((3, 1), (12, 1), (12, 4))],
            "overlaps another shape",
        ),
        (
            [polygon((0, 0), (9, 0), (9, 9), (0, 9)), polygon((0, 0), (9, 0), (9, 9), (0, 9))],
            "overlaps another shape",
        ),
        (
            [
                polygon((0, 0), (9, 0), (9, 9)),
                shape(kind="circle", radius="1 m", hole=True, at=["1 m", "5 m"]),
            ],
            "does not lie inside",
        ),
        (
            [
                shape(kind="rectangle", length="2 m", width="2 m"),
                shape(kind="circle", radius="3 m", hole=True),
            ],
            "no lawn is left",
        ),
    ],
)
def test_each_fault_of_a_drawing_is_told(lawn: list[Shape], words: str) -> None:
    """Crossing, flat, impossible, overlapping and misplaced shapes are errors that say so."""
    with refused(words):
        area_of_shapes(lawn)


def test_all_faults_are_told_at_once() -> None:
    """Two bad shapes, two problems."""
    bad = [
        polygon((0, 0), (2, 2), (2, 0), (0, 2)),
        shape(kind="triangle", a="1 m", b="1 m", c="3 m"),
    ]
    with pytest.raises(TurfplanError) as caught:
        area_of_shapes(bad)
    assert [p.where for p in caught.value.problems] == ["lawn.shape.1", "lawn.shape.2"]


@pytest.mark.full
@pytest.mark.parametrize(
    "keys",
    [
        {"kind": "circle", "radius": "1 m", "diameter": "2 m"},
        {"kind": "circle"},
        {"kind": "triangle", "base": "2 m"},
        {"kind": "triangle", "a": "2 m", "b": "2 m"},
        {"kind": "rectangle", "length": "2 m", "radius": "2 m"},
        {"kind": "circle", "radius": "1 m", "hole": True, "depth": "5 mm"},
    ],
)
def test_a_shape_needs_its_own_sides_and_no_others(keys: dict[str, object]) -> None:
    """Missing or foreign sides are refused by the brief."""
    with pytest.raises(ValidationError):
        shape(**keys)


def test_thin_triangles_keep_their_digits() -> None:
    """A needle, against the same formula in fifty digits."""
    a, b, c = 100_000.0, 99_999.99979, 0.00029
    with localcontext() as context:
        context.prec = 50
        x, y, z = Decimal(a), Decimal(b), Decimal(c)
        half = (x + y + z) / 2
        true = float((half * (half - x) * (half - y) * (half - z)).sqrt())
    assert heron_area(a, b, c) == pytest.approx(true, rel=1e-12)
    assert heron_area(3, 4, 5) == 6


def test_a_drawn_circle_has_the_area_of_the_circle() -> None:
    """Its corners lie a little outside, so that nothing is lost."""
    ring = ring_of_m(shape(kind="circle", radius="3 m", at=["5 m", "5 m"]))
    assert signed_area(ring) == pytest.approx(math.pi * 9, rel=1e-12)


def box(x: float, y: float, length: float, width: float) -> Ring:
    """A rectangle with its left corner below at a place."""
    return ((x, y), (x + length, y), (x + length, y + width), (x, y + width))


def test_a_triangle_by_its_sides_lies_on_its_first() -> None:
    """13, 14 and 15 m: the corner above lies 9 m along the side of 14 where the third meets it,
    12 m high; a flat right one as well.
    """
    placed = shape(kind="triangle", a="14 m", b="13 m", c="15 m", at=("1 m", "2 m"))
    assert np.array(ring_of_m(placed)) == pytest.approx(
        np.array([(1.0, 2.0), (15.0, 2.0), (10.0, 14.0)])
    )
    right = shape(kind="triangle", a="4 m", b="5 m", c="3 m")
    assert np.array(ring_of_m(right)) == pytest.approx(
        np.array([(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)])
    )
    assert area_of_shape(placed) == pytest.approx(84.0)


def test_a_circle_by_its_diameter_is_drawn_as_by_its_radius() -> None:
    """Ninety-six corners, the first due east."""
    ring = ring_of_m(shape(kind="circle", diameter="6 m", at=["1 m", "2 m"]))
    assert ring == ring_of_m(shape(kind="circle", radius="3 m", at=["1 m", "2 m"]))
    assert len(ring) == 96 and ring[0][1] == 2.0 and 4.0 < ring[0][0] < 4.01
    assert signed_area(ring) == pytest.approx(9 * math.pi)


def test_what_is_placed_is_a_polygon_or_has_a_place() -> None:
    """Even at the origin."""
    assert is_placed(polygon((0, 0), (1, 0), (0, 1)))
    assert is_placed(shape(kind="circle", radius="1 m", at=["0 m", "0 m"]))
    assert not is_placed(shape(kind="circle", radius="1 m"))


ELL = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0))
FORK = (
    (0.0, 0.0),
    (6.0, 0.0),
    (6.0, 4.0),
    (4.0, 4.0),
    (4.0, 2.0),
    (2.0, 2.0),
    (2.0, 4.0),
    (0.0, 4.0),
)


def test_a_level_line_lies_inside_in_stretches() -> None:
    """Between the prongs of a fork it does not; along slanted sides where they are met."""
    assert spans(FORK, 1.0) == [(0.0, 6.0)]
    assert spans(FORK, 3.0) == [(0.0, 2.0), (4.0, 6.0)]
    assert spans(FORK, 5.0) == []
    assert spans(((0.0, 0.0), (8.0, 4.0), (0.0, 8.0)), 1.0) == [(0.0, 2.0)]
    assert spans(((1.0, 0.0), (9.0, 4.0), (1.0, 8.0)), 6.0) == [(1.0, 5.0)]


@pytest.mark.parametrize(
    ("second", "overlaps", "inside"),
    [
        (box(1, 1, 3, 0.5), True, True),
        (box(0, 0, 2, 6), True, True),
        (box(3, 3, 2, 2), False, False),
        (box(2, 2, 4, 4), False, False),
        (box(1.9, 2, 4, 4), True, False),
        (box(6, 0, 2, 2), False, False),
        (box(-1, -1, 9, 9), True, False),
        (box(1, 1, 3, 3), True, False),
        (ELL, True, True),
        (box(0, 6, 2, 2), False, False),
        (box(0, 5.9, 2, 2), True, False),
    ],
)
def test_outlines_overlap_and_hold_each_other(
    second: Ring, *, overlaps: bool, inside: bool
) -> None:
    """Inside the angle of an outline is beside it; sharing sides is lying within and no overlap."""
    assert overlap(ELL, second) == overlaps == overlap(second, ELL)
    assert holds(ELL, second) == inside


def test_a_millionth_of_its_reach_is_touching() -> None:
    """For an outline of ten metres a hundredth of a millimetre."""
    ten = box(0, 0, 10, 10)
    assert holds(ten, box(-9e-6, 0, 5, 10)) and not holds(ten, box(-2e-5, 0, 5, 10))
    assert holds(ten, box(5, 0, 5 + 9e-6, 10)) and not holds(ten, box(5, 0, 5 + 2e-5, 10))
    assert not overlap(ten, box(10 - 9e-6, 0, 3, 10)) and overlap(ten, box(10 - 2e-5, 0, 3, 10))


def faults(*lawn: Shape) -> list[tuple[str, str]]:
    """Where each fault of a drawing lies, and what was got."""
    with pytest.raises(TurfplanError) as caught:
        area_of_shapes(lawn)
    return [(str(p.where), str(p.got)) for p in caught.value.problems]


def test_faults_are_told_by_the_number_of_their_shape() -> None:
    """Overlaps by both; holes that overlap, and holes beside the lawn; shapes without a place do
    not count.
    """
    left = polygon((0, 0), (9, 0), (9, 9), (0, 9))
    over = polygon((5, 5), (12, 5), (12, 12), (5, 12))
    loose = shape(kind="rectangle", length="3 m", width="2 m")
    assert faults(loose, left, over) == [("lawn.shape.3", "lawn.shape.2")]
    first, second = (
        shape(kind="rectangle", length="2 m", width="2 m", hole=True, at=[x, "1 m"])
        for x in ("1 m", "2 m")
    )
    assert faults(left, first, second) == [("lawn.shape.3", "lawn.shape.2")]
    away = shape(kind="circle", radius="1 m", hole=True, at=["30 m", "1 m"])
    assert faults(left, away) == [("lawn.shape.2", "None")]
    # Where a part of the lawn has no place, a hole may lie in it.
    assert area_of_shapes([left, loose, away]) == pytest.approx(81 + 6 - math.pi)


def test_a_drawing_without_lawn_is_told_with_what_is_left() -> None:
    """Exactly nothing, and less."""
    lawn = shape(kind="rectangle", length="2 m", width="2 m")
    hole = shape(kind="rectangle", length="4 m", width="1 m", hole=True)
    larger = shape(kind="rectangle", length="4 m", width="2 m", hole=True)
    assert faults(lawn, hole) == [("lawn.shape", "0.0 m2")]
    assert faults(lawn, larger) == [("lawn.shape", "-4.0 m2")]


@pytest.mark.parametrize(("longest", "flat"), [("7 m", True), ("6.9 m", False), ("8 m", True)])
def test_sides_meet_in_a_triangle_where_two_are_longer_than_the_third(
    longest: str, *, flat: bool
) -> None:
    """Three and four metres; whichever comes first."""
    for sides in (("3 m", "4 m", longest), (longest, "3 m", "4 m")):
        one = shape(kind="triangle", **dict(zip("abc", sides, strict=True)))
        if flat:
            assert faults(one) == [("lawn.shape.1", "None")]
        else:
            assert area_of_shapes([one]) > 0


def test_the_sides_that_cross_are_told() -> None:
    """The first and the third."""
    with pytest.raises(TurfplanError) as caught:
        area_of_shapes([polygon((0, 0), (4, 4), (4, 0), (0, 4))])
    got = caught.value.problems[0].got
    assert isinstance(got, Message)
    assert dict(got.values) == {"first": 1, "second": 3}


def test_shares_of_zones_are_those_of_their_areas() -> None:
    """A placed hole in the second zone; one without a place is shared out by what is left."""
    lawn = [
        polygon((0, 0), (10, 0), (10, 10), (0, 10)),
        polygon((20, 0), (30, 0), (30, 20), (20, 20)),
        shape(kind="rectangle", length="5 m", width="4 m", hole=True, at=["22 m", "3 m"]),
        shape(kind="rectangle", length="7 m", width="2 m", hole=True),
    ]
    first, second = zones_of_shapes(lawn)
    assert (told(first.name), told(second.name)) == ("zone 1", "zone 2")
    assert (first.share, second.share) == pytest.approx((100 / 280, 180 / 280))
    assert (first.area_m2, second.area_m2) == pytest.approx((95.0, 171.0))
    plain = zones_of_shapes([shape(kind="rectangle", length="5 m", width="4 m")] * 2)
    assert [zone.share for zone in plain] == [0.5, 0.5]
    # A placed hole in no placed zone is shared out like one without a place.
    eight, two = (shape(kind="rectangle", length="10 m", width=w) for w in ("8 m", "2 m"))
    loose = [eight, two, lawn[2]]
    assert [zone.area_m2 for zone in zones_of_shapes(loose)] == pytest.approx([64.0, 16.0])


corners = st.lists(
    st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=3, max_size=12, unique=True
)


@pytest.mark.full
@given(corners, st.floats(0, 6.3), st.floats(-1e4, 1e4))
def test_area_does_not_change_when_a_lawn_is_moved(
    found: list[tuple[int, int]], angle: float, shift: float
) -> None:
    """Turned and shifted, a convex outline keeps its area."""
    ring = hull(np.array(found, dtype=float))
    if len(ring) < 3:
        return
    turned = tuple((x + shift, y - shift) for x, y in (rotated(p, angle) for p in ring))
    assert abs(signed_area(turned)) == pytest.approx(abs(signed_area(ring)), abs=1e-5)


def test_the_least_box_of_a_turned_rectangle_is_the_rectangle() -> None:
    """Whatever the angle."""
    for step in range(12):
        ring = [rotated(p, step * 0.27) for p in ((0.0, 0.0), (20.0, 0.0), (20.0, 7.0), (0.0, 7.0))]
        _, _, length, width = least_box(ring)
        assert (length, width) == pytest.approx((20.0, 7.0))


def test_touching_is_no_overlap() -> None:
    """Two lawns that share a side count once each."""
    left, right = (
        ((0.0, 0.0), (5.0, 0.0), (5.0, 5.0), (0.0, 5.0)),
        ((5.0, 0.0), (9.0, 0.0), (9.0, 5.0), (5.0, 5.0)),
    )
    assert not overlap(left, right)
    assert overlap(left, tuple((x - 0.1, y) for x, y in right))
    assert spans(left, 2.5) == [(0.0, 5.0)]


def test_star_shaped_outlines_are_simple() -> None:
    """Outlines with many corners in order of angle never cross."""
    chance = random.Random(5)
    for _ in range(50):
        turns = sorted(chance.uniform(0, 2 * math.pi) for _ in range(20))
        ring = [
            (r * math.cos(t), r * math.sin(t))
            for t, r in ((t, chance.uniform(1, 9)) for t in turns)
        ]
        if (
            max(b - a for a, b in zip(turns, [*turns[1:], turns[0] + 2 * math.pi], strict=True))
            < math.pi
        ):
            assert crossing_sides(ring) is None


@pytest.mark.full
def test_shapes_need_the_standard_library_alone() -> None:
    """Neither numpy nor geographiclib is imported for simple shapes, and a survey without them says
    what to install.
    """
    code = (
        "import sys\n"
        "for name in ('numpy', 'scipy', 'shapely', 'contourpy', 'geographiclib'): "
        "sys.modules[name] = None\n"
        "from turfplan.records.brief import Shape\n"
        "from turfplan.site.outlines.shapes import area_of_shapes\n"
        "from turfplan.site.survey.surveyed_fill import fill_from_survey\n"
        "from turfplan.site.survey.records import SurveySettings\n"
        "from turfplan.errors import MissingToolError\n"
        "from turfplan.files.reading.geojson import area_of_outlines, Outline\n"
        "print(area_of_shapes([Shape.model_validate({'kind': 'circle', 'radius': '1 m'})]))\n"
        "for work in (lambda: fill_from_survey((), SurveySettings(10.0, 50.0)), "
        "lambda: area_of_outlines((Outline(((0, 0), (1, 0), (1, 1)), ()),))):\n"
        "    try: work()\n"
        "    except MissingToolError as error: print(error.exit_code, error.problems[0].hint)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stdout.splitlines() == [str(math.pi), *['5 pip install "turfplan[survey]"'] * 2], (
        done.stderr
    )


def test_a_drawing_without_a_place_begins_at_the_origin() -> None:
    """With one there, in metres."""
    plain = shape(kind="rectangle", length="4 m", width="3 m")
    assert ring_of_m(plain) == ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    moved = shape(kind="rectangle", length="4 m", width="3 m", at=("1 m", "2 m"))
    assert ring_of_m(moved)[0] == (1.0, 2.0)


def test_a_drawn_shape_lies_where_it_was_placed() -> None:
    """Polygons by their own points, moved with them; triangles from their corner; a circle around
    its middle.
    """
    corners = ((0.0, 0.0), (4.0, 1.0), (2.0, 5.0))
    assert ring_of_m(polygon(*corners)) == corners
    assert ring_of_m(polygon(*corners, at=("10 m", "20 m"))) == tuple(
        (x + 10, y + 20) for x, y in corners
    )
    right = shape(kind="triangle", base="8 m", height="3 m", at=("1 m", "2 m"))
    assert ring_of_m(right) == ((1.0, 2.0), (9.0, 2.0), (1.0, 5.0))
    circle = ring_of_m(shape(kind="circle", radius="2 m", at=("5 m", "6 m")))
    away = [math.hypot(x - 5, y - 6) for x, y in circle]
    assert min(away) == pytest.approx(max(away)) and 2.0 < away[0] < 2.01
    assert sum(x for x, _ in circle) / len(circle) == pytest.approx(5.0)
