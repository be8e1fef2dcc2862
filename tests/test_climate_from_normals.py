"""A climate from normals, and evapotranspiration of each day from its extremes and its own sun."""

import math
from dataclasses import replace

import pytest

from turfplan.climate.daily_curves import daily_curve
from turfplan.climate.evapotranspiration import extraterrestrial_mj_m2, hargreaves_mm
from turfplan.climate.fitted_models import daily_range_c, soil_from_air
from turfplan.climate.from_normals import (
    ClimateBasis,
    Normals,
    Spot,
    _hargreaves,
    at_height,
    build_climate,
)
from turfplan.climate.record import Frost
from turfplan.files.reading.place import load_models
from turfplan.message import Message


@pytest.mark.parametrize("latitude", [52.0, 0.0, -35.0])
def test_each_day_has_the_sun_of_its_own_date(latitude: float) -> None:
    """The first value is that of the first of January: days of the year count from 1."""
    found = _hargreaves([5.0] * 365, [17.0] * 365, latitude)
    assert len(found) == 365
    for number in (0, 1, 80, 200, 364):
        sun = extraterrestrial_mj_m2(latitude, number + 1)
        assert found[number] == hargreaves_mm(5.0, 17.0, sun)
    assert found[79] != found[81]


SPOT = Spot(-33.0, 151.0, "Australia/Sydney", "Cfa", None, "NSW")
BASIS = ClimateBasis(Message("climate.year", (("year", "x"),)), 9, 0.9, "thanks")
MEANS = tuple(10.0 + month for month in range(12))
RAINS = tuple(31.0 * (month + 1) for month in range(12))
LAST, FIRST = Frost(100, 90, 110, 5), Frost(300, 290, 310, 5)


def test_a_climate_is_built_of_normals_and_of_what_they_rest_on() -> None:
    """Place, source, errors and names are handed on; the soil is off by its model and its air."""
    models = load_models()
    normals = Normals(MEANS, RAINS, tuple(m - 4 for m in MEANS), tuple(m + 5 for m in MEANS))
    found = build_climate(models, SPOT, normals, BASIS)
    assert (found.latitude, found.longitude, found.elevation_m) == (-33.0, 151.0, None)
    assert (found.timezone, found.koppen, found.state) == ("Australia/Sydney", "Cfa", "NSW")
    assert (found.source, found.attribution) == (BASIS.source, "thanks")
    assert (found.error_days, found.air_error_c) == (9, 0.9)
    assert found.soil_error_c == round(math.hypot(models.number("soil_10cm", "error_c"), 0.9), 2)
    assert found.soil_error_days == 14
    rough = build_climate(models, SPOT, normals, replace(BASIS, error_days=21))
    assert rough.soil_error_days == 21
    assert found.air_mean_c == daily_curve(MEANS)
    assert found.air_min_c == daily_curve([m - 4 for m in MEANS])
    assert found.air_max_c == daily_curve([m + 5 for m in MEANS])
    assert found.soil_5cm_c == soil_from_air(models, found.air_mean_c, 5, periodic=True)
    assert found.soil_10cm_c == soil_from_air(models, found.air_mean_c, 10, periodic=True)
    assert found.et0_mm == _hargreaves(found.air_min_c, found.air_max_c, -33.0)
    assert (found.rain_mm[0], found.rain_mm[31]) == (1.0, 62 / 28)


def test_daily_normals_are_taken_as_they_are() -> None:
    """Of rain and of evapotranspiration too; a month's sum is that of its days, its mean theirs."""
    mean = tuple(float(day % 30) for day in range(365))
    rain = tuple(float(day % 7) for day in range(365))
    normals = Normals(mean, rain, mean, mean, et0_mm=(3.0,) * 365)
    found = build_climate(load_models(), SPOT, normals, BASIS)
    assert (found.air_mean_c, found.rain_mm, found.et0_mm) == (mean, rain, (3.0,) * 365)
    assert normals.months_mm()[1] == sum(rain[31:59])
    assert normals.months_c()[1] == pytest.approx(sum(mean[31:59]) / 28)
    assert Normals(MEANS, RAINS).months_c() == MEANS
    assert Normals(MEANS, RAINS).months_mm() == RAINS
    with pytest.raises(ValueError, match="without rain"):
        Normals(MEANS, None).months_mm()


def test_frosts_that_are_known_come_before_estimates() -> None:
    """Those that are given first, then those of the normals, even none, then the estimates."""
    models = load_models()
    plain = Normals(tuple(8.0 + 10 * math.cos(2 * math.pi * m / 12) for m in range(12)), RAINS)
    known = replace(plain, last_frost=LAST, first_frost=FIRST, frost_known=True)
    estimated = build_climate(models, SPOT, plain, BASIS)
    assert estimated.last_frost is not None and estimated.last_frost != LAST
    assert build_climate(models, SPOT, known, BASIS).last_frost == LAST
    assert build_climate(models, SPOT, known, BASIS).first_frost == FIRST
    none = build_climate(models, SPOT, replace(plain, frost_known=True), BASIS)
    assert (none.last_frost, none.first_frost) == (None, None)
    given = build_climate(models, SPOT, known, BASIS, (FIRST, None))
    assert (given.last_frost, given.first_frost) == (FIRST, FIRST)
    other = build_climate(models, SPOT, known, BASIS, (None, LAST))
    assert (other.last_frost, other.first_frost) == (LAST, LAST)


def test_without_extremes_half_of_the_range_lies_to_each_side_of_the_mean() -> None:
    """Also where one of them is missing."""
    models = load_models()
    for normals in (
        Normals(MEANS, RAINS),
        Normals(MEANS, RAINS, MEANS),
        Normals(MEANS, RAINS, None, MEANS),
    ):
        found = build_climate(models, SPOT, normals, BASIS)
        spans = daily_curve(daily_range_c(models, MEANS, RAINS, -33.0, 0.0))
        for day in (0, 100, 364):
            assert found.air_max_c[day] - found.air_mean_c[day] == pytest.approx(spans[day] / 2)
            assert found.air_mean_c[day] - found.air_min_c[day] == pytest.approx(spans[day] / 2)
    high = build_climate(models, SPOT, Normals(MEANS, RAINS, elevation_m=2000.0), BASIS)
    spans = daily_curve(daily_range_c(models, MEANS, RAINS, -33.0, 2000.0))
    assert high.air_max_c[9] - high.air_min_c[9] == pytest.approx(spans[9])


def test_temperatures_are_brought_to_the_height_of_the_place() -> None:
    """6.5 K colder a kilometre higher; as they are where a height is not known."""
    models = load_models()
    normals = Normals(MEANS, RAINS, (1.0,) * 12, None, elevation_m=500.0)
    higher = at_height(models, normals, 1500.0)
    assert higher.mean_c == pytest.approx([m - 6.5 for m in MEANS])
    assert higher.min_c == pytest.approx([-5.5] * 12) and higher.max_c is None
    assert higher.elevation_m == 1500.0 and higher.rain_mm == RAINS
    both = at_height(models, replace(normals, max_c=(20.0,) * 12), 0.0)
    assert both.max_c == pytest.approx([23.25] * 12)
    assert at_height(models, normals, None) is normals
    unknown = replace(normals, elevation_m=None)
    assert at_height(models, unknown, 900.0) is unknown
