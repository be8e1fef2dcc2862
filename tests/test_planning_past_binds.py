"""What rules still bind once work has happened in an order of its own."""

from itertools import pairwise

import pytest

from test_work_season import drafted
from turfplan.message import as_written
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.planning.past_binds import (
    NEW,
    SPREADING,
    among_the_open,
    apart_from_passes,
    outlived,
    plays,
    rest_after_seed,
    without_followers,
)
from turfplan.records.constraints import Allowed, DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import SeasonDraft
from turfplan.work.lawn import ResolvedLawn

ORDER = Lag(
    "a>b", "a", "b", Strength.HARD, Reason("order", as_written("order")), minimum=DayStep(0)
)


def season_of(
    depth: str = "1 in", *, thatch: str = "0.2 in"
) -> tuple[ResolvedLawn, Campaign, SeasonDraft]:
    """A lawn that is filled by several passes and overseeded, with its season."""
    setting, campaign, _ = drafted({"lawn": {"thatch": thatch}, "leveling": {"depth": depth}})
    return (
        setting,
        campaign,
        draft_campaign(setting, campaign, feeder_for(setting), permit=False).season,
    )


def test_nothing_has_to_come_before_what_is_over() -> None:
    """Of such a rule nothing is left; advice where what followed is done on a day still open."""
    for past in (TaskHistory(done={"b": 5}), TaskHistory(overdue={"b": 5})):
        assert outlived(ORDER, {"b": 5}, past, 6) == ()
    (left,) = outlived(ORDER, {"b": 6}, TaskHistory(done={"b": 6}), 6)
    assert (left.id, left.strength) == ("a>b", Strength.ADVICE)
    held = TaskHistory(held={"b": 5})
    assert outlived(ORDER, {"b": 5}, held, 6) == (ORDER,)
    assert outlived(ORDER, {"a": 4, "b": 5}, TaskHistory(done={"a": 4, "b": 5}), 6) == (ORDER,)


def test_what_is_spread_waits_for_seed_that_is_in_the_ground() -> None:
    """As do cores; until seedlings have been mown three times. Without seed nothing waits."""
    setting, campaign, season = season_of()
    sown = next(d for d in season.drafts if plays(setting.book, d.id, NEW))
    day = setting.first_day + 30
    assert not list(rest_after_seed(setting, campaign, season, TaskHistory()))
    past = TaskHistory(done={sown.id: day, "topdress.1": day - 40})
    found = list(rest_after_seed(setting, campaign, season, past))
    waits = {c.node: c.days.ranges[0][0] for c in found if isinstance(c, Allowed)}
    passes = {d.id for d in season.drafts if plays(setting.book, d.id, SPREADING)}
    assert waits.keys() >= passes - {"topdress.1"} and "topdress.1" not in waits
    assert "core_aerate.1" in waits and min(waits.values()) >= day + 42
    mown = [c for c in found if isinstance(c, Lag)]
    assert {c.before for c in mown} == {"first_mow"} and {c.after for c in mown} == waits.keys()
    assert all(c.strength == Strength.HARD for c in found)


def test_passes_keep_apart_whatever_came_first() -> None:
    """From the last that is over, from the open one before, and ahead of the seed."""
    setting, _, season = season_of()
    passes = [d.id for d in season.drafts if plays(setting.book, d.id, SPREADING)]
    assert len(passes) >= 3
    day, least = setting.first_day + 60, setting.pass_interval_days
    found = list(apart_from_passes(setting, season, TaskHistory(done={passes[-1]: day})))
    free = {c.node: c.days.ranges[0][0] for c in found if isinstance(c, Allowed)}
    assert free == dict.fromkeys(passes[:-1], day + least)
    lags = {(c.before, c.after): c.minimum for c in found if isinstance(c, Lag)}
    assert all(lags[pair] == DayStep(least) for pair in pairwise(passes[:-1]))
    assert all(lags[name, "overseed"] == DayStep(0) for name in passes[:-1])


def test_the_last_pass_that_is_left_carries_the_seed() -> None:
    """Where the one that should have carried it is over already."""
    setting, campaign, season = season_of()
    last = max(d.id for d in season.drafts if plays(setting.book, d.id, SPREADING))
    before = f"topdress.{int(last.removeprefix('topdress.')) - 1}"
    same = next(d for d in season.drafts if d.id == last).session
    pair = next(d for d in season.drafts if d.id == before)
    history = TaskHistory(done={last: setting.first_day})
    rules = {c.id for c in among_the_open(setting, campaign, season, history)}
    carried = any(name.startswith(f"seed_on_last_pass:{before}>") for name in rules)
    assert carried == (pair.session == same)
    assert not list(among_the_open(setting, campaign, season, TaskHistory()))


@pytest.mark.parametrize("skipped", ["overseed", "topdress.1", "soil_test"])
def test_what_only_follows_goes_with_what_was_skipped(skipped: str) -> None:
    """Looks, cuts and starter with the seed, working in with its pass; nothing that prepares."""
    setting, _, season = season_of("0.5 in")
    left = without_followers(setting, season, TaskHistory(skipped=frozenset({skipped})))
    gone = {d.id for d in season.drafts} - {d.id for d in left.drafts}
    expected = {
        "overseed": {"overseed", "inspect.germination", "first_mow"},
        "topdress.1": {"topdress.1", "incorporate.1"},
        "soil_test": set[str](),
    }[skipped]
    assert expected <= gone and not gone & {"mow_low.1", "core_aerate.1", "delivery.1"}
    assert bool(gone) == bool(expected)
    assert without_followers(setting, season, TaskHistory()) is season


def test_what_hangs_on_a_skipped_pass_goes_though_its_day_is_over() -> None:
    """Nobody drags in what was never spread; what was done stays."""
    setting, _, season = season_of("0.5 in")
    skipped = frozenset({"topdress.1"})
    late = TaskHistory(skipped=skipped, overdue={"incorporate.1": setting.first_day})
    done = TaskHistory(skipped=skipped, done={"incorporate.1": setting.first_day})
    for past, stays in ((late, False), (done, True)):
        left = {d.id for d in without_followers(setting, season, past).drafts}
        assert ("incorporate.1" in left) == stays and "delivery.1" in left
