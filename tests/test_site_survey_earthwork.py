"""Volumes by the prismoid of earthwork."""

import math

import pytest

from turfplan.site.survey.earthwork import bowl_volume, prismoidal


def test_a_prismoid_weighs_its_middle_section_by_four() -> None:
    """Of twelve metres with sections of 5, 7 and 3: twice (5 + 28 + 3)."""
    assert prismoidal(12.0, 5.0, 7.0, 3.0) == 72.0
    assert prismoidal(6.0, 4.0, 1.0, 0.0) == 8.0


def test_a_bowl_is_half_of_its_rim_times_its_depth() -> None:
    """An oval of four by two metres, thirty centimetres deep."""
    assert bowl_volume(4.0, 2.0, 0.3) == pytest.approx(math.pi / 4 * 8 * 0.3 / 2)
