"""Worked examples of earthwork and leveling from published handbooks, lectures and examination
texts.

Sources, with where each number was read:
- G. L. Vose, Handbook of Railroad Construction (1857), section 108: middle areas, and the sum by
  averaging end areas, read in a transcription on the web.
- Area by Offsets from a Straight Line, lecture notes on elementary surveying, problems 1 and 2
  (read on the web): offsets, and the area by the trapezoidal rule.
- Storage of a square pond by the average end area and the conic method, an engineer's column on the
  United States Army Corps of Engineers' method (read on the web): 100 by 100 above, 60 by 60 below,
  10 deep.
- Fundamentals-of-Engineering style example of a 50 ft square to be brought to 90 ft (read on the
  web).
- Differential leveling, lecture notes after a standard text, "BM Rock" (read on the web).
- Study guide to the Fundamentals of Engineering examination, section 6.5, leveling example (read on
  the web).
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from lawn_surveys import EXACT, grid, points_at
from turfplan.site.survey.earthwork import bowl_volume, prismoidal
from turfplan.site.survey.rod_readings import Reading, level_run
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import CUBIC_YARD_M3, FOOT_M

# Vose, section 108: base 20 ft, slopes 1 1/2 to 1, sections 50 ft apart, cuts of 0, 5, 10, 15 and 0
# ft.
CUTS = (0.0, 5.0, 10.0, 15.0, 0.0)
PRINTED_BY_END_AREAS = 56_200
PRINTED_MIDDLE_AREAS = (59, 236, 483, 236)


def section(cut: float) -> float:
    """The area of a cutting with a base of 20 ft and slopes of 1 1/2 to 1."""
    return 20 * cut + 1.5 * cut**2


def test_vose_middle_areas_and_the_prismoid() -> None:
    """The printed middle areas (one is off by 2, as printed), and the prismoidal sum: the exact
    integral, less than by end areas.
    """
    pairs = list(pairwise(CUTS))
    middles = [section((a + b) / 2) for a, b in pairs]
    assert middles == pytest.approx(PRINTED_MIDDLE_AREAS, abs=2.5)
    total = sum(prismoidal(50, section(a), section((a + b) / 2), section(b)) for a, b in pairs)
    exact = sum(50 * (20 * (a + b) / 2 + 1.5 * (a * a + a * b + b * b) / 3) for a, b in pairs)
    assert total == pytest.approx(exact)
    assert total < PRINTED_BY_END_AREAS


def test_offsets_as_depths_of_a_trench_are_the_same_trapezoids() -> None:
    """The same offsets as depths in mm below a line over a strip one metre wide: triangles between
    points are trapezoids.
    """
    offsets = (0.8, 3.6, 4.7, 5.3, 3.9, 2.7, 4.6, 5.5, 4.9, 7.6, 8.8, 5.4, 6.0)
    xs = [3.5 * n for n in range(13)] * 2
    points = points_at(xs, [0.0] * 13 + [1.0] * 13, [-d for d in offsets] * 2)
    found = fill_from_survey(points, replace(EXACT, target="line", cells_wanted=6000))
    assert found.volume_m3 * 1000 == pytest.approx(211.4, abs=0.05 + 0.001 * 211.4)


def test_a_square_pond() -> None:
    """65,333 in truth, as printed: the prismoid, and the survey's own triangles."""
    assert round(prismoidal(10, 100 * 100, 80 * 80, 60 * 60)) == 65_333
    # In feet, sides of 2 to 1; as a survey of depths below the rim, 41 by 41 points.
    side = 100 * FOOT_M

    def below(x: object, y: object) -> np.ndarray:
        edge = np.minimum.reduce([x, y, side - np.asarray(x), side - np.asarray(y)])
        return -1000 * np.minimum(10 * FOOT_M, edge / 2)

    points = grid(side, side, 41, 41, below)
    found = fill_from_survey(points, replace(EXACT, target="line"))
    assert found.volume_m3 / FOOT_M**3 == pytest.approx(65_333, rel=0.005)


def test_a_square_brought_to_a_level() -> None:
    """Corners at 87.6, 87.6, 87.6 and 88.6 ft, wanted at 90: 199 cubic yards as printed."""
    heights = [-(90 - h) * FOOT_M * 1000 for h in (87.6, 87.6, 87.6, 88.6)]
    side = 50 * FOOT_M
    # Four corners alone leave the diagonal open; with the middle of the warped square measured it
    # is the grid's volume.
    points = points_at(
        [0, side, 0, side, side / 2], [0, 0, side, side, side / 2], [*heights, sum(heights) / 4]
    )
    found = fill_from_survey(points, replace(EXACT, target="line"))
    assert round(found.volume_m3 / CUBIC_YARD_M3) == 199


def test_the_prismoid_is_exact_for_the_solids_it_is_named_for() -> None:
    """Cone, sphere, wedge and bowl, by their own formulas."""
    pi = np.pi
    assert prismoidal(3, pi * 4, pi, 0) == pytest.approx(pi * 4 * 3 / 3)
    assert prismoidal(2, 0, pi, 0) == pytest.approx(4 / 3 * pi)
    assert prismoidal(6, 10, 5, 0) == pytest.approx(30)
    assert bowl_volume(4, 2, 0.04) == pytest.approx(pi / 4 * 8 * 0.04 / 2)


def test_level_notes() -> None:
    """820.00 + 8.42 - 1.20 = 827.22 ft; 100.00 + 4.20 - 6.50 = 97.70 ft, as printed."""
    foot = 1000 * FOOT_M
    for known, back, fore, printed in ((820.00, 8.42, 1.20, 827.22), (100.00, 4.20, 6.50, 97.70)):
        run = level_run(
            [Reading("BM", back * foot, None, known * foot), Reading("X", None, fore * foot)]
        )
        assert round(run.heights_mm[1] / foot, 2) == printed
