"""Windows move smoothly with climate: a part of the campaign `smooth`, whose own rules it tests."""

import pytest

from campaigns.smooth import MOST_DAYS, Open, jumps, moved
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
