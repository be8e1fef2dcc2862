"""What daily ranges and dates of frost are estimated from, north and south."""

from math import cos, log, pi, sin
from statistics import NormalDist

import pytest

from turfplan.calendar_days import MONTH_LENGTHS, MONTH_STARTS
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2
from turfplan.climate.fitted_models import _risk, frost_signals, range_signals
from turfplan.files.reading.place import load_models

MEANS = [-4.0, -3.0, 2.0, 9.0, 15.0, 20.0, 23.0, 22.0, 17.5, 11.0, 5.5, -0.5]
RAIN = [float(10 * month) for month in range(1, 13)]


@pytest.mark.parametrize("latitude", [40.0, -40.0])
def test_a_month_is_told_by_its_season_its_sun_and_its_height(latitude: float) -> None:
    """In the order of the coefficients: the year's swing is 27 K, the mean rain 65 mm; the south
    has its months half a year on; 1500 m count by the swing over 20 K.
    """
    found = range_signals(MEANS, RAIN, latitude, 1500.0)
    assert len(found) == 12
    for month, signals in enumerate(found):
        angle = 2 * pi * (month + 0.5) / 12 + (pi if latitude < 0 else 0)
        middle = MONTH_STARTS[month] + MONTH_LENGTHS[month] // 2 + 1
        wanted = (
            1.0,
            27.0,
            log(RAIN[month] + 5),
            log(65.0 + 5),
            cos(angle),
            sin(angle),
            extraterrestrial_mj_m2(latitude, middle),
            1.5 * 27.0 / 20,
        )
        assert signals == pytest.approx(wanted)


@pytest.mark.parametrize(("latitude", "months"), [(40.0, (3, 4)), (-40.0, (9, 10))])
def test_frost_is_told_by_the_rain_of_its_spring(latitude: float, months: tuple[int, int]) -> None:
    """April and May in the north, October and November in the south."""
    found = frost_signals(110.0, tuple(MEANS), RAIN, latitude)
    spring = sum(RAIN[month] for month in months)
    assert found == pytest.approx((1.0, 110.0, 27.0, log(spring + 5)))


@pytest.mark.parametrize("table", ["frost_spring", "frost_autumn"])
def test_the_risk_of_frost_is_that_of_a_normal_spread(table: str) -> None:
    """Half on a day whose mean low is freezing; the spread grows from summer's to both together on
    the coldest day, by the year's swing.
    """
    models = load_models()
    low, mean = (-2.0, 0.0, 3.0, 12.0), (0.0, 4.0, 9.0, 20.0)
    summer, more = (models.number(table, f"spread_{part}_c") for part in ("summer", "winter"))
    for risk, night, day in zip(_risk(models, table, low, mean), low, mean, strict=True):
        spread = summer + more * (20.0 - day) / 20.0
        assert risk == pytest.approx(NormalDist(0, spread).cdf(-night))
    assert _risk(models, table, low, mean)[1] == 0.5
