"""Asks the feeding rules for one campaign, and turns what they answer into amounts."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from turfplan.book.words import grass_name
from turfplan.message import Day, Message, Quantity, sentences
from turfplan.phrases import amounts as amount_phrases
from turfplan.phrases import feeding as phrases
from turfplan.planning.candidates import Candidate, Feeder
from turfplan.records.brief import SoilTest
from turfplan.records.plan import Ledger
from turfplan.records.plan_task import Amount, Task
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import emergence, waits_for_spring
from turfplan.work.feeding.account import Demand, nitrogen_ledger
from turfplan.work.feeding.bag import may_be_used
from turfplan.work.feeding.cautions import day_faults
from turfplan.work.feeding.compost_layer import compost_feeds_seed, still_fresh
from turfplan.work.feeding.lime_need import test_of_the_buried, tested_soil_goes_under
from turfplan.work.feeding.plan import FeedingPlan, FeedingWork, feeding_plan
from turfplan.work.feeding.product_amounts import (
    feed_amounts,
    lime_amount,
    rate_amount,
)
from turfplan.work.feeding.slots import SOWINGS
from turfplan.work.feeding.soil_nutrients import amount_told, nutrient_amounts
from turfplan.work.feeding.stages import RYE_RATE, Quiet, WorkedDays, stages_of
from turfplan.work.ground_fill import MM_PER_M
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import MixChoice
from turfplan.work.mowing import mowing_notes
from turfplan.work.passes import SEEDED
from turfplan.work.phases.new_ground import tills
from turfplan.work.phases.sow import sown_share
from turfplan.work.places import grown_place, sown_now_place
from turfplan.work.rain_windows import unfed_days
from turfplan.work.season_stand import open_from

STARTER_KEY = "starter"  # of the feeding that goes with seed


def feeder_for(setting: ResolvedLawn) -> Feeder:
    """The feeding rules bound to a lawn."""
    return _feed


def _feed(
    setting: ResolvedLawn,
    campaign: Campaign,
    mix: MixChoice,
    *,
    starter: bool = True,
    worked: WorkedDays | None = None,
) -> FeedingPlan:
    """What a campaign is fed with; before its days are known, its starter alone."""
    last = campaign.sow_window or (campaign.sessions[-1].window if campaign.sessions else None)
    # Of all windows in which something could be sown or planted, only the campaign's own counts.
    windows = [
        w
        for w in setting.openings.windows
        if w.operation not in SOWINGS and (worked is not None or w.operation != "feed_nitrogen")
    ]
    waking = _waking(setting, campaign, worked.sown if worked is not None else None)
    if campaign.sow_window is not None:
        windows.append(_woken(campaign.sow_window, waking))
    compost = _compost(setting, campaign, mix, worked)
    seeds_on_compost = compost_feeds_seed(setting, campaign, mix)
    work = FeedingWork(
        windows,
        date.fromordinal(setting.begins or setting.first_day),
        setting.accounted_until,
        seeded=setting.sowing.operation in SEEDED
        and setting.sowing.intent != "winter_overseed"
        and last is not None,
        compost=compost,
        compost_in_mix=seeds_on_compost,
        starter=starter,
        starter_share=_starter_share(setting, campaign),
        days=setting.calendar.work,
        fresh_ground=tills(setting) and setting.sowing.operation is not None,
        known=setting.fed_before,
        today=setting.today,
    )
    if worked is not None:
        fresh = seeds_on_compost and still_fresh(setting, worked)
        stages = stages_of(setting, campaign, worked, compost_feeds=fresh)
        work = replace(
            work,
            sown=waking or worked.sown,
            passes=[day for day, _ in worked.passes],
            stages=replace(
                stages,
                quiet=(*stages.quiet, *unfed_days(setting), *_before_a_shop_opens(setting)),
            ),
        )
    brief = setting.brief
    if test_of_the_buried(setting):
        # What it found lies below the roots: nothing is given by it.
        brief = brief.model_copy(update={"soil_test": SoilTest()})
    return feeding_plan(brief, setting.book, setting.climate, setting.turf.species.id, work)


def _before_a_shop_opens(setting: ResolvedLawn) -> tuple[Quiet, ...]:
    """The first days of a plan, on which nothing can have been fetched; none where a bag is at
    hand."""
    opens = setting.calendar.shops.next(setting.first_day)
    if setting.brief.feeding.analysis is not None or opens is None or opens == setting.first_day:
        return ()
    first, last = date.fromordinal(setting.first_day), date.fromordinal(opens - 1)
    return (Quiet(first, last, phrases.quiet_unbought()),)


def _waking(setting: ResolvedLawn, campaign: Campaign, sown: date | None) -> date | None:
    """The day on which seed that waits for spring wakes, None for any other."""
    up, sow = emergence(setting, campaign), campaign.sow_window
    if up is None or sow is None or not waits_for_spring(campaign):
        return None
    return (sown or sow.best) + timedelta(up.wakes)


def _woken(sow: OpenDays, waking: date | None) -> OpenDays:
    """The days in which seed goes in; of seed that waits for spring those in which it wakes."""
    return sow if waking is None else replace(sow, start=waking, end=waking, best=waking)


def _compost(
    setting: ResolvedLawn, campaign: Campaign, mix: MixChoice, worked: WorkedDays | None
) -> list[tuple[date, float]]:
    """The days on which compost is spread, with its depth in mm as a mean over the lawn, of the
    volume that is told; roughly before they are known."""
    planned = [(s.window.best, p.settled_m3) for s in campaign.sessions for p in s.passes]
    if mix.compost_share <= 0 or not planned:
        return []
    of_lawn = mix.compost_share * MM_PER_M / setting.plot.area_m2
    if worked is not None:
        settles = 1 + setting.levelling.settle_share
        planned = [(day, loose_m3 / settles) for day, loose_m3 in worked.spread]
    return [(day, settled_m3 * of_lawn) for day, settled_m3 in planned]


def amounts_of_feed(
    setting: ResolvedLawn, feeding: FeedingPlan, key: str, area_m2: float
) -> tuple[Amount, ...]:
    """Nitrogen by rate and in all of the ground that is fed, m2, and the product where a bag at
    hand may be used."""
    feeds = [*feeding.feeds, *([feeding.starter] if feeding.starter else [])]
    feed = next((f for f in feeds if f.key == key), None)
    if feed is None:
        return ()
    bag = bag_used(setting, feeding)
    amounts = feed_amounts(
        feed.rate_g_m2,
        area_m2,
        bag,
        slow_release_percent=None if bag is None else setting.brief.feeding.slow_release_percent,
        reason=feed.reason,
        facts=feed.facts,
    )
    return (*amounts, *_of_soil_test(setting, feeding, key, area_m2, amounts))


def _starter_share(setting: ResolvedLawn, campaign: Campaign) -> float:
    """What is sown, and gets the starter, as a share of the ground on which grass then grows."""
    kept_wet = sown_share(setting, campaign)
    grown = grown_place(setting, kept_wet).share
    return min(1.0, sown_now_place(setting, kept_wet).share / grown) if grown else 1.0


def bag_used(setting: ResolvedLawn, feeding: FeedingPlan) -> str | None:
    """The analysis of the fertilizer at hand, where it may be spread here."""
    bag = setting.brief.feeding.analysis
    if bag is None or not may_be_used(bag, phosphorus_short=feeding.phosphorus_short):
        return None
    return bag


def taken_of_bag(setting: ResolvedLawn, tasks: tuple[Task, ...]) -> tuple[Message, ...]:
    """How much of the fertilizer at hand the open feedings take, so that no more is bought."""
    bag = setting.brief.feeding.analysis
    takes = [
        (task.start, amount.value)
        for task in tasks
        if task.closed is None
        for amount in task.amounts
        if amount.item == "product"
    ]
    if bag is None or not takes:
        return ()
    first, each = min(takes)
    of_first = Quantity(each, "mass", "up")
    in_all = Quantity(sum(mass for _, mass in takes), "mass", "up")
    return (phrases.bag_takes(bag=bag, n=len(takes), mass=in_all, day=Day(first), first=of_first),)


def _of_soil_test(
    setting: ResolvedLawn,
    feeding: FeedingPlan,
    key: str,
    area_m2: float,
    amounts: tuple[Amount, ...],
) -> tuple[Amount, ...]:
    """The potash and the phosphate of a soil test that go on with a feeding, beyond what the bag
    brings."""
    found: list[Amount] = []
    for nutrient, wanted, parts in (
        (feeding.potassium, feeding.potash_g_m2(key), feeding.potash),
        (feeding.phosphorus, feeding.phosphate_with_g_m2(key), feeding.phosphate),
    ):
        if nutrient is None:
            continue
        brought = next((a.value for a in amounts if a.item == nutrient.item), 0.0)
        if wanted - brought < setting.book.si("feeding.potash_least"):
            continue
        bag = setting.brief.feeding.analysis if brought else None
        why = amount_told(nutrient.item, len(parts), bag)
        if key == STARTER_KEY and setting.brief.feeding.analysis is None:
            why = sentences(why, amount_phrases.phosphate_in_starter())
        found += nutrient_amounts(nutrient, wanted - brought, area_m2, why)
    return tuple(found)


def amounts_worked_in(
    setting: ResolvedLawn, feeding: FeedingPlan, draft: Draft
) -> tuple[Amount, ...]:
    """The phosphate and potash of a soil test that are worked into ground before it is sown: with
    the tiller, or raked into the last lift where topsoil buries what is tilled."""
    if tested_soil_goes_under(setting) != (draft.operation == "grade"):
        return ()
    if not feeding.fresh_ground:
        return ()
    why = amount_phrases.worked_in()
    return tuple(
        amount
        for nutrient in (feeding.potassium, feeding.phosphorus)
        if nutrient is not None and nutrient.rate_g_m2 > 0
        for amount in nutrient_amounts(nutrient, nutrient.rate_g_m2, draft.area_m2, why)
    )


def amounts_of_lime(feeding: FeedingPlan, area_m2: float) -> tuple[Amount, ...]:
    """The lime of one part, by rate and in all of the ground that is limed, m2."""
    lime = feeding.lime
    if lime is None:
        return ()
    rate = lime.parts_g_m2[0]
    return (
        lime_amount(rate, area_m2, lime.reason, lime.facts),
        rate_amount("lime rate", rate, lime.reason, lime.facts),
    )


def feeding_warnings(
    setting: ResolvedLawn, candidate: Candidate, tasks: tuple[Task, ...]
) -> tuple[Message, ...]:
    """What must be said of feedings moved to, or given on, days the rules would not choose."""
    chosen = {
        f"feed_nitrogen.{feed.key}": (feed.start, feed.end) for feed in candidate.feeding.feeds
    }
    warnings: list[Message] = []
    for task in tasks:
        start, end = chosen.get(task.id, (date.max, date.min))
        if not task.plays("feeding", "starter") or start <= task.start <= end:
            continue
        faults = day_faults(
            setting.brief, setting.book, setting.climate, setting.turf.species.id, task.start
        )
        warnings += [
            phrases.against_day(task=task.title, day=Day(task.start), why=fault) for fault in faults
        ]
    return tuple(warnings)


def _without_grass(
    setting: ResolvedLawn, candidate: Candidate, tasks: Sequence[Task]
) -> tuple[date, date] | None:
    """The first day without any grass, and that on which what is sown or planted begins."""
    first = open_from(setting, candidate.campaign)
    if first is None:
        return None
    begun = (task.end for task in tasks if task.plays("sowing", "planting"))
    return first, min(begun, default=setting.accounted_until + timedelta(1))


def nitrogen_account(
    setting: ResolvedLawn, candidate: Candidate, tasks: tuple[Task, ...]
) -> Ledger:
    """The weekly account of nitrogen: feedings, compost over its year, growth taking its share."""
    given: dict[date, float] = {}
    apart_g_m2, patched = 0.0, False
    of_starter = _starter_share(setting, candidate.campaign)
    for task in tasks:
        for amount in task.amounts:
            if amount.item != "nitrogen" or amount.unit != "g/m2":
                continue
            if RYE_RATE in task.facts:
                apart_g_m2 += amount.value
            else:
                share = of_starter if task.plays("starter") else 1.0
                patched = patched or share < 1
                given[task.start] = given.get(task.start, 0.0) + share * amount.value
    own = grass_name(setting.book, setting.turf.species.id)
    apart = [phrases.rye_apart(rate=Quantity(apart_g_m2, "rate"), grass=own)] if apart_g_m2 else []
    credit = candidate.feeding.credit
    passes = [t for t in tasks if t.plays("spreading")]
    whole = sum(a.value for t in passes for a in t.amounts if a.item == "volume") or 1.0
    compost = [
        (t.start, credit.g_m2 * a.value / whole)
        for t in passes
        for a in t.amounts
        if a.item == "volume" and credit is not None
    ]
    start, season = date.fromordinal(setting.first_day), setting.turf.species.season
    grassless = _without_grass(setting, candidate, tasks)
    demand = Demand(candidate.feeding.budget_g_m2, season, grassless)
    return nitrogen_ledger(
        setting.climate,
        demand,
        start,
        setting.accounted_until,
        given,
        compost,
        (
            *candidate.feeding.notes,
            *apart,
            *([phrases.starter_of_patches()] if patched else []),
            *mowing_notes(setting.book, setting.climate, setting.turf.species.id),
        ),
    )
