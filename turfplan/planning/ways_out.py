"""Ways out when a plan cannot be done as asked, each dated by every rule before it is offered."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice

from turfplan.calendar_days import WEEKDAYS
from turfplan.errors import TurfplanError
from turfplan.message import Days, Message, as_written
from turfplan.phrases import ways_out as phrases
from turfplan.planning.changed_briefs import (
    ChangedBrief,
    from_then_on,
    next_year,
    with_part,
    written,
)
from turfplan.planning.ways_anew import all_anew, on_bare_ground, renovated
from turfplan.planning.ways_by_ground import by_the_ground
from turfplan.records.book_names import CampaignName
from turfplan.records.brief import Brief
from turfplan.records.plan import Option
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.planted import plants
from turfplan.work.seed_mix import slowest
from turfplan.work.watering.hose import by_hand, hose_by_hand
from turfplan.work.watering.verdict import days_kept_wet

MOST_OPTIONS = 5
# What is filled at once of a fill that no season takes: one in so many parts of its depth.
_THINNER = ((2, phrases.half_as_deep()), (4, phrases.quarter_as_deep()))
# The key of lines that a brief takes as they stand.
WRITTEN = as_written("").key


@dataclass(frozen=True, slots=True)
class MainWork:
    """What a way out leads to: its campaign, and the first and last day of spreading, sowing and
    planting.

    The days are None where there is none of these. `season` is the first and the last day on which
    the seed may go in, or, where nothing is sown, of the sessions of fill; `undone` where a part of
    the fill is left out.
    """

    campaign: Message
    first: date | None
    last: date | None
    season: tuple[date, date] | None = None
    undone: bool = False


Tried = Callable[[Brief], MainWork | None]
"""Dates a brief as the planner itself does; None where that cannot be done."""


def work_of(tried: Tried, brief: Brief) -> MainWork | None:
    """The main work of a brief, or None where it cannot be dated.

    What contradicts the book (for example seed for a grass that has none) is no way to do it.
    """
    try:
        return tried(brief)
    except TurfplanError:
        return None


def ways_out(brief: Brief, setting: ResolvedLawn, tried: Tried) -> tuple[Option, ...]:
    """Changes of the brief that can be dated by every rule, nearest to the wish first; each leads
    somewhere of its own.

    `tried` dates a changed brief as the planner itself does, and gives None where that cannot be
    done.
    """
    found = _offered(_changes(brief, setting), tried)
    # Where no single change is enough, the ground's is tried with another, then the lawn anew.
    found = found or _offered(_pairs(brief, setting), tried)
    return found or _offered(all_anew(brief, setting), tried)


def _offered(changes: Iterable[ChangedBrief], tried: Tried) -> tuple[Option, ...]:
    """Those of some changes that can be dated, each leading somewhere of its own."""
    found: dict[tuple[Message, Message | None], Option] = {}
    for change in changes:
        work = work_of(tried, change.brief)
        if work is None:
            continue
        reason = leads_to(work)
        leads = reason, change.title if change.another_lawn else None
        if leads not in found:
            found[leads] = Option(title=change.title, reason=reason, change=change.lines)
        if len(found) == MOST_OPTIONS:
            break
    return tuple(found.values())


def _pairs(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Each change that begins with the ground, with another of what the brief rules out."""
    for first in by_the_ground(brief, setting):
        # What is sown or planted is written once.
        asked = "intent" not in str(first.lines if first.lines.key == WRITTEN else "")
        others = (
            *_with_water(first.brief),
            *_with_more_days(first.brief, setting),
            *(_one_after_the_other(first.brief, setting) if asked else ()),
            *_with_more_choice(first.brief),
        )
        for second in others:
            yield ChangedBrief(
                phrases.together(first=first.title, second=second.title),
                _both(first.lines, second.lines),
                second.brief,
                first.another_lawn,
            )


def _both(first: Message, second: Message) -> Message:
    """The lines of two changes: what is written stands first, what is left out last."""
    if second.key != WRITTEN:
        return phrases.together_left_out(first=first, second=second)
    if first.key != WRITTEN:
        return phrases.together_left_out(first=second, second=first)
    return as_written(f"{first}, {second}")


def whole_fill(
    brief: Brief,
    setting: ResolvedLawn,
    campaigns: Sequence[CampaignName],
    tried: Tried,
) -> Option | None:
    """The first change of a brief by which all of its fill is done: another of the `campaigns`,
    leveling alone, or a start next year."""
    for change in _for_the_whole(brief, setting, campaigns):
        work = work_of(tried, change.brief)
        if work is not None and work.first is not None and not work.undone:
            return Option(title=change.title, reason=leads_to(work), change=change.lines)
    return None


def _for_the_whole(
    brief: Brief, setting: ResolvedLawn, campaigns: Sequence[CampaignName]
) -> Iterator[ChangedBrief]:
    for name in campaigns if brief.season.campaign == "auto" else ():
        yield ChangedBrief(
            phrases.whole_fill(),
            as_written(f'campaign = "{name}"'),
            with_part(brief, "season", campaign=name),
        )
    if brief.seeding.intent != "none":
        yield from islice(_one_after_the_other(brief, setting), 1)
    yield _starting_next_year(brief, setting)
    if not setting.on_open_ground:
        yield from renovated(brief)


def leads_to(work: MainWork) -> Message:
    """Where a way leads: the campaign, and the days of its main work where it has any."""
    if work.first is None or work.last is None:
        return phrases.campaign_alone(campaign=work.campaign)
    return phrases.campaign_dated(campaign=work.campaign, days=Days(work.first, work.last))


def _changes(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Every way that the brief leaves open, nearest to the wish first."""
    yield from by_the_ground(brief, setting)
    yield from _with_its_own_grass(brief, setting)
    yield from _with_water(brief)
    yield from _with_more_choice(brief)
    yield from _with_more_hands(brief, setting)
    # What fits inside the owner's days comes before more of them.
    yield from _with_less_work(brief, setting)
    yield from _one_after_the_other(brief, setting)
    yield from on_bare_ground(brief, setting)
    yield from _with_sod(brief, setting)
    yield from _with_more_days(brief, setting)
    yield from _with_a_later_end(brief, setting)
    yield _starting_next_year(brief, setting)


def _starting_next_year(brief: Brief, setting: ResolvedLawn) -> ChangedBrief:
    start = next_year(brief, setting)
    return ChangedBrief(
        phrases.next_year(),
        from_then_on(brief, f"from = {start}"),
        with_part(brief, "season", start=start, until=None),
    )


def _with_its_own_grass(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """The lawn's own grass by seed or plants, where there is none that ryegrass could green."""
    if brief.seeding.intent != "winter_overseed" or not setting.on_open_ground:
        return
    grass = setting.turf.species
    if grass.seedable:
        yield ChangedBrief(
            phrases.own_grass_sown(),
            as_written('intent = "overseed"'),
            with_part(brief, "seeding", intent="overseed", species=None, rate_g_m2=None),
        )
    for form in grass.plantable[:1]:
        yield ChangedBrief(
            phrases.own_grass_planted(),
            as_written(f'intent = "plant", form = "{form}"'),
            with_part(brief, "seeding", intent="plant", form=form, species=None, rate_g_m2=None),
        )


def _with_water(brief: Brief) -> Iterator[ChangedBrief]:
    """A hose or a sprinkler, where the brief says that nobody waters."""
    if brief.water.possible is False and brief.seeding.intent != "dormant":
        unsown = brief.seeding.intent == "none"
        watered = with_part(brief, "water", possible=True)
        yield ChangedBrief(
            phrases.water_the_lawn() if unsown else phrases.water_it(),
            as_written("possible = true"),
            watered,
        )
        if not unsown and hose_by_hand(watered.water):
            # One hose in the hours at home may keep too little of the lawn wet.
            yield ChangedBrief(
                phrases.together(first=phrases.water_it(), second=phrases.a_timer()),
                as_written(", ".join(("possible = true", "timer = true"))),
                with_part(watered, "water", timer=True),
            )


def _with_more_choice(brief: Brief) -> Iterator[ChangedBrief]:
    """Any campaign."""
    if brief.season.campaign != "auto":
        yield ChangedBrief(
            phrases.any_campaign(),
            as_written('campaign = "auto"'),
            with_part(brief, "season", campaign="auto"),
        )


def _with_a_later_end(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Another year, where the owner gave the end; one that was assumed holds nothing up."""
    if brief.season.until is None:
        return
    later = brief.season.until + timedelta(days=366)
    if later > setting.today:
        yield ChangedBrief(
            phrases.more_time(),
            as_written(f"until = {later}"),
            with_part(brief, "season", until=later),
        )


def _with_more_hands(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Twice the people, machines that spread, a contractor, and water that runs by itself."""
    work, people = brief.work, 2 * setting.labour.people
    if brief.leveling.depth_mm or brief.leveling.lows or brief.leveling.survey:
        yield ChangedBrief(
            phrases.more_people(n=people),
            as_written(f"people = {people}"),
            with_part(brief, "work", people=people),
        )
        if not {"topdresser", "loader"}.issubset(work.machines):
            machines = tuple(dict.fromkeys((*work.machines, "topdresser", "loader")))
            yield ChangedBrief(
                phrases.machines_that_spread(),
                as_written(f"machines = {list(machines)}".replace("'", '"')),
                with_part(brief, "work", machines=machines),
            )
    if work.by != "contractor":
        yield ChangedBrief(
            phrases.a_contractor(),
            as_written('by = "contractor"'),
            with_part(brief, "work", by="contractor"),
        )
    if not brief.water.timer and by_hand(brief.water) and brief.seeding.intent != "none":
        yield ChangedBrief(
            phrases.a_timer(), as_written("timer = true"), with_part(brief, "water", timer=True)
        )


def _with_sod(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Sod where seed has no season, if the grass is sold as such."""
    seeded = brief.seeding.intent in ("overseed", "renovate", "patch")
    seeded = seeded and setting.sowing.operation != "plant"
    if seeded and "sod" in setting.sowing.grass.plantable and brief.season.until is not None:
        yield ChangedBrief(
            phrases.sod_instead(),
            as_written('intent = "plant", form = "sod"'),
            with_part(brief, "seeding", intent="plant", form="sod"),
        )


def _with_less_work(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Seed that waits for spring, the hollows alone, and half of the fill."""
    grass = setting.turf.species
    sown = brief.seeding.intent in ("overseed", "renovate", "patch")
    if grass.season == "cool" and sown and grass.seedable and _can_be_kept_moist(setting):
        yield ChangedBrief(
            phrases.sow_dormant(),
            as_written('intent = "dormant"'),
            with_part(brief, "seeding", intent="dormant"),
        )
    if brief.leveling.depth_mm and brief.leveling.lows:
        yield ChangedBrief(
            phrases.hollows_only(),
            phrases.leave_out(table="leveling.depth"),
            with_part(brief, "leveling", depth_mm=None),
        )
    for parts, title in _THINNER if brief.leveling.depth_mm else ():
        thinner_mm, depth = written((brief.leveling.depth_mm or 0.0) / parts, setting.system)
        if thinner_mm:
            yield ChangedBrief(
                title,
                as_written(f'depth = "{depth}"'),
                with_part(brief, "leveling", depth_mm=thinner_mm),
            )
    if brief.seeding.intent == "dormant":
        # Where winter is no rest for grass, seed comes up when it is sown.
        watered = brief.water.possible is not False
        up = with_part(brief, "seeding", intent="overseed")
        yield ChangedBrief(
            phrases.sow_in_season(),
            as_written('intent = "overseed"' + ("" if watered else ", possible = true")),
            up if watered else with_part(up, "water", possible=True),
        )


def _can_be_kept_moist(setting: ResolvedLawn) -> bool:
    """Whether seed or plants are watered, or known rain keeps some seedbed moist: what speaks
    against seed that comes up at once speaks against seed that waits for spring too."""
    brief, book, climate = setting.brief, setting.book, setting.climate
    if brief.water.possible is not False:
        return True
    slow = slowest(book, setting.sowing.grasses)
    return climate.rain_doubt is None and any(days_kept_wet(brief, book, climate, slow))


def _with_more_days(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Days of work and of watering that the brief rules out."""
    calendar, water = brief.calendar, brief.water
    if calendar.weekdays is not None and len(calendar.weekdays) < 7:
        yield ChangedBrief(
            phrases.any_weekday(),
            as_written(f"weekdays = {list(WEEKDAYS)}".replace("'", '"')),
            with_part(brief, "calendar", weekdays=WEEKDAYS),
        )
    if calendar.away or calendar.unavailable:
        yield ChangedBrief(
            phrases.stay_at_home(),
            as_written("away = []"),
            with_part(brief, "calendar", away=(), unavailable=()),
        )
    if (water.allowed_weekdays or water.parity) and water.permit is False:
        if brief.seeding.intent == "none":
            leave = phrases.water_permit_relaid()
        else:
            planted = plants(brief, setting.book)
            leave = phrases.water_permit_plants() if planted else phrases.water_permit()
        yield ChangedBrief(
            leave,
            as_written("permit = true"),
            with_part(brief, "water", permit=True),
        )


def _one_after_the_other(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Level and sow in seasons of their own."""
    leveling = brief.leveling
    if brief.seeding.intent == "none" or not (leveling.depth_mm or leveling.lows):
        return
    planted = plants(brief, setting.book)
    later = phrases.level_before_planting() if planted else phrases.level_now()
    yield ChangedBrief(
        later if _can_be_kept_moist(setting) else phrases.level_until_watered(),
        as_written('intent = "none"'),
        with_part(brief, "seeding", intent="none"),
    )
    never = bool(setting.never_opens("topdress")) and not setting.on_open_ground
    yield ChangedBrief(
        _unlevelled(plants=planted, never=never),
        phrases.leave_out(table="[leveling]"),
        with_part(brief, "leveling", depth_mm=None, lows=()),
    )


def _unlevelled(*, plants: bool, never: bool) -> Message:
    """Seed or plants without the fill, which is left for later or for good."""
    if plants:
        return phrases.plant_alone() if never else phrases.plant_now()
    return phrases.sow_alone() if never else phrases.sow_now()
