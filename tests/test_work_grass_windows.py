"""Browntop, kikuyu, carpetgrass and seashore paspalum are worked in the seasons of their homes."""

from datetime import date

import pytest

from planning import climate_at
from turfplan.files.reading.book import load_book
from turfplan.work.drafts import OpenDays
from turfplan.work.windows import operation_windows

YEAR = 2027
HOMES = {
    "Perth": (-31.95, 115.86),
    "Sydney": (-33.87, 151.21),
    "Durban": (-29.86, 31.02),
    "Johannesburg": (-26.2, 28.04),
    "Auckland": (-36.85, 174.76),
    "Dublin": (53.35, -6.26),
    "Dunedin": (-45.88, 170.5),
    "New Orleans": (29.95, -90.07),
    "Houston": (29.76, -95.37),
    "Miami": (25.77, -80.2),
    "Honolulu": (21.31, -157.86),
}


def windows_at(place: str, grass: str, operation: str) -> list[OpenDays]:
    """The windows of an operation that open in the year."""
    found = operation_windows(climate_at(*HOMES[place]), load_book(), grass, YEAR).windows
    return [window for window in found if window.operation == operation]


# Each with the days between which it opens, and days on which it is open.
OPENS = [
    # South African gardeners: August where it is temperate, September where it is cold.
    ("kikuyu", "topdress", "Durban", (7, 20), (9, 10), [(9, 15), (12, 1)]),
    ("kikuyu", "topdress", "Johannesburg", (8, 1), (9, 20), [(9, 25), (12, 1)]),
    # Botanic Gardens and Parks Authority, Perth: September to April, mainly in spring.
    ("kikuyu", "topdress", "Perth", (9, 1), (10, 31), [(11, 10), (12, 31)]),
    ("kikuyu", "topdress", "Sydney", (8, 20), (10, 15), [(10, 20), (12, 31)]),
    ("kikuyu", "topdress", "Auckland", (9, 15), (11, 10), [(11, 15), (12, 31)]),
    ("kikuyu", "plant", "Auckland", (9, 15), (11, 10), [(11, 15), (12, 31)]),
    # Ireland: mid August to September; the south is half a year away.
    ("browntop", "overseed", "Dublin", (8, 10), (8, 31), [(9, 5), (9, 30)]),
    ("browntop", "overseed", "Dunedin", (2, 5), (3, 5), [(3, 10), (4, 5)]),
    # Texas: mid April to May is ideal, nothing after 15 September.
    ("carpetgrass", "seed", "New Orleans", (3, 15), (4, 25), [(4, 30), (6, 15)]),
    ("carpetgrass", "seed", "Houston", (3, 15), (4, 25), [(4, 30), (6, 15)]),
    ("seashore_paspalum", "plant", "Perth", (9, 15), (11, 15), [(11, 20), (12, 31)]),
    ("seashore_paspalum", "topdress", "Miami", (2, 1), (4, 30), [(5, 15), (9, 1)]),
]


@pytest.mark.full
@pytest.mark.parametrize(("grass", "operation", "place", "early", "late", "inside"), OPENS)
def test_work_opens_with_the_season_of_the_grass(
    grass: str,
    operation: str,
    place: str,
    early: tuple[int, int],
    late: tuple[int, int],
    inside: list[tuple[int, int]],
) -> None:
    """The opening lies where practice of the place has it, and the season after it is open."""
    opened = [
        window
        for window in windows_at(place, grass, operation)
        if date(YEAR, *early) <= window.start <= date(YEAR, *late)
    ]
    assert len(opened) == 1, [w.start for w in windows_at(place, grass, operation)]
    assert all(opened[0].start <= date(YEAR, *day) <= opened[0].end for day in inside)


@pytest.mark.parametrize("place", ["New Orleans", "Houston"])
def test_no_carpetgrass_is_sown_in_autumn(place: str) -> None:
    """Texas: nothing after 15 September."""
    assert all(w.end <= date(YEAR, 9, 15) for w in windows_at(place, "carpetgrass", "seed"))


def test_paspalum_grows_in_all_months_of_honolulu() -> None:
    """Hawaii plants from March to May, and knows no month in which it could not."""
    (window,) = windows_at("Honolulu", "seashore_paspalum", "plant")
    assert window.start <= date(YEAR, 3, 1) and (window.end - window.start).days > 300


@pytest.mark.parametrize("place", ["Sydney", "Auckland", "Perth"])
def test_kikuyu_is_worked_before_other_warm_grass(place: str) -> None:
    """It grows on at temperatures that stop bermudagrass, and is worked weeks before it."""
    for operation in ("topdress", "dethatch", "core_aerate", "plant", "seed"):
        own = [w.start for w in windows_at(place, "kikuyu", operation)]
        bermuda = [w.start for w in windows_at(place, "bermuda_common", operation)]
        assert (min(bermuda) - min(own)).days >= 14, operation


@pytest.mark.parametrize("place", ["Johannesburg", "Sydney", "Auckland", "Perth"])
def test_nights_that_are_never_warm_close_no_feeding(place: str) -> None:
    """Grass that large patch does not reach is fed until its growth ends, weeks after midsummer."""
    ends = [
        date(YEAR, w.end.month, w.end.day) for w in windows_at(place, "kikuyu", "feed_nitrogen")
    ]
    assert date(YEAR, 3, 1) <= max(day for day in ends if day.month < 7) <= date(YEAR, 4, 10)


def test_nights_that_cool_close_the_feeding_of_the_gulf_in_august() -> None:
    """As Louisiana advises: none after about the middle of the month, or a little later."""
    ends = [w.end for w in windows_at("New Orleans", "carpetgrass", "feed_nitrogen")]
    assert date(YEAR, 8, 8) <= max(ends) <= date(YEAR, 8, 31)
