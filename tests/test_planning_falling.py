"""What the work can do without never stops it."""

from dataclasses import replace
from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest

from planning import EXAMPLES, TODAY, brief_of
from tiers import sampled
from told import all_told
from turfplan.app.inputs import input_of
from turfplan.book.words import operation_name
from turfplan.message import as_written
from turfplan.network import Conflict
from turfplan.phrases import season as phrases
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.falling import (
    _beyond_the_end,
    dated_without,
    falling,
    without,
    without_tasks,
)
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.window_dates import with_windows
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.work.assumptions import resolve
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn

NEVER = Reason("window.never", as_written("a window that never comes"))


def drafted() -> tuple[ResolvedLawn, SeasonDraft]:
    """The season of the plain lawn before any day is chosen."""
    brief = brief_of()
    given = input_of(brief, EXAMPLES)
    lawn = with_windows(resolve(brief, given.book, given.climate, TODAY.date()))
    campaign = next(c for c in campaigns(lawn)[0] if c.id == "autumn")
    lawn = within(lawn, campaign)
    return lawn, draft_campaign(lawn, campaign, feeder_for(lawn), permit=False).season


def dated(lawn: ResolvedLawn, season: SeasonDraft) -> Dated | Conflict:
    """The season on its days, every strong rule kept."""
    return dated_without(lawn, season, lambda other: date_season(lawn, other, keep=Strength.STRONG))


def never(season: SeasonDraft, task: str, lawn: ResolvedLawn) -> SeasonDraft:
    """A season in which one task may only be done before anything else is."""
    first = DaySet.of([(lawn.first_day, lawn.first_day)])
    hard = Allowed(f"never:{task}", task, first, Strength.HARD, NEVER)
    return replace(season, constraints=(*season.constraints, hard))


LAWN, SEASON = drafted()
DISPENSABLE = [d.id for d in SEASON.drafts if LAWN.book.operations[d.operation].optional]


def tasks(*operations: Any) -> SeasonDraft:
    """A season of one task of each operation."""
    return SeasonDraft(tuple(Draft(o, o, "care", as_written(""), 1) for o in operations), ())


def test_a_task_goes_with_the_rules_that_bind_it_and_is_told_once() -> None:
    """Rules of others stay; two of one operation are told as one."""
    season = tasks("last_mow", "overseed", "topdress")
    twin = replace(season.drafts[0], id="last_mow.2")
    days = DaySet.of([(1, 2)])
    rules = (
        Allowed("a", "last_mow", days, Strength.HARD, NEVER),
        Allowed("b", "overseed", days, Strength.HARD, NEVER),
        Lag("c", "topdress", "last_mow@end", Strength.HARD, NEVER, DayStep(1)),
        Lag("d", "topdress", "overseed", Strength.HARD, NEVER, DayStep(1)),
    )
    note = as_written("known")
    whole = replace(season, drafts=(*season.drafts, twin), constraints=rules, notes=(note,))
    left = without(LAWN, whole, {"last_mow", "last_mow.2"})
    assert [d.id for d in left.drafts] == ["overseed", "topdress"]
    assert [c.id for c in left.constraints] == ["b", "d"]
    name = operation_name(LAWN.book, "last_mow")
    assert left.notes == (note, phrases.falls(operation=name))
    assert without_tasks(whole, ()) is whole


@pytest.mark.parametrize("task", sampled(DISPENSABLE, *DISPENSABLE[::4]))
def test_a_window_that_never_comes_stops_nothing(task: str) -> None:
    """Each optional task falls when it cannot be done, is told, and the main work keeps its day."""
    found = dated(LAWN, never(SEASON, task, LAWN))
    assert isinstance(found, Dated)
    usual = dated(LAWN, SEASON)
    assert isinstance(usual, Dated)
    assert found.day("overseed") == usual.day("overseed")
    if task not in {d.id for d in found.season.drafts}:
        assert any("left out" in line for line in all_told(found.season.notes))


def test_optional_are_the_looks_back_and_the_care() -> None:
    """The last mow, the check and the touch-up of this lawn are among them."""
    assert {"last_mow", "settle_check", "touch_up"} <= set(DISPENSABLE)


def test_what_the_work_needs_does_not_fall() -> None:
    """Without a day for the seed there is no plan."""
    assert isinstance(dated(LAWN, never(SEASON, "overseed", LAWN)), Conflict)


def test_a_touch_up_falls_with_its_check() -> None:
    """Nothing is made good that nobody has measured."""
    found = dated(LAWN, never(SEASON, "settle_check", LAWN))
    assert isinstance(found, Dated)
    assert not {"settle_check", "touch_up"} & {d.id for d in found.season.drafts}
    assert date.fromordinal(found.day("overseed")).year == 2027


def test_follow_ups_fall_only_where_the_owner_gave_the_end() -> None:
    """First cuts and looks then; the work itself never, what is optional in any case."""
    season = tasks("first_mow", "inspect", "overseed", "last_mow")
    ids = {d.id for d in season.drafts}
    kept = replace(LAWN, kept_end=LAWN.last_day)
    assert falling(kept, season, ids) == {"last_mow"}
    assert falling(replace(LAWN, kept_end=None), season, ids) == {
        "first_mow",
        "inspect",
        "last_mow",
    }
    assert falling(kept, season, {"overseed"}) == set()


def test_only_a_check_takes_its_touch_up_with_it() -> None:
    """A touch-up that falls leaves the check."""
    season = tasks("settle_check", "touch_up", "last_mow")
    kept = replace(LAWN, kept_end=LAWN.last_day)
    assert falling(kept, season, {"settle_check"}) == {"settle_check", "touch_up"}
    assert falling(kept, season, {"touch_up"}) == {"touch_up"}
    assert falling(kept, season, {"last_mow", "elsewhere"}) == {"last_mow"}


def late(days: int, gives_up: bool = True, **lag: Any) -> set[str]:
    """What falls of a look that a rule puts ten days after seed, so many days after it."""
    least = lag.pop("minimum", DayStep(10))
    rule = Lag("l", "overseed", "inspect", Strength.STRONG, NEVER, least, **lag)
    dated: Any = SimpleNamespace(
        season=tasks("overseed", "inspect", "last_mow"),
        dropped=(rule,) if gives_up else (),
        day=lambda node: 100 + (days if node == "inspect" else 0),
    )
    return _beyond_the_end(replace(LAWN, kept_end=None), dated)


def test_a_follow_up_that_a_rule_given_up_brings_too_early_lies_beyond_the_end() -> None:
    """Nine days after where ten are wanted, not ten; and only a minimum can tell it."""
    assert late(9) == {"inspect"} and late(10) == set()
    assert late(9, gives_up=False) == set()
    assert late(9, minimum=None) == set()
    dated: Any = SimpleNamespace(season=tasks("inspect"), dropped=(), day=lambda node: 0)
    assert _beyond_the_end(replace(LAWN, kept_end=5), dated) == set()


def test_work_that_a_rule_brings_too_early_is_no_follow_up() -> None:
    """Nothing falls of a pass; nor where the plan ends by itself."""
    rule = Lag("l", "overseed", "topdress", Strength.STRONG, NEVER, DayStep(10))
    look = Lag("k", "overseed", "inspect", Strength.STRONG, NEVER, DayStep(10))
    dated: Any = SimpleNamespace(
        season=tasks("overseed", "topdress", "inspect"), dropped=(rule, look), day=lambda node: 100
    )
    assert _beyond_the_end(replace(LAWN, kept_end=None), dated) == {"inspect"}
    assert _beyond_the_end(replace(LAWN, kept_end=500), dated) == set()


def test_a_needed_task_does_not_fall() -> None:
    """One that is done or was moved by hand leaves a conflict."""
    season = never(SEASON, "last_mow", LAWN)

    def dated_now(other: SeasonDraft) -> Any:
        return date_season(LAWN, other, keep=Strength.STRONG)

    found = dated_without(LAWN, season, dated_now, needed=("last_mow",))
    assert isinstance(found, Conflict)
