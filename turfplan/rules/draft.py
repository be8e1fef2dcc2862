"""What the rules emit: tasks without dates, in sessions of work, with the constraints that bind them."""

from dataclasses import dataclass, field, replace
from datetime import date

from turfplan.constraints import Constraint
from turfplan.plan import Amount, Phase


@dataclass(frozen=True, slots=True)
class Draft:
    """A task before it has a day.

    `session` is the session of levelling work it belongs to (0: bound to all of them, -1: to none). `position` counts equal operations in order of
    time, from 1. `window` narrows the open days of the operation to one stretch. The wished day is `ideal`, or `offset` days after the task `anchor`. `words` fill the title and the
    instructions of the operation.
    """

    id: str
    operation: str
    phase: Phase
    why: str
    priority: int
    session: int = 0
    position: int = 1
    ideal: int | None = None
    anchor: str | None = None
    offset: int = 0
    duration_days: int = 1
    person_hours: float = 0.0
    words: dict[str, str] = field(default_factory=dict)
    title: str | None = None
    how: tuple[str, ...] | None = None
    go: str | None = None
    fallback: str | None = None
    amounts: tuple[Amount, ...] = ()
    cautions: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    alarm: bool | None = None
    depth_mm: float = 0.0
    loose_m3: float = 0.0
    window: tuple[int, int] | None = None

    @property
    def start_node(self) -> str:
        """The network node of its first day."""
        return self.id

    @property
    def end_node(self) -> str:
        """The network node of its last day: the first day's where one day is enough."""
        return self.id if self.duration_days == 1 else f"{self.id}@end"

    def with_amounts(self, *amounts: Amount) -> "Draft":
        """The same draft with more amounts."""
        return replace(self, amounts=(*self.amounts, *amounts))


@dataclass(frozen=True, slots=True)
class SeasonDraft:
    """Every task of one campaign with its constraints and what the plan must say about it."""

    drafts: tuple[Draft, ...]
    constraints: tuple[Constraint, ...]
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    disagreements: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Band:
    """A part of the lawn with one depth of fill: its share of the area, the settled depth, and its zone where it has one."""

    depth_mm: float
    share: float
    zone: str | None = None


@dataclass(frozen=True, slots=True)
class Pass:
    """One top-dressing pass: number, session, settled depth where the fill is deepest, settled volume over the area.

    `zones` says what each named zone takes of it, settled m3.
    """

    number: int
    session: int
    depth_mm: float
    settled_m3: float
    seeded: bool
    cap_mm: float
    cap_reason: str
    facts: tuple[str, ...] = ()
    zones: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class OpenDays:
    """One window of an operation: first, last and best day, with its reason and source."""

    operation: str
    season: str
    start: date
    end: date
    best: date
    reason: str
    source: str
    rule: str = ""
    facts: tuple[str, ...] = ()
