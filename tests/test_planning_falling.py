"""What the work can do without never stops it."""

from dataclasses import replace
from datetime import date

import pytest

from planning import EXAMPLES, TODAY, brief_of
from tiers import sampled
from told import all_told
from turfplan.app.inputs import input_of
from turfplan.message import as_written
from turfplan.network import Conflict
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.falling import dated_without
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.window_dates import with_windows
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.assumptions import resolve
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import SeasonDraft
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
