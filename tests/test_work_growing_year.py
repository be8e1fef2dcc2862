"""The turning points of a growing year, and the days on which its curves pass a mark."""

from dataclasses import replace
from math import cos, tau
from typing import Any

import pytest

import water_cases as cases
from turfplan.records.book_names import NamedFact
from turfplan.work.growing_year import (
    GrowingYear,
    _between,
    _days_above,
    coming,
    growing_year,
    share_below,
    swing,
    turning_points,
)

BOOK, COOL = cases.book(), cases.cool_climate()
DAYS = 365


def wave(mean: float, half: float, peak: float) -> tuple[float, ...]:
    """A year that swings by so much to either side of its mean once, highest at a place of it."""
    return tuple(mean + half * cos(tau * (day + 0.5 - peak) / DAYS) for day in range(DAYS))


def year(climate: Any = COOL, coldest: int = 10, hottest: int = 192) -> GrowingYear:
    """A growing year with given turning points."""
    return GrowingYear(climate, BOOK, "tall_fescue", coldest, hottest)


def test_the_turning_points_are_the_middles_of_the_cold_and_the_warm_half() -> None:
    """Of one wave its lowest and its highest day, round the year too."""
    for peak, coldest, hottest in ((200.5, 18, 200), (20.5, 203, 20), (182.6, 0, 182)):
        assert turning_points(wave(10.0, 8.0, peak)) == (coldest, hottest)


def test_a_year_without_seasons_turns_with_the_wave_that_fits_it_best() -> None:
    """A spike does not move that; with half of the seasons it lies half way."""
    spiked = list(wave(20.0, 1.0, 200.5))
    for day in range(300, 310):
        spiked[day] = 30.0
    curve = tuple(spiked)
    whole, none = turning_points(curve, 1.0)[1], turning_points(curve, 0.0)[1]
    assert whole > 290 and 200 < none < 290
    assert turning_points(curve, 0.5)[1] == pytest.approx((whole + none) / 2, abs=1.5)


@pytest.mark.parametrize(
    ("here", "there", "share", "place"),
    [
        (10, 20, 0.5, 15),
        (20, 10, 0.25, 17),
        (360, 10, 0.5, 2),
        (10, 360, 0.5, 2),
        (10, 360, 1.0, 360),
        (10, 20, 0.0, 10),
    ],
)
def test_a_place_between_two_lies_on_the_short_way_round_the_year(
    here: float, there: float, share: float, place: int
) -> None:
    """In whole days."""
    assert _between(here, there, share, DAYS / 2) == place


def test_a_turn_of_the_year_lies_near_that_of_its_wave() -> None:
    """Of two warm times, far from it, neither draws it farther than so many days."""
    two = tuple(
        max(one, 26.0 - abs(day - 100) / 10) for day, one in enumerate(wave(20.0, 4.0, 200.5))
    )
    free, near = turning_points(two, 1.0), turning_points(two, 1.0, 5.0)
    plain = turning_points(two, 0.0)
    assert abs(free[1] - plain[1]) > 5
    assert abs(near[1] - plain[1]) == pytest.approx(5, abs=1)
    assert turning_points(two, 0.5, 5.0)[1] == pytest.approx((near[1] + plain[1]) / 2, abs=1)


def test_the_swing_of_a_year_is_the_range_of_its_wave() -> None:
    """Of one wave its own; one hot day hardly moves it."""
    assert swing(wave(10.0, 8.0, 200.5)) == pytest.approx(16.0)
    spiked = (*wave(10.0, 8.0, 200.5)[:-1], 30.0)
    assert 16.0 < swing(spiked) < 16.5


def test_a_mark_is_passed_by_degrees_where_seasons_fade() -> None:
    """As far as years lie apart where there are no seasons, and where they are marked."""
    names = ("even_year", "seasonal_year", "marked_year", "years_apart", "fading_apart")
    even, whole, marked, apart, fading = (BOOK.si(NamedFact(f"windows.{name}")) for name in names)

    def blur(range_c: float) -> float:
        return year(replace(COOL, air_mean_c=wave(15.0, range_c / 2, 200.5))).blur

    assert [blur(c) for c in (even - 1, even, marked, marked + 5)] == pytest.approx([apart] * 4)
    assert blur(whole) == pytest.approx(fading)
    for one, other in ((even, whole), (whole, marked)):
        assert blur((one + other) / 2) == pytest.approx((apart + fading) / 2)


def test_a_growing_year_runs_from_winter_over_summer_to_winter() -> None:
    """In the south summer is counted on into the next calendar year."""
    north, south = (growing_year(c, BOOK, "tall_fescue") for c in (COOL, cases.south_climate()))
    assert (north.coldest, north.hottest, north.next_coldest) == (18, 200, 383)
    assert (south.coldest, south.hottest, south.next_coldest) == (200, 365 + 18, 565)
    one_year = replace(COOL, usual_air_c=COOL.air_mean_c, air_mean_c=wave(10.0, 8.0, 100.5))
    assert growing_year(one_year, BOOK, "tall_fescue").hottest == 200


def test_summers_are_hot_and_years_have_seasons_by_the_book() -> None:
    """From nothing at the one number to all at the other."""
    low, high = (BOOK.si(NamedFact(f"windows.{name}_summer")) for name in ("cool", "hot"))
    found = [
        year(replace(COOL, air_mean_c=(0.0,) * 364 + (low + share * (high - low),))).summer
        for share in (-0.5, 0.0, 0.25, 1.0, 1.5)
    ]
    assert found == pytest.approx([0, 0, 0.25, 1, 1])
    few, many = BOOK.si(NamedFact("windows.even_year")), BOOK.si(NamedFact("windows.seasonal_year"))

    def swinging(share: float) -> GrowingYear:
        range_c = few + share * (many - few)
        return year(replace(COOL, air_mean_c=wave(5.0, range_c / 2, 200.5)))

    assert [swinging(s).seasons for s in (-0.1, 0.0, 0.25, 1.0, 2.0)] == pytest.approx(
        [0, 0, 0.25, 1, 1]
    )
    told = BOOK.si("windows.even_told")
    assert swinging(told - 0.01).even and not swinging(told + 0.01).even
    usual = replace(COOL, air_mean_c=(5.0,) * 365, usual_air_c=swinging(0.25).climate.air_mean_c)
    assert year(usual).seasons == pytest.approx(0.25)


def test_a_year_is_endless_where_no_turn_of_it_can_be_told() -> None:
    """Not at all where it is told to have seasons, wholly from two degrees of swing down."""

    def endless(range_c: float) -> float:
        return year(replace(COOL, air_mean_c=wave(25.0, range_c / 2, 200.5))).endless

    few, many = BOOK.si(NamedFact("windows.even_year")), BOOK.si(NamedFact("windows.seasonal_year"))
    told = few + BOOK.si("windows.even_told") * (many - few)
    none = BOOK.si("windows.endless_year")
    found = [endless(c) for c in (told + 1, told, (told + none) / 2, none, none - 1)]
    assert found == pytest.approx([0, 0, 0.5, 1, 1])


def test_days_of_a_year_without_seasons_are_brought_to_its_turn() -> None:
    """All of the way where it has none, none of it where it has all."""
    few, many = BOOK.si(NamedFact("windows.even_year")), BOOK.si(NamedFact("windows.seasonal_year"))
    quarter = year(replace(COOL, air_mean_c=wave(5.0, (few + 0.25 * (many - few)) / 2, 200.5)))
    assert quarter.evened(140.0, 100) == pytest.approx(110)
    assert year().evened(140.0, 100) == 140


def test_day_numbers_go_on_round_the_year() -> None:
    """The first on or after a start; the air of a day is that of its place."""
    assert [year().after(50, start) for start in (40, 50, 51, 500)] == [50, 50, 415, 780]
    assert year().air_c(365 + 7) == COOL.air_mean_c[7]


STEPS = (0.0,) * 100 + (10.0,) * 100 + (0.0,) * 165


def test_a_curve_rises_and_falls_through_a_mark_on_its_days() -> None:
    """Winter is day 10, summer 150, the next winter 375: above from 100 up to 200."""
    of = year(hottest=150)
    assert (of.rises(STEPS, 5.0, 1.0), of.falls(STEPS, 5.0, 1.0)) == (100, 200)
    # Always above: at the depth of winter, and at the next; never: at the height of summer.
    assert (of.rises(STEPS, -5.0, 1.0), of.falls(STEPS, -5.0, 1.0)) == (10, 375)
    assert (of.rises(STEPS, 15.0, 1.0), of.falls(STEPS, 15.0, 1.0)) == (150, 150)
    late = (0.0,) * 170 + (10.0,) * 195
    assert (of.rises(late, 5.0, 1.0), of.rises(late, 5.0, 1.0, lag=30)) == (150, 170)


def test_days_near_a_mark_count_in_part() -> None:
    """At the mark half; a blur above it whole, a blur below not at all."""

    def above(value: float) -> float:
        return _days_above((value,) * 365, 5.0, 2.0, 0, 10)

    assert [above(v) for v in (3.0, 4.0, 5.0, 6.5, 7.0, 9.0)] == pytest.approx(
        [0, 2.5, 5, 8.75, 10, 10]
    )
    assert _days_above(STEPS, 5.0, 1.0, 190, 210) == 10
    assert _days_above(STEPS, 5.0, 1.0, 460, 470) == 5


def test_the_share_of_years_below_a_mark() -> None:
    """Half at it, none from a blur above, all from a blur below."""
    found = [share_below(v, 5.0, 2.0) for v in (2.0, 3.0, 4.0, 5.0, 6.5, 7.0, 8.0)]
    assert found == pytest.approx([1, 1, 0.75, 0.5, 0.125, 0, 0])


def test_coming_days_are_means_round_the_year() -> None:
    """From each place on."""
    curve = tuple(float(day) for day in range(365))
    means = coming(curve, 4)
    assert (means[0], means[10], means[363]) == (1.5, 11.5, (363 + 364 + 0 + 1) / 4)
    assert len(means) == 365 and coming(curve, 1) == curve


def test_rain_covers_the_coming_days_from_the_first_that_it_does() -> None:
    """Up to an end and the height of summer; the day itself where it never does."""
    rain = (1.0,) * 50 + (3.0,) * 315
    climate = replace(COOL, rain_mm=rain, et0_mm=(2.0,) * 365)
    of = year(climate, hottest=192)
    # Of four days two have to be of the second kind.
    assert of.rains_from(20, 100, 4) == 48
    assert of.rains_from(60, 100, 4) == 60
    assert of.rains_from(20, 48, 4) == 48 and of.rains_from(20, 47, 4) == 20
    assert year(climate, hottest=47).rains_from(20, 100, 4) == 20
