"""Why a feeding is left out, as it is told, and who decides on late nitrogen."""

from datetime import date, timedelta

import pytest

import water_cases as cases
from told import told
from turfplan.files.reading.book import load_book
from turfplan.message import Message
from turfplan.units import System
from turfplan.work.feeding.plan import FeedingPlan, FeedingWork, feeding_plan
from turfplan.work.feeding.slots import (
    FeedingSeason,
    OpenTo,
    late_policy,
    late_reason,
    slots_of,
)

BOOK = cases.book()


@pytest.mark.parametrize(
    ("region", "asked", "given", "words"),
    [
        (None, True, True, "The brief asks for it."),
        ("british_isles", True, True, "The brief asks for it."),
        ("arid_west", False, False, "The brief leaves it out."),
        (None, None, False, "Advice on it differs; it is left out unless the brief asks for it."),
        (
            "arid_west",
            None,
            True,
            "It is usual in the arid West of the United States; the brief can ask for the other.",
        ),
        (
            "australia_new_zealand",
            None,
            False,
            "It is usually left out in Australia and New Zealand; the brief can ask for the other.",
        ),
    ],
)
def test_who_decides_on_late_nitrogen(
    region: str | None, *, asked: bool | None, given: bool, words: str
) -> None:
    """The brief, else the habit of the region, else the default; with what speaks for it."""
    brief = cases.brief(local={} if asked is None else {"late_nitrogen": asked})
    season = FeedingSeason(brief, load_book(region), cases.cool_climate(), "tall_fescue", ())
    decided, why = late_policy(season)
    assert (decided, told(why, region=region)) == (given, words)
    reason = told(late_reason(season), region=region)
    assert reason.startswith("Nitrogen after growth has slowed") and reason.endswith(words)


def fed(species: str = "tall_fescue", **changes: object) -> FeedingPlan:
    """The feeding of a year with the usual windows of the grass."""
    cool = BOOK.species[species].season == "cool"
    windows = cases.COOL_OPENINGS if cool else cases.WARM_OPENINGS
    work = FeedingWork(windows, date(2027, 3, 1), date(2028, 2, 28))
    climate = cases.cool_climate() if cool else cases.warm_climate()
    return feeding_plan(cases.brief(**changes), BOOK, climate, species, work)


def reasons(plan: FeedingPlan) -> set[str]:
    """Why feedings were left out, as a reader in the United States reads it."""
    return {told(why) for _, why in plan.skipped}


def test_what_is_left_out_says_why() -> None:
    """Covered by what was given, closed by law, or the grass's own rest."""
    rich = fed(history={"nitrogen": [{"rate": "4 lb/1000ft2", "on": date(2027, 2, 1)}]})
    assert "What was given and what compost gives already cover the season's nitrogen." in reasons(
        rich
    )
    span = {"from": "01-01", "to": "12-31"}
    assert reasons(fed(local={"nitrogen_blackouts": [span]})) == {
        "The whole window lies in a blackout: no nitrogen from Jan 1 to Dec 31 by the local rules"
        " in the brief."
    }
    assert "Centipede takes no nitrogen in spring (North Carolina State)." in reasons(
        fed("centipede")
    )


def test_rates_are_told_in_the_readers_units() -> None:
    """The reason of a feeding names its rate, the year's, the growth then, and the most at once."""
    feed = fed().feeds[0]
    assert told(feed.reason, System.METRIC).count("g/m²") == 3
    assert told(feed.reason).count("lb/1,000 ft²") == 3 and "% of its best" in told(feed.reason)


def test_two_windows_too_near_each_other_are_one_feeding() -> None:
    """The one at a time of weaker growth is left out, with the days that must lie between."""
    day = date(2027, 9, 5)
    near = tuple(
        cases.Opening("feed_nitrogen", "autumn", start, start + timedelta(2), start)
        for start in (day, day + timedelta(20))
    )
    work = FeedingWork(near, date(2027, 3, 1), date(2028, 2, 28))
    plan = feeding_plan(cases.brief(), BOOK, cases.cool_climate(), "tall_fescue", work)
    gap = round(BOOK.low_si("feeding.least_gap") + BOOK.si("feeding.tolerance"))
    left_out: list[Message] = [why for key, why in plan.skipped if key == "autumn"]
    assert len(plan.feeds) == 1
    assert [told(why) for why in left_out] == [
        f"Less than {gap} days from a feeding at a time of stronger growth."
    ]


def test_a_resting_day_weighs_a_twentieth() -> None:
    """So that shares stay defined where grass hardly grows; a growing one weighs as it grows."""
    warm = cases.warm_climate()
    season = FeedingSeason(cases.brief(), BOOK, warm, "zoysia", ())
    days = date(2027, 1, 20), date(2027, 7, 1)
    assert warm.growth_potential(days[0], "warm") < 0.05
    windows = [cases.Opening("feed_nitrogen", "summer", day, day, day) for day in days]
    slots = slots_of(season, windows, date(2027, 1, 1), date(2027, 12, 31), OpenTo(), [])
    weights = {slot.best: slot.weight for slot in slots}
    assert weights[days[0]] == 0.05
    assert weights[days[1]] == warm.growth_potential(days[1], "warm") > 0.5
