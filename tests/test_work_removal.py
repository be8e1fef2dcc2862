"""No rule is idle: each operation, campaign, mix, order of work and kind of day, taken out, breaks
a stated promise of a plan.

A case is a brief, a promise in words, and the check of it. With the rule the promise holds, without
it it does not: either the plan breaks it, or the plan's own independent check refuses the plan.
"""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any, NamedTuple

import pytest

from planning import (
    EXAMPLES,
    PLAIN,
    ROOT,
    TODAY,
    drafted_plan,
    first,
    kind,
    made_plan,
    merged,
)
from test_work_order import CASES as ORDER_CASES
from test_work_order import brief_for
from tiers import sampled
from turfplan.app.inputs import input_of
from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.planning import fed, season_plan
from turfplan.planning.candidates import Candidate, compare
from turfplan.planning.feeding import feeder_for
from turfplan.planning.window_dates import with_windows
from turfplan.publishing import UnsoundPlanError
from turfplan.records.brief import Brief, parse_brief
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.work import day_limits, season
from turfplan.work.assumptions import resolve
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.watering.season import watering_verdict

Check = Callable[[Plan], bool]
PHASES = (
    "prepare",
    "surface",
    "level",
    "with_loads",
    "with_buying",
    "new_ground",
    "sow",
    "care",
    "liming",
    "amendments",
    "finish",
)


class Case(NamedTuple):
    """What a rule is good for: a brief in which it matters, the promise, and the check of a
    plan.
    """

    changes: Mapping[str, Any]
    promise: str
    holds: Check


def planned(changes: Mapping[str, Any], book: Book | None = None) -> Plan:
    """The plan of the plain brief with changes, by the whole book or by another."""
    brief = parse_brief(merged(changes))
    given = input_of(brief, EXAMPLES)
    return made_plan(brief, book or given.book, given.climate, now=TODAY, options=False)


def before(plan: Plan, early: str, late: str, days_between: int = 0) -> bool:
    """Whether some task of one operation is there, and every one of the other comes so many days
    after its first.
    """
    return bool(kind(plan, early) and kind(plan, late)) and (
        first(plan, late).start - first(plan, early).end
    ) >= timedelta(days_between)


QUARTER = {"leveling": {"depth": "0.25 in"}}
NO_SEED = {"seeding": {"intent": "none"}}
SEED_ONLY = {"leveling": {"depth": "0 in"}}
RENOVATE = {**SEED_ONLY, "seeding": {"intent": "renovate"}}
BARE = {
    "lawn": {"condition": "bare"},
    "leveling": {"depth": "1 in"},
    "seeding": {"intent": "renovate"},
}
GEORGIA = {"place": {"postal_code": "30606"}}
HOLLOW = {
    "leveling": {
        "depth": None,
        "lows": [{"depth": "3 in", "share": 0.05}, {"depth": "0.5 in", "share": 0.3}],
    }
}

OPERATIONS: dict[str, Case] = {
    "diagnose": Case(
        {"site": {"bump_cause": "moles"}},
        "the cause of bumps is looked for before material is bought",
        lambda p: before(p, "diagnose", "order_material"),
    ),
    "soil_test": Case(
        {},
        "the soil is tested three weeks before seed",
        lambda p: before(p, "soil_test", "overseed", 21),
    ),
    "locate_utilities": Case(
        {},
        "lines are marked before tines go in",
        lambda p: before(p, "locate_utilities", "core_aerate"),
    ),
    "irrigation_check": Case(
        {},
        "the water is measured a week before seed depends on it",
        lambda p: before(p, "irrigation_check", "overseed", 7),
    ),
    "permit": Case(
        {"water": {"allowed_weekdays": ["tue", "sat"], "permit": True}},
        "a permit is got a week before daily watering",
        lambda p: before(p, "permit", "overseed", 7),
    ),
    "weed_control": Case(
        {"site": {"weeds_percent": 30}},
        "weeds are dealt with four weeks before seed",
        lambda p: before(p, "weed_control", "overseed", 28),
    ),
    "kill_stand": Case(
        RENOVATE,
        "the old stand is killed two weeks before the new seed",
        lambda p: before(p, "kill_stand", "seed", 14),
    ),
    "clear_stand": Case(
        RENOVATE,
        "dead grass is cut down before slits are cut",
        lambda p: before(p, "clear_stand", "slit"),
    ),
    "slit": Case(
        RENOVATE,
        "slits bring the seed through the dead mulch to the soil",
        lambda p: before(p, "slit", "seed"),
    ),
    "till": Case(
        BARE,
        "packed ground is loosened before it is filled",
        lambda p: before(p, "till", "fill"),
    ),
    "fill": Case(
        BARE,
        "bare ground is filled before it is graded",
        lambda p: before(p, "fill", "grade"),
    ),
    "nurse_cover": Case(
        {**BARE, **NO_SEED},
        "filled ground that is not sown lies under a cover",
        lambda p: before(p, "fill", "nurse_cover"),
    ),
    "grade": Case(
        BARE,
        "the seedbed is raked and firmed before the seed",
        lambda p: before(p, "grade", "seed"),
    ),
    "order_material": Case(
        {},
        "material is ordered the supplier's days before it comes",
        lambda p: before(p, "order_material", "delivery", 7),
    ),
    "call": Case(
        {},
        "a machine is reserved before its job",
        lambda p: before(p, "call", "core_aerate"),
    ),
    "collect": Case(
        {},
        "the seed is in the house before it is sown",
        lambda p: before(p, "collect", "overseed"),
    ),
    "delivery": Case(
        {},
        "the mix is there two days before it is spread",
        lambda p: before(p, "delivery", "topdress", 2),
    ),
    "dry_material": Case(
        {},
        "the mix is looked after between delivery and pass",
        lambda p: before(p, "dry_material", "topdress"),
    ),
    "raise_fittings": Case(
        {},
        "heads come up before half an inch buries them",
        lambda p: before(p, "raise_fittings", "topdress"),
    ),
    "lift_and_fill": Case(
        HOLLOW,
        "hollows over two inches are lifted before the rest is dressed",
        lambda p: before(p, "lift_and_fill", "topdress", 14),
    ),
    "begin_mowing": Case(
        {**NO_SEED, "leveling": {"depth": None}},
        "where the lawn is cared for alone, its first cut is told",
        lambda p: bool(kind(p, "begin_mowing")),
    ),
    "mow_low": Case(
        {},
        "the grass is cut low within six days of the pass",
        lambda p: any(
            timedelta(0) <= first(p, "topdress").start - t.end <= timedelta(6)
            for t in kind(p, "mow_low")
        ),
    ),
    "dethatch": Case(
        {"lawn": {"thatch": "0.6 in"}},
        "thatch over half an inch is taken off ten days before the pass",
        lambda p: before(p, "dethatch", "topdress", 10),
    ),
    "core_aerate": Case(
        {},
        "holes are open for the first pass",
        lambda p: any(
            timedelta(0) <= first(p, "topdress").start - t.end <= timedelta(7)
            for t in kind(p, "core_aerate")
        ),
    ),
    "topdress": Case(
        {},
        "the fill that was asked for is spread",
        lambda p: (
            sum(a.value for t in kind(p, "topdress") for a in t.amounts if a.item == "depth") > 12.6
        ),
    ),
    "incorporate": Case(
        {},
        "what is spread is worked in the same day",
        lambda p: (
            [t.start for t in kind(p, "incorporate")] == [t.start for t in kind(p, "topdress")]
        ),
    ),
    "mow": Case(
        {"leveling": {"depth": "1 in"}},
        "the grass is mown before the second pass",
        lambda p: before(p, "mow", "overseed"),
    ),
    "seed": Case(
        {**GEORGIA, "lawn": {"grass": "bermuda_common"}},
        "bermuda is sown in early summer",
        lambda p: bool(kind(p, "seed")) and first(p, "seed").start.month in (5, 6, 7),
    ),
    "overseed": Case(
        {},
        "fescue is overseeded in late summer or autumn",
        lambda p: bool(kind(p, "overseed")) and first(p, "overseed").start.month in (8, 9),
    ),
    "dormant_seed": Case(
        {"seeding": {"intent": "dormant"}},
        "dormant seed lies before the ground freezes",
        lambda p: (
            bool(kind(p, "dormant_seed")) and first(p, "dormant_seed").start.month in (11, 12, 1)
        ),
    ),
    "rake_moss": Case(
        {"history": {"moss": [{"on": date(2027, 2, 20)}]}},
        "treated moss is raked out two to three weeks later, before pass and seed",
        lambda p: before(p, "rake_moss", "topdress") and before(p, "rake_moss", "overseed"),
    ),
    "plant": Case(
        {**GEORGIA, "lawn": {"grass": "zoysia"}, "seeding": {"intent": "plant"}},
        "plugs are set two weeks after the fill",
        lambda p: before(p, "topdress", "plant", 14),
    ),
    "roll": Case(
        {"lawn": {"soil": "sandy loam"}},
        "seed on light soil is pressed in the day it is sown, or the next",
        lambda p: (
            before(p, "overseed", "roll")
            and first(p, "roll").start - first(p, "overseed").end <= timedelta(1)
        ),
    ),
    "cover": Case(
        {"site": {"slope_percent": 12}},
        "seed on a slope is covered the day it is sown",
        lambda p: bool(kind(p, "cover")) and first(p, "cover").start == first(p, "overseed").start,
    ),
    "starter_feed": Case(
        SEED_ONLY,
        "seed without compost gets a starter within three days",
        lambda p: (
            before(p, "overseed", "starter_feed")
            and first(p, "starter_feed").start - first(p, "overseed").end <= timedelta(3)
        ),
    ),
    "water": Case(
        {},
        "new seed is watered from the day it is sown",
        lambda p: any(t.start == first(p, "overseed").end for t in kind(p, "water")),
    ),
    "feed_nitrogen": Case(
        NO_SEED,
        "a lawn that is not sown is fed in the year",
        lambda p: bool(kind(p, "feed_nitrogen")),
    ),
    "mow_old": Case(
        {},
        "the old grass is cut before it shades the seedlings",
        lambda p: before(p, "overseed", "mow_old", 7) and before(p, "mow_old", "first_mow"),
    ),
    "first_mow": Case(
        {},
        "seedlings are mown once they are tall enough",
        lambda p: before(p, "overseed", "first_mow", 17),
    ),
    "preemergent": Case(
        SEED_ONLY,
        "a spring far from any seed offers a preventer",
        lambda p: bool(kind(p, "preemergent")),
    ),
    "lime": Case(
        {"soil_test": {"on": date(2027, 1, 20), "ph": 5.2, "acidity_cmol_kg": 6.0}},
        "an acid soil gets its lime in parts, months apart",
        lambda p: (
            len(kind(p, "lime")) > 1
            and kind(p, "lime")[1].start - kind(p, "lime")[0].end >= timedelta(120)
        ),
    ),
    "amend": Case(
        {"soil_test": {"on": date(2027, 1, 20), "ph": 8.1, "free_lime": False}},
        "a soil without free lime and with too high a pH gets its sulfur",
        lambda p: any(t.id.startswith("amend.sulfur") for t in p.tasks),
    ),
    "inspect": Case(
        {},
        "somebody looks whether the seed has come up",
        lambda p: any(t.id == "inspect.germination" for t in p.tasks),
    ),
    "last_mow": Case(
        {}, "the lawn goes into winter cut", lambda p: before(p, "first_mow", "last_mow")
    ),
    "spring_transition": Case(
        {
            **GEORGIA,
            **SEED_ONLY,
            "lawn": {"grass": "bermuda_common"},
            "seeding": {"intent": "winter_overseed"},
        },
        "the lawn is given back to its grass in the spring after winter ryegrass",
        lambda p: before(p, "overseed", "spring_transition", 100),
    ),
    "settle_check": Case(
        {},
        "the fill is measured two months after the last pass",
        lambda p: before(p, "topdress", "settle_check", 60),
    ),
    "touch_up": Case(
        {},
        "what has settled is made good after the check",
        lambda p: before(p, "settle_check", "touch_up", 7),
    ),
}


def without_operation(operation: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """No phase emits the operation any more, and the waterings fall away where it is water."""

    def dropping(phase: Callable[..., Any]) -> Callable[..., Any]:
        def emit(*args: Any, **named: Any) -> Any:
            found = phase(*args, **named)
            drafts, notes = found if isinstance(found, tuple) else (found, None)
            kept = [d for d in drafts if d.operation != operation]
            return kept if notes is None else (kept, notes)

        return emit

    for name in PHASES:
        monkeypatch.setattr(season, name, dropping(getattr(season, name)))
    monkeypatch.setattr(fed, "feed_drafts", dropping(fed.feed_drafts))
    with_trip = dropping(fed.with_trip_of_feedings)
    monkeypatch.setattr(fed, "with_trip_of_feedings", with_trip)
    if operation == "water":
        real = season_plan.watered
        monkeypatch.setattr(season_plan, "watered", lambda *a, **k: ((), *real(*a, **k)[1:]))


def broken(case: Case, plan: Callable[[], Plan]) -> bool:
    """Whether a plan breaks the promise, or its own check refuses it."""
    try:
        return not case.holds(plan())
    except UnsoundPlanError:
        return True


def test_every_operation_has_a_promise() -> None:
    """No operation of the book is without a case, and no case without an operation."""
    assert set(OPERATIONS) == set(load_book().operations)


@pytest.mark.full
@pytest.mark.parametrize("operation", sampled(OPERATIONS, *[*OPERATIONS][::4]))
def test_an_operation_taken_out_is_missed(operation: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The promise holds with the operation and not without it."""
    case = OPERATIONS[operation]
    assert case.holds(planned(case.changes)), case.promise
    without_operation(operation, monkeypatch)
    assert broken(case, lambda: planned(case.changes)), case.promise


CAMPAIGNS: dict[str, Mapping[str, Any]] = {
    "autumn": {},
    "spring_then_autumn": {"leveling": {"depth": "1 in"}},
    "spring": {**QUARTER, "season": {"campaign": "spring"}},
    "autumn_then_spring": {**QUARTER, "season": {"campaign": "autumn_then_spring"}},
    "dormant": {"seeding": {"intent": "dormant"}},
    "two_years": {"leveling": {"depth": "2 in"}, "season": {"until": date(2029, 12, 1)}},
    "summer": {**GEORGIA, **NO_SEED, **QUARTER, "lawn": {"grass": "zoysia"}},
    "bare_ground": {**BARE, **NO_SEED},
    "hollows": {**NO_SEED, "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.05}]}},
    "care": {**NO_SEED, "leveling": {"depth": None}},
    "winter_cover": {
        **GEORGIA,
        **SEED_ONLY,
        "lawn": {"grass": "bermuda_hybrid"},
        "seeding": {"intent": "winter_overseed"},
    },
}


def test_every_campaign_has_a_lawn() -> None:
    """No campaign of the book is without a lawn that it is best for, or that may ask for it."""
    assert set(CAMPAIGNS) == set(load_book().campaigns)


@pytest.mark.full
@pytest.mark.parametrize("campaign", sampled(CAMPAIGNS, *[*CAMPAIGNS][::3]))
def test_a_campaign_taken_out_is_missed(campaign: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The lawn that takes this way has another plan, or none, when the way is closed."""
    from turfplan.planning import candidates

    case = Case(CAMPAIGNS[campaign], f"the way is {campaign}", lambda p: p.campaign == campaign)
    assert case.holds(planned(case.changes)), planned(case.changes).campaign
    real = candidates.campaigns

    def closed(setting: ResolvedLawn) -> Any:
        possible, ruled_out = real(setting)
        return tuple(c for c in possible if c.id != campaign), ruled_out

    monkeypatch.setattr(candidates, "campaigns", closed)
    assert broken(case, lambda: planned(case.changes)), case.promise


MIXES: dict[str, tuple[Mapping[str, Any], str]] = {
    "sand": (
        {**NO_SEED, **QUARTER, "lawn": {"soil": "sandy loam"}},
        "thin fill on a sandy soil is straight sand",
    ),
    "topsoil": (BARE, "bare ground is filled with soil like its own"),
    "topsoil_sand": (NO_SEED, "fill on clay without seed is half topsoil, half sand"),
    "topsoil_sand_compost": ({}, "fill that carries seed holds compost"),
    "compost": (
        {"leveling": {"material": "compost", "depth": "0.25 in"}},
        "who asks for compost alone gets it",
    ),
}


def test_every_mix_has_a_lawn() -> None:
    """No mix of the book is without a lawn that takes it."""
    assert set(MIXES) == set(load_book().mixes)


@pytest.mark.full
@pytest.mark.parametrize("mix", sampled(MIXES, *[*MIXES][::3]))
def test_a_mix_taken_out_is_missed(mix: str) -> None:
    """The lawn takes this mix; by a book without it there is no such plan."""
    changes, promise = MIXES[mix]
    book = load_book()
    assert str(planned(changes).lawn.mix) == book.mixes[mix].name, promise
    poorer = replace(book, mixes={key: value for key, value in book.mixes.items() if key != mix})
    with pytest.raises((TurfplanError, KeyError), match=mix):
        planned(changes, poorer)


WEEKEND = {"calendar": {"weekdays": ["sat", "sun"]}}
ONE_PERSON = {
    "work": {"people": 1, "hours_per_day": 3},
    "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]},
}
AWAY = {**QUARTER, "calendar": {"away": [{"from": date(2027, 9, 5), "to": date(2027, 9, 12)}]}}
BAN = {**QUARTER, "water": {"banned": [{"from": date(2027, 9, 1), "to": date(2027, 9, 20)}]}}
# Rains from March to May and from September on; the plan begins when the first are just over.
# Most of the weeks in which passes are spread in spring.
SPRING_AWAY = {"from": date(2027, 4, 6), "to": date(2027, 6, 1)}
KISUMU: dict[str, Any] = {
    "lawn": {"grass": "kikuyu"},
    "place": {"postal_code": None, "country": None, "latitude": -0.1, "longitude": 34.75},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "plant", "form": "sprigs"},
    "water": {"possible": False},
    "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]},
    "season": {"from": date(2027, 5, 29), "until": date(2027, 8, 31)},
}
CHIANG_MAI: dict[str, Any] = {
    "lawn": {"grass": "carpetgrass"},
    "place": {"postal_code": None, "country": None, "latitude": 18.79, "longitude": 98.98},
    "leveling": {"depth": "8 mm"},
    "water": {"possible": False},
}
HELD = {
    **QUARTER,
    "history": {"herbicides": [{"active_ingredient": "prodiamine", "on": date(2027, 5, 28)}]},
}


def sown_on(plan: Plan) -> date:
    """The day of the seed, whatever its operation."""
    return next(t.start for t in plan.tasks if t.plays("sowing"))


DAYS: dict[str, Case] = {
    "_calendar": Case(
        WEEKEND,
        "work is done on the days that were named",
        lambda p: all(
            t.start.weekday() >= 5 for t in p.tasks if t.series is None and not t.plays("marking")
        ),
    ),
    "_windows": Case(
        {**NO_SEED, "calendar": {"unavailable": [SPRING_AWAY]}},
        "a pass is spread while its window is open, to its last day",
        lambda p: all(
            any(
                w.operation == "topdress" and w.start <= t.start and t.end <= w.end
                for w in p.windows
            )
            for t in kind(p, "topdress")
        ),
    ),
    "_watering_people": Case(
        AWAY,
        "no seed three weeks before nobody is there to water",
        lambda p: not date(2027, 8, 15) < sown_on(p) <= date(2027, 9, 12),
    ),
    "_watering_bans": Case(
        BAN,
        "no seed whose first weeks fall into a ban",
        lambda p: not date(2027, 8, 15) < sown_on(p) <= date(2027, 9, 20),
    ),
    "_rain_alone": Case(
        KISUMU,
        "where nobody waters nothing is planted between two rains, not even a little late",
        lambda p: not [t for t in p.tasks if t.plays("planting")],
    ),
    "_dry_turf": Case(
        {**CHIANG_MAI, **NO_SEED},
        "no low cut before the rains let grass grow",
        lambda p: all(t.start >= date(2027, 5, 1) for t in kind(p, "mow_low")),
    ),
    "_herbicide_holds": Case(
        HELD,
        "no seed within sixteen weeks of prodiamine",
        lambda p: sown_on(p) >= date(2027, 5, 28) + timedelta(weeks=16),
    ),
}


@pytest.mark.full
@pytest.mark.parametrize("rule", sampled(DAYS, *[*DAYS][::3]))
def test_a_kind_of_days_taken_out_is_missed(rule: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The promise about days holds with the rule and not without it."""
    case = DAYS[rule]
    assert case.holds(planned(case.changes)), case.promise
    monkeypatch.setattr(day_limits, rule, lambda *_: [])
    # What calls work back to its good days would hide that no window holds it.
    monkeypatch.setattr(season, "days_in_time", lambda *_: ())
    assert broken(case, lambda: planned(case.changes)), case.promise


SEASON: dict[str, Case] = {
    "_full_days": Case(
        QUARTER,
        "no day holds more hours than the people have",
        lambda p: before(p, "core_aerate", "topdress", 1),
    ),
    "_together": Case(
        NO_SEED,
        "what is spread is worked in the same day",
        lambda p: (
            [t.start for t in kind(p, "incorporate")] == [t.start for t in kind(p, "topdress")]
        ),
    ),
}


@pytest.mark.parametrize("rule", sampled(SEASON, *[*SEASON][::3]))
def test_a_rule_of_the_season_taken_out_is_missed(
    rule: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The lags that bind the jobs of a day are in the season with the rule, and gone without it."""
    case = SEASON[rule]
    assert case.holds(planned(case.changes)), case.promise
    lags = {"_full_days": "day_full:", "_together": "same_day:"}[rule]
    assert any(c.id.startswith(lags) for c in drafted_by(case.changes).season.constraints)
    monkeypatch.setattr(season, rule, lambda *_: [])
    assert not any(c.id.startswith(lags) for c in drafted_by(case.changes).season.constraints)


def drafted_by(changes: Mapping[str, Any]) -> Candidate:
    """The best candidate of the plain brief with changes."""
    return candidate(parse_brief(merged(changes)))[1]


def candidate(brief: Brief) -> tuple[ResolvedLawn, Candidate]:
    """The setting and the best candidate of a brief."""
    given = input_of(brief, EXAMPLES)
    ground = given.ground
    setting = with_windows(
        resolve(
            brief,
            given.book,
            given.climate,
            TODAY.date(),
            ground=ground,
        )
    )
    permit = (
        setting.sowing.operation is not None
        and watering_verdict(brief, given.book, given.climate, setting.sowing.grass.id).needs_permit
    )
    best = compare(setting, feeder_for(setting), permit=permit).best
    assert best is not None
    return setting, best


PRESSED: dict[str, dict[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "pressed.toml").read_text(encoding="utf-8")
)
REACH_DAYS = 7
HARD = {rule.id for rule in load_book().order if rule.strength == "hard"}


def test_every_order_of_work_is_pressed() -> None:
    """No rule of order.toml is without a plan that needs it, and no such plan without a rule."""
    assert set(PRESSED) == {rule.id for rule in load_book().order}


def pressed_case(rule: str) -> dict[str, Any]:
    """The case of a rule of order with what presses it; an empty text in the file takes a key of
    the plain brief away.
    """
    case = {**ORDER_CASES[rule], **PRESSED[rule]}
    if "changes" in PRESSED[rule]:
        case.pop("example", None)
        case["changes"] = {
            table: {key: None if value == "" else value for key, value in values.items()}
            for table, values in PRESSED[rule]["changes"].items()
        }
    return case


class Presses:
    """One brief planned as it is and again after a task was moved by hand, by the whole book and by
    one without the rule.
    """

    def __init__(self, rule: str) -> None:
        self.case = pressed_case(rule)
        self.brief = brief_for(self.case)
        self.given = input_of(self.brief, EXAMPLES)
        self.whole = self.given.book
        self.poorer = replace(self.whole, order=tuple(r for r in self.whole.order if r.id != rule))
        self.known: dict[str, Any] = {
            "now": TODAY,
            "ground": self.given.ground,
            "options": False,
            "brief_sha256": "one brief",
        }
        self.first = made_plan(self.brief, self.whole, self.given.climate, **self.known)
        assert self.first.conflict is None

    def plan(self, book: Book, journal: Sequence[JournalEntry] = ()) -> Plan | None:
        """The draft by a book, after the first plan where something was logged; None for no plan.

        What a plan without the rule does is judged by its dates: its own check would refuse it.
        """
        previous = self.first if journal else None
        climate, known = self.given.climate, self.known
        made = drafted_plan(self.brief, book, climate, tuple(journal), previous, **known)
        return None if made.conflict else made

    def gap(self, plan: Plan) -> int | None:
        """The days between the two tasks as they are planned, or to what is done instead."""
        early, late = (plan.task(self.case[name]) for name in ("before", "after"))
        late = late or plan.task(self.case.get("instead", self.case["after"]))
        if early is None or late is None or "CANCELLED" in (early.status, late.status):
            return None
        return (late.start - early.end).days

    def keeps(self, gap: int) -> bool:
        """Whether the promise holds."""
        return bool(self.case["least"] <= gap <= self.case.get("most", 10_000))

    def moved(self, beyond: int) -> tuple[JournalEntry, ...]:
        """The journal in which one task is moved so many days beyond the promise, or nothing where
        the case moves none.
        """
        if "press" not in self.case:
            return ()
        early, late = (self.first.task(self.case[name]) for name in ("before", "after"))
        assert early is not None and late is not None
        least, most, day = self.case["least"], self.case.get("most", 0), timedelta(1)
        task, to = {
            "before": (early, late.start - (least - beyond) * day),
            "after": (late, early.end + (least - beyond) * day),
            "stale": (early, late.start - (most + beyond) * day),
            "slow": (late, early.end + (most + beyond) * day),
        }[self.case["press"]]
        out = [
            JournalEntry(number=n, at=TODAY, kind="skipped", task=name, on=TODAY.date())
            for n, name in enumerate(self.case.get("skipped", ()), 1)
        ]
        return (
            *out,
            JournalEntry(number=len(out) + 1, at=TODAY, kind="moved", task=task.id, to=to),
        )

    def gaps(self, book: Book, beyond: int) -> int | None:
        """The days between the two tasks after such a move, by a book; None where the plan cannot
        follow.
        """
        plan = self.plan(book, self.moved(beyond))
        return None if plan is None else self.gap(plan)


# A rule that tells only after many days of pressing is left to the full tier; of the others the
# quick tier asks one in three, as test_work_order.py shows of every rule that it binds.
SLOW = {"low_cut_before_seed", "pass_spacing_least", "lime_before_seed", "dethatch_before_aeration"}


@pytest.mark.full
@pytest.mark.parametrize("rule", sampled(PRESSED, *sorted(set(PRESSED) - SLOW)[::6]))
def test_an_order_of_work_taken_out_is_missed(rule: str) -> None:
    """Pressed by a move of the owner, the plan keeps the days the rule promises; by a book without
    the rule it breaks them.

    The promise is judged by the dates alone. A hard rule is never broken, however the tasks are
    pressed.
    """
    presses = Presses(rule)
    for beyond in range(presses.case.get("first", 1), presses.case.get("reach", REACH_DAYS) + 1):
        kept = presses.gaps(presses.whole, beyond)
        if kept is None:
            continue
        assert rule not in HARD or presses.keeps(kept), f"{kept} days"
        without = presses.gaps(presses.poorer, beyond)
        if presses.keeps(kept) and without is not None and not presses.keeps(without):
            return
    pytest.fail(f"no plan is the worse for being made without {rule}")


def test_the_plain_brief_is_what_these_cases_stand_on() -> None:
    """The cases change the plain brief: half an inch on thin tall fescue in Pennsylvania,
    overseeded.
    """
    assert PLAIN["lawn"]["grass"] == "tall_fescue" and PLAIN["leveling"]["depth"] == "0.5 in"
