"""The record of what has happened to a plan's tasks, as journal and calendar tell it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from turfplan.message import Message
from turfplan.records.plan_task import WhatHappened


@dataclass(frozen=True, slots=True)
class TaskHistory:
    """What has happened, by task id; days are ordinals.

    `done` holds what is over (the last day it was worked on), `part_done` the share of what is
    begun, `overdue` what is over without an entry, `held` the first day of what was moved by hand,
    `booked` of what somebody asked for as far as the rules let it, `not_before` the first day still
    possible after rain or refusal, `published` the first day of what is still open.
    `closed` is what no day is left for, `moves_given_up` what was moved by hand to a day that could
    not be kept, each with why; `refused` are deliveries that were sent back and have not come
    again, `planned` the last day of each task in the plan before. `alive_on` is the day on which
    the cause of bumps or thin grass was found alive. Where nothing is `promised` no plan before
    holds what is open to its days.
    `soil` are temperatures in degC at 10 cm, `rain` is in mm; `rained` are the days that rain took,
    by the task that was named: of a series they are off.
    """

    done: Mapping[str, int] = field(default_factory=dict)
    actual: Mapping[str, WhatHappened] = field(default_factory=dict)
    part_done: Mapping[str, float] = field(default_factory=dict)
    skipped: frozenset[str] = frozenset()
    overdue: Mapping[str, int] = field(default_factory=dict)
    held: Mapping[str, int] = field(default_factory=dict)
    booked: Mapping[str, int] = field(default_factory=dict)
    because: Mapping[str, Message] = field(default_factory=dict)
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
    promised: bool = True

    @property
    def unpromised(self) -> "TaskHistory":
        """The same past, of which no published day holds anything that is still open."""
        return replace(self, published={}, promised=False)

    @property
    def fixed(self) -> dict[str, int]:
        """Every task whose day is not to be chosen any more."""
        return {**self.overdue, **self.held, **self.done}

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
            self.done, self.actual, self.part_done, self.overdue, self.held, self.because
        )
