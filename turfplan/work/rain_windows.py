"""Windows of a lawn where the months are alike, or where nobody waters: rain decides, not the
calendar."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from operator import itemgetter

from turfplan.calendar_days import DAYS, day_index
from turfplan.climate.growth import Bell
from turfplan.climate.record import Climate
from turfplan.message import Days, Message, sentences
from turfplan.phrases import windows as phrases
from turfplan.records.book_names import FactName, OperationName, option_of_species
from turfplan.records.constraints import DaySet
from turfplan.records.plan_task import Role
from turfplan.work.drafts import OpenDays
from turfplan.work.feeding.stages import Quiet
from turfplan.work.growing_year import growing_year
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.seed_mix import slowest
from turfplan.work.watering.rain_fed import (
    RAIN_FACTS,
    days_without,
    grows_over,
    kept_wet,
    rain_share,
    washes_out,
    water_share,
)
from turfplan.work.watering.request import roots_of
from turfplan.work.watering.verdict import days_kept_wet
from turfplan.work.windows import ClosedWindow
from turfplan.work.year_seasons import season_of

YOUNG: frozenset[Role] = frozenset({"sowing", "planting"})
RELAID: Role = "relaying"
OPENED_OR_COVERED: frozenset[Role] = frozenset(
    {"low_cut", "coring", "thatching", "spreading", "relaying", "mending"}
)
"""What living turf has to heal from or to grow through."""
FED: Role = "feeding"
GROWS_FACTS: tuple[FactName, ...] = ("water.grows_over", "water.grows_over_days")


@dataclass(frozen=True, slots=True)
class _RainAsked:
    """What work needs of usual rain: the days of the year (365 places) that have it, what is said
    of a window that is cut to them, and of one that has none of them."""

    held: Sequence[bool]
    cut: Callable[[], Message]
    none: Callable[[], Message]
    facts: tuple[FactName, ...]


def climate_of_lawn(setting: ResolvedLawn) -> Climate:
    """The climate of a lawn with the growth of its grass: of one that has a curve of its own, and
    of one that nobody waters."""
    book, species, climate = setting.book, setting.turf.species, setting.climate
    best, width = (
        book.get(option_of_species(species.id, "growth_best")),
        book.get(option_of_species(species.id, "growth_width")),
    )
    if best is not None and width is not None:
        climate = replace(climate, warm_bell=Bell(best.si, width.si))
    if setting.brief.water.possible is not False:
        return climate
    root_mm = roots_of(book, setting.brief.site.rock_depth_mm)
    share = water_share(book, climate, species.season, setting.plot.soil, root_mm)
    return replace(climate, water_share=share)


def on_rain(
    setting: ResolvedLawn, windows: Sequence[OpenDays]
) -> tuple[list[OpenDays], list[ClosedWindow]]:
    """The windows as far as usual rain bears their work where nobody waters, each told which of its
    operation follows, and those of which rain leaves nothing.

    Where months are alike, what is open all year is counted from the first day of the plan, on any
    lawn.
    """
    found: list[tuple[int, OpenDays]] = []
    closed: list[ClosedWindow] = []
    rules: dict[tuple[OperationName, str], list[tuple[int, OpenDays]]] = {}
    for place, window in enumerate(windows):
        rules.setdefault((window.operation, window.rule), []).append((place, window))
    first = date.fromordinal(setting.first_day)
    even = growing_year(setting.climate, setting.book, setting.turf.species.id).even
    for (operation, rule), placed in rules.items():
        known = [window for _, window in placed]
        need = _need(setting, operation, known)
        left: list[tuple[int, OpenDays]] = []
        for place, run in _runs(placed) if even else placed:
            parts = [run] if need is None else list(_on_held(setting, run, need))
            left += [
                (place, cut) for part in parts for cut in _from_first_day(setting, part, first)
            ]
        if need is not None and not left and _reaches(known, setting):
            closed.append(ClosedWindow(operation, rule, need.none()))
        found += left
    # In the order in which they were given.
    ordered = [window for _, window in sorted(found, key=itemgetter(0))]
    dry = setting.brief.water.possible is False
    return (_followed(ordered) if dry else ordered), closed


def _reaches(windows: Iterable[OpenDays], setting: ResolvedLawn) -> bool:
    """Whether a window has days that are still to come."""
    return any(window.end.toordinal() >= setting.first_day for window in windows)


def _need(
    setting: ResolvedLawn, operation: OperationName, windows: Sequence[OpenDays]
) -> _RainAsked | None:
    """What an operation needs of rain; None where somebody waters, or it needs nothing."""
    if setting.brief.water.possible is not False or operation == "dormant_seed":
        return None
    book, roles = setting.book, setting.book.operations[operation].roles
    if not YOUNG.isdisjoint(roles):
        if not setting.sowing.needs_water:
            return None
        grass = slowest(book, setting.sowing.grasses)
        held = days_kept_wet(setting.brief, book, setting.climate, grass)
        return _RainAsked(held, phrases.cut_to_wet, phrases.never_wet, RAIN_FACTS)
    if RELAID in roles and (wet := _wet_to_root(setting, windows)) is not None:
        facts: tuple[FactName, ...] = (*RAIN_FACTS, "water.rooting_days")
        return _RainAsked(wet, phrases.cut_to_wet, phrases.never_wet, facts)
    on_turf = not setting.on_open_ground and not OPENED_OR_COVERED.isdisjoint(roles)
    if on_turf or FED in roles:
        held = turf_grows_over(setting)
        return _RainAsked(held, phrases.cut_to_grown, phrases.never_grown, GROWS_FACTS)
    return None


def _wet_to_root(setting: ResolvedLawn, windows: Sequence[OpenDays]) -> tuple[bool, ...] | None:
    """On which days of the year usual rain keeps turf that is relaid as wet as sod until it roots.

    None where that is on no day of its windows: on a slab of its own soil it then roots as long as
    usual turf grows.
    """
    days = round(setting.book.fact("water.rooting_days").high_si)
    share = rain_share(setting.book, setting.climate, days, days)
    wet = kept_wet(setting.book, setting.climate, setting.turf.species.season, share)
    first, last = setting.first_day, setting.last_day
    spans = ((max(first, w.start.toordinal()), min(last, w.end.toordinal())) for w in windows)
    known = (wet[day_index(date.fromordinal(d))] for a, b in spans for d in range(a, b + 1))
    return wet if any(known) else None


def turf_grows_over(setting: ResolvedLawn) -> tuple[bool, ...]:
    """On which days of the year (365 places) the turf of a lawn has water to grow over work."""
    share = setting.climate.water_share
    return (True,) * DAYS if share is None else grows_over(setting.book, share)


def turf_dry_days(setting: ResolvedLawn) -> tuple[tuple[int, int], ...]:
    """The stretches of days (ordinals) of the plan on which turf that nobody waters does not."""
    return days_without(turf_grows_over(setting), setting.first_day, setting.last_day)


def dry_in_bans(setting: ResolvedLawn) -> frozenset[int]:
    """The days (ordinals) of bans of watering on which usual rain alone lets turf grow too little.

    Those of bans before the plan are among them.
    """
    bans = setting.brief.water.banned
    if not bans:
        return frozenset()
    book, root_mm = setting.book, roots_of(setting.book, setting.brief.site.rock_depth_mm)
    season, soil = setting.turf.species.season, setting.plot.soil
    share = water_share(book, setting.climate, season, soil, root_mm)
    least = book.si("water.grows_over")
    days = (d for ban in bans for d in range(ban.start.toordinal(), ban.end.toordinal() + 1))
    return frozenset(d for d in days if share[day_index(date.fromordinal(d))] < least)


def turf_days_in_bans(setting: ResolvedLawn) -> tuple[tuple[int, int], ...]:
    """The stretches of days (ordinals) on which no work is done that turf has to grow over, since
    it would dry out in a ban before it has."""
    weeks = setting.days("water.grows_over_days")
    dry = dry_in_bans(setting)
    return DaySet.from_days(sorted({d - k for d in dry for k in range(weeks + 1)})).ranges


def unfed_days(setting: ResolvedLawn) -> tuple[Quiet, ...]:
    """The days of the plan on which a lawn that nobody waters, or may water, takes up no feeding:
    its grass is dry, or usual rain washes it out."""
    if setting.brief.water.possible is not False:
        banned = DaySet.from_days(sorted(dry_in_bans(setting))).ranges
        spans_of_bans = ((date.fromordinal(a), date.fromordinal(b)) for a, b in banned)
        return tuple(Quiet(a, b, phrases.unfed_banned()) for a, b in spans_of_bans)
    first, last = setting.first_day, setting.last_day
    kept = [not washed for washed in washes_out(setting.book, setting.climate)]
    spans = (
        *((a, b, phrases.unfed_dry()) for a, b in turf_dry_days(setting)),
        *((a, b, phrases.unfed_washed()) for a, b in days_without(kept, first, last)),
    )
    return tuple(Quiet(date.fromordinal(a), date.fromordinal(b), why) for a, b, why in spans)


def _runs(windows: Iterable[tuple[int, OpenDays]]) -> Iterator[tuple[int, OpenDays]]:
    """Windows of one rule with their places; those that follow each other, but for a leap day, as
    one."""
    run: tuple[int, OpenDays] | None = None
    for place, window in sorted(windows, key=lambda w: w[1].start):
        if run is not None and timedelta() < window.start - run[1].end <= timedelta(2):
            run = (run[0], replace(run[1], end=window.end, best=run[1].start))
            continue
        if run is not None:
            yield run
        run = (place, window)
    if run is not None:
        yield run


def _on_held(setting: ResolvedLawn, window: OpenDays, need: _RainAsked) -> Iterator[OpenDays]:
    """The stretches of a window on which rain bears its work, each long enough to be a window."""
    days = (window.end - window.start).days + 1
    held = [need.held[day_index(window.start + timedelta(n))] for n in range(days)]
    if all(held):
        yield window
        return
    least = setting.days("windows.least_days")
    edges = [0, *(n for n in range(1, days) if held[n] != held[n - 1]), days]
    for begin, stop in pairwise(edges):
        if not held[begin] or stop - begin < least:
            continue
        start, end = window.start + timedelta(begin), window.start + timedelta(stop - 1)
        yield replace(
            _placed(setting, window, start, end),
            reason=sentences(window.reason, need.cut()),
            facts=tuple(dict.fromkeys((*window.facts, *need.facts))),
        )


def _placed(setting: ResolvedLawn, window: OpenDays, start: date, end: date) -> OpenDays:
    """A part of a window: its best day stays where it can.

    It is the first where rain comes after it, and the middle where rain goes before it.
    """
    middle = start + (end - start) / 2
    best = window.best if start <= window.best <= end else max(start, min(window.best, middle))
    season = season_of(setting.book, best, southern=setting.climate.southern)
    return replace(window, start=start, end=end, best=best, season=season)


def _from_first_day(setting: ResolvedLawn, window: OpenDays, first: date) -> Iterator[OpenDays]:
    """A window; one that is open for more than a year, in years from the first day of the plan."""
    year = timedelta(DAYS)
    if window.end - window.start < year:
        yield window
        return
    start = max(window.start, first)
    while start <= window.end:
        end = min(start + year - timedelta(1), window.end)
        yield replace(_placed(setting, window, start, end), best=start)
        start += year


def _followed(windows: Iterable[OpenDays]) -> list[OpenDays]:
    """Windows in order of time, each with the days on which its operation is open again."""
    ordered = sorted(windows, key=lambda w: (w.start, w.operation))
    told: list[OpenDays] = []
    for window in ordered:
        later = _later(window, ordered)
        after = None if later is None else Days(later.start, later.end, weekday=False)
        told.append(replace(window, after=after))
    return told


def _later(window: OpenDays, ordered: Iterable[OpenDays]) -> OpenDays | None:
    return next(
        (w for w in ordered if w.operation == window.operation and w.start > window.end), None
    )
