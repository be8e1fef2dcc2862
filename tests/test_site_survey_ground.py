"""Ground between and beyond the points."""

from dataclasses import replace

import numpy as np
import pytest

from lawn_surveys import EXACT, rectangle
from told_errors import refused
from turfplan.errors import TurfplanError
from turfplan.message import Message
from turfplan.phrases import survey as phrases
from turfplan.site.survey.cells import cells_of
from turfplan.site.survey.ground import _corner_shares, ground_of, mesh_to, spacing_m
from turfplan.site.survey.records import SurveyPoint

pytest.importorskip("scipy")
SQUARE = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (2.0, 2.0)])
HEIGHT = SQUARE @ np.array([10.0, 1.0])


def test_beyond_the_points_the_nearest_place_of_their_edge_holds() -> None:
    """Beside a side its foot, beyond a corner the corner; inside a plane is met."""
    places = np.array([(1.0, -1.0), (5.0, 3.0), (-3.0, -3.0), (6.0, 4.5), (1.0, 2.5)])
    mesh = mesh_to(SQUARE, places)
    assert mesh.matrix @ HEIGHT == pytest.approx([10.0, 43.0, 0.0, 44.0, 12.5])
    assert mesh.beyond.tolist() == [True, True, True, True, False]


def test_every_place_inside_has_the_height_of_the_plane() -> None:
    """At points, on sides and anywhere between them: none of these lies beyond."""
    random = np.random.default_rng(3)
    xy = np.vstack([SQUARE, random.uniform(0, 4, (40, 2))])
    inside = random.uniform(0, 4, (300, 2))
    sides = (SQUARE[:4] + np.roll(SQUARE[:4], 1, axis=0)) / 2
    middles = (xy[10:20] + xy[11:21]) / 2
    for places in (inside, xy, sides, middles):
        mesh = mesh_to(xy, places)
        assert not mesh.beyond.any()
        assert mesh.matrix @ (xy @ [10.0, 1.0]) == pytest.approx(places @ [10.0, 1.0], abs=1e-6)


def test_the_foot_on_a_long_edge_divides_it() -> None:
    """Beyond a side of 40 m, three tenths of the way along."""
    wide = np.array([(0.0, 0.0), (40.0, 0.0), (40.0, 5.0), (0.0, 5.0)])
    height = np.array([0.0, 100.0, 100.0, 0.0])
    mesh = mesh_to(wide, np.array([(12.0, -2.0), (12.0, 9.0), (-1.0, 2.0)]))
    assert mesh.matrix @ height == pytest.approx([30.0, 30.0, 0.0])


def spots(*rows: tuple[float, float, float], **keys: object) -> tuple[SurveyPoint, ...]:
    """Ground points with names from P1."""
    return tuple(SurveyPoint(x, y, z, f"P{n}", **keys) for n, (x, y, z) in enumerate(rows, 1))  # type: ignore[arg-type]


FOUR = spots((0.0, 0.0, 1.0), (4.0, 0.0, 2.0), (4.0, 3.0, 5.0), (0.0, 3.0, 7.0))
FINE = replace(EXACT, instrument_error_mm=2.0)


def test_the_ground_is_made_of_points_that_stand_on_it() -> None:
    """Walls and trunks with a height too; no paving, swale or north, and nothing without a
    height.
    """
    more = (
        SurveyPoint(1.0, 1.0, 3.0, "w", "wall", 2),
        SurveyPoint(2.0, 1.0, 4.0, "", "trunk", 3),
        SurveyPoint(3.0, 1.0, None, "t", "trunk"),
        SurveyPoint(3.0, 2.0, None, "e", "edge"),
        SurveyPoint(9.0, 1.0, 5.0, "p", "paving"),
        SurveyPoint(9.0, 2.0, 5.0, "s", "swale"),
        SurveyPoint(9.0, 3.0, None, "n", "north"),
    )
    ground = ground_of((*FOUR, *more), FINE)
    assert ground.xy_m.tolist() == [[0, 0], [4, 0], [4, 3], [0, 3], [1, 1], [2, 1]]
    assert ground.height_mm.tolist() == [1, 2, 5, 7, 3, 4]
    assert ground.setup.tolist() == [1, 1, 1, 1, 2, 3]
    assert ground.names == ("P1", "P2", "P3", "P4", "w", phrases.name_point(number=6))
    assert (ground.count, ground.notes) == (6, ())


@pytest.mark.parametrize(("count", "enough"), [(2, False), (3, True)])
def test_three_points_make_a_ground(count: int, *, enough: bool) -> None:
    """Two do not, nor do three of which two are one, nor any number in a row."""
    if enough:
        assert ground_of(FOUR[:count], FINE).count == 3
        return
    with refused("three points or more(.*); got 2"):
        ground_of(FOUR[:count], FINE)
    with refused("in one line"):
        ground_of((*FOUR[:2], FOUR[1]), FINE)
    row = spots(*((float(n), 2.0 * n, 0.0) for n in range(5)))
    with refused("in one line"):
        ground_of(row, FINE)


@pytest.mark.parametrize(("off_m", "sound"), [(0.0005, False), (0.004, True)])
def test_a_row_is_no_ground_and_a_hair_beside_it_is(off_m: float, *, sound: bool) -> None:
    """A ten-thousandth of its length: ten metres with one point a millimetre off the line."""
    row = spots((0.0, 0.0, 0.0), (5.0, off_m, 0.0), (10.0, 0.0, 0.0))
    if sound:
        assert ground_of(row, FINE).count == 3
        return
    with refused("in one line"):
        ground_of(row, FINE)


def test_every_point_that_cannot_be_used_is_named() -> None:
    """By its name, or by its number; edges and trunks need no height, walls do."""
    broken = (
        SurveyPoint(np.nan, 1.0, 3.0, "a"),
        SurveyPoint(1.0, np.inf, None, "", "edge"),
        SurveyPoint(1.0, 1.0, -np.inf, "c"),
        SurveyPoint(1.0, 1.0, None, "d", "wall"),
        SurveyPoint(1.0, 1.0, None, "e", "trunk"),
        SurveyPoint(1.0, 1.0, None, "f"),
    )
    with pytest.raises(TurfplanError) as caught:
        ground_of((*FOUR, *broken), FINE)
    problems = caught.value.problems
    assert [p.where for p in problems] == ["a", phrases.name_point(number=6), "c", "d", "f"]
    assert [p.got for p in problems] == ["nan, 1, 3", "1, inf", "1, 1, -inf", None, None]


@pytest.mark.parametrize(
    ("error_mm", "apart_mm", "sound"),
    [(2.0, 12.0, True), (2.0, 12.1, False), (0.1, 1.0, True), (0.1, 1.1, False)],
)
def test_readings_of_one_spot_agree_within_six_errors_or_a_millimetre(
    error_mm: float, apart_mm: float, *, sound: bool
) -> None:
    """They become their mean, with a note; else both are named."""
    again = SurveyPoint(4.001, 3.0, 5.0 + apart_mm, "again", "ground", 2)
    settings = replace(EXACT, instrument_error_mm=error_mm)
    if not sound:
        with refused("P3 and again: stand on the same spot"):
            ground_of((*FOUR, again), settings)
        return
    ground = ground_of((*FOUR, again), settings)
    assert ground.count == 4
    assert ground.height_mm.tolist() == pytest.approx([1.0, 2.0, 5.0 + apart_mm / 2, 7.0])
    assert ground.xy_m[2] == pytest.approx([4.0005, 3.0])
    assert ground.names == ("P1", "P2", "P3", "P4") and ground.setup.tolist() == [1, 1, 1, 1]
    assert ground.notes == (phrases.doubt_averaged(readings=5, spots=4),)


def test_three_readings_of_one_spot_are_one() -> None:
    """Also where the first and the last are further apart than a rod is wide, and they were read
    at different times; a spot two and a half millimetres away is another.
    """
    chain = spots((4.0018, 0.0, 8.0), (4.0036, 0.0, 5.0))
    ground = ground_of((chain[0], *FOUR, chain[1]), FINE)
    assert ground.count == 4
    assert sorted(ground.height_mm.tolist()) == pytest.approx([1.0, 5.0, 5.0, 7.0])
    beside = SurveyPoint(4.0025, 3.0, 500.0, "beside")
    assert ground_of((*FOUR, beside), FINE).count == 5


def test_no_more_than_four_of_one_spot_are_named() -> None:
    """Of six."""
    same = spots(*((9.0, 9.0, 50.0 * n) for n in range(6)))
    with pytest.raises(TurfplanError) as caught:
        ground_of((*FOUR, *same), FINE)
    (problem,) = caught.value.problems
    assert isinstance(problem.where, Message)
    names = dict(problem.where.values)["points"]
    assert len(names.items) == 4  # type: ignore[union-attr]


def test_points_that_make_no_triangle_are_refused() -> None:
    """All in a row."""
    with refused("triang"):
        mesh_to(np.array([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), np.zeros((1, 2)))


def test_places_far_from_their_nearest_point_are_found() -> None:
    """A wide triangle beside a crowd of points, and each place of a fan walks to its own."""
    crowd = np.random.default_rng(1).uniform(0, 1, (40, 2))
    xy = np.vstack([crowd, [(60.0, -30.0), (60.0, 40.0), (0.0, 0.0), (0.0, 1.0)]])
    places = np.column_stack([np.linspace(2, 59, 60), np.linspace(0, 1, 60)])
    mesh = mesh_to(xy, places)
    height = xy @ np.array([3.0, -2.0]) + 7.0
    assert not mesh.beyond.any()
    assert mesh.matrix @ height == pytest.approx(places @ [3.0, -2.0] + 7.0)
    shares = mesh.matrix.toarray()
    assert shares.sum(axis=1) == pytest.approx(np.ones(60)) and shares.min() > -1e-9


def test_shares_of_corners_are_areas() -> None:
    """By hand, in a triangle of twelve square metres; outside one is below nought."""
    corners = np.array([[(0.0, 0.0), (6.0, 0.0), (0.0, 4.0)]] * 3)
    places = np.array([(1.0, 1.0), (6.0, 0.0), (4.0, 4.0)])
    assert _corner_shares(corners, places) == pytest.approx(
        np.array([(7 / 12, 1 / 6, 1 / 4), (0.0, 1.0, 0.0), (-2 / 3, 2 / 3, 1.0)])
    )
    flat = np.array([[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]])
    shares = _corner_shares(flat, np.array([(1.0, 0.0)]))
    assert np.isfinite(shares).all() and shares.min() < 0


def test_one_point_stands_for_a_square() -> None:
    """Twenty-four square metres by four points and a half."""
    cells = cells_of((rectangle(6, 4),), (), 24, (2.9, 2.0))
    assert spacing_m(ground_of(FOUR, FINE), cells) == pytest.approx(6**0.5)
