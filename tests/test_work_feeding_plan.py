"""Nitrogen of a season: budget, split, blackouts, compost, starter, lime, account."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import water_cases as cases
from planning import example, first, kind, plan_of
from tiers import full
from told import all_told, told
from turfplan.errors import TurfplanError
from turfplan.phrases import feeding as phrases
from turfplan.records.brief import Brief
from turfplan.units import LB_PER_1000FT2_G_M2
from turfplan.work.feeding.account import Demand, nitrogen_ledger
from turfplan.work.feeding.bag import product_cautions
from turfplan.work.feeding.nutrients import lime_plan, phosphorus_plan, potassium_plan
from turfplan.work.feeding.plan import FeedingPlan, FeedingWork, feeding_plan

BOOK, COOL = cases.book(), cases.cool_climate()
WARM = cases.warm_climate()
POUND = LB_PER_1000FT2_G_M2


def plan(
    brief: Brief | None = None, species: str = "tall_fescue", **changes: object
) -> FeedingPlan:
    cool = BOOK.species[species].season == "cool"
    basis: dict[str, object] = {
        "windows": cases.COOL_OPENINGS if cool else cases.WARM_OPENINGS,
        "first": date(2027, 3, 1),
        "last": date(2028, 2, 28),
    }
    work = FeedingWork(**{**basis, **changes})  # type: ignore[arg-type]
    return feeding_plan(brief or cases.brief(), BOOK, COOL if cool else WARM, species, work)


def total(found: FeedingPlan) -> float:
    return sum(feed.rate_g_m2 for feed in found.feeds) + (
        found.starter.rate_g_m2 if found.starter else 0.0
    )


def test_feedings_stay_inside_their_limits() -> None:
    """Never more than 1 lb/1,000 ft2 at once, nor above a budget in the grass's range."""
    found = plan()
    fact = BOOK.fact(cases.NITROGEN["tall_fescue"])
    assert found.feeds
    assert all(0 < feed.rate_g_m2 <= BOOK.si("feeding.single_max") + 1e-9 for feed in found.feeds)
    assert total(found) <= found.budget_g_m2 + 1e-9
    assert fact.low_si - 1e-9 <= found.budget_g_m2 <= fact.high_si + 1e-9


def test_cool_season_grass_is_fed_mostly_in_autumn_and_never_in_summer() -> None:
    """Autumn outweighs spring; a summer window is refused with its reason."""
    hot = cases.Opening(
        "feed_nitrogen", "summer", date(2027, 6, 15), date(2027, 7, 14), date(2027, 7, 10)
    )
    found = plan(windows=(*cases.COOL_OPENINGS, hot))
    parts = {
        s: sum(f.rate_g_m2 for f in found.feeds if f.season == s)
        for s in ("spring", "summer", "autumn")
    }
    assert parts["autumn"] > parts["spring"] > 0 == parts["summer"]
    assert any(key == "summer" and "heat" in told(why) for key, why in found.skipped)


def test_the_end_of_heat_is_a_time_to_feed() -> None:
    """A window with its best day in late August is autumn's feeding, under autumn's limit."""
    late = cases.Opening(
        "feed_nitrogen", "summer", date(2027, 8, 21), date(2027, 9, 19), date(2027, 8, 31)
    )
    found = plan(windows=(late,))
    assert [feed.season for feed in found.feeds] == ["summer"]
    assert found.feeds[0].rate_g_m2 == pytest.approx(BOOK.si("feeding.cap_cool_autumn"))


def test_a_cool_summer_is_fed_lightly_all_through() -> None:
    """Where summer stays under the mark of spring feeding it is fed lightly in it, as in spring."""
    mild = replace(COOL, air_mean_c=cases.waves(9.5, 5.5))
    june = cases.Opening(
        "feed_nitrogen", "summer", date(2027, 5, 12), date(2027, 8, 1), date(2027, 6, 17)
    )
    work = FeedingWork((june,), date(2027, 3, 1), date(2028, 2, 28))
    found = feeding_plan(cases.brief(), BOOK, mild, "perennial_ryegrass", work)
    assert len(found.feeds) >= 2 and date(2027, 6, 17) in [feed.best for feed in found.feeds]
    assert all(
        feed.rate_g_m2 <= BOOK.si("feeding.cap_cool_spring") + 1e-9
        for feed in found.feeds
        if feed.best <= date(2027, 7, 1)
    )


@pytest.mark.parametrize(("warmest", "spring"), [(16.0, True), (19.5, False)])
def test_where_summers_are_cool_a_years_nitrogen_begins_in_spring(
    warmest: float, *, spring: bool
) -> None:
    """A small budget leaves no spring out where no heat follows it, however little grows yet; where
    heat does, all goes to the end of it."""
    place = replace(COOL, air_mean_c=cases.waves(8.0, warmest - 8.0))
    opened = (
        cases.Opening(
            "feed_nitrogen", "spring", date(2027, 4, 14), date(2027, 6, 30), date(2027, 4, 17)
        ),
        cases.Opening(
            "feed_nitrogen", "summer", date(2027, 7, 27), date(2027, 8, 29), date(2027, 8, 12)
        ),
    )
    work = FeedingWork(opened, date(2027, 3, 1), date(2028, 2, 28))
    lean = cases.brief(lawn={"condition": "dense"}, feeding={"clippings": "returned"})
    found = feeding_plan(lean, BOOK, place, "fine_fescue", work)
    begun = [feed for feed in found.feeds if feed.best == date(2027, 4, 17)]
    assert bool(begun) == spring, found.feeds
    assert all(f.rate_g_m2 >= BOOK.si("feeding.least_rate") - 1e-9 for f in found.feeds)
    assert total(found) == pytest.approx(found.budget_g_m2, abs=1e-6) or not spring


@full
def test_a_lawn_in_england_is_fed_from_spring_on() -> None:
    """The first nitrogen of a lawn in Leeds falls from late March to the end of April, every
    year."""
    feeds = kind(example("british-metric"), "feed_nitrogen")
    for year in (2027, 2028):
        days = [feed.start for feed in feeds if feed.start.year == year]
        assert date(year, 3, 20) <= min(days) <= date(year, 4, 30)


def test_the_last_feeding_of_a_window_can_meet_a_weekend() -> None:
    """A feeding on the last day of its window moves in, and keeps most of a week to be given in."""
    short = cases.Opening(
        "feed_nitrogen", "spring", date(2027, 3, 1), date(2027, 4, 30), date(2027, 3, 26)
    )
    found = plan(species="st_augustine", windows=(short,))
    assert len(found.feeds) == 2
    assert all((feed.end - feed.start).days >= 5 for feed in found.feeds)
    assert (found.feeds[1].start - found.feeds[0].end).days >= BOOK.low_si("feeding.least_gap")


@pytest.mark.full
def test_only_the_sowing_of_the_plan_holds_feedings_back() -> None:
    """A lawn sown in autumn with compost is fed in spring, though plugs could go in then."""
    spring = plan_of(
        {"place": {"postal_code": "80123", "state": "CO"}, "leveling": {"depth": "0.375 in"}}
    )
    sown = first(spring, "overseed").start
    fed = [task.start for task in kind(spring, "feed_nitrogen")]
    assert sown.month >= 8 and any(day.year == sown.year and day.month in (4, 5, 6) for day in fed)
    assert not any(abs((day - sown).days) < 28 for day in fed)


def test_warm_season_grass_is_fed_while_it_grows() -> None:
    """Bermuda gets its nitrogen from late spring to midsummer."""
    found = plan(species="bermuda_common")
    assert found.feeds
    assert {feed.season for feed in found.feeds} <= {"spring", "summer"}


def test_centipede_takes_nothing_in_spring() -> None:
    """No nitrogen on centipede from March to May (North Carolina State)."""
    found = plan(species="centipede")
    assert all(feed.season != "spring" for feed in found.feeds)
    assert any("Centipede" in told(why) for _, why in found.skipped)


@pytest.mark.full
@pytest.mark.parametrize("species", ["tall_fescue", "bermuda_common", "zoysia"])
def test_feedings_are_weeks_apart(species: str) -> None:
    """Whichever days of their windows are taken, two feedings are four weeks apart or more."""
    near = (
        cases.Opening(
            "feed_nitrogen", "autumn", date(2027, 10, 1), date(2027, 11, 20), date(2027, 10, 15)
        ),
        cases.Opening(
            "feed_nitrogen", "summer", date(2027, 5, 25), date(2027, 7, 1), date(2027, 6, 5)
        ),
    )
    for extra in ((), near):
        windows = (
            *(cases.COOL_OPENINGS if species == "tall_fescue" else cases.WARM_OPENINGS),
            *extra,
        )
        brief = cases.brief(lawn={"condition": "bare"}, local={"late_nitrogen": True})
        feeds = sorted(plan(brief, species, windows=windows).feeds, key=lambda f: f.best)
        assert len(feeds) >= 2
        assert all((two.start - one.end).days >= 28 for one, two in pairwise(feeds))
        assert all(feed.start <= feed.best <= feed.end for feed in feeds)
        assert all((feed.end - feed.start).days >= 3 for feed in feeds)


def test_late_nitrogen_is_a_choice_with_both_reasons() -> None:
    """Left out by default, with the case for and against; given when the brief asks for it."""
    default = plan()
    assert any(
        key == "late" and "next spring" in told(why) and "leach" in told(why)
        for key, why in default.skipped
    )
    asked = plan(cases.brief(local={"late_nitrogen": True}))
    assert not any(key == "late" and "leach" in told(why) for key, why in asked.skipped)


def test_compost_takes_the_place_of_the_starter_and_of_later_feed() -> None:
    """With compost in the mix no starter, with the reason, and less nitrogen afterwards."""
    without = plan(seeded=True)
    with_compost = plan(seeded=True, compost_in_mix=True, compost=[(date(2027, 4, 1), 6.35)])
    assert without.starter is not None and without.starter.rate_g_m2 == pytest.approx(POUND)
    assert with_compost.starter is None and "compost" in told(with_compost.starter_reason)
    assert with_compost.compost_feeds
    assert with_compost.credit is not None
    assert total(with_compost) < total(without)
    bare, rich = plan(), plan(compost=[(date(2027, 4, 1), 6.35)], compost_in_mix=True)
    assert total(rich) < total(bare)


def test_compost_credit_of_a_quarter_inch() -> None:
    """1/4 in is about 0.23 to 1.16 lb N/1,000 ft2 at 10 % first-year use, more with depth."""
    credit = plan(compost=[(date(2027, 4, 1), 6.35)], compost_in_mix=True).credit
    assert credit is not None
    assert credit.low_g_m2 <= 0.23 * POUND <= credit.g_m2 <= 1.17 * POUND <= credit.high_g_m2
    double = plan(compost=[(date(2027, 4, 1), 12.7)], compost_in_mix=True).credit
    assert double is not None and double.g_m2 == pytest.approx(2 * credit.g_m2)
    rich = plan(
        cases.brief(feeding={"compost_nitrogen_percent": 2.5}),
        compost=[(date(2027, 4, 1), 6.35)],
        compost_in_mix=True,
    ).credit
    assert rich is not None and rich.g_m2 > credit.g_m2


def test_no_starter_without_seed_but_for_seed_that_wakes() -> None:
    """A starter feeds seedlings and nothing else, those of dormant seed in spring."""
    assert plan().starter is None
    dormant = plan(cases.brief(seeding={"intent": "dormant"}), seeded=True)
    assert dormant.starter is not None


@pytest.mark.full
def test_plants_get_no_starter_but_a_feeding_once_they_hold() -> None:
    """1 lb N/1,000 ft2 when they resist a pull (Arizona), said in the plan and at the first cut."""
    plugs = plan(cases.brief(seeding={"intent": "plant"}))
    why = told(plugs.starter_reason)
    assert plugs.starter is None and "Nothing is sown" not in why
    assert "hold against a pull, 1 lb/1,000 ft²" in why and "Arizona" in why
    fed = example("st-augustine-plugs").task("feed_nitrogen.planted")
    assert fed is not None and "feeding.plants_rate" in fed.facts


@pytest.mark.full
@settings(max_examples=60, deadline=None)
@given(st.integers(1, 12), st.integers(1, 28), st.integers(10, 200), st.booleans())
def test_nothing_is_fed_in_a_blackout(month: int, day: int, length: int, seeded: bool) -> None:
    """No window of a feeding or starter touches a blackout, also over New Year."""
    start = date(2027, month, day)
    end = start + timedelta(length)
    blackout = {
        "from": f"{start:%m-%d}",
        "to": f"{end:%m-%d}" if f"{end:%m-%d}" != "02-29" else "02-28",
    }
    found = plan(cases.brief(local={"nitrogen_blackouts": [blackout]}), seeded=seeded)
    first, last = blackout["from"], blackout["to"]
    for feed in (*found.feeds, *([found.starter] if found.starter else [])):
        for n in range((feed.end - feed.start).days + 1):
            point = f"{feed.start + timedelta(n):%m-%d}"
            inside = first <= point <= last if first <= last else point >= first or point <= last
            assert not inside
        assert feed.start <= feed.best <= feed.end


def test_unknown_local_rules_are_asked_for_not_assumed() -> None:
    """Without local rules the plan says to look them up; an empty list in the brief silences it."""
    assert any("No such dates and distances are assumed" in c for c in all_told(plan().cautions))
    assert not any(
        "local rules" in c
        for c in all_told(plan(cases.brief(local={"nitrogen_blackouts": []})).cautions)
    )


def test_a_state_rule_is_kept_to_and_named() -> None:
    """New York's winter is closed without a word in the brief, to be confirmed; the brief wins."""
    late = cases.Opening(
        "feed_nitrogen", "winter", date(2027, 11, 20), date(2027, 12, 20), date(2027, 12, 10)
    )
    policy = {"late_nitrogen": True}
    place = {"latitude": 43.0, "longitude": -76.0, "country": "US", "state": "NY"}
    mild = replace(COOL, soil_10cm_c=tuple(max(8.0, degrees) for degrees in COOL.soil_10cm_c))
    work = FeedingWork((late,), date(2027, 3, 1), date(2028, 2, 28))
    asked = cases.brief(place=place, local=policy)
    found = feeding_plan(asked, BOOK, mild, "tall_fescue", work)
    assert [feed.end for feed in found.feeds] == [date(2027, 11, 30)]
    assert any("Confirm" in caution and "NY" in caution for caution in all_told(found.cautions))
    free = cases.brief(place=place, local={**policy, "nitrogen_blackouts": []})
    own = feeding_plan(free, BOOK, mild, "tall_fescue", work)
    assert max(feed.end for feed in own.feeds) > date(2027, 11, 30)


def test_common_dates_of_a_state_are_asked_about_and_kept_to() -> None:
    """Florida's counties differ: until the brief says that none holds, nothing is fed on the usual
    summer dates, and what was given on them is not blamed."""
    place = {"latitude": 28.5, "longitude": -81.4, "country": "US", "state": "FL"}
    given = {"nitrogen": [{"on": date(2026, 7, 1), "rate": "0.5 lb/1000ft2"}]}
    found = plan(cases.brief(place=place, history=given), species="bermuda_common")
    said = all_told(found.cautions)
    assert any(
        "from Jun 1 to Sep 30 (" in line and "Until you say what holds" in line for line in said
    )
    assert not any("fell on days closed" in line for line in said)
    assert not any(6 <= day.month <= 9 for feed in found.feeds for day in (feed.start, feed.end))
    free = plan(
        cases.brief(place=place, local={"nitrogen_blackouts": []}), species="bermuda_common"
    )
    assert any(feed.start.month in (6, 7) for feed in free.feeds)


def test_the_distance_from_water_is_the_owners_or_offered() -> None:
    """The brief's setback is kept; without one the usual is named, and asked for."""
    own = plan(cases.brief(local={"fertilizer_setback": "25 ft"}))
    assert any(
        "25 ft from open water, as you said" in caution for caution in all_told(own.cautions)
    )
    offered = plan(cases.brief(site={"water_body": True}))
    assert any(
        "15 ft" in caution and "set locally: ask" in caution
        for caution in all_told(offered.cautions)
    )
    assert not any("from open water" in caution for caution in all_told(plan().cautions))
    dutch = {"latitude": 53.1, "longitude": 6.6, "country": "NL"}
    abroad = plan(cases.brief(place=dutch, site={"water_body": True}))
    (said,) = [line for line in all_told(abroad.cautions) if "from open water" in line]
    assert "FL" not in said and "rules in other countries" in said


def test_a_state_limit_caps_each_feeding() -> None:
    """Maryland: 0.9 lb at once, 0.7 of it quick; an all-quick bag is pointed out."""
    place = {"latitude": 39.0, "longitude": -77.0, "country": "US", "state": "MD"}
    found = plan(cases.brief(place=place, feeding={"analysis": "30-0-0"}), seeded=True)
    assert found.starter is not None and found.starter.rate_g_m2 == pytest.approx(0.9 * POUND)
    assert any("quick nitrogen" in caution for caution in all_told(found.cautions))


def test_a_state_phosphorus_rule_sets_the_age_of_the_test() -> None:
    """Connecticut accepts a test for two years: one of 30 months is too old there alone."""
    test = {"phosphorus": "low", "on": date(2024, 9, 1)}
    there = cases.brief(
        place={"latitude": 41.0, "longitude": -73.0, "country": "US", "state": "CT"}, soil_test=test
    )
    elsewhere = cases.brief(soil_test=test)
    rates = [
        phosphorus_plan(b, BOOK, seeded=True, compost=False, today=date(2027, 3, 1))
        for b in (there, elsewhere)
    ]
    assert [r.rate_g_m2 > 0 for r in rates if r] == [False, True]


def test_what_was_given_counts() -> None:
    """Nitrogen of the last year lowers the season's; a lawn that has had all gets none."""
    some = plan(
        cases.brief(history={"nitrogen": [{"rate": "1 lb/1000ft2", "on": date(2027, 2, 1)}]})
    )
    assert total(some) < total(plan())
    all_of_it = plan(
        cases.brief(history={"nitrogen": [{"rate": "4 lb/1000ft2", "on": date(2027, 2, 1)}]})
    )
    assert all_of_it.feeds == () and any(
        "already cover" in told(why) for _, why in all_of_it.skipped
    )
    assert any("more than" in c and "Virginia" in c for c in all_told(all_of_it.cautions))


@pytest.mark.full
@pytest.mark.parametrize("days_before", (1, 10, 27, 28, 60))
def test_four_weeks_after_what_was_given(days_before: int) -> None:
    """No feeding is wished, or may fall, within four weeks of what was given before."""
    first = min(feed.best for feed in plan().feeds)
    given = first - timedelta(days_before)
    fed = plan(cases.brief(history={"nitrogen": [{"rate": "0.25 lb/1000ft2", "on": given}]}))
    assert fed.feeds
    assert all(
        (feed.start - given).days >= 28 or (given - feed.end).days >= 28 for feed in fed.feeds
    )
    if days_before >= 28:
        assert min(feed.best for feed in fed.feeds) <= first + timedelta(7)


def test_a_window_too_soon_after_what_was_given_is_left_out() -> None:
    """Where all of a window lies within the four weeks, it takes no feeding, and that is why."""
    first = min(plan().feeds, key=lambda feed: feed.best)
    fed = plan(
        cases.brief(
            history={"nitrogen": [{"rate": "0.25 lb/1000ft2", "on": first.end - timedelta(1)}]}
        )
    )
    left_out = phrases.left_out_near_other(n=round(BOOK.low_si("feeding.least_gap")))
    assert first.best not in {feed.best for feed in fed.feeds} or (
        (first.season, left_out) in fed.skipped
    )


def test_returned_clippings_save_nitrogen() -> None:
    """Clippings taken away leave more to give."""
    removed = plan(cases.brief(feeding={"clippings": "removed"}))
    returned = plan(cases.brief(feeding={"clippings": "returned"}))
    assert removed.budget_g_m2 > returned.budget_g_m2


def test_lime_by_the_table_of_the_laboratory() -> None:
    """pH 5.8 and acidity 11 for tall fescue: the table's pounds, by CCE, split above 100 lb."""
    test = {"ph": 5.8, "acidity_cmol_kg": 11.0, "on": date(2027, 1, 10)}
    found = lime_plan(
        cases.brief(soil_test=test, feeding={"lime_cce_percent": 100}), BOOK, "tall_fescue"
    )
    assert found is not None
    assert found.pure_g_m2 / POUND == pytest.approx(210)
    assert len(found.parts_g_m2) == 3 and sum(found.parts_g_m2) == pytest.approx(found.product_g_m2)
    weak = lime_plan(
        cases.brief(soil_test=test, feeding={"lime_cce_percent": 80}), BOOK, "tall_fescue"
    )
    assert weak is not None and weak.product_g_m2 == pytest.approx(found.product_g_m2 / 0.8)
    fresh = lime_plan(cases.brief(soil_test=test), BOOK, "tall_fescue", fresh_ground=True)
    assert fresh is not None and len(fresh.parts_g_m2) == 1


def test_every_grass_has_a_budget_and_a_lime_goal() -> None:
    """The book knows the yearly nitrogen and the pH goal of each grass it can plan for."""
    for name in BOOK.species:
        fact = BOOK.fact(f"species.{name}.nitrogen_year")
        assert 0 < fact.low_si < fact.high_si
        assert 5 <= BOOK.si(f"lime.ph_goal_{name}") <= 7


def test_the_notes_say_what_the_soil_test_asks_for() -> None:
    """Lime with its parts and the gap, potash with its rate, phosphate with the reason for none."""
    test = {"ph": 5.6, "acidity_cmol_kg": 11.0, "potassium": "low", "on": date(2027, 1, 10)}
    notes = " ".join(all_told(plan(cases.brief(soil_test=test)).notes))
    assert "Lime: 3 times" in notes and "4 to 6 months apart" in notes
    assert "Potash: 2 lb" in notes
    assert "Phosphate: none" in notes


def test_no_lime_without_a_test_or_above_the_goal() -> None:
    """Lime follows a test alone, and none is given where the pH is high enough."""
    assert lime_plan(cases.brief(), BOOK, "tall_fescue") is None
    assert (
        lime_plan(cases.brief(soil_test={"ph": 6.8, "acidity_cmol_kg": 2.0}), BOOK, "tall_fescue")
        is None
    )


@pytest.mark.full
@pytest.mark.parametrize(
    ("law", "test", "rate_is_positive"),
    [
        ("banned", {"phosphorus": "low", "on": date(2027, 1, 1)}, False),
        ("test", {}, False),
        ("test", {"phosphorus": "low", "on": date(2023, 1, 1)}, False),
        ("test", {"phosphorus": "high", "on": date(2027, 1, 1)}, False),
        ("test", {"phosphorus": "low", "on": date(2027, 1, 1)}, True),
        ("free", {"phosphorus": "low", "on": date(2027, 1, 1)}, True),
        ("free", {}, False),
    ],
)
def test_phosphorus_by_law_then_by_test(
    law: str, test: dict[str, object], rate_is_positive: bool
) -> None:
    """Given only where a recent test finds it low and the law lets it; refused with a reason."""
    brief = cases.brief(local={"phosphorus": law}, soil_test=test)
    found = phosphorus_plan(brief, BOOK, seeded=True, compost=False, today=date(2027, 3, 1))
    assert told(found.reason)
    assert (found.rate_g_m2 > 0) is rate_is_positive


def test_potash_by_test() -> None:
    """Low asks for more than medium, high for none, no test for no answer."""
    rates = [
        potassium_plan(cases.brief(soil_test={"potassium": level}), BOOK)
        for level in ("low", "medium", "high")
    ]
    assert [r.rate_g_m2 for r in rates if r] == sorted(
        (r.rate_g_m2 for r in rates if r), reverse=True
    )
    assert rates[2] is not None and rates[2].rate_g_m2 == 0
    assert potassium_plan(cases.brief(), BOOK) is None


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 364), st.floats(0, 5)), max_size=8),
    st.floats(0, 6),
    st.floats(0, 20),
    st.integers(0, 364),
)
def test_the_nitrogen_account_closes_every_week(
    feeds: list[tuple[int, float]], credit: float, demand: float, spread: int
) -> None:
    """Balance before plus the week's entries is the balance after; nothing is lost in the year."""
    start, end = date(2027, 3, 1), date(2028, 2, 28)
    given_g: dict[date, float] = {}
    for offset, rate in feeds:
        given_g[start + timedelta(offset)] = given_g.get(start + timedelta(offset), 0.0) + rate
    ledger = nitrogen_ledger(
        COOL, Demand(demand, "cool"), start, end, given_g, [(start + timedelta(spread), credit)]
    )
    balance = ledger.opening
    for week in ledger.weeks:
        assert week.balance == pytest.approx(balance + sum(week.entries.values()), abs=0.01)
        balance = week.balance
    assert sum(w.entries["feed"] for w in ledger.weeks) == pytest.approx(
        sum(given_g.values()), abs=0.01
    )
    assert -sum(w.entries["growth"] for w in ledger.weeks) == pytest.approx(demand, abs=0.02)
    assert sum(w.entries["compost"] for w in ledger.weeks) <= credit + 0.01


def test_cautions_about_a_bag() -> None:
    """Unwanted phosphorus, all quick, too much at once, more quick than the rule allows."""
    found = " ".join(
        all_told(product_cautions(1.5 * POUND, "10-10-10", BOOK, soluble_cap_g_m2=0.7 * POUND))
    )
    assert "phosphorus" in found and "slowly" in found and "split" in found and "allows" in found
    assert (
        product_cautions(
            0.9 * POUND, "30-0-4", BOOK, slow_release_percent=50, soluble_cap_g_m2=0.7 * POUND
        )
        == ()
    )


def test_the_bag_of_the_brief_is_judged() -> None:
    """10-10-10 without a soil test: phosphorus that nobody asked for."""
    assert any(
        "brings phosphorus" in c
        for c in all_told(plan(cases.brief(feeding={"analysis": "10-10-10"})).cautions)
    )
    with pytest.raises(TurfplanError, match="add up to more"):
        plan(cases.brief(feeding={"analysis": "60-30-20"}))


@pytest.mark.full
def test_seedlings_are_looked_at_for_colour_only_where_the_look_decides() -> None:
    """Halifax: winter comes between, the seedlings are fed in spring without a look, and what is
    said of them speaks of no starter that they did not get."""
    place = {"postal_code": None, "latitude": 44.65, "longitude": -63.6, "country": "CA"}
    lawn = {"grass": "kentucky_bluegrass", "soil": "sandy loam"}
    made = plan_of({"place": place, "lawn": lawn, "leveling": {"depth": "0.25 in"}})
    sown = first(made, "overseed").start
    fed = [task for task in kind(made, "feed_nitrogen") if task.start > sown]
    looks = [task for task in kind(made, "inspect") if task.id == "inspect.colour"]
    assert fed and not kind(made, "starter_feed")
    assert all(look.start <= fed[0].start for look in looks)
    assert not any("with the seed" in told(task.why) for task in fed)


def test_late_nitrogen_says_how_little_the_grass_grows_by_then() -> None:
    """Boise in November: what is told of growth is that of the day, as in the plan's account."""
    place = {"place": {"postal_code": "83709", "state": "ID"}}
    bare = {"lawn": {"condition": "bare"}, "leveling": {"depth": "5 in"}}
    days = {"calendar": {"weekdays": ["fri", "sat", "sun"]}}
    made = plan_of(place, bare, days)
    late = [t for t in kind(made, "feed_nitrogen") if t.id == "feed_nitrogen.late"]
    assert late
    for task in late:
        grown = told(task.why).split(" of its best")[0].split("(")[-1].rstrip(" %")
        assert int(grown) < 25, told(task.why)
