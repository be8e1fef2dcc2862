"""Autumn seed of cool-season grass and the first frosts: in mountains, north and south."""

from dataclasses import replace
from itertools import pairwise

import pytest

from planning import climate_at
from turfplan.calendar_days import DAYS, day_index
from turfplan.climate.record import Climate, Frost
from turfplan.files.reading.book import load_book
from turfplan.work.drafts import OpenDays
from turfplan.work.windows import operation_windows

BOOK = load_book()
BLUEGRASS = "kentucky_bluegrass"
# From the slowest to come up to the quickest.
SLOW_TO_QUICK = (BLUEGRASS, "tall_fescue", "perennial_ryegrass")
MOUNTAINS = {
    "Steamboat Springs": (40.48, -106.83),
    "Gunnison": (38.54, -106.93),
    "Monument": (39.09, -104.87),
    "Bariloche": (-41.13, -71.3),
    "highlands of Lesotho": (-29.5, 29.0),
}
# A germination, and two weeks until a seedling can be mown: more than three weeks of mild autumn.
LEAST_BEFORE_KILLING = 21


def autumn_seed(there: Climate, grass: str) -> OpenDays | None:
    """The days in autumn on which a grass is sown."""
    found = operation_windows(there, BOOK, (grass,), 2027).windows
    return next((w for w in found if w.rule == "cool_seed_autumn"), None)


def days_before(window: OpenDays, index: int) -> int:
    """Days from the last of a window to a place in the year."""
    return (index - day_index(window.end) + DAYS // 2) % DAYS - DAYS // 2


def killed(there: Climate) -> int:
    """The day on which nights have fallen from the first frost to one of 28 degF."""
    assert there.first_frost is not None
    first = there.first_frost.median
    mark = there.air_min_c[first] + BOOK.si("windows.killing_frost")
    return next(
        day % DAYS for day in range(first, first + DAYS) if there.air_min_c[day % DAYS] < mark
    )


@pytest.mark.parametrize("place", MOUNTAINS)
def test_bluegrass_comes_up_before_the_frosts_of_mountains(place: str) -> None:
    """It is sown so long before a killing frost, and has weeks to be sown in, after midsummer."""
    there = climate_at(*MOUNTAINS[place])
    window = autumn_seed(there, BLUEGRASS)
    assert window is not None and there.first_frost is not None
    assert (window.end - window.start).days >= 20
    assert days_before(window, killed(there)) >= LEAST_BEFORE_KILLING
    assert days_before(window, there.first_frost.median) >= 10


@pytest.mark.parametrize("place", ["Steamboat Springs", "Monument", "highlands of Lesotho"])
def test_slow_seed_is_sown_sooner_where_frost_ends_its_time(place: str) -> None:
    """Bluegrass before tall fescue, and this before ryegrass."""
    there = climate_at(*MOUNTAINS[place])
    windows = [autumn_seed(there, grass) for grass in SLOW_TO_QUICK]
    ends = [window.end for window in windows if window is not None]
    assert len(ends) == len(SLOW_TO_QUICK)
    assert ends == sorted(ends) and len(set(ends)) == len(ends)


def test_a_frost_that_the_owner_knows_of_ends_seed_sooner() -> None:
    """Bend in its valley: the first frost a week, a month earlier; the window moves along with it
    and keeps its three weeks."""
    there = climate_at(44.06, -121.31)
    assert there.first_frost is not None
    usual = there.first_frost.median
    before = autumn_seed(there, BLUEGRASS)
    assert before is not None
    ends = [before.end]
    for days in range(1, 36):
        frost = Frost(usual - days, usual - days - 10, usual - days + 10, 7)
        window = autumn_seed(replace(there, first_frost=frost), BLUEGRASS)
        assert window is not None
        assert (window.end - window.start).days >= 20
        ends.append(window.end)
    steps = [(one - other).days for one, other in pairwise(ends)]
    assert all(0 <= step <= 2 for step in steps)
    assert (ends[0] - ends[-1]).days >= 14


@pytest.mark.parametrize(
    ("latitude", "longitude"), [(39.77, -86.16), (40.04, -76.3), (51.5, -0.1), (-35.3, 149.1)]
)
def test_frost_moves_nothing_where_warmth_ends_first(latitude: float, longitude: float) -> None:
    """In lowlands seed of tall fescue ends on the same day whether frost comes or never does."""
    there = climate_at(latitude, longitude)
    usual, frostless = (
        autumn_seed(climate, "tall_fescue") for climate in (there, replace(there, first_frost=None))
    )
    assert usual is not None and frostless is not None
    assert 0 <= (frostless.end - usual.end).days <= 7


@pytest.mark.parametrize("place", ["Steamboat Springs", "Gunnison"])
def test_spring_seed_of_mountains_waits_for_growth_and_leaves_summer_to_it(place: str) -> None:
    """From the middle of May on, best in the weeks after the last frost."""
    there = climate_at(*MOUNTAINS[place])
    found = operation_windows(there, BOOK, (BLUEGRASS,), 2027).windows
    spring = next(w for w in found if w.rule == "cool_seed_spring")
    assert there.last_frost is not None
    assert (spring.start.month, spring.start.day) >= (5, 10)
    assert 7 <= day_index(spring.best) - there.last_frost.median <= 40
