"""Campaigns compared when a plan is made again."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.from_state import FromState
from campaigns.walks import begun as walk_of
from campaigns.walks import walked
from campaigns.wet_seasons import YEAR
from campaigns.wet_seasons import begun as first_plan
from planning import brief_of, kind
from resolved_lawns import setting_of
from sample_plan import SEED_DAY, sample_plan, with_task, without
from test_planning_worth import candidate
from test_seasons import begun
from tiers import sampled
from turfplan.app.inputs import PlanInputs
from turfplan.message import Day, as_written
from turfplan.planning.comparison_again import (
    _as_deep,
    _distance,
    _in_strips,
    _promise_or_better,
    _WayOn,
)
from turfplan.planning.worth import Worth
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import OpenDays, Pass

SAMPLE = sample_plan()


def first_of(station: str, lawn: str) -> tuple[PlanInputs, Plan]:
    """What is planned from at a station, and the first plan."""
    season = first_plan(station, lawn)
    return season.given, season.plan


def test_a_way_of_filling_is_that_of_the_plan_before_where_it_is_as_deep() -> None:
    """To a thousandth of a millimetre."""
    setting = setting_of(brief_of())
    previous = sample_plan()

    def deep(more_mm: float) -> bool:
        lawn = previous.lawn.model_copy(update={"depth_mm": setting.levelling.depth_mm + more_mm})
        return _as_deep(setting, previous.model_copy(update={"lawn": lawn}))

    assert [deep(mm) for mm in (-0.002, -0.0004, 0.0, 0.0004, 0.002)] == [
        False,
        True,
        True,
        True,
        False,
    ]


def distance(previous: Plan, sow: date | None, *sessions: tuple[date, int]) -> int:
    """How far a campaign lies from a plan; sessions by their best day and number of passes."""

    def window(operation: Any, day: date) -> OpenDays:
        return OpenDays(operation, "autumn", day, day, day, as_written(""), as_written(""))

    made = tuple(
        Session(
            n,
            window("topdress", day),
            tuple(Pass(k, n, 6.0, 1.0, False, 6.0, as_written("")) for k in range(count)),
            False,
        )
        for n, (day, count) in enumerate(sessions, 1)
    )
    seed = None if sow is None else window("overseed", sow)
    return _distance(Campaign("autumn", as_written(""), (), made, seed, 0.0), previous)


def test_a_campaign_lies_as_far_from_a_plan_as_its_seed_or_its_last_pass() -> None:
    """A thousand days for each pass more or less; cancelled tasks do not count."""
    seeded, last = SEED_DAY, date(2027, 9, 11)
    assert distance(SAMPLE, seeded, (last, 2)) == 0
    assert distance(SAMPLE, seeded + timedelta(3), (last, 2)) == 3
    assert distance(SAMPLE, seeded - timedelta(3), (last, 1)) == 1003
    assert distance(SAMPLE, seeded, (last, 2), (last, 1)) == 1000
    assert distance(SAMPLE, None, (seeded - timedelta(3), 2)) == 3
    unsown = without(SAMPLE, "overseed")
    assert distance(unsown, None, (last + timedelta(4), 2)) == 4
    cancelled = with_task(SAMPLE, "overseed", status="CANCELLED")
    assert distance(cancelled, None, (last + timedelta(4), 2)) == 4
    fewer = with_task(SAMPLE, "topdress.2", status="CANCELLED")
    assert distance(fewer, seeded, (last, 1)) == 0
    bare = without(SAMPLE, "overseed", "topdress.1", "topdress.2")
    assert distance(bare, seeded) == 0
    assert distance(SAMPLE, None) == 2000


def test_a_plan_goes_by_strips_where_long_passes_share_their_days_with_other_jobs() -> None:
    """With two of them at least: what is worked in has them in any case."""
    spread = SAMPLE.task("topdress.2")
    assert spread is not None and spread.start != spread.end
    assert not _in_strips(SAMPLE)

    def beside(*names: str, day: int = 0) -> Plan:
        plan = SAMPLE
        for name in names:
            start = spread.start + timedelta(day)
            plan = with_task(plan, name, start=start, end=spread.end)
        return plan

    assert not _in_strips(beside("mow_low.1"))
    assert _in_strips(beside("mow_low.1", "core_aerate.1"))
    assert not _in_strips(beside("mow_low.1", "core_aerate.1", day=1))
    short = with_task(beside("mow_low.1", "core_aerate.1"), "topdress.2", end=spread.start)
    assert not _in_strips(short)
    assert not _in_strips(without(SAMPLE, "topdress.1", "topdress.2"))


@pytest.mark.full
def test_a_fill_is_as_deep_to_a_thousandth_of_a_millimetre() -> None:
    """As finely as a plan keeps its depth."""
    setting, plan = setting_of(brief_of()), begun().plan
    for apart_mm, same in ((0.0, True), (0.0004, True), (-0.0004, True), (0.0006, False)):
        depth_mm = setting.levelling.depth_mm + apart_mm
        lawn = plan.lawn.model_copy(update={"depth_mm": depth_mm})
        assert _as_deep(setting, plan.model_copy(update={"lawn": lawn})) is same, apart_mm


@pytest.mark.parametrize("weekends", [1, 3])
def test_wet_weekends_send_no_seed_out_of_its_open_window(weekends: int) -> None:
    """Pass and seed go on in the same window, with their cuts and cores made anew."""
    season = walk_of(brief_of())
    asked = kind(season.plan, "overseed")[0]
    for _ in range(weekends):
        day = kind(season.plan, "topdress")[0].start
        season.done_until(day)
        season.log("rained_off", on=day)
        season.log("rained_off", on=day + timedelta(days=1))
        season.go(day + timedelta(days=2))
    spread, sown = kind(season.plan, "topdress")[0], kind(season.plan, "overseed")[0]
    assert sown.start.year == asked.start.year and sown.end <= sown.window.end
    assert spread.end <= sown.start
    cores = [t for t in kind(season.plan, "core_aerate") if t.closed is None or t.closed == "done"]
    assert 0 <= (spread.start - max(t.end for t in cores)).days <= 7


def test_a_promise_that_is_kept_is_told_with_what_would_come_else() -> None:
    """By mid-September nothing but seed would be planned anew; the rest of the fill was promised
    for spring, and stays. Its plan goes on as it would if it were held to no day otherwise."""
    season = FromState(*first_of("brussels", "bluegrass"))
    last = max(t.end for t in season.plan.tasks if t.plays("spreading") and t.end.year == YEAR)
    season.done_until(last)
    season.log("rained_off", on=last)
    plan = season.go(last + timedelta(days=1))
    assert season.last == "told"
    (told,) = (r.reason for r in plan.rejected if r.reason.key == "reasons.fill_kept")
    values = dict(told.values)
    sown = kind(plan, "overseed")[0]
    assert sown.start.year == YEAR + 1 and values["promised"] == Day(sown.end)


@pytest.mark.parametrize("number", sampled((7001, 7003, 7006), 7001))
def test_a_plan_goes_on_as_its_state_says(number: int) -> None:
    """Step by step through a walk: in the seasons of a plan that is held to no day."""
    season = walked(number, made=FromState)
    if isinstance(season, FromState):
        assert season.found and not season.found["differs"]


def test_another_season_is_taken_once_it_is_better_than_what_it_breaks() -> None:
    """A promise that can hardly be kept gives way; one that is nearly as good stays."""
    way = candidate()
    other = replace(way, campaign=replace(way.campaign, name=as_written("other")))

    def best(kept: float, found: float) -> str:
        weighed = [
            _WayOn(way, Worth(kept, 0.0, 0.0, 0)),
            _WayOn(other, Worth(found, 0.0, 0.5, 9)),
        ]
        chosen = _promise_or_better(way, weighed, (), TaskHistory()).best
        return "kept" if chosen is way else "other"

    assert [best(2.0, found) for found in (2.0, 1.5, 1.41, 1.39, 0.0)] == [
        "kept",
        "kept",
        "kept",
        "other",
        "other",
    ]
