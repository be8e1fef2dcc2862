"""Asks the feeding rules for one campaign, and turns what they answer into amounts."""

from datetime import date

from turfplan.amounts.feed import feed_amounts, lime_amount, mass_amount, rate_amount
from turfplan.plan import Amount, Ledger, Task
from turfplan.planner.comparing import Candidate, Feeder
from turfplan.rules.campaign import Campaign
from turfplan.rules.feed import SOWINGS, Demand, FeedingPlan, day_faults, feeding_plan, nitrogen_ledger
from turfplan.rules.mowing import mowing_notes
from turfplan.rules.passes import SEEDED, MixChoice
from turfplan.rules.plants_fed import with_plants_fed
from turfplan.rules.setting import Setting
from turfplan.wording import day_text


def feeder_for(setting: Setting) -> Feeder:
    """The feeding rules bound to a lawn."""
    return _feed


def _feed(setting: Setting, campaign: Campaign, mix: MixChoice) -> FeedingPlan:
    compost_mm = sum(p.depth_mm for p in campaign.passes) * mix.compost_share
    last = campaign.sow_window or (campaign.sessions[-1].window if campaign.sessions else None)
    # Of all windows in which something could be sown or planted, only the campaign's own counts.
    windows = [w for w in setting.windows if w.operation not in SOWINGS]
    if campaign.sow_window is not None:
        windows.append(campaign.sow_window)
    start = date.fromordinal(setting.first_day)
    feeding = feeding_plan(
        setting.brief, setting.book, setting.climate, setting.species.id,
        seeded=setting.sowing in SEEDED and setting.intent != "winter_overseed" and last is not None,
        compost_depth_mm=compost_mm, compost_in_mix=mix.compost_share > 0 and bool(campaign.sessions),
        campaign_windows=windows, year_start=start, year_end=setting.accounted_until,
        soil=setting.soil, system=setting.system,
    )  # fmt: skip
    return with_plants_fed(setting, campaign, feeding)


def amounts_of_feed(setting: Setting, feeding: FeedingPlan, key: str) -> tuple[Amount, ...]:
    """Nitrogen by rate and in all, and the product where the brief says its analysis."""
    feeds = [*feeding.feeds, *([feeding.starter] if feeding.starter else [])]
    feed = next((f for f in feeds if f.key == key), None)
    if feed is None:
        return ()
    product = setting.brief.feeding
    found = feed_amounts(
        feed.rate_g_m2, setting.area_m2, product.analysis, slow_release_percent=product.slow_release_percent,
        reason=feed.reason, facts=feed.facts,
    )  # fmt: skip
    return (*found, *_potash(setting, feeding, key, found))


def _potash(setting: Setting, feeding: FeedingPlan, key: str, found: tuple[Amount, ...]) -> tuple[Amount, ...]:
    """The part of the year's potash that goes on with a feeding, beyond what the bag brings."""
    wanted = feeding.potash_g_m2(key)
    brought = next((a.value for a in found if a.item == "potash"), 0.0)
    if feeding.potassium is None or wanted - brought < setting.book.si("feeding.potash_least"):
        return ()
    bag = f", beyond what {setting.brief.feeding.analysis} brings" if brought else ""
    why, facts = f"Half of the potash that the soil test asks for in a year{bag}.", feeding.potassium.facts
    return (
        rate_amount("potash to add", wanted - brought, why, facts),
        mass_amount("potash to add in all", wanted - brought, setting.area_m2, why, facts),
    )


def amounts_of_lime(setting: Setting, feeding: FeedingPlan) -> tuple[Amount, ...]:
    """The lime of one part, by rate and in all."""
    lime = feeding.lime
    if lime is None:
        return ()
    rate = lime.parts_g_m2[0]
    return (
        lime_amount(rate, setting.area_m2, lime.reason, lime.facts),
        rate_amount("lime rate", rate, lime.reason, lime.facts),
    )


def feeding_warnings(setting: Setting, candidate: Candidate, tasks: tuple[Task, ...]) -> tuple[str, ...]:
    """What must be said of feedings that were moved or given on days the rules would not choose."""
    chosen = {f"feed_nitrogen.{feed.key}": (feed.start, feed.end) for feed in candidate.feeding.feeds}
    found = []
    for task in tasks:
        start, end = chosen.get(task.id, (date.max, date.min))
        if task.plays("feeding", "starter") and not start <= task.start <= end:
            faults = day_faults(
                setting.brief, setting.book, setting.climate, setting.species.id, task.start, setting.system
            )
            day = day_text(task.start, setting.system)
            found += [f"“{task.title}” on {day}: {fault}." for fault in faults]
    return tuple(found)


def nitrogen_account(setting: Setting, candidate: Candidate, tasks: tuple[Task, ...]) -> Ledger:
    """The weekly account of nitrogen: feedings on their days, compost over its year, growth taking its share."""
    given: dict[date, float] = {}
    for task in tasks:
        for amount in task.amounts:
            if amount.item == "nitrogen" and amount.unit == "g/m2":
                given[task.start] = given.get(task.start, 0.0) + amount.value
    credit = candidate.feeding.credit
    passes = [t for t in tasks if t.plays("spreading")]
    whole = sum(a.value for t in passes for a in t.amounts if a.item == "depth") or 1.0
    compost = [
        (t.start, credit.g_m2 * a.value / whole)
        for t in passes
        for a in t.amounts
        if a.item == "depth" and credit is not None
    ]
    start = date.fromordinal(setting.first_day)
    return nitrogen_ledger(
        setting.climate, Demand(candidate.feeding.budget_g_m2, setting.species.season), start, setting.accounted_until, given, compost,
        (*candidate.feeding.notes, *mowing_notes(setting.book, setting.climate, setting.species.id, setting.system)),
    )  # fmt: skip
