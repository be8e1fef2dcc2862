"""Plans again: the campaign of the plan before as long as it can be kept, else another around what
has happened."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
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
from turfplan.planning.days_apart import goes_on_apart, sooner_apart
from turfplan.planning.divided_again import Reasons, datable, divided_as_before, strained
from turfplan.planning.feedings_before import feedings_before
from turfplan.planning.ordered_before import ordered_before
from turfplan.planning.passes_done import all_spread, days_outside, divides_as_done, going_on
from turfplan.planning.past_binds import NEW, plays
from turfplan.planning.repair import Repairing, first_open_day, refed
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.planning.wished_days import compare_wished
from turfplan.planning.worth import Worth, last_work, worth_of
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign
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
        replace(setting, ordered=ordered_before(history)),
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
    if goes_on_apart(setting, previous):
        setting = replace(setting, passes_apart=True)
    if any(task.id == AHEAD for task in previous.tasks):
        setting = replace(setting, dethatched_ahead=True)
    setting = replace(
        setting,
        begins=setting.first_day,
        fed_before=feedings_before(previous, history),
    )
    ways = ways_still_open(setting, previous, history, any_part=True)
    same = [way for way in ways if _as_deep(way, previous)] or ways
    known, ruled_out = all_campaigns(same)
    near = [way for way in known if way[1].id == previous.campaign]
    days = {**history.published, **history.overdue, **history.done}
    near.sort(key=lambda way: (_distance(way[1], previous), days_outside(way[1], days)))
    kept = [way for way in near if _distance(way[1], previous) < HALF_A_YEAR]
    # What is left of the time is laid out anew, around what is done.
    left = replace(
        setting,
        first_day=max(setting.first_day, first_open_day(setting).toordinal()),
        thatch_down=AHEAD in history.done,
    )
    # Its passes stay in the sessions that the plan before had them in.
    kept = [(lawn, divided_as_before(campaign, previous)) for lawn, campaign in kept]
    promised, conflict = _first_of(kept if history.promised else (), given)
    if promised is not None:
        promised = sooner_apart(promised, given)
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    if promised is not None and not _to_weigh(setting, promised, history):
        return Comparison(promised, rejected or ruled_out, ())
    # What was promised is not given up for a part of it; where it cannot be kept, or only against a
    # rule of good practice, as much is done as the seasons still hold.
    short = promised is None or strained(left, promised, history)
    possible, ruled_out_now = all_campaigns(
        ways_still_open(left, previous, history, any_part=short)
    )
    begun = known if promised is not None else all_campaigns(ways)[0]
    going = [way for way in going_on(left, begun, history) if promised is None or way not in kept]
    found = _weighed(left, [*going, *possible], promised, previous, given)
    if promised is not None:
        return _promise_or_better(promised, found, rejected or ruled_out, history)
    # A campaign that is no longer among those to choose from stands with the others ruled out.
    given_up = ((previous.campaign_name, sentences(*conflict)),) if conflict else ()
    against = (*given_up, *ruled_out_now)
    if found:
        taken = _best(found, history, lambda way: way.rank)
        return Comparison(taken.candidate, _with_promise_told(taken, found, against, history), ())
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


# Campaigns by name, each with what speaks against it.
RejectedWay = tuple[tuple[Message, Message], ...]


@dataclass(frozen=True, slots=True)
class _WayOn:
    """A way to go on with what speaks against it; what leaves all of the fill stands `last` where
    seed that lies in the ground waits for nothing, and where seed that was to wait for the fill
    would go in `sooner`."""

    candidate: Candidate
    worth: Worth
    last: bool = False
    sooner: bool = False

    @property
    def rank(self) -> tuple[bool, float]:
        """The less, the better."""
        return self.last or self.sooner, self.worth.total


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


def _to_weigh(setting: ResolvedLawn, promised: Candidate, history: TaskHistory) -> bool:
    """Whether a plan that can be kept is weighed against others: as long as a pass, seed or plants
    are still to come, and nothing is sown or planted, or may be without a word, since what is in
    the ground says how it goes on."""
    if history.done and last_work(promised, history) is None:
        return False
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
        bare = promised is None and history.promised and leaves_all(candidate.setting.levelling)
        sooner = bare and _sows_sooner(candidate.campaign, previous)
        return _WayOn(candidate, worth_of(left, candidate, history, promised), last, sooner)

    def turn(way: tuple[ResolvedLawn, Campaign]) -> tuple[bool, bool, float]:
        lawn, campaign = way
        otherwise = not divides_as_done(campaign, previous, history)
        return leaves_all(lawn.levelling), otherwise, campaign.cost

    found = [] if promised is None else [weighed(promised)]
    bent = promised is not None and strained(left, promised, history)
    shut: set[Reasons] = set()
    turns = sorted(((turn(way), way) for way in possible), key=itemgetter(0))
    as_done = [way for way in found if not way.sooner]
    for (bare, otherwise, cost), (lawn, campaign) in turns:
        last = in_ground and bare
        if (otherwise and as_done) or any((last, cost) >= way.rank for way in found):
            continue
        if otherwise and all_spread(campaign, history):
            # It would only tell of what is done as something else.
            continue
        # What bends a strong rule is also held against its own season, held open.
        open_longer = bent and campaign.late
        own = promised is None or open_longer or _is_another(lawn, campaign, promised)
        if not (own or bent):
            continue
        done = [way.candidate for way in found]
        if bare and not in_ground and dressed_then(done, campaign):
            continue
        for way in datable(left, (lawn, campaign), given, own, shut):
            found.append(weighed(way, last=last))
            as_done += [] if otherwise or found[-1].sooner else found[-1:]
    return found


def _sows_sooner(campaign: Campaign, previous: Plan) -> bool:
    """Whether the plan before sowed or planted in a later season than a campaign does: seed that
    was to wait for the fill is no reason to leave that out."""
    days = [t.start for t in previous.tasks if t.plays(*NEW) and t.status != "CANCELLED"]
    window = campaign.sow_window
    return window is not None and bool(days) and window.end < min(days)


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


def _promise_or_better(
    promised: Candidate,
    found: Sequence[_WayOn],
    rejected: RejectedWay,
    history: TaskHistory,
) -> Comparison:
    """What was promised, unless something else is better by more than what that breaks; where only
    the promise holds it, that is told with what it costs."""
    best = _best(found, history, lambda way: way.rank)
    kept = next(way for way in found if way.candidate is promised)
    # What is hardly better is not worth a word to anybody.
    margin = promised.setting.book.si("campaign.cost_told")
    if best.candidate is not promised and best.worth.total < kept.worth.total - margin:
        others = tuple(told for told in rejected if told[0] != best.candidate.campaign.name)
        return Comparison(best.candidate, _with_promise_told(best, found, others, history), ())
    return Comparison(promised, _with_promise_told(kept, found, rejected, history), ())


def _with_promise_told(
    taken: _WayOn, found: Sequence[_WayOn], rejected: RejectedWay, history: TaskHistory
) -> RejectedWay:
    """What was rejected, with what would come where nothing had been promised, if a promise alone
    keeps it off."""
    anew = _best(found, history, lambda way: (way.last, way.worth.without_promises))
    days = last_work(taken.candidate, history), last_work(anew.candidate, history)
    if anew is taken or None in days or days[0] == days[1]:
        return rejected
    promise, day = (Day(date.fromordinal(max(each))) for each in days if each is not None)
    lawns = anew.candidate.setting, taken.candidate.setting
    left, kept = (left_share(lawn.levelling) for lawn in lawns)
    told = (
        phrases.fill_kept(day=day, promised=promise)
        if left > kept
        else phrases.promise_kept(day=day, promised=promise, n=anew.worth.moved_days)
    )
    name = anew.candidate.campaign.name
    return ((name, told), *(known for known in rejected if known[0] != name))


def _best(
    found: Sequence[_WayOn],
    history: TaskHistory,
    rank: Callable[[_WayOn], tuple[bool, float]],
) -> _WayOn:
    """The best of some ways on; of those that are hardly worse than it the one that is over
    first."""
    last, cost = min(map(rank, found))
    margin = found[0].candidate.setting.book.si("campaign.cost_told")
    near = [way for way in found if rank(way) <= (last, cost + margin)]

    def over(way: _WayOn) -> tuple[int, float]:
        return max(last_work(way.candidate, history) or (0, 0)), rank(way)[1]

    return min(near, key=over)


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
    """How many passes the plan before has, with those that are left out of it since."""
    passes = (t for t in previous.tasks if t.plays("spreading"))
    return sum(t.status != "CANCELLED" or t.closed == "skipped" for t in passes)
