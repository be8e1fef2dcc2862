"""What follows after the last day of a plan, for whoever looks after the lawn then."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from turfplan.message import Days, Message, Number, length_mm, listed, sentences
from turfplan.network import Conflict
from turfplan.phrases import handover as phrases
from turfplan.planning.candidates import Candidate, Feeder, draft_campaign
from turfplan.planning.schedule import date_season
from turfplan.planning.tasks import tasks_of, with_amounts
from turfplan.records.plan import Handover, Option
from turfplan.work.emergence import undressed_days
from turfplan.work.horizon import within
from turfplan.work.lawn import Levelling, ResolvedLawn
from turfplan.work.passes import next_dressing


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
    """The tasks that lie beyond an end that the owner gave, on the days that they would have."""
    if best.setting.kept_end is not None:
        return
    drafted = draft_campaign(
        lawn, best.campaign, feeder, permit=permit, starter=best.feeding.starter is not None
    )
    nodes = {node for d in drafted.season.drafts for node in (d.start_node, d.end_node)}
    fixed = {node: day for node, day in best.dated.schedule.days.items() if node in nodes}
    dated = date_season(lawn, drafted.season, fixed)
    if isinstance(dated, Conflict):
        return
    unended = replace(
        best,
        setting=lawn,
        feeding=drafted.feeding,
        volumes=drafted.volumes,
        season=dated.season,
        dated=dated,
    )
    drafts, _ = with_amounts(lawn, unended)
    for task in tasks_of(lawn, unended, drafts):
        if task.id not in fixed and task.end.toordinal() > best.setting.last_day:
            yield Handover(
                operation=task.operation,
                title=task.title,
                start=task.start,
                end=max(task.end, task.window.end),
                reason=task.why,
            )


def _rest_of_fill(lawn: ResolvedLawn, best: Candidate) -> Iterator[Handover]:
    """The part of the fill that this season has no room for, in the next one that does."""
    left = best.setting.levelling.left
    if not left:
        return
    worked = date.fromordinal(max(best.dated.schedule.days.values(), default=lawn.first_day))
    sow, sessions = best.campaign.sow_window, best.campaign.sessions
    if sow is not None:
        worked = sow.end + timedelta(undressed_days(lawn, best.campaign))
    elif sessions:
        worked = sessions[-1].window.end + timedelta(lawn.pass_interval_days)
    season = next_dressing(lawn, worked)
    if season is not None:
        yield Handover(
            operation=season.operation,
            title=phrases.rest_of_fill(depth=length_mm(max(band.depth_mm for band in left))),
            start=season.start,
            end=season.end,
            reason=season.reason,
        )


def undone(levelling: Levelling, later: tuple[Handover, ...], ways: tuple[Option, ...]) -> Message:
    """What is not done of the fill that was asked for, when its next season is, and the way that
    would do all of it."""
    seasons = [item for item in later if item.operation == "topdress"]
    rest = sentences(
        *(phrases.undone_next(days=Days(item.start, item.end)) for item in seasons[:1]),
        *(
            phrases.undone_way(title=way.title, change=way.change, reason=way.reason)
            for way in ways[:1]
        ),
    )
    deepest = length_mm(max(band.depth_mm for band in levelling.left))
    if not levelling.bands:
        return phrases.undone_all(depth=deepest, rest=rest)
    share = Number(sum(band.share for band in levelling.left), "percent")
    return phrases.undone_part(
        depth=length_mm(levelling.depth_mm), left=deepest, share=share, rest=rest
    )


def told(items: tuple[Handover, ...]) -> Message | None:
    """The list as one caution; None where nothing is handed over."""
    if not items:
        return None
    lines = (
        phrases.item(title=item.title, days=Days(item.start, item.end, weekday=False))
        for item in items
    )
    return phrases.after_the_plan(items=listed(lines, "comma"))
