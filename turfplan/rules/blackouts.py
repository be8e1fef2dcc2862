"""The days of the year on which no nitrogen may be given here, as the owner or a published rule says."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.units import System
from turfplan.wording import month_day_text


@dataclass(frozen=True, slots=True)
class Blackout:
    """A yearly stretch without nitrogen, month and day, both included; may run over New Year.

    `cap_g_m2` is the most nitrogen at once that the same rule allows outside it, `soluble_g_m2` the most quick nitrogen,
    where it names them.
    """

    start: tuple[int, int]
    end: tuple[int, int]
    words: str
    source: str
    cap_g_m2: float | None = None
    soluble_g_m2: float | None = None

    def holds(self, day: date) -> bool:
        """True where the day lies inside."""
        point = (day.month, day.day)
        if self.start <= self.end:
            return self.start <= point <= self.end
        return point >= self.start or point <= self.end


def blackouts_of(brief: Brief, book: Book, system: System) -> tuple[tuple[Blackout, ...], list[str]]:
    """The blackouts in force and what must be said about them.

    What the brief says wins, also an empty list. Else the published rule of the state is kept to and named, so that the
    owner can confirm or change it; where none is known, the plan asks. Limits on a single feeding hold in either case.
    """
    state = state_of(brief)
    caps = tuple(_rule(book, f"law.{state}_nitrogen_{name}_max") for name in ("single", "soluble"))
    if brief.local.nitrogen_blackouts is not None:
        spans = brief.local.nitrogen_blackouts
        said = (
            Blackout(
                _pair(s.start),
                _pair(s.end),
                f"no nitrogen {_span(s.start, s.end, system)} by the local rules in the brief",
                "the brief",
                *caps,
            )
            for s in spans
        )
        return tuple(said), []
    names = (f"law.{state}_nitrogen_from", f"law.{state}_nitrogen_to")
    if any(name not in book.facts for name in names):
        return (), [
            "Rules for fertilizer are local: ask the state, the county and the town on which dates none may be given and how far "
            f"from water to stay, and write both into the brief, among the local rules. None is assumed here.{_offered(book, state, system)}"
        ]
    first, last = (_month_day(book.si(name)) for name in names)
    span = _span(_written(first), _written(last), system)
    words, source = (
        f"no nitrogen {span} in {(brief.place.state or '').upper()}",
        book.said_by(book.fact(names[0]).source),
    )
    caution = (
        f"The state's rule as we read it: {words} ({source}). Confirm it where you live and write what holds there into the "
        "brief, among the local rules; this plan keeps to it until you do."
    )
    return (Blackout(first, last, words, source, *caps),), [caution]


def _offered(book: Book, state: str, system: System) -> str:
    """The dates that are common in a state without holding all over it, offered for the owner to look up."""
    names = (f"law.{state}_nitrogen_offered_from", f"law.{state}_nitrogen_offered_to")
    if any(name not in book.facts for name in names):
        return ""
    first, last = (_month_day(book.si(name)) for name in names)
    return (
        f" Common here, though not everywhere: no nitrogen {_span(_written(first), _written(last), system)} "
        f"({book.said_by(book.fact(names[0]).source)})."
    )


def _span(first: str, last: str, system: System) -> str:
    """From one day of every year to another, in words."""
    return f"from {month_day_text(first, system)} to {month_day_text(last, system)}"


def _written(month_day: tuple[int, int]) -> str:
    return "{:02}-{:02}".format(*month_day)


def state_of(brief: Brief) -> str:
    """The state as it stands in the names of state rules, such as us_ny."""
    return f"{brief.place.country or 'US'}_{brief.place.state or ''}".lower()


def _rule(book: Book, name: str) -> float | None:
    return book.si(name) if name in book.facts else None


def _month_day(day_of_year: float) -> tuple[int, int]:
    # Any year without a 29 February: rules name a month and a day.
    day = date(2027, 1, 1) + timedelta(round(day_of_year) - 1)
    return day.month, day.day


def _pair(month_day: str) -> tuple[int, int]:
    return int(month_day[:2]), int(month_day[3:])


def free_days(start: date, end: date, blackouts: Sequence[Blackout]) -> list[tuple[date, date]]:
    """The stretches from start to end that lie in no blackout."""
    if not blackouts:
        return [(start, end)] if start <= end else []
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
