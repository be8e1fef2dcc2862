"""A starter keeps to days open to nitrogen, or is left out where none is near the seed."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from planning import brief_of, first, kind, plan_of
from test_seasons import Season
from told import all_told
from turfplan.book.citations import who_says
from turfplan.climate.record import Climate
from turfplan.message import Day, Quantity, as_written
from turfplan.phrases import feeding as phrases
from turfplan.records.constraints import Strength
from turfplan.records.plan import Plan
from turfplan.work.feeding.balance import Given
from turfplan.work.feeding.blackouts import Blackout
from turfplan.work.feeding.slots import FeedingSeason
from turfplan.work.feeding.starter import (
    SeedOn,
    feeding_of_plants,
    left_out,
    starter_days,
    starter_of,
)

SAND: dict[str, Any] = {"leveling": {"material": "topsoil_sand"}}
EVERY_DAY: dict[str, Any] = {
    "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}
}
# The plain lawn is sown on Sunday 5 September, within a window from 19 August to 28 September.
SOWN = date(2027, 9, 5)


def closed(first_day: str, last_day: str) -> dict[str, Any]:
    """A brief's own blackout."""
    return {"local": {"nitrogen_blackouts": [{"from": first_day, "to": last_day}]}}


def why_starter(plan: Plan) -> str:
    """What the plan says of its starter."""
    return next(line for line in all_told(plan.campaign_reason) if "tarter" in line)


@pytest.mark.full
@pytest.mark.parametrize(
    ("span", "given"),
    [
        (("09-12", "12-31"), True),
        (("08-20", "09-04"), True),
        (("09-01", "09-30"), False),
        (("08-28", "09-06"), False),
        (("09-05", "09-09"), False),
        (("08-01", "10-30"), False),
    ],
)
def test_the_seed_keeps_its_day_whatever_becomes_of_the_starter(
    span: tuple[str, str], *, given: bool
) -> None:
    """With the seed, or within three days of it; else none, and the plan says why."""
    plan = plan_of(SAND, closed(*span))
    assert first(plan, "overseed").start == SOWN
    starters = kind(plan, "starter_feed")
    assert [t.start for t in starters] == ([SOWN] if given else [])
    assert ("would fall into the blackout (no nitrogen from" in why_starter(plan)) is not given
    # What feeds nobody is not said to feed.
    told = " ".join(all_told((*plan.assumptions, *plan.cautions)))
    assert given or "the starter feeds the seedlings" not in told


@pytest.mark.full
def test_a_starter_waits_for_the_end_of_a_blackout_that_is_near() -> None:
    """Where people work on any day it follows the seed by two days, when the law opens."""
    open_plan = plan_of(SAND, EVERY_DAY)
    sown = first(open_plan, "overseed").start
    assert first(open_plan, "starter_feed").start == sown
    last = sown + timedelta(1)
    plan = plan_of(SAND, EVERY_DAY, closed(f"{sown - timedelta(5):%m-%d}", f"{last:%m-%d}"))
    starter = first(plan, "starter_feed")
    assert first(plan, "overseed").start == sown
    assert starter.start == starter.window.start == last + timedelta(1)
    assert any("open to nitrogen" in line for line in all_told(starter.not_earlier))


@pytest.mark.full
def test_seed_moved_by_hand_into_a_blackout_loses_its_starter() -> None:
    """The owner's day stands, the starter leaves the plan, and the plan is sound."""
    span = closed("09-12", "12-31")
    season = Season(brief_of(SAND, span))
    season.make(date(2027, 2, 1))
    assert season.day("starter_feed") == SOWN
    season.log("moved", task="overseed", to=SOWN + timedelta(14))
    season.make(date(2027, 2, 2))
    assert season.day("overseed") == SOWN + timedelta(14)
    starter = season.plan.task("starter_feed")
    assert starter is not None and starter.status == "CANCELLED"
    assert "would fall into the blackout" in why_starter(season.plan)


@pytest.mark.full
def test_a_starter_moved_by_hand_stays_where_its_owner_wants_it() -> None:
    """The plan keeps the day and warns of it."""
    season = Season(brief_of(SAND, closed("09-07", "12-31")))
    season.make(date(2027, 2, 1))
    season.log("moved", task="starter_feed", to=SOWN + timedelta(2))
    season.make(date(2027, 2, 2))
    assert season.day("starter_feed") == SOWN + timedelta(2)
    assert any("no nitrogen from Sep 7" in line for line in all_told(season.plan.warnings))


BOOK, COOL = cases.book(), cases.cool_climate()
SEEN = date(2027, 9, 5)
FLAT = replace(COOL, soil_5cm_c=(16.0,) * 365, soil_10cm_c=(16.0,) * 365)


def season(*blackouts: Blackout, climate: Climate = FLAT, **parts: Any) -> FeedingSeason:
    """Tall fescue where the soil is always warm enough."""
    return FeedingSeason(cases.brief(**parts), BOOK, climate, "tall_fescue", blackouts)


def rule(first_day: date, last_day: date) -> Blackout:
    """A rule that closes days of a year."""
    ends = (first_day.month, first_day.day), (last_day.month, last_day.day)
    return Blackout(*ends, as_written("the rule"), as_written("its source"))


def seed(day: date | None = None, window: Any = None) -> SeedOn:
    """Seed on a day, or in a window."""
    return SeedOn(window, day, date(2027, 3, 1), date(2028, 2, 28))


WINDOW = cases.Opening("overseed", "autumn", date(2027, 8, 20), date(2027, 9, 28), SEEN)


def test_seed_goes_in_on_its_day_else_in_its_window_else_in_the_plan() -> None:
    """First, last and best day."""
    assert seed(SEEN, WINDOW).days == (SEEN, SEEN, SEEN)
    assert seed(None, WINDOW).days == (WINDOW.start, WINDOW.end, SEEN)
    assert seed().days == (date(2027, 3, 1), date(2028, 2, 28), date(2027, 3, 1))


def starter(sown: SeedOn, of: FeedingSeason | None = None, **more: Any) -> Any:
    """The starter of seed."""
    options = {"seeded": True, "compost_in_mix": False, **more}
    return starter_of(of or season(), sown, **options)


def test_a_starter_is_given_with_its_seed() -> None:
    """Up to some days after a day that is known; on the best day of a window, within it."""
    late = timedelta(round(BOOK.si("order.starter_most")))
    given, why = starter(seed(SEEN))
    assert (given.start, given.end, given.best) == (SEEN, SEEN + late, SEEN)
    assert given.rate_g_m2 == BOOK.si("feeding.starter_rate") and why == given.reason
    assert (given.key, given.season) == ("starter", "")
    given, _ = starter(seed(None, WINDOW))
    assert (given.start, given.end, given.best) == (WINDOW.start, WINDOW.end, SEEN)
    assert given.season == "autumn"


def test_a_starter_keeps_to_the_nearer_open_days() -> None:
    """Of those before and after a rule; on that end of them which is nearer to the best day."""
    day = timedelta(1)
    after = season(rule(SEEN - 3 * day, SEEN + 2 * day))
    given, _ = starter(seed(None, WINDOW), after)
    assert (given.best, given.start) == (SEEN + 3 * day, SEEN + 3 * day)
    before = season(rule(SEEN - 2 * day, SEEN + 3 * day))
    given, _ = starter(seed(None, WINDOW), before)
    assert (given.best, given.end) == (SEEN - 3 * day, SEEN - 3 * day)
    closed = season(rule(date(2027, 8, 1), date(2027, 10, 30)))
    none, why = starter(seed(SEEN), closed)
    assert none is None and why == phrases.starter_blackout(blackout=as_written("the rule"))


def test_a_starter_is_no_larger_than_law_and_year_leave() -> None:
    """The least of its own rate, that of a state's law, and the room of the year."""
    usual, least = BOOK.si("feeding.starter_rate"), BOOK.si("feeding.least_rate")
    place = {"latitude": 40.0, "longitude": -77.0, "country": "US", "state": "PA"}
    lawful = BOOK.si("law.us_pa_nitrogen_single_max")
    assert starter(seed(SEEN), season(place=place))[0].rate_g_m2 == lawful < usual
    assert starter(seed(SEEN), high_g_m2=usual - 1)[0].rate_g_m2 == usual - 1
    early = SEEN - timedelta(100)
    past = [Given(early, early, 6.0)]
    assert starter(seed(SEEN), given=past, high_g_m2=6 + least)[0].rate_g_m2 == pytest.approx(least)
    none, why = starter(seed(SEEN), given=past, high_g_m2=6 + least - 0.1)
    assert none is None and why == phrases.starter_year_full()


def test_a_starter_is_not_given_on_cold_soil_or_right_after_a_feeding() -> None:
    """At the least warmth it is, and four weeks after the last; the latest of them is told."""
    least = BOOK.si("feeding.least_soil")

    def at(soil_c: float) -> Any:
        soil = (soil_c,) * 365
        return starter(seed(SEEN), season(climate=replace(COOL, soil_5cm_c=soil, soil_10cm_c=soil)))

    assert at(least)[0] is not None and at(least - 0.1) == (None, phrases.starter_cold())
    gap = round(BOOK.low_si("feeding.least_gap"))

    def after(*days: int) -> Any:
        on = [SEEN - timedelta(n) for n in days]
        return starter(seed(SEEN), given=[Given(day, day, 2.0) for day in on])

    assert gap == 28 and after(28)[0] is not None
    told = phrases.starter_fed_before(day=Day(SEEN - timedelta(20)))
    assert after(27, 20, 29) == (None, told)


def test_no_starter_where_none_is_wanted() -> None:
    """Plants are fed otherwise, compost in the mix feeds; nothing sown, nothing fed."""
    assert starter(seed(SEEN), seeded=False) == (None, phrases.starter_nothing_sown())
    assert starter(seed(SEEN), compost_in_mix=True) == (None, phrases.starter_compost_feeds())
    plants = season(seeding={"intent": "plant", "form": "sod"})
    assert starter(seed(SEEN), plants) == (None, feeding_of_plants(BOOK))
    rate = BOOK.fact("feeding.plants_rate")
    assert feeding_of_plants(BOOK) == phrases.plants_told(
        rate=Quantity(rate.si, "rate"), source=who_says(BOOK, rate.source)
    )


def test_a_starter_is_held_to_open_days_where_a_rule_closes_some() -> None:
    """From the first day of the seed to some days after its last; free where none is closed."""
    late = timedelta(round(BOOK.si("order.starter_most")))
    day = timedelta(1)
    held = starter_days(season(rule(SEEN, SEEN + day)), WINDOW)
    assert held is not None and held.opens and held.strength is Strength.STRONG
    assert held.days.ranges == (
        (WINDOW.start.toordinal(), SEEN.toordinal() - 1),
        (SEEN.toordinal() + 2, (WINDOW.end + late).toordinal()),
    )
    assert starter_days(season(rule(WINDOW.end + late + day, date(2027, 12, 1))), WINDOW) is None
    last = starter_days(season(rule(WINDOW.end + late, date(2027, 12, 1))), WINDOW)
    assert last is not None and last.days.ranges[0][1] == (WINDOW.end + late - day).toordinal()
    assert starter_days(season(rule(SEEN, SEEN)), None) is None
    assert starter_days(season(), WINDOW) is None


def test_what_closed_the_days_of_a_starter_is_told() -> None:
    """The rule that closes some of them; else no day of work lies near."""
    near, far = rule(SEEN, SEEN), rule(date(2027, 12, 1), date(2027, 12, 2))
    told = phrases.starter_blackout(blackout=as_written("the rule"))
    assert left_out(season(near)) == left_out(season(far)) == left_out(season(near), WINDOW) == told
    assert left_out(season(far), WINDOW) == left_out(season()) == phrases.starter_no_day()
