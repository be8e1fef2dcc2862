"""The days of the year on which no nitrogen may be given, as the owner or a rule says."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.citations import who_says
from turfplan.book.entries import Book
from turfplan.calendar_days import PLAIN_YEAR, date_of
from turfplan.message import DateInYear, Message, sentences
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import option_of_family
from turfplan.records.brief import Brief


@dataclass(frozen=True, slots=True)
class Blackout:
    """A yearly stretch without nitrogen, month and day, both included; may run over New Year.

    `what` tells of it within a sentence. `assumed` where it is common in the state and nobody said
    whether it holds here.
    """

    start: tuple[int, int]
    end: tuple[int, int]
    what: Message
    source: Message
    assumed: bool = False

    def holds(self, day: date) -> bool:
        """True where the day lies inside."""
        point = (day.month, day.day)
        if self.start <= self.end:
            return self.start <= point <= self.end
        return point >= self.start or point <= self.end


def blackouts_of(brief: Brief, book: Book) -> tuple[tuple[Blackout, ...], Message | None]:
    """The blackouts in force and what must be said about them.

    What the brief says wins, also an empty list. Else the published rule of the state is kept to
    and named, so that the owner can confirm or change it; where none is known, the plan asks, and
    keeps to the days that are common in the state.
    """
    state = state_of(brief)
    if (spans := brief.local.nitrogen_blackouts) is not None:
        own = phrases.blackout_brief()
        blackouts = (
            Blackout(
                _pair(span.start),
                _pair(span.end),
                phrases.blackout_own(first=DateInYear(span.start), last=DateInYear(span.end)),
                own,
            )
            for span in spans
        )
        return tuple(blackouts), None
    start = book.get(option_of_family("law.{state}_nitrogen_from", state))
    end = book.get(option_of_family("law.{state}_nitrogen_to", state))
    if start is None or end is None:
        ask = phrases.blackout_ask if in_us(brief) else phrases.blackout_ask_elsewhere
        common = _common(book, state)
        if common is None:
            return (), sentences(ask(), phrases.blackout_none_assumed())
        days = {"first": _of_every_year(common.start), "last": _of_every_year(common.end)}
        told = phrases.blackout_common_here(**days, source=common.source)
        return (common,), sentences(ask(), told)
    first, last = (_month_day(fact.si) for fact in (start, end))
    what = phrases.blackout_state(
        first=_of_every_year(first),
        last=_of_every_year(last),
        state=(brief.place.state or "").upper(),
    )
    source = who_says(book, start.source)
    confirm = phrases.blackout_confirm(blackout=what, source=source)
    return (Blackout(first, last, what, source),), confirm


def in_us(brief: Brief) -> bool:
    """Whether the lawn lies in the United States, as a postal code alone says too."""
    place = brief.place
    return place.country == "US" or (place.country is None and place.postal_code is not None)


def _common(book: Book, state: str) -> Blackout | None:
    """The days that are closed in many places of a state, and not all over it."""
    start = book.get(option_of_family("law.{state}_nitrogen_offered_from", state))
    end = book.get(option_of_family("law.{state}_nitrogen_offered_to", state))
    if start is None or end is None:
        return None
    first, last = (_month_day(fact.si) for fact in (start, end))
    what = phrases.blackout_common(first=_of_every_year(first), last=_of_every_year(last))
    return Blackout(first, last, what, who_says(book, start.source), assumed=True)


def _of_every_year(month_day: tuple[int, int]) -> DateInYear:
    return DateInYear("{:02}-{:02}".format(*month_day))


def state_of(brief: Brief) -> str:
    """The state as it stands in the names of state rules, such as us_ny."""
    return f"{brief.place.country or 'US'}_{brief.place.state or ''}".lower()


def _month_day(day_of_year: float) -> tuple[int, int]:
    day = date_of(round(day_of_year) - 1, PLAIN_YEAR)
    return day.month, day.day


def _pair(month_day: str) -> tuple[int, int]:
    return int(month_day[:2]), int(month_day[3:])


def free_days(start: date, end: date, blackouts: Sequence[Blackout]) -> list[tuple[date, date]]:
    """The stretches from start to end that lie in no blackout."""
    if not blackouts:
        return [(start, end)] if start <= end else []
    free: list[tuple[date, date]] = []
    day = start
    while day <= end:
        if not any(b.holds(day) for b in blackouts):
            if free and free[-1][1] == day - timedelta(1):
                free[-1] = (free[-1][0], day)
            else:
                free.append((day, day))
        day += timedelta(1)
    return free
