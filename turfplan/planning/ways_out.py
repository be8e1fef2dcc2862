"""Ways out when a plan cannot be done as asked, each dated by every rule before it is offered."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from turfplan.book.words import grass_name
from turfplan.calendar_days import WEEKDAYS
from turfplan.errors import TurfplanError
from turfplan.message import Days, Message, as_written, listed
from turfplan.phrases import ways_out as phrases
from turfplan.phrases.weed_killers import pot_passed
from turfplan.records.book_names import CampaignName
from turfplan.records.brief import Brief
from turfplan.records.plan import Option
from turfplan.units import INCH_MM, System
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.light import hours_of
from turfplan.work.thatch import strip_limit
from turfplan.work.watering.hose import by_hand
from turfplan.work.year_seasons import next_growing_year

MOST_OPTIONS = 5


@dataclass(frozen=True, slots=True)
class MainWork:
    """What a way out leads to: its campaign, and the first and last day of spreading, sowing and
    planting.

    The days are None where there is none of these; `undone` where a part of the fill is left out.
    """

    campaign: Message
    first: date | None
    last: date | None
    undone: bool = False


@dataclass(frozen=True, slots=True)
class _ChangedBrief:
    """A brief with something else asked for: what that is, how the brief says it, and the whole
    brief."""

    title: Message
    lines: Message
    brief: Brief


def ways_out(
    brief: Brief, setting: ResolvedLawn, tried: Callable[[Brief], MainWork | None]
) -> tuple[Option, ...]:
    """Changes of the brief that can be dated by every rule, nearest to the wish first; each leads
    somewhere of its own.

    `tried` dates a changed brief as the planner itself does, and gives None where that cannot be
    done.
    """
    found: dict[Message, Option] = {}
    for change in _changes(brief, setting):
        try:
            work = tried(change.brief)
        except TurfplanError:
            # This way contradicts the book (for example seed for a grass that has none): it is no
            # option.
            continue
        if work is not None and (reason := _leads_to(work)) not in found:
            found[reason] = Option(title=change.title, reason=reason, change=change.lines)
        if len(found) == MOST_OPTIONS:
            break
    return tuple(found.values())


def whole_fill(
    brief: Brief,
    setting: ResolvedLawn,
    campaigns: Sequence[CampaignName],
    tried: Callable[[Brief], MainWork | None],
) -> Option | None:
    """The first change of a brief by which all of its fill is done: another of the `campaigns`,
    leveling alone, or a start next year."""
    for change in _for_the_whole(brief, setting, campaigns):
        try:
            work = tried(change.brief)
        except TurfplanError:
            continue
        if work is not None and work.first is not None and not work.undone:
            return Option(title=change.title, reason=_leads_to(work), change=change.lines)
    return None


def _for_the_whole(
    brief: Brief, setting: ResolvedLawn, campaigns: Sequence[CampaignName]
) -> Iterator[_ChangedBrief]:
    for name in campaigns if brief.season.campaign == "auto" else ():
        yield _ChangedBrief(
            phrases.whole_fill(),
            as_written(f'campaign = "{name}"'),
            _with(brief, "season", campaign=name),
        )
    if brief.seeding.intent != "none":
        yield next(_one_after_the_other(brief, setting))
    yield _starting_next_year(brief, setting)


def _leads_to(work: MainWork) -> Message:
    if work.first is None or work.last is None:
        return phrases.campaign_alone(campaign=work.campaign)
    return phrases.campaign_dated(campaign=work.campaign, days=Days(work.first, work.last))


def _with(brief: Brief, part: str, **values: Any) -> Brief:
    return brief.model_copy(update={part: getattr(brief, part).model_copy(update=values)})


def _changes(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Every way that the brief leaves open, nearest to the wish first."""
    yield from _with_a_pot_test(brief, setting)
    yield from _with_more_sun(brief, setting)
    yield from _without_thatch(brief, setting)
    yield from _with_more_choice(brief)
    yield from _with_more_hands(brief, setting)
    # What fits inside the owner's days comes before more of them.
    yield from _with_less_work(brief, setting)
    yield from _one_after_the_other(brief, setting)
    yield from _on_bare_ground(brief, setting)
    yield from _with_sod(brief, setting)
    yield from _with_more_days(brief)
    yield from _with_a_later_end(brief, setting)
    yield _starting_next_year(brief, setting)


def _starting_next_year(brief: Brief, setting: ResolvedLawn) -> _ChangedBrief:
    start = _next_year(brief, setting)
    return _ChangedBrief(
        phrases.next_year(),
        _from_then_on(brief, f"from = {start}"),
        _with(brief, "season", start=start, until=None),
    )


def _with_more_choice(brief: Brief) -> Iterator[_ChangedBrief]:
    """Any campaign."""
    if brief.season.campaign != "auto":
        yield _ChangedBrief(
            phrases.any_campaign(),
            as_written('campaign = "auto"'),
            _with(brief, "season", campaign="auto"),
        )


def _with_a_later_end(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Another year, where the owner gave the end; one that was assumed holds nothing up."""
    if brief.season.until is None:
        return
    later = brief.season.until + timedelta(days=366)
    if later > setting.today:
        yield _ChangedBrief(
            phrases.more_time(),
            as_written(f"until = {later}"),
            _with(brief, "season", until=later),
        )


def _with_more_hands(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Twice the people, machines that spread, a contractor, and water that runs by itself."""
    work, people = brief.work, 2 * setting.labour.people
    if brief.leveling.depth_mm or brief.leveling.lows or brief.leveling.survey:
        yield _ChangedBrief(
            phrases.more_people(n=people),
            as_written(f"people = {people}"),
            _with(brief, "work", people=people),
        )
        if not {"topdresser", "loader"}.issubset(work.machines):
            machines = tuple(dict.fromkeys((*work.machines, "topdresser", "loader")))
            yield _ChangedBrief(
                phrases.machines_that_spread(),
                as_written(f"machines = {list(machines)}".replace("'", '"')),
                _with(brief, "work", machines=machines),
            )
    if work.by != "contractor":
        yield _ChangedBrief(
            phrases.a_contractor(),
            as_written('by = "contractor"'),
            _with(brief, "work", by="contractor"),
        )
    if not brief.water.timer and by_hand(brief.water) and brief.seeding.intent != "none":
        yield _ChangedBrief(
            phrases.a_timer(), as_written("timer = true"), _with(brief, "water", timer=True)
        )


def _with_sod(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Sod where seed has no season, if the grass is sold as such."""
    seeded = brief.seeding.intent in ("overseed", "renovate", "patch")
    if seeded and "sod" in setting.sowing.grass.plantable and brief.season.until is not None:
        yield _ChangedBrief(
            phrases.sod_instead(),
            as_written('intent = "plant", form = "sod"'),
            _with(brief, "seeding", intent="plant", form="sod"),
        )


def _with_less_work(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Seed that waits for spring, the hollows alone, and half of the fill."""
    grass = setting.turf.species
    sown = brief.seeding.intent in ("overseed", "renovate", "patch")
    if grass.season == "cool" and sown and grass.seedable:
        yield _ChangedBrief(
            phrases.sow_dormant(),
            as_written('intent = "dormant"'),
            _with(brief, "seeding", intent="dormant"),
        )
    if brief.leveling.depth_mm and brief.leveling.lows:
        yield _ChangedBrief(
            phrases.hollows_only(),
            phrases.leave_out(table="leveling.depth"),
            _with(brief, "leveling", depth_mm=None),
        )
    if brief.leveling.depth_mm:
        half_mm, depth = _written(brief.leveling.depth_mm / 2, setting.system)
        if half_mm:
            yield _ChangedBrief(
                phrases.half_as_deep(),
                as_written(f'depth = "{depth}"'),
                _with(brief, "leveling", depth_mm=half_mm),
            )


def _on_bare_ground(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Where grass never grows through a pass: the fill laid on bare ground, and a new stand."""
    fills = brief.leveling.depth_mm or brief.leveling.lows or brief.leveling.survey
    if not fills or setting.on_open_ground or not setting.never_opens("topdress"):
        return
    renovated = _with(brief, "seeding", intent="renovate")
    lines = 'intent = "renovate"'
    if brief.water.possible is False:
        renovated = _with(renovated, "water", possible=True)
        lines += ", possible = true"
    yield _ChangedBrief(phrases.start_anew(), as_written(lines), renovated)


def _with_more_days(brief: Brief) -> Iterator[_ChangedBrief]:
    """Days of work and of watering that the brief rules out."""
    calendar, water = brief.calendar, brief.water
    if calendar.weekdays is not None and len(calendar.weekdays) < 7:
        yield _ChangedBrief(
            phrases.any_weekday(),
            as_written(f"weekdays = {list(WEEKDAYS)}".replace("'", '"')),
            _with(brief, "calendar", weekdays=WEEKDAYS),
        )
    if calendar.away or calendar.unavailable:
        yield _ChangedBrief(
            phrases.stay_at_home(),
            as_written("away = []"),
            _with(brief, "calendar", away=(), unavailable=()),
        )
    if water.allowed_weekdays is not None and water.permit is False:
        yield _ChangedBrief(
            phrases.water_permit(),
            as_written("permit = true"),
            _with(brief, "water", permit=True),
        )


def _one_after_the_other(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Level and sow in seasons of their own."""
    leveling = brief.leveling
    if brief.seeding.intent == "none" or not (leveling.depth_mm or leveling.lows):
        return
    yield _ChangedBrief(
        phrases.level_now(), as_written('intent = "none"'), _with(brief, "seeding", intent="none")
    )
    never = setting.never_opens("topdress") and not setting.on_open_ground
    yield _ChangedBrief(
        phrases.sow_alone() if never else phrases.sow_now(),
        phrases.leave_out(table="[leveling]"),
        _with(brief, "leveling", depth_mm=None, lows=()),
    )


def _next_year(brief: Brief, setting: ResolvedLawn) -> date:
    """The beginning of the next growing year after today, or after the first day that the brief
    asks for."""
    after = max(setting.today, brief.season.start or setting.today)
    return next_growing_year(setting.book, after, southern=setting.climate.southern)


def _with_a_pot_test(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Where something in the soil lets nothing grow: seed once it has grown in a pot of it."""
    if not any(hold.until is None for hold in setting.holds):
        return
    start = max(setting.today, brief.season.start or setting.today)
    after = start + timedelta(days=round(setting.book.si("site.pot_test")))
    waiting = {hold.number for hold in setting.holds if hold.until is None}
    uses = tuple(
        use.model_copy(update={"seed_after": after}) if number in waiting else use
        for number, use in enumerate(brief.history.herbicides, 1)
    )
    yield _ChangedBrief(
        pot_passed(),
        as_written(f"seed_after = {after}"),
        _with(brief, "history", herbicides=uses),
    )


def _with_more_sun(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """Where it is too dark for what is sown: another grass, other plants, or more light."""
    light, grass = setting.plot.light, setting.turf.species
    if light is None or setting.sowing.refused is None or light.hours is None:
        return
    for other in light.others(grass.season) if not light.dark else ():
        entry, name = setting.book.species[other], grass_name(setting.book, other)
        intent = brief.seeding.intent
        if not entry.seedable or (intent == "plant" and entry.plantable):
            intent = "plant"
        yield _ChangedBrief(
            phrases.other_grass(grass=name),
            as_written(f'species = "{other}", intent = "{intent}"'),
            _with(brief, "seeding", species=other, intent=intent, form=None),
        )
    needed = max(light.least_h, light.needs_h(setting.sowing.grass.id))
    if light.hours < needed:
        yield _ChangedBrief(
            phrases.more_sun(hours=hours_of(needed)),
            as_written(f"sun_hours = {needed:g}"),
            _with(brief, "site", sun_hours=needed, shade_hours=None),
        )


def _without_thatch(brief: Brief, setting: ResolvedLawn) -> Iterator[_ChangedBrief]:
    """The two ways with turf that is a sponge: strip it, or take the thatch down for a season and
    level it then.
    """
    book, thatch, grass = setting.book, brief.lawn.thatch_mm, setting.turf.species
    sponge = thatch is not None and thatch >= book.si(strip_limit(grass)) - 1e-6
    if not sponge or brief.lawn.condition == "bare":
        return
    if grass.seedable:
        yield _ChangedBrief(
            phrases.strip_turf(),
            as_written('intent = "renovate"'),
            _with(brief, "seeding", intent="renovate"),
        )
    else:
        yield _ChangedBrief(
            phrases.strip_turf_first(),
            as_written('condition = "bare", thatch = "0 in", intent = "plant"'),
            _with(_with(brief, "lawn", condition="bare", thatch_mm=0.0), "seeding", intent="plant"),
        )
    if grass.dethatch != "never":
        start = _next_year(brief, setting)
        left, depth = _written(book.si("dethatch.limit"), setting.system)
        lighter = _with(brief, "lawn", thatch_mm=left)
        yield _ChangedBrief(
            _thatch_first(setting, start),
            _from_then_on(brief, f'from = {start}, thatch = "{depth}"'),
            _with(lighter, "season", start=start, until=None),
        )


def _written(depth_mm: float, system: System) -> tuple[float, str]:
    """A depth, at most so much, as a brief writes it, and what that is in mm."""
    if system is System.US:
        eighths = math.floor(depth_mm / INCH_MM * 8 + 1e-6)
        return eighths * INCH_MM / 8, f"{eighths / 8:g} in"
    whole = math.floor(depth_mm + 1e-6)
    return float(whole), f"{whole} mm"


def _from_then_on(brief: Brief, lines: str) -> Message:
    """Lines of a later start; an end that the owner gave would lie before it, and goes."""
    if brief.season.until is None:
        return as_written(lines)
    return phrases.and_leave_out(change=as_written(lines), table="until")


def _thatch_first(setting: ResolvedLawn, before: date) -> Message:
    """Taking the thatch down in the seasons that this grass has for it before a day."""
    seasons = [w for w in setting.open("dethatch") if w.start < before]
    if not seasons:
        return phrases.thatch_first_next()
    spans = (Days(max(w.start, setting.today), w.end, weekday=False) for w in seasons)
    return phrases.thatch_first(days=listed(spans, "and"))
