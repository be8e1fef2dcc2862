"""Cuts and cores that have run out before their pass."""

from dataclasses import replace

from test_planning_past_binds import season_of
from turfplan.message import as_written
from turfplan.planning.preparation_again import (
    prepared_before,
    run_out_preparation,
    stranded_preparation,
    with_preparation_again,
)
from turfplan.planning.schedule import Dated, date_season
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
