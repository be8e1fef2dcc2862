"""The feedings of a year and of the stand, and what compost takes off them."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.message import Message, as_written, sentences
from turfplan.phrases import feeding as phrases
from turfplan.records.constraints import DaySet
from turfplan.work.feeding.balance import Given, share_of_growth
from turfplan.work.feeding.blackouts import Blackout
from turfplan.work.feeding.feedings import (
    HAIR_G_M2,
    Account,
    NitrogenFeeding,
    NitrogenYear,
    _feeding,
    _grows,
    _less_compost,
    _numbered,
    _of_year,
    _short,
    _staged,
    _years,
    feedings,
    nitrogen_budget,
)
from turfplan.work.feeding.slots import (
    AFTER_PASS,
    FeedingSeason,
    FeedingSlot,
    OpenTo,
    Skips,
    late_reason,
)
from turfplan.work.feeding.stages import RYE, Quiet, StageFeeding

BOOK, COOL = cases.book(), cases.cool_climate()
SEASON = FeedingSeason(cases.brief(), BOOK, COOL, "tall_fescue", ())
FIRST, LAST = date(2027, 3, 1), date(2028, 2, 28)
CURVE = COOL.growth_curve("cool")
LEAST = BOOK.si("feeding.least_rate")


def slot(day: date, *, opens_year: bool = False) -> FeedingSlot:
    """A feeding on a day, three days to either side."""
    window = cases.Opening("feed_nitrogen", "autumn", day, day, day)
    around = (day - timedelta(3), day + timedelta(3), day)
    return FeedingSlot("autumn", window, *around, 1.0, 4.9, opens_year=opens_year)


SLOTS = [slot(date(2027, 5, 10)), slot(date(2027, 9, 10)), slot(date(2027, 10, 20))]
RATES = [4.0, 4.0, 2.0]


def left(
    spread: date, middle: float, sure: float = 0.0, low: float = 0.0, first: date = FIRST
) -> list[float]:
    """The rates that are left of three feedings, by day, with one compost and a least of the
    year.
    """
    year = NitrogenYear(10.0, 0.0, 20.0, [(spread, middle, sure)])
    shares = list(zip(SLOTS, RATES, strict=True))
    found = _less_compost(SEASON, year, shares, (first, LAST), low)
    return [rate for _, rate in sorted(found, key=lambda share: share[0].best)]


def test_feedings_after_the_compost_give_way_in_proportion() -> None:
    """What it gives until the year ends comes off those after it, twice as much off twice the
    rate; what was given before stays.
    """
    spread = date(2027, 8, 20)
    given = 1.5 * share_of_growth(CURVE, spread, LAST)
    assert 0.4 < given < 1.2
    assert left(spread, 1.5) == pytest.approx([4, 4 - given * 4 / 6, 2 - given * 2 / 6])


def test_compost_of_the_year_before_gives_what_is_left_of_it() -> None:
    """All but what grew on it before the account begins; after a year nothing is left."""
    spread = FIRST - timedelta(150)
    given = 2.0 * (1 - share_of_growth(CURVE, spread, FIRST))
    assert 0.5 < given < 1.9
    rest = [rate * (1 - given / 10) for rate in RATES]
    assert left(spread, 2.0) == pytest.approx(rest)
    assert left(FIRST - timedelta(365), 2.0) == RATES
    assert left(LAST + timedelta(1), 2.0) == RATES


def test_the_least_of_the_year_is_kept() -> None:
    """Ten grams are given and nine are the least: one may go, and what compost gives for sure
    counts towards the nine.
    """
    spread = date(2027, 3, 1)
    assert sum(left(spread, 5.0, low=9.0)) == pytest.approx(9.0)
    assert sum(left(spread, 5.0, sure=0.5, low=9.0)) == pytest.approx(8.5, abs=0.01)
    assert left(spread, 5.0, low=10.0) == RATES and left(spread, 5.0, low=12.0) == RATES


def test_less_than_a_gram_counts_too() -> None:
    """A feeding that opens the year gives what is above the least that is worth a walk."""
    first = slot(date(2027, 4, 10), opens_year=True)
    year = NitrogenYear(10.0, 0.0, 20.0, [(FIRST, 6.0, 0.0)])
    ((_, rate),) = _less_compost(SEASON, year, [(first, LEAST + 0.6)], (FIRST, LAST), 0.0)
    assert rate == pytest.approx(LEAST)
    year = NitrogenYear(10.0, 0.0, 20.0, [(FIRST, 0.3, 0.0)])
    ((_, rate),) = _less_compost(SEASON, year, [(SLOTS[1], 3.0)], (FIRST, LAST), 0.0)
    assert rate == pytest.approx(2.7)


def test_what_is_no_longer_worth_a_walk_goes_with_the_others() -> None:
    """The smallest falls below the least: its nitrogen goes on with the rest in proportion."""
    spread = date(2027, 8, 20)
    given = 9.0 * share_of_growth(CURVE, spread, LAST)
    assert 2 - given / 3 < LEAST
    found = left(spread, 9.0)
    assert len(found) == 2 and sum(found) == pytest.approx(10 - given)
    assert found[1] / found[0] == pytest.approx((4 - given * 4 / 6) / 4)


def days(first: int, last: int) -> tuple[date, date]:
    """Days after the first of May."""
    return MAY + timedelta(first), MAY + timedelta(last)


MAY = date(2027, 5, 1)
# A year that is 16 degC warm on each day: cool-season grass grows evenly and is never closed.
EVEN = replace(COOL, air_mean_c=(16.0,) * 365, soil_5cm_c=(16.0,) * 365, soil_10cm_c=(16.0,) * 365)
LAWN = FeedingSeason(cases.brief(), BOOK, EVEN, "tall_fescue", ())
MOST = BOOK.si("feeding.cap_cool_spring")


@pytest.mark.parametrize(
    ("condition", "clippings", "budget"),
    [
        # The grass takes 2 to 3.5 lb/1,000 ft2; a thin stand six tenths of the way.
        ("thin", "removed", 2 + 0.6 * 1.5),
        ("dense", "removed", 2 + 0.3 * 1.5),
        (None, "removed", 2 + 0.6 * 1.5),
        ("bare", "returned", (2 + 0.8 * 1.5) * 0.75),
        ("thin", None, (2 + 0.6 * 1.5) * 0.75),
        ("dense", "returned", 2),  # never below its least
    ],
)
def test_the_budget_lies_within_the_range_of_the_grass_less_its_clippings(
    condition: str | None, clippings: str | None, budget: float
) -> None:
    """By the condition of the stand, thin where none is told."""
    lawn = {} if condition is None else {"condition": condition}
    feeding = {} if clippings is None else {"clippings": clippings}
    brief = cases.brief(lawn=lawn, feeding=feeding)
    found, why = nitrogen_budget(brief, BOOK, "tall_fescue")
    assert why.key == f"feeding.budget.{clippings or 'assumed'}"
    assert found == pytest.approx(max(2.0, budget) * 4.88242763638305)


def test_the_plan_is_cut_into_years_from_its_first_day() -> None:
    """Of 365 days; the last is what is left."""
    lengths = [
        [(last - first).days + 1 for first, last in _years(MAY, MAY + timedelta(count - 1))]
        for count in (1, 364, 365, 366, 730, 731)
    ]
    assert lengths == [[1], [364], [365], [365, 1], [365, 365], [365, 365, 1]]
    assert _years(MAY, MAY + timedelta(400))[1] == days(365, 400)


def feeding(key: str, after: int) -> NitrogenFeeding:
    """One feeding, so many days after the first of May."""
    day = MAY + timedelta(after)
    return NitrogenFeeding(key, key, 2.0, day, day, day, as_written("why"))


def test_feedings_of_a_key_are_numbered_from_the_second_in_order_of_time() -> None:
    """The first keeps its name."""
    found = _numbered([feeding("a", 9), feeding("b", 5), feeding("a", 2), feeding("a", 20)])
    assert [feed.key for feed in found] == ["a", "b", "a2", "a3"]


def wish(first: int = 0, last: int = 20, best: int = 10, **changes: Any) -> StageFeeding:
    """A feeding that follows the stand."""
    given: dict[str, Any] = {"key": "seedlings", "rate_g_m2": 2.4, **changes}
    span = days(first, last)
    return StageFeeding(
        given["key"], given["rate_g_m2"], *span, MAY + timedelta(best), as_written("why"), ()
    )


def account(
    *windows: cases.Opening, last: int = 364, high: float = 20.0, low: float = 0.0, **more: Any
) -> Account:
    """The account of a plan from the first of May with a budget of ten grams."""
    year = NitrogenYear(10.0, low, high, more.pop("compost", ()))
    return Account(windows, *days(0, last), year, OpenTo(**more))


def staged(
    wished: StageFeeding, of: Account | None = None, lawn: FeedingSeason = LAWN
) -> tuple[list[tuple[int, int, int, float]], list[str]]:
    """First, last and best day of a feeding of the stand with its rate, and why there is none."""
    skipped: Skips = []
    found = _staged(lawn, of or account(), [wished], skipped)
    return [
        ((f.start - MAY).days, (f.end - MAY).days, (f.best - MAY).days, f.rate_g_m2) for f in found
    ], [why.key for _, why in skipped]


def test_a_feeding_of_the_stand_lies_around_its_best_day() -> None:
    """Three days to either side as far as its days go; best on one of them."""
    assert staged(wish()) == ([(7, 13, 10, 2.4)], [])
    assert staged(wish(0, 11, 2)) == ([(0, 5, 2, 2.4)], [])
    assert staged(wish(0, 11, 10)) == ([(7, 11, 10, 2.4)], [])
    assert staged(wish(), account(last=12)) == ([(7, 12, 10, 2.4)], [])
    assert staged(wish(), account(last=6)) == ([(3, 6, 6, 2.4)], [])
    assert staged(wish(rate_g_m2=9.0))[0][0][3] == LAWN.most_g_m2


def test_a_feeding_of_the_stand_takes_the_nearest_open_days() -> None:
    """Those before or after a rule, whichever is nearer to the best; none where none is open."""

    def ruled(first: int, last: int) -> Any:
        rule = Blackout((5, first), (5, last), as_written("rule"), as_written("source"))
        return staged(wish(), lawn=replace(LAWN, blackouts=(rule,)))

    assert ruled(8, 18) == ([(3, 6, 6, 2.4)], [])  # day 6 is the seventh of May, 18 the nineteenth
    assert ruled(4, 12) == ([(12, 15, 12, 2.4)], [])
    assert ruled(1, 30) == ([], ["feeding.left_out.blackout"])
    work = DaySet.from_days([(MAY + timedelta(n)).toordinal() for n in (5, 14, 30)])
    assert staged(wish(), account(days=work)) == ([(11, 17, 14, 2.4)], [])
    none = DaySet.from_days([(MAY + timedelta(30)).toordinal()])
    assert staged(wish(), account(days=none)) == ([], ["feeding.left_out.no_day"])


def test_a_feeding_of_the_stand_keeps_to_the_range_of_its_year() -> None:
    """It gives what room there is, and is left out below the least; winter grass has its own."""
    given = [Given(*days(-100, -100), 17.0)]
    assert staged(wish(), account(given=given, high=19.0))[0][0][3] == pytest.approx(2)
    at = account(given=given, high=17.0 + LEAST)
    assert staged(wish(), at)[0][0][3] == pytest.approx(LEAST)
    assert staged(wish(), account(given=given, high=18.2)) == ([], ["feeding.left_out.year_full"])
    compost = account(compost=[(MAY, 18.0, 9.0)])
    assert staged(wish(), compost)[0][0][3] == pytest.approx(2)
    assert staged(wish(key=RYE), account(given=given, high=17.0))[0][0][3] == 2.4


def test_feedings_of_the_stand_keep_their_gap_from_each_other() -> None:
    """The second goes 28 days after the last day of the first."""
    found = _staged(LAWN, account(), [wish(), wish(20, 60, 30)], [])
    assert [(f.best - MAY).days for f in found] == [10, 13 + 28]


def test_a_feeding_of_the_stand_is_in_time_while_its_grass_grows() -> None:
    """Warm grass on its own days of nitrogen, to their ends; any other by its growth."""
    warm = replace(LAWN, species_id="zoysia")
    opening = cases.Opening("feed_nitrogen", "spring", *days(5, 8), MAY)
    of = account(opening, replace(opening, operation="overseed", start=MAY))
    found = [_grows(warm, of, wish(), MAY + timedelta(n)) for n in (4, 5, 8, 9)]
    assert found == [False, True, True, False]
    assert _grows(warm, of, wish(key=RYE), MAY)
    least = BOOK.si("water.dormant_growth")
    cold = replace(LAWN, climate=replace(EVEN, air_mean_c=(7.0,) * 365))
    assert cold.climate.growth_potential(MAY, "cool") < least
    assert not _grows(cold, of, wish(), MAY) and _grows(LAWN, of, wish(), MAY)
    assert staged(wish(), lawn=cold) == ([], ["feeding.left_out.too_late"])


def given_of_year(of: Account, taken: Any = (), last: int = 364) -> list[tuple[int, float]]:
    """The feedings of a year by day and rate."""
    found = _of_year(LAWN, of, taken, days(0, last), [])
    return [((feed.best - MAY).days, feed.rate_g_m2) for feed in found]


def opening(first: int, last: int, best: int) -> cases.Opening:
    """Days of nitrogen, by days after the first of May."""
    return cases.Opening("feed_nitrogen", "autumn", *days(first, last), MAY + timedelta(best))


def test_the_nitrogen_of_a_year_is_what_is_left_of_its_budget() -> None:
    """Ten grams, at most 2.44 at once in the even year, less what was given in it or still counts
    from before.
    """
    windows = opening(0, 0, 0), opening(60, 60, 60), opening(120, 120, 120)
    assert given_of_year(account(*windows)) == [(n, MOST) for n in (0, 60, 120)]
    taken = [Given(*days(300, 300), 4.0)]
    for at in (0, 364):
        edge = given_of_year(account(*windows[1:]), [Given(*days(at, at), 10 - 1.5)])
        assert edge == [(120, pytest.approx(1.5))]
    beyond = [Given(*days(365, 365), 8.5)]
    assert given_of_year(account(*windows), beyond) == [(n, MOST) for n in (0, 60, 120)]
    two = [(n, pytest.approx(2)) for n in (0, 60, 120)]
    assert given_of_year(account(*windows), taken) == two
    # Half of eight grams of sixty days before is left; of winter grass nothing counts.
    before = [Given(*days(-60, -60), 8.0)]
    assert given_of_year(account(*windows), before) == two
    other = [Given(*days(-60, -60), 8.0, own=False)]
    assert given_of_year(account(*windows), other) == [(n, MOST) for n in (0, 60, 120)]
    # A part of a year has its part of the growth: 146 days four tenths of it.
    part = given_of_year(account(*windows, last=145), last=145)
    assert sum(rate for _, rate in part) == pytest.approx(4)


def test_compost_leaves_a_part_of_a_year_its_part_of_the_least() -> None:
    """Of four grams for four tenths of the growth 3.6 are the least: compost takes what is over."""
    windows = opening(0, 0, 0), opening(60, 60, 60), opening(120, 120, 120)
    of = account(*windows, last=145, low=9.0, compost=[(MAY, 5.0, 0.0)])
    assert sum(rate for _, rate in given_of_year(of, last=145)) == pytest.approx(3.6)


def test_feedings_keep_to_the_high_end_of_any_twelve_months() -> None:
    """The later ones give what room is left, and are left out below the least."""
    windows = opening(0, 0, 0), opening(60, 60, 60), opening(120, 120, 120)
    assert given_of_year(account(*windows, high=2 * MOST + 1.5)) == [
        (0, MOST),
        (60, MOST),
        (120, pytest.approx(1.5)),
    ]
    full = account(*windows, high=2 * MOST + 1.0)
    skipped: Skips = []
    assert len(_of_year(LAWN, full, (), days(0, 364), skipped)) == 2
    assert [why.key for _, why in skipped] == ["feeding.left_out.year_full"]


def test_windows_of_other_years_and_operations_feed_nothing() -> None:
    """One that ends on its first day, or begins on its last, does."""
    windows = (
        opening(-20, -1, -5),
        opening(-20, 0, -5),
        opening(364, 370, 366),
        opening(365, 370, 366),
        replace(opening(100, 100, 100), operation="overseed"),
    )
    assert [day for day, _ in given_of_year(account(*windows))] == [0, 364]


def test_years_that_stay_below_the_least_of_the_grass_say_why() -> None:
    """To thousandths of a gram; what was given, what compost gives and what still counts are
    reckoned in, what was left out by choice is no reason.
    """

    def short(low: float, *taken: Given, **more: Any) -> Message | None:
        return _short(LAWN, account(low=low, **more), taken, days(0, 364), more.get("skips", []))

    given = Given(*days(10, 10), 4.0)
    assert short(4.0, given) is None and short(4.004, given) is None
    assert short(4.006, given) is not None
    assert short(HAIR_G_M2) is None and short(1.01 * HAIR_G_M2) is not None
    assert short(4.0, replace(given, own=False)) is not None
    assert short(4.0, replace(given, first=MAY, last=MAY)) is None
    assert short(4.0, Given(*days(364, 364), 4.0)) is None
    assert short(4.0, Given(*days(365, 365), 4.0)) is not None
    assert short(7.0, given, compost=[(MAY, 3.0, 1.0)]) is None
    assert short(6.0, given, Given(*days(-60, -60), 4.0)) is None
    assert short(6.1, given, Given(*days(-60, -60), 4.0)) is not None
    later = _short(LAWN, account(low=1.0), [Given(*days(305, 305), 4.0)], days(365, 400), [])
    assert later is not None, "what is left of the year before is not reckoned twice"


def test_why_a_year_is_short_is_its_quiet_days_and_what_was_left_out() -> None:
    """Each once; where nothing is left out by need, that there are no days."""
    quiet = [
        Quiet(*days(first, last), as_written(word))
        for first, last, word in ((-9, -1, "a"), (-9, 0, "b"), (364, 370, "c"), (365, 370, "d"))
    ]
    skips: Skips = [("spring", as_written("b")), ("spring", phrases.left_out_fewer())]
    told = _short(LAWN, account(low=9.0, quiet=quiet), [], days(0, 364), skips)
    assert told is not None
    assert dict(told.values)["why"] == sentences(as_written("b"), as_written("c"))
    bare = _short(LAWN, account(low=9.0), [], days(0, 364), skips[1:])
    assert bare is not None and dict(bare.values)["why"] == phrases.short_no_days()
    assert dict(bare.values)["rate"].value == 0


def test_a_plan_of_more_than_a_year_feeds_each_by_itself() -> None:
    """The second year's are in gap and range with the first's; only whole years can be short."""
    windows = [opening(n, n, n) for n in (0, 60, 365, 425)]
    skipped: Skips = []
    feeds, short = feedings(LAWN, account(*windows, last=729, low=9.0), (), skipped)
    assert [(f.key, (f.best - MAY).days) for f in feeds] == [
        ("spring", 0),
        ("summer", 60),
        ("spring2", 365),
        ("summer2", 425),
    ]
    assert len(short) == 2
    assert len(feedings(LAWN, account(*windows, last=728, low=9.0), (), [])[1]) == 1
    assert feedings(LAWN, account(*windows, last=363, low=9.0), (), [])[1] == []
    young, _ = feedings(LAWN, account(*windows, last=300), [wish(20, 30, 25)], [])
    assert [f.key for f in young] == ["seedlings", "summer"]


def test_a_feeding_says_what_it_follows() -> None:
    """Late nitrogen what it does, one after a pass that it is; with rate, budget, growth, most."""

    def reason(**changes: Any) -> Message:
        one = replace(slot(MAY), **changes)
        return _feeding(LAWN, one, 2.0, 10.0).reason

    plain = dict(reason().values)
    assert [plain[name].value for name in ("rate", "budget", "most")] == [2.0, 10.0, 4.9]
    assert plain["growth"].value == EVEN.growth_potential(MAY, "cool")
    late, passed = reason(key="late"), reason(rank=AFTER_PASS)
    assert dict(late.values)["parts"].items[1] == late_reason(LAWN)
    assert dict(passed.values)["parts"].items[1] == phrases.after_pass()
    assert _feeding(LAWN, slot(MAY), 2.0, 10.0).season == "autumn"
