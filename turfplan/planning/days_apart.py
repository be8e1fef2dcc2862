"""Lets a pass go on after days off where its seed would else have no day in reserve."""

from dataclasses import replace

from turfplan.planning.candidates import Candidate
from turfplan.planning.past_binds import SPREADING, plays
from turfplan.planning.repair import Repairing, refed
from turfplan.planning.worth import last_work
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.day_limits import fits_in_one_go
from turfplan.work.lawn import ResolvedLawn


def goes_on_apart(setting: ResolvedLawn, previous: Plan) -> bool:
    """Whether days off lie between the days of a pass of the plan before that is still to come, for
    the sake of its seed: a pass of more days than ever lie on end has them anyway."""
    work = setting.calendar.work
    return setting.sowing.operation is not None and any(
        task.is_open
        and (task.end - task.start).days >= task.duration_days
        and fits_in_one_go(work, task.duration_days)
        for task in previous.tasks
        if task.plays("spreading")
    )


def sooner_apart(candidate: Candidate, given: Repairing) -> Candidate:
    """A way to go on; where no later working day of its season is left for its seed, the one that
    goes on strip by strip after days off, as long as that sows sooner: rain would else cost the
    season. Each strip has its seed with its mix."""
    history, setting = given.history, candidate.setting
    sown = (last_work(candidate, history) or (0, 0))[1]
    window = candidate.campaign.sow_window
    if not sown or window is None or setting.passes_apart or not _is_long(candidate, history):
        return candidate
    spare = setting.calendar.work.next(sown + 1)
    if spare is not None and spare <= (window.safe_end or window.end).toordinal():
        return candidate
    strips = replace(setting, passes_apart=True, strip_days=2)
    other = refed(strips, candidate.campaign, given)
    if isinstance(other, tuple):
        return candidate
    sooner = (last_work(other, history) or (0, 0))[1]
    return other if 0 < sooner < sown else candidate


def _is_long(candidate: Candidate, history: TaskHistory) -> bool:
    """Whether a pass that is still to come takes several days."""
    return any(
        d.duration_days > 1
        and d.id not in history.fixed
        and plays(candidate.setting.book, d.id, SPREADING)
        for d in candidate.season.drafts
    )
