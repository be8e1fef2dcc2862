"""What the rules still bind once work has happened in an order of its own: the past is no
constraint on the future but through what it has made of the lawn."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise, product

from turfplan.book.entries import Book
from turfplan.book.words import book_message
from turfplan.planning.falling import without_tasks
from turfplan.records.book_names import Selector
from turfplan.records.constraints import (
    Allowed,
    Constraint,
    DaySet,
    DayStep,
    Lag,
    Reason,
    Strength,
)
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.emergence import undressed_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import order_lags
from turfplan.work.past_of_lawn import HARMS
from turfplan.work.season import computed_numbers, season_flags
from turfplan.work.strips import strip_lags

SPREADING: tuple[Role, ...] = ("spreading",)
NEW: tuple[Role, ...] = ("sowing", "planting")
# What buries or tears up what has just been sown or planted, beside what harms any seedling.
ROUGH: tuple[Role, ...] = ("spreading", "relaying")
# Work that others only follow, and work that stands for itself whatever it is timed by.
FOLLOWED_ALONE: tuple[Role, ...] = (*NEW, "spreading", "relaying")
LEADING: tuple[Role, ...] = (
    *FOLLOWED_ALONE,
    *("low_cut", "thatching", "coring", "digging", "marking", "ordering"),
    *("calling", "collecting", "delivery"),
)
# The rule that keeps what is spread off seedlings, and the one that waits for their third cut.
SPACING = "pass_spacing_least"
AFTER_SEED, AFTER_CUTS = "touch_up_after_seedlings", "touch_up_after_mowings"


def outlived(
    constraint: Constraint, fixed: Mapping[str, int], history: TaskHistory, first: int
) -> tuple[Constraint, ...]:
    """A constraint after a repair's facts: what is done, or was to be, may run out before an open
    task comes, and is then done again.

    So the most days that may lie behind it are advice, told where it cannot be kept; the least days
    stay. What should have come before something that is over cannot any more: nothing is left of
    such a rule, or advice where it is done on the `first` day that is still open, or later.
    """
    if not isinstance(constraint, Lag):
        return (constraint,)
    before, after = task_of_node(constraint.before), task_of_node(constraint.after)
    over = history.done.keys() | history.overdue.keys()
    if after in over and constraint.before not in fixed:
        advice = min(constraint.strength, Strength.ADVICE)
        return (replace(constraint, strength=advice),) if fixed[constraint.after] >= first else ()
    if constraint.maximum is None or constraint.strength < Strength.STRONG:
        return (constraint,)
    if before not in over or constraint.after in fixed:
        return (constraint,)
    most = replace(
        constraint,
        id=f"{constraint.id}:run_out",
        minimum=None,
        strength=Strength.ADVICE,
        runs_out=True,
    )
    return (most,) if constraint.minimum is None else (replace(constraint, maximum=None), most)


def rest_after_seed(
    setting: ResolvedLawn, campaign: Campaign, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """What is spread, cored, combed out or laid against weeds waits until seed or plants that are
    in the ground already, or may be without a word, can bear it, whatever order the rules had them
    in."""
    book = setting.book
    over = {**history.overdue, **history.done}
    new = [day for name, day in over.items() if plays(book, name, NEW)]
    first = sown_first(book, history)
    new += [history.actual[name].end.toordinal() for name in first]
    if not new:
        return
    rest = max(round(book.si("seeding.no_dressing")), undressed_days(setting, campaign))
    least = max(new) + rest
    why = Reason(
        AFTER_SEED, book_message(book, f"order.{AFTER_SEED}.reason"), ("seeding.no_dressing",)
    )
    mown = Reason(
        AFTER_CUTS, book_message(book, f"order.{AFTER_CUTS}.reason"), ("seeding.third_mowing",)
    )
    cuts = [d for d in season.drafts if "first_cut" in book.operations[d.operation].roles]
    after_cut = DayStep(round(book.si("seeding.third_mowing")))
    for draft in season.drafts:
        harms = draft.operation in HARMS or plays(book, draft.id, ROUGH)
        if draft.id in history.fixed or not harms:
            continue
        bearing = DaySet.of([(least, max(least, setting.last_day))])
        yield Allowed(f"rest:{draft.id}", draft.start_node, bearing, Strength.HARD, why)
        for sown in season.drafts:
            # The rest of what was sown in part goes in first, and is not buried either.
            if sown.id in first and sown.id not in history.fixed:
                name, ends = f"rest:{sown.id}>{draft.id}", (sown.end_node, draft.start_node)
                yield Lag(name, *ends, Strength.HARD, why, DayStep(rest))
        for cut in cuts:
            name = f"mown:{cut.id}>{draft.id}"
            ends = cut.end_node, draft.start_node
            yield Lag(name, *ends, Strength.HARD, mown, after_cut)


def sown_first(book: Book, history: TaskHistory) -> frozenset[str]:
    """The sowings and plantings of which a part lies in the ground while no pass is half done: that
    part is never buried, and the rest goes in beside it, before what is still to be spread."""
    if any(plays(book, name, SPREADING) for name in history.part_done):
        return frozenset()
    begun = history.part_done.keys() & history.actual.keys()
    return frozenset(name for name in begun if plays(book, name, NEW))


def freed_of_passes(
    constraints: Iterable[Constraint], book: Book, history: TaskHistory
) -> Iterator[Constraint]:
    """The rules, less those that put the rest of what is sown in part after a pass."""
    first = sown_first(book, history)
    for rule in constraints:
        of_pass = isinstance(rule, Lag) and plays(book, task_of_node(rule.before), SPREADING)
        if not (of_pass and isinstance(rule, Lag) and task_of_node(rule.after) in first):
            yield rule


def apart_from_passes(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """What binds the open passes whatever has to give way, as far as the book has the rules."""
    rules = {rule.id for rule in setting.book.order}
    if SPACING in rules:
        yield from _spaced(setting, season, history)
    if AFTER_SEED in rules:
        yield from _before_new_grass(setting, season, history)


def _spaced(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """Every open pass keeps its days from each one that is over, whichever comes first by number,
    and from the open one before it, also where one between them is left out."""
    book = setting.book
    why = Reason(SPACING, book_message(book, f"order.{SPACING}.reason"))
    least = setting.pass_interval_days
    passes = _passes(setting, season)
    over = [day for name, day in history.done.items() if plays(book, name, SPREADING)]
    over += [history.overdue[d.id] for d in passes if d.id in history.overdue]
    still = [d for d in passes if d.id not in history.fixed]
    for draft in still if over else ():
        settled = DaySet.of([(max(over) + least, max(max(over) + least, setting.last_day))])
        yield Allowed(f"spaced:{draft.id}", draft.start_node, settled, Strength.HARD, why)
    for before, after in pairwise(still):
        name, step = f"spaced:{before.id}>{after.id}", DayStep(least)
        yield Lag(name, before.end_node, after.start_node, Strength.HARD, why, step)


def _before_new_grass(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """No open pass comes after seed or plants that are still to come."""
    book = setting.book
    dry = Reason(AFTER_SEED, book_message(book, f"order.{AFTER_SEED}.reason"))
    still = [d for d in _passes(setting, season) if d.id not in history.fixed]
    first = sown_first(book, history)
    new = [
        d
        for d in season.drafts
        if plays(book, d.id, NEW) and d.id not in history.fixed and d.id not in first
    ]
    for before, after in product(still, new):
        if before.strips and before.strips == after.strips:
            continue
        name = f"bare:{before.id}>{after.id}"
        yield Lag(name, before.end_node, after.start_node, Strength.HARD, dry, DayStep(0))


def _passes(setting: ResolvedLawn, season: SeasonDraft) -> list[Draft]:
    """The passes of a season by their numbers."""
    passes = (d for d in season.drafts if plays(setting.book, d.id, SPREADING))
    return sorted(passes, key=lambda d: d.position)


def among_the_open(
    setting: ResolvedLawn, campaign: Campaign, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """What the order of work asks of the tasks that are still open as if the others were not: the
    last pass that is left carries the seed, and the first follows the cores. What is held on a day
    of somebody's choice is still open."""
    over = {**history.overdue, **history.done}
    still = [d for d in season.drafts if d.id not in over]
    known = {constraint.id for constraint in season.constraints}
    flags, computed = season_flags(setting, campaign), computed_numbers(setting, campaign)
    lags = order_lags(setting, still, flags, computed)
    begun = _first_is_over(setting.book, season, over)
    yield from (
        lag
        for lag in lags
        if lag.id not in known and (lag.reason.rule, task_of_node(lag.before)) not in begun
    )
    # What goes strip by strip keeps step with what is left of its jobs.
    names = {d.id for d in still}
    bound = {(c.before, c.after) for c in season.constraints if isinstance(c, Lag)}
    for lag in strip_lags(
        [replace(d, strips=tuple(n for n in d.strips if n in names)) for d in still]
    ):
        if (lag.before, lag.after) not in bound:
            yield replace(lag, id=f"{lag.id}:open")


def _first_is_over(
    book: Book, season: SeasonDraft, over: Collection[str]
) -> frozenset[tuple[str, str]]:
    """The rules of what comes first in a session, each with the tasks of a session whose first is
    over: that one has served, and the next is not bound in its place."""
    return frozenset(
        (rule.id, draft.id)
        for rule in book.order
        for operation, pick in (Selector.of(rule.before),)
        if pick == "first"
        for draft in season.drafts
        if draft.operation == operation
        and any(
            d.id in over
            for d in season.drafts
            if (d.operation, d.session) == (operation, draft.session)
            and d.position < draft.position
        )
    )


def without_followers(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season in which what hangs on main work goes with it where that was skipped: what is worked
    in, its looks and cuts, its starter, on ground without grass every feeding, and the low cuts and
    cores of a session of which nothing is left."""
    book = setting.book
    names = {n for n in history.skipped - history.done.keys() if plays(book, n, FOLLOWED_ALONE)}
    if not names:
        return season
    # Of what hangs on it nobody did anything, though its own days are over, too.
    kept = history.fixed.keys() - history.untold
    while (
        more := {
            d.id
            for d in season.drafts
            if d.anchor in names and d.offset >= 0 and not plays(book, d.id, LEADING)
        }
        - names
        - kept
    ):
        names |= more
    kept |= history.fixed.keys() - names
    names |= _prepares_nothing(setting, season, names, history)
    new = [d for d in season.drafts if plays(book, d.id, NEW) and d.id not in names]
    if setting.on_open_ground and not new:
        names |= {d.id for d in season.drafts if plays(book, d.id, ("feeding", "starter"))}
    return without_tasks(season, names - kept)


def _prepares_nothing(
    setting: ResolvedLawn, season: SeasonDraft, skipped: Collection[str], history: TaskHistory
) -> set[str]:
    """The low cuts and cores of the sessions whose open work was all skipped."""
    book = setting.book
    work = [d for d in season.drafts if plays(book, d.id, FOLLOWED_ALONE)]
    emptied = {d.session for d in work if d.id in skipped and d.session > 0}
    emptied -= {d.session for d in work if d.id not in skipped and d.id not in history.fixed}
    return {
        d.id
        for d in season.drafts
        if d.session in emptied
        and plays(book, d.id, ("low_cut", "coring"))
        and d.id not in history.part_done
    }


def plays(book: Book, task: str, roles: tuple[Role, ...]) -> bool:
    """Whether the operation of a task plays one of some roles."""
    operation = book.operations.get(task.partition(".")[0])
    return operation is not None and operation.plays(*roles)
