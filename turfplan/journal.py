"""The frozen record of what happened: dated entries, never edited, undone only by another entry."""

from collections.abc import Iterable
from datetime import date, datetime
from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

Kind = Literal["done", "skipped", "moved", "rained_off", "measured", "delivered", "refused", "note", "undo", "not_done"]
Quantity = Literal["soil_temperature", "rain", "grass_height", "depth_missing", "germination"]
_NEEDS_TASK = ("done", "skipped", "moved", "delivered", "refused", "not_done")
_NEEDS_DAY = ("done", "skipped", "rained_off", "measured", "delivered", "refused")


class JournalEntry(BaseModel):
    """One thing that happened. `number` counts from 1; `at` is when it was written down (aware).

    `share` is the part of the task that was done, 0 to 1; `amount`/`unit` are SI (m3, kg, mm, C); `quantity`/`value`/`unit`
    are a measurement in the inside unit of its dimension (soil_temperature C, rain mm, grass_height mm, depth_missing mm,
    germination a share of 0 or 1).
    """

    model_config = ConfigDict(frozen=True, extra="forbid")
    number: int = Field(ge=1)
    at: datetime
    kind: Kind
    task: str | None = None
    on: date | None = None
    to: date | None = None
    share: float = Field(1.0, gt=0, le=1)
    amount: float | None = None
    unit: str | None = None
    quantity: Quantity | None = None
    value: float | None = None
    text: str | None = None
    undoes: int | None = None

    @model_validator(mode="after")
    def _complete(self) -> Self:
        if self.at.tzinfo is None:
            raise ValueError("the time of an entry needs a zone")
        if self.kind in _NEEDS_TASK and not self.task:
            raise ValueError(f"{self.kind} needs a task")
        if self.kind in _NEEDS_DAY and self.on is None:
            raise ValueError(f"{self.kind} needs the day it happened on")
        if self.kind == "moved" and self.to is None:
            raise ValueError("moved needs the day it moves to")
        if self.kind == "measured" and (self.quantity is None or self.value is None):
            raise ValueError("measured needs a quantity and its value")
        if self.kind == "note" and not self.text:
            raise ValueError("a note needs words")
        if self.kind == "undo" and self.undoes is None:
            raise ValueError("undo needs the number of the entry it undoes")
        return self


def standing(entries: Iterable[JournalEntry]) -> tuple[JournalEntry, ...]:
    """The entries that still count, in order of writing: undone ones and undos themselves are left out.

    An undo may itself be undone; the last word counts.
    """
    entries = sorted(entries, key=lambda e: e.number)
    undone: set[int] = set()
    for entry in reversed(entries):
        if entry.kind == "undo" and entry.number not in undone and entry.undoes is not None:
            undone.add(entry.undoes)
    return tuple(e for e in entries if e.kind != "undo" and e.number not in undone)
