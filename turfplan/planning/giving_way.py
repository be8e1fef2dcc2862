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
from turfplan.planning.journal_state import GERMINATION
from turfplan.planning.past_binds import plays
from turfplan.planning.task_names import plain_titles
from turfplan.records.constraints import Constraint
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn

Contradiction = Conflict | Sequence[Constraint]
# Less of a depth is nothing that anybody measures.
TOLD_MM = 0.5
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


def sown_in_part(
    setting: ResolvedLawn, names: Collection[str], history: TaskHistory
) -> frozenset[str]:
    """Those of some tasks that sow what is left of a sowing of which a part lies in the ground."""
    return frozenset(
        name
        for name in names
        if plays(setting.book, name, ("sowing",))
        and history.part_done.get(name, 0.0) > 0
        and name in history.actual
    )


def mostly_up(names: Collection[str], history: TaskHistory) -> frozenset[str]:
    """Those of some sowings of which more lies in the ground, or stands, than is missing."""
    return frozenset(name for name in names if 2 * history.part_done[name] >= 1)


def with_rest_unsown(
    setting: ResolvedLawn,
    drafted: SeasonDraft,
    season: SeasonDraft,
    history: TaskHistory,
    names: Collection[str],
    reasons: Sequence[Message],
) -> tuple[SeasonDraft, TaskHistory]:
    """A season without what is left of some sowings, and what prepared for it; what lies in the
    ground stays, and is looked after from the day on which it was sown."""
    told = changes.because_no_day_left(reason=sentences(*reasons))
    closed = dict.fromkeys(sorted(names), told)
    whole = {d.id: d for d in drafted.drafts}
    trips = {
        d.id
        for d in season.drafts
        if d.id not in whole and d.operation == "collect" and d.anchor in names
    }
    drafts = tuple(whole[d.id] if d.id in names else d for d in season.drafts)
    sown = {name: history.actual[name].end.toordinal() for name in closed}
    # What has come up was looked at when the rest was found missing.
    lost = [loss.on.toordinal() for loss in history.losses if loss.task in closed]
    asked = GERMINATION in history.not_before and any(d.id == GERMINATION for d in season.drafts)
    seen = {GERMINATION: max(lost)} if lost and asked else {}
    over = closed.keys() | seen.keys()
    season = replace(season, drafts=drafts)
    history = replace(
        history,
        done={**history.done, **sown, **seen},
        closed={**closed, **history.closed},
        because={**history.because, **closed},
        not_before={n: wait for n, wait in history.not_before.items() if n not in over},
        published={n: day for n, day in history.published.items() if n not in closed},
    )
    spare = served_alone(setting, season, (), history)
    spare = {d.id for d in season.drafts if d.id in spare and _prepares(setting, d)}
    return without_tasks(season, spare | trips - history.fixed.keys()), history


def with_closed_told(
    setting: ResolvedLawn, drafted: SeasonDraft, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season that says which main work of the one that was drafted is closed, and why."""
    lost = [d for d in drafted.drafts if d.id in history.closed and _is_main(setting, d)]
    if not lost:
        return season
    titles = plain_titles(setting, drafted)
    begun = [d for d in lost if d.id in history.done]
    told = tuple(
        say(
            tasks=Listed(tuple(dict.fromkeys(titles[d.id] for d in some))),
            reason=sentences(*dict.fromkeys(_why(history.closed[d.id]) for d in some)),
        )
        for say, some in (
            (phrases.no_day_left, [d for d in lost if d not in begun]),
            (phrases.no_day_for_rest, begun),
        )
        if some
    )
    return replace(season, cautions=(*told, *season.cautions))


def with_missing_told(
    setting: ResolvedLawn, season: SeasonDraft, missing_mm: float | None, history: TaskHistory
) -> SeasonDraft:
    """A season that says how much of the fill is left out: with passes that were skipped, or with
    what was spread thinner than planned, less what the passes still to come take up
    (`missing_mm`); None where none is to come: what was skipped."""
    roles = {d.id: setting.book.operations[d.operation].roles for d in season.drafts}
    left_mm = missing_mm
    if left_mm is None:
        left_mm = sum(
            d.depth_mm * (1 - history.part_done.get(d.id, 0.0))
            for d in season.drafts
            if d.id in history.skipped and d.id not in history.done
            if "spreading" in roles[d.id] and d.id not in history.needless
        )
    if left_mm < TOLD_MM:
        return season
    told = handover.undone_skipped(
        depth=length_mm(setting.levelling.depth_mm), left=length_mm(round(left_mm, 6))
    )
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
