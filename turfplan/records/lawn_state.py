"""The frozen record of the state of a lawn: what has been made true of it, since when, and how long
it lasts."""

from datetime import date
from typing import Literal

from turfplan.records.plan_task import PlanRecord

StateKind = Literal[
    "stand",  # what grows, as the brief tells it (`of`: the stage)
    "marked",  # buried lines are marked
    "cut",  # the grass is cut low
    "open",  # the turf is open: holes, slits
    "killed",  # what grew is killed
    "heap",  # material lies here: volume in m3 that is left of it
    "dry",  # it was found dry
    "plants",  # sod, plugs or sprigs lie here
    "filled",  # the ground is filled: settled depth in mm where it is deepest
    "covered",  # the grass grows through what was spread
    "relaid",  # turf was laid back
    "sown",  # seed lies in the ground (`of`: the operation)
    "up",  # it has come up
    "planted",  # plants are set, and root
    "fed",  # nitrogen or a starter was given
    "treated",  # a weed killer or a weed barrier lies (`of`: its ingredient or operation)
    "limed",  # lime was given
    "stressed",  # what harms the grass lives, or has befallen it (`of`: the event)
    "banned",  # watering is banned
    "lacking",  # depth that is missing, mm
    "soil",  # soil temperature, C at 10 cm
    "rain",  # mm of a day
    "chosen",  # a day that its owner chose for a task
    "booked",  # a day that somebody asked for
]


class StateFact(PlanRecord):
    """One thing that is true of a lawn: since when, until when (None: no end is known), over which
    share of it, which task made it so (None: the brief, a look or the weather).

    `value` with its `unit` is in SI: mm, m3, C.
    """

    kind: StateKind
    since: date
    until: date | None = None
    task: str | None = None
    of: str | None = None
    share: float = 1.0
    value: float | None = None
    unit: str | None = None

    def holds(self, day: date) -> bool:
        """Whether it is true on a day."""
        return self.since <= day and (self.until is None or day <= self.until)


class LawnState(PlanRecord):
    """What is known of a lawn on the day on which it was planned, in order of time."""

    on: date
    facts: tuple[StateFact, ...] = ()

    def of_kind(self, *kinds: StateKind) -> tuple[StateFact, ...]:
        """The facts of some kinds, in order of time."""
        return tuple(fact for fact in self.facts if fact.kind in kinds)

    def now(self, *kinds: StateKind) -> tuple[StateFact, ...]:
        """The facts of some kinds that are true on the day of the state."""
        return tuple(fact for fact in self.of_kind(*kinds) if fact.holds(self.on))
