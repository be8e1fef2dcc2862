"""No rule is idle: each operation, campaign, mix, order of work and kind of day, taken out, breaks a stated promise of a plan.

A case is a brief, a promise in words, and the check of it. With the rule the promise holds, without it it does not: either the
plan breaks it, or the plan's own independent check refuses the plan.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any, NamedTuple

import pytest

from planning import EXAMPLES, PLAIN, TODAY, first, kind, merged
from test_rules_order import CASES as ORDER_CASES
from test_rules_order import brief_for
from turfplan.agronomy import Book
from turfplan.brief import Brief, parse_brief
from turfplan.cli.running import input_of
from turfplan.constraints import Lag
from turfplan.errors import TurfplanError
from turfplan.plan import Plan
from turfplan.planner import make_plan, making
from turfplan.planner.comparing import Candidate, compare
from turfplan.planner.feeding import feeder_for
from turfplan.planner.making import UnsoundPlanError
from turfplan.planner.openings import with_windows
from turfplan.readers.book import load_book
from turfplan.rules import days, season
from turfplan.rules.order import order_lags
from turfplan.rules.setting import Setting, resolve
from turfplan.rules.water import watering_verdict

Check = Callable[[Plan], bool]
PHASES = ("prepare", "surface", "level", "sow", "care", "liming", "finish")


class Case(NamedTuple):
    """What a rule is good for: a brief in which it matters, the promise, and the check of a plan."""

    changes: Mapping[str, Any]
    promise: str
    holds: Check


def planned(changes: Mapping[str, Any], book: Book | None = None) -> Plan:
    """The plan of the plain brief with changes, by the whole book or by another."""
    brief = parse_brief(merged(changes))
    given = input_of(brief, EXAMPLES)
    return make_plan(brief, book or given.book, given.climate, now=TODAY, options=False)


def before(plan: Plan, early: str, late: str, days_between: int = 0) -> bool:
    """Whether some task of one operation is there, and every one of the other comes so many days after its first."""
    return bool(kind(plan, early) and kind(plan, late)) and (
        first(plan, late).start - first(plan, early).end
    ) >= timedelta(days_between)


QUARTER = {"leveling": {"depth": "0.25 in"}}
NO_SEED = {"seeding": {"intent": "none"}}
SEED_ONLY = {"leveling": {"depth": "0 in"}}
GEORGIA = {"place": {"postal_code": "30606"}}
HOLLOW = {"leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.05}, {"depth": "0.5 in", "share": 0.3}]}}

OPERATIONS: dict[str, Case] = {
    "diagnose": Case({"site": {"bump_cause": "moles"}}, "the cause of bumps is looked for before material is bought", lambda p: before(p, "diagnose", "order_material")),
    "soil_test": Case({}, "the soil is tested three weeks before seed", lambda p: before(p, "soil_test", "overseed", 21)),
    "locate_utilities": Case({}, "lines are marked before tines go in", lambda p: before(p, "locate_utilities", "core_aerate")),
    "irrigation_check": Case({}, "the water is measured a week before seed depends on it", lambda p: before(p, "irrigation_check", "overseed", 7)),
    "permit": Case({"water": {"allowed_weekdays": ["tue", "sat"], "permit": True}}, "a permit is got a week before daily watering", lambda p: before(p, "permit", "overseed", 7)),
    "weed_control": Case({"site": {"weeds_percent": 30}}, "weeds are dealt with four weeks before seed", lambda p: before(p, "weed_control", "overseed", 28)),
    "order_material": Case({}, "material is ordered the supplier's days before it comes", lambda p: before(p, "order_material", "delivery", 7)),
    "delivery": Case({}, "the mix is there two days before it is spread", lambda p: before(p, "delivery", "topdress", 2)),
    "dry_material": Case({}, "the mix is looked after between delivery and pass", lambda p: before(p, "dry_material", "topdress")),
    "raise_fittings": Case({}, "heads come up before half an inch buries them", lambda p: before(p, "raise_fittings", "topdress")),
    "lift_and_fill": Case(HOLLOW, "hollows over two inches are lifted before the rest is dressed", lambda p: before(p, "lift_and_fill", "topdress", 14)),
    "mow_low": Case({}, "the grass is cut low within six days of the pass", lambda p: any(timedelta(0) <= first(p, "topdress").start - t.end <= timedelta(6) for t in kind(p, "mow_low"))),
    "dethatch": Case({"lawn": {"thatch": "0.6 in"}}, "thatch over half an inch is taken off ten days before the pass", lambda p: before(p, "dethatch", "topdress", 10)),
    "core_aerate": Case({}, "holes are open for the first pass", lambda p: any(timedelta(0) <= first(p, "topdress").start - t.end <= timedelta(7) for t in kind(p, "core_aerate"))),
    "topdress": Case({}, "the fill that was asked for is spread", lambda p: sum(a.value for t in kind(p, "topdress") for a in t.amounts if a.item == "depth") > 12.6),
    "incorporate": Case({}, "what is spread is worked in the same day", lambda p: [t.start for t in kind(p, "incorporate")] == [t.start for t in kind(p, "topdress")]),
    "mow": Case({"leveling": {"depth": "1 in"}}, "the grass is mown before the second pass", lambda p: before(p, "mow", "overseed")),
    "seed": Case({**GEORGIA, "lawn": {"grass": "bermuda_common"}}, "bermuda is sown in early summer", lambda p: bool(kind(p, "seed")) and first(p, "seed").start.month in (5, 6, 7)),
    "overseed": Case({}, "fescue is overseeded in late summer or autumn", lambda p: bool(kind(p, "overseed")) and first(p, "overseed").start.month in (8, 9)),
    "dormant_seed": Case({"seeding": {"intent": "dormant"}}, "dormant seed lies before the ground freezes", lambda p: bool(kind(p, "dormant_seed")) and first(p, "dormant_seed").start.month in (11, 12, 1)),
    "plant": Case({**GEORGIA, "lawn": {"grass": "zoysia"}, "seeding": {"intent": "plant"}}, "plugs are set two weeks after the fill", lambda p: before(p, "topdress", "plant", 14)),
    "roll": Case({"lawn": {"soil": "sandy loam"}}, "seed on light soil is pressed in the day it is sown, or the next", lambda p: before(p, "overseed", "roll") and first(p, "roll").start - first(p, "overseed").end <= timedelta(1)),
    "cover": Case({"site": {"slope_percent": 12}}, "seed on a slope is covered the day it is sown, or the next", lambda p: before(p, "overseed", "cover") and first(p, "cover").start - first(p, "overseed").end <= timedelta(1)),
    "starter_feed": Case(SEED_ONLY, "seed without compost gets a starter within three days", lambda p: before(p, "overseed", "starter_feed") and first(p, "starter_feed").start - first(p, "overseed").end <= timedelta(3)),
    "water": Case({}, "new seed is watered from the day it is sown", lambda p: any(t.start == first(p, "overseed").end for t in kind(p, "water"))),
    "feed_nitrogen": Case(NO_SEED, "a lawn that is not sown is fed in the year", lambda p: bool(kind(p, "feed_nitrogen"))),
    "first_mow": Case({}, "seedlings are mown once they are tall enough", lambda p: before(p, "overseed", "first_mow", 17)),
    "preemergent": Case(SEED_ONLY, "a spring far from any seed offers a preventer", lambda p: bool(kind(p, "preemergent"))),
    "lime": Case({"soil_test": {"on": date(2027, 1, 20), "ph": 5.2, "acidity_cmol_kg": 6.0}}, "an acid soil gets its lime in parts, months apart", lambda p: len(kind(p, "lime")) > 1 and kind(p, "lime")[1].start - kind(p, "lime")[0].end >= timedelta(120)),
    "inspect": Case({}, "somebody looks whether the seed has come up", lambda p: any(t.id == "inspect.germination" for t in p.tasks)),
    "last_mow": Case({}, "the lawn goes into winter cut", lambda p: before(p, "first_mow", "last_mow")),
    "settle_check": Case({}, "the fill is measured two months after the last pass", lambda p: before(p, "topdress", "settle_check", 60)),
    "touch_up": Case({}, "what has settled is made good after the check", lambda p: before(p, "settle_check", "touch_up", 7)),
}  # fmt: skip


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
    if operation == "water":
        real = making.watered
        monkeypatch.setattr(making, "watered", lambda *a, **k: ((), *real(*a, **k)[1:]))


def broken(case: Case, plan: Callable[[], Plan]) -> bool:
    """Whether a plan breaks the promise, or its own check refuses it."""
    try:
        return not case.holds(plan())
    except UnsoundPlanError:
        return True


def test_every_operation_has_a_promise() -> None:
    """No operation of the book is without a case, and no case without an operation."""
    assert set(OPERATIONS) == set(load_book().operations)


@pytest.mark.parametrize("operation", OPERATIONS)
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
    "hollows": {**NO_SEED, "leveling": {"depth": None, "lows": [{"depth": "3 in", "share": 0.05}]}},
    "winter_cover": {**GEORGIA, **SEED_ONLY, "lawn": {"grass": "bermuda_hybrid"}, "seeding": {"intent": "winter_overseed"}},
}  # fmt: skip


def test_every_campaign_has_a_lawn() -> None:
    """No campaign of the book is without a lawn that it is best for, or that may ask for it."""
    assert set(CAMPAIGNS) == set(load_book().campaigns)


@pytest.mark.parametrize("campaign", CAMPAIGNS)
def test_a_campaign_taken_out_is_missed(campaign: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The lawn that takes this way has another plan, or none, when the way is closed."""
    from turfplan.planner import comparing

    case = Case(CAMPAIGNS[campaign], f"the way is {campaign}", lambda p: p.campaign == campaign)
    assert case.holds(planned(case.changes)), planned(case.changes).campaign
    real = comparing.campaigns

    def closed(setting: Setting) -> Any:
        possible, ruled_out = real(setting)
        return tuple(c for c in possible if c.id != campaign), ruled_out

    monkeypatch.setattr(comparing, "campaigns", closed)
    assert broken(case, lambda: planned(case.changes)), case.promise


MIXES: dict[str, tuple[Mapping[str, Any], str]] = {
    "sand": ({**NO_SEED, **QUARTER, "lawn": {"soil": "sandy loam"}}, "thin fill on a sandy soil is straight sand"),
    "topsoil_sand": (NO_SEED, "fill on clay without seed is half topsoil, half sand"),
    "topsoil_sand_compost": ({}, "fill that carries seed holds compost"),
    "compost": ({"leveling": {"material": "compost", "depth": "0.25 in"}}, "who asks for compost alone gets it"),
}


def test_every_mix_has_a_lawn() -> None:
    """No mix of the book is without a lawn that takes it."""
    assert set(MIXES) == set(load_book().mixes)


@pytest.mark.parametrize("mix", MIXES)
def test_a_mix_taken_out_is_missed(mix: str) -> None:
    """The lawn takes this mix; by a book without it there is no such plan."""
    changes, promise = MIXES[mix]
    book = load_book()
    assert planned(changes).lawn.mix == book.mixes[mix].name, promise
    poorer = replace(book, mixes={key: value for key, value in book.mixes.items() if key != mix})
    with pytest.raises((TurfplanError, KeyError), match=mix):
        planned(changes, poorer)


WEEKEND = {"calendar": {"weekdays": ["sat", "sun"]}}
ONE_PERSON = {"work": {"people": 1, "hours_per_day": 3}, "calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}}  # fmt: skip
AWAY = {**QUARTER, "calendar": {"away": [{"from": date(2027, 9, 5), "to": date(2027, 9, 12)}]}}
BAN = {**QUARTER, "water": {"banned": [{"from": date(2027, 9, 1), "to": date(2027, 9, 20)}]}}
AUTUMN_LOST = {"calendar": {"unavailable": [{"from": date(2027, 8, 1), "to": date(2027, 11, 20)}]}}
HELD = {**QUARTER, "history": {"herbicides": [{"active_ingredient": "prodiamine", "on": date(2027, 5, 28)}]}}


def sown_on(plan: Plan) -> date:
    """The day of the seed, whatever its operation."""
    return next(t.start for t in plan.tasks if t.plays("sowing"))


DAYS: dict[str, Case] = {
    "_calendar": Case(WEEKEND, "work is done on the days that were named", lambda p: all(t.start.weekday() >= 5 for t in p.tasks if t.series is None)),
    "_windows": Case(AUTUMN_LOST, "seed waits for a season of its own, never for summer", lambda p: sown_on(p).month not in (6, 7)),
    "_watering_people": Case(AWAY, "no seed three weeks before nobody is there to water", lambda p: not date(2027, 8, 15) < sown_on(p) <= date(2027, 9, 12)),
    "_watering_bans": Case(BAN, "no seed whose first weeks fall into a ban", lambda p: not date(2027, 8, 15) < sown_on(p) <= date(2027, 9, 20)),
    "_herbicide_holds": Case(HELD, "no seed within sixteen weeks of prodiamine", lambda p: sown_on(p) >= date(2027, 5, 28) + timedelta(weeks=16)),
}  # fmt: skip


@pytest.mark.parametrize("rule", DAYS)
def test_a_kind_of_days_taken_out_is_missed(rule: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The promise about days holds with the rule and not without it."""
    case = DAYS[rule]
    assert case.holds(planned(case.changes)), case.promise
    monkeypatch.setattr(days, rule, lambda *_: [])
    assert broken(case, lambda: planned(case.changes)), case.promise


SEASON: dict[str, Case] = {
    "_full_days": Case(ONE_PERSON, "no day holds more hours than the people have", lambda p: before(p, "core_aerate", "topdress", 1)),
    "_together": Case(NO_SEED, "what is spread is worked in the same day", lambda p: [t.start for t in kind(p, "incorporate")] == [t.start for t in kind(p, "topdress")]),
}  # fmt: skip


@pytest.mark.parametrize("rule", SEASON)
def test_a_rule_of_the_season_taken_out_is_missed(rule: str, monkeypatch: pytest.MonkeyPatch) -> None:
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


def candidate(brief: Brief) -> tuple[Setting, Candidate]:
    """The setting and the best candidate of a brief."""
    given = input_of(brief, EXAMPLES)
    ground = given.ground
    setting = with_windows(
        resolve(brief, given.book, given.climate, TODAY.date(), area_m2=ground.area_m2 if ground else None)
    )
    permit = (
        setting.sowing is not None and watering_verdict(brief, given.book, given.climate, setting.sown.id).needs_permit
    )
    best = compare(setting, feeder_for(setting), permit=permit).best
    assert best is not None
    return setting, best


@lru_cache(maxsize=64)
def kept(case: str) -> tuple[Setting, Candidate]:
    """As `candidate`, once for each brief among the cases of the order of work, which `case` names by its words."""
    return candidate(next(brief_for(c) for c in ORDER_CASES.values() if words_of(c) == case))


def words_of(case: Mapping[str, Any]) -> str:
    """The brief of a case in words: its example, or its changes."""
    return str(case.get("example") or case.get("changes", {}))


@pytest.mark.parametrize("rule", ORDER_CASES)
def test_an_order_of_work_taken_out_is_missed(rule: str) -> None:
    """The rule binds its two tasks; by a book without it nothing of that name does, and all other lags stand."""
    setting, best = kept(words_of(ORDER_CASES[rule]))
    flags = season.season_flags(setting, best.campaign)
    numbers = season.computed_numbers(setting, best.campaign)

    def names(lags: Sequence[Lag]) -> set[str]:
        return {lag.id.partition(":")[0] for lag in lags}

    whole = names(order_lags(setting, best.season.drafts, flags, numbers))
    poorer = replace(setting.book, order=tuple(r for r in setting.book.order if r.id != rule))
    assert rule in whole
    assert names(order_lags(replace(setting, book=poorer), best.season.drafts, flags, numbers)) == whole - {rule}


def test_the_plain_brief_is_what_these_cases_stand_on() -> None:
    """The cases change the plain brief: half an inch on thin tall fescue in Pennsylvania, overseeded."""
    assert PLAIN["lawn"]["grass"] == "tall_fescue" and PLAIN["leveling"]["depth"] == "0.5 in"
