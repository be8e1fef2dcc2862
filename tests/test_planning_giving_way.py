"""What gives way where what has happened leaves no plan."""

from dataclasses import replace
from datetime import timedelta

import pytest

from campaigns.walks import begun as walk_of
from planning import amount, brief_of, kind
from test_planning_past_binds import season_of
from turfplan.message import as_written, length_mm
from turfplan.planning.giving_way import (
    holds_in_the_way,
    with_closed_told,
    with_moves_given_up,
    with_moves_told,
    with_work_closed,
    work_to_close,
)
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory

WHY = as_written("because")


def between(before: str, after: str) -> Lag:
    """A rule between two tasks."""
    return Lag("rule", before, after, Strength.HARD, Reason("rule", WHY), minimum=DayStep(0))


def test_a_day_chosen_by_hand_gives_way_with_its_reason() -> None:
    """Only the one in the way; it is no longer held, and says why."""
    _, _, season = season_of("0.5 in")
    history = TaskHistory(held={"topdress.1": 740000, "soil_test": 739990})
    moves = holds_in_the_way((between("delivery.1", "topdress.1"),), history)
    assert moves == {"topdress.1"}
    after = with_moves_given_up(history, moves, (WHY,))
    left = with_moves_told(season, after)
    assert after.held == {"soil_test": 739990}
    told = next(d for d in left.drafts if d.id == "topdress.1").cautions[0]
    assert with_moves_told(season, history) is season
    assert (
        after.because == after.moves_given_up == {"topdress.1": told}
        and told.key == "history.move_given_up"
    )
    assert holds_in_the_way((between("a", "b"),), history) == set()


def test_the_least_main_work_of_a_contradiction_is_closed() -> None:
    """Of equal ones the last, before any preparation, and never what is past; without main work one
    of the others."""
    setting, _, season = season_of()
    drafts = tuple(
        replace(d, priority=2) if d.operation == "topdress" else d for d in season.drafts
    )
    season = replace(season, drafts=drafts)
    lag = between("topdress.1", "topdress.2")
    assert work_to_close(setting, season, (lag,), TaskHistory()) == {"topdress.2"}
    done = TaskHistory(done={"topdress.2": 1})
    assert work_to_close(setting, season, (lag,), done) == {"topdress.1"}
    prepared = between("mow_low.1", "topdress.1")
    assert work_to_close(setting, season, (prepared,), TaskHistory()) == {"topdress.1"}
    lone = between("soil_test", "mow_low.1")
    assert len(work_to_close(setting, season, (lone,), TaskHistory())) == 1
    assert not work_to_close(setting, replace(season, drafts=()), (lag,), TaskHistory())


def test_what_served_closed_work_alone_is_closed_with_it() -> None:
    """Its load, what it is worked in with, and the preparation of a session that has no work left;
    of another pass nothing. What is done stays."""
    setting, _, season = season_of("0.5 in")
    history = TaskHistory(done={"mow_low.1": 739900})
    left, after = with_work_closed(setting, season, history, {"topdress.1"}, (WHY,))
    gone = {d.id for d in season.drafts} - {d.id for d in left.drafts}
    assert gone == after.closed.keys() == after.because.keys()
    assert {"topdress.1", "incorporate.1", "delivery.1", "order_material.1"} <= gone
    assert "mow_low.1" not in gone and "overseed" not in gone
    assert after.left_out == gone
    told = with_closed_told(setting, season, left, after)
    assert [caution.key for caution in told.cautions[:1]] == ["history.no_day_left"]
    assert with_closed_told(setting, season, left, history) is left


@pytest.mark.parametrize(("done", "left_mm"), [(0.0, 12.7 / 2), (0.5, 12.7 / 4)])
def test_what_is_left_out_with_a_skipped_pass_is_told_first(done: float, left_mm: float) -> None:
    """As deep as it was to be, less what was spread of it; the passes that follow stay as they
    are."""
    season = walk_of(brief_of({"leveling": {"depth": "1 in"}}))
    before = {t.id: amount(t, "depth") for t in kind(season.plan, "topdress")}
    day = season.day("topdress.1")
    season.done_until(day)
    if done:
        season.log("done", task="topdress.1", on=day, share=done)
    season.log("skipped", task="topdress.1", on=day)
    plan = season.go(day + timedelta(days=1))
    (told,) = (n for n in plan.ranked if n.text.key == "handover.undone.skipped")
    values = dict(told.text.values)
    assert told.told_first and values["left"] == length_mm(left_mm)
    assert values["depth"] == length_mm(25.4)
    after = {t.id: amount(t, "depth") for t in kind(plan, "topdress") if t.closed is None}
    assert after == {name: mm for name, mm in before.items() if name != "topdress.1"}
