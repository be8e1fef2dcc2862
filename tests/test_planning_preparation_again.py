"""Cuts and cores that have run out before their pass."""

from dataclasses import replace

from test_planning_past_binds import season_of
from turfplan.message import as_written
from turfplan.planning.preparation_again import (
    marks_for_preparation,
    prepared_before,
    run_out_preparation,
    stranded_preparation,
    with_preparation_again,
)
from turfplan.planning.schedule import Dated, date_season
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory

WHY = Reason("order", as_written(""))


def run_out(before: str) -> Lag:
    """A limit that what is done before the first pass could not keep."""
    step = DayStep(3)
    return Lag("x:run_out", before, "topdress.1", Strength.ADVICE, WHY, maximum=step, runs_out=True)


def test_cores_come_again_with_the_cuts_before_them() -> None:
    """A cut alone with the cuts before it; nothing that is still open, or of which there is a
    second turn already."""
    setting, campaign, season = season_of("0.5 in")
    cuts = {d.id for d in season.drafts if d.operation == "mow_low"}
    day = setting.first_day
    past = TaskHistory(done=dict.fromkeys([*cuts, "core_aerate.1"], day))
    assert run_out_preparation(setting, season, (run_out("core_aerate.1"),), past) == {
        *cuts,
        "core_aerate.1",
    }
    last = max(cuts)
    assert run_out_preparation(setting, season, (run_out(last),), past) == cuts
    assert not run_out_preparation(setting, season, (run_out("soil_test"),), past)
    assert not run_out_preparation(setting, season, (run_out("core_aerate.1"),), TaskHistory())
    again = with_preparation_again(setting, campaign, season, {"core_aerate.1"}, past)
    added = next(d for d in again.drafts if d.id == "core_aerate.1.again")
    assert added.anchor == "topdress.1" and added.ideal is None
    marks = next(d for d in again.drafts if "core_aerate.1" in d.serves)
    assert "core_aerate.1.again" in marks.serves
    asked = replace(past, done={**past.done, marks.id: day})
    assert marks_for_preparation(again, frozenset({"core_aerate.1"}), asked) == {marks.id}
    assert not marks_for_preparation(again, frozenset({"core_aerate.1"}), past)
    known = TaskHistory(published={"core_aerate.1.again": day, f"{marks.id}.again": day})
    assert prepared_before(setting, season, known) == {"core_aerate.1"}
    assert not run_out_preparation(setting, again, (run_out("core_aerate.1"),), asked) & {
        "core_aerate.1"
    }
    over = replace(past, done={**past.done, "topdress.1": day})
    assert with_preparation_again(setting, campaign, season, {"core_aerate.1"}, over) is season


def test_cores_after_the_last_pass_serve_nothing() -> None:
    """They are told apart from those before it, and from those of which the day is past."""
    setting, _, season = season_of("0.5 in")
    dated = date_season(setting, season)
    assert isinstance(dated, Dated) and not stranded_preparation(setting, dated, {})
    last = max(dated.day(d.start_node) for d in season.drafts if d.operation == "topdress")
    late = Allowed(
        "late", "core_aerate.1", DaySet.of([(last + 1, setting.last_day)]), Strength.HARD, WHY
    )
    free = tuple(
        c
        for c in season.constraints
        if "core_aerate.1" not in (getattr(c, "before", ""), getattr(c, "after", ""))
        and getattr(c, "node", "") != "core_aerate.1"
    )
    moved = date_season(setting, replace(season, constraints=(*free, late)))
    assert isinstance(moved, Dated)
    assert stranded_preparation(setting, moved, {}) == {"core_aerate.1"}
    assert not stranded_preparation(setting, moved, {"core_aerate.1": last + 1})
