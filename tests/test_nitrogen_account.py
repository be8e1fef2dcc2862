"""The account of nitrogen of lawns that nobody prepared: reckoned anew from the finished plan."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest

from nitrogen_lawns import LAWNS, planned
from planning import EXAMPLES, amount, brief_of, first, kind, plan_brief, plan_of
from tiers import sampled
from told import told
from turfplan.app.inputs import input_of
from turfplan.errors import TurfplanError
from turfplan.message import Message
from turfplan.records.book_names import of_material, of_species
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan
from turfplan.units import LB_PER_1000FT2_G_M2

POUND = LB_PER_1000FT2_G_M2
YEAR = timedelta(365)
LASTS = timedelta(120)
HAIR = 0.01
QUICK = ("perennial_ryegrass-GB-overseed", "centipede-US-SC-none", "bermuda_hybrid-US-TX-plant")
BY_NAME = {lawn.name: lawn for lawn in LAWNS}
Given = Sequence[tuple[date, float]]


def fed(plan: Plan, *, own: bool = False) -> list[tuple[date, float]]:
    """Every feeding of a plan, starter and planting included: day and g/m2; of the lawn's `own`
    grass without what ryegrass takes over it."""
    return sorted(
        (task.start, given.value)
        for task in plan.tasks
        for given in task.amounts
        if given.item == "nitrogen" and given.unit == "g/m2"
        if not (own and "feeding.rye_rate" in task.facts)
    )


def before(brief: Brief) -> list[tuple[date, float]]:
    """What was given before the plan."""
    return [(use.on, use.rate_g_m2) for use in brief.history.nitrogen]


def from_compost(plan: Plan, brief: Brief) -> list[tuple[date, float]]:
    """What the compost of each pass counts for, from the day it is spread."""
    book = input_of(brief, EXAMPLES).book
    parts = [part for line in plan.order if line.item == "mix" for part in line.parts]
    share = sum(part.share or 0.0 for part in parts if part.item == "compost")
    dry = book.si(of_material("compost", "density")) * (
        1 - book.si(of_material("compost", "moisture"))
    )
    of_mm = dry * share * book.si("compost.nitrogen") * book.si("compost.first_year_share")
    return [(task.start, amount(task, "depth") * of_mm) for task in kind(plan, "topdress")]


def told_short(plan: Plan) -> bool:
    """Whether the plan says of a year why it gets less than the grass takes."""
    notes = [note for ledger in plan.ledgers for note in ledger.notes]
    return any(isinstance(note, Message) and note.key == "feeding.short_year" for note in notes)


@pytest.mark.parametrize("name", sampled(BY_NAME, *QUICK))
def test_every_year_lies_in_the_range_of_its_grass(name: str) -> None:
    """No twelve months above the high end, no full year of care below the low end without a reason,
    four weeks between any two feedings, and warm-season grass inside its own dates."""
    lawn = BY_NAME[name]
    plan, brief = planned(lawn)
    assert plan.conflict is None
    book = input_of(brief, EXAMPLES).book
    fact = book.fact(of_species(lawn.grass, "nitrogen_year"))
    feeds, history = fed(plan), before(brief)
    assert feeds
    assert all(
        (two - one).days >= 28 for (one, _), (two, _) in pairwise(sorted([*history, *feeds]))
    )
    account = sorted([*history, *fed(plan, own=True), *from_compost(plan, brief)])
    for last, _ in feeds:
        year = sum(rate for day, rate in account if last - YEAR < day <= last)
        assert year <= fact.high_si + HAIR, (last, year / POUND)
    start = plan.horizon.start
    year = sum(rate for day, rate in account if start <= day < start + YEAR)
    year += sum(
        rate * (1 - (start - day) / LASTS) for day, rate in history if start - LASTS < day < start
    )
    assert year >= fact.low_si - HAIR or told_short(plan), year / POUND
    assert all(rate <= POUND + HAIR for _, rate in feeds)
    in_season(plan, book.species[lawn.grass].season)


def in_season(plan: Plan, season: str) -> None:
    """Warm-season grass is fed in its windows, or after a blackout in which it rooted."""
    windows = [w for w in plan.windows if w.operation == "feed_nitrogen"]
    apart = {"feeding.rye_rate", "feeding.plants_rate"}
    for task in kind(plan, "feed_nitrogen"):
        if season == "warm" and apart.isdisjoint(task.facts):
            assert any(w.start <= task.start <= w.end for w in windows), task.id


DESERT: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "condition": "dense", "soil": "sandy loam"},
    "place": {"postal_code": "85719", "state": "AZ"},
    "seeding": {"intent": "winter_overseed"},
    "leveling": None,
}
GULF: dict[str, Any] = {
    "place": {
        "postal_code": None,
        "country": "US",
        "state": "LA",
        "latitude": 30.4,
        "longitude": -91.1,
    },
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.25 in"},
}


def test_centipede_takes_little_and_nothing_after_july() -> None:
    """Half a pound to a pound a year, half a pound at a time, none after July (Louisiana)."""
    plan = plan_of(GULF, {"lawn": {"grass": "centipede"}})
    days = [(day, rate) for day, rate in fed(plan) if day.year == 2027]
    assert days and all(day.month in (6, 7) for day, _ in days)
    assert all(rate <= POUND / 2 + HAIR for _, rate in days)
    assert POUND / 2 - HAIR <= sum(rate for _, rate in days) <= POUND + HAIR


@pytest.mark.parametrize("grass", ["st_augustine", "zoysia"])
def test_no_nitrogen_before_cool_nights_in_louisiana(grass: str) -> None:
    """From April, and the last one by late August: large patch follows nitrogen and cool nights."""
    plan = plan_of(GULF, {"lawn": {"grass": grass}})
    days = [day for day, _ in fed(plan)]
    assert days and all((3, 25) <= (day.month, day.day) <= (8, 25) for day in days)


def test_warm_grass_is_fed_after_a_pass() -> None:
    """A week or two after a pass bermudagrass is fed, so that it grows through the layer."""
    plan = plan_of(
        {
            "place": {"postal_code": "30606", "state": "GA"},
            "lawn": {"grass": "bermuda_hybrid"},
            "seeding": {"intent": "none"},
        }
    )
    passes = [task.end for task in kind(plan, "topdress")]
    days = [day for day, _ in fed(plan)]
    assert any(3 <= (day - spread).days <= 21 for spread in passes for day in days)
    assert not any(0 <= (day - spread).days < 3 for spread in passes for day in days)


def test_north_west_europe_is_fed_from_april_to_august() -> None:
    """Kent: first nitrogen as growth begins, none after the end of August."""
    place = {"postal_code": None, "country": "GB", "latitude": 51.3, "longitude": 0.5}
    plan = plan_of(
        {
            "place": place,
            "lawn": {"grass": "perennial_ryegrass"},
            "seeding": {"intent": "none"},
            "leveling": {"depth": "0.25 in"},
        }
    )
    days = [day for day, _ in fed(plan) if day.year == 2027]
    assert min(days) <= date(2027, 4, 25) and max(days) <= date(2027, 9, 3)
    assert len(days) >= 3


@pytest.mark.parametrize(("latitude", "longitude"), [(57.45, -4.2), (53.35, -6.26)])
def test_pale_seedlings_of_the_british_isles_wait_for_spring(
    latitude: float, longitude: float
) -> None:
    """Inverness, Dublin: sown in late summer they are neither looked at for colour nor fed before
    spring, and the account says why; where late nitrogen is asked for they are."""
    place = {"postal_code": None, "country": None, "latitude": latitude, "longitude": longitude}
    isles = {
        "place": {**place, "country": "GB" if latitude > 55 else "IE"},
        "lawn": {"grass": "perennial_ryegrass", "soil": "sandy loam"},
        "leveling": {"depth": "8 mm"},
    }
    plan = plan_of(isles)
    sown = first(plan, "overseed").start
    assert sown.month in (8, 9)
    after = [day for day, _ in fed(plan) if day > sown]
    assert after and min(after) >= date(2028, 3, 20)
    assert plan.task("inspect.colour") is None
    notes = " ".join(told(note) for ledger in plan.ledgers for note in ledger.notes)
    assert "for new grass too: what is pale by then is fed in spring" in notes
    asked = plan_of(isles, {"local": {"late_nitrogen": True}})
    assert any(sown < day < date(2027, 12, 31) for day, _ in fed(asked))


def test_compost_takes_nothing_from_feedings_before_it_is_spread() -> None:
    """Fargo: what is spread in August leaves the feeding of May as it is."""
    place = {"postal_code": None, "country": "US", "state": "ND"}
    plan = plan_of(
        {
            "place": {**place, "latitude": 46.9, "longitude": -96.8},
            "lawn": {"grass": "kentucky_bluegrass"},
            "season": {"from": date(2027, 9, 20)},
        }
    )
    spread = max(task.start for task in kind(plan, "topdress"))
    assert spread.month == 8 and any(day < spread and day.month in (5, 6) for day, _ in fed(plan))


def test_seedlings_are_fed_again_once_they_are_mown() -> None:
    """Seed without compost: a starter, then half a pound two to seven weeks after it is up."""
    plan = plan_of({"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}})
    sown, again = first(plan, "overseed").start, plan.task("feed_nitrogen.seedlings")
    assert plan.task("starter_feed") is not None
    assert again is not None and 28 <= (again.start - sown).days <= 70
    assert first(plan, "first_mow").start <= again.start
    assert amount(again, "nitrogen") == pytest.approx(POUND / 2, abs=HAIR)


def test_a_starter_waits_for_nobody_where_nitrogen_was_just_given() -> None:
    """Nitrogen within four weeks before the seed takes the place of the starter."""
    sand = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
    sown = first(plan_of(sand), "overseed").start
    now = {"season": {"from": sown - timedelta(12)}}
    given = {"history": {"nitrogen": [{"rate": "1 lb/1000ft2", "on": sown - timedelta(14)}]}}
    brief = brief_of(sand, now, given)

    when = datetime(sown.year, sown.month, sown.day, 12, tzinfo=UTC) - timedelta(13)
    plan = plan_brief(brief, now=when)
    assert plan.conflict is None and plan.task("starter_feed") is None


def test_bare_ground_is_not_fed() -> None:
    """Before there is grass nothing but the starter is given."""
    plan = plan_of({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    sown = min(task.start for name in ("seed", "overseed") for task in kind(plan, name))
    assert all(task.start > sown for task in kind(plan, "feed_nitrogen"))


def test_a_bag_with_phosphorus_is_refused_where_it_is_banned() -> None:
    """The brief is sent back with the way out: a bag without it."""
    with pytest.raises(TurfplanError) as refused:
        plan_of({"feeding": {"analysis": "16-4-8"}, "local": {"phosphorus": "banned"}})
    assert "feeding.analysis" in str(refused.value) and "24-0-6" in str(refused.value)
    free = plan_of({"feeding": {"analysis": "24-0-6"}, "local": {"phosphorus": "banned"}})
    assert free.conflict is None


def test_grass_under_winter_ryegrass_has_a_year_of_its_own() -> None:
    """Bermudagrass is fed in its summers as if no ryegrass stood over it in winter, and its account
    holds what it takes alone."""
    plan = plan_of(DESERT)
    alone = plan_of(DESERT, {"seeding": {"intent": "none"}, "leveling": {"depth": "0.125 in"}})
    until = plan.horizon.start + YEAR
    own = sum(rate for day, rate in fed(plan, own=True) if day < until)
    assert own >= 0.8 * sum(rate for day, rate in fed(alone) if day < until)
    (spring,) = kind(plan, "spring_transition")
    assert any(day >= spring.start for day, _ in fed(plan, own=True))
    ledger = next(ledger for ledger in plan.ledgers if ledger.item == "nitrogen")
    assert sum(week.entries["feed"] for week in ledger.weeks) == pytest.approx(
        sum(rate for _, rate in fed(plan, own=True)), abs=0.01
    )
    assert any("in feedings of its own" in told(note) for note in ledger.notes)


def test_a_starter_on_patches_leaves_the_rest_of_the_lawn_its_feedings() -> None:
    """What patches get with their seed is counted for the lawn by their share of it: the smaller
    they are, the more is left for feedings of all of it.
    """

    kassel = {"place": {"postal_code": None, "country": "DE", "latitude": 51.31, "longitude": 9.49}}

    def fed_with(share: float) -> tuple[float, float]:
        lawn = {"lawn": {"grass": "perennial_ryegrass", "condition": "patchy", "thin_share": share}}
        plan = plan_of(kassel, lawn, {"leveling": None, "seeding": {"intent": "patch"}})
        starter = first(plan, "starter_feed")
        rate, area_m2 = amount(starter, "nitrogen"), share * plan.lawn.area_m2
        assert amount(starter, "nitrogen_total") == pytest.approx(rate * area_m2 / 1000, abs=0.001)
        last = plan.horizon.start + YEAR
        feeds = [t for t in kind(plan, "feed_nitrogen") if t.start < last]
        return rate, sum(amount(task, "nitrogen") for task in feeds)

    (rate, small), (_, large) = fed_with(0.4), fed_with(0.9)
    assert small - large == pytest.approx(0.5 * rate, abs=0.3)


KUNMING = {
    "lawn": {"soil": "clay"},
    "place": {"postal_code": None, "town": "Kunming", "country": "CN", "state": None},
    "leveling": {"depth": "5 mm"},
    "water": {"possible": False, "application_rate": None},
}


def test_a_highland_whose_summer_is_never_hot_is_fed_in_spring_and_autumn() -> None:
    """Kunming on its rains: before the rains of summer and after the seed of August, without a
    look; 2.4 g/m2 each."""
    plan = plan_of(KUNMING, {"season": {"from": "2027-02-01"}})
    fed = [task for task in kind(plan, "feed_nitrogen") if task.start.year == 2027]
    assert [task.start.month for task in fed] in ([5, 9], [5, 10])
    assert plan.task("inspect.colour") is None


def test_florida_s_south_is_fed_after_its_blackout() -> None:
    """Sarasota: June to September are closed; the last feeding of the year comes in October."""
    plan = plan_of(
        {
            "lawn": {"grass": "st_augustine", "soil": "sand"},
            "place": {"postal_code": "34231"},
            "seeding": {"intent": "none"},
            "local": {"nitrogen_blackouts": [{"from": "06-01", "to": "09-30"}]},
        }
    )
    months = {task.start.month for task in kind(plan, "feed_nitrogen") if task.start.year == 2027}
    assert 10 in months and not months & {6, 7, 8, 9}


def test_what_was_fed_before_a_dry_season_feeds_no_growth_after_it() -> None:
    """Fortaleza: five grams of June are gone when the rains of January make zoysia grow."""
    plan = plan_of(
        {
            "lawn": {"grass": "zoysia", "soil": "loamy sand"},
            "place": {"postal_code": None, "town": "Fortaleza", "country": "BR", "state": None},
            "leveling": {"depth": "8 mm"},
            "seeding": {"intent": "none"},
            "water": {"possible": False, "application_rate": None},
            "season": {"from": "2027-07-01"},
            "history": {"nitrogen": [{"rate": "5 g/m2", "on": "2027-06-10"}]},
        }
    )
    fed = [task for task in kind(plan, "feed_nitrogen") if task.start.year == 2028]
    assert fed and min(task.start for task in fed).month <= 3
    assert not any("at once" in told(caution) for caution in plan.cautions), "it is one pound"


def test_seed_off_the_mix_gets_its_starter() -> None:
    """A mix with compost on a tenth of the lawn feeds no seed on the rest; all over it does."""
    few = {"leveling": {"depth": None, "lows": [{"depth": "0.5 in", "share": 0.1}]}}
    assert kind(plan_of(few), "starter_feed")
    assert not kind(plan_of({"leveling": {"depth": "0.25 in"}}), "starter_feed")
