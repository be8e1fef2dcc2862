"""Campaigns compared when a plan is made again."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from sample_plan import SEED_DAY, sample_plan, with_task, without
from test_seasons import begun
from turfplan.message import as_written
from turfplan.planning.comparison_again import _as_deep, _distance, _in_strips
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import OpenDays, Pass

SAMPLE = sample_plan()


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
