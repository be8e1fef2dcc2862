"""Ways out when a plan cannot be done as asked, each planned through before it is offered."""

from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta
from typing import Any

from turfplan.agronomy import Book
from turfplan.brief import WEEKDAYS, Brief
from turfplan.climate.record import Climate
from turfplan.errors import TurfplanError
from turfplan.plan import Option, Plan

MOST_OPTIONS = 5


def ways_out(
    brief: Brief, book: Book, climate: Climate, now: datetime, ground: Any, make: Callable[..., Plan]
) -> tuple[Option, ...]:
    """Changes of the brief that lead to a sound plan, nearest to the wish first; `make` is the planner itself."""
    found: list[Option] = []
    for title, change, altered in _changes(brief, book, now.date(), climate.southern):
        try:
            plan = make(altered, book, climate, now=now, ground=ground, options=False)
        except TurfplanError:
            # This way contradicts the book (for example seed for a grass that has none): it is no option.
            continue
        if plan.conflict is None:
            found.append(Option(title=title, reason=_told(plan), change=change))
        if len(found) == MOST_OPTIONS:
            break
    return tuple(found)


def _told(plan: Plan) -> str:
    coming = [t for t in plan.tasks if t.closed is None and t.status != "CANCELLED"]
    work = [t for t in coming if t.plays("spreading", "sowing", "planting")]
    if not work:
        return f"Then it is {plan.campaign_name}."
    first, last = min(t.start for t in work), max(t.end for t in work)
    return f"Checked: {plan.campaign_name}, main work from {first:%a} {first.day} {first:%b %Y} to {last:%a} {last.day} {last:%b %Y}."


def _with(brief: Brief, part: str, **values: Any) -> Brief:
    return brief.model_copy(update={part: getattr(brief, part).model_copy(update=values)})


def _changes(brief: Brief, book: Book, today: date, southern: bool) -> Iterator[tuple[str, str, Brief]]:
    season, seeding, leveling = brief.season, brief.seeding, brief.leveling
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
    # The growing year begins in March north of the equator, in September south of it.
    start = date(max(today, season.start or today).year + 1, 9 if southern else 3, 1)
    yield "Start next year", f"from = {start}", _with(brief, "season", start=start, until=None)
