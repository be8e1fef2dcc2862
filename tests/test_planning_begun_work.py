"""A job of several days that is begun takes as many more as are left of its work."""

from datetime import timedelta

import pytest

from campaigns.walks import begun
from planning import brief_of, kind
from test_planning_past_binds import season_of
from test_work_thatch import INVERNESS
from turfplan.planning.begun_work import with_rest_of_begun
from turfplan.records.constraints import Allowed, Lag
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import SeasonDraft


def days_of(season: SeasonDraft) -> dict[str, int]:
    """How long each job of a season takes."""
    return {d.id: d.duration_days for d in season.drafts}


@pytest.mark.parametrize(("share", "days"), [(0.2, 2), (0.5, 1), (0.51, 1), (0.999, 1)])
def test_the_rest_of_a_job_takes_the_rest_of_its_days(share: float, days: int) -> None:
    """What is dragged in with it goes with it, and no rule names a day that is no more."""
    setting, _, season = season_of("0.5 in")
    whole = days_of(season)
    assert whole["topdress.1"] == whole["incorporate.1"] == 2
    rest = with_rest_of_begun(setting, season, TaskHistory(part_done={"topdress.1": share}))
    left = days_of(rest)
    assert left == {**whole, "topdress.1": days, "incorporate.1": days}
    nodes = {d.start_node for d in rest.drafts} | {d.end_node for d in rest.drafts}
    for rule in (*rest.constraints, *rest.in_time):
        named = {rule.node} if isinstance(rule, Allowed) else {rule.before, rule.after}
        assert named <= nodes
        assert isinstance(rule, Allowed) or rule.before != rule.after
    lengths = [c for c in rest.constraints if isinstance(c, Lag) and c.id == "length:topdress.1"]
    assert len(lengths) == days - 1
    hours = {d.id: d.person_hours for d in rest.drafts}
    assert hours["topdress.1"] == pytest.approx(
        next(d.person_hours for d in season.drafts if d.id == "topdress.1") * days / 2
    )


def test_what_is_not_begun_or_is_over_stays() -> None:
    """Nothing is left of work that is done, and half of a short job is a day all the same."""
    setting, _, season = season_of("0.5 in")
    for past in (
        TaskHistory(),
        TaskHistory(done={"topdress.1": 1}, part_done={"topdress.1": 0.5}),
        TaskHistory(part_done={"overseed": 0.5}),
    ):
        assert with_rest_of_begun(setting, season, past) is season


def test_strips_are_as_far_as_the_last_job_of_them() -> None:
    """A strip is mown, cored and dressed before it is over: one job alone shortens nothing."""
    season = begun(brief_of(INVERNESS, {"leveling": {"depth": "10 mm"}}))
    spread = kind(season.plan, "topdress")[0]
    jobs = [
        t
        for t in season.plan.tasks
        if (t.start, t.end) == (spread.start, spread.end) and t.duration_days > 1
    ]
    assert spread.duration_days == 2 and len(jobs) > 2
    season.done_until(spread.start)
    season.log("done", task=spread.id, on=spread.start, share=0.5)
    alone = season.again(spread.start + timedelta(days=1)).task(spread.id)
    assert alone is not None and alone.duration_days == 2
    for job in jobs:
        if job.id != spread.id:
            season.log("done", task=job.id, on=spread.start, share=0.5)
    plan = season.go(spread.start + timedelta(days=1))
    assert all(plan.task(job.id).duration_days == 1 for job in jobs)  # type: ignore[union-attr]


def test_one_dry_day_is_enough_for_the_half_that_rain_left() -> None:
    """The seed goes on the day after, in the same window."""
    season = begun(brief_of())
    first = season.plan
    spread = kind(first, "topdress")[0]
    season.done_until(spread.start)
    season.log("done", task=spread.id, on=spread.start, share=0.5)
    season.log("rained_off", on=spread.end)
    plan = season.go(spread.end + timedelta(days=1))
    rest, sown = kind(plan, "topdress")[0], kind(plan, "overseed")[0]
    assert rest.start == rest.end and rest.duration_days == 1 and rest.status == "IN-PROCESS"
    assert spread.end < rest.start <= spread.end + timedelta(days=7)
    assert rest.end <= sown.start <= sown.window.end
    assert rest.person_hours == pytest.approx(spread.person_hours / 2)
