"""The climate of a place tells its days, also in a year that is warmer than usual."""

from dataclasses import replace
from datetime import date, timedelta
from math import e

import pytest

from planning import climate_at
from turfplan.calendar_days import day_index
from turfplan.climate.growth import growth_potential
from turfplan.climate.record import Climate, Excess

PLACE = climate_at(40.0, -76.0)


def test_a_climate_tells_its_days() -> None:
    """Soil at ten centimetres where no depth is told; south is below the equator; growth by the air
    of the day, of both kinds of grass.
    """
    day = date(2027, 5, 1)
    number = day_index(day)
    assert PLACE.soil_c(day) == PLACE.soil_c(day, 10) == PLACE.soil_10cm_c[number]
    assert PLACE.soil_c(day, 5) == PLACE.soil_5cm_c[number] != PLACE.soil_c(day)
    assert PLACE.air_c(day) == PLACE.air_mean_c[number]
    assert [replace(PLACE, latitude=at).southern for at in (-0.1, 0.0, 0.1)] == [True, False, False]
    for season in ("cool", "warm"):
        usual = growth_potential(PLACE.air_c(day), season)
        assert PLACE.growth_potential(day, season) == usual == PLACE.growth_curve(season)[number]
        warm = replace(PLACE, excess=Excess(day, 3.0, 20.0))
        assert warm.growth_potential(day, season) == growth_potential(PLACE.air_c(day) + 3, season)
    assert PLACE.year_measured() is PLACE


def test_the_year_that_was_measured_lies_half_to_each_side() -> None:
    """Measured in January: December is the month before, July half a year away."""
    warm = replace(PLACE, excess=Excess(date(2027, 1, 5), 4.0, 30.0)).year_measured()
    assert warm.usual_air_c == PLACE.air_mean_c and warm.excess is None
    for index, away in ((4, 0), (364, 5), (340, 29), (186, 182), (187, 182), (94, 90)):
        for curve in ("air_mean_c", "soil_5cm_c", "soil_10cm_c"):
            over = getattr(warm, curve)[index] - getattr(PLACE, curve)[index]
            assert over == pytest.approx(4 * e ** (-away / 30))


def test_what_was_measured_fades_to_both_sides() -> None:
    """To 1/e of it within its memory, on days as in the curves of the year."""
    day = date(2027, 5, 1)
    warm = replace(PLACE, excess=Excess(day, 3.0, 20.0))
    whole = warm.year_measured()
    for away, share in ((0, 1.0), (20, 1 / e), (-20, 1 / e), (40, 1 / e**2), (-150, e**-7.5)):
        then = day + timedelta(away)
        assert warm.soil_c(then) - PLACE.soil_c(then) == pytest.approx(3 * share)
        over = whole.soil_10cm_c[day_index(then)] - PLACE.soil_10cm_c[day_index(then)]
        assert over == pytest.approx(3 * share)


def test_what_was_measured_is_so_on_its_day_and_fades() -> None:
    """To 1/e within its memory, before it as after it; colder places too."""
    excess = Excess(date(2027, 5, 1), -3.0, 20.0)
    assert excess.on(date(2027, 5, 1)) == -3.0
    for away in (-20, 20):
        assert excess.on(date(2027, 5, 1) + timedelta(away)) == pytest.approx(-3 / e)
    assert excess.on(date(2027, 6, 30)) == pytest.approx(-3 / e**3)


def test_a_climate_without_an_excess_has_no_more_than_its_curves() -> None:
    """And no error of soil dates where none is told; two of one place have one hash."""
    assert PLACE.excess is None and PLACE.usual_air_c is None
    assert Climate.__dataclass_fields__["soil_error_days"].default == 0
    assert hash(PLACE) == hash(replace(PLACE))
