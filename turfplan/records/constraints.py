"""What rules emit and the network reads: nodes, allowed days, lags, strengths, reasons.

A day is an int: `date.toordinal()`. Nothing here knows turf.
"""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property

from turfplan.message import Worded


class Strength(IntEnum):
    """How hard a constraint holds; the weakest of a conflict is given up first, a HARD one
    never.
    """

    PREFERENCE = 1
    ADVICE = 2
    STRONG = 3
    HARD = 4


_EVER = float("inf")


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a constraint exists: the rule that made it, a sentence for the customer, and the facts it
    rests on.
    """

    rule: str
    text: Worded
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Node:
    """A day to be chosen.

    `ideal` is the wished day (None: as early as possible); low `priority` is placed first.
    """

    id: str
    priority: int
    ideal: int | None = None


@dataclass(frozen=True)
class DaySet:
    """A set of days as sorted, disjoint, non-adjacent closed ranges."""

    ranges: tuple[tuple[int, int], ...]

    @cached_property
    def columns(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The ranges apart, as starts and ends."""
        if not self.ranges:
            return (), ()
        starts, ends = zip(*self.ranges, strict=True)
        return starts, ends

    @classmethod
    def of(cls, ranges: Iterable[tuple[int, int]]) -> "DaySet":
        """The union of closed ranges in any order; empty ranges (end before start) vanish."""
        merged: list[tuple[int, int]] = []
        for start, end in sorted(r for r in ranges if r[0] <= r[1]):
            if merged and start <= merged[-1][1] + 1:
                merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
            else:
                merged.append((start, end))
        return cls(tuple(merged))

    @classmethod
    def from_days(cls, days: Iterable[int]) -> "DaySet":
        """The set of the given days, in any order."""
        known = sorted(days)
        breaks = [place for place in range(1, len(known)) if known[place] > known[place - 1] + 1]
        runs = zip([0, *breaks], [*breaks, len(known)], strict=True)
        return cls(tuple((known[first], known[stop - 1]) for first, stop in runs if known))

    def __contains__(self, day: int) -> bool:
        index = bisect_right(self.ranges, (day, _EVER)) - 1
        return index >= 0 and self.ranges[index][0] <= day <= self.ranges[index][1]

    def next(self, day: int) -> int | None:
        """The first member on or after `day`, or None."""
        index = bisect_right(self.ranges, (day, _EVER)) - 1
        if index >= 0 and day <= self.ranges[index][1]:
            return day
        return self.ranges[index + 1][0] if index + 1 < len(self.ranges) else None

    def previous(self, day: int) -> int | None:
        """The last member on or before `day`, or None."""
        index = bisect_right(self.ranges, (day, _EVER)) - 1
        return None if index < 0 else min(day, self.ranges[index][1])

    def intersect(self, other: "DaySet") -> "DaySet":
        """The days in both sets."""
        few, many = sorted((self.ranges, other.ranges), key=len)
        found: list[tuple[int, int]] = []
        for start, end in few:
            first = max(bisect_right(many, (start, _EVER)) - 1, 0)
            for low, high in many[first : bisect_right(many, (end, _EVER))]:
                if high >= start:
                    found.append((low if low > start else start, high if high < end else end))
        # What lay apart in either set lies apart in both: there is nothing to merge.
        return DaySet(tuple(found))

    def without(self, other: "DaySet") -> "DaySet":
        """The days of this set that are not in the other."""
        found: list[tuple[int, int]] = []
        for start, end in self.ranges:
            first = max(bisect_right(other.ranges, (start, _EVER)) - 1, 0)
            for low, high in other.ranges[first : bisect_right(other.ranges, (end, _EVER))]:
                if high >= start:
                    found.append((start, low - 1))
                    start = high + 1
            found.append((start, end))
        # What was taken out lies between what is left: there is nothing to merge.
        return DaySet(tuple((start, end) for start, end in found if start <= end))

    def days(self) -> tuple[int, ...]:
        """Every member in order."""
        return tuple(day for start, end in self.ranges for day in range(start, end + 1))


@dataclass(frozen=True, slots=True)
class DayStep:
    """A step of a fixed number of whole days (may be negative)."""

    count: int

    def __call__(self, day: int) -> int:
        """The day so many days on."""
        return day + self.count


@dataclass(frozen=True, slots=True)
class TableStep:
    """A step read from a table: `targets[day - origin]`, never decreasing; beyond its ends the end
    targets hold.

    Working days and growth units become such tables, so the network knows neither.
    """

    origin: int
    targets: tuple[int, ...]

    def __post_init__(self) -> None:
        if not self.targets or any(
            b < a for a, b in zip(self.targets, self.targets[1:], strict=False)
        ):
            raise ValueError("unordered step table")

    def __call__(self, day: int) -> int:
        """The day the table gives."""
        return self.targets[min(max(day - self.origin, 0), len(self.targets) - 1)]


Step = DayStep | TableStep


@dataclass(frozen=True, slots=True)
class Allowed:
    """The days a node may take; `opens` where they are the window of its operation, `yields` where
    it is given up before others of its strength."""

    id: str
    node: str
    days: DaySet
    strength: Strength
    reason: Reason
    opens: bool = False
    yields: bool = False


@dataclass(frozen=True, slots=True)
class Lag:
    """`after` is on or after `minimum(before)` and on or before `maximum(before)`.

    One of the two steps may be absent. `runs_out` where `before` is done and what it did holds only
    until the maximum, `alongside` where `before` need not be done when `after` begins, `yields`
    where it is given up before others of its strength.
    """

    id: str
    before: str
    after: str
    strength: Strength
    reason: Reason
    minimum: Step | None = None
    maximum: Step | None = None
    runs_out: bool = False
    alongside: bool = False
    yields: bool = False


Constraint = Allowed | Lag


@dataclass(frozen=True, slots=True)
class NetworkProblem:
    """Nodes with their constraints, between the first and the last day that may be used at all."""

    nodes: tuple[Node, ...]
    constraints: tuple[Constraint, ...]
    first_day: int
    last_day: int
