"""Why a lawn cannot be planned as it is asked, and what would do instead, as pages show it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import overload

from turfplan.app.what_if import way_of
from turfplan.records.plan import Plan


@dataclass(frozen=True, slots=True)
class WayOut:
    """A way out as a page offers it; `way` is what a button sends, nothing where none can."""

    title: str
    reason: str
    way: str


def ways_out(plan: Plan) -> tuple[WayOut, ...]:
    """The ways out that a plan knows, each of which was planned."""
    return tuple(WayOut(str(o.title), str(o.reason), way_of(o.change)) for o in plan.options)


@dataclass(frozen=True, slots=True)
class NotPlanned(Sequence[str]):
    """The reasons why a lawn cannot be planned, none where it was, and the ways out."""

    reasons: tuple[str, ...] = ()
    ways: tuple[WayOut, ...] = ()

    @overload
    def __getitem__(self, place: int) -> str: ...

    @overload
    def __getitem__(self, place: slice) -> tuple[str, ...]: ...

    def __getitem__(self, place: int | slice) -> str | tuple[str, ...]:
        return self.reasons[place]

    def __len__(self) -> int:
        return len(self.reasons)
