"""The frozen record of what happened: dated entries, never edited, undone only by another entry."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from turfplan.errors import FormError
from turfplan.message import Message
from turfplan.phrases import journal as phrases

EntryKind = Literal[
    "done",
    "skipped",
    "moved",
    "booked",
    "rained_off",
    "measured",
    "delivered",
    "refused",
    "note",
    "undo",
    "not_done",
]
MeasuredQuantity = Literal[
    "soil_temperature",
    "rain",
    "grass_height",
    "depth_missing",
    "germination",
    "live_cause",
    "cause_left",
    "grubs",
]
# By which way an entry came into the journal: a command, a served page, or a file of others.
Way = Literal["command", "page", "file"]
# What somebody wishes, as against what has happened: it counts as far as it can be planned.
WISHES: tuple[EntryKind, ...] = ("moved", "booked")
_NEEDS_TASK = ("done", "skipped", *WISHES, "delivered", "refused", "not_done")
_NEEDS_DAY = ("done", "skipped", "rained_off", "measured", "delivered", "refused")


class JournalEntry(BaseModel):
    """One thing that happened. `number` counts from 1; `at` is when it was written down (aware).

    `share` is the part of the task that was done, 0 to 1; `amount`/`unit` are SI (m3, kg, mm, C);
    `quantity`/`value`/`unit` are a measurement in the inside unit of its dimension
    (soil_temperature C, rain mm, grass_height mm, depth_missing mm, germination, live_cause
    and cause_left a share of 0 or 1, grubs 1/m2). `by` is who wrote it, as far as they said; `way`
    how it came here and `key` what its writer knows it by, neither in entries of before there were
    such: entries of one key are one, however often they were written.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    number: int = Field(ge=1)
    at: datetime
    kind: EntryKind
    task: str | None = None
    on: date | None = None
    to: date | None = None
    share: float = Field(1.0, gt=0, le=1)
    amount: float | None = None
    unit: str | None = None
    quantity: MeasuredQuantity | None = None
    value: float | None = None
    text: str | None = None
    undoes: int | None = None
    by: str = ""
    way: Way | None = None
    key: str | None = Field(None, min_length=1)

    @model_validator(mode="after")
    def _complete(self) -> Self:
        if self.at.tzinfo is None:
            raise FormError(phrases.needs_zone())
        if self.kind in _NEEDS_TASK and not self.task:
            raise FormError(phrases.needs_task(kind=self.kind))
        if self.kind in _NEEDS_DAY and self.on is None:
            raise FormError(phrases.needs_day(kind=self.kind))
        needed = _NEEDS_MORE.get(self.kind)
        if needed is not None and not needed[0](self):
            raise FormError(needed[1]())
        return self


# What an entry of a kind needs besides, and what is said where it lacks it.
_NEEDS_MORE: Mapping[EntryKind, tuple[Callable[[JournalEntry], bool], Callable[[], Message]]] = {
    "moved": (lambda entry: entry.to is not None, phrases.moved_needs_day),
    "booked": (lambda entry: entry.to is not None, phrases.booked_needs_day),
    "measured": (
        lambda entry: entry.quantity is not None and entry.value is not None,
        phrases.measured_needs_value,
    ),
    "note": (lambda entry: bool(entry.text), phrases.note_needs_words),
    "undo": (lambda entry: entry.undoes is not None, phrases.undo_needs_number),
}


def standing(entries: Iterable[JournalEntry]) -> tuple[JournalEntry, ...]:
    """The entries that still count, in order of writing.

    Undone ones and undos themselves are left out, and what repeats the key of an entry before it.
    An undo may itself be undone; the last word counts.
    """
    entries = _once(sorted(entries, key=lambda e: e.number))
    undone: set[int] = set()
    for entry in reversed(entries):
        if entry.kind == "undo" and entry.number not in undone and entry.undoes is not None:
            undone.add(entry.undoes)
    return tuple(e for e in entries if e.kind != "undo" and e.number not in undone)


def _once(entries: Iterable[JournalEntry]) -> list[JournalEntry]:
    """The entries, of each key the first."""
    seen: set[str] = set()
    found = []
    for entry in entries:
        if entry.key is None or entry.key not in seen:
            found.append(entry)
        if entry.key is not None:
            seen.add(entry.key)
    return found
