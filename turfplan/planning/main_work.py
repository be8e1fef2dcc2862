"""The days of what a campaign is about: spreading, sowing and planting."""

from datetime import date

from turfplan.planning.candidates import MAIN_WORK, Candidate
from turfplan.planning.ways_out import MainWork
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign


def main_work_of(best: Candidate | None, past: TaskHistory) -> MainWork | None:
    """The open main work of a chosen campaign, or None where there is no campaign."""
    if best is None:
        return None
    operations = best.setting.book.operations
    work = [
        draft
        for draft in best.season.drafts
        if draft.id not in past.done
        and draft.id not in past.left_out
        and not set(MAIN_WORK).isdisjoint(operations[draft.operation].roles)
    ]
    days = [
        date.fromordinal(best.dated.day(node))
        for draft in work
        for node in (draft.start_node, draft.end_node)
    ]
    first, last = min(days, default=None), max(days, default=None)
    undone = bool(best.setting.levelling.left)
    return MainWork(best.campaign.name, first, last, _season_of(best.campaign), undone)


def _season_of(campaign: Campaign) -> tuple[date, date] | None:
    """The first and the last day on which a campaign may sow, else spread."""
    spread = [session.window for session in campaign.sessions]
    windows = [campaign.sow_window] if campaign.sow_window else spread
    if not windows:
        return None
    return min(w.start for w in windows), max(w.end for w in windows)
