"""What is left of a job of several days that is begun: the rest of it, on the rest of its days."""

import math
from collections.abc import Mapping
from dataclasses import replace

from turfplan.message import Message, Number, Quantity
from turfplan.phrases import day_limits as phrases
from turfplan.phrases import history as phrases_of
from turfplan.planning.candidates import MAIN_WORK
from turfplan.planning.past_binds import NEW, plays
from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Allowed, Constraint
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import fits_in_one_go, length_of
from turfplan.work.days_off import days_of
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lateness import held_open_for
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


def with_rest_told(setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """The season whose begun jobs say first how much of them is left, and where; seed and plants
    have the ground of their rest (`rest_to_sow`)."""
    drafts = tuple(
        replace(d, where_step=_left_of(d, history))
        if _is_begun(d, history) and d.where is None and not plays(setting.book, d.id, NEW)
        else d
        for d in season.drafts
    )
    return replace(season, drafts=drafts)


def _is_begun(draft: Draft, history: TaskHistory) -> bool:
    return draft.id in history.part_done and draft.id not in history.done


def _left_of(draft: Draft, history: TaskHistory) -> Message:
    left = 1 - history.part_done[draft.id]
    share = Number(left, "percent")
    if draft.operation != "topdress":
        return phrases_of.rest_of_job(share=share)
    volume = Quantity(draft.loose_m3 * left, "volume")
    return phrases_of.rest_of_pass(share=share, volume=volume)


def held_open_for_begun(
    setting: ResolvedLawn, campaign: Campaign, history: TaskHistory
) -> Campaign:
    """The campaign with the seasons in which a pass, seed or plants were begun open a little
    longer: the rest of them belongs to what lies there, and is told as late."""
    begun = [
        history.actual[name].end
        for name in history.part_done
        if name in history.actual and plays(setting.book, name, MAIN_WORK)
    ]
    if not begun:
        return campaign
    sessions = tuple(
        replace(s, window=held_open_for(setting, s.window, begun)) for s in campaign.sessions
    )
    sow = campaign.sow_window and held_open_for(setting, campaign.sow_window, begun)
    return replace(campaign, sessions=sessions, sow_window=sow)


def with_apart_told(setting: ResolvedLawn, dated: Dated, season: SeasonDraft) -> SeasonDraft:
    """A season whose passes say where days off lie between their days, though they need not."""
    if not setting.passes_apart:
        return season
    told = phrases.goes_on_apart()
    drafts = tuple(
        replace(d, cautions=(told, *d.cautions))
        if d.operation == "topdress"
        and dated.day(d.end_node) - dated.day(d.start_node) >= d.duration_days
        and fits_in_one_go(days_of(setting, d), d.duration_days)
        else d
        for d in season.drafts
    )
    return replace(season, drafts=drafts)


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
