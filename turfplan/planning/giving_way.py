"""What gives way where what has happened leaves no plan: days that were chosen by hand first, then
work that no day is left for, closed with its cause."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date

from turfplan.message import Day, Listed, Message, length_mm, sentences
from turfplan.network import Conflict, nodes_of
from turfplan.phrases import changes, handover
from turfplan.phrases import history as phrases
from turfplan.planning.candidates import MAIN_WORK
from turfplan.planning.falling import without_tasks
from turfplan.planning.task_names import plain_titles
from turfplan.records.constraints import Constraint
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn

Contradiction = Conflict | Sequence[Constraint]
# What a session needs once, whichever of its passes are done.
PREPARING: tuple[Role, ...] = ("low_cut", "thatching", "coring", "digging", "marking", "relaying")


def named(found: Contradiction) -> set[str]:
    """The tasks that a contradiction speaks of."""
    constraints = found.constraints if isinstance(found, Conflict) else found
    nodes = {node for constraint in constraints for node in nodes_of(constraint)}
    if isinstance(found, Conflict):
        nodes |= {link.node for link in found.chain}
    return {task_of_node(node) for node in nodes}


def holds_in_the_way(found: Contradiction, history: TaskHistory) -> set[str]:
    """The days chosen by hand that a contradiction rests on."""
    return named(found) & history.held.keys()


def with_moves_given_up(
    history: TaskHistory, moves: Collection[str], reasons: Sequence[Message]
) -> TaskHistory:
    """A history in which some days chosen by hand no longer hold, each with why."""
    told = {
        name: phrases.move_given_up(
            day=Day(date.fromordinal(history.held[name])), reason=sentences(*reasons)
        )
        for name in moves
    }
    return replace(
        history,
        held={name: day for name, day in history.held.items() if name not in told},
        because={**history.because, **told},
        moves_given_up={**history.moves_given_up, **told},
    )


def with_moves_told(season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """A season whose tasks say which days chosen by hand they could not keep."""
    told = history.moves_given_up
    drafts = tuple(
        replace(d, cautions=(told[d.id], *d.cautions)) if d.id in told else d for d in season.drafts
    )
    return replace(season, drafts=drafts) if told else season


def with_work_closed(
    setting: ResolvedLawn,
    season: SeasonDraft,
    history: TaskHistory,
    gone: Collection[str],
    reasons: Sequence[Message],
) -> tuple[SeasonDraft, TaskHistory]:
    """A season without work that cannot be done any more, and what served it alone; the history
    with why each of it is closed."""
    names = served_alone(setting, season, gone, history)
    closed = dict.fromkeys(sorted(names), changes.because_no_day_left(reason=sentences(*reasons)))
    return without_tasks(season, names), replace(
        history,
        closed={**closed, **history.closed},
        because={**history.because, **closed, **history.closed},
    )


def with_closed_told(
    setting: ResolvedLawn, drafted: SeasonDraft, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season that says which main work of the one that was drafted is closed, and why."""
    lost = [d for d in drafted.drafts if d.id in history.closed and _is_main(setting, d)]
    if not lost:
        return season
    titles = plain_titles(setting, drafted)
    told = phrases.no_day_left(
        tasks=Listed(tuple(dict.fromkeys(titles[d.id] for d in lost))),
        reason=sentences(*dict.fromkeys(_why(history.closed[d.id]) for d in lost)),
    )
    return replace(season, cautions=(told, *season.cautions))


def with_skipped_told(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season that says how much of the fill is left out with the passes that were skipped: what
    comes after them is as deep as it was."""
    roles = {d.id: setting.book.operations[d.operation].roles for d in season.drafts}
    left_mm = sum(
        d.depth_mm * (1 - history.part_done.get(d.id, 0.0))
        for d in season.drafts
        if d.id in history.skipped and d.id not in history.done and "spreading" in roles[d.id]
    )
    if not left_mm:
        return season
    whole_mm = setting.levelling.depth_mm
    told = handover.undone_skipped(depth=length_mm(whole_mm), left=length_mm(left_mm))
    return replace(season, cautions=(told, *season.cautions))


def _why(closed: Message) -> Message:
    """The reason in the sentence that says that work is closed."""
    reason = dict(closed.values)["reason"]
    assert isinstance(reason, Message)  # as the sentence declares it
    return reason


def work_to_close(
    setting: ResolvedLawn, season: SeasonDraft, found: Contradiction, history: TaskHistory
) -> set[str]:
    """The one task of a contradiction that is given up: the least of the main work, since the rest
    is done for its sake, else of the others; of equal ones the last. Empty where all is past."""
    fixed, about = history.fixed, named(found)
    still = [d for d in season.drafts if d.id not in fixed]
    still = [d for d in still if d.id in about] or still
    main = [d for d in still if _is_main(setting, d)]
    least = max(
        main or still, key=lambda d: (d.priority, d.session, d.position, d.id), default=None
    )
    return set() if least is None else {least.id}


def served_alone(
    setting: ResolvedLawn, season: SeasonDraft, gone: Collection[str], history: TaskHistory
) -> set[str]:
    """Some tasks, and the open ones that were there for their sake alone: what hangs on their day,
    the preparation of a session without work, and loads that nothing takes."""
    fixed, names = history.fixed.keys(), set(gone)
    while True:
        left = [d for d in season.drafts if d.id not in names]
        still = [d for d in left if d.id not in fixed]
        worked = {d.session for d in still if _is_main(setting, d)}
        wanted = {number for d in left if _is_main(setting, d) for number in d.loads}
        spare = {load.number for load in season.loads} - wanted
        lost = {
            d.id
            for d in still
            if not _is_main(setting, d)
            and (
                d.load in spare
                or (bool(d.loads) and spare.issuperset(d.loads))
                or (d.session > 0 and d.session not in worked)
                or (d.anchor in names and (d.session <= 0 or not _prepares(setting, d)))
            )
        }
        if not lost:
            return names
        names |= lost


def _is_main(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays(*MAIN_WORK)


def _prepares(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays(*PREPARING)
