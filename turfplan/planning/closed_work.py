"""What becomes of main work: the days that are left for it, and the ways on where it is closed."""

from collections.abc import Callable
from datetime import date

from turfplan.book.entries import Book
from turfplan.phrases import changes
from turfplan.phrases import history as phrases
from turfplan.planning.candidates import MAIN_WORK, Candidate
from turfplan.planning.past_binds import plays
from turfplan.planning.ways_out import MainWork
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Option, Plan
from turfplan.work.campaigns import Campaign


def closes_work(book: Book, history: TaskHistory) -> bool:
    """Whether spreading, sowing or planting had to be closed, with no day left for it."""
    return any(plays(book, name, MAIN_WORK) for name in history.closed)


def main_work(best: Candidate, past: TaskHistory) -> MainWork | None:
    """The open main work of a candidate, or None where some of it had to be closed."""
    book = best.setting.book
    if closes_work(book, past):
        return None
    work = [
        draft
        for draft in best.season.drafts
        if draft.id not in past.done
        and draft.id not in past.left_out
        and plays(book, draft.id, MAIN_WORK)
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


def with_ways_on(
    plan: Plan, history: TaskHistory, book: Book, ways: Callable[[], tuple[Option, ...]]
) -> Plan:
    """The plan with the changes of its brief by which closed work could be done after all, the
    nearest of them told; as it is where none was closed, or seed lies where it was to be done."""
    buried = changes.because_no_day_left(reason=phrases.seed_lies_there())
    if plan.options or buried in history.closed.values() or not closes_work(book, history):
        return plan
    found = ways()
    told = tuple(
        phrases.way_on(title=way.title, change=way.change, reason=way.reason) for way in found[:1]
    )
    return plan.model_copy(update={"options": found, "cautions": (*told, *plan.cautions)})
