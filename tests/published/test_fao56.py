"""Worked examples printed in FAO Irrigation and Drainage Paper 56 (1998), each to the printed digits.

The results are those gathered in the project's design notes; inputs not repeated there are quoted from the paper from
memory and carry the example's number.
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


def test_example_4_vapour_pressure_from_psychrometer() -> None:
    """Dry 25.6, wet 19.5 C at 1,200 m (87.9 kPa): 1.91 kPa."""
    assert et.vapour_from_wet_bulb_kpa(25.6, 19.5, 87.9) == pytest.approx(1.91, abs=0.005)


def test_example_5_vapour_pressure_from_humidity() -> None:
    """18 and 25 C with 82 and 54 per cent: 1.70 kPa."""
    assert et.vapour_from_humidity_kpa(18, 25, 54, 82) == pytest.approx(1.70, abs=0.005)


def test_example_8_extraterrestrial_radiation() -> None:
    """20 S on 3 September, day 246: 32.2 MJ/m2/day."""
    assert et.extraterrestrial_mj_m2(-20, 246) == pytest.approx(32.2, abs=0.05)


def test_example_9_daylight_hours() -> None:
    """20 S on day 246: 11.7 hours."""
    assert et.daylight_hours(-20, 246) == pytest.approx(11.7, abs=0.05)


def test_example_10_solar_radiation_from_sunshine() -> None:
    """22 54' S, May, 220 hours in 31 days: Ra 25.1, N 10.9, Rs 14.45 (computed with the printed 25.1 and 10.9)."""
    ra, possible = et.extraterrestrial_mj_m2(-22.9, 135), et.daylight_hours(-22.9, 135)
    assert ra == pytest.approx(25.1, abs=0.05)
    assert possible == pytest.approx(10.9, abs=0.05)
    assert et.solar_from_sunshine_mj_m2(25.1, 7.1, 10.9) == pytest.approx(14.45, abs=0.05)


def test_example_11_net_longwave_radiation() -> None:
    """The same place, 25.1 and 19.1 C, ea 2.1, Rs 14.5, Rso 18.8: 3.5 MJ/m2/day."""
    assert et.clear_sky_mj_m2(25.1, 0) == pytest.approx(18.8, abs=0.05)
    assert et.net_longwave_mj_m2(19.1, 25.1, 2.1, 14.5, 18.8) == pytest.approx(3.5, abs=0.05)


def test_example_12_net_radiation() -> None:
    """0.77 of 14.5 less 3.5: 7.6 MJ/m2/day."""
    assert et.net_shortwave_mj_m2(14.5) - 3.5 == pytest.approx(7.6, abs=0.1)


def test_example_13_soil_heat_flux_of_a_month() -> None:
    """14.1 C in March, 18.8 C in May: 0.33 MJ/m2/day."""
    assert et.soil_heat_month_mj_m2(14.1, 18.8) == pytest.approx(0.33, abs=0.005)


def test_example_14_wind_at_two_metres() -> None:
    """3.2 m/s at 10 m: 2.4 m/s at 2 m."""
    assert et.wind_at_2m_m_s(3.2, 10) == pytest.approx(2.4, abs=0.05)


def test_example_15_radiation_from_temperatures() -> None:
    """45 43' N, July, 26.6 and 14.8 C: Ra 40.6, Rs 22.3 MJ/m2/day."""
    assert et.extraterrestrial_mj_m2(45.72, 196) == pytest.approx(40.6, abs=0.1)
    assert et.solar_from_temperatures_mj_m2(40.6, 14.8, 26.6) == pytest.approx(22.3, abs=0.05)


def test_example_17_monthly_penman_monteith() -> None:
    """13 44' N at 2 m, April, 34.8 and 25.6 C, ea 2.85, 2 m/s, 8.5 h sun: 5.72 mm/day."""
    ra = et.extraterrestrial_mj_m2(13.73, 105)
    assert ra == pytest.approx(38.06, abs=0.05)
    solar = et.solar_from_sunshine_mj_m2(ra, 8.5, et.daylight_hours(13.73, 105))
    net = et.net_shortwave_mj_m2(solar) - et.net_longwave_mj_m2(25.6, 34.8, 2.85, solar, et.clear_sky_mj_m2(ra, 2))
    gamma = et.psychrometric_kpa_c(et.pressure_kpa(2))
    heat = 0.14 * (30.2 - 29.2)
    got = et.penman_monteith_mm(30.2, net, 2.0, et.mean_saturation_kpa(25.6, 34.8), 2.85, gamma, heat)
    assert got == pytest.approx(5.72, abs=0.01)


def test_example_18_daily_penman_monteith() -> None:
    """50 48' N at 100 m, 6 July, 21.5 and 12.3 C, 84 and 63 per cent, 2.78 m/s at 10 m, 9.25 h sun: 3.9 mm/day."""
    wind = et.wind_at_2m_m_s(10 / 3.6, 10)
    ra = et.extraterrestrial_mj_m2(50.80, 187)
    solar = et.solar_from_sunshine_mj_m2(ra, 9.25, et.daylight_hours(50.80, 187))
    vapour = et.vapour_from_humidity_kpa(12.3, 21.5, 63, 84)
    assert solar == pytest.approx(22.07, abs=0.05)
    assert vapour == pytest.approx(1.409, abs=0.001)
    got = et.et0_mm(et.DayWeather(187, 12.3, 21.5, solar, vapour, wind), 50.80, 100)
    assert got == pytest.approx(3.88, abs=0.02)


def test_example_20_hargreaves() -> None:
    """45 43' N, July, Ra 40.6, 26.6 and 14.8 C: 5.0 mm/day by equation 52."""
    assert et.hargreaves_mm(14.8, 26.6, 40.6) == pytest.approx(5.0, abs=0.05)
