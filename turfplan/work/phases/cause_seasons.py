"""The days on which a look for a cause has something to see."""

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from types import MappingProxyType

from turfplan.calendar_days import DAYS, HALF_A_YEAR, day_index
from turfplan.message import Message
from turfplan.phrases import prepare as phrases
from turfplan.records.book_names import CauseSeen, FactName, ThinCause
from turfplan.records.constraints import Reason
from turfplan.work.lawn import ResolvedLawn

Spans = tuple[tuple[int, int], ...]
# The key of the second count of grubs, once the next ones have hatched.
HATCHED = "hatched"
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


def seen_as(setting: ResolvedLawn, cause: ThinCause) -> CauseSeen:
    """When a cause can be seen here: where no month is hot, insects eat from autumn to spring, and
    are looked for in any weeks of growth."""
    seen = setting.book.causes[cause].seen
    cool = max(setting.climate.air_mean_c) < setting.book.si("site.cool_summer")
    return "growth" if seen == "warmth" and cool else seen


def why_then(setting: ResolvedLawn, cause: ThinCause) -> Reason | None:
    """Why a look for a cause keeps to its days; None where it may stand on any."""
    told = _WHY.get(seen_as(setting, cause))
    return None if told is None else Reason("cause.seen", told[0](), told[1])


def hatched(setting: ResolvedLawn, spans: Spans, work: int | None) -> Spans:
    """The stretches in which the grubs of the next beetles are counted before work that ends on
    `work` (an ordinal).

    Empty where the first count is of those grubs.
    """
    if work is None or not spans:
        return ()
    lead = setting.days("order.diagnose_lead")
    later = [
        start
        for start, _ in spans[1:]
        if start + lead <= work and _beetles(setting, date.fromordinal(start - 1))
    ]
    return tuple(span for span in spans if span[0] >= later[-1]) if later else ()


def _shows(setting: ResolvedLawn, seen: CauseSeen) -> Callable[[date], bool] | None:
    book, climate = setting.book, setting.climate
    match seen:
        case "growth":
            return lambda day: _grows(setting, day)
        case "warmth":
            warm = book.si("site.insects_warm")
            return lambda day: climate.air_c(day) >= warm
        case "surface":
            up = book.si("site.grubs_soil")
            return lambda day: climate.soil_c(day) >= up and not _beetles(setting, day)
        case "ground":
            return None


def _grows(setting: ResolvedLawn, day: date) -> bool:
    season, least = setting.turf.species.season, setting.book.si("water.dormant_growth")
    return setting.climate.growth_potential(day, season) >= least


def _beetles(setting: ResolvedLawn, day: date) -> bool:
    """Whether grubs are beetles or eggs on a day of the year, half a year later in the south."""
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
