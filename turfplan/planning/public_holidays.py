"""Public holidays of the lawn's country, as its plan kept them, else by the library `holidays`.

The library is imported when a plan first asks for a country: it takes a tenth of a second.
"""

from collections.abc import Callable, Collection
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from turfplan.planning.installed import version_of
from turfplan.records.plan import PublicHolidays

HolidaysOfYear = Callable[[str, str | None, int], frozenset[int]]


@lru_cache(maxsize=32)
def listed_holidays(country: str, part: str | None, year: int) -> frozenset[int]:
    """The holidays of a year as ordinals; none where the library does not know the country."""
    import holidays

    # A list of all that the library knows would read every country's module.
    for region in dict.fromkeys((part, None)):
        with suppress(NotImplementedError):
            known = holidays.country_holidays(country, subdiv=region, years=year)
            return frozenset(day.toordinal() for day in known)
    return frozenset()


@dataclass(frozen=True, slots=True)
class HolidayList:
    """The public holidays of a country, and of the part of it that is named, for one plan.

    `kept` is what the plan before held to: its days stand for the time that it covers; `of_year`
    lists what no plan has kept.
    """

    country: str | None
    part: str | None
    kept: PublicHolidays | None = None
    of_year: HolidaysOfYear = listed_holidays

    @property
    def region(self) -> str:
        """The country, with its part where one is named."""
        return "-".join(name for name in (self.country, self.part) if name)

    def between(self, first: int, last: int) -> Collection[int]:
        """The holidays from `first` to `last` (ordinals, both included)."""
        if self.country is None:
            return ()
        kept, days = self._kept(), set[int]()
        if kept is None or first < kept.start.toordinal() or last > kept.end.toordinal():
            for year in range(date.fromordinal(first).year, date.fromordinal(last).year + 1):
                days |= self.of_year(self.country, self.part, year)
        if kept is not None:
            known = range(kept.start.toordinal(), kept.end.toordinal() + 1)
            days = {day for day in days if day not in known} | {d.toordinal() for d in kept.days}
        return tuple(sorted(day for day in days if first <= day <= last))

    def record(self, first: int, last: int, days: Collection[int]) -> PublicHolidays | None:
        """What a plan from `first` to `last` keeps of its holidays; None without a country."""
        if self.country is None:
            return None
        kept = self._kept()
        return PublicHolidays(
            library=kept.library if kept is not None else f"holidays {version_of('holidays')}",
            region=self.region,
            start=date.fromordinal(first),
            end=date.fromordinal(last),
            days=tuple(date.fromordinal(day) for day in days if first <= day <= last),
        )

    def _kept(self) -> PublicHolidays | None:
        return self.kept if self.kept is not None and self.kept.region == self.region else None
