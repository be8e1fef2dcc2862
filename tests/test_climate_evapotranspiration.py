"""Reference evapotranspiration: bounds of the sun, and two independent libraries."""

from random import Random

import pytest

from turfplan.climate import evapotranspiration as et


@pytest.mark.parametrize("latitude", [-80, -66.5, -35, 0, 35, 66.5, 80])
def test_the_sun_is_bounded_everywhere_and_always(latitude: float) -> None:
    """Radiation is never negative, also in polar night and day."""
    for day in range(1, 367):
        assert 0 <= et.extraterrestrial_mj_m2(latitude, day) < 50


def test_no_sun_comes_in_polar_night() -> None:
    """None at all."""
    assert et.extraterrestrial_mj_m2(80, 355) == et.extraterrestrial_mj_m2(-80, 172) == 0.0


def test_midsummer_of_the_south_is_in_december() -> None:
    """The southern sun peaks half a year from the northern one."""
    south, north = (
        [et.extraterrestrial_mj_m2(latitude, day) for day in range(1, 366)]
        for latitude in (-35, 35)
    )
    assert south.index(max(south)) + 1 > 340 or south.index(max(south)) < 20
    assert 150 < north.index(max(north)) + 1 < 190


def test_no_water_leaves_in_deep_frost() -> None:
    """Evapotranspiration is never negative."""
    assert et.hargreaves_mm(-40, -30, 5) == 0
    assert et.hargreaves_mm(5, 5, 20) == 0


def _random_day(random: Random) -> tuple[et.DayWeather, float, float]:
    latitude, day = random.uniform(-58, 58), random.randint(1, 365)
    low = random.uniform(-5, 25)
    high = low + random.uniform(2, 18)
    vapour = et.saturation_kpa(low) * random.uniform(0.4, 1.0)
    elevation = random.uniform(0, 2000)
    share = random.uniform(0.3, 0.74)
    solar = share * et.extraterrestrial_mj_m2(latitude, day)
    return et.DayWeather(day, low, high, solar, vapour, random.uniform(0.5, 6)), latitude, elevation


def test_a_thousand_days_against_refet() -> None:
    """Penman–Monteith equals the library refet (ASCE form for short grass) to 0.005 mm on 1,000
    days.

    The two standards differ in rounding alone: solar constant 4.92 MJ/m2/h, sigma 4.901e-9 and a
    pressure of another form in ASCE; equation 6 and its inputs are the same.
    """
    refet = pytest.importorskip("refet")
    random = Random(56)
    for _ in range(1000):
        day, latitude, elevation = _random_day(random)
        theirs = refet.Daily(
            tmin=day.min_c,
            tmax=day.max_c,
            ea=day.vapour_kpa,
            rs=day.solar_mj_m2,
            uz=day.wind_2m_m_s,
            zw=2,
            elev=elevation,
            lat=latitude,
            doy=day.day_of_year,
            method="asce",
            rso_type="simple",
        ).eto()
        mine = et.et0_mm(day, latitude, elevation)
        assert mine == pytest.approx(max(0.0, float(theirs[0])), abs=0.005)


def test_a_thousand_days_against_pyfao56() -> None:
    """Penman–Monteith equals the library pyfao56 to 0.005 mm on 1,000 days."""
    refet = pytest.importorskip("pyfao56.refet")
    random = Random(1998)
    for _ in range(1000):
        day, latitude, elevation = _random_day(random)
        theirs = refet.ascedaily(
            rfcrp="S",
            z=elevation,
            lat=latitude,
            doy=day.day_of_year,
            israd=day.solar_mj_m2,
            tmax=day.max_c,
            tmin=day.min_c,
            vapr=day.vapour_kpa,
            wndsp=day.wind_2m_m_s,
            wndht=2.0,
        )
        assert et.et0_mm(day, latitude, elevation) == pytest.approx(
            max(0.0, float(theirs)), abs=0.005
        )


@pytest.mark.parametrize(
    ("latitude", "day", "hours"),
    [(0.0, 80, 12.0), (0.0, 172, 12.0), (-20.0, 246, 11.7), (45.0, 172, 15.4), (45.0, 355, 8.6)],
)
def test_the_day_is_as_long_as_the_tables_say(latitude: float, day: int, hours: float) -> None:
    """FAO-56, example 9 (20 degrees south on 3 September: 11.7 hours) and table 2.7."""
    assert et.daylight_hours(latitude, day) == pytest.approx(hours, abs=0.1)


def test_polar_days_are_whole() -> None:
    """Twenty-four hours beyond the circle in summer, none in winter."""
    assert et.daylight_hours(75, 172) == pytest.approx(24.0)
    assert et.daylight_hours(75, 355) == pytest.approx(0.0)


def test_a_sky_of_which_nothing_is_known_counts_as_clear() -> None:
    """Where no sun comes at all, and where more is measured than a clear sky lets through."""
    clear = et.net_longwave_mj_m2(5.0, 15.0, 1.0, 20.0, 20.0)
    assert clear == et.net_longwave_mj_m2(5.0, 15.0, 1.0, 25.0, 20.0)
    assert clear == et.net_longwave_mj_m2(5.0, 15.0, 1.0, 0.0, 0.0)
    assert et.net_longwave_mj_m2(5.0, 15.0, 1.0, 10.0, 20.0) < clear
