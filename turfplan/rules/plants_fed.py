"""The feeding of plugs, sprigs and sod once they hold: dated where its days are free, else told alone."""

from dataclasses import replace
from datetime import date, timedelta

from turfplan.rules.blackouts import blackouts_of, free_days
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import OpenDays
from turfplan.rules.feed import Feed, FeedingPlan
from turfplan.rules.level import wished_spacing
from turfplan.rules.setting import Setting

PLANTED = "planted"


def with_plants_fed(setting: Setting, campaign: Campaign, feeding: FeedingPlan) -> FeedingPlan:
    """The feeding with one for the plants in place of those around it.

    Only warm-season grass is fed so, while it grows, and only where no day on which it could fall is closed to nitrogen: where
    one may be, the plan tells of it and the owner decides.
    """
    sow = campaign.sow_window
    if setting.sowing != "plant" or setting.cool or sow is None:
        return feeding
    first, last = _days(setting, sow)
    blackouts, _ = blackouts_of(setting.brief, setting.book, setting.system)
    day = _planted(setting, campaign, sow) + timedelta(setting.days("order.plant_rooting"))
    if not day <= last <= setting.accounted_until or free_days(first, last, blackouts) != [(first, last)]:
        return feeding
    caps = [b.cap_g_m2 for b in blackouts if b.cap_g_m2]
    rate = min([setting.book.si("feeding.plants_rate"), *caps])
    gap = timedelta(setting.days("feeding.least_gap"))
    others = [feed for feed in feeding.feeds if not day - gap < feed.best < day + gap]
    plants = Feed(
        PLANTED, sow.season, rate, first, last, day,
        f"{setting.rate(rate)} of nitrogen once the plants hold against a pull: it makes them spread over the bare ground between them.",
        ("feeding.plants_rate", "order.plant_rooting"),
    )  # fmt: skip
    return replace(feeding, feeds=tuple(sorted((*others, plants), key=lambda feed: feed.best)))


def _days(setting: Setting, sow: OpenDays) -> tuple[date, date]:
    """The first and the last day on which plants that go in within their window could be fed, as long as nitrogen is in season."""
    first = sow.start + timedelta(setting.days("order.plant_rooting"))
    last = sow.end + timedelta(setting.days("order.plant_feed_most"))
    seasons = [w.end for w in setting.open("feed_nitrogen") if w.start <= last and w.end >= first]
    return first, min(last, max(seasons, default=last))


def _planted(setting: Setting, campaign: Campaign, sow: OpenDays) -> date:
    """About when they go in: the best day of their window, or when the last pass, spread as early as may be, has settled."""
    if not campaign.sessions:
        return sow.best
    session = campaign.sessions[-1]
    apart = wished_spacing(setting, session, setting.pass_interval_days)
    begun = max(session.window.start, date.fromordinal(setting.first_day))
    spread = begun + timedelta(apart * (len(session.passes) - 1))
    return min(max(sow.best, spread + timedelta(setting.days("order.settle_before_plant"))), sow.end)
