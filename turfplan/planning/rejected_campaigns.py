"""What speaks against campaigns that were not chosen: too few days for their passes, or a better
one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.book.words import grass_name, operation_name
from turfplan.calendar_days import DAYS, HALF_A_YEAR
from turfplan.message import Day, Days, Listed, Message, Number, sentences
from turfplan.phrases import campaign_choice as phrases
from turfplan.phrases import campaigns as of_campaigns
from turfplan.phrases import reasons
from turfplan.phrases import watering as dry_seed
from turfplan.records.book_names import CampaignName
from turfplan.work.campaign_reasons import against_campaign
from turfplan.work.campaigns import Campaign, RuledOut, Session, crowded
from turfplan.work.filling import left_share
from turfplan.work.horizon import season_for_the_rest
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.living import limits_at
from turfplan.work.watering.hose import hose_hours

SEASONS = 4  # in a year


@dataclass(frozen=True, slots=True)
class Compared:
    """A campaign that is compared, on the lawn with its way of filling."""

    lawn: ResolvedLawn
    campaign: Campaign


def against_dearer(best: Compared, other: Compared) -> Message:
    """Why a campaign that costs more was not dated: the sum where its days are too few, else what
    speaks for the better one."""
    short = crowded(other.lawn, other.campaign)
    return too_many_passes(other.lawn, *short) if short else second_best(best, other)


def too_many_passes(setting: ResolvedLawn, session: Session, most: int) -> Message:
    """Why a session cannot take its passes, in numbers."""
    days = Days(session.window.start, session.window.end, weekday=False)
    between = phrases.settled_between() if setting.on_open_ground else phrases.grown_between()
    passes = len(session.passes)
    if most == 0:
        return phrases.no_time_for_passes(days=days, passes=passes, between=between)
    return phrases.too_many_passes(days=days, passes=passes, most=most, between=between)


def rest_never_dressed(setting: ResolvedLawn, campaign: Campaign) -> Message | None:
    """Why a campaign may not leave a part of the fill for later: no season is left to dress it in;
    None where one is, or where the owner ends the plan before.
    """
    if not setting.levelling.left or setting.kept_end is None:
        return None
    first = date.fromordinal(setting.first_day)
    if season_for_the_rest(setting, campaign, first) is not None:
        return None
    return phrases.rest_never_dressed()


def hose_waits(setting: ResolvedLawn) -> Message:
    """Why seed waits that one hose does not keep moist."""
    return dry_seed.hose_waits(
        hours=Number(hose_hours(setting.brief.water, setting.book), "plain"),
        least=Number(setting.book.si("water.hose_least_share"), "percent"),
    )


def hose_bares(setting: ResolvedLawn, kept_wet: float) -> Message:
    """Why no stand is killed of which one hose keeps only a share wet: the rest would lie bare."""
    return dry_seed.hose_bares(
        hours=Number(hose_hours(setting.brief.water, setting.book), "plain"),
        share=Number(kept_wet, "percent"),
    )


def second_best(best: Compared, other: Compared) -> Message:
    """Why a campaign that does not break a rule at first sight was not chosen."""
    left, more = left_share(best.lawn.levelling), left_share(other.lawn.levelling)
    if more > left:
        return phrases.leaves_more(share=Number(more, "percent"))
    if left and not more and other.campaign.id != best.campaign.id:
        return phrases.whole_later(campaign=other.campaign.id)
    if other.campaign.id == best.campaign.id:
        return phrases.more_than_needed()
    ends = [
        (c.sow_window or c.sessions[-1].window).best
        for c in (best.campaign, other.campaign)
        if c.sow_window or c.sessions
    ]
    if len(ends) == 2 and (ends[1] - ends[0]).days > HALF_A_YEAR:
        return phrases.year_later()
    sown = other.campaign.sow_window is not None
    return against_campaign(other.lawn, other.campaign.id, sown=sown)


def not_sooner(
    setting: ResolvedLawn, best: Campaign, rejected: Iterable[tuple[Message, Message]]
) -> tuple[Message, ...]:
    """Why the same season of an earlier year is not taken; none where there is no earlier one.

    Of several the last is told. One that is over is named where it ended only just, or where the
    next lies further away than a right season may.
    """
    chosen = best.name
    taken = dict(chosen.values)
    earlier = [
        (str(values["year"]), name, reason)
        for name, reason in rejected
        for values in (dict(name.values),)
        if name.key == chosen.key == of_campaigns.in_year(name=chosen, year="").key
        and values["name"] == taken["name"]
        and str(values["year"]) < str(taken["year"])
    ]
    if not earlier:
        return ()
    _, name, reason = max(earlier, key=lambda one: one[0])
    missed = dict(reason.values).get("day")
    if not isinstance(missed, Day) or reason != of_campaigns.missed(day=missed):
        return (phrases.not_sooner(campaign=name, reason=reason),)
    just = setting.first_day - missed.day.toordinal() <= DAYS // SEASONS
    if just or _begins(best) - setting.first_day > setting.book.si("campaign.waiting_grace"):
        return (phrases.missed_sooner(campaign=name, day=missed),)
    return ()


def _begins(campaign: Campaign) -> int:
    """The first day (an ordinal) on which the work of a campaign may begin."""
    windows = [session.window for session in campaign.sessions]
    windows += [campaign.sow_window] if campaign.sow_window else []
    return min((window.start.toordinal() for window in windows), default=0)


def in_order(
    asked: ResolvedLawn,
    ruled_out: Sequence[RuledOut],
    others: Sequence[tuple[ResolvedLawn, RuledOut]],
    *,
    lifts: bool = False,
) -> tuple[RuledOut, ...]:
    """What speaks against campaigns of the fill as asked comes before what does against other ways;
    in the stead of both, where the plan `lifts` its hollows, stands what holds with them lifted and
    nothing left out: passes of lifted hollows speak against nothing."""
    ways = [(lawn.levelling, told) for lawn, told in others if lifts]
    lifted = [told for way, told in ways if way.lift_share and not way.left]
    own = [told for lawn, told in others if lawn.levelling is asked.levelling]
    rest = [told for lawn, told in others if lawn.levelling is not asked.levelling]
    named = {name for name, _ in lifted}
    at_once = [told for told in ruled_out if told[0] not in named]
    return tuple(dict.fromkeys((*at_once, *lifted, *own, *rest)))


def of_the_whole_fill(best: Compared, others: Iterable[Compared]) -> tuple[CampaignName, ...]:
    """Other campaigns than the best one that leave nothing of the fill, each once."""
    whole = (
        other.campaign.id
        for other in others
        if not other.lawn.levelling.left and other.campaign.id != best.campaign.id
    )
    return tuple(dict.fromkeys(whole))


def no_season_for_passes(setting: ResolvedLawn) -> tuple[Message, ...]:
    """Why the lawn's grass never grows through a pass here; empty where it does, or need not."""
    closed = setting.never_opens("topdress")
    if not closed or not setting.levelling.bands or setting.on_open_ground:
        return ()
    grass = setting.turf.species.id
    through = of_campaigns.never_through(grass=grass_name(setting.book, grass))
    watered = setting.brief.water.possible is not False
    limits = limits_at(setting.book, setting.climate, grass, watered=watered)
    dies = [limit.why for limit in limits if limit.beyond]
    # Two windows that never open for one reason are told once.
    reason = sentences(*dies[:1], through, *dict.fromkeys(closed))
    tasks = Listed((operation_name(setting.book, "topdress"),))
    return (reasons.conflict(tasks=tasks, reason=reason),)
