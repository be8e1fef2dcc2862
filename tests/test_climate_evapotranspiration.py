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


@pytest.mark.full
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


def test_pressures_of_the_air_by_their_equations() -> None:
    """FAO-56, equations 7, 8 and 11 to 14, and 19: at 1,800 m 81.8 kPa; at 15 and 24.5 C 1.705 and
    3.075 kPa, as printed, of which 60 % of the mean is 1.434.
    """
    assert et.pressure_kpa(0) == pytest.approx(101.3)
    assert et.pressure_kpa(1800) == pytest.approx(81.76, abs=0.01)
    assert et.psychrometric_kpa_c(81.8) == pytest.approx(0.0544, abs=0.00005)
    assert et.saturation_kpa(0) == pytest.approx(0.6108)
    assert et.saturation_kpa(15.0) == pytest.approx(1.705, abs=0.0005)
    assert et.mean_saturation_kpa(15.0, 24.5) == pytest.approx((1.705 + 3.075) / 2, abs=0.001)
    assert et.vapour_from_dew_point_kpa(24.5) == pytest.approx(3.075, abs=0.001)
    assert et.vapour_from_mean_humidity_kpa(15.0, 24.5, 60) == pytest.approx(1.434, abs=0.001)


def test_the_slope_is_that_of_the_saturation_curve() -> None:
    """Taken from a hundredth of a degree to each side, to the fourth figure."""
    for air in (-5.0, 10.0, 30.0):
        rise = (et.saturation_kpa(air + 0.01) - et.saturation_kpa(air - 0.01)) / 0.02
        assert et.saturation_slope_kpa_c(air) == pytest.approx(rise, rel=2e-4)


@pytest.mark.parametrize(
    ("latitude", "day", "radiation"),
    [
        (-20.0, 246, 32.2),
        (50.8, 187, 41.09),
        (13.73, 105, 38.06),
        (0.0, 15, 36.2),
    ],
)
def test_the_sun_above_the_air_is_that_of_the_tables(
    latitude: float, day: int, radiation: float
) -> None:
    """FAO-56, examples 8, 18 and 17, and table 2.6 for 15 January, to its printed digits."""
    assert et.extraterrestrial_mj_m2(latitude, day) == pytest.approx(radiation, abs=0.1)


def test_the_terms_of_net_radiation() -> None:
    """FAO-56, examples 11 and 12: of 14.5 MJ grass keeps 77 hundredths; 3.5 MJ go out under a sky
    of 18.8 MJ when clear, from 19.1 to 25.1 C at 2.1 kPa.
    """
    assert et.clear_sky_mj_m2(25.1, 0) == pytest.approx(18.825)
    assert et.clear_sky_mj_m2(40.0, 1000) == pytest.approx(0.77 * 40)
    assert et.net_shortwave_mj_m2(14.5) == pytest.approx(11.165)
    found = et.net_longwave_mj_m2(19.1, 25.1, 2.1, 14.5, 18.8)
    kelvin = (292.26**4 + 298.26**4) / 2
    outgoing = 4.903e-9 * kelvin * (0.34 - 0.14 * 2.1**0.5) * (1.35 * 14.5 / 18.8 - 0.35)
    assert found == pytest.approx(outgoing) and found == pytest.approx(3.5, abs=0.05)


def test_wind_is_brought_down_to_two_metres() -> None:
    """FAO-56, example 14: 3.2 m/s at 10 m are 2.4; at 2 m it stays."""
    assert et.wind_at_2m_m_s(3.2, 10) == pytest.approx(2.394, abs=0.005)
    assert et.wind_at_2m_m_s(5.0, 2) == pytest.approx(5.0, rel=0.001)


def test_a_day_and_a_month_of_the_worked_examples() -> None:
    """FAO-56, example 17 (Bangkok in April, 5.72 mm) and 18 (Uccle on 6 July, 3.88 mm)."""
    bangkok = et.penman_monteith_mm(30.2, 14.33, 2.0, 4.42, 2.85, 0.0674, 0.14)
    assert bangkok == pytest.approx(5.72, abs=0.02)
    uccle = et.DayWeather(187, 12.3, 21.5, 22.07, 1.409, 2.078)
    assert et.et0_mm(uccle, 50.8, 100) == pytest.approx(3.88, abs=0.02)
    frozen = et.DayWeather(15, -30.0, -25.0, 3.0, 0.04, 0.5)
    assert et.et0_mm(frozen, 60.0, 100) == 0.0


def test_the_soil_takes_part_of_the_radiation() -> None:
    """None where none is told; what it takes is not there to dry."""
    terms = (20.0, 12.0, 2.0, 2.4, 1.6, 0.066)
    none, some = et.penman_monteith_mm(*terms), et.penman_monteith_mm(*terms, 1.0)
    slope = et.saturation_slope_kpa_c(20.0)
    assert none - some == pytest.approx(0.408 * slope / (slope + 0.066 * 1.68))


def test_evapotranspiration_from_temperatures_alone() -> None:
    """FAO-56, example 20: 14.8 to 26.6 C under 40.55 MJ give 5.0 mm; a mean of its own may differ
    from the middle.
    """
    assert et.hargreaves_mm(14.8, 26.6, 40.55) == pytest.approx(5.03, abs=0.03)
    root = 11.8**0.5
    assert et.hargreaves_mm(14.8, 26.6, 40.55, 22.2) == pytest.approx(
        0.0023 * 40 * root * 0.408 * 40.55
    )
    assert et.hargreaves_mm(26.6, 14.8, 40.55) == 0.0


def test_daylight_is_shorter_in_winter_of_both_hemispheres() -> None:
    """As printed for latitude 20 south and north."""
    assert et.daylight_hours(-20.0, 246) == pytest.approx(11.67, abs=0.02)
    assert et.daylight_hours(20.0, 246) == pytest.approx(24 - 11.67, abs=0.02)
