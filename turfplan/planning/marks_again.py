"""Says what has run out before the work it was for, and asks again for marks that have."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date

from turfplan.book.entries import Book
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Day, Message, said
from turfplan.phrases import prepare as phrases
from turfplan.phrases import reasons
from turfplan.planning.past_binds import plays
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Constraint, Lag
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import Timing, Wording, make
from turfplan.work.order import order_lags
from turfplan.work.phases.marks import marks_hold
from turfplan.work.season import computed_numbers
from turfplan.work.state_of_lawn import lasting

AGAIN = "again"
# The bed that is made for seed on open ground.
SEEDBED = "grade"
# A day of work a week may lie a week off the wished one.
RESERVE_DAYS = len(WEEKDAYS)


def run_out_requests(season: SeasonDraft, dropped: Sequence[Constraint]) -> frozenset[str]:
    """The requests for marks that are made, and run out before what they serve."""
    requests = {draft.id for draft in season.drafts if draft.serves}
    return frozenset(
        task_of_node(lag.before) for lag in dropped if isinstance(lag, Lag) and lag.runs_out
    ).intersection(requests)


def asked_before(season: SeasonDraft, history: TaskHistory) -> frozenset[str]:
    """The requests that an earlier plan has asked for again; less those that are known to have been
    made since, and hold for all that they serve."""
    known = history.published.keys() | history.fixed.keys()
    return frozenset(
        d.id
        for d in season.drafts
        if d.serves
        and f"{d.id}.{AGAIN}" in known
        and (f"{d.id}.{AGAIN}" in history.fixed or not lasts(season, d, history))
    )


def untold_requests(season: SeasonDraft, history: TaskHistory) -> frozenset[str]:
    """The requests that are over without a word before work in the ground that is still to come:
    as long as nobody says that they were made, no line is marked."""
    return frozenset(
        d.id
        for d in season.drafts
        if d.id in history.untold and any(name not in history.fixed for name in d.serves)
    )


def short_requests(season: SeasonDraft, dated: Dated, history: TaskHistory) -> frozenset[str]:
    """The requests that are made, and hold for less than a week after work that has to come later
    than it was to: another wet week-end, and they have run out. So do those that the plan before
    asks for again for that reason."""
    until = lasting(season.constraints, history)
    names = {d.id for d in dated.season.drafts}

    def is_short(request: Draft, served: str) -> bool:
        if served in history.fixed or served not in history.published or served not in names:
            return False
        day, again = dated.day(served), f"{request.id}.{AGAIN}" in history.published
        last = until[request.id].get(served, day + RESERVE_DAYS)
        return last < day + RESERVE_DAYS and (again or day > history.published[served])

    return frozenset(
        d.id
        for d in season.drafts
        if d.id in until and f"{d.id}.{AGAIN}" not in names
        if any(is_short(d, served) for served in d.serves)
    )


def lasts(season: SeasonDraft, old: Draft, history: TaskHistory) -> bool:
    """Whether something that was done lasts until the published days of all that it was for."""
    until = lasting(season.constraints, history).get(old.id, {})
    limits = [
        last >= history.published[after]
        for after, last in until.items()
        if after in history.published
    ]
    return bool(limits) and all(limits)


def with_requests_again(
    setting: ResolvedLawn,
    campaign: Campaign,
    season: SeasonDraft,
    run_out: Collection[str],
    history: TaskHistory,
) -> SeasonDraft:
    """The season with a second request in place of each that has run out, for what is still to be
    done."""
    drafts, constraints = list(season.drafts), list(season.constraints)
    computed = computed_numbers(setting, campaign) if run_out else {}
    for old in [d for d in season.drafts if d.id in run_out]:
        open_work = tuple(name for name in old.serves if name not in history.fixed)
        new = _again(setting, old, open_work)
        served = [d for d in drafts if d.id in open_work]
        lags = order_lags(setting, [new, *served], frozenset(), computed)
        constraints = [
            *(c for c in constraints if not _binds(c, old.id, open_work)),
            *day_constraints(setting, campaign, [new]),
            *(lag for lag in lags if lag.before == new.end_node),
        ]
        drafts = [*(replace(d, serves=()) if d.id == old.id else d for d in drafts), new]
    return replace(season, drafts=tuple(drafts), constraints=tuple(constraints))


def with_run_out_told(
    book: Book,
    season: SeasonDraft,
    dropped: Sequence[Constraint],
    fixed: Mapping[str, int],
    done: Collection[str],
) -> SeasonDraft:
    """The season with a caution on every task before which something has run out that is done, or
    of which nobody said so."""
    cautions: dict[str, Message] = {}
    resown = {d.id for d in season.drafts if d.left < 1 and plays(book, d.id, ("sowing",))}
    for constraint in dropped:
        if isinstance(constraint, Lag) and constraint.runs_out:
            before, after = task_of_node(constraint.before), task_of_node(constraint.after)
            ran_out = _ran_out(book, before, done)
            if before == SEEDBED and before in done and after in resown:
                # A seedbed in which a part is up is not made anew.
                ran_out = reasons.late_for_rest
            cautions[after] = ran_out(
                day=Day(date.fromordinal(fixed[constraint.before])),
                reason=said(constraint.reason.text),
            )
    if not cautions:
        return season
    drafts = tuple(
        replace(d, cautions=(cautions[d.id], *d.cautions)) if d.id in cautions else d
        for d in season.drafts
    )
    return replace(season, drafts=drafts)


def _ran_out(book: Book, task: str, done: Collection[str]) -> Callable[..., Message]:
    """How it is told that something has run out: marks first of all, for what they protect."""
    if task not in done:
        return reasons.run_out_untold
    if plays(book, task, ("marking",)):
        return reasons.run_out
    return reasons.old_heap if plays(book, task, ("delivery",)) else reasons.late_after


def _again(setting: ResolvedLawn, old: Draft, serves: tuple[str, ...]) -> Draft:
    called = phrases.marks_again_title()
    new = make(
        setting,
        old.operation,
        f"{old.key}.{AGAIN}" if old.key else AGAIN,
        timing=Timing(
            old.priority,
            session=old.session,
            position=old.position,
            anchor=next(iter(serves), None),
            offset=old.offset,
        ),
        wording=Wording(phrases.marks_again(), name=called, title=called, how=old.how),
        facts=(marks_hold(setting),),
    )
    return replace(new, serves=serves)


def _binds(constraint: Constraint, request: str, work: Collection[str]) -> bool:
    """Whether a constraint ties work to the request that has run out."""
    return (
        isinstance(constraint, Lag)
        and task_of_node(constraint.before) == request
        and task_of_node(constraint.after) in work
    )
