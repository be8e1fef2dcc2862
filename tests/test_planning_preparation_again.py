"""Cuts and cores that have run out before their pass."""

from dataclasses import replace
from datetime import date

from test_planning_past_binds import season_of
from turfplan.message import as_written
from turfplan.planning.preparation_again import (
    prepared_before,
    run_out_preparation,
    stranded_preparation,
    with_preparation_again,
)
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.waiting import without_waiting
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import SeasonDraft

WHY = Reason("order", as_written(""))


def test_cores_come_again_with_the_last_cut_before_them() -> None:
    """And with every step down where the cut lies weeks back; nothing that lasts or is still open,
    or of which there is a second turn already."""
    setting, campaign, season = season_of("0.5 in")
    fresh = date_season(setting, season)
    assert isinstance(fresh, Dated)
    spread = fresh.day("topdress.1")
    cuts = sorted(d.id for d in season.drafts if d.operation == "mow_low")
    assert len(cuts) >= 2

    def again(days: int, lost: str = "core_aerate.1", among: SeasonDraft = season) -> set[str]:
        day = spread - days
        past = TaskHistory(done=dict.fromkeys([*cuts, "core_aerate.1"], day))
        limit = Lag(
            "x", lost, "topdress.1", Strength.ADVICE, WHY, maximum=DayStep(3), runs_out=True
        )
        schedule = replace(
            fresh.schedule, dropped=(limit,), days={**fresh.schedule.days, lost: day}
        )
        dated = replace(fresh, season=among, schedule=schedule)
        return set(run_out_preparation(setting, dated, past))

    assert again(9) == {cuts[-1], "core_aerate.1"}
    assert again(40) == {*cuts, "core_aerate.1"}
    assert again(9, cuts[-1]) == {cuts[-1]} and again(40, cuts[-1]) == set(cuts)
    assert not again(40, "soil_test")
    past = TaskHistory(done={"core_aerate.1": spread - 40})
    second = with_preparation_again(setting, campaign, season, {"core_aerate.1"}, past)
    assert "core_aerate.1" not in again(9, among=second)
    added = next(d for d in second.drafts if d.id == "core_aerate.1.again")
    assert added.anchor == "topdress.1" and added.ideal is None
    marks = next(d for d in second.drafts if "core_aerate.1" in d.serves)
    assert "core_aerate.1.again" in marks.serves
    known = TaskHistory(published={"core_aerate.1.again": 1, f"{marks.id}.again": 1})
    assert prepared_before(setting, season, known) == {"core_aerate.1"}
    over = replace(past, done={**past.done, "topdress.1": spread})
    assert with_preparation_again(setting, campaign, season, {"core_aerate.1"}, over) is season


def test_a_machine_that_went_back_is_hired_again_for_the_second_turn() -> None:
    """Its own call, before the work; none where the first call is still to come."""
    setting, campaign, season = season_of("0.5 in")
    call = next(d for d in season.drafts if "core_aerate.1" in d.buys_for and d.hired)
    over = TaskHistory(done={call.id: setting.first_day, "core_aerate.1": setting.first_day})
    second = with_preparation_again(setting, campaign, season, {"core_aerate.1"}, over)
    again = next(d for d in second.drafts if d.id == f"{call.id}.again")
    assert again.hired == ("aerator",) and again.buys_for == ("core_aerate.1.again",)
    assert any(
        isinstance(c, Lag) and (c.before, c.after) == (again.end_node, "core_aerate.1.again")
        for c in second.constraints
    )
    unasked = TaskHistory(done={"core_aerate.1": setting.first_day})
    none = with_preparation_again(setting, campaign, season, {"core_aerate.1"}, unasked)
    assert f"{call.id}.again" not in {d.id for d in none.drafts}


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


def test_an_order_does_not_stand_against_a_cause_that_was_found_at_work() -> None:
    """One that was due on the day of the find or later waits; one due before is asked about."""
    setting, _, season = season_of("0.5 in")
    due = TaskHistory(overdue={"order_material.1": setting.first_day + 9})
    for days, asked in ((9, set()), (8, set()), (10, {"order_material.1"})):
        found = date.fromordinal(setting.first_day + days)
        past = without_waiting(setting.book, season, replace(due, alive_on=found))
        assert set(past.overdue) == asked
    assert without_waiting(setting.book, season, due) is due
