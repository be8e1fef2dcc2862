"""A campaign without days says what stood in its way, and one that waits why."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from types import SimpleNamespace
from typing import Any, cast

import pytest

from planning import brief_of, first, plan_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of
from told import told
from turfplan.message import as_written
from turfplan.planning import candidates as module
from turfplan.planning.candidates import (
    Candidate,
    _dated,
    _in_one_go_or_strips,
    _runner_up,
    _tried,
    _Undatable,
    all_campaigns,
    draft_campaign,
    dressed_then,
    given_up,
    lawfully_fed,
)
from turfplan.planning.feeding import feeder_for
from turfplan.planning.rejected_campaigns import in_order
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Draft, SeasonDraft

NEVER = Allowed(
    "never", "topdress.1", DaySet(()), Strength.HARD, Reason("test", as_written("Never."))
)


@pytest.mark.full
@pytest.mark.parametrize(
    ("days", "strips", "is_long"),
    [(2, (), True), (3, (), True), (3, ("topdress.1",), False)],
)
def test_only_a_pass_of_days_that_is_not_in_strips_is_too_long(
    days: int, strips: tuple[str, ...], *, is_long: bool
) -> None:
    """Then it is tried strip by strip; one that is in strips already has no other way."""
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
    drafts = tuple(
        replace(d, duration_days=days, strips=strips) if d.operation == "topdress" else d
        for d in drafted.season.drafts
    )
    season = replace(
        drafted.season, drafts=drafts, constraints=(*drafted.season.constraints, NEVER)
    )
    found = _dated(setting, replace(drafted, season=season))
    assert not isinstance(found, Candidate)
    assert found.long_pass is is_long and found.conflict


MADISON = {
    "place": {"postal_code": "53703"},
    "lawn": {"grass": "kentucky_bluegrass"},
    "leveling": None,
}


@pytest.mark.full
@pytest.mark.parametrize("year", range(2026, 2033))
def test_a_starter_in_spring_moves_no_dormant_seed_by_a_year(year: int) -> None:
    """Whatever the weekday on which the seed wakes, it goes in in the coming winter."""
    begins = {"season": {"from": date(year, 2, 10)}, "seeding": {"intent": "dormant"}}
    plan = plan_of(MADISON, begins, now=datetime(year, 2, 10, 12, tzinfo=UTC))
    assert first(plan, "dormant_seed").start <= date(year + 1, 1, 31)


@pytest.mark.full
def test_a_season_missed_says_why_the_work_lies_a_year_ahead() -> None:
    """In October the days of autumn's seed are over, and the plan names the last of them; a plan
    that waits for its right season says nothing of the one before."""
    begins = {"season": {"from": date(2027, 10, 20)}}
    plan = plan_of(MADISON, begins, now=datetime(2027, 10, 20, 12, tzinfo=UTC))
    assert first(plan, "overseed").start.year == 2028
    (said,) = [told(why) for why in plan.campaign_reason if "year sooner" in told(why)]
    assert "2027 was Thu, Sep 16, 2027" in said
    assert not [why for why in plan_of(MADISON).campaign_reason if "sooner" in told(why)]


@pytest.mark.full
def test_a_look_that_comes_too_late_is_named_as_the_reason() -> None:
    """Where a count of grubs in late September leaves no days to sow, that is said."""
    there = {"place": {"postal_code": "43215"}, "site": {"thin_cause": ["grubs"]}}
    begins = {"season": {"from": date(2026, 9, 20)}}
    plan = plan_of(MADISON, there, begins, now=datetime(2026, 9, 20, 12, tzinfo=UTC))
    assert first(plan, "overseed").start.year == 2027
    (said,) = [told(why) for why in plan.campaign_reason if "year sooner" in told(why)]
    assert "The cause comes first" in said


TAMPA = {
    "place": {"postal_code": "33602", "state": "FL"},
    "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "sod"},
    "site": {"thin_cause": ["insects"]},
    "season": None,
}
BOSTON = {
    "place": {"postal_code": "02134"},
    "lawn": {"grass": "kentucky_bluegrass"},
    "site": {"thin_cause": ["packed"]},
    "season": None,
}


@pytest.mark.full
@pytest.mark.parametrize("lawn", [TAMPA, BOSTON])
def test_no_week_of_today_puts_the_work_off_a_year_without_a_word(lawn: dict[str, Any]) -> None:
    """From one week to the next it moves by days, or the plan says why it does not come sooner."""
    before: date | None = None
    for week in range(4):
        now = datetime(2027, 9, 1, 12, tzinfo=UTC) + timedelta(7 * week)
        plan = plan_of(lawn, now=now, options=False)
        main = max(t.start for t in plan.tasks if t.plays("sowing", "planting"))
        told_why = [why for why in plan.campaign_reason if "year sooner" in told(why)]
        assert before is None or (main - before).days < 60 or told_why, (now, main)
        assert (main.year == 2028) == bool(told_why)
        before = main
    assert before is not None and before.year == 2028


SETTING = setting_of(brief_of())
WAY = campaigns(SETTING)[0][0]


def made(cost: float = 0.0, day: int = 5, *, late: bool = False) -> Candidate:
    """A candidate whose seed is sown on a day; `late` where its starter could not be with it."""
    seed = Draft("overseed", "overseed", "seed", as_written(""), 0)
    look = Draft("inspect", "inspect", "care", as_written(""), 5)
    lag = SimpleNamespace(reason=Reason("starter_with_seed", as_written("")))
    dated: Any = SimpleNamespace(
        dropped=(lag,) if late else (),
        day=lambda node: day if node == "overseed" else 7,
        schedule=SimpleNamespace(days={"overseed": day}),
    )
    season, none = SeasonDraft((seed, look), ()), cast("Any", None)
    return Candidate(SETTING, WAY, none, none, none, season, season, dated, cost)


def fed_by_law(
    monkeypatch: pytest.MonkeyPatch,
    fed: Any,
    unfed: Any,
    *,
    starter: bool = True,
    held: bool = True,
) -> tuple[Any, int]:
    """What is tried of a campaign with and without its starter, and how often one tried."""
    tries: list[bool] = []

    def drafted(*given: Any, permit: bool, starter: bool = True) -> Any:
        feeding = SimpleNamespace(
            starter=object() if has_starter else None, starter_days=object() if held else None
        )
        return SimpleNamespace(feeding=feeding, with_starter=starter)

    def tried(draft: Any) -> Any:
        tries.append(draft.with_starter)
        return fed if draft.with_starter else unfed

    has_starter = starter
    monkeypatch.setattr(module, "draft_campaign", drafted)
    feeder = cast("Any", None)
    return lawfully_fed(SETTING, WAY, feeder, tried, permit=False), len(tries)


def test_a_starter_is_left_out_where_it_would_move_the_seed_or_come_late(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Or where the campaign could not be dated with it; else it is given."""
    same, other, late = made(day=5), made(day=6), made(day=5, late=True)
    without = made(day=5)
    assert fed_by_law(monkeypatch, same, without) == (same, 2)
    assert fed_by_law(monkeypatch, other, without)[0] is without
    assert fed_by_law(monkeypatch, late, without)[0] is without
    assert fed_by_law(monkeypatch, "conflict", without)[0] is without
    assert fed_by_law(monkeypatch, same, "conflict")[0] is same
    assert fed_by_law(monkeypatch, "one", "two")[0] == "one"


def test_only_a_starter_that_a_law_holds_or_that_fails_is_tried_without(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One try where there is none, or where no law closes days and it can be dated."""
    late, without = made(late=True), made()
    assert fed_by_law(monkeypatch, late, without, starter=False) == (late, 1)
    assert fed_by_law(monkeypatch, late, without, held=False) == (late, 1)
    assert fed_by_law(monkeypatch, "conflict", without, held=False) == (without, 2)
    assert fed_by_law(monkeypatch, "conflict", without, starter=False) == ("conflict", 1)


def test_what_speaks_against_the_fill_as_asked_comes_first() -> None:
    """What was ruled out at once, then its own campaigns, then those of other ways."""
    part = replace(SETTING, levelling=replace(SETTING.levelling))
    told_of = {name: (as_written(name), as_written("why")) for name in "abcd"}
    others = [(part, told_of["a"]), (SETTING, told_of["b"]), (part, told_of["c"])]
    found = in_order(SETTING, [told_of["d"]], others)
    assert found == tuple(told_of[name] for name in "dbac")


def test_where_hollows_are_lifted_what_holds_with_them_lifted_comes_first() -> None:
    """Passes of lifted hollows speak against nothing; ways that leave a part out wait."""
    way = replace(SETTING.levelling, lift_share=0.1)
    lifted = replace(SETTING, levelling=way)
    part = replace(SETTING, levelling=replace(way, left=SETTING.levelling.bands))
    told_of = {name: (as_written(name), as_written("why")) for name in "abcd"}
    others = [(part, told_of["a"]), (SETTING, told_of["b"]), (lifted, told_of["c"])]
    at_once = (as_written("c"), as_written("too few sessions for its hollows"))
    found = in_order(SETTING, [told_of["d"], at_once], others, lifts=True)
    assert found == tuple(told_of[name] for name in "dcba")


def test_seed_alone_waits_for_no_season_that_has_a_fill() -> None:
    """Of the same sowing, season and year; nothing of one that does not sow."""
    day = date(2027, 9, 1)
    sow = days_of("overseed", day, day + timedelta(9))

    def sown(window: Any) -> Any:
        return SimpleNamespace(campaign=SimpleNamespace(sow_window=window))

    def then(window: Any, *found: Any) -> bool:
        bare: Any = SimpleNamespace(sow_window=window)
        return dressed_then([sown(each) for each in found], bare)

    assert then(sow, None, sow) and not then(sow) and not then(None, sow) and not then(sow, None)
    assert not then(sow, replace(sow, operation="seed"))
    assert not then(sow, replace(sow, season="spring"))
    assert not then(sow, replace(sow, end=date(2028, 9, 1)))
    assert then(sow, replace(sow, start=date(2027, 8, 1)))


def test_campaigns_of_all_ways_come_by_their_cost() -> None:
    """What the first way rules out is told where no other makes it possible."""
    found, ruled_out = all_campaigns([SETTING])
    costs = [campaign.cost for _, campaign in found]
    assert costs == sorted(costs) and len(costs) > 1
    twice, against = all_campaigns([SETTING, SETTING])
    assert len(twice) == 2 * len(found) and against == ruled_out
    names = {campaign.name for _, campaign in found}
    assert not names & {name for name, _ in ruled_out}
    assert all_campaigns([]) == ([], ())


def test_a_pass_that_is_too_long_is_tried_in_strips(monkeypatch: pytest.MonkeyPatch) -> None:
    """From two days on; what fails for another reason, or in strips too, has its first reason."""
    why, asked = as_written("why"), list[int | None]()
    long, short = _Undatable(why, (), True), _Undatable(why, ())

    def attempt(whole: Any, strips: Any) -> Any:
        def tried(setting: Any, *given: Any, permit: bool) -> Any:
            asked.append(setting.strip_days)
            return whole if setting.strip_days is None else strips

        asked.clear()
        monkeypatch.setattr(module, "_tried_so", tried)
        return _in_one_go_or_strips(SETTING, WAY, cast("Any", None), permit=False)

    good = made()
    assert attempt(good, short) is good and asked == [None]
    assert attempt(long, good) is good and asked == [None, 2]
    assert attempt(long, short) is long
    assert attempt(short, good) is short and asked == [None]


def test_rules_given_up_cost_by_their_strength() -> None:
    """All of them together; a strong one more than advice."""

    def cost(*strengths: Strength) -> float:
        rules = tuple(replace(NEVER, strength=strength) for strength in strengths)
        dated: Any = SimpleNamespace(dropped=rules)
        return given_up(SETTING, dated.dropped)

    names = ("cost_preference", "cost_advice_rule", "cost_strong_rule")
    preference, advice, strong = (
        SETTING.book.facts[f"campaign.{name}"].si  # type: ignore[index]
        for name in names
    )
    assert cost() == 0 and cost(Strength.PREFERENCE) == preference
    assert cost(Strength.ADVICE, Strength.ADVICE) == 2 * advice
    assert cost(Strength.STRONG, Strength.ADVICE) == pytest.approx(strong + advice)


def test_thatch_that_has_no_room_beside_the_fill_is_taken_down_before(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Only where a campaign cannot be dated and its turf is dethatched."""
    why, asked = _Undatable(as_written("why"), ()), list[bool]()
    monkeypatch.setattr(module, "crowded", lambda setting, campaign: None)

    def attempt(whole: Any, ahead: Any, *, thatch: bool) -> Any:
        def tried(setting: Any, *given: Any, permit: bool) -> Any:
            asked.append(setting.dethatched_ahead)
            return ahead if setting.dethatched_ahead else whole

        asked.clear()
        monkeypatch.setattr(module, "_in_one_go_or_strips", tried)
        monkeypatch.setattr(module, "dethatches", lambda setting: thatch)
        return _tried(SETTING, WAY, cast("Any", None), permit=False)

    good = made()
    assert attempt(good, why, thatch=True) is good and asked == [False]
    assert attempt(why, good, thatch=True) is good and asked == [False, True]
    assert attempt(why, replace(why, long_pass=True), thatch=True) is why
    assert attempt(why, good, thatch=False) is why and asked == [False]
    monkeypatch.setattr(module, "sown_share", lambda setting, window: 0.0)
    dry = attempt(good, good, thatch=True)
    assert isinstance(dry, _Undatable) and dry.conflict and asked == []


def test_a_dated_campaign_loses_by_the_advice_it_gives_up_else_by_the_better_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What it gives up is named."""
    monkeypatch.setattr(module, "second_best", lambda best, other: as_written("Later."))
    best, keeps = cast("Any", None), made()
    assert _runner_up(best, keeps) == as_written("Later.")
    dated: Any = SimpleNamespace(dropped=(NEVER,))
    said = told(_runner_up(best, replace(keeps, dated=dated)))
    assert "Never." in said and "Later." not in said
