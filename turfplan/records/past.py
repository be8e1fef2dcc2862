"""The record of what has happened to a plan's tasks, as journal and calendar tell it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from turfplan.message import Message
from turfplan.records.journal import EventName, SeedLoss
from turfplan.records.plan_task import WhatHappened


@dataclass(frozen=True, slots=True)
class LawnEvent:
    """What has befallen the lawn and is not known to be over: by what it is written down, and on
    which day."""

    name: EventName
    on: date


@dataclass(frozen=True, slots=True)
class KnownFeeding:
    """A feeding of the plan before, or a nutrient of a soil test that went on by itself (key
    `amend.potash.1`): its key, its day, whether that is `over`: given, left out, or gone by; and
    which nutrients it `gave` besides nitrogen, of what is over."""

    key: str
    on: date
    over: bool
    gave: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class SeedLost:
    """How seed was lost, on which day, which share of it, and the task that had sown it."""

    name: SeedLoss
    on: date
    share: float
    task: str


@dataclass(frozen=True, slots=True)
class TaskHistory:
    """What has happened, by task id; days are ordinals.

    `done` holds what is over (the last day it was worked on), `part_done` the share of what is
    begun, `overdue` what is over without an entry, `held` the first day of what was moved by hand,
    `booked` of what somebody asked for as far as the rules let it, `not_before` the first day still
    possible after rain or refusal, `published` the first day of what is still open.
    `because` is why a task changes, by what the plan before did not know yet; of those `told` an
    entry says something, known or not.
    `closed` is what no day is left for, `moves_given_up` what was moved by hand to a day that could
    not be kept, each with why; `refused` are deliveries that were sent back and have not come
    again, `planned` the last day of each task in the plan before, `settled` those that it took as
    done with other work, without a word. `alive_on` is the day on which
    the cause of bumps or thin grass was found alive. Where nothing is `promised` no plan before
    holds what is open to its days.
    `soil` are temperatures in degC at 10 cm, `rain` is in mm; `rained` are the days that rain took,
    by the task that was named: of a series they are off. `events` have befallen the lawn; on `bans`
    (first and last day) watering is banned. `losses` are what did not come up of seed, or is gone.
    `planned_m3` is the loose volume, `planned_mm` the settled depth of each task in the plan
    before; `needless` are passes for which nothing is left to spread. `ordered_by` is the order by
    which each delivery of the plan before was asked for, `nutrients` what its tasks have of a soil
    test. `spoiled` has by the number of a load the
    day on which one came that has lain too long, in place of which another comes.
    """

    done: Mapping[str, int] = field(default_factory=dict)
    actual: Mapping[str, WhatHappened] = field(default_factory=dict)
    part_done: Mapping[str, float] = field(default_factory=dict)
    skipped: frozenset[str] = frozenset()
    overdue: Mapping[str, int] = field(default_factory=dict)
    held: Mapping[str, int] = field(default_factory=dict)
    booked: Mapping[str, int] = field(default_factory=dict)
    because: Mapping[str, Message] = field(default_factory=dict)
    told: frozenset[str] = frozenset()
    not_before: Mapping[str, tuple[int, Message]] = field(default_factory=dict)
    published: Mapping[str, int] = field(default_factory=dict)
    germinated: date | None = None
    missing_mm: float | None = None
    alive_on: date | None = None
    soil: tuple[tuple[date, float], ...] = ()
    rain: Mapping[date, float] = field(default_factory=dict)
    rained: Mapping[str, frozenset[date]] = field(default_factory=dict)
    closed: Mapping[str, Message] = field(default_factory=dict)
    moves_given_up: Mapping[str, Message] = field(default_factory=dict)
    refused: frozenset[str] = frozenset()
    planned: Mapping[str, int] = field(default_factory=dict)
    settled: frozenset[str] = frozenset()
    promised: bool = True
    events: tuple[LawnEvent, ...] = ()
    bans: tuple[tuple[date, date], ...] = ()
    losses: tuple[SeedLost, ...] = ()
    planned_m3: Mapping[str, float] = field(default_factory=dict)
    planned_mm: Mapping[str, float] = field(default_factory=dict)
    needless: frozenset[str] = frozenset()
    ordered_by: Mapping[str, str] = field(default_factory=dict)
    nutrients: frozenset[str] = frozenset()
    spoiled: Mapping[int, int] = field(default_factory=dict)

    @property
    def unpromised(self) -> "TaskHistory":
        """The same past, of which no published day holds anything that is still open."""
        over = self.fixed.keys()
        published = {name: day for name, day in self.published.items() if name in over}
        return replace(self, published=published, promised=False)

    @property
    def fixed(self) -> dict[str, int]:
        """Every task whose day is not to be chosen any more."""
        return {**self.overdue, **self.held, **self.done}

    @property
    def lost(self) -> SeedLost | None:
        """The last loss of seed that is still to be sown again."""
        return next((one for one in reversed(self.losses) if one.task not in self.done), None)

    def left_to_sow(self, task: str) -> float:
        """The share that a sowing still has to sow: what is not begun, or what was lost, whatever
        that was called which had sown it."""
        if task in self.part_done:
            return 1 - self.part_done[task]
        lost = self.lost
        return 1.0 if lost is None or task in self.done else lost.share

    @property
    def untold(self) -> frozenset[str]:
        """What is over, and nobody says that any of it was done."""
        return frozenset(self.overdue.keys() - self.done.keys() - self.part_done.keys())

    @property
    def left_out(self) -> frozenset[str]:
        """The tasks that will not be done: skipped, or with no day left for them."""
        return self.skipped.union(self.closed)

    @property
    def recorded(self) -> frozenset[str]:
        """The tasks of which something is written down: they keep their numbers."""
        return self.skipped.union(
            self.done, self.actual, self.part_done, self.overdue, self.held, self.because, self.told
        )
