"""When the stand takes no nitrogen, and what it is fed with at its own time: seedlings, plants that
have rooted, winter ryegrass."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.book.citations import who_says
from turfplan.calendar_days import DAYS, WEEKDAYS
from turfplan.message import Message, Quantity, listed
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import FactName, PlantForm
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import Emergence, emergence, given_back_on
from turfplan.work.feeding.blackouts import Blackout, blackouts_of, free_days
from turfplan.work.feeding.nitrogen_windows import past_last_nitrogen
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import SOWING
from turfplan.work.season_stand import stand_of
from turfplan.work.stand import OPEN_GROUND

PLANTED, SEEDLINGS, RYE = "planted", "seedlings", "rye"
COLOUR_LOOK = "inspect.colour"
RYE_RATE: FactName = "feeding.rye_rate"
# The dry climates of Köppen's classes: deserts and steppes.
DRY = "B"


@dataclass(frozen=True, slots=True)
class WorkedDays:
    """The days on which the work of a campaign is done: passes (with their depth, mm), the sowing
    and its last day, the planting with what is planted, the first mow, the look at the colour of
    seedlings, dethatching, and the first and last of the days on which turf is relaid. `uncut`:
    what is sown has its first mow after the plan. `spread`: what each pass takes, m3 loose."""

    passes: Sequence[tuple[date, float]] = ()
    sown: date | None = None
    sown_last: date | None = None
    planted: date | None = None
    form: PlantForm | None = None
    mown: date | None = None
    looked: date | None = None
    torn: Sequence[date] = ()
    relaid: Sequence[tuple[date, date]] = ()
    uncut: bool = False
    spread: Sequence[tuple[date, float]] = ()


def worked_days(drafts: Iterable[Draft], day: Callable[[str], int]) -> WorkedDays:
    """The days of the work that feeding goes by; `day` gives that of a node, an ordinal."""

    def on(node: str) -> date:
        return date.fromordinal(day(node))

    passes: list[tuple[date, float]] = []
    spread: list[tuple[date, float]] = []
    sown = sown_last = planted = mown = looked = None
    form: PlantForm | None = None
    torn: list[date] = []
    relaid: list[tuple[date, date]] = []
    for draft in drafts:
        if draft.operation == "topdress":
            passes.append((on(draft.start_node), draft.depth_mm))
            spread.append((on(draft.start_node), draft.loose_m3))
        elif draft.operation in SOWING:
            sown, sown_last = on(draft.start_node), on(draft.end_node)
        elif draft.operation == "plant":
            planted, form = on(draft.end_node), draft.form
        elif draft.operation == "first_mow":
            mown = on(draft.end_node)
        elif draft.id == COLOUR_LOOK:
            looked = on(draft.start_node)
        elif draft.operation == "dethatch":
            torn.append(on(draft.start_node))
        elif draft.operation == "lift_and_fill":
            relaid.append((on(draft.start_node), on(draft.end_node)))
    return WorkedDays(
        tuple(sorted(passes)),
        sown,
        sown_last,
        planted,
        form,
        mown,
        looked,
        tuple(sorted(torn)),
        tuple(sorted(relaid)),
        uncut=sown is not None and mown is None,
        spread=tuple(sorted(spread)),
    )


@dataclass(frozen=True, slots=True)
class Quiet:
    """Days, both included, on which the stand takes no nitrogen, and why."""

    first: date
    last: date
    reason: Message


@dataclass(frozen=True, slots=True)
class StageFeeding:
    """A feeding that follows the stand and not the season: the days that suit it, the best, the
    rate; `put_off` where a law has closed its own days."""

    key: str
    rate_g_m2: float
    first: date
    last: date
    best: date
    reason: Message
    facts: tuple[FactName, ...]
    if_pale: bool = False
    put_off: bool = False


@dataclass(frozen=True, slots=True)
class Stages:
    """What the stand of a campaign asks of feeding.

    `instead` is what it asks where seedlings are not left to a look at their colour.
    """

    quiet: tuple[Quiet, ...] = ()
    feedings: tuple[StageFeeding, ...] = ()
    instead: "Stages | None" = None


NO_STAGES = Stages()


def stages_of(
    setting: ResolvedLawn, campaign: Campaign, worked: WorkedDays, *, compost_feeds: bool
) -> Stages:
    """The stages of the stand from the days of the work. `compost_feeds`: seedlings live on the
    compost of the mix until a look finds them pale."""
    stages = _of_stand(setting, campaign, worked, compost_feeds=compost_feeds)
    return replace(stages, quiet=(*stages.quiet, *_hurt(setting, worked)))


def _hurt(setting: ResolvedLawn, worked: WorkedDays) -> tuple[Quiet, ...]:
    """The days before turf is torn by dethatching, which takes off what a feeding grew, and those
    until relaid turf has roots."""
    before = timedelta(setting.days("feeding.before_dethatching"))
    rooted = timedelta(setting.days("order.plant_rooting"))
    return (
        *(Quiet(d - before, d - timedelta(1), phrases.quiet_torn()) for d in worked.torn),
        *(Quiet(a, b + rooted - timedelta(1), phrases.quiet_relaid()) for a, b in worked.relaid),
    )


def _of_stand(
    setting: ResolvedLawn, campaign: Campaign, worked: WorkedDays, *, compost_feeds: bool
) -> Stages:
    """The stages of what is sown or planted, or of ground without grass."""
    stand = stand_of(setting, campaign)
    if worked.sown is not None and stand.first("second_grass"):
        return _ryegrass(setting, worked.sown)
    if worked.planted is not None:
        return _plants(setting, worked.planted, worked.form)
    if worked.sown is not None and stand.first("sown", "dormant_seed"):
        return _seedlings(setting, campaign, worked, worked.sown, compost_feeds=compost_feeds)
    if setting.worked == "bare":
        begin, end = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
        return Stages((Quiet(begin, end, phrases.quiet_bare()),))
    return Stages()


def _before(setting: ResolvedLawn, day: date, why: Message) -> tuple[Quiet, ...]:
    """The days before new grass on which nothing is fed: all of them where no living turf is kept,
    else the last weeks, for the reason that holds after that day."""
    begin = date.fromordinal(setting.first_day)
    if setting.worked in OPEN_GROUND:
        why = phrases.quiet_bare() if setting.worked == "bare" else phrases.quiet_killed()
    else:
        begin = day - timedelta(setting.days("setting.unfed_before_seed"))
    return (Quiet(begin, day - timedelta(1), why),) if begin < day else ()


def _seedlings(
    setting: ResolvedLawn,
    campaign: Campaign,
    worked: WorkedDays,
    sown: date,
    *,
    compost_feeds: bool,
) -> Stages:
    up = emergence(setting, campaign)
    if up is None:
        return Stages()
    last = worked.sown_last or sown
    if not (compost_feeds and colour_in_time(setting, up, last)):
        return _fed_seedlings(setting, worked, up, (sown, last), waits=False)
    stages = _fed_seedlings(setting, worked, up, (sown, last), waits=True)
    unasked = replace(worked, looked=None)
    instead = _fed_seedlings(setting, unasked, up, (sown, last), waits=False)
    return replace(stages, instead=instead)


def _fed_seedlings(
    setting: ResolvedLawn,
    worked: WorkedDays,
    up: Emergence,
    sown: tuple[date, date],
    *,
    waits: bool,
) -> Stages:
    """The feeding of seedlings by the first and the last day of their seed: once the youngest of
    them bear it, or, where it `waits`, if the look at their colour finds them pale."""
    book, (begun, ended) = setting.book, sown
    since = book.fact("feeding.seedling_days")
    first = ended + timedelta(max(up.first + round(since.low_si), up.mow_least))
    last = max(first, ended + timedelta(up.last + round(since.high_si)))
    best = ended + timedelta(up.last + round(since.si))
    if waits:
        looked = ended + timedelta(up.colour_least)
        most = round(book.fact("setting.colour_look_days").high_si)
        first, best, last = looked, looked, looked + timedelta(most)
    mown = worked.mown
    if worked.uncut:
        mown = max(ended + timedelta(up.mow_best), date.fromordinal(setting.last_day + 1))
    after = [day for day in (mown, worked.looked if waits else None) if day is not None]
    if after and max(after) > last:
        # A winter before the first mow puts the food off whole: it is not lost for a late spring.
        last = max(after) + timedelta(round(since.high_si - since.low_si))
    first = max([first, *after])
    last = max(first, last)
    best = min(max(best, first), last)
    season = setting.sowing.grass.season
    if setting.climate.growth_potential(best, season) < book.si("feeding.late_growth"):
        # Before winter every week of growth counts; in spring they take it as soon as they may.
        best = first
    rate = book.fact("feeding.seedling_rate")
    told = Quantity(rate.si, "rate")
    why = (
        phrases.seedlings_pale(rate=told)
        if waits
        else phrases.seedlings_why(rate=told, source=who_says(book, rate.source))
    )
    feeding = StageFeeding(
        SEEDLINGS,
        rate.si,
        first,
        last,
        best,
        why,
        ("feeding.seedling_rate", "feeding.seedling_days"),
        waits,
    )
    reason = phrases.left_out_compost() if waits else phrases.quiet_seed()
    young = Quiet(begun, first - timedelta(1), reason)
    return Stages((young, *_before(setting, begun, phrases.quiet_seed())), (feeding,))


def work_before(draft: Draft, drafts: Iterable[Draft]) -> tuple[Draft, ...]:
    """The tasks from whose days those of a stage feeding follow: the sowing or planting, the first
    mow, and the look at the colour of seedlings. Empty for any other task.
    """
    if draft.operation != "feed_nitrogen" or draft.key not in (PLANTED, SEEDLINGS, RYE):
        return ()
    return tuple(
        d
        for d in drafts
        if d.operation in (*SOWING, "plant", "first_mow")
        or (d.id == COLOUR_LOOK and draft.key == SEEDLINGS)
    )


def colour_in_time(setting: ResolvedLawn, up: Emergence, sown: date) -> bool:
    """Whether the colour of seedlings tells in time whether they are to be fed.

    Some days after the look there must still be growth, so that a day of work is in time; nor is a
    look put off by winter waited for: they are fed without one.
    """
    still = up.colour_least + round(setting.book.si("feeding.pale_growth"))
    soon = up.colour_least - up.last <= round(setting.book.fact("setting.colour_look_days").high_si)
    return soon and _takes_nitrogen(setting, sown + timedelta(still))


def _takes_nitrogen(setting: ResolvedLawn, day: date) -> bool:
    """True on days on which new grass can still use nitrogen: a warm-season grass in its own days
    of it, any other while it grows, up to a last date that binds new grass too."""
    windows = setting.open("feed_nitrogen")
    if setting.cool and past_last_nitrogen(
        setting.brief, setting.book, setting.climate, windows, day
    ):
        return False
    if not setting.cool:
        return any(w.start <= day <= w.end for w in windows)
    growth = setting.climate.growth_potential(day, "cool")
    return growth >= setting.book.si("water.dormant_growth")


def _plants(setting: ResolvedLawn, planted: date, form: PlantForm | None) -> Stages:
    """What has rooted is fed: plugs and sprigs once they hold, sod from a month on; where all of
    these days are closed to nitrogen, on the first that are open again."""
    book = setting.book
    rooting, rate = book.fact("order.plant_rooting"), book.fact("feeding.plants_rate")
    told = Quantity(rate.si, "rate")
    since: FactName = "feeding.sod_fed" if form == "sod" else "order.plant_rooting"
    begins = book.fact(since)
    first = planted + timedelta(round(begins.low_si))
    best = planted + timedelta(round(begins.si if form == "sod" else begins.high_si))
    most = begins.high_si if form == "sod" else book.si("order.plant_feed_most")
    last = planted + timedelta(round(most))
    reason = phrases.plants_why(rate=told)
    blackouts, _ = blackouts_of(setting.brief, book)
    wish = StageFeeding(PLANTED, rate.si, first, last, best, reason, ("feeding.plants_rate", since))
    wish = _reopened(wish, blackouts, told)
    why = phrases.quiet_plants()
    rooted = planted + timedelta(round(max(rooting.si, begins.low_si)))
    young = Quiet(planted, rooted - timedelta(1), why)
    return Stages((young, *_before(setting, planted, why)), (wish,))


def _reopened(wish: StageFeeding, blackouts: Sequence[Blackout], rate: Quantity) -> StageFeeding:
    """A feeding on the days that suit it, or on the first open ones after them where a law closes
    all but less than a week of these, in which there may be no day of work."""
    open_days = sum(
        (end - day).days + 1 for day, end in free_days(wish.first, wish.last, blackouts)
    )
    later = free_days(wish.last + timedelta(1), wish.last + timedelta(DAYS), blackouts)
    if open_days >= len(WEEKDAYS) or not later:
        return wish
    first, end = later[0]
    closed = listed((b.what for b in blackouts), "comma")
    return replace(
        wish,
        first=first,
        last=min(first + (wish.last - wish.first), end),
        best=first,
        reason=phrases.plants_after(rate=rate, blackouts=closed),
        put_off=True,
    )


def _ryegrass(setting: ResolvedLawn, sown: date) -> Stages:
    """Ryegrass over a resting lawn, and the grass below it not before it is green.

    Fed twice; where winters are dry and mild, in the desert, every month until it is given back.
    """
    book = setting.book
    rate, first = book.fact(RYE_RATE), book.fact("feeding.rye_first")
    desert = (setting.climate.koppen or "").startswith(DRY)
    gap: FactName = "feeding.rye_monthly" if desert else "feeding.rye_again"
    again = book.fact(gap)
    why = phrases.rye_why(rate=Quantity(rate.si, "rate"), source=who_says(book, rate.source))
    green = given_back_on(setting, sown)
    middle = sown + timedelta(round(first.si))
    opens, closes = (timedelta(round(days - first.si)) for days in (first.low_si, first.high_si))
    feedings = [
        StageFeeding(
            RYE,
            rate.si,
            middle + opens,
            middle + closes,
            middle,
            why,
            (RYE_RATE, "feeding.rye_first"),
        )
    ]
    early, late = (timedelta(round(days - again.si)) for days in (again.low_si, again.high_si))
    # What is given last is used up before the grass below is to wake.
    last = green - timedelta(round(again.si)) if desert and green else middle + timedelta(again.si)
    best = middle + timedelta(round(again.si))
    while best <= last:
        feedings.append(
            StageFeeding(RYE, rate.si, best + early, best + late, best, why, (RYE_RATE, gap))
        )
        best += timedelta(round(again.si))
    unfed = sown - timedelta(setting.days("feeding.rye_unfed"))
    until = green or sown + timedelta(round(first.si + again.high_si))
    return Stages((Quiet(unfed, until, phrases.quiet_rye()),), tuple(feedings))
