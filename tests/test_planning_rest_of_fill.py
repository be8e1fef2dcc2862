"""What was spread thicker, thinner or not at all changes the passes that are still to come."""

from datetime import timedelta

import pytest

from campaigns.walks import Walk, begun
from planning import brief_of
from told import told
from turfplan.records.plan_task import Task

EACH = {"leveling": {"depth": "1.2 in"}, "seeding": {"intent": "none"}}


def _depth(task: Task) -> float:
    return next(a.value for a in task.amounts if a.item == "depth")


def _passes(season: Walk) -> dict[str, Task]:
    return {t.id: t for t in season.plan.tasks if t.plays("spreading")}


def _spread(times: float) -> tuple[Walk, dict[str, float]]:
    """A lawn of several passes whose first one took so many times what was planned, with the depths
    that were planned."""
    season = begun(brief_of(EACH))
    before = {name: _depth(task) for name, task in _passes(season).items()}
    season.done_until(season.day("topdress.1"))
    first = season.plan.task("topdress.1")
    assert first is not None
    volume = next(a.value for a in first.amounts if a.item == "volume")
    if times:
        more = {"amount": round(times * volume, 3), "unit": "m3"}
        season.log("done", task="topdress.1", on=first.end, **more)
    else:
        season.log("skipped", task="topdress.1", on=first.start)
    season.go(first.end + timedelta(1))
    return season, before


def test_a_double_pass_thins_the_rest() -> None:
    """What is left to spread is the depth that was asked for less what lies there."""
    season, before = _spread(2.0)
    after = {n: _depth(t) for n, t in _passes(season).items() if t.closed is None}
    asked = sum(before.values())
    assert sum(after.values()) == pytest.approx(asked - 2 * before["topdress.1"], rel=0.01)
    assert all(after[name] < before[name] for name in after)
    changes = [t.change for t in _passes(season).values() if t.id in after]
    assert any(c is not None and "What was spread so far" in told(c) for c in changes)


@pytest.mark.full
@pytest.mark.parametrize("times", [0.0, 0.5])
def test_what_is_missing_goes_into_the_rest_within_their_caps(times: float) -> None:
    """And what they cannot hold is told, with as much as is missing."""
    season, before = _spread(times)
    after = {n: _depth(t) for n, t in _passes(season).items() if t.closed is None}
    more = sum(after.values()) - sum(before[name] for name in after)
    assert all(after[name] >= before[name] - 1e-6 for name in after)
    missing = (1 - times) * before["topdress.1"] - more
    values = [dict(n.text.values) for n in season.plan.ranked if n.text.key.endswith("skipped")]
    left = [v["left"].value for v in values]  # type: ignore[union-attr]
    assert left == ([pytest.approx(missing, abs=0.05)] if missing > 0.5 else [])


@pytest.mark.full
def test_passes_for_which_nothing_is_left_are_closed_with_their_cause() -> None:
    """And the low cuts and cores of a session of which nothing is left with them."""
    season, _ = _spread(5.0)
    rest = [t for n, t in _passes(season).items() if n != "topdress.1"]
    assert rest and all(t.closed == "skipped" and "makes up for it" in told(t.change) for t in rest)
    still = [t for t in season.plan.tasks if t.closed is None and t.plays("low_cut", "coring")]
    assert not still
    assert not any(n.text.key.endswith("undone.skipped") for n in season.plan.ranked)


def test_what_is_like_the_plan_changes_nothing() -> None:
    """Nobody spreads to the litre."""
    season, before = _spread(1.03)
    assert {n: _depth(t) for n, t in _passes(season).items()} == pytest.approx(before)
