"""The days on which a look for a cause has something to see."""

from collections.abc import Callable, Collection, Iterator, Mapping
from datetime import date, timedelta
from types import MappingProxyType

from turfplan.calendar_days import DAYS, HALF_A_YEAR, WEEKDAYS, day_index
from turfplan.message import Message
from turfplan.phrases import prepare as phrases
from turfplan.records.book_names import CauseSeen, FactName, ThinCause
from turfplan.records.constraints import Reason
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.doubts import LOOKS as DOUBTS

Spans = tuple[tuple[int, int], ...]
# The key of the second count of grubs, once the next ones have hatched.
HATCHED = "hatched"
# The look for a cause that was found alive.
LOOKED_AGAIN = "diagnose.again"


def answered_looks(
    done: Mapping[str, int], skipped: Collection[str], alive_until: int | None
) -> frozenset[str]:
    """The ids of looks for a cause that are over, done or skipped: nothing waits for them any more;
    and those of looks into what an order waits for, which count where they were made.

    `done` holds ordinals by id. Another look counts from the day (an ordinal) on which what was
    found alive is due to be looked for again.
    """
    due = alive_until or 0
    over = {task for task, day in done.items() if task != LOOKED_AGAIN or day >= due}
    causes = (task for task in over.union(skipped) if task.split(".")[0] == "diagnose")
    return frozenset(causes) | DOUBTS.intersection(over)


_WHY: Mapping[CauseSeen, tuple[Callable[[], Message], tuple[FactName, ...]]] = MappingProxyType(
    {
        "growth": (phrases.seen_growth, ("water.dormant_growth",)),
        "warmth": (phrases.seen_warmth, ("site.insects_warm", "site.cool_summer")),
        "surface": (phrases.seen_surface, ("site.grubs_soil", "site.grubs_gone_to")),
    }
)


def spans_seen(setting: ResolvedLawn, cause: ThinCause, opens: int) -> Spans:
    """The stretches of days of the plan, from `opens` on (an ordinal), on which a cause shows.

    Empty where it shows on any day. Where no day is warm enough, what lives in the grass shows
    while that grows.
    """
    shows = _shows(setting, seen_as(setting, cause))
    if shows is None:
        return ()
    return tuple(_stretches(opens, setting.last_day, shows)) or tuple(
        _stretches(opens, setting.last_day, lambda day: _grows(setting, day))
    )


def clearest(
    setting: ResolvedLawn, cause: ThinCause, opens: int, work: OpenDays | None
) -> int | None:
    """The first day (an ordinal) on which a cause shows best, where the best day of the
    work leaves the time to act on it; None where no day is better than others.

    What kills cool-season grass in hot summers spreads in warm weeks, diseases of warm-season grass
    in spring and autumn too; nobody who looks at St. Augustinegrass in February finds chinch bugs.
    """
    entry = setting.book.causes[cause]
    best, there = entry.clearest, entry.clearest_in == setting.turf.species.season
    if best is None or work is None or not there or _cool_summer(setting):
        return None
    shows = _shows(setting, best)
    spans = [] if shows is None else list(_stretches(opens, setting.last_day, shows))
    lead = setting.days("order.diagnose_lead")
    return spans[0][0] if spans and spans[0][0] + lead <= work.best.toordinal() else None


def seen_as(setting: ResolvedLawn, cause: ThinCause) -> CauseSeen:
    """When a cause can be seen here: where no month is hot, insects eat from autumn to spring, and
    are looked for in any weeks of growth."""
    seen = setting.book.causes[cause].seen
    return "growth" if seen == "warmth" and _cool_summer(setting) else seen


def _cool_summer(setting: ResolvedLawn) -> bool:
    return max(setting.climate.air_mean_c) < setting.book.si("site.cool_summer")


def why_then(setting: ResolvedLawn, cause: ThinCause) -> Reason | None:
    """Why a look for a cause keeps to its days; None where it may stand on any."""
    told = _WHY.get(seen_as(setting, cause))
    return None if told is None else Reason("cause.seen", told[0](), told[1])


def hatched(setting: ResolvedLawn, spans: Spans, work: OpenDays | None) -> Spans:
    """The stretches in which the grubs of the next beetles are counted before the work of some
    days.

    Empty where the first count is of those grubs, or the work has to come before they hatch, or so
    soon after that a count and what follows from it would leave it no days.
    """
    if work is None or not spans:
        return ()
    # A week may pass until a day of work, for the count as for the work.
    lead = setting.days("order.diagnose_lead") + 2 * len(WEEKDAYS)
    later = [
        start
        for start, _ in spans[1:]
        if start <= min(work.best.toordinal(), work.end.toordinal() - lead)
        and _beetles(setting, date.fromordinal(start - 1))
    ]
    return tuple(span for span in spans if span[0] >= later[-1]) if later else ()


def _shows(setting: ResolvedLawn, seen: CauseSeen) -> Callable[[date], bool] | None:
    book, climate = setting.book, setting.climate
    match seen:
        case "growth":
            return lambda day: _grows(setting, day)
        case "warmth":
            return lambda day: _warm(setting, day)
        case "surface":
            up = book.si("site.grubs_soil")
            return lambda day: climate.soil_c(day) >= up and not _beetles(setting, day)
        case "ground":
            return None


def _warm(setting: ResolvedLawn, day: date) -> bool:
    """Whether insects are at work: from warm weeks in spring on, until autumn is cool."""
    air, week = setting.climate.air_c, timedelta(len(WEEKDAYS))
    cooling = air(day + week) < air(day - week)
    mark: FactName = "site.insects_gone" if cooling else "site.insects_warm"
    return air(day) >= setting.book.si(mark)


def _grows(setting: ResolvedLawn, day: date) -> bool:
    season, least = setting.turf.species.season, setting.book.si("water.dormant_growth")
    return setting.climate.growth_potential(day, season) >= least


def _beetles(setting: ResolvedLawn, day: date) -> bool:
    """Whether grubs are beetles or eggs on a day of the year, half a year later in the south.

    Where the months hardly differ there are grubs of every age on any day.
    """
    warmth = setting.climate.air_mean_c
    if max(warmth) - min(warmth) < setting.book.si("windows.even_year"):
        return False
    first, last = (setting.days(name) - 1 for name in _BEETLES)
    index = day_index(day) + (HALF_A_YEAR if setting.climate.southern else 0)
    return first <= index % DAYS <= last


_BEETLES: tuple[FactName, FactName] = ("site.grubs_gone_from", "site.grubs_gone_to")


def _stretches(first: int, last: int, holds: Callable[[date], bool]) -> Iterator[tuple[int, int]]:
    """The runs of days (ordinals) from `first` to `last` for which something holds."""
    begun: int | None = None
    for day in range(first, last + 1):
        if holds(date.fromordinal(day)):
            begun = day if begun is None else begun
        elif begun is not None:
            yield begun, day - 1
            begun = None
    if begun is not None:
        yield begun, last
