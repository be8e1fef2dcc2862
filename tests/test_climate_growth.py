"""Growth of both kinds of grass by the air of a day."""

import math

import pytest

from turfplan.climate.growth import air_of_growth, growth_potential


@pytest.mark.parametrize(
    ("air_c", "cool", "warm"),
    [
        (20.0, 1.0, math.exp(-0.5 * (11 / 7) ** 2)),
        (25.5, math.exp(-0.5), math.exp(-0.5 * (5.5 / 7) ** 2)),
        (14.5, math.exp(-0.5), math.exp(-0.5 * (16.5 / 7) ** 2)),
        (24.0, math.exp(-0.5 * (4 / 5.5) ** 2), math.exp(-0.5)),
        (31.0, math.exp(-2.0), 1.0),
        (38.0, math.exp(-0.5 * (18 / 5.5) ** 2), 1.0),
    ],
)
def test_growth_is_a_bell_around_the_best_air(air_c: float, cool: float, warm: float) -> None:
    """20 C and 5.5 to each side for cool-season grass, 31 C and 7 below it for warm-season grass,
    which heat does not slow.
    """
    assert growth_potential(air_c, "cool") == pytest.approx(cool)
    assert growth_potential(air_c, "warm") == pytest.approx(warm)


@pytest.mark.parametrize(("season", "best", "width"), [("cool", 20.0, 5.5), ("warm", 31.0, 7.0)])
def test_the_air_of_a_share_of_growth_lies_on_the_cold_side(
    season: str, best: float, width: float
) -> None:
    """The inverse of growth: exp(-1/2) is a width below the best."""
    assert air_of_growth(math.exp(-0.5), season) == pytest.approx(best - width)
    assert air_of_growth(1.0, season) == best
    assert growth_potential(air_of_growth(0.3, season), season) == pytest.approx(0.3)
