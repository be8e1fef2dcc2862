"""What grows on a lawn, stretch by stretch of its days: turf, nothing, seed, seedlings, plants."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from turfplan.records.book_names import StandStage
from turfplan.records.brief import Intent

WHOLE: Final = 1.0

LIVING: Final = frozenset[StandStage]({"turf", "thin_turf", "established", "second_grass"})
"""The stages with grown grass: it is mown low, cored and combed, grows through what is spread,
and is fed."""

OPEN_GROUND: Final = frozenset[StandStage]({"killed", "bare"})
"""The stages without living grass: nothing grows through a fill, and nothing takes up food."""

TENDER: Final = frozenset[StandStage]({"sown", "seedlings", "dormant_seed", "laid"})
"""The stages in which nothing is spread over the lawn, and no machine goes through it."""


@dataclass(frozen=True, slots=True)
class StandSpan:
    """One stage of the stand from its `first` day to its `last`, ordinals, both included.

    `last` is None where no end is known. `grass` is the species that the stage is of; `over` is the
    stage of the older grass that goes on living below it, None on ground without one. `share` is
    the part of the area, 0 to 1.
    """

    stage: StandStage
    grass: str
    first: int
    last: int | None = None
    over: StandStage | None = None
    share: float = WHOLE

    def holds(self, day: int) -> bool:
        """Whether a day lies in this span."""
        return self.first <= day and (self.last is None or day <= self.last)


@dataclass(frozen=True, slots=True)
class Stand:
    """The stages of a stand in order of time, without a gap: the first one reaches back for ever.

    It says what is true on a day, from the first day of a plan on.
    """

    spans: tuple[StandSpan, ...]

    def on(self, day: int) -> StandSpan:
        """The span of a day (an ordinal); of a day before the first span, that one."""
        return next((span for span in reversed(self.spans) if span.holds(day)), self.spans[0])

    def first(self, *stages: StandStage) -> StandSpan | None:
        """The earliest span of one of these stages, or None."""
        return next((span for span in self.spans if span.stage in stages), None)

    def days_of(self, wanted: Callable[[StandSpan], bool]) -> tuple[tuple[int, int | None], ...]:
        """The stretches of days (ordinals; an open end is None) whose span is wanted."""
        return tuple((span.first, span.last) for span in self.spans if wanted(span))


def lives(span: StandSpan) -> bool:
    """Whether grown grass stands in this span, alone or with what was sown into it."""
    return span.stage in LIVING or span.over in LIVING


def open_ground(span: StandSpan) -> bool:
    """Whether the ground of this span has no living grass."""
    return span.stage in OPEN_GROUND


def stage_told(condition: str) -> StandStage:
    """The stage in which a brief describes the lawn, by its condition."""
    if condition == "bare":
        return "bare"
    return "thin_turf" if condition in ("thin", "patchy") else "turf"


def stage_worked(condition: str, intent: Intent) -> StandStage:
    """The stage in which the lawn is when a fill is spread, or seed goes in.

    A lawn made anew is killed before either; what a brief calls bare has nothing to kill.
    """
    told = stage_told(condition)
    return "killed" if intent == "renovate" and told in LIVING else told
