"""What was bought for work that is done, and what prepared it, is settled with it, though nobody
wrote it down."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from turfplan.book.entries import Book
from turfplan.phrases import changes
from turfplan.planning.heap_again import looks_at_heap
from turfplan.planning.marks_again import AGAIN
from turfplan.planning.past_binds import plays
from turfplan.planning.stock import REFUSED
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn

BUYING: Final[tuple[Role, ...]] = ("ordering", "calling", "collecting", "delivery")
# What readies the turf, and the work that it is readied for.
PREPARING: Final[tuple[Role, ...]] = ("low_cut", "thatching", "coring")
FOLLOWING: Final[tuple[Role, ...]] = ("spreading", "sowing", "planting")

# Within so many days before its pass the turf is cut low and cored.
TOGETHER_DAYS = 21


def settled_by_work(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> TaskHistory:
    """History with all that work which is done says of what it was bought and readied for."""
    bought = with_bought_for_done(setting.book, season, history)
    return with_served_for_done(
        setting.book, season, with_prepared_for_done(setting, season, bought)
    )


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
    return _settled(history, found)


def with_prepared_for_done(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> TaskHistory:
    """History with the low cuts, cores, thatch and looks at heaps as done that came before work
    which is done or begun, by the plan before, in the session of that work: whoever spread or sowed
    had the turf ready, or will not open it any more.

    What was skipped, moved, or said not to be done, stays so; so does what was to come later.
    """
    book = setting.book
    known = history.done.keys() | history.left_out | history.held.keys() | history.not_before.keys()
    begun = {
        n: history.actual[n].start.toordinal() for n in history.part_done.keys() & history.actual
    }
    worked = {n: day for n, day in {**begun, **history.done}.items() if plays(book, n, FOLLOWING)}
    work = [d for d in season.drafts if d.id in worked]
    # Of a campaign that has ended otherwise, the days alone say what belonged together.
    undrafted = worked.keys() - {d.id for d in season.drafts}
    found: dict[str, int] = {}
    for draft in season.drafts:
        planned = history.planned.get(draft.id)
        if draft.id in known or planned is None:
            continue
        heap = looks_at_heap(setting, draft)
        if not heap and not plays(book, draft.id, PREPARING):
            continue
        days = [
            worked[after.id]
            for after in work
            if (draft.load in after.loads if heap else after.session == draft.session)
            if planned <= history.planned.get(after.id, 0)
        ]
        days += [
            worked[name]
            for name in undrafted
            if not heap and 0 <= history.planned.get(name, 0) - planned <= TOGETHER_DAYS
        ]
        # What one plan took as done stays so in the next, though the work now has its own day.
        if not days and draft.id in history.settled:
            days = list(worked.values())
        if days:
            found[draft.id] = min(planned, *days)
    return _settled(history, {**found, **_second_turns(setting, season, history)})


def _second_turns(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> dict[str, int]:
    """The cuts, cores and looks at heaps that were to be repeated for the rest of work which is
    over now, with the calls for their machines, and their days: whoever did the rest had them."""
    book, drafts = setting.book, {d.id: d for d in season.drafts}
    known = history.done.keys() | history.left_out | history.held.keys() | history.not_before.keys()
    turns = {n: drafts.get(first_turn(n)) for n in history.planned.keys() - known}
    again = {n: d for n, d in turns.items() if d is not None and d.id != n}
    over = [d for d in season.drafts if d.id in history.done and plays(book, d.id, FOLLOWING)]
    found: dict[str, int] = {}
    for name, first in again.items():
        heap, planned = looks_at_heap(setting, first), history.planned[name]
        if not heap and not plays(book, first.id, PREPARING):
            continue
        days = [
            history.done[after.id]
            for after in over
            if (first.load in after.loads if heap else after.session == first.session)
            if planned <= history.planned.get(after.id, 0)
        ]
        if days:
            found[name] = min(planned, *days)
    served = {first_turn(name): day for name, day in found.items()}
    for name, call in again.items():
        users = {n for n in call.buys_for if f"{n}.{AGAIN}" in history.planned}
        if call.hired and users and users <= served.keys():
            found[name] = min(history.planned[name], *(served[user] for user in users))
    return found


def with_served_for_done(book: Book, season: SeasonDraft, history: TaskHistory) -> TaskHistory:
    """History with the requests for marks of which all work in the ground is over, and the cuts for
    blades that have been there, as done, the second turns too: their answer changes nothing any
    more."""
    over = history.done.keys() | history.left_out
    drafts = {d.id: d for d in season.drafts}
    blades = [d for d in season.drafts if plays(book, d.id, ("thatching",))]
    found: dict[str, int] = {}
    # What one plan took as done stays so in the next.
    settled = {name: history.planned[name] for name in history.settled & history.planned.keys()}
    for name, day in {**settled, **history.overdue}.items():
        old = drafts.get(first_turn(name))
        if old is None or name in history.part_done or name in history.done:
            continue
        served = list(old.serves)
        if plays(book, old.id, ("low_cut",)):
            served = [
                d.id
                for d in blades
                if d.session == old.session and history.planned.get(d.id, 0) >= day
            ]
        if served and over.issuperset(served):
            found[name] = min(day, *(history.done.get(one, day) for one in served))
    return _settled(history, found)


def first_turn(name: str) -> str:
    """The id of a task without what tells its second and later turns."""
    while name.endswith(f".{AGAIN}"):
        name = name.removesuffix(f".{AGAIN}")
    return name


def _settled(history: TaskHistory, found: Mapping[str, int]) -> TaskHistory:
    """History with some tasks as done, each on its day (an ordinal)."""
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
