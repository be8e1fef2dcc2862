"""Plans again: the campaign of the plan before as long as it can be kept, else another around what
has happened."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Message, sentences
from turfplan.planning.candidates import MAIN_WORK, Candidate, Comparison, Feeder, all_campaigns
from turfplan.planning.past_binds import NEW, plays
from turfplan.planning.repair import Repairing, first_open_day, refed
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.planning.wished_days import compare_wished
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign
from turfplan.work.filling import leaves_all
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.open_turf import AHEAD
from turfplan.work.watering.season import Verdict, WeatherDay


def compare_again(
    setting: ResolvedLawn,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaign of the plan before, repaired; only when it can no longer be done are the others
    compared, and only where none of them can is work closed that no day is left for.

    A day off that somebody wished for is a day of work only as long as the wish holds.
    """
    return compare_wished(
        setting,
        history,
        previous,
        lambda lawn, past: _compared_again(lawn, feeder, verdict, previous, past, weather),
    )


def _compared_again(
    setting: ResolvedLawn,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaigns compared around what has happened."""
    if setting.sowing.needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    given = Repairing(feeder, verdict.needs_permit, history, weather)
    if _in_strips(previous):
        setting = replace(setting, strip_days=2)
    if any(task.id == AHEAD for task in previous.tasks):
        setting = replace(setting, dethatched_ahead=True)
    ways = ways_still_open(setting, previous, history)
    same = [way for way in ways if _as_deep(way, previous)] or ways
    known, ruled_out = all_campaigns(same)
    near = [way for way in known if way[1].id == previous.campaign]
    near.sort(key=lambda way: _distance(way[1], previous))
    kept = [way for way in near if _distance(way[1], previous) < HALF_A_YEAR]
    conflict: tuple[Message, ...] = ()
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    for lawn, campaign in kept:
        result = refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            return Comparison(result, rejected or ruled_out, ())
        conflict = conflict or result
    # The campaign cannot be kept: what is left of the time is laid out anew, around what is done.
    left = replace(
        setting,
        first_day=max(setting.first_day, first_open_day(setting).toordinal()),
        thatch_down=AHEAD in history.done,
    )
    possible, ruled_out = all_campaigns(ways_still_open(left, previous, history))
    if any(plays(setting.book, name, NEW) for name in history.done):
        # What is in the ground waits for nothing: the fill is not left out for its sake.
        possible.sort(key=lambda way: leaves_all(way[0].levelling))
    # A campaign that is no longer among those to choose from stands with the others ruled out.
    given_up = ((previous.campaign_name, sentences(*conflict)),) if conflict else ()
    for lawn, campaign in possible:
        result = refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            return Comparison(result, (*given_up, *ruled_out), ())
    closing = replace(given, closing=True)
    found = [
        result
        for lawn, campaign in (*(kept or near[:1] or known[:1]), *possible[:1])
        for result in (refed(within(lawn, campaign), campaign, closing),)
        if not isinstance(result, tuple)
    ]
    if found:
        best = min(found, key=lambda candidate: _left_undone(setting, candidate))
        return Comparison(best, (*given_up, *ruled_out), ())
    reasons = conflict or tuple(reason for _, reason in ruled_out)
    return Comparison(None, (*given_up, *ruled_out), reasons)


def _left_undone(setting: ResolvedLawn, candidate: Candidate) -> int:
    """How much main work a candidate closes."""
    taken = candidate.dated.history
    closed = () if taken is None else taken.closed
    return sum(plays(setting.book, name, MAIN_WORK) for name in closed)


def _as_deep(lawn: ResolvedLawn, previous: Plan) -> bool:
    """Whether a lawn is filled in the way of the plan before."""
    return round(abs(lawn.levelling.depth_mm - previous.lawn.depth_mm), 3) == 0


def _distance(campaign: Campaign, previous: Plan) -> int:
    """How far the sowing, or the last session, of a campaign lies from the plan before, in days."""
    sown = [
        t.start for t in previous.tasks if t.plays("sowing", "planting") and t.status != "CANCELLED"
    ]
    last = [t.start for t in previous.tasks if t.plays("spreading") and t.status != "CANCELLED"]
    there = max(sown or last, default=None)
    here = (
        campaign.sow_window.best
        if campaign.sow_window
        else campaign.sessions[-1].window.best
        if campaign.sessions
        else None
    )
    count = abs(len(campaign.passes) - _passes_of(previous))
    return (abs((here - there).days) if here and there else 0) + 1000 * count


def _in_strips(previous: Plan) -> bool:
    """Whether the plan before does every pass of several days strip by strip.

    Mowing, cores or seed then share the days of the pass, beside the dragging.
    """
    long = [t for t in previous.tasks if t.plays("spreading") and t.start != t.end]
    jobs = [t for t in previous.tasks if t.series is None and not t.plays("spreading")]
    others = Counter((t.start, t.end) for t in jobs)
    # What is worked in has the days of its pass in any case.
    return bool(long) and all(others[t.start, t.end] > 1 for t in long)


def _passes_of(previous: Plan) -> int:
    return sum(t.plays("spreading") and t.status != "CANCELLED" for t in previous.tasks)
