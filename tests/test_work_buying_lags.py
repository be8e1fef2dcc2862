"""What binds the tasks of buying to each other and to what they are for."""

from typing import Any

import pytest

from test_work_campaigns import plain
from turfplan.message import as_written
from turfplan.phrases import buying as phrases
from turfplan.records.constraints import Lag, Strength
from turfplan.work.buying_lags import buying_lags
from turfplan.work.drafts import Draft

DAY = 740000


def task(name: str, operation: Any = None, **more: Any) -> Draft:
    """A task by its id."""
    kind, _, key = name.partition(".")
    made = operation or kind
    return Draft(name, made, "prepare", as_written(""), 5, key=key or None, **more)


def between(lags: list[Lag], before: str, after: str) -> list[Lag]:
    """The lags between two tasks."""
    return [lag for lag in lags if (lag.before, lag.after) == (before, after)]


def test_a_trip_is_no_later_than_each_of_its_jobs() -> None:
    """Hard, on the same day at the latest; a job that has fallen binds nothing."""
    drafts = [task("collect.seed", buys_for=("overseed", "starter_feed", "gone"))]
    drafts += [task("overseed"), task("starter_feed")]
    lags = buying_lags(plain(), drafts)
    assert {lag.after for lag in lags} == {"overseed", "starter_feed"}
    for lag in lags:
        assert lag.strength is Strength.HARD and lag.maximum is None
        assert lag.minimum is not None and lag.minimum(DAY) == DAY


@pytest.mark.parametrize(("form", "keeps"), [("sod", 1), ("sprigs", 2), ("plugs", 7)])
def test_plants_are_ordered_ahead_and_keep_for_days(form: str, keeps: int) -> None:
    """The grower's days are hard, how long they keep is advice."""
    drafts = [
        task(f"order_material.{form}", buys_for=("plant",)),
        task(f"delivery.{form}", buys_for=("plant",)),
        task("plant"),
    ]
    lags = buying_lags(plain(), drafts)
    (lead,) = between(lags, f"order_material.{form}", f"delivery.{form}")
    assert lead.strength is Strength.HARD and lead.minimum is not None
    assert lead.minimum(DAY) == DAY + 7
    first, fresh = between(lags, f"delivery.{form}", "plant")
    assert first.strength is Strength.HARD and first.minimum is not None
    assert first.minimum(DAY) == DAY
    assert fresh.strength is Strength.ADVICE and fresh.maximum is not None
    assert fresh.minimum is None and fresh.maximum(DAY) == DAY + keeps
    assert not between(lags, f"order_material.{form}", "plant")


@pytest.mark.parametrize(("hired", "days"), [(("aerator",), 5), ((), 1)])
def test_a_call_comes_before_its_job_with_days_to_spare(hired: Any, days: int) -> None:
    """Before is strong, the days to spare give way first."""
    drafts = [task("call.2", buys_for=("core_aerate",), hired=hired), task("core_aerate")]
    comes, spare = buying_lags(plain(), drafts)
    assert (comes.strength, spare.strength) == (Strength.STRONG, Strength.PREFERENCE)
    assert comes.minimum is not None and spare.minimum is not None
    assert (comes.minimum(DAY), spare.minimum(DAY)) == (DAY, DAY + days)


def test_a_load_is_called_off_after_its_order() -> None:
    """Of the order that asks for it, and no other."""
    drafts = [
        task("order_material.1", loads=(1, 2)),
        task("order_material.3", loads=(3,)),
        task("delivery.2", load=2),
        task("call.2", buys_for=("delivery.2",)),
    ]
    lags = buying_lags(plain(), drafts)
    (ordered,) = between(lags, "order_material.1", "call.2")
    assert ordered.strength is Strength.STRONG
    assert not between(lags, "order_material.3", "call.2")


def test_new_grass_is_bought_after_looks_and_permit() -> None:
    """What only feeds or corrects is not held by them; an estimate waits for the sample."""
    looked, permit, sample = task("diagnose.grubs"), task("permit"), task("soil_test")
    seed = task("collect.seed")
    lags = buying_lags(plain(), [looked, permit, sample, seed, task("collect.soil")])
    assert [lag.before for lag in lags] == ["diagnose.grubs", "permit"]
    assert {lag.after for lag in lags} == {"collect.seed"}
    assert lags[1].minimum is not None and lags[1].minimum(DAY) == DAY + 7
    unsure = task("collect.soil", estimate=phrases.estimate_test())
    lags = buying_lags(plain(), [looked, permit, sample, unsure])
    assert [(lag.before, lag.strength) for lag in lags] == [("soil_test", Strength.PREFERENCE)]
    deep = task("order_material.1", estimate=phrases.estimate_depth())
    assert buying_lags(plain(), [sample, deep]) == []
