"""Evapotranspiration of each day from its extremes and its own sun."""

import pytest

from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.climate.from_normals import _hargreaves


@pytest.mark.parametrize("latitude", [52.0, 0.0, -35.0])
def test_each_day_has_the_sun_of_its_own_date(latitude: float) -> None:
    """The first value is that of the first of January: days of the year count from 1."""
    found = _hargreaves([5.0] * 365, [17.0] * 365, latitude)
    assert len(found) == 365
    for number in (0, 1, 80, 200, 364):
        sun = extraterrestrial_mj_m2(latitude, number + 1)
        assert found[number] == hargreaves_mm(5.0, 17.0, sun)
    assert found[79] != found[81]
