"""Feeds a campaign whose work has its days: each feeding in step with what is done before it."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace

from turfplan.network import Conflict
from turfplan.planning.candidates import Candidate, Feeder
from turfplan.planning.falling import without_tasks
from turfplan.planning.schedule import Dated
from turfplan.work.buying_lags import buying_lags
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.on_leaves import apart_on_leaves
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.stages import COLOUR_LOOK, SEEDLINGS, worked_days
from turfplan.work.feeding.starter import STARTER_TASK
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import order_lags
from turfplan.work.phases.buying import with_trip_of_feedings
from turfplan.work.phases.care import feed_days, feed_drafts
from turfplan.work.season import computed_numbers, season_flags, with_a_day

# Work that moves when its feedings join it is fed once more on its new days, then left as it is.
ROUNDS = 2


def fed(
    setting: ResolvedLawn,
    unfed: Candidate,
    feeder: Feeder,
    dated: Callable[[SeasonDraft], Dated | Conflict | None],
    *,
    base: SeasonDraft | None = None,
    fixed: Mapping[str, int] | None = None,
) -> Candidate:
    """The candidate with its feedings, on days that `dated` finds; without where it finds none.

    Feedings join the season of the candidate, or the `base` that it was drafted as before history
    bound it. `fixed` are days of tasks that are not to be chosen any more.
    """
    base = base or unfed.season
    candidate, worked = unfed, worked_days(unfed.season.drafts, unfed.dated.day)
    for _ in range(ROUNDS):
        starter = unfed.feeding.starter is not None
        feeding = feeder(setting, unfed.campaign, unfed.mix, starter=starter, worked=worked)
        if not starter:
            feeding = replace(feeding, starter_reason=unfed.feeding.starter_reason)
        season = _with_feedings(setting, unfed.campaign, base, feeding)
        answer = dated(season)
        if answer is None or isinstance(answer, Conflict):
            return candidate
        candidate = replace(unfed, feeding=feeding, season=answer.season, dated=answer)
        before, worked = worked, worked_days(answer.season.drafts, answer.day)
        if worked == before:
            break
    feeds = _by_task(candidate.feeding)
    # Nothing that was promised moves for food whose own days are over: that falls.
    lost = {n for n in _out_of_window(candidate, fixed or {}) if feeds[n].end < setting.today}
    if fixed is not None and lost:
        again = dated(without_tasks(season, lost))
        if again is not None and not isinstance(again, Conflict):
            feeding = _without(candidate.feeding, lost)
            candidate = replace(candidate, feeding=feeding, season=again.season, dated=again)
    return _kept_apart(setting, candidate, fixed or {})


def _by_task(feeding: FeedingPlan) -> dict[str, NitrogenFeeding]:
    """The feedings by the ids of their tasks."""
    return {f"feed_nitrogen.{feed.key}": feed for feed in feeding.feeds}


def _without(feeding: FeedingPlan, gone: Collection[str]) -> FeedingPlan:
    """The same without the feedings of some tasks."""
    kept = tuple(feed for name, feed in _by_task(feeding).items() if name not in gone)
    return replace(feeding, feeds=kept)


def _out_of_window(candidate: Candidate, fixed: Mapping[str, int]) -> set[str]:
    """The feedings that have no day of their own window; what is done, or was moved by hand,
    stays."""
    drafts = {draft.id for draft in candidate.season.drafts}
    return {
        name
        for name, feed in _by_task(candidate.feeding).items()
        if name in drafts
        and name not in fixed
        and not feed.start.toordinal() <= candidate.dated.day(name) <= feed.end.toordinal()
    }


def _with_feedings(
    setting: ResolvedLawn, campaign: Campaign, season: SeasonDraft, feeding: FeedingPlan
) -> SeasonDraft:
    """A season with the tasks of its feedings and what binds them."""
    if feeding.starter is None:
        season = without_tasks(season, {STARTER_TASK})
    if not any(feed.if_pale for feed in feeding.feeds):
        # Nothing hangs on the look at the colour of seedlings.
        season = without_tasks(season, {COLOUR_LOOK})
    fed_alone, left_out = with_a_day(setting, feed_drafts(setting, campaign, feeding))
    added = with_trip_of_feedings(setting, fed_alone, season.drafts, feeding)
    drafts = (*season.drafts, *added)
    ids = {draft.id for draft in added}
    flags, computed = season_flags(setting, campaign), computed_numbers(setting, campaign)
    lags = [
        lag
        for lag in (
            *order_lags(setting, drafts, flags, computed),
            *apart_on_leaves(drafts),
            *buying_lags(setting, drafts),
        )
        if not ids.isdisjoint(map(task_of_node, (lag.before, lag.after)))
    ]
    return replace(
        season,
        drafts=drafts,
        constraints=(
            *season.constraints,
            *day_constraints(setting, campaign, added),
            *feed_days(setting, feeding, drafts),
            *lags,
        ),
        notes=(*season.notes, *left_out),
    )


def _kept_apart(setting: ResolvedLawn, candidate: Candidate, fixed: Mapping[str, int]) -> Candidate:
    """The candidate without feedings that have no day of their own, or one too near another.

    What is done, or was moved by hand, stays.
    """
    days = {
        draft.id: candidate.dated.day(draft.id)
        for draft in candidate.season.drafts
        if "feeding" in setting.book.operations[draft.operation].roles
    }
    feeds = _by_task(candidate.feeding)
    gone = _out_of_window(candidate, fixed)
    least = round(setting.book.low_si("feeding.least_gap"))
    kept = [day for name, day in days.items() if name in fixed or name not in feeds]
    kept += [use.on.toordinal() for use in setting.brief.history.nitrogen]
    for name in sorted(feeds.keys() & days.keys() - gone - fixed.keys(), key=lambda n: days[n]):
        if any(abs(days[name] - day) < least for day in kept):
            gone.add(name)
        else:
            kept.append(days[name])
    if not gone:
        return candidate
    if f"feed_nitrogen.{SEEDLINGS}" in gone:
        # Nothing would follow the look at their colour.
        gone.add(COLOUR_LOOK)
    season = without_tasks(candidate.season, gone)
    feeding = _without(candidate.feeding, gone)
    dated = replace(candidate.dated, season=season)
    return replace(candidate, feeding=feeding, season=season, dated=dated)
