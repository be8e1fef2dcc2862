"""Worked examples printed in FAO Irrigation and Drainage Paper 56 (1998), each to the printed
digits.

The results are those gathered in the project's design notes; inputs not repeated there are quoted
from the paper from memory and carry the example's number.
"""

import pytest

from turfplan.climate import evapotranspiration as et


def test_example_2_pressure_and_psychrometric_constant() -> None:
    """1,800 m: 81.8 kPa and 0.054 kPa/C."""
    assert et.pressure_kpa(1800) == pytest.approx(81.8, abs=0.05)
    assert et.psychrometric_kpa_c(81.8) == pytest.approx(0.054, abs=0.0005)


def test_example_3_mean_saturation_pressure() -> None:
    """24.5 and 15 C: 3.075, 1.705 and their mean 2.39 kPa."""
    assert et.saturation_kpa(24.5) == pytest.approx(3.075, abs=0.0015)
    assert et.saturation_kpa(15.0) == pytest.approx(1.705, abs=0.0005)
    assert et.mean_saturation_kpa(15.0, 24.5) == pytest.approx(2.39, abs=0.005)


def test_vapour_pressure_from_mean_humidity_and_dew_point() -> None:
    """Equation 19 on example 5's day (18 and 25 C, 68 per cent in the mean): 1.78 kPa; at its dew
    point air is saturated.
    """
    assert et.vapour_from_mean_humidity_kpa(18, 25, 68) == pytest.approx(1.78, abs=0.005)
    assert (
        et.vapour_from_dew_point_kpa(14.9)
        == et.saturation_kpa(14.9)
        == pytest.approx(1.694, abs=0.001)
    )


def test_example_8_extraterrestrial_radiation() -> None:
    """20 S on 3 September, day 246: 32.2 MJ/m2/day; of examples 10 and 15: 25.1 in Rio in May, 40.6
    at 45 43' N in July.
    """
    assert et.extraterrestrial_mj_m2(-20, 246) == pytest.approx(32.2, abs=0.05)
    assert et.extraterrestrial_mj_m2(-22.9, 135) == pytest.approx(25.1, abs=0.05)
    assert et.extraterrestrial_mj_m2(45.72, 196) == pytest.approx(40.6, abs=0.1)


def test_example_11_net_longwave_radiation() -> None:
    """The same place, 25.1 and 19.1 C, ea 2.1, Rs 14.5, Rso 18.8: 3.5 MJ/m2/day."""
    assert et.clear_sky_mj_m2(25.1, 0) == pytest.approx(18.8, abs=0.05)
    assert et.net_longwave_mj_m2(19.1, 25.1, 2.1, 14.5, 18.8) == pytest.approx(3.5, abs=0.05)


def test_example_12_net_radiation() -> None:
    """0.77 of 14.5 less 3.5: 7.6 MJ/m2/day."""
    assert et.net_shortwave_mj_m2(14.5) - 3.5 == pytest.approx(7.6, abs=0.1)


def test_example_14_wind_at_two_metres() -> None:
    """3.2 m/s at 10 m: 2.4 m/s at 2 m."""
    assert et.wind_at_2m_m_s(3.2, 10) == pytest.approx(2.4, abs=0.05)


def test_example_17_monthly_penman_monteith() -> None:
    """13 44' N at 2 m, April, 34.8 and 25.6 C, ea 2.85, 2 m/s, Rs 22.65: 5.72 mm/day."""
    ra = et.extraterrestrial_mj_m2(13.73, 105)
    assert ra == pytest.approx(38.06, abs=0.05)
    solar = 22.65
    net = et.net_shortwave_mj_m2(solar) - et.net_longwave_mj_m2(
        25.6, 34.8, 2.85, solar, et.clear_sky_mj_m2(ra, 2)
    )
    gamma = et.psychrometric_kpa_c(et.pressure_kpa(2))
    heat = 0.14 * (30.2 - 29.2)
    got = et.penman_monteith_mm(
        30.2, net, 2.0, et.mean_saturation_kpa(25.6, 34.8), 2.85, gamma, heat
    )
    assert got == pytest.approx(5.72, abs=0.01)


def test_example_18_daily_penman_monteith() -> None:
    """50 48' N at 100 m, 6 July, 21.5 and 12.3 C, ea 1.409, 2.78 m/s at 10 m, Rs 22.07: 3.9
    mm/day.
    """
    wind = et.wind_at_2m_m_s(10 / 3.6, 10)
    got = et.et0_mm(et.DayWeather(187, 12.3, 21.5, 22.07, 1.409, wind), 50.80, 100)
    assert got == pytest.approx(3.88, abs=0.02)


def test_example_20_hargreaves() -> None:
    """45 43' N, July, Ra 40.6, 26.6 and 14.8 C: 5.0 mm/day by equation 52."""
    assert et.hargreaves_mm(14.8, 26.6, 40.6) == pytest.approx(5.0, abs=0.05)
