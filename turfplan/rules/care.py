"""Care after the work: first mow, colour, feeding, preventer, last mow."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

from turfplan.constraints import Allowed, DaySet, Reason, Strength
from turfplan.rules.build import CARE, FINISH, make
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft, OpenDays
from turfplan.rules.feed import Feed, FeedingPlan, planted_words
from turfplan.rules.passes import SEEDED
from turfplan.rules.plants_fed import PLANTED
from turfplan.rules.seed import emergence
from turfplan.rules.setting import Setting


def care(setting: Setting, campaign: Campaign, feeding: FeedingPlan) -> list[Draft]:
    """The tasks of care, in the year of the work."""
    drafts: list[Draft] = []
    sown = setting.sowing is not None and campaign.sow_window is not None
    if sown:
        drafts.append(_first_mow(setting, campaign, feeding))
    up = emergence(setting, campaign)
    if up is not None and feeding.compost_feeds:
        drafts.append(
            make(
                setting, "inspect", "colour", why="No starter was given: the compost feeds. The colour tells whether it is enough.",
                priority=CARE, anchor="sowing", offset=up.last + setting.days("setting.colour_look_days"), title="Look: is the new grass pale?",
                how=(
                    f"Pale and slow: feed {setting.rate(setting.book.si('starter.rescue_rate'))} of nitrogen where it is legal and the grass still grows.",
                    "Green and growing: leave it.",
                ),
                go="Compare with a well-fed patch, in daylight.", fallback="The next free day.", facts=("starter.rescue_rate",),
            )
        )  # fmt: skip
    if feeding.starter is not None:
        drafts.append(_starter(setting, campaign, feeding.starter))
    drafts += [_feed(setting, feed, feeding) for feed in feeding.feeds]
    preventer = _preventer(setting, campaign)
    if preventer is not None:
        drafts.append(preventer)
    if _last_mow_in_reach(setting, campaign):
        drafts.append(
            make(
                setting, "last_mow", why="Grass that goes into winter at its usual height, free of leaves, comes out of it best.",
                priority=FINISH, ideal=_last_mow_in_reach(setting, campaign),
            )
        )  # fmt: skip
    transition = _transition(setting, campaign)
    return [*drafts, transition] if transition is not None else drafts


def feeds_beside_seedlings(
    setting: Setting, campaign: Campaign, feeding: FeedingPlan
) -> tuple[FeedingPlan, tuple[str, ...]]:
    """The feeding without what would fall on seedlings that compost or a starter feeds already, and what to say of it.

    The quiet time runs from some weeks before the seed to the look at its colour (or the first mowing, after a starter);
    a feeding whose window outlasts it waits for its end.
    """
    up = emergence(setting, campaign)
    sow = campaign.sow_window
    if up is None or sow is None or sow.operation == "dormant_seed" or setting.intent == "winter_overseed":
        return feeding, ()
    book, day = setting.book, sow.best
    after = up.last + book.fact("setting.colour_look_days").low_si if feeding.compost_feeds else up.mow_most
    quiet_from, quiet_to = day - timedelta(book.si("setting.unfed_before_seed")), day + timedelta(after)
    kept: list[Feed] = []
    for feed in feeding.feeds:
        if not quiet_from <= feed.best <= quiet_to:
            kept.append(feed)
        elif feed.end >= quiet_to + timedelta(book.si("windows.least_days")):
            kept.append(replace(feed, start=max(feed.start, quiet_to), best=max(feed.best, quiet_to)))
    if len(kept) == len(feeding.feeds):
        return replace(feeding, feeds=tuple(kept)), ()
    fed = "the compost in the mix" if feeding.compost_feeds else "the starter"
    return replace(feeding, feeds=tuple(kept)), (
        f"No feeding of its own in the weeks around the seed: {fed} feeds the seedlings, and their colour says whether it is enough.",
    )


def feed_days(setting: Setting, feeding: FeedingPlan, drafts: Sequence[Draft]) -> list[Allowed]:
    """Each feeding keeps to its own window."""
    ids = {d.id for d in drafts}
    return [
        Allowed(
            f"window:feed_nitrogen.{feed.key}", f"feed_nitrogen.{feed.key}",
            DaySet.of([(feed.start.toordinal(), feed.end.toordinal())]), Strength.STRONG,
            Reason("window.feed_nitrogen", feed.reason, feed.facts),
        )
        for feed in feeding.feeds if f"feed_nitrogen.{feed.key}" in ids
    ]  # fmt: skip


def _first_mow(setting: Setting, campaign: Campaign, feeding: FeedingPlan) -> Draft:
    up = emergence(setting, campaign)
    book, sown = setting.book, setting.sown
    target = book.fact(f"species.{sown.id}.mow_height").low_si
    height = target * book.si("mowing.first_mow_factor")
    words = {"height": setting.cut(height)}
    if up is None:
        return make(
            setting, "first_mow", why="Cutting makes planted grass spread sideways; too early it pulls the plants out.",
            priority=CARE, anchor="plant", offset=round(setting.book.fact("order.plant_mow_most").low_si), words=words, title="First mow after planting",
            how=(book.operations["first_mow"].how[0], *(() if _plants_fed(feeding) else (planted_words(book, setting.system),))),
            go=f"No plant comes out at a gentle pull, and the grass stands {words['height']} high.",
            facts=(f"species.{sown.id}.mow_height", "mowing.first_mow_factor", "feeding.plants_rate"),
        )  # fmt: skip
    return make(
        setting, "first_mow",
        why="The first cut makes young grass tiller, and keeps the old grass from shading it.",
        priority=CARE, anchor="sowing", offset=(up.mow_least + up.mow_most) // 2, words=words, facts=(f"species.{sown.id}.mow_height", "mowing.first_mow_factor"),
    )  # fmt: skip


def _plants_fed(feeding: FeedingPlan) -> bool:
    return any(feed.key == PLANTED for feed in feeding.feeds)


def _starter(setting: Setting, campaign: Campaign, feed: Feed) -> Draft:
    return make(
        setting, "starter_feed", why=feed.reason, priority=CARE, session=campaign.sessions[-1].number if campaign.sow_on_pass else 0,
        anchor="sowing", facts=feed.facts,
    )  # fmt: skip


def _feed(setting: Setting, feed: Feed, feeding: FeedingPlan) -> Draft:
    how = setting.book.operations["feed_nitrogen"].how
    if feeding.potash_g_m2(feed.key):
        how = (*how, "With it goes the potash that the soil test asks for, as far as the bag does not hold it already.")
    if feed.key == PLANTED:
        wait = round(setting.book.fact("order.plant_rooting").high_si)
        return make(
            setting, "feed_nitrogen", feed.key, why=feed.reason, priority=CARE, anchor="plant", offset=wait, facts=feed.facts, how=how,
            position=feed.best.toordinal(), window=(feed.start.toordinal(), feed.end.toordinal()),
            go="Plants stay in the ground at a gentle pull; grass growing and dry, no heavy rain in the forecast.",
            fallback="While plants still come out, wait; leave it out once summer is over.",
        )  # fmt: skip
    return make(
        setting, "feed_nitrogen", feed.key, why=feed.reason, priority=CARE, ideal=feed.best.toordinal(), facts=feed.facts, how=how,
        position=feed.best.toordinal(),
        window=(feed.start.toordinal(), feed.end.toordinal()),
    )  # fmt: skip


def _preventer(setting: Setting, campaign: Campaign) -> Draft | None:
    """A crabgrass preventer only in a spring that is far enough from any seed, before and after, where summers suit crabgrass."""
    if max(setting.climate.air_mean_c) < setting.book.si("seeding.crabgrass_summer"):
        return None
    hold = round(setting.book.fact("herbicides.unknown.hold").high_si)
    rest = round(setting.book.si("seeding.no_dressing"))
    sow = campaign.sow_window if setting.sowing in SEEDED else None
    last_work = sow or (campaign.sessions[-1].window if campaign.sessions else None)
    for window in setting.open("preemergent"):
        if window.end.toordinal() < setting.first_day or window.start.toordinal() > setting.last_day:
            continue
        if sow is not None:
            before = (sow.start - window.end).days
            after = (window.start - sow.end).days
            dormant = sow.operation == "dormant_seed"
            if not (before >= hold or (after >= rest and not dormant)):
                continue
        if not setting.cool:
            continue
        if any(s.window.start <= window.end and window.start <= s.window.end for s in campaign.sessions):
            # A pass buries the barrier and tines break it: no preventer in a spring of work.
            continue
        return make(
            setting, "preemergent", why="Crabgrass comes up in the open places; a barrier laid now stops it, where no seed is in the way.",
            priority=FINISH, ideal=max(window.best.toordinal(), setting.first_day), facts=window.facts,
            # A preventer of the spring before the work has nothing to do with it; one after it waits for the touch-up.
            session=-1 if last_work is not None and window.start < last_work.start else 0,
            window=(window.start.toordinal(), window.end.toordinal()),
        )  # fmt: skip
    return None


def _transition(setting: Setting, campaign: Campaign) -> Draft | None:
    """In the spring after winter ryegrass, the cuts that give the lawn back to the grass that sleeps below."""
    sow = campaign.sow_window
    if setting.intent != "winter_overseed" or sow is None:
        return None
    following = (w for w in setting.open("spring_transition") if w.start > sow.end)
    window = next((w for w in following if w.end.toordinal() <= setting.last_day), None)
    if window is None:
        return None
    height = f"species.{setting.species.id}.mow_height"
    return make(
        setting, "spring_transition", why=f"Ryegrass left long shades {setting.species.name} in the weeks in which it wakes, and thins it for good.",
        priority=FINISH, ideal=window.best.toordinal(), window=(window.start.toordinal(), window.end.toordinal()),
        words={"grass": setting.species.name, "height": setting.cut(setting.book.low_si(height))}, facts=(*window.facts, height),
    )  # fmt: skip


def _last_mow_in_reach(setting: Setting, campaign: Campaign) -> int | None:
    last_work: OpenDays | None = campaign.sow_window or (campaign.sessions[-1].window if campaign.sessions else None)
    for window in setting.open("last_mow"):
        if last_work is not None and window.end < last_work.start:
            continue
        if setting.first_day <= window.best.toordinal() <= setting.last_day:
            return window.best.toordinal()
    return None
