"""What follows after the last day of a plan, for whoever looks after the lawn then."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from types import MappingProxyType

from turfplan.message import Days, Message, Number, cut_height, length_mm, listed, said, sentences
from turfplan.network import Conflict
from turfplan.phrases import handover as phrases
from turfplan.planning.bought_for_tasks import with_amounts
from turfplan.planning.candidates import Candidate, Feeder, draft_campaign
from turfplan.planning.fed import fed
from turfplan.planning.past_binds import NEW, plays
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.tasks import tasks_of
from turfplan.planning.watering import watered
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Handover, Option
from turfplan.records.plan_task import NOTHING, Task, WateringStage
from turfplan.work.campaigns import Campaign, room
from turfplan.work.drafts import SeasonDraft
from turfplan.work.filling import HAIR_MM
from turfplan.work.horizon import season_for_the_rest, within
from turfplan.work.lawn import Levelling, ResolvedLawn
from turfplan.work.passes import passes_needed
from turfplan.work.phases.first_cuts import heights_after

# What ends a stage of watering, where that is seen and not dated.
_SIGNS: Mapping[str, Message] = MappingProxyType(
    {
        "germination": phrases.sign_germination(),
        "establishment": phrases.sign_establishment(),
        "rooting": phrases.sign_rooting(),
    }
)

_IN_SEASONS = phrases.rest_in_seasons(depth=length_mm(0.0), passes=0, n=1).key


def handed_over(
    wide: ResolvedLawn, best: Candidate, feeder: Feeder, *, permit: bool
) -> tuple[Handover, ...]:
    """What a campaign leaves undone: the rest of its fill, and what the owner's end cuts off.

    `wide` is the lawn as if nobody had given an end; the work keeps its days in it.
    """
    lawn = replace(wide, levelling=best.setting.levelling)
    later = [*_follow_ups(within(lawn, best.campaign), best, feeder, permit=permit)]
    return tuple(sorted([*later, *_rest_of_fill(wide, best)], key=lambda item: item.start))


def _follow_ups(
    lawn: ResolvedLawn, best: Candidate, feeder: Feeder, *, permit: bool
) -> Iterator[Handover]:
    """What lies beyond an end that the owner gave, on the days that it would have: tasks and
    feedings, the heights of the next cuts, and the water of what is young."""
    if best.setting.kept_end is not None:
        return
    last = date.fromordinal(best.setting.last_day)
    unended = _unended(lawn, best, feeder, permit=permit)
    if unended is None:
        return
    drafts, _ = with_amounts(lawn, unended)
    tasks = tasks_of(lawn, unended, drafts)
    known = best.dated.schedule.days
    for task in tasks:
        if task.id not in known and task.end > last:
            yield Handover(
                operation=task.operation,
                title=task.title,
                start=task.start,
                end=max(task.end, task.window.end),
                reason=task.why,
                sign=_sign_of_cut(lawn, best.campaign, task),
            )
    yield from _next_heights(lawn, best.campaign, tasks, last)
    yield from _water(watered(lawn, unended, tasks, TaskHistory(), {})[0], last)


def _unended(
    lawn: ResolvedLawn, best: Candidate, feeder: Feeder, *, permit: bool
) -> Candidate | None:
    """The campaign without the owner's end, its work on the days it has; None where that fails."""
    starter = best.feeding.starter is not None
    drafted = draft_campaign(lawn, best.campaign, feeder, permit=permit, starter=starter)
    days = best.dated.schedule.days

    def dated(season: SeasonDraft) -> Dated | Conflict:
        nodes = {node for d in season.drafts for node in (d.start_node, d.end_node)}
        return date_season(lawn, season, {n: day for n, day in days.items() if n in nodes})

    found = dated(drafted.season)
    if isinstance(found, Conflict):
        return None
    unfed = replace(
        best,
        setting=lawn,
        feeding=drafted.feeding,
        volumes=drafted.volumes,
        season=found.season,
        dated=found,
    )
    return fed(lawn, unfed, feeder, dated)


def _sign_of_cut(lawn: ResolvedLawn, campaign: Campaign, task: Task) -> Message:
    """By which sign a first cut is due within its days; nothing for what a day alone decides."""
    if not task.plays("first_cut"):
        return NOTHING
    return phrases.sign_first_mow(due=cut_height(heights_after(lawn, campaign).due))


def _next_heights(
    lawn: ResolvedLawn, campaign: Campaign, tasks: Iterable[Task], last: date
) -> Iterator[Handover]:
    """The heights of the cuts after the first one, where they go beyond the last day."""
    cut = next((task for task in tasks if task.plays("first_cut")), None)
    until = None if cut is None else cut.end + timedelta(lawn.days("seeding.third_mowing"))
    if cut is None or until is None or until <= last:
        return
    heights = heights_after(lawn, campaign)
    yield Handover(
        operation="mow",
        title=phrases.heights(
            height=cut_height(heights.kept),
            least=length_mm(heights.usual_least, kind="height"),
            most=length_mm(heights.usual_most, kind="height"),
        ),
        start=max(cut.end, last) + timedelta(1),
        end=until,
        reason=cut.why,
        sign=phrases.sign_height(due=cut_height(heights.due)),
    )


def _water(runs: Iterable[Task], last: date) -> Iterator[Handover]:
    """The stages of watering that go beyond the last day, each with the sign that ends it."""
    stages: dict[WateringStage, list[Task]] = {}
    for run in runs:
        if run.stage is not None and run.end > last:
            named = next((s for s in stages if s.id == run.stage.id), run.stage)
            stages.setdefault(named, []).append(run)
    for stage, later in stages.items():
        yield Handover(
            operation="water",
            title=stage.name,
            start=max(min(run.start for run in later), last + timedelta(1)),
            end=max(run.end for run in later),
            reason=later[0].why,
            sign=_SIGNS.get(stage.id, NOTHING),
        )


def _rest_of_fill(lawn: ResolvedLawn, best: Candidate) -> Iterator[Handover]:
    """The part of the fill that this season has no room for, in the next one that does."""
    left = best.setting.levelling.left
    if not left:
        return
    known = best.dated.schedule.days
    worked = date.fromordinal(max(known.values(), default=lawn.first_day))
    new = (d for d in best.season.drafts if plays(lawn.book, d.id, NEW) and d.id in known)
    sown = max((known.get(d.end_node, known[d.id]) for d in new), default=None)
    season = season_for_the_rest(
        lawn, best.campaign, worked, None if sown is None else date.fromordinal(sown)
    )
    if season is None:
        return
    deepest = max(band.depth_mm for band in left)
    if deepest <= touch_up_mm(best) + HAIR_MM:
        # The touch-up takes it with what settles.
        return
    depth = length_mm(deepest)
    needed = passes_needed(
        replace(lawn, levelling=replace(best.setting.levelling, bands=left, left=()))
    )
    holds = room(lawn, season)
    yield Handover(
        operation=season.operation,
        title=phrases.rest_of_fill(depth=depth)
        if needed <= holds
        else phrases.rest_in_seasons(depth=depth, passes=needed, n=holds),
        start=season.start,
        end=season.end,
        reason=season.reason,
    )


def touch_up_mm(best: Candidate) -> float:
    """What the touch-up of a campaign takes, mm; 0 where it has none."""
    planned = any(draft.operation == "touch_up" for draft in best.season.drafts)
    return best.setting.touch_up_depth_mm if planned and best.campaign.sessions else 0.0


def undone(
    levelling: Levelling,
    later: tuple[Handover, ...],
    ways: tuple[Option, ...],
    taken_mm: float = 0.0,
) -> Message:
    """What is not done of the fill that was asked for, when its next season is, and the way that
    would do all of it; what the touch-up takes, up to `taken_mm`, needs neither."""
    seasons = [item for item in later if item.operation == "topdress"]
    rest = sentences(
        *(_next_season(item) for item in seasons[:1]),
        *(
            phrases.undone_way(title=way.title, change=way.change, reason=way.reason)
            for way in ways[:1]
        ),
    )
    deepest = length_mm(max(band.depth_mm for band in levelling.left))
    if levelling.bands and deepest.value <= taken_mm + HAIR_MM:
        return phrases.undone_touched_up(depth=length_mm(levelling.depth_mm), left=deepest)
    if levelling.lies_mm:
        return phrases.undone_no_more(depth=deepest, rest=rest)
    if not levelling.bands and not levelling.lift_share:
        return phrases.undone_all(depth=deepest, rest=rest)
    share = Number(sum(band.share for band in levelling.left), "percent")
    if not levelling.bands:
        return phrases.undone_beside_lifted(left=deepest, share=share, rest=rest)
    return phrases.undone_part(
        depth=length_mm(levelling.depth_mm), left=deepest, share=share, rest=rest
    )


def _next_season(item: Handover) -> Message:
    """When the rest of the fill has a season: for all of it, or for the first of its passes."""
    title, days = said(item.title), Days(item.start, item.end)
    if title.key == _IN_SEASONS:
        return phrases.undone_next_part(days=days)
    return phrases.undone_next(days=days)


def told(items: tuple[Handover, ...]) -> Message | None:
    """The list as one caution; None where nothing is handed over."""
    if not items:
        return None
    lines = (
        phrases.item(title=said(item.title), days=days)
        if item.sign == NOTHING
        else phrases.item_by_sign(title=said(item.title), days=days, sign=said(item.sign))
        for item in items
        for days in (Days(item.start, item.end, weekday=False),)
    )
    return phrases.after_the_plan(items=listed(lines, "comma"))
