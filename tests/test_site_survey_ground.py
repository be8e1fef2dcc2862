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
