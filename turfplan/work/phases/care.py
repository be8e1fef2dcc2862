"""Care after the work: first cuts, colour, feeding, preventer, last mow."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

from turfplan.book.words import book_messages, grass_name
from turfplan.calendar_days import DAYS, WEEKDAYS
from turfplan.message import Quantity, cut_height, said
from turfplan.phrases import care as phrases
from turfplan.phrases import feeding as of_feeding
from turfplan.phrases import looks
from turfplan.records.book_names import NamedFact, of_herbicide, of_species
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import Emergence, emergence, undressed_days
from turfplan.work.feeding.amendments import amend_days
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.soil_nutrients import nutrient_drafts
from turfplan.work.feeding.stages import PLANTED, colour_in_time
from turfplan.work.growing_year import growing_year
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, FINISH, Timing, Wording, make
from turfplan.work.passes import SEEDED
from turfplan.work.past_of_lawn import barrier_in, last_rest
from turfplan.work.pesticide_law import takes_preventer
from turfplan.work.phases.care_alone import opened_in
from turfplan.work.phases.first_cuts import first_cuts
from turfplan.work.phases.sow import sown_share
from turfplan.work.places import WorkPlace, grown_place, sown_now_place
from turfplan.work.season_stand import second_grass_days, stand_of
from turfplan.work.stand import Stand, open_ground
from turfplan.work.watering.water_in import as_water_allows


def care(setting: ResolvedLawn, campaign: Campaign, feeding: FeedingPlan) -> list[Draft]:
    """The tasks of care, in the year of the work."""
    up = emergence(setting, campaign)
    stand = stand_of(setting, campaign)
    wished = (
        _look_at_colour(setting, campaign, up)
        if up is not None and feeding.compost_feeds
        else None,
        _starter(setting, campaign, feeding, feeding.starter, up)
        if feeding.starter is not None
        else None,
        _preventer(setting, campaign, stand),
        _last_mow(setting, campaign, stand, up),
        _transition(setting, campaign),
    )
    return [*first_cuts(setting, campaign), *(draft for draft in wished if draft is not None)]


def feed_drafts(setting: ResolvedLawn, campaign: Campaign, feeding: FeedingPlan) -> list[Draft]:
    """The tasks of the feedings, the starter apart, and potash or phosphate that goes on without
    one."""
    place = grown_place(setting, sown_share(setting, campaign))
    alone = [
        *nutrient_drafts(setting, feeding.potassium, feeding.potash, place),
        *nutrient_drafts(setting, feeding.phosphorus, feeding.phosphate, place),
    ]
    return [*(_feed(setting, feed, feeding, place) for feed in feeding.feeds), *alone]


def feed_days(
    setting: ResolvedLawn, feeding: FeedingPlan, drafts: Sequence[Draft]
) -> list[Allowed]:
    """Each feeding keeps to its own window; one that cannot is left out once it has a day.

    So do the parts of potash and phosphate that go on by themselves.
    """
    ids = {d.id for d in drafts}
    by_itself = {f"amend.potash.{part.number}" for part in feeding.potash}
    by_itself |= {f"amend.phosphate.{part.number}" for part in feeding.phosphate}
    of_nutrients = amend_days([draft for draft in drafts if draft.id in by_itself])
    return of_nutrients + [
        Allowed(
            f"window:feed_nitrogen.{feed.key}",
            f"feed_nitrogen.{feed.key}",
            DaySet.of([(feed.start.toordinal(), feed.end.toordinal())]),
            Strength.ADVICE,
            Reason("window.feed_nitrogen", feed.reason, feed.facts),
            opens=True,
        )
        for feed in feeding.feeds
        if f"feed_nitrogen.{feed.key}" in ids
    ]


def _look_at_colour(setting: ResolvedLawn, campaign: Campaign, up: Emergence) -> Draft | None:
    """The look at seedlings that the compost feeds alone; none where they are fed without it."""
    sow = campaign.sow_window
    if sow is None or not colour_in_time(setting, up, sow.best):
        return None
    rescue = Quantity(setting.book.si("starter.rescue_rate"), "rate")
    return make(
        setting,
        "inspect",
        "colour",
        timing=Timing(CARE, anchor="sowing", offset=up.colour_best),
        wording=Wording(
            looks.colour(),
            title=looks.colour_title(),
            how=(looks.colour_pale(rate=rescue), looks.colour_green()),
            go=looks.colour_go(),
            fallback=looks.next_free_day(),
        ),
        facts=("starter.rescue_rate",),
    )


def _starter(
    setting: ResolvedLawn,
    campaign: Campaign,
    feeding: FeedingPlan,
    feed: NitrogenFeeding,
    up: Emergence | None,
) -> Draft:
    session = campaign.sessions[-1].number if campaign.sow_on_pass else 0
    asleep = up is not None and up.wakes > 0
    how = book_messages(setting.book, "operations.starter_feed.how")
    how = (phrases.starter_wakes_how(),) if asleep else how
    phosphate = feeding.phosphate_with_g_m2(feed.key)
    if phosphate and setting.brief.feeding.analysis is None:
        rates = {
            "phosphate": Quantity(phosphate, "rate"),
            "nitrogen": Quantity(feed.rate_g_m2, "rate"),
        }
        how = (*how, phrases.phosphate_of_starter(**rates))
    elif phosphate:
        how = (*how, phrases.phosphate())
    return make(
        setting,
        "starter_feed",
        timing=Timing(CARE, session=session, anchor="sowing", offset=up.wakes if up else 0),
        wording=Wording(said(feed.reason), how=how),
        extent=sown_now_place(setting, sown_share(setting, campaign)).extent(setting),
        facts=feed.facts,
    )


def _feed(
    setting: ResolvedLawn, feed: NitrogenFeeding, feeding: FeedingPlan, place: WorkPlace
) -> Draft:
    watered = as_water_allows(
        setting.brief.water,
        freely=phrases.fed_watered_in(),
        by_law=phrases.fed_watered_in_law(),
        on_rain=phrases.fed_watered_in_rain(),
    )
    how = book_messages(setting.book, "operations.feed_nitrogen.how", {"water_in": watered})
    if feeding.potash_g_m2(feed.key):
        how = (*how, phrases.potash())
    if feeding.phosphate_with_g_m2(feed.key):
        how = (*how, phrases.phosphate())
    timing = Timing(
        CARE,
        ideal=feed.best.toordinal(),
        position=feed.best.toordinal(),
        window=(feed.start.toordinal(), feed.end.toordinal()),
    )
    wording = Wording(said(feed.reason), how=how)
    if feed.key == PLANTED:
        even = growing_year(setting.climate, setting.book, setting.turf.species.id).even
        later = phrases.planted_fallback_even() if even else phrases.planted_fallback()
        wording = replace(wording, go=phrases.planted_go(), fallback=later)
    if feed.if_pale:
        mild = setting.climate.thawed(feed.start, feed.end)
        pale_go = of_feeding.seedlings_pale_go_frostless if mild else of_feeding.seedlings_pale_go
        wording = replace(
            wording,
            go=pale_go(),
            fallback=of_feeding.seedlings_green_fallback(),
        )
    return make(
        setting,
        "feed_nitrogen",
        feed.key,
        timing=timing,
        wording=wording,
        extent=place.extent(setting),
        facts=feed.facts,
    )


def _preventer(setting: ResolvedLawn, campaign: Campaign, stand: Stand) -> Draft | None:
    """A preventer in a spring far enough from any seed, where summers suit crabgrass."""
    summer = setting.book.si("seeding.crabgrass_summer")
    if not takes_preventer(setting) or not setting.cool or max(setting.climate.air_mean_c) < summer:
        return None
    windows = (
        w
        for w in (_before_seed(setting, campaign, each) for each in setting.open("preemergent"))
        if _barrier_holds(setting, campaign, w) and _guards_grass(setting, campaign, stand, w)
    )
    window = next(windows, None)
    sow = campaign.sow_window if setting.sowing.operation in SEEDED else None
    last_work = sow or (campaign.sessions[-1].window if campaign.sessions else None)
    # A barrier a year and more after the work has nothing to do with it.
    late = last_work is not None and window is not None and _years_on(last_work, window)
    if window is None or late:
        return None
    return make(
        setting,
        "preemergent",
        timing=Timing(
            FINISH,
            ideal=max(window.best.toordinal(), setting.first_day),
            # Before the work it has nothing to do with it; after it, it waits for the touch-up.
            session=-1 if last_work is not None and window.start < last_work.start else 0,
            window=(window.start.toordinal(), window.end.toordinal()),
        ),
        wording=_of_preventer(setting),
        facts=window.facts,
    )


def _of_preventer(setting: ResolvedLawn) -> Wording:
    """What is said of a preventer: of passes and seed only where there are any."""
    water_in = as_water_allows(
        setting.brief.water,
        freely=phrases.preventer_watered_in(),
        by_law=phrases.preventer_watered_in_law(),
        on_rain=phrases.preventer_watered_in_rain(),
    )
    if setting.care_alone:
        return Wording(phrases.preemergent_alone(), how=(phrases.preemergent_alone_how(), water_in))
    return Wording(phrases.preemergent(), {"water_in": water_in})


def _years_on(work: OpenDays, window: OpenDays) -> bool:
    return window.start > work.end + timedelta(DAYS)


def _before_seed(setting: ResolvedLawn, campaign: Campaign, window: OpenDays) -> OpenDays:
    """A window of the preventer, less its last days where those before them are early enough for
    the seed of the same year: a week at least, so that it holds a day of work."""
    sow = campaign.sow_window if setting.sowing.operation in SEEDED else None
    if sow is None or window.start >= sow.start:
        return window
    last = min(window.end, sow.start - timedelta(_seed_hold(setting)))
    if (last - window.start).days + 1 < len(WEEKDAYS):
        return window
    return replace(window, end=last, best=min(window.best, last))


def _seed_hold(setting: ResolvedLawn) -> int:
    """The days that an unnamed preventer keeps seed from coming up."""
    return round(setting.book.fact(of_herbicide("unknown", "hold")).high_si)


def _guards_grass(
    setting: ResolvedLawn, campaign: Campaign, stand: Stand, window: OpenDays
) -> bool:
    """Whether grass stands under the barrier, and stays: ground that is broken up gets none."""
    sow = campaign.sow_window
    goes = setting.on_open_ground and (sow is None or window.start < sow.start)
    return not goes and not open_ground(stand.on(window.best.toordinal()))


def _barrier_holds(setting: ResolvedLawn, campaign: Campaign, window: OpenDays) -> bool:
    """Whether a window of the preventer lies within the plan, clear of seed and passes, and in a
    spring that no preventer of the past guards."""
    within = (
        window.end.toordinal() >= setting.first_day and window.start.toordinal() <= setting.last_day
    )
    # A pass buries the barrier and tines break it: no preventer in a spring of work.
    worked = any(
        s.window.start <= window.end and window.start <= s.window.end for s in campaign.sessions
    )
    guarded = barrier_in(setting, window) is not None
    worked = worked or opened_in(setting, window)
    return within and not worked and not guarded and _far_from_seed(setting, campaign, window)


def _far_from_seed(setting: ResolvedLawn, campaign: Campaign, window: OpenDays) -> bool:
    """Whether a window of the preventer lies long enough before or after any seed."""
    earlier = last_rest(setting)
    if earlier is not None and window.end.toordinal() < earlier:
        return False
    sow = campaign.sow_window if setting.sowing.operation in SEEDED else None
    if sow is None:
        return True
    hold = _seed_hold(setting)
    before, after = (sow.start - window.end).days, (window.start - sow.end).days
    return before >= hold or after >= undressed_days(setting, campaign)


def _transition(setting: ResolvedLawn, campaign: Campaign) -> Draft | None:
    """After winter ryegrass, the cuts that give the lawn back to the grass that sleeps below."""
    sow = campaign.sow_window
    if setting.sowing.intent != "winter_overseed" or sow is None:
        return None
    following = (w for w in setting.open("spring_transition") if w.start > sow.end)
    window = next((w for w in following if w.end.toordinal() <= setting.last_day), None)
    if window is None:
        return None
    grass = grass_name(setting.book, setting.turf.species.id)
    height = of_species(setting.turf.species.id, "mow_height")
    return make(
        setting,
        "spring_transition",
        timing=Timing(
            FINISH,
            ideal=window.best.toordinal(),
            window=(window.start.toordinal(), window.end.toordinal()),
        ),
        wording=Wording(
            phrases.spring_transition(grass=grass),
            {"grass": grass, "height": cut_height(setting.book.low_si(height))},
        ),
        facts=(*window.facts, height),
    )


def _last_mow(
    setting: ResolvedLawn, campaign: Campaign, stand: Stand, up: Emergence | None
) -> Draft | None:
    """The last mow, on the best day of its first window that does not end before the work, nor
    before what is sown can be mown at all; a winter's ryegrass has none while it grows,
    nor has grass that grows on through the winter.
    """
    if not _rests(setting):
        return None
    covered = second_grass_days(setting, campaign)
    last_work = campaign.sow_window or (campaign.sessions[-1].window if campaign.sessions else None)
    grown = timedelta(up.mow_best if up is not None else 0)
    for window in setting.open("last_mow"):
        before_work = last_work is not None and (
            window.end < last_work.start or window.end < last_work.best + grown
        )
        best = window.best.toordinal()
        grows_on = covered is not None and covered[0] <= best <= covered[1]
        mown = not grows_on and not open_ground(stand.on(best))
        if mown and not before_work and setting.first_day <= best <= setting.last_day:
            return make(
                setting,
                "last_mow",
                timing=Timing(FINISH, ideal=best),
                wording=Wording(
                    phrases.last_mow(),
                    how=None if setting.sowing.operation else (phrases.last_mow_alone_how(),),
                ),
            )
    return None


def _rests(setting: ResolvedLawn) -> bool:
    """Whether winter is cold enough for the grass to stop growing: its coldest day lies nearer to
    the mark at which it is last mown than to that at which growth fades."""
    marks: tuple[NamedFact, NamedFact] = (
        (NamedFact("windows.last_mow_opens"), NamedFact("windows.last_mow_closes"))
        if setting.cool
        else (NamedFact("windows.warm_last_mow_opens"), NamedFact("windows.warm_last_mow_closes"))
    )
    fades, ends = (setting.book.si(mark) for mark in marks)
    return min(setting.climate.air_mean_c) <= (fades + ends) / 2
