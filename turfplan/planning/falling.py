"""What falls first where not everything fits: tasks that the work can do without."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from types import MappingProxyType

from turfplan.book.words import operation_name
from turfplan.network import Conflict, nodes_of
from turfplan.phrases import season as phrases
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Lag
from turfplan.records.plan_task import Role
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.marks import renewal_lags, renewed, spare_renewals

# Where the owner gave the end, what follows the work may be left to whoever comes after.
FOLLOW_UPS: frozenset[Role] = frozenset({"first_cut", "looking"})
# What is measured only to be made good falls with it.
TOGETHER: Mapping[Role, Role] = MappingProxyType({"measuring": "mending"})


def dated_without(
    setting: ResolvedLawn,
    season: SeasonDraft,
    dated: Callable[[SeasonDraft], Dated | Conflict],
    needed: Collection[str] = (),
) -> Dated | Conflict:
    """A season on its days, less what it can do without where all of it cannot be done.

    `needed` are tasks that stay: done ones, or ones moved by hand. Each that falls is told; what
    lies beyond an end that the owner gave is on the list of what is handed over.
    """
    found = dated(season)
    while True:
        if isinstance(found, Conflict):
            falls = _falls(setting, season, found) - set(needed)
            season = without(setting, season, falls)
        else:
            falls = _beyond_the_end(setting, found) - set(needed)
            season = without_tasks(season, falls)
        if not falls:
            return found
        found = dated(season)


def _beyond_the_end(setting: ResolvedLawn, dated: Dated) -> set[str]:
    """The follow-ups that only a rule given up brings within an end that the owner gave.

    Their own days lie after it: they are for whoever comes then, and are no fault of the work.
    """
    if setting.kept_end is not None:
        return set()
    book = setting.book.operations
    too_early = {
        task_of_node(lag.after)
        for lag in dated.dropped
        if isinstance(lag, Lag)
        and lag.minimum is not None
        and dated.day(lag.after) < lag.minimum(dated.day(lag.before))
    }
    return {
        draft.id
        for draft in dated.season.drafts
        if draft.id in too_early and FOLLOW_UPS & set(book[draft.operation].roles)
    }


def _falls(setting: ResolvedLawn, season: SeasonDraft, conflict: Conflict) -> set[str]:
    """The tasks of a conflict that the work can do without, with what falls with them."""
    nodes = {node for constraint in conflict.constraints for node in nodes_of(constraint)}
    nodes |= {link.node for link in conflict.chain}
    return falling(setting, season, {task_of_node(node) for node in nodes})


def falling(setting: ResolvedLawn, season: SeasonDraft, tasks: Collection[str]) -> set[str]:
    """Those of some tasks that the work can do without, with what falls with them."""
    book = setting.book.operations
    dispensable = {
        draft.id: set(book[draft.operation].roles)
        for draft in season.drafts
        if book[draft.operation].optional
        or (setting.kept_end is None and FOLLOW_UPS & set(book[draft.operation].roles))
    }
    falls = {task for task in tasks if task in dispensable}
    with_them = {TOGETHER[role] for task in falls for role in dispensable[task] if role in TOGETHER}
    return falls | {task for task, roles in dispensable.items() if roles & with_them}


def without(setting: ResolvedLawn, season: SeasonDraft, gone: Collection[str]) -> SeasonDraft:
    """A season without some of its tasks and what bound them, each told."""
    notes = [
        phrases.falls(operation=operation_name(setting.book, draft.operation))
        for draft in season.drafts
        if draft.id in gone
    ]
    return replace(without_tasks(season, gone), notes=(*season.notes, *dict.fromkeys(notes)))


def without_tasks(season: SeasonDraft, gone: Collection[str]) -> SeasonDraft:
    """A season without some tasks, and without the rules that bind them."""
    if not gone:
        return season
    return replace(
        season,
        drafts=tuple(d for d in season.drafts if d.id not in gone),
        constraints=tuple(
            c for c in season.constraints if not any(task_of_node(n) in gone for n in nodes_of(c))
        ),
    )


def without_spare_renewals(
    setting: ResolvedLawn,
    season: SeasonDraft,
    dated: Callable[[SeasonDraft], Dated | Conflict],
) -> Dated | Conflict:
    """A season on its days, less the requests for marks that its jobs do not need on them."""
    found = dated(season)
    if isinstance(found, Conflict):
        return found
    spare = spare_renewals(setting, found.season.drafts, found.day)
    fewer = dated(without_renewals(setting, season, spare)) if spare else found
    return found if isinstance(fewer, Conflict) else fewer


def without_renewals(
    setting: ResolvedLawn, season: SeasonDraft, gone: Collection[str]
) -> SeasonDraft:
    """A season without some requests for marks that follow others; the last of those that are left
    holds until its job is over."""
    left = without_tasks(season, gone)
    known, alone = {c.id for c in left.constraints}, {renewed(name) for name in gone}
    added = (
        lag
        for lag in renewal_lags(setting, left.drafts, alone)
        if lag.id not in known
        and (lag.before in alone or renewed(task_of_node(lag.before)) in alone)
    )
    return replace(left, constraints=(*left.constraints, *added))
