"""Ground between and beyond the points."""

import numpy as np
import pytest

from turfplan.site.survey.ground import mesh_to

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
