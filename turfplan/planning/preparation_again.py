"""Repeats what prepares a pass and has run out before it, since grass grows back and holes close,
and what nobody says was done."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from turfplan.phrases import prepare as phrases
from turfplan.planning.marks_again import AGAIN, lasts
from turfplan.planning.past_binds import SPREADING, plays
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.strips import strip_lags

# What opens and shortens the turf for a pass.
SERVED: tuple[Role, ...] = (*SPREADING, "sowing")
CUTS: tuple[Role, ...] = ("low_cut",)
RUNS_OUT: tuple[Role, ...] = (*CUTS, "coring")


def run_out_preparation(
    setting: ResolvedLawn, dated: Dated, history: TaskHistory
) -> frozenset[str]:
    """The cuts and cores that are over and do not last until their pass: with the cores the last
    cut before them; and where that lies so far back that the grass stands high again, every step
    down."""
    book, drafts = setting.book, {d.id: d for d in dated.season.drafts}
    over = history.done.keys() | history.overdue.keys()
    lost: dict[int, set[str]] = {}
    far: set[int] = set()
    for lag in dated.dropped:
        if not isinstance(lag, Lag) or not lag.runs_out:
            continue
        before, after = task_of_node(lag.before), task_of_node(lag.after)
        if plays(book, before, RUNS_OUT) and plays(book, after, SPREADING) and before in drafts:
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
    return frozenset(n for n in names if n in over and _again_id(drafts[n]) not in drafts)


def untold_preparation(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> frozenset[str]:
    """The cuts and cores that are over without a word before a pass that is still to come: nobody
    knows that the grass is short, or that there are holes. A lower cut that was made says it of
    those before it."""
    untold = [
        d
        for d in season.drafts
        if d.id in history.untold
        and plays(setting.book, d.id, RUNS_OUT)
        and _next_pass(setting, season, d, history) is not None
    ]
    cut = [d for d in season.drafts if d.id in history.done and plays(setting.book, d.id, CUTS)]
    lower = {d.session: max(c.position for c in cut if c.session == d.session) for d in cut}
    return frozenset(
        d.id
        for d in untold
        if not plays(setting.book, d.id, CUTS) or d.position > lower.get(d.session, 0)
    )


def prepared_before(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> frozenset[str]:
    """The cuts and cores that an earlier plan has already repeated; less those that are known to
    have been done since, and last until their pass."""
    begun = history.fixed.keys() | history.part_done.keys()
    known = history.published.keys() | begun
    return frozenset(
        d.id
        for d in season.drafts
        if _again_id(d) in known
        and plays(setting.book, d.id, RUNS_OUT)
        and (_again_id(d) in begun or not lasts(season, d, history))
    )


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
            added.append(_again(old, target))
    if not added:
        return season
    drafts = [
        *(d if d.id in renamed else _with_names(d, renamed) for d in season.drafts),
        *(_with_names(new, renamed) for new in added),
    ]
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
        constraints=(*kept, *day_constraints(setting, campaign, added), *strips, *marked),
    )


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
    """The first pass of a session that is still to come."""
    passes = (
        d
        for d in season.drafts
        if d.session == old.session
        and d.id not in history.fixed
        and plays(setting.book, d.id, SPREADING)
    )
    return min(passes, key=lambda d: d.position, default=None)


def _again(old: Draft, target: Draft) -> Draft:
    """The second turn of a preparation, for its new pass."""
    key = f"{old.key}.{AGAIN}" if old.key else AGAIN
    alongside = old.id in target.strips
    return replace(
        old,
        id=_again_id(old),
        key=key,
        why=phrases.prepared_again(),
        why_late=None,
        ideal=None,
        anchor=target.id,
        strips=target.strips if alongside else (),
        duration_days=target.duration_days if alongside else old.duration_days,
    )


def _with_names(draft: Draft, renamed: dict[str, str]) -> Draft:
    """A draft that names what was renamed by its new name."""
    strips = tuple(renamed.get(name, name) for name in draft.strips)
    more = tuple(renamed[name] for name in draft.serves if name in renamed)
    return replace(draft, strips=strips, serves=(*draft.serves, *more))


def _again_id(draft: Draft) -> str:
    return f"{draft.id}.{AGAIN}"
