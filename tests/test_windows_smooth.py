"""Windows move smoothly with climate: a part of the campaign `smooth`, whose own rules it tests."""

import pytest

from campaigns.smooth import (
    ALIKE_C,
    APART,
    MOST_DAYS,
    Open,
    Place,
    climate,
    compare,
    drawn,
    full_seasons,
    jumps,
    months,
    moved,
)
from turfplan.calendar_days import DAYS


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
    ],
)
def test_like_places_have_like_windows(here: Place, there: Place, grass: str) -> None:
    """Pairs that once jumped."""
    one, other = climate(here), climate(there)
    assert one is not None and other is not None
    compared, found = compare("a pair", [(here, one, there, other)], [grass])
    assert compared > 5
    assert not found


def test_places_drawn_by_likeness_are_alike_and_lie_apart() -> None:
    """In every month, and by more than neighbours; where both have seasons no window jumps."""
    pairs = list(drawn(8, 1))
    assert len(pairs) == 8
    for here, one, there, other in pairs:
        apart = [abs(a - b) for a, b in zip(months(one), months(other), strict=True)]
        assert max(apart) <= ALIKE_C
        assert max(abs(here[0] - there[0]), abs(here[1] - there[1])) > APART
    sure = [pair for pair in pairs if full_seasons(pair[1], pair[3])]
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


def opened(*stretches: tuple[int, int]) -> Open:
    """The days of a year that are open: from a day, so many."""
    days = {(first + n) % DAYS for first, length in stretches for n in range(length)}
    return tuple(day in days for day in range(DAYS))


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
    found = moved(here, there, without_seasons=False)
    assert found == days or (days > MOST_DAYS and found > MOST_DAYS)
    assert found == moved(there, here, without_seasons=False)


def test_windows_without_a_place_in_the_year_are_compared_by_length() -> None:
    """Half of the difference: each end may have moved."""
    assert moved(opened((0, 100)), opened((200, 120)), without_seasons=True) == 10
