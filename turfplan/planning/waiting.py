"""What seems over but cannot be: it follows work that is still to be done."""

from collections.abc import Collection
from dataclasses import replace

from turfplan.book.entries import Book
from turfplan.planning.candidates import Candidate
from turfplan.planning.history import FOLLOWED, with_followers
from turfplan.planning.past_binds import plays
from turfplan.records.constraints import Lag, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import SeasonDraft, task_of_node

ORDERS: tuple[Role, ...] = ("ordering",)


def without_waiting(book: Book, season: SeasonDraft, history: TaskHistory) -> TaskHistory:
    """History without those overdue tasks of a season that follow work which was put off, or what
    follows such work; and without orders that were due after a cause was found at work, since
    nothing is ordered before it is looked for again."""
    open_now = {
        d.id
        for d in season.drafts
        if (d.id in history.not_before or d.id in history.published)
        and d.id not in history.fixed
        and book.operations[d.operation].plays(*FOLLOWED)
    }
    over = {name for name in history.overdue if name not in history.part_done}
    steps = [
        (task_of_node(c.before), after)
        for c in season.constraints
        if isinstance(c, Lag) and c.minimum is not None and c.strength >= Strength.STRONG
        if (after := task_of_node(c.after)) in over
    ]
    stopped = set[str]()
    if history.alive_on is not None:
        found = history.alive_on.toordinal()
        stopped = {n for n in over if plays(book, n, ORDERS) and history.overdue[n] >= found}
    after_open = {after for before, after in steps if before in open_now}
    waiting = with_followers(after_open | stopped, steps)
    return _less(history, waiting) if waiting else history


def as_dated(history: TaskHistory, best: Candidate | None) -> TaskHistory:
    """History without the overdue tasks to which a plan has given another day."""
    if best is None:
        return history
    moved = {
        d.id
        for d in best.season.drafts
        if d.id in history.overdue
        and best.dated.day(d.end_node) > history.overdue[d.id]
        and d.id not in history.held
        and d.id not in history.done
    }
    return _less(history, moved) if moved else history


def _less(history: TaskHistory, names: Collection[str]) -> TaskHistory:
    overdue = {name: day for name, day in history.overdue.items() if name not in names}
    return replace(history, overdue=overdue)
