"""Windows move smoothly with climate: a part of the campaign `smooth`, whose own rules it tests."""

from dataclasses import replace
from itertools import pairwise
from math import cos, tau

import pytest

from campaigns.smooth import (
    ALIKE_C,
    APART,
    MOST_DAYS,
    Open,
    Place,
    apart,
    climate,
    compare,
    drawn,
    jumps,
    lasting,
    least_swing,
    may_move,
    moved,
    of_nights,
    seasons,
)
from planning import climate_at
from turfplan.calendar_days import DAYS
from turfplan.climate.record import Frost
from turfplan.files.reading.book import load_book
from turfplan.work.growing_year import growing_year


@pytest.mark.parametrize(
    ("line", "grasses"),
    [
        ("central Europe", ("perennial_ryegrass",)),
        ("Gulf coast", ("bermuda_common",)),
        ("India", ("centipede",)),
    ],
)
def test_neighbours_have_like_windows(line: str, grasses: tuple[str, ...]) -> None:
    """Along a line no season of an operation appears or vanishes, and no end moves far."""
    compared, found = jumps(line, 0.0, grasses)
    assert compared > 50
    assert not found


@pytest.mark.parametrize(
    ("here", "there", "grass"),
    [
        # Nights that are warm in some years alone close feeding: how few they are changes fast.
        ((-31.5, -61.5), (-32.0, -62.0), "bermuda_common"),
        ((34.0, -85.5), (35.0, -79.5), "zoysia"),
        # The first feeding is a week long, or none.
        ((-15.0, 23.5), (-15.5, 23.5), "bermuda_common"),
        # Months that differ by little more than those of a year without seasons.
        ((-12.5, 25.0), (-13.5, 21.0), "bermuda_common"),
        # Winters whose rain lies about what dries up.
        ((-31.0, -57.0), (-31.0, -59.0), "tall_fescue"),
        ((-32.5, -60.0), (-33.0, -58.0), "kentucky_bluegrass"),
        # Frost in some years alone, at one place in fewer than every other.
        ((-30.5, -56.5), (-30.5, -54.5), "tall_fescue"),
        ((50.0, -3.5), (50.0, -6.5), "perennial_ryegrass"),
        # Months that hardly pass a mark.
        ((47.5, -123.0), (49.5, -124.5), "browntop"),
        # Two warm times, of which now the one is the warmer, now the other.
        ((12.0, -6.0), (12.0, -8.5), "bahia"),
    ],
)
def test_like_places_have_like_windows(here: Place, there: Place, grass: str) -> None:
    """Pairs that once jumped."""
    one, other = climate(here), climate(there)
    assert one is not None and other is not None
    compared, found = compare("a pair", [(here, one, there, other)], [grass])
    assert compared > 5
    assert not found


@pytest.mark.parametrize("grass", ["bermuda_common", "zoysia"])
@pytest.mark.parametrize(
    ("here", "there"),
    [
        # Borneo and Halmahera, Colombia and the Amazon, an atoll and the Solomon Islands.
        ((-3.5, 114.0), (-1.0, 129.5)),
        ((4.0, -66.0), (0.5, -71.5)),
        ((6.0, 169.5), (-9.0, 160.5)),
    ],
)
def test_where_months_are_alike_grass_is_fed_all_year(
    here: Place, there: Place, grass: str
) -> None:
    """No pause moves with a turn of the year that a tenth of a degree decides: those of these
    places lie weeks to months apart."""
    turns, fed = [], []
    for place in (here, there):
        found = climate(place)
        assert found is not None
        turns.append(growing_year(found, load_book(), grass).coldest)
        fed.append(seasons(found, grass)["feed_nitrogen"])
    assert abs((turns[0] - turns[1] + DAYS // 2) % DAYS - DAYS // 2) > MOST_DAYS
    assert min(days.bit_count() for days in fed) >= DAYS - 2 * MOST_DAYS
    assert moved(fed[0], fed[1], even=False) <= MOST_DAYS


def test_places_drawn_by_likeness_are_alike_and_lie_apart() -> None:
    """In every month, and by more than neighbours; where both have seasons no window jumps."""
    pairs = list(drawn(8, 1))
    assert len(pairs) == 8
    for here, one, there, other in pairs:
        assert apart(one.air_mean_c, other.air_mean_c) <= ALIKE_C
        assert max(abs(here[0] - there[0]), abs(here[1] - there[1])) > APART
    sure = [pair for pair in pairs if least_swing(pair[1], pair[3]) >= 15]
    compared, found = compare("likeness", sure, ["kentucky_bluegrass", "zoysia"])
    assert compared and not found


def test_grass_that_does_not_live_at_a_place_is_not_judged_there() -> None:
    """Bluegrass on the Zambezi, bermudagrass in Alaska."""
    for here, there, grass in (
        ((-15.0, 23.5), (-15.5, 23.5), "kentucky_bluegrass"),
        ((65.5, -152.0), (65.5, -154.5), "bermuda_common"),
    ):
        one, other = climate(here), climate(there)
        assert one is not None and other is not None
        assert compare("a pair", [(here, one, there, other)], [grass]) == (0, [])


def test_the_climate_of_a_cell_is_the_one_that_is_planned_with() -> None:
    """As far as windows ask for it."""
    for place in ((51.0, 0.5), (-12.5, 133.5)):
        found, planned = climate(place), climate_at(*place)
        assert found is not None
        for curve in ("air_mean_c", "air_min_c", "rain_mm", "et0_mm", "soil_10cm_c"):
            assert getattr(found, curve) == getattr(planned, curve), curve
        assert (found.last_frost, found.first_frost) == (planned.last_frost, planned.first_frost)
    assert climate((-50.0, -120.0)) is None


def test_an_end_may_move_the_farther_the_less_summer_and_winter_lie_apart() -> None:
    """Ten days where they lie 15 C apart, no more than 25 with seasons, 35 without."""
    one = climate_at(51.5, -0.1)

    def swinging(range_c: float) -> float:
        wave = tuple(10 + range_c / 2 * cos(tau * day / DAYS) for day in range(DAYS))
        there = replace(one, air_mean_c=wave)
        return may_move(there, there)

    assert [swinging(range_c) for range_c in (30.0, 15.0, 10.0, 6.0, 5.1, 2.0)] == pytest.approx(
        [10, 10, 15, 25, 25, 35]
    )


def test_what_hangs_on_nights_may_move_with_them() -> None:
    """Where they are less alike than days in proportion, and as far as frost does; other work may
    not."""
    one = climate_at(40.04, -76.3)
    warmer = replace(one, air_min_c=tuple(value + 0.75 for value in one.air_min_c))
    frosts = [replace(one, first_frost=Frost(day, day - 9, day + 9, 7)) for day in (350, 15, 32)]
    assert may_move(one, warmer) == may_move(frosts[0], frosts[1]) == 10
    assert may_move(one, warmer, nights=True) == pytest.approx(15)
    assert [may_move(a, b, nights=True) for a, b in pairwise(frosts)] == [30, 17]
    assert {"topdress", "touch_up"} <= of_nights("tall_fescue")
    assert not {"first_mow", "preemergent"} & of_nights("tall_fescue")
    assert "feed_nitrogen" in of_nights("centipede") - of_nights("tall_fescue")


def opened(*stretches: tuple[int, int]) -> Open:
    """The days of a year that are open: from a day, so many."""
    days = {(first + n) % DAYS for first, length in stretches for n in range(length)}
    return sum(1 << day for day in days)


def test_stretches_that_last_are_found_round_the_year() -> None:
    """Those of more than ten days, whole."""
    days = opened((360, 11), (100, 10), (200, 40))
    assert lasting(days, 10) == opened((360, 11), (200, 40))
    assert lasting(opened((0, DAYS)), 20) == opened((0, DAYS))
    assert lasting(days, 0) == days


@pytest.mark.parametrize(
    ("here", "there", "days"),
    [
        (opened((100, 40)), opened((110, 40)), 10),
        (opened((100, 40)), opened((100, 51)), 11),
        (opened((360, 40)), opened((4, 26)), 9),
        (opened((100, 40)), opened(), DAYS),
        (opened((100, 16)), opened(), 8),
        (opened((100, 17)), opened(), DAYS),
        (opened((100, 40), (200, 30)), opened((100, 40)), DAYS // 2 - 91),
        (opened((0, DAYS)), opened((0, DAYS - 20)), 10),
        (opened((0, DAYS)), opened((0, DAYS - 30)), DAYS),
    ],
)
def test_how_far_seasons_differ(here: Open, there: Open, days: int) -> None:
    """An end that moved by its days; what appears or vanishes by more than any end may."""
    found = moved(here, there, even=False)
    assert found == days or (days > MOST_DAYS and found > MOST_DAYS)
    assert found == moved(there, here, even=False)


def test_what_closes_when_an_end_moves_as_far_as_it_may_is_passed_over() -> None:
    """A window of a month where ends may move by 25 days."""
    month, none = opened((100, 31)), opened()
    assert moved(month, none, even=False) == DAYS
    assert moved(month, none, even=False, may=25.0) <= 25


def test_windows_without_a_place_in_the_year_are_compared_by_length() -> None:
    """Half of the difference: each end may have moved."""
    assert moved(opened((0, 100)), opened((200, 120)), even=True) == 10
