"""Printed answers of fertilizer, lime and run-time sums, each with its source."""

import pytest

from turfplan.book.bag_analysis import parse_analysis
from turfplan.units import INCH_MM, LB_PER_1000FT2_G_M2, POUND_KG
from turfplan.work.feeding.nutrients import lime_product_g_m2, split_lime
from turfplan.work.watering.run_times import run_minutes

POUND_OF_N = LB_PER_1000FT2_G_M2


def lb_per_1000ft2(g_m2: float) -> float:
    return g_m2 / LB_PER_1000FT2_G_M2


@pytest.mark.parametrize(
    ("analysis", "printed_lb"),
    [
        ("28-3-6", 3.57),  # University of Nebraska-Lincoln, lawn fertilizer calculations
        ("16-4-8", 6.25),  # the same sum for a common analysis, in the project's design notes
        ("10-10-10", 10.0),
    ],
)
def test_product_for_a_pound_of_nitrogen(analysis: str, printed_lb: float) -> None:
    """Pounds of product for 1 lb of nitrogen on 1,000 ft2."""
    assert lb_per_1000ft2(parse_analysis(analysis).product_g_m2(POUND_OF_N)) == pytest.approx(
        printed_lb, abs=0.005
    )


def test_trap_8_8_8_is_not_10_pounds() -> None:
    """A common text gives 10 lb for "8-8-8 or 10-10-10"; that holds for 10-10-10 alone: 8-8-8 takes
    12.5 lb.
    """
    assert lb_per_1000ft2(parse_analysis("8-8-8").product_g_m2(POUND_OF_N)) == pytest.approx(12.5)


def test_lime_by_calcium_carbonate_equivalent() -> None:
    """Penn State laboratory: 75 lb at CCE 80 take 94 lb (93.75); 5 lb at 70 take 7.14 lb."""
    assert lime_product_g_m2(75, 80) == pytest.approx(93.75)
    assert lime_product_g_m2(5, 70) == pytest.approx(7.14, abs=0.005)


def test_lime_over_the_single_limit_is_split_evenly() -> None:
    """Penn State laboratory: no application above 100 lb/1,000 ft2; 230 lb go on in three."""
    parts = split_lime(230 * POUND_OF_N, 100 * POUND_OF_N)
    assert len(parts) == 3
    assert sum(parts) == pytest.approx(230 * POUND_OF_N)
    assert split_lime(100 * POUND_OF_N, 100 * POUND_OF_N) == (100 * POUND_OF_N,)


def test_run_time_of_a_chart() -> None:
    """A regional watering programme's chart: 0.20 in a day at 0.50 in/h take 24 min; on three days
    a week 56 min each.
    """
    daily = run_minutes(0.20 * INCH_MM, 0.50 * INCH_MM)
    assert daily == pytest.approx(24)
    assert daily * 7 / 3 == pytest.approx(56)


def test_a_tenth_of_an_inch_over_a_lawn() -> None:
    """0.1 in over 6,000 ft2 are 374 gal, 75 min at 5 gpm (geometry)."""
    gallons = 0.1 / 12 * 6000 * 1728 / 231
    assert gallons == pytest.approx(374, abs=0.5)
    assert gallons / 5 == pytest.approx(75, abs=0.5)
    assert pytest.approx(0.45359237) == POUND_KG
