"""Plans every campaign that is worth it and keeps the best, with a reason for each other."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from heapq import heappop, heappush
from itertools import count
from typing import Protocol, TypeVar

from turfplan.message import Listed, Message, sentences
from turfplan.network import Conflict
from turfplan.phrases import reasons
from turfplan.planning.amounts import loose_volumes
from turfplan.planning.falling import dated_without, without_spare_renewals
from turfplan.planning.reasons import conflict_reasons
from turfplan.planning.rejected_campaigns import (
    Compared,
    against_dearer,
    hose_bares,
    hose_waits,
    in_order,
    no_season_for_passes,
    of_the_whole_fill,
    rest_never_dressed,
    second_best,
    too_many_passes,
)
from turfplan.planning.reliability import sturdier
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.task_names import plain_titles
from turfplan.records.book_names import CampaignName, FactName
from turfplan.records.constraints import Constraint, Strength
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import Campaign, RuledOut, campaigns, crowded
from turfplan.work.drafts import SeasonDraft
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.stages import WorkedDays
from turfplan.work.filling import cost_of_way, leaves_all, lift_refused, ways_of_filling
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import MixChoice, choose_mix
from turfplan.work.phases.sow import sown_share
from turfplan.work.season import FillVolumes, draft_season
from turfplan.work.thatch import dethatches


class Feeder(Protocol):
    """The feeding rules bound to a lawn: what a campaign is fed, with a starter for its seed or
    without."""

    def __call__(
        self,
        setting: ResolvedLawn,
        campaign: Campaign,
        mix: MixChoice,
        *,
        starter: bool = True,
        worked: WorkedDays | None = None,
    ) -> FeedingPlan:
        """The feeding of one campaign: its starter, and all of it once its work has days."""
        ...


# What an attempt gives where a campaign cannot be dated.
Refused = TypeVar("Refused")
MAIN_WORK: tuple[Role, ...] = ("spreading", "sowing", "planting")


@dataclass(frozen=True, slots=True)
class Candidate:
    """A campaign with its tasks on days, and its cost in the judgement of the trade.

    `setting` is the lawn with the way of filling that the campaign takes, `drafted` the season
    before history bound it and tasks fell.
    """

    setting: ResolvedLawn
    campaign: Campaign
    mix: MixChoice
    feeding: FeedingPlan
    volumes: FillVolumes
    drafted: SeasonDraft
    season: SeasonDraft
    dated: Dated
    cost: float


@dataclass(frozen=True, slots=True)
class Comparison:
    """The best candidate (None: nothing can be done), the rejected as (name, reason), the conflict
    met first, and as `whole` other campaigns that would leave nothing of the fill."""

    best: Candidate | None
    rejected: tuple[tuple[Message, Message], ...]
    conflict: tuple[Message, ...] = ()
    whole: tuple[CampaignName, ...] = ()


@dataclass(frozen=True, slots=True)
class Drafted:
    """A campaign with its drafted season, before any day is chosen."""

    campaign: Campaign
    mix: MixChoice
    feeding: FeedingPlan
    volumes: FillVolumes
    season: SeasonDraft


def draft_campaign(
    setting: ResolvedLawn,
    campaign: Campaign,
    feeder: Feeder,
    *,
    permit: bool,
    starter: bool = True,
) -> Drafted:
    """Mix, volumes, feeding and every task of one campaign.

    Without `starter` its seed gets none.
    """
    mix = choose_mix(setting)
    volumes = loose_volumes(setting, campaign, mix)
    feeding = feeder(setting, campaign, mix, starter=starter)
    season = draft_season(setting, campaign, mix, feeding, volumes, permit=permit)
    return Drafted(campaign, mix, feeding, volumes, season)


def lawfully_fed(
    setting: ResolvedLawn,
    campaign: Campaign,
    feeder: Feeder,
    tried: Callable[[Drafted], Candidate | Refused],
    *,
    permit: bool,
) -> Candidate | Refused:
    """What is tried of a campaign: without its starter where no day near the seed is left for it.

    The main work keeps its days: a starter that could be given only if the seed were moved, or
    weeks after it, is left out; so is one for which the campaign could not be dated at all.
    """
    drafted = draft_campaign(setting, campaign, feeder, permit=permit)
    fed = tried(drafted)
    if drafted.feeding.starter is None:
        return fed
    if drafted.feeding.starter_days is None and isinstance(fed, Candidate):
        return fed
    unfed = tried(draft_campaign(setting, campaign, feeder, permit=permit, starter=False))
    if not isinstance(unfed, Candidate):
        return fed
    if not isinstance(fed, Candidate) or _main_days(setting, fed) != _main_days(setting, unfed):
        return unfed
    late = any(lag.reason.rule == "starter_with_seed" for lag in fed.dated.dropped)
    return unfed if late else fed


def _main_days(setting: ResolvedLawn, candidate: Candidate) -> dict[str, tuple[int, int]]:
    """First and last day of spreading, sowing and planting, by task."""
    return {
        draft.id: (candidate.dated.day(draft.start_node), candidate.dated.day(draft.end_node))
        for draft in candidate.season.drafts
        if setting.book.operations[draft.operation].plays(*MAIN_WORK)
    }


def compare(setting: ResolvedLawn, feeder: Feeder, *, permit: bool) -> Comparison:
    """Dates every campaign; the cheapest that keeps all hard and strong rules is best."""
    found: list[Candidate] = []
    ruled_out: list[RuledOut] = []
    undatable: list[tuple[ResolvedLawn, RuledOut]] = []
    dearer: list[tuple[ResolvedLawn, Campaign]] = []
    conflict: tuple[Message, ...] = ()
    for lawn, campaign in _cheapest_first(setting, found, ruled_out):
        if leaves_all(lawn.levelling) and dressed_then(found, campaign):
            continue
        if found and campaign.cost > min(c.cost for c in found):
            # Giving rules up only adds to a cost: this one cannot win, and is not dated.
            dearer.append((lawn, campaign))
            continue
        if undone := rest_never_dressed(lawn, campaign):
            undatable.append((lawn, (campaign.name, undone)))
            continue
        tried = _tried(within(lawn, campaign), campaign, feeder, permit=permit)
        if isinstance(tried, Candidate):
            found.append(tried)
        else:
            conflict = conflict or tried.conflict
            undatable.append((lawn, (campaign.name, tried.reason)))
    if not found:
        unlifted = lift_refused(setting)
        first = () if unlifted is None else (unlifted,)
        if never := no_season_for_passes(setting):
            return Comparison(None, (), (*first, *never))
        against = in_order(setting, ruled_out, undatable)
        conflict = (
            conflict
            or tuple(
                reasons.conflict(tasks=Listed((name,)), reason=reason) for name, reason in against
            )
            or setting.openings.closed
        )
        return Comparison(None, tuple(dict.fromkeys(against)), (*first, *conflict))
    found.sort(key=lambda c: (c.cost, max(c.dated.schedule.days.values(), default=0)))
    best = found[0]
    season, dated = sturdier(
        best.setting, best.season, best.dated, lambda other: date_season(best.setting, other)
    )
    best = replace(best, season=season, dated=dated)
    chosen = Compared(best.setting, best.campaign)
    others = [
        *undatable,
        *((lawn, (c.name, against_dearer(chosen, Compared(lawn, c)))) for lawn, c in dearer),
        *((c.setting, (c.campaign.name, _runner_up(chosen, c))) for c in found[1:]),
    ]
    seen: dict[Message, Message] = {}
    lifts = bool(best.setting.levelling.lift_share)
    for name, reason in in_order(setting, ruled_out, others, lifts=lifts):
        if name != best.campaign.name:
            seen.setdefault(name, reason)
    compared = (Compared(*way) for way in (*((c.setting, c.campaign) for c in found), *dearer))
    whole = of_the_whole_fill(chosen, compared)
    return Comparison(best, tuple(seen.items()), whole=whole)


def _cheapest_first(
    setting: ResolvedLawn, found: Sequence[Candidate], rejected: list[RuledOut]
) -> Iterator[tuple[ResolvedLawn, Campaign]]:
    """The campaigns of all ways of filling as they could win, those that leave all of it out last;
    what the first way rules out at once is put to `rejected`.

    A way costs no less than what is left out or lifted: its campaigns are made only once none of
    the others is cheaper, and never where one that was `found` is.
    """
    numbers = count()
    waiting = deque(sorted(ways_of_filling(setting), key=_rank_of_way))
    ready: list[tuple[tuple[bool, float], int, ResolvedLawn, Campaign]] = []
    while waiting or ready:
        while waiting and (not ready or _rank_of_way(waiting[0]) <= ready[0][0]):
            lawn = waiting.popleft()
            if found and cost_of_way(lawn) >= min(c.cost for c in found):
                continue
            possible, ruled_out = campaigns(lawn)
            rejected += ruled_out if lawn is setting else ()
            for campaign in possible:
                rank = leaves_all(lawn.levelling), campaign.cost
                heappush(ready, (rank, next(numbers), lawn, campaign))
        if ready:
            *_, lawn, campaign = heappop(ready)
            yield lawn, campaign


def _rank_of_way(lawn: ResolvedLawn) -> tuple[bool, float]:
    return leaves_all(lawn.levelling), cost_of_way(lawn)


def dressed_then(found: Iterable[Candidate], bare: Campaign) -> bool:
    """Whether a campaign that leaves all of the fill out sows in a season in which one that does
    the fill, or a part of it, can be dated: what was asked for is then not left undone.
    """
    then = bare.sow_window
    return then is not None and any(
        sow is not None
        and (sow.operation, sow.season, sow.end.year)
        == (then.operation, then.season, then.end.year)
        for sow in (c.campaign.sow_window for c in found)
    )


def all_campaigns(
    ways: Iterable[ResolvedLawn],
) -> tuple[list[tuple[ResolvedLawn, Campaign]], tuple[RuledOut, ...]]:
    """The campaigns of some ways of filling, best first by cost, and those ruled out at once.

    What the first way rules out is told where no other makes it possible.
    """
    possible: list[tuple[ResolvedLawn, Campaign]] = []
    ruled_out: tuple[RuledOut, ...] = ()
    for number, lawn in enumerate(ways):
        found, against = campaigns(lawn)
        possible += [(lawn, campaign) for campaign in found]
        ruled_out = against if number == 0 else ruled_out
    names = {campaign.name for _, campaign in possible}
    ranked = sorted(possible, key=lambda way: way[1].cost)
    return ranked, tuple((name, why) for name, why in ruled_out if name not in names)


@dataclass(frozen=True, slots=True)
class _Undatable:
    """Why a campaign cannot be dated: as a reason against it, and as the rules that cannot all
    hold.

    `long_pass` where a pass takes more than a day and was not to be done in strips.
    """

    reason: Message
    conflict: tuple[Message, ...]
    long_pass: bool = False


def _tried(
    setting: ResolvedLawn, campaign: Campaign, feeder: Feeder, *, permit: bool
) -> Candidate | _Undatable:
    """A campaign on its days, or why it has none."""
    kept_wet = sown_share(setting, campaign)
    if not kept_wet:
        return _told(campaign, hose_waits(setting))
    if setting.worked == "killed" and kept_wet < setting.sowing.share - 1e-9:
        return _told(campaign, hose_bares(setting, kept_wet))
    if short := crowded(setting, campaign):
        # More passes than days to spread them on: no network is needed to see it, and the sum says
        # it best.
        reason = too_many_passes(setting, *short)
        return _told(campaign, reason)
    whole = _in_one_go_or_strips(setting, campaign, feeder, permit=permit)
    if isinstance(whole, Candidate) or not dethatches(setting):
        return whole
    # Thatch that has no room beside the fill may be taken down in a season before.
    ahead = replace(setting, dethatched_ahead=True)
    apart = _in_one_go_or_strips(ahead, campaign, feeder, permit=permit)
    return apart if isinstance(apart, Candidate) else whole


def _told(campaign: Campaign, reason: Message) -> _Undatable:
    """A campaign that cannot be dated for one reason."""
    return _Undatable(reason, (reasons.conflict(tasks=Listed((campaign.name,)), reason=reason),))


def _in_one_go_or_strips(
    setting: ResolvedLawn, campaign: Campaign, feeder: Feeder, *, permit: bool
) -> Candidate | _Undatable:
    """A campaign on its days; what cannot be done in one go may be done strip by strip."""
    whole = _tried_so(setting, campaign, feeder, permit=permit)
    if isinstance(whole, Candidate) or not whole.long_pass:
        return whole
    strips = _tried_so(replace(setting, strip_days=2), campaign, feeder, permit=permit)
    return strips if isinstance(strips, Candidate) else whole


def _tried_so(
    setting: ResolvedLawn, campaign: Campaign, feeder: Feeder, *, permit: bool
) -> Candidate | _Undatable:
    return lawfully_fed(
        setting, campaign, feeder, lambda drafted: _dated(setting, drafted), permit=permit
    )


def _dated(setting: ResolvedLawn, drafted: Drafted) -> Candidate | _Undatable:
    """A drafted campaign on its days, or why it has none."""
    # Advice may give way; a campaign that cannot keep the hard and strong rules is no candidate.
    date = partial(date_season, setting, keep=Strength.STRONG)
    dated = without_spare_renewals(
        setting, drafted.season, lambda season: dated_without(setting, season, date)
    )
    if isinstance(dated, Conflict):
        conflict = conflict_reasons(dated, plain_titles(setting, drafted.season))
        soft = any(c.strength < Strength.HARD for c in dated.constraints)
        against = sentences(reasons.breaks_practice() if soft else None, *conflict)
        long_pass = any(
            "spreading" in setting.book.operations[d.operation].roles
            and d.duration_days > 1
            and not d.strips
            for d in drafted.season.drafts
        )
        return _Undatable(against, conflict, long_pass)
    return Candidate(
        setting,
        drafted.campaign,
        drafted.mix,
        drafted.feeding,
        drafted.volumes,
        drafted.season,
        dated.season,
        dated,
        drafted.campaign.cost + given_up(setting, dated.dropped),
    )


def given_up(setting: ResolvedLawn, dropped: Iterable[Constraint]) -> float:
    """What the constraints that were given up cost."""
    names: dict[Strength, FactName] = {
        Strength.ADVICE: "campaign.cost_advice_rule",
        Strength.PREFERENCE: "campaign.cost_preference",
    }
    return sum(setting.book.si(names.get(c.strength, "campaign.cost_strong_rule")) for c in dropped)


def _runner_up(best: Compared, other: Candidate) -> Message:
    """Why a campaign that was dated was not chosen: the advice it gives up, else what speaks for
    the better one."""
    if other.dated.dropped:
        titles = plain_titles(other.setting, other.season)
        return sentences(reasons.against_advice(), *conflict_reasons(other.dated.dropped, titles))
    return second_best(best, Compared(other.setting, other.campaign))
