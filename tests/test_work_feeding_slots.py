"""Why a feeding is left out, as it is told, and who decides on late nitrogen."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from told import told
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.message import Message, as_written
from turfplan.records.constraints import DaySet
from turfplan.units import System
from turfplan.work.feeding.balance import Given
from turfplan.work.feeding.blackouts import Blackout
from turfplan.work.feeding.plan import FeedingPlan, FeedingWork, feeding_plan
from turfplan.work.feeding.slots import (
    AFTER_PASS,
    ASKED,
    BEST,
    OTHER,
    WISHED,
    FeedingSeason,
    OpenTo,
    Skips,
    _after_pass,
    _around,
    _spaced,
    closed_by,
    in_heat,
    late_policy,
    late_reason,
    open_spans,
    slots_of,
    sowing_of,
    tightest_gap_days,
)
from turfplan.work.feeding.stages import Quiet

BOOK = cases.book()


@pytest.mark.full
@pytest.mark.parametrize(
    ("region", "asked", "given", "words"),
    [
        (None, True, True, "You asked for it."),
        ("british_isles", True, True, "You asked for it."),
        ("arid_west", False, False, "You left it out."),
        (None, None, False, "Advice on it differs; it is left out unless you ask for it."),
        (
            "arid_west",
            None,
            True,
            "It is usual in the arid West of the United States; you can ask for the other.",
        ),
        (
            "australia_new_zealand",
            None,
            False,
            "It is usually left out in Australia and New Zealand; you can ask for the other.",
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
        " that were given."
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


DAY = date(2027, 5, 1)


def flat(air_c: float = 16.0, soil_c: float = 16.0) -> Climate:
    """A year that is as warm on each day."""
    air, soil = (air_c,) * 365, (soil_c,) * 365
    return replace(cases.cool_climate(), air_mean_c=air, soil_5cm_c=soil, soil_10cm_c=soil)


def season_of_lawn(
    climate: Climate | None = None,
    *blackouts: Blackout,
    species: str = "tall_fescue",
    **parts: Any,
) -> FeedingSeason:
    """What the choice of days depends on, in the flat year."""
    return FeedingSeason(cases.brief(**parts), BOOK, climate or flat(), species, blackouts)


def blackout(first: tuple[int, int], last: tuple[int, int]) -> Blackout:
    """A rule of the owner's."""
    return Blackout(first, last, as_written("the rule"), as_written("its source"))


def after(days: int) -> date:
    """So many days after the first of May."""
    return DAY + timedelta(days)


def window(first: int, last: int, best: int, season: str = "spring") -> cases.Opening:
    """Days of nitrogen, by days after the first of May."""
    return cases.Opening("feed_nitrogen", season, after(first), after(last), after(best))


def test_a_feeding_is_capped_by_the_book_the_grass_and_the_state() -> None:
    """The least of them; by the half of the year for cool-season grass, in the flat year spring."""
    single = BOOK.si("feeding.single_max")
    assert season_of_lawn().most_g_m2 == single
    assert season_of_lawn(species="centipede").most_g_m2 == BOOK.si("feeding.most_centipede")
    ruled = replace(season_of_lawn(), brief=in_state("PA"))
    assert ruled.most_g_m2 == BOOK.si("law.us_pa_nitrogen_single_max") < single
    lawn = season_of_lawn(cases.cool_climate())
    spring, autumn = BOOK.si("feeding.cap_cool_spring"), BOOK.si("feeding.cap_cool_autumn")
    assert (lawn.cap_g_m2(DAY), lawn.cap_g_m2(date(2027, 9, 1))) == (spring, autumn)
    ruled = replace(lawn, brief=in_state("PA"))
    assert (ruled.cap_g_m2(DAY), ruled.cap_g_m2(date(2027, 9, 1))) == (spring, ruled.most_g_m2)
    assert season_of_lawn(species="zoysia").cap_g_m2(DAY) == single


def in_state(state: str) -> Any:
    """The brief of a lawn in a state of the US."""
    brief = cases.brief()
    place = brief.place.model_copy(update={"country": "US", "state": state})
    return brief.model_copy(update={"place": place})


def test_the_year_grows_warmer_until_its_warmest_day() -> None:
    """By the month around a day: to 20 July in the north, to 19 January in the south."""
    north, south = season_of_lawn(cases.cool_climate()), season_of_lawn(cases.south_climate())
    assert [north.warming(date(2027, 7, day)) for day in (18, 19, 21, 22)] == [True] * 2 + [
        False
    ] * 2
    assert [south.warming(date(2027, 1, day)) for day in (17, 18, 20)] == [True, True, False]
    assert season_of_lawn().warming(DAY), "as warm after as before"
    assert (north.quarter(DAY), south.quarter(DAY)) == ("spring", "autumn")
    assert north.gap_days == 35


def test_a_cool_grass_without_a_hot_summer_begins_its_year_in_spring() -> None:
    """Up to the mark on the warmest day; a warm one never."""
    mark = BOOK.si("windows.cool_summer")
    assert season_of_lawn(flat(mark)).begins_in_spring
    assert not season_of_lawn(flat(mark + 0.01)).begins_in_spring
    assert not season_of_lawn(cases.cool_climate()).begins_in_spring
    assert not season_of_lawn(species="zoysia").begins_in_spring


def test_the_sowing_is_the_first_window_of_one_whose_best_day_is_in_time() -> None:
    """From the first day to the last."""
    sow = replace(window(0, 20, 10), operation="overseed")
    found = [sowing_of([window(0, 9, 5), sow], after(n), after(n + 5)) for n in (4, 5, 10, 11)]
    assert found == [None, sow, sow, None]


def test_a_feeding_goes_on_the_day_of_work_nearest_to_its_best() -> None:
    """Before or after it, within its days."""
    days = DaySet.from_days([after(n).toordinal() for n in (0, 4, 10)])
    open_to = OpenTo(days=days)
    asked = [(0, 10, 1), (0, 10, 3), (0, 10, 10), (1, 10, 1), (5, 9, 7), (5, 10, 6), (0, 9, 8)]
    found = [open_to.work_day(after(a), after(b), after(best)) for a, b, best in asked]
    assert found == [after(n) if n is not None else None for n in (0, 4, 10, 4, None, 10, 4)]
    assert OpenTo().work_day(after(0), after(1), after(5)) == after(5)


def why_closed(day: int = 0, lawn: FeedingSeason | None = None, **closes: Any) -> str | None:
    """The key of what closes a day."""
    found = closed_by(lawn or season_of_lawn(), OpenTo(**closes), after(day))
    return None if found is None else found.key


def test_a_day_is_closed_by_rules_stand_passes_and_other_feedings_to_their_last_day() -> None:
    """Each from its first day on."""
    assert why_closed() is None
    rule = season_of_lawn(None, blackout((5, 3), (5, 5)))
    assert [why_closed(n, rule) is None for n in (1, 2, 4, 5)] == [True, False, False, True]
    quiet = (Quiet(after(2), after(4), as_written("young")),)
    assert [why_closed(n, quiet=quiet) is None for n in (1, 2, 4, 5)] == [True, False, False, True]
    # For three days from the pass on.
    found = [why_closed(n, passes=[after(2)]) is None for n in (1, 2, 4, 5)]
    assert found == [True, False, False, True]
    # 28 days lie between two feedings at least; compost is none.
    given = [Given(after(40), after(44), 2.0)]
    found = [why_closed(n, given=given) is None for n in (12, 13, 71, 72)]
    assert found == [True, False, False, True]
    assert why_closed(40, given=[Given(after(40), after(44), 2.0, feeding=False)]) is None


def test_a_day_is_closed_by_cold_by_heat_and_by_the_rest_of_its_grass() -> None:
    """Soil below its least; for cool-season grass air above the mark of its half of the year."""
    least, mark = BOOK.si("feeding.least_soil"), BOOK.si("windows.cool_feed_spring_closes")
    assert why_closed(0, season_of_lawn(flat(soil_c=least))) is None
    assert why_closed(0, season_of_lawn(flat(soil_c=least - 0.1))) is not None
    assert why_closed(0, season_of_lawn(flat(mark))) is None
    hurts = BOOK.si("windows.hot_summer")
    assert mark < hurts and why_closed(0, season_of_lawn(flat(hurts))) is None, "no heat follows"
    assert why_closed(0, season_of_lawn(flat(hurts + 0.1))) is not None
    assert why_closed(0, season_of_lawn(flat(30.0), species="zoysia")) is None
    centipede = season_of_lawn(flat(24.0), species="centipede")
    assert why_closed(0, centipede) is not None and why_closed(60, centipede) is None


def test_the_mark_of_heat_is_that_of_the_half_of_the_year() -> None:
    """A lower one while it grows warmer; named with the day that is above it."""
    lawn = season_of_lawn(cases.cool_climate())
    days = [date(2027, 5, 10), date(2027, 6, 15), date(2027, 8, 1), date(2027, 8, 20)]
    # Invented air: 14.9, 21.2, 23.3 and 21.7 degC; above 18.9 it closes, above 23.9 it opens.
    found = [in_heat(lawn, day) for day in days]
    assert found == [None, "windows.cool_feed_spring_closes", None, None]
    hot = replace(cases.cool_climate(), air_mean_c=tuple(t + 2 for t in lawn.climate.air_mean_c))
    assert in_heat(season_of_lawn(hot), days[2]) == "windows.cool_feed_autumn_opens"


def test_open_days_are_told_as_stretches() -> None:
    """Two days of a rule in between, and a wish beside; a stretch of one day is one."""
    lawn = season_of_lawn(None, blackout((5, 3), (5, 4)))
    assert open_spans(lawn, OpenTo(), after(0), after(6)) == [
        (after(0), after(1)),
        (after(4), after(6)),
    ]
    even = open_spans(lawn, OpenTo(), after(4), after(6), lambda day: day.day % 2 == 1)
    assert even == [(after(4), after(4)), (after(6), after(6))]
    assert open_spans(lawn, OpenTo(), after(2), after(3)) == []


def days_apart(first: int, last: int, best: int, **changes: Any) -> list[int]:
    """The days a gap apart in a window, by days after the first of May."""
    one = window(first, last, best, changes.pop("season", "spring"))
    found = _spaced(season_of_lawn(**changes), one, after(first), after(last))
    return [(day - DAY).days for day in found]


@pytest.mark.parametrize(
    ("first", "last", "best", "days"),
    [
        (0, 34, 0, [0]),
        (0, 35, 0, [0, 32]),  # three days from the end, and 28 and three after the best
        (0, 38, 0, [0, 35]),
        (0, 33, 33, [33]),
        (0, 35, 35, [3, 35]),
        (0, 110, 40, [5, 40, 75, 107]),
        (0, 76, 40, [5, 40, 73]),
        (10, 50, 60, [15, 50]),  # the best day lies after the window
        (10, 50, 0, [10, 45]),
    ],
)
def test_feedings_of_a_window_lie_a_gap_apart_around_its_best_day(
    first: int, last: int, best: int, days: list[int]
) -> None:
    """35 days; the outermost keep three days from the ends where 31 days are still between."""
    assert (round(BOOK.low_si("feeding.least_gap")), round(BOOK.si("feeding.tolerance"))) == (28, 3)
    assert tightest_gap_days(BOOK) == 31
    assert days_apart(first, last, best) == days


def test_a_cool_grass_is_fed_once_in_a_summer_window() -> None:
    """A warm one as often as it holds."""
    assert days_apart(0, 110, 40, season="summer") == [40]
    assert len(days_apart(0, 110, 40, season="summer", species="zoysia")) == 4


def test_a_feeding_alone_has_all_its_days_and_several_have_some_around_each() -> None:
    """Three to either side, as far as the span goes."""
    span = after(0), after(40)
    assert _around([after(9)], *span, 3) == [(*span, after(9))]
    assert _around([after(1), after(20), after(38)], *span, 3) == [
        (after(0), after(4), after(1)),
        (after(17), after(23), after(20)),
        (after(35), after(40), after(38)),
    ]


def test_a_feeding_follows_a_pass_by_a_week_and_no_more_than_three() -> None:
    """Within its window."""
    lawn = season_of_lawn(species="zoysia")

    def follows(passed: int, first: int, last: int) -> int | None:
        found = _after_pass(lawn, after(passed), after(first), after(last))
        return None if found is None else (found - DAY).days

    asked = [(0, 0, 30), (0, 10, 30), (0, 21, 30), (0, 22, 30), (0, 0, 7), (0, 0, 6)]
    assert [follows(*one) for one in asked] == [7, 10, 21, None, 7, None]


def ranked(
    *windows: cases.Opening,
    lawn: FeedingSeason | None = None,
    last: int = 400,
    **open_to: Any,
) -> tuple[list[tuple[int, int, int, int]], list[Message]]:
    """The slots by rank and their days, and why others are none, from the first of May on."""
    skipped: Skips = []
    found = slots_of(
        lawn or season_of_lawn(), windows, DAY, after(last), OpenTo(**open_to), skipped
    )
    days = [(s.rank, (s.start - DAY).days, (s.end - DAY).days, (s.best - DAY).days) for s in found]
    return days, [why for _, why in skipped]


def test_slots_are_the_wished_days_and_one_a_week() -> None:
    """In a year without a hot summer the best one of spring opens the year."""
    found, skipped = ranked(window(0, 38, 0))
    assert found == [
        (ASKED, 0, 3, 0),
        (WISHED, 32, 38, 35),
        *((OTHER, max(0, n - 3), min(38, n + 3), n) for n in range(0, 38, 7)),
    ]
    assert skipped == []
    assert ranked(window(0, 38, 0, "autumn"))[0][0] == (BEST, 0, 3, 0)
    hot = season_of_lawn(flat(18.885), species="zoysia")
    assert ranked(window(0, 38, 0), lawn=hot)[0][0] == (BEST, 0, 3, 0)


def test_windows_are_cut_to_the_days_of_the_plan() -> None:
    """One that ends before them, or begins after, has no slot; nor has one that is closed."""
    assert ranked(window(-20, -1, -5), window(11, 30, 20), last=10) == ([], [])
    found, _ = ranked(window(-20, 0, -5), window(10, 30, 20), last=10)
    assert [day for *_, day in found] == [0, 0, 10, 10]
    quiet = (Quiet(after(0), after(9), as_written("young")),)
    assert ranked(window(0, 9, 5), quiet=quiet) == ([], [as_written("young")])


def test_a_warm_grass_is_fed_after_its_passes() -> None:
    """A week after, three days to either side, within the window; a cool one is not."""
    warm = season_of_lawn(flat(24.0), species="zoysia")
    found, _ = ranked(window(0, 14, 14, "summer"), lawn=warm, passes=[after(-5), after(6)])
    # The first pass is a week old on the third day; for three days from the second none is fed,
    # and after them either is followed.
    assert [one for one in found if one[0] == AFTER_PASS] == [
        (AFTER_PASS, 0, 5, 2),
        (AFTER_PASS, 9, 12, 9),
        (AFTER_PASS, 10, 14, 13),
    ]
    cool, _ = ranked(window(0, 14, 14, "summer"), passes=[after(-5)])
    assert AFTER_PASS not in {rank for rank, *_ in cool}


def test_wished_days_without_a_day_of_work_are_told() -> None:
    """Others are not."""
    days = DaySet.from_days([after(n).toordinal() for n in (1, 20)])
    found, skipped = ranked(window(0, 38, 0), days=days)
    assert [(rank, day) for rank, _, _, day in found] == [(ASKED, 1), (OTHER, 1), (OTHER, 20)]
    assert [why.key for why in skipped] == ["feeding.left_out.no_day"]


def test_late_nitrogen_has_a_weight_of_its_own_where_it_is_asked_for() -> None:
    """Slowed growth of autumn and winter is late; that of spring is spring, and warm grass has no
    late feeding.
    """
    late, cold = BOOK.si("feeding.late_growth"), flat(11.0, 11.0)
    assert 0.2 < cold.growth_potential(DAY, "cool") < late
    asked = season_of_lawn(cold, local={"late_nitrogen": True})
    opening = cases.Opening("feed_nitrogen", "autumn", *[date(2027, 11, n) for n in (1, 5, 3)])
    skipped: Skips = []
    first = date(2027, 1, 1), date(2027, 12, 31)
    slots = slots_of(asked, [opening], *first, OpenTo(), skipped)
    assert {(s.key, s.weight) for s in slots} == {("late", late)}
    assert slots[0].rank == ASKED and not slots[0].opens_year
    assert slots_of(season_of_lawn(cold), [opening], *first, OpenTo(), skipped) == []
    assert [key for key, _ in skipped] == ["late"]
    spring = cases.Opening("feed_nitrogen", "spring", DAY, DAY, DAY)
    kept = slots_of(asked, [spring], *first, OpenTo(), [])
    assert {s.key for s in kept} == {"spring"} and kept[0].opens_year
    warm = season_of_lawn(cold, species="zoysia")
    assert {s.key for s in slots_of(warm, [opening], *first, OpenTo(), [])} == {"autumn"}
