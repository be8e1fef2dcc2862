"""Repeats what prepares a pass and has run out before it, since grass grows back, holes close and
heaps grow old, and what nobody says was done."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from turfplan.message import listed
from turfplan.phrases import buying
from turfplan.phrases import history as of_rest
from turfplan.phrases import prepare as phrases
from turfplan.planning.heap_again import (
    heap_lasts,
    looks_at_heap,
    old_heaps,
    open_pass,
    untold_heaps,
)
from turfplan.planning.marks_again import AGAIN, lasts
from turfplan.planning.past_binds import SPREADING, plays
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.buying_lags import buying_lags
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.buying import hired_for, machine_name
from turfplan.work.strips import strip_lags

# What opens and shortens the turf for a pass.
SERVED: tuple[Role, ...] = (*SPREADING, "sowing")
CUTS: tuple[Role, ...] = ("low_cut",)
RUNS_OUT: tuple[Role, ...] = (*CUTS, "coring")


def run_out_preparation(
    setting: ResolvedLawn, dated: Dated, history: TaskHistory
) -> frozenset[str]:
    """The looks at heaps, cuts and cores that are over and do not last until their pass: with the
    cores the last cut before them; and where that lies so far back that the grass stands high
    again, every step down."""
    book, drafts = setting.book, {d.id: d for d in dated.season.drafts}
    over = history.done.keys() | history.overdue.keys()
    lost: dict[int, set[str]] = {}
    far: set[int] = set()
    cut_for_blades: set[str] = set()
    for lag in dated.dropped:
        if not isinstance(lag, Lag) or not lag.runs_out:
            continue
        before, after = task_of_node(lag.before), task_of_node(lag.after)
        if after in drafts and after not in history.fixed and plays(book, after, ("thatching",)):
            # Blades reach the thatch through short grass alone, however late they come.
            cut_for_blades |= {before} if plays(book, before, CUTS) and before in drafts else set()
        elif plays(book, before, RUNS_OUT) and plays(book, after, SPREADING) and before in drafts:
            session = drafts[before].session
            lost.setdefault(session, set()).add(before)
            gap = dated.day(lag.after) - dated.day(lag.before)
            far |= {session} if gap > book.si("order.low_cut_before_dethatch_most") else set()
    for session, names in lost.items():
        cuts = [d for d in drafts.values() if d.session == session and plays(book, d.id, CUTS)]
        cuts = [d for d in cuts if d.id in over]
        last = max((d.position for d in cuts), default=0)
        names |= {d.id for d in cuts if session in far or d.position == last}
    names = {name for session in lost.values() for name in session}
    names |= cut_for_blades | old_heaps(setting, dated, history)
    return frozenset(n for n in names if n in over and _again_id(drafts[n]) not in drafts)


def untold_preparation(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> frozenset[str]:
    """The looks at heaps, cuts and cores that are over without a word before a pass that is still
    to come: nobody knows that the mix is dry, the grass short, or that there are holes. A lower cut
    that was made says it of those before it."""
    untold = [
        d
        for d in season.drafts
        if d.id in history.untold
        and plays(setting.book, d.id, RUNS_OUT)
        and _next_pass(setting, season, d, history) is not None
    ]
    cut = [d for d in season.drafts if d.id in history.done and plays(setting.book, d.id, CUTS)]
    lower = {d.session: max(c.position for c in cut if c.session == d.session) for d in cut}
    return untold_heaps(setting, season, history).union(
        d.id
        for d in untold
        if not plays(setting.book, d.id, CUTS) or d.position > lower.get(d.session, 0)
    )


def prepared_before(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> frozenset[str]:
    """The cuts and cores that an earlier plan has already repeated; less those that are known to
    have been done since, and last until their pass."""
    begun = begun_again(season, history)
    known = {d.id for d in season.drafts if _again_id(d) in history.published} | begun
    return frozenset(
        d.id
        for d in season.drafts
        if d.id in known
        and (plays(setting.book, d.id, RUNS_OUT) or looks_at_heap(setting, d))
        and (d.id in begun or not _lasts(setting, season, d, history))
    )


def begun_again(season: SeasonDraft, history: TaskHistory) -> frozenset[str]:
    """What has a second turn that is begun, or over."""
    begun = history.fixed.keys() | history.part_done.keys()
    return frozenset(d.id for d in season.drafts if _again_id(d) in begun)


def _lasts(setting: ResolvedLawn, season: SeasonDraft, draft: Draft, history: TaskHistory) -> bool:
    """Whether a look at a heap, a cut or cores last until their pass."""
    if looks_at_heap(setting, draft):
        return heap_lasts(setting, season, draft, history)
    return lasts(season, draft, history)


def stranded_preparation(
    setting: ResolvedLawn, dated: Dated, fixed: Mapping[str, int]
) -> frozenset[str]:
    """The cuts and cores that a season could only place after every pass of their session that is
    still to come, or after every pass and all seed: they serve nothing there."""
    book, drafts = setting.book, [d for d in dated.season.drafts if d.end_node not in fixed]
    days = {d.id: dated.day(d.start_node) for d in drafts}
    passes = [d for d in drafts if plays(book, d.id, SPREADING)]
    served = max((days[d.id] for d in drafts if plays(book, d.id, SERVED)), default=0)
    last = {d.session: 0 for d in passes}
    for spread in passes:
        last[spread.session] = max(last[spread.session], days[spread.id])
    return frozenset(
        d.id
        for d in drafts
        if passes and plays(book, d.id, RUNS_OUT) and days[d.id] > last.get(d.session, served)
    )


def with_preparation_again(
    setting: ResolvedLawn,
    campaign: Campaign,
    season: SeasonDraft,
    run_out: Collection[str],
    history: TaskHistory,
) -> SeasonDraft:
    """The season with a second turn of each preparation that has run out, before the first pass of
    its session that is still open; the order of work binds it as it bound the first."""
    renamed: dict[str, str] = {}
    added: list[Draft] = []
    for old in [d for d in season.drafts if d.id in run_out]:
        target = _next_pass(setting, season, old, history)
        if target is not None:
            renamed[old.id] = _again_id(old)
            added.append(_on_the_rest(_again(setting, old, target), target, history))
    if not added:
        return season
    drafts = [
        *(d if d.id in renamed else _with_names(d, renamed) for d in season.drafts),
        *(_with_names(new, renamed) for new in added),
    ]
    calls = [
        _reserved_again(setting, d, renamed, drafts)
        for d in season.drafts
        if d.id in history.fixed and any(_is_hired_for(setting, d, new) for new in added)
    ]
    drafts, added = [*drafts, *calls], [*added, *calls]
    # What went strip by strip with the pass goes so again; the first turn is history.
    drafts = [replace(d, strips=()) if d.id in renamed else d for d in drafts]
    strips = strip_lags(drafts)
    anew = {lag.id for lag in strips}
    marked = _marked_for(season, renamed)
    kept = (
        c
        for c in season.constraints
        if c.id not in anew
        and not (isinstance(c, Lag) and task_of_node(c.before) in renamed)
        and not (c.id == f"strips:{task_of_node(c.after)}" if isinstance(c, Lag) else False)
    )
    return replace(
        season,
        drafts=tuple(drafts),
        constraints=(
            *kept,
            *day_constraints(setting, campaign, added),
            *strips,
            *marked,
            *_called_first(setting, drafts, calls),
        ),
    )


def _is_hired_for(setting: ResolvedLawn, call: Draft, new: Draft) -> bool:
    """Whether a call has reserved a machine for the first turn of a preparation."""
    return hired_for(setting, new) in call.hired and new.id.removesuffix(f".{AGAIN}") in (
        call.buys_for
    )


def _reserved_again(
    setting: ResolvedLawn, call: Draft, renamed: Mapping[str, str], drafts: Sequence[Draft]
) -> Draft:
    """The call for the machines of second turns: what was reserved went back after the first."""
    users = [d for d in drafts if d.id in {renamed[n] for n in call.buys_for if n in renamed}]
    wanted = {hired_for(setting, d) for d in users}
    machines = tuple(machine for machine in call.hired if machine in wanted)
    names = listed((machine_name(setting, machine) for machine in machines), "and")
    return replace(
        call,
        id=_again_id(call),
        key=f"{call.key}.{AGAIN}",
        why=buying.call_again(),
        words={**call.words, "what": names},
        ideal=None,
        anchor=users[0].id,
        hired=machines,
        buys_for=tuple(d.id for d in users if hired_for(setting, d) in machines),
        urgent=True,
    )


def _called_first(
    setting: ResolvedLawn, drafts: Sequence[Draft], calls: Sequence[Draft]
) -> list[Lag]:
    """What binds second calls to the work that they are for."""
    ids = {call.id for call in calls}
    lags = buying_lags(setting, drafts) if ids else []
    return [lag for lag in lags if task_of_node(lag.before) in ids]


def _marked_for(season: SeasonDraft, renamed: Mapping[str, str]) -> list[Lag]:
    """What binds the second turns to the requests for marks that the first ones had: they hold for
    both, as long as they hold."""
    requests = {d.id for d in season.drafts if d.serves}
    return [
        replace(lag, id=f"{lag.id}.{AGAIN}", after=lag.after.replace(old, renamed[old], 1))
        for lag in season.constraints
        if isinstance(lag, Lag) and task_of_node(lag.before) in requests
        if (old := task_of_node(lag.after)) in renamed
    ]


def _next_pass(
    setting: ResolvedLawn, season: SeasonDraft, old: Draft, history: TaskHistory
) -> Draft | None:
    """The first pass that is still to come of a session, or of those that a heap serves."""
    if looks_at_heap(setting, old):
        return open_pass(setting, season, old, history)
    passes = (
        d
        for d in season.drafts
        if d.session == old.session
        and d.id not in history.fixed
        and plays(setting.book, d.id, SPREADING)
    )
    return min(passes, key=lambda d: d.position, default=None)


def _again(setting: ResolvedLawn, old: Draft, target: Draft) -> Draft:
    """The second turn of a preparation, for its new pass; a heap is looked at in time to dry."""
    key = f"{old.key}.{AGAIN}" if old.key else AGAIN
    alongside, heap = old.id in target.strips, looks_at_heap(setting, old)
    return replace(
        old,
        id=_again_id(old),
        key=key,
        why=phrases.heap_again() if heap else phrases.prepared_again(),
        offset=-setting.days("order.dry_reserve") if heap else old.offset,
        why_late=None,
        ideal=None,
        anchor=target.id,
        strips=target.strips if alongside else (),
        duration_days=target.duration_days if alongside else old.duration_days,
    )


def _on_the_rest(again: Draft, target: Draft, history: TaskHistory) -> Draft:
    """A second cut, or second cores, for the rest of a pass of which a part lies there."""
    done = history.part_done.get(target.id, 0.0)
    if not done or again.load is not None:
        return again
    left = 1 - done
    return replace(
        again,
        where=of_rest.unspread_part(),
        where_step=of_rest.prepare_unspread(),
        area_m2=again.area_m2 * left,
        person_hours=round(again.person_hours * left, 2),
    )


def _with_names(draft: Draft, renamed: dict[str, str]) -> Draft:
    """A draft that names what was renamed by its new name."""
    strips = tuple(renamed.get(name, name) for name in draft.strips)
    more = tuple(renamed[name] for name in draft.serves if name in renamed)
    return replace(draft, strips=strips, serves=(*draft.serves, *more))


def _again_id(draft: Draft) -> str:
    return f"{draft.id}.{AGAIN}"
