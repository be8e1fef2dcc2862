"""What is left of a job of several days that is begun: the rest of it, on the rest of its days."""

import math
from collections.abc import Mapping
from dataclasses import replace

from turfplan.records.constraints import Allowed, Constraint
from turfplan.records.past import TaskHistory
from turfplan.work.day_limits import length_of
from turfplan.work.days_off import days_of
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn

# What a job takes longer than whole days by rounding is no day of its own.
HAIR = 1e-6


def with_rest_of_begun(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """The season with as many days for what is begun as are left of its work, one at least, so
    that one dry day is enough for the half that rain left. What is done on its days goes with it;
    jobs that go side by side, strip by strip, are as far as the last of them."""
    lasts = {
        d.id: days
        for d in season.drafts
        if d.duration_days > 1 and (days := _days_left(d, season, history)) < d.duration_days
    }
    if not lasts:
        return season
    drafts = tuple(_shortened(d, lasts[d.id]) if d.id in lasts else d for d in season.drafts)
    ends = {old.end_node: old.id for old in season.drafts if lasts.get(old.id) == 1}
    gone = {f"{name}:{task}" for task in lasts for name in ("length", "in_one_go")}
    kept = (_with_ends(c, ends) for c in season.constraints if c.id not in gone)
    lengths = (
        lag
        for d in drafts
        if d.id in lasts and d.duration_days > 1
        for lag in length_of(setting, d, days_of(setting, d))
    )
    return replace(
        season,
        drafts=drafts,
        constraints=(*(c for c in kept if c is not None), *lengths),
        in_time=tuple(replace(a, node=ends.get(a.node, a.node)) for a in season.in_time),
    )


def _days_left(draft: Draft, season: SeasonDraft, history: TaskHistory) -> int:
    """The days that a job still takes, of those that the whole of it does."""
    if draft.id in history.fixed:
        return draft.duration_days
    led = [draft.beside] if draft.beside else list(draft.strips or (draft.id,))
    if draft.operation == "incorporate" and not draft.strips:
        led = [d.id for d in season.drafts if _is_worked_in(d, draft)] or led
    done = min(_share_done(name, history) for name in led)
    # What is done beside work that is over has its own days, and no part of it is known.
    left = math.ceil(draft.duration_days * (1 - done) - HAIR)
    return max(1, left) if done < 1 else draft.duration_days


def _is_worked_in(spread: Draft, draft: Draft) -> bool:
    return spread.operation == "topdress" and spread.position == draft.position


def _share_done(task: str, history: TaskHistory) -> float:
    return 1.0 if task in history.done else history.part_done.get(task, 0.0)


def _shortened(draft: Draft, days: int) -> Draft:
    hours = draft.person_hours * days / draft.duration_days
    return replace(draft, duration_days=days, person_hours=hours)


def _with_ends(constraint: Constraint, ends: Mapping[str, str]) -> Constraint | None:
    """A constraint between days of which some last ones are first ones too; None where it then
    binds a day to itself."""
    if isinstance(constraint, Allowed):
        return replace(constraint, node=ends.get(constraint.node, constraint.node))
    before = ends.get(constraint.before, constraint.before)
    after = ends.get(constraint.after, constraint.after)
    return None if before == after else replace(constraint, before=before, after=after)
