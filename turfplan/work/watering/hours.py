"""On which days and at which hours watering is lawful and sensible here."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil, floor

from turfplan.calendar_days import DAYS, PLAIN_YEAR, WEEKDAYS
from turfplan.records.brief import Span, Water

DAY_MIN = 24 * 60


@dataclass(frozen=True, slots=True)
class Law:
    """The watering law of a place as the owner looked it up.

    A permit frees the weekdays, not the hours nor a ban.
    """

    weekdays: tuple[str, ...] | None
    parity: str | None
    banned: tuple[Span, ...]
    spans: tuple[tuple[int, int], ...]
    permit: bool

    @property
    def restricts_days(self) -> bool:
        """True where some days of an ordinary week are closed."""
        return self.parity is not None or (
            self.weekdays is not None and len(set(self.weekdays)) < len(WEEKDAYS)
        )

    @property
    def restricts_hours(self) -> bool:
        """True where some hours of a day are closed."""
        return self.open_min < DAY_MIN

    def open(self, day: date, *, permitted: bool = False) -> bool:
        """True where watering is allowed on that day.

        `permitted`: for new seed, with the permit in hand.
        """
        if self.banned and any(span.start <= day <= span.end for span in self.banned):
            return False
        if permitted and self.permit:
            return True
        if self.weekdays is not None and WEEKDAYS[day.weekday()] not in self.weekdays:
            return False
        return self.parity is None or day.day % 2 == (1 if self.parity == "odd" else 0)

    def days_open(self, first: date, count: int) -> list[bool]:
        """Whether each of `count` days from `first` is open to ordinary watering."""
        if not (self.banned or self.restricts_days):
            return [True] * count
        days = [first + timedelta(number) for number in range(count)]
        days_open = [True] * count
        if self.weekdays is not None:
            allowed = {WEEKDAYS.index(name) for name in self.weekdays}
            days_open = [day.weekday() in allowed for day in days]
        if self.parity is not None:
            rest = 1 if self.parity == "odd" else 0
            days_open = [
                lawful and day.day % 2 == rest for lawful, day in zip(days_open, days, strict=True)
            ]
        for span in self.banned:
            days_open = [
                lawful and not span.start <= day <= span.end
                for lawful, day in zip(days_open, days, strict=True)
            ]
        return days_open

    def longest_gap_days(self) -> int:
        """Most days from one lawful watering day to the next in an ordinary year.

        Neither a permit nor bans are counted.
        """
        ordinary = Law(self.weekdays, self.parity, (), self.spans, False)
        days = [
            n for n, lawful in enumerate(ordinary.days_open(date(PLAIN_YEAR, 1, 1), DAYS)) if lawful
        ]
        return max((b - a for a, b in itertools.pairwise(days)), default=DAYS)

    def after(self, minute: float) -> "Law":
        """The law of what is left of a day from this minute on."""
        late = tuple((max(start, ceil(minute)), end) for start, end in self.spans if end > minute)
        return replace(self, spans=late)

    def before(self, minute: float) -> "Law":
        """The law of the hours of a day up to this minute."""
        early = tuple(
            (start, min(end, floor(minute))) for start, end in self.spans if start < minute
        )
        return replace(self, spans=early)

    def holds(self, start_min: int, elapsed_min: int) -> bool:
        """True where what begins at that minute of a day is through within the same lawful span."""
        return any(
            start <= start_min and start_min + elapsed_min <= end for start, end in self.spans
        )

    def only_dark(self, dawn_min: float, dusk_min: float) -> bool:
        """True where no minute of the day between dawn and dusk is lawful."""
        return not self.between(dawn_min, dusk_min).spans

    def between(self, first: float, last: float) -> "Law":
        """The law of the hours of a day between two minutes."""
        return self.after(first).before(last)

    @property
    def open_min(self) -> int:
        """Lawful minutes of a day."""
        return sum(end - start for start, end in self.spans)


def law_of(water: Water) -> Law:
    """The law as the brief tells it; without allowed hours the whole day is open."""
    spans: list[tuple[int, int]] = []
    for text in water.allowed_hours:
        start, end = (int(part[:2]) * 60 + int(part[3:]) for part in text.split("-"))
        # Hours that run over midnight belong to two days.
        spans.extend([(start, end)] if start < end else [(0, end), (start, DAY_MIN)])
    return Law(
        water.allowed_weekdays,
        water.parity,
        water.banned,
        _joined(spans) or ((0, DAY_MIN),),
        bool(water.permit),
    )


def _joined(spans: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Spans in order, those that overlap or follow without a pause as one."""
    joined: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return tuple(joined)


def place(
    wishes: Sequence[float], elapsed_min: Sequence[int], gap_min: float, law: Law
) -> tuple[tuple[int, ...], ...] | None:
    """Start minutes of each session and zone, near the wished times and inside the lawful hours.

    Zones run one after the other, sessions at least `gap_min` apart. The zones of a session run
    without a pause where any lawful hours hold them all, else each in the hours that hold it. None
    where the hours do not hold every run.
    """
    blocks = [(sum(elapsed_min),)] * len(wishes)
    placed = _in_order(wishes, blocks, gap_min, law) if elapsed_min else None
    if placed is not None:
        behind = [0, *itertools.accumulate(elapsed_min)][:-1]
        return tuple(tuple(begun + n for n in behind) for (begun,) in placed)
    return _in_order(wishes, [tuple(elapsed_min)] * len(wishes), gap_min, law)


def in_a_row(starts: Sequence[int], elapsed_min: Sequence[int]) -> bool:
    """True where the runs of a session follow each other without a pause."""
    ends = [start + elapsed for start, elapsed in zip(starts, elapsed_min, strict=True)]
    return all(start == end for start, end in zip(starts[1:], ends, strict=False))


def _in_order(
    wishes: Sequence[float], sessions: Sequence[Sequence[int]], gap_min: float, law: Law
) -> tuple[tuple[int, ...], ...] | None:
    """Start minutes of what runs in each session, of so many minutes, in this order."""
    placed: list[tuple[int, ...]] = []
    free = 0.0
    for wish, elapsed_min in zip(wishes, sessions, strict=True):
        session: list[int] = []
        wanted = max(wish, free)
        for elapsed in elapsed_min:
            start = _start(wanted, free, elapsed, law)
            if start is None:
                return None
            session.append(start)
            free = wanted = start + elapsed
        placed.append(tuple(session))
        free += gap_min
    return tuple(placed)


def _start(wish: float, free: float, elapsed_min: int, law: Law) -> int | None:
    """The lawful start nearest to the wished one that is not before `free`.

    It is rounded to five minutes where there is room.
    """
    choice = [
        (min(max(wish, first, free), last - elapsed_min), max(first, free))
        for first, last in law.spans
        if last - elapsed_min >= max(first, free)
    ]
    if not choice:
        return None
    start, earliest = min(choice, key=lambda pair: abs(pair[0] - wish))
    rounded = int(start // 5 * 5)
    return rounded if rounded >= earliest else ceil(start)


def session_names(starts: Sequence[int]) -> tuple[str, ...]:
    """The parts of the day, as they stand in task ids.

    A second one in the same part of the day gets a number.
    """
    parts = (
        ("morning", 9),
        ("forenoon", 11),
        ("midday", 13),
        ("afternoon", 15),
        ("late-afternoon", 17),
        ("evening", 20),
    )
    names: list[str] = []
    for start in starts:
        part = next((part for part, hour in parts if start < hour * 60), "night")
        names.append(f"{part}-{len(names) + 1}" if part in names else part)
    return tuple(names)


def spaced(
    days: Sequence[date], wish_days: float, least_days: float, after: date | None = None
) -> tuple[date, ...]:
    """Of the days in order those that lie about `wish_days` apart and never less than `least_days`,
    from the first that is so far after `after`, the day before them."""
    chosen: list[date] = []
    left = [day for day in days if after is None or (day - after).days >= least_days]
    while left:
        last = left[0] if not chosen else _nearest(left, chosen[-1], wish_days)
        chosen.append(last)
        left = [day for day in left if (day - last).days >= least_days]
    return tuple(chosen)


def _nearest(days: Sequence[date], last: date, wish_days: float) -> date:
    """The day whose distance from the last is nearest to the wish; the later one of two."""
    return min(days, key=lambda day: (abs((day - last).days - wish_days), -day.toordinal()))


def spread(days: Sequence[date], count: int) -> tuple[date, ...]:
    """`count` of the days as evenly apart as they lie, the first one included."""
    if count >= len(days):
        return tuple(days)
    numbers = [(day - days[0]).days for day in days]
    span, chosen = numbers[-1] or 1, [0]
    for number in range(1, count):
        wish = round(number * (span + 1) / count)
        left = range(chosen[-1] + 1, len(days))
        if left:
            chosen.append(min(left, key=lambda place: abs(numbers[place] - wish)))
    return tuple(days[place] for place in chosen)
