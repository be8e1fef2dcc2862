"""The frozen record of what happened: dated entries, never edited, undone only by another entry."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import Literal, Self, get_args

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
# What befalls a lawn, which work then waits for: 1 where it is so, 0 once it is over; `green_up` is
# so as long as it is 0.
EventName = Literal[
    "tips_buried",
    "burned",
    "heat_stress",
    "sickness",
    "weed_killer",
    "green_up",
    "heap_wet",
]
# What takes seed that lies in the ground: the share of it that is up, or that is gone.
SeedLoss = Literal["germination", "seed_washed", "animals"]
MeasuredQuantity = Literal[
    EventName,
    SeedLoss,
    "soil_temperature",
    "rain",
    "grass_height",
    "depth_missing",
    "live_cause",
    "cause_left",
    "grubs",
    "water_ban",
]
# What there is a part of, and what is so or is not.
SHARES: tuple[MeasuredQuantity, ...] = get_args(SeedLoss)
YES_OR_NO: tuple[MeasuredQuantity, ...] = (*get_args(EventName), "live_cause", "cause_left")
# By which way an entry came into the journal: a command, a served page, or a file of others.
Way = Literal["command", "page", "file"]
# What somebody wishes, as against what has happened: it counts as far as it can be planned.
WISHES: tuple[EntryKind, ...] = ("moved", "booked")
_NEEDS_TASK = ("done", "skipped", *WISHES, "delivered", "refused", "not_done")
_NEEDS_DAY = ("done", "skipped", "rained_off", "measured", "delivered", "refused")


class SpreadRecord(BaseModel):
    """What was spread or sprayed, as records of such work ask for it: the product and its active
    ingredient by their names, on how much ground, at which clock time, in which wind, by whose
    licence."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    product: str = Field(min_length=1, max_length=200)
    active_ingredient: str | None = None
    area_m2: float | None = Field(None, gt=0)
    time: str | None = Field(None, pattern=r"^([01]\d|2[0-3]):[0-5]\d$")
    wind: str | None = None
    licence: str | None = None


class JournalEntry(BaseModel):
    """One thing that happened. `number` counts from 1; `at` is when it was written down (aware).

    `share` is the part of the task that was done, 0 to 1; `amount`/`unit` are SI (m3, kg, mm, C);
    `quantity`/`value`/`unit` are a measurement in the inside unit of its dimension
    (soil_temperature C, rain, grass_height and depth_missing mm, grubs 1/m2, water_ban the days for
    which watering is banned from `on` on, 0 where it is over; a share what else is measured: what
    is so or is not is 1 or 0). `by` is who wrote it, as far as they said; `way`
    how it came here and `key` what its writer knows it by, neither in entries of before there were
    such: entries of one key are one, however often they were written. `hours` are those that all
    people together worked on it, as far as somebody wrote them down.
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
    hours: float | None = Field(None, gt=0, le=10_000)
    spread: SpreadRecord | None = None

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


def taken_back(entries: Sequence[JournalEntry], known: int) -> tuple[JournalEntry, ...]:
    """What stood among the first `known` entries of a journal, and stands no more."""
    still = {entry.number for entry in standing(entries)}
    before = standing([entry for entry in entries if entry.number <= known])
    return tuple(entry for entry in before if entry.number not in still)


def says_more(entries: Sequence[JournalEntry], known: int) -> bool:
    """Whether what stands of a journal and changes something is something else than what its first
    `known` entries said. A note changes nothing, nor does what was taken back before anybody
    planned with it; a journal that has lost entries says something else."""
    if len(entries) < known:
        return True
    said, before = (
        [entry for entry in standing(each) if entry.kind != "note"]
        for each in (entries, [e for e in entries if e.number <= known])
    )
    return said != before


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
