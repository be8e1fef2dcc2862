"""Plans every campaign that is worth it and keeps the best, with a reason for each that it rejects."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from turfplan.climate.record import HALF_A_YEAR
from turfplan.constraints import Strength
from turfplan.network import Conflict
from turfplan.planner.dating import Dated, date_season
from turfplan.planner.explaining import conflict_sentences
from turfplan.planner.judging import sturdier
from turfplan.planner.quantities import loose_volumes
from turfplan.rules.campaign import Campaign, Session, campaigns, crowded
from turfplan.rules.draft import Draft, SeasonDraft
from turfplan.rules.feed import FeedingPlan
from turfplan.rules.passes import MixChoice, choose_mix
from turfplan.rules.season import Volumes, draft_season
from turfplan.rules.setting import Setting
from turfplan.wording import days_text

Feeder = Callable[[Setting, Campaign, MixChoice], FeedingPlan]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A campaign with its tasks on days, and its cost in the judgement of the trade."""

    campaign: Campaign
    mix: MixChoice
    feeding: FeedingPlan
    volumes: Volumes
    season: SeasonDraft
    dated: Dated
    cost: float


@dataclass(frozen=True, slots=True)
class Comparison:
    """The best candidate (None: nothing can be done as asked), the rejected as (name, reason), and the conflict met first."""

    best: Candidate | None
    rejected: tuple[tuple[str, str], ...]
    conflict: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Drafted:
    """A campaign with its drafted season, before any day is chosen."""

    campaign: Campaign
    mix: MixChoice
    feeding: FeedingPlan
    volumes: Volumes
    season: SeasonDraft


def draft_campaign(setting: Setting, campaign: Campaign, feeder: Feeder, *, permit: bool) -> Drafted:
    """Mix, volumes, feeding and every task of one campaign."""
    mix = choose_mix(setting)
    volumes = loose_volumes(setting, campaign, mix)
    feeding = feeder(setting, campaign, mix)
    season = draft_season(setting, campaign, mix, feeding, volumes, permit=permit)
    return Drafted(campaign, mix, feeding, volumes, season)


def compare(setting: Setting, feeder: Feeder, *, permit: bool) -> Comparison:
    """Dates every campaign; the cheapest that keeps all hard and strong rules is best."""
    possible, ruled_out = campaigns(setting)
    rejected = list(ruled_out)
    conflict: tuple[str, ...] = ()
    found: list[Candidate] = []
    for campaign in possible:
        if found and campaign.cost > min(c.cost for c in found):
            # Giving rules up only adds to a cost, so this one cannot win: it need not be dated.
            rejected.append((campaign.name, _second_best(setting, found[0].campaign, campaign)))
            continue
        tried = _tried(setting, campaign, feeder, permit=permit)
        if isinstance(tried, Candidate):
            found.append(tried)
        else:
            conflict = conflict or tried.conflict
            rejected.append((campaign.name, tried.reason))
    if not found:
        conflict = conflict or tuple(f"{name}: {reason}" for name, reason in rejected) or tuple(setting.closed)
        return Comparison(None, tuple(dict.fromkeys(rejected)), conflict)
    found.sort(key=lambda c: (c.cost, max(c.dated.schedule.days.values(), default=0)))
    best = found[0]
    season, dated = sturdier(setting, best.season, best.dated, lambda other: date_season(setting, other))
    best = replace(best, season=season, dated=dated)
    rejected += [(c.campaign.name, _runner_up(setting, best, c)) for c in found[1:]]
    seen: dict[str, str] = {}
    for name, reason in rejected:
        if name != best.campaign.name:
            seen.setdefault(name, reason)
    return Comparison(best, tuple(seen.items()))


@dataclass(frozen=True, slots=True)
class _Undatable:
    """Why a campaign cannot be dated: as a reason against it, and as the rules that cannot all hold."""

    reason: str
    conflict: tuple[str, ...]


def _tried(setting: Setting, campaign: Campaign, feeder: Feeder, *, permit: bool) -> Candidate | _Undatable:
    """A campaign on its days, or why it has none."""
    if short := crowded(setting, campaign):
        # More passes than days to spread them on: no network is needed to see it, and the sum says it best.
        reason = _too_many(setting, *short)
        return _Undatable(reason, (f"{campaign.name}: {reason}",))
    drafted = draft_campaign(setting, campaign, feeder, permit=permit)
    # Advice may give way; a campaign that cannot keep the hard and strong rules is no candidate.
    dated = date_season(setting, drafted.season, keep=Strength.STRONG)
    if isinstance(dated, Conflict):
        said = conflict_sentences(dated, plain_titles(setting, drafted.season))
        soft = any(c.strength < Strength.HARD for c in dated.constraints)
        return _Undatable(("It would break a rule of good practice. " if soft else "") + " ".join(said), said)
    return Candidate(
        campaign, drafted.mix, drafted.feeding, drafted.volumes, drafted.season, dated,
        campaign.cost + given_up(setting, dated),
    )  # fmt: skip


def _too_many(setting: Setting, session: Session, most: int) -> str:
    """Why a session cannot take its passes, in numbers."""
    days = days_text(session.window.start, session.window.end, setting.system, weekday=False)
    each = "The grass must grow through each" if setting.living else "Each must settle"
    return (
        f"From {days} the fill would need {len(session.passes)} passes, and there is time for {most or 'none'}. "
        f"{each} before the next."
    )


def given_up(setting: Setting, dated: Dated) -> float:
    """What the constraints that were given up cost."""
    names = {Strength.ADVICE: "campaign.cost_advice_rule", Strength.PREFERENCE: "campaign.cost_preference"}
    return sum(setting.book.si(names.get(c.strength, "campaign.cost_strong_rule")) for c in dated.dropped)


def plain_titles(setting: Setting, season: SeasonDraft) -> Mapping[str, str]:
    """The names of the tasks as reasons quote them: the operation, with its number where there are several."""
    number = Counter(draft.operation for draft in season.drafts)
    return {draft.id: plain_title(setting, draft, several=number[draft.operation] > 1) for draft in season.drafts}


def plain_title(setting: Setting, draft: Draft, *, several: bool) -> str:
    """The name of one task without its amounts; with its number where there are `several` of its operation."""
    name = draft.title.split(":")[0] if draft.title else setting.book.operations[draft.operation].name
    _, dot, mark = draft.id.partition(".")
    if not dot:
        return name
    if not mark.replace(".", "").isdigit():
        return f"{name} ({mark.replace('_', ' ')})"
    return f"{name} {draft.id.rsplit('.', 1)[1]}" if several else name


def _runner_up(setting: Setting, best: Candidate, other: Candidate) -> str:
    """Why a campaign that was dated was not chosen: the advice it gives up, else what speaks for the better one."""
    if other.dated.dropped:
        titles = plain_titles(setting, other.season)
        return "It would go against advice. " + " ".join(conflict_sentences(other.dated.dropped, titles))
    return _second_best(setting, best.campaign, other.campaign)


def _second_best(setting: Setting, best: Campaign, other: Campaign) -> str:
    """Why a campaign that does not break a rule at first sight was not chosen."""
    if other.id == best.id:
        return "Later, or in more sessions, than needed."
    ends = [(c.sow_window or c.sessions[-1].window).best for c in (best, other) if c.sow_window or c.sessions]
    if len(ends) == 2 and (ends[1] - ends[0]).days > HALF_A_YEAR:
        return "It would be done most of a year later, and nothing is won by waiting."
    return setting.book.campaigns[other.id].against
