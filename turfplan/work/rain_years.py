"""What the rain of many years, real or generated, says of days of work: where the dry ones lie."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Protocol

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS, WEEKDAYS
from turfplan.message import Message
from turfplan.phrases import rain_years as phrases
from turfplan.reckoned_once import reckoned_once


class RainOfYears(Protocol):
    """Years of daily rain in mm."""

    def of_day(self, index: int) -> Sequence[float]:
        """The rain of every year at a place in the year; beyond its end the next year goes on."""


@dataclass(frozen=True, slots=True)
class DryJob:
    """A job that needs dry days: the days (ordinals) on which it may begin, and how many days later
    it ends.

    `gap` days at least lie between the first day of the job before and its own.
    """

    days: tuple[int, ...]
    span: int = 0
    gap: int = 0


def dry_day(book: Book, today_mm: float, before_mm: float) -> bool:
    """Little rain on the day and no soaking the day before."""
    return today_mm <= book.si("weather.dry_day_rain") and before_mm <= book.si(
        "weather.soaking_rain"
    )


@reckoned_once
def dry_years(book: Book, rain: RainOfYears, index: int) -> list[bool]:
    """For every year whether the day at a place in the year is dry."""
    slight, soaking = book.si("weather.dry_day_rain"), book.si("weather.soaking_rain")
    days = zip(rain.of_day(index), rain.of_day(index - 1), strict=True)
    return [today <= slight and before <= soaking for today, before in days]


def years_done(
    book: Book, rain: RainOfYears, jobs: Sequence[DryJob], first_index: int
) -> list[bool]:
    """For every year whether all jobs, in turn, find their dry days; `first_index` is the place in
    the year of the first day of the first job."""
    first = jobs[0].days[0]
    needed = {day + more for job in jobs for day in job.days for more in (0, job.span)}
    dry = {day: dry_years(book, rain, first_index + day - first) for day in needed}
    return [_all_done(dry, year, jobs) for year in range(len(dry[first]))]


def _all_done(dry: Mapping[int, Sequence[bool]], year: int, jobs: Sequence[DryJob]) -> bool:
    begun: int | None = None
    for job in jobs:
        begun = next(
            (
                day
                for day in job.days
                if (begun is None or day >= begun + job.gap)
                and dry[day][year]
                and dry[day + job.span][year]
            ),
            None,
        )
        if begun is None:
            return False
    return True


def moist_years(
    rain: RainOfYears, losses_mm: Sequence[float], spans: tuple[int, int], index: int
) -> list[bool]:
    """For every year whether rain makes up what a wet seedbed loses (365 places in the year), over
    both spans of days from a place in the year on."""
    fallen = accumulate(
        (rain.of_day(index + k) for k in range(max(spans))),
        lambda so_far, more: [a + b for a, b in zip(so_far, more, strict=True)],
    )
    lost = accumulate(losses_mm[(index + k) % DAYS] for k in range(max(spans)))
    ends = [
        [mm >= loss for mm in years]
        for days, (years, loss) in enumerate(zip(fallen, lost, strict=True), 1)
        if days in spans
    ]
    return [all(year) for year in zip(*ends, strict=True)]


def dry_week_share(
    book: Book, rain: RainOfYears, days: Sequence[int], first_index: int
) -> float | None:
    """Of the weeks with days of work (ordinals), the share with a dry one among them.

    `first_index` is the place in the year of the first of them. None without days.
    """
    weeks: dict[int, list[list[bool]]] = {}
    for day in days:
        # Ordinal 1 was a Monday: weeks run from Monday to Sunday.
        dry = dry_years(book, rain, first_index + day - days[0])
        weeks.setdefault((day - 1) // len(WEEKDAYS), []).append(dry)
    found = [any(year) for week in weeks.values() for year in zip(*week, strict=True)]
    return sum(found) / len(found) if found else None


def of_ten(share: float) -> Message:
    """A share of years or weeks in whole tenths: about 7 of 10."""
    tenths = int(share * 10 + 0.5)
    if tenths == 10:
        return phrases.nearly_all()
    return phrases.about(tenths=tenths) if tenths else phrases.hardly_any()
