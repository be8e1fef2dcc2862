"""The days of the year on which no nitrogen may be given here, as the owner or a published rule says."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Brief


@dataclass(frozen=True, slots=True)
class Blackout:
    """A yearly stretch without nitrogen, month and day, both included; may run over New Year.

    `cap_g_m2` is the most nitrogen at once that the same rule allows outside it, `soluble_g_m2` the most quick nitrogen,
    where it names them.
    """

    start: tuple[int, int]
    end: tuple[int, int]
    words: str
    cap_g_m2: float | None = None
    soluble_g_m2: float | None = None

    def holds(self, day: date) -> bool:
        """True where the day lies inside."""
        point = (day.month, day.day)
        if self.start <= self.end:
            return self.start <= point <= self.end
        return point >= self.start or point <= self.end


def blackouts_of(brief: Brief, book: Book) -> tuple[tuple[Blackout, ...], list[str]]:
    """The blackouts in force and what must be said about them.

    What the brief says wins, also an empty list. Else the published rule of the state is kept to and named, so that the
    owner can confirm or change it; where none is known, the plan asks.
    """
    if brief.local.nitrogen_blackouts is not None:
        spans = brief.local.nitrogen_blackouts
        return tuple(
            Blackout(_pair(s.start), _pair(s.end), f"no nitrogen {s.start} to {s.end} (brief)") for s in spans
        ), []
    rule = book.nitrogen_rules.get(f"{brief.place.country or 'US'}-{brief.place.state}") if brief.place.state else None
    if rule is None:
        return (), [
            "Fertilizer rules are local (state, county, town): look up blackout dates and distances to water, and enter them as "
            "local.nitrogen_blackouts; none is assumed."
        ]
    spans_found = tuple(
        Blackout(_pair(start), _pair(end), f"no nitrogen {start} to {end} ({rule.words})", rule.cap_g_m2)
        for start, end in rule.spans
    )
    return spans_found, [
        f"{rule.words} Confirm it locally and enter local.nitrogen_blackouts; this plan keeps to it until you do."
    ]


def _pair(month_day: str) -> tuple[int, int]:
    return int(month_day[:2]), int(month_day[3:])


def free_days(start: date, end: date, blackouts: Sequence[Blackout]) -> list[tuple[date, date]]:
    """The stretches from start to end that lie in no blackout."""
    found: list[tuple[date, date]] = []
    day = start
    while day <= end:
        if not any(b.holds(day) for b in blackouts):
            if found and found[-1][1] == day - timedelta(1):
                found[-1] = (found[-1][0], day)
            else:
                found.append((day, day))
        day += timedelta(1)
    return found
