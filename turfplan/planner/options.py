"""Ways out when a plan cannot be done as asked, each dated by every rule before it is offered."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from turfplan.brief import WEEKDAYS, Brief, Intent
from turfplan.errors import TurfplanError
from turfplan.plan import Option
from turfplan.rules.setting import Setting
from turfplan.units import INCH_MM, System
from turfplan.wording import days_text

MOST_OPTIONS = 5


@dataclass(frozen=True, slots=True)
class MainWork:
    """What a way out leads to: its campaign, and the first and last day of spreading, sowing and planting (None: there is none)."""

    campaign: str
    first: date | None
    last: date | None


def ways_out(brief: Brief, setting: Setting, tried: Callable[[Brief], MainWork | None]) -> tuple[Option, ...]:
    """Changes of the brief that can be dated by every rule, nearest to the wish first; each leads somewhere of its own.

    `tried` dates a changed brief as the planner itself does, and gives None where that cannot be done.
    """
    found: dict[str, Option] = {}
    for title, change, altered in _changes(brief, setting):
        try:
            work = tried(altered)
        except TurfplanError:
            # This way contradicts the book (for example seed for a grass that has none): it is no option.
            continue
        if work is not None and (reason := _told(work, setting.system)) not in found:
            found[reason] = Option(title=title, reason=reason, change=change)
        if len(found) == MOST_OPTIONS:
            break
    return tuple(found.values())


def _told(work: MainWork, system: System) -> str:
    if work.first is None or work.last is None:
        return f"Then it is {work.campaign}."
    return f"Checked: {work.campaign}, main work from {days_text(work.first, work.last, system)}."


def _with(brief: Brief, part: str, **values: Any) -> Brief:
    return brief.model_copy(update={part: getattr(brief, part).model_copy(update=values)})


def _changes(brief: Brief, setting: Setting) -> Iterator[tuple[str, str, Brief]]:
    season, seeding, leveling = brief.season, brief.seeding, brief.leveling
    book, today, southern = setting.book, setting.today, setting.climate.southern
    yield from _without_thatch(brief, setting, _next_year(brief, today, southern))
    if season.campaign != "auto":
        yield "Let the planner choose the campaign", 'campaign = "auto"', _with(brief, "season", campaign="auto")
    end = season.until or (season.start or today) + timedelta(days=round(book.si("setting.horizon_days")))
    later = end + timedelta(days=366)
    if later > today:
        yield "Give it one more year", f"until = {later}", _with(brief, "season", until=later)
    cool = book.species[brief.dominant.species].season == "cool"
    if cool and seeding.intent in ("overseed", "renovate", "patch") and book.species[brief.dominant.species].seedable:
        yield "Sow dormant: seed that waits for spring", 'intent = "dormant"', _with(brief, "seeding", intent="dormant")
    if leveling.depth_mm:
        half = leveling.depth_mm / 2
        yield (
            "Fill half as deep now, the rest another year",
            'depth = "half of it"',
            _with(brief, "leveling", depth_mm=half),
        )
    if brief.calendar.weekdays is not None and len(brief.calendar.weekdays) < 7:
        yield "Work on any day of the week", 'weekdays = ["mon", …, "sun"]', _with(brief, "calendar", weekdays=WEEKDAYS)
    if brief.calendar.away or brief.calendar.unavailable:
        yield (
            "Be there, or have somebody water, while you are away",
            "away = []",
            _with(brief, "calendar", away=(), unavailable=()),
        )
    if brief.water.allowed_weekdays is not None and not brief.water.permit:
        yield "Get a permit to water new seed", "permit = true", _with(brief, "water", permit=True)
    if seeding.intent not in ("none",) and (leveling.depth_mm or leveling.lows):
        yield "Level now, sow another season", 'intent = "none"', _with(brief, "seeding", intent="none")
    if seeding.intent not in ("none",) and (leveling.depth_mm or leveling.lows):
        without = brief.model_copy(update={"leveling": leveling.model_copy(update={"depth_mm": None, "lows": ()})})
        yield "Sow now, level another season", "leave out [leveling]", without
    start = _next_year(brief, today, southern)
    yield "Start next year", f"from = {start}", _with(brief, "season", start=start, until=None)


def _next_year(brief: Brief, today: date, southern: bool) -> date:
    """The beginning of the next growing year: in March north of the equator, in September south of it."""
    return date(max(today, brief.season.start or today).year + 1, 9 if southern else 3, 1)


def _without_thatch(brief: Brief, setting: Setting, next_year: date) -> Iterator[tuple[str, str, Brief]]:
    """The two ways with turf that is a sponge: strip it, or take the thatch down for a season and level it then."""
    book, thatch, grass = setting.book, brief.lawn.thatch_mm, setting.species
    if thatch is None or thatch < book.si("dethatch.strip_limit") - 1e-6 or brief.lawn.condition == "bare":
        return
    intent: Intent = "renovate" if grass.seedable else "plant"
    yield (
        "Strip the old turf with its thatch, and start anew on bare ground",
        f'condition = "bare", thatch = "0 in", intent = "{intent}"',
        _with(_with(brief, "lawn", condition="bare", thatch_mm=0.0), "seeding", intent=intent),
    )
    if grass.dethatch != "never":
        left = book.si("dethatch.limit")
        said = f"{left / INCH_MM:g} in" if setting.system is System.US else f"{left:.0f} mm"
        lighter = _with(brief, "lawn", thatch_mm=left)
        yield (
            "Dethatch hard this season, once in spring or early summer and once in autumn, measure again, and level next year",
            f'from = {next_year}, thatch = "{said}"',
            _with(lighter, "season", start=next_year, until=None),
        )
