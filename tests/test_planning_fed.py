"""Feedings join work that has its days, and keep their windows and their distance."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import pytest

from resolved_lawns import lawn
from test_planning_feeding import fed as fed_plan
from turfplan.message import as_written
from turfplan.network import Conflict, nodes_of
from turfplan.planning import fed as module
from turfplan.planning.candidates import Candidate
from turfplan.planning.fed import _kept_apart, _with_feedings, fed
from turfplan.records.brief import NitrogenUse
from turfplan.records.constraints import Lag
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.on_leaves import IRON
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.lawn import ResolvedLawn

BASE = date(2027, 4, 1)
FEED = "feed_nitrogen."


@dataclass(frozen=True)
class Days:
    """A dating: days of tasks counted from the first of April."""

    season: SeasonDraft
    days: dict[str, int]

    def day(self, node: str) -> int:
        """The day of a task."""
        return BASE.toordinal() + self.days[node]


def feeding(key: str, first: int, last: int) -> NitrogenFeeding:
    """A feeding between two days after the first of April."""
    start, end = BASE + timedelta(first), BASE + timedelta(last)
    return NitrogenFeeding(key, "spring", 3.0, start, end, start, as_written("w"))


def candidate(days: dict[str, int], *feeds: NitrogenFeeding) -> Candidate:
    """A candidate whose tasks have their days; feedings by their ids."""
    names: dict[str, Any] = {"s": "starter_feed", "t": "topdress"}
    drafts = tuple(
        Draft(name, names.get(name, "feed_nitrogen"), "care", as_written(""), 1) for name in days
    )
    season, setting = SeasonDraft(drafts, ()), lawn()
    plan: FeedingPlan = replace(fed_plan(setting), feeds=feeds)
    unread: Any = None
    dated: Any = Days(season, days)
    campaign = campaigns(setting)[0][0]
    return Candidate(setting, campaign, unread, plan, unread, season, season, dated, 0.0)


def kept(found: Candidate) -> list[str]:
    """The tasks that are left; season, dating and feeding agree on them."""
    ids = [d.id for d in found.season.drafts]
    assert [d.id for d in found.dated.season.drafts] == ids
    fed_ids = [FEED + f.key for f in found.feeding.feeds]
    assert fed_ids == [name for name in ids if name.startswith(FEED)]
    return ids


def test_a_feeding_off_its_own_days_is_left_out() -> None:
    """On the first and the last of them it stays, a day before or after it goes."""
    for day, stays in ((10, True), (20, True), (9, False), (21, False)):
        made = candidate({"t": 0, FEED + "a": day}, feeding("a", 10, 20))
        names = ["t", FEED + "a"] if stays else ["t"]
        assert kept(_kept_apart(lawn(), made, {})) == names


def test_feedings_lie_four_weeks_apart() -> None:
    """28 days at least; of two too near the later goes, and the next is measured from the first."""
    feeds = [feeding(key, 0, 200) for key in "abc"]
    days = {FEED + "a": 10, FEED + "b": 37, FEED + "c": 38}
    assert kept(_kept_apart(lawn(), candidate(days, *feeds), {})) == [FEED + "a", FEED + "c"]
    days = {FEED + "a": 66, FEED + "b": 38, FEED + "c": 10}
    assert len(kept(_kept_apart(lawn(), candidate(days, *feeds), {}))) == 3
    days = {FEED + "a": 65, FEED + "b": 38, FEED + "c": 10}
    found = kept(_kept_apart(lawn(), candidate(days, *feeds), {}))
    assert found == [FEED + "b", FEED + "c"], "by their days, not by their names"


def test_feedings_keep_off_a_starter_and_off_what_was_given() -> None:
    """Before it and after it; what is no feeding does not count."""
    one = feeding("a", 0, 200)
    assert kept(_kept_apart(lawn(), candidate({"s": 50, FEED + "a": 77}, one), {})) == ["s"]
    assert kept(_kept_apart(lawn(), candidate({"s": 50, FEED + "a": 23}, one), {})) == ["s"]
    assert len(kept(_kept_apart(lawn(), candidate({"s": 50, FEED + "a": 78}, one), {}))) == 2
    assert len(kept(_kept_apart(lawn(), candidate({"t": 50, FEED + "a": 50}, one), {}))) == 2
    setting = lawn()
    for day, stays in ((27, False), (28, True)):
        use = NitrogenUse.model_construct(on=BASE, rate_g_m2=4.0)
        history = setting.brief.history.model_copy(update={"nitrogen": (use,)})
        past = replace(setting, brief=setting.brief.model_copy(update={"history": history}))
        found = _kept_apart(past, candidate({"t": 0, FEED + "a": day}, one), {})
        assert (FEED + "a" in kept(found)) is stays


def test_what_is_done_or_was_moved_by_hand_stays() -> None:
    """Off its days, and too near another; the other then goes."""
    fixed = {FEED + "a": 0}
    made = candidate({FEED + "a": 5, FEED + "b": 20}, feeding("a", 10, 20), feeding("b", 0, 90))
    assert kept(_kept_apart(lawn(), made, fixed)) == [FEED + "a"]
    fine = candidate({FEED + "a": 12}, feeding("a", 10, 20))
    assert _kept_apart(lawn(), fine, {}) is fine


def rounds(
    monkeypatch: pytest.MonkeyPatch, worked: list[int], answers: list[Any], starter: Any = None
) -> tuple[Candidate, list[Any], list[bool]]:
    """A candidate that is fed, what it was fed after in each round, and whether with a starter."""
    made = candidate({"t": 0})
    unfed = replace(made, feeding=replace(made.feeding, starter=starter))
    after, with_starter, left = [], [], list(answers)
    states = iter(worked)
    monkeypatch.setattr(module, "worked_days", lambda drafts, day: next(states))
    monkeypatch.setattr(module, "_with_feedings", lambda lawn, way, base, plan: base)
    monkeypatch.setattr(module, "_kept_apart", lambda lawn, candidate, fixed: candidate)

    def feeder(setting: Any, campaign: Any, mix: Any, *, starter: bool, worked: Any) -> Any:
        after.append(worked)
        with_starter.append(starter)
        return replace(unfed.feeding, starter_reason=as_written(f"fed {worked}"))

    found = fed(lawn(), unfed, feeder, lambda season: left.pop(0))
    return found, after, with_starter


def test_work_that_moves_is_fed_once_more_and_then_left(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twice at most; once where nothing moved."""
    moved = [Days(SeasonDraft((), ()), {}) for _ in range(3)]
    found, after, _ = rounds(monkeypatch, [1, 2, 3], moved)
    assert after == [1, 2] and found.dated is moved[1]  # type: ignore[comparison-overlap]
    found, after, _ = rounds(monkeypatch, [1, 1], moved)
    assert after == [1] and found.dated is moved[0]  # type: ignore[comparison-overlap]


def test_what_cannot_be_dated_is_left_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    """Unfed in the first round, as of the first in the second."""
    moved = Days(SeasonDraft((), ()), {})
    found, _, _ = rounds(monkeypatch, [1], [None])
    assert found.dated.day("t") == BASE.toordinal()
    found, _, _ = rounds(monkeypatch, [1], [Conflict((), ())])
    assert found.dated.day("t") == BASE.toordinal()
    found, after, _ = rounds(monkeypatch, [1, 2], [moved, None])
    assert found.dated is moved and after == [1, 2]  # type: ignore[comparison-overlap]


def test_a_starter_that_was_left_out_stays_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """For the reason it was left out for; one that is given has the reason of the new feeding."""
    moved = Days(SeasonDraft((), ()), {})
    found, _, starters = rounds(monkeypatch, [1, 1], [moved])
    assert starters == [False]
    assert found.feeding.starter_reason == fed_plan(lawn()).starter_reason
    found, _, starters = rounds(monkeypatch, [1, 1], [moved], feeding("starter", 0, 9))
    assert starters == [True]
    assert found.feeding.starter_reason == as_written("fed 1")


def bound(setting: ResolvedLawn, plan: FeedingPlan) -> SeasonDraft:
    """A season of a sowing with its starter and a feeding."""
    drafts = tuple(
        Draft(name, name, "seed", as_written(""), 1)  # type: ignore[arg-type]
        for name in ("overseed", "starter_feed")
    )
    iron = Draft(f"amend.{IRON}", "amend", "care", as_written(""), 1, key=IRON, ideal=740200)
    drafts += (iron,)
    campaign = campaigns(setting)[0][0]
    return _with_feedings(setting, campaign, SeasonDraft(drafts, ()), plan)


def test_feedings_join_a_season_with_what_binds_them() -> None:
    """The starter goes where none is fed; rules that bind no feeding are not made again."""
    setting = lawn()
    some_feed = replace(feeding("autumn", 200, 230), season="autumn")
    fed_once = replace(fed_plan(setting), feeds=(some_feed,), starter=None)
    season = bound(setting, fed_once)
    new = {FEED + "autumn", "collect.fertilizer"}
    assert [d.id for d in season.drafts][:2] == ["overseed", f"amend.{IRON}"]
    assert {d.id for d in season.drafts[2:]} == new
    bound_nodes = [nodes_of(constraint) for constraint in season.constraints]
    assert bound_nodes and not any(new.isdisjoint(nodes) for nodes in bound_nodes)
    assert any(isinstance(c, Lag) for c in season.constraints)
    started = replace(fed_once, starter=feeding("starter", 0, 9))
    season = bound(setting, started)
    assert [d.id for d in season.drafts][:2] == ["overseed", "starter_feed"]
    lags = [nodes_of(c) for c in season.constraints if isinstance(c, Lag)]
    assert lags and not any(new.isdisjoint(nodes) for nodes in lags)
