"""Plans again: the campaign of the plan before as long as it can be kept, else another around what
has happened."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from operator import itemgetter

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Day, Message, sentences
from turfplan.phrases import reasons as phrases
from turfplan.planning.candidates import (
    MAIN_WORK,
    Candidate,
    Comparison,
    Feeder,
    all_campaigns,
    dressed_then,
)
from turfplan.planning.past_binds import NEW, plays
from turfplan.planning.repair import Repairing, first_open_day, refed
from turfplan.planning.ways_still_open import HAIR_MM, ways_still_open
from turfplan.planning.wished_days import compare_wished
from turfplan.planning.worth import Worth, last_work, worth_of
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign, cost_from_now
from turfplan.work.drafts import OpenDays
from turfplan.work.filling import leaves_all, left_share
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
    """The best way to go on: the campaign of the plan before, repaired, or one laid out anew around
    what is done and is better by more than what it breaks of what was promised. Only
    where none of them can be done is work closed that no day is left for.

    A day off that somebody wished for is a day of work only as long as the wish holds.
    """
    return compare_wished(
        setting,
        history,
        previous,
        lambda lawn, past: _compared_again(
            lawn,
            previous,
            verdict,
            Repairing(feeder, verdict.needs_permit, past, weather),
        ),
    )


def _compared_again(
    setting: ResolvedLawn,
    previous: Plan,
    verdict: Verdict,
    given: Repairing,
) -> Comparison:
    """The campaigns compared around what has happened."""
    if setting.sowing.needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    history = given.history
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
    # What is left of the time is laid out anew, around what is done.
    left = replace(
        setting,
        first_day=max(setting.first_day, first_open_day(setting).toordinal()),
        thatch_down=AHEAD in history.done,
    )
    promised, conflict = _first_of(kept if history.promised else (), given)
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    if promised is not None and not _to_weigh(setting, history):
        return Comparison(promised, rejected or ruled_out, ())
    possible, ruled_out_now = all_campaigns(ways_still_open(left, previous, history))
    going = [way for way in _going_on(left, known, history) if promised is None or way not in kept]
    found = _weighed(left, [*going, *possible], promised, previous, given)
    if promised is not None:
        return _promise_or_better(promised, found, rejected or ruled_out, history)
    # A campaign that is no longer among those to choose from stands with the others ruled out.
    given_up = ((previous.campaign_name, sentences(*conflict)),) if conflict else ()
    against = (*given_up, *ruled_out_now)
    if found:
        return Comparison(min(found, key=lambda way: way.rank).candidate, against, ())
    closing = replace(given, closing=True)
    closed = [
        result
        for lawn, campaign in (*(kept or near[:1] or known[:1]), *possible[:1])
        for result in (refed(within(lawn, campaign), campaign, closing),)
        if not isinstance(result, tuple)
    ]
    if closed:
        best = min(closed, key=lambda candidate: _left_undone(setting, candidate))
        return Comparison(best, against, ())
    reasons = conflict or tuple(reason for _, reason in ruled_out_now)
    return Comparison(None, against, reasons)


@dataclass(frozen=True, slots=True)
class _WayOn:
    """A way to go on with what speaks against it; what leaves all of the fill stands `last` where
    seed that lies in the ground waits for nothing."""

    candidate: Candidate
    worth: Worth
    last: bool = False

    @property
    def rank(self) -> tuple[bool, float]:
        """The less, the better."""
        return self.last, self.worth.total


def _first_of(
    ways: Sequence[tuple[ResolvedLawn, Campaign]], given: Repairing
) -> tuple[Candidate | None, tuple[Message, ...]]:
    """The first of some ways that can be repaired, with the conflict that was met first."""
    conflict: tuple[Message, ...] = ()
    for lawn, campaign in ways:
        result = refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            return result, conflict
        conflict = conflict or result
    return None, conflict


def _to_weigh(setting: ResolvedLawn, history: TaskHistory) -> bool:
    """Whether a plan that can be kept is weighed against others: as long as nothing is sown or
    planted, or may be without a word, since what is in the ground says how it goes on."""
    begun = history.done.keys() | history.part_done.keys() | history.overdue.keys()
    return not any(plays(setting.book, name, NEW) for name in begun)


def _weighed(
    left: ResolvedLawn,
    possible: Sequence[tuple[ResolvedLawn, Campaign]],
    promised: Candidate | None,
    previous: Plan,
    given: Repairing,
) -> list[_WayOn]:
    """The ways to go on from today that could be better than what was promised, or than each other,
    and what was promised, each with what speaks against it.

    A way costs no less than its campaign: what costs more than a way that was found is not dated.
    What was asked for is not left out where a way that does it sows in the same season, and passes
    are not divided otherwise than those that are done as long as there is another way.
    """
    history = given.history
    in_ground = any(plays(left.book, name, NEW) for name in history.done)

    def weighed(candidate: Candidate, *, last: bool = False) -> _WayOn:
        return _WayOn(candidate, worth_of(left, candidate, history, promised), last)

    def turn(way: tuple[ResolvedLawn, Campaign]) -> tuple[bool, bool, float]:
        lawn, campaign = way
        last = in_ground and leaves_all(lawn.levelling)
        return not _divides_as_done(campaign, previous, history), last, campaign.cost

    found = [] if promised is None else [weighed(promised)]
    turns = sorted(((turn(way), way) for way in possible), key=itemgetter(0))
    for (otherwise, last, cost), (lawn, campaign) in turns:
        if any(otherwise or (last, cost) >= way.rank for way in found):
            continue
        if promised is not None and not _is_another(lawn, campaign, promised):
            continue
        done = [way.candidate for way in found]
        if leaves_all(lawn.levelling) and not in_ground and dressed_then(done, campaign):
            continue
        result = refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            found.append(weighed(result, last=last))
    return found


def _is_another(lawn: ResolvedLawn, campaign: Campaign, promised: Candidate) -> bool:
    """Whether a campaign ends in other windows than the promised one, or fills in another way."""
    ends = [
        {(w.operation, w.season, w.end.year) for w in each if w is not None}
        for each in (_last_windows(campaign), _last_windows(promised.campaign))
    ]
    return ends[0] != ends[1] or lawn.levelling != promised.setting.levelling


def _last_windows(campaign: Campaign) -> tuple[OpenDays | None, OpenDays | None]:
    last = campaign.sessions[-1].window if campaign.sessions else None
    return last, campaign.sow_window


def _going_on(
    left: ResolvedLawn, known: Sequence[tuple[ResolvedLawn, Campaign]], history: TaskHistory
) -> list[tuple[ResolvedLawn, Campaign]]:
    """The campaigns that were begun in seasons that are over, and go on in one to come: each pass
    of a session that is over is done. They cost what is still to come of them."""
    found = []
    for lawn, campaign in known:
        over = [s for s in campaign.sessions if s.window.end.toordinal() < left.first_day]
        names = {f"topdress.{layer.number}" for session in over for layer in session.passes}
        if over and names <= history.done.keys():
            cost = cost_from_now(replace(lawn, first_day=left.first_day), campaign)
            found.append((lawn, replace(campaign, cost=cost)))
    return sorted(found, key=lambda way: way[1].cost)


def _divides_as_done(campaign: Campaign, previous: Plan, history: TaskHistory) -> bool:
    """Whether the passes that are done or begun are as deep in a campaign as they were planned; one
    without passes leaves them as they are."""
    if not campaign.passes:
        return True
    depths = {f"topdress.{layer.number}": layer.depth_mm for layer in campaign.passes}
    begun = history.done.keys() | history.part_done.keys()
    return all(
        abs(amount.value - depths.get(task.id, 0.0)) < HAIR_MM
        for task in previous.tasks
        if task.id in begun and task.operation == "topdress"
        for amount in task.amounts
        if amount.item == "depth"
    )


def _promise_or_better(
    promised: Candidate,
    found: Sequence[_WayOn],
    rejected: tuple[tuple[Message, Message], ...],
    history: TaskHistory,
) -> Comparison:
    """What was promised, unless something else is better by more than what that breaks; where only
    the promise holds it, that is told with what it costs."""
    best = min(found, key=lambda way: way.rank)
    kept = next(way for way in found if way.candidate is promised)
    # What is hardly better is not worth a word to anybody.
    margin = promised.setting.book.si("campaign.cost_told")
    if best.candidate is not promised and best.worth.total < kept.worth.total - margin:
        others = tuple(told for told in rejected if told[0] != best.candidate.campaign.name)
        return Comparison(best.candidate, others, ())
    anew = min(found, key=lambda way: way.worth.without_promises)
    days = last_work(promised, history), last_work(anew.candidate, history)
    if anew is kept or None in days or days[0] == days[1]:
        return Comparison(promised, rejected, ())
    promise, day = (Day(date.fromordinal(max(each))) for each in days if each is not None)
    fill = left_share(anew.candidate.setting.levelling) > left_share(promised.setting.levelling)
    told = (
        phrases.fill_kept(day=day, promised=promise)
        if fill
        else phrases.promise_kept(day=day, promised=promise, n=anew.worth.moved_days)
    )
    name = anew.candidate.campaign.name
    others = tuple(known for known in rejected if known[0] != name)
    return Comparison(promised, ((name, told), *others), ())


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
