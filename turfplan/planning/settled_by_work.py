"""What was bought for work that is done is settled with it, though nobody wrote it down."""

from dataclasses import replace
from typing import Final

from turfplan.book.entries import Book
from turfplan.phrases import changes
from turfplan.planning.past_binds import plays
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import SeasonDraft, task_of_node

# The call for a load that was sent back, by what the load is called.
REFUSED: Final = "call.refused"
BUYING: Final[tuple[Role, ...]] = ("ordering", "calling", "collecting", "delivery")


def with_bought_for_done(book: Book, season: SeasonDraft, history: TaskHistory) -> TaskHistory:
    """History with each order, call, trip or delivery that work which is done hangs on as done: by
    its own day in the plan before, or that of the work where that came first.

    What was skipped, or sent back, stays so.
    """
    found: dict[str, int] = {}
    before: dict[str, set[str]] = {}
    for lag in season.constraints:
        first = task_of_node(lag.before) if isinstance(lag, Lag) else ""
        if isinstance(lag, Lag) and lag.minimum is not None and plays(book, first, BUYING):
            before.setdefault(task_of_node(lag.after), set()).add(first)
    known = history.done.keys() | history.skipped | history.refused
    rest = list(history.done.items())
    while rest:
        name, day = rest.pop()
        called = {f"{REFUSED}.{name.partition('.')[2]}"} & history.planned.keys()
        again = called if plays(book, name, ("delivery",)) else set[str]()
        for bought in (before.get(name, set()) | again) - known:
            own = min(history.planned.get(bought, day), day)
            if own < found.get(bought, own + 1):
                # What came was ordered, too.
                found[bought] = own
                rest.append((bought, own))
    if not found:
        return history
    told = dict.fromkeys(found, changes.because_done())
    return replace(
        history,
        done={**history.done, **found},
        because={**history.because, **told},
        overdue={name: day for name, day in history.overdue.items() if name not in found},
        held={name: day for name, day in history.held.items() if name not in found},
    )
