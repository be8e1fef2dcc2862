"""The tasks of a plan: what, when, why, how much, and what was published and done."""

from contextlib import suppress
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from operator import not_
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    PlainSerializer,
    ValidationInfo,
)
from pydantic_core import CoreSchema, core_schema

from turfplan.errors import FormError
from turfplan.message import Message, as_written, message_from_json, said
from turfplan.phrases import form
from turfplan.records.book_names import FactName
from turfplan.records.items import AmountItem, NamedAmount
from turfplan.units import us_twin

Status = Literal["NEEDS-ACTION", "IN-PROCESS", "COMPLETED", "CANCELLED"]
Phase = Literal["prepare", "surface", "level", "seed", "care", "finish"]
# The parts that tasks play in a renovation; `headline` marks what a reader looks for first.
Role = Literal[
    "marking",
    "low_cut",
    "thatching",
    "coring",
    "digging",
    "ordering",
    "calling",
    "collecting",
    "delivery",
    "spreading",
    "sowing",
    "dormant",
    "planting",
    "relaying",
    "first_cut",
    "looking",
    "measuring",
    "mending",
    "feeding",
    "starter",
    "leave_out",
    "headline",
]
# How late a day lies in its season.
Grade = Literal["good", "late", "last"]
Outcome = Literal["done", "skipped", "dropped"]
Stamp = Annotated[
    datetime,
    PlainSerializer(
        lambda d: d.isoformat().replace("+00:00", "Z"), return_type=str, when_used="json"
    ),
]
NOTHING = as_written("")


def _read(value: object, info: ValidationInfo) -> Message:
    """A message, or the text of one: what `plan.json` keeps of it stands in the table of the
    context, by its text.
    """
    if isinstance(value, Message):
        return value
    if not isinstance(value, str):
        raise FormError(form.not_text())
    if info.context is None:
        return as_written(value)
    # A plan says much more than once: it is one message then.
    made: dict[str, Message] = info.context.setdefault("made", {})
    message = made.get(value)
    if message is None:
        message = made[value] = _of_file(value, info.context["said"].get(value))
    return message


def _of_file(text: str, kept: Any) -> Message:
    """The message of a text of a file, by what is `kept` of it there: the text is what it was told
    as, whatever these words would make of it now.
    """
    if kept is not None:
        # What a newer program keeps of a text may be of a kind that this one does not know: the
        # text stands then.
        with suppress(AttributeError, KeyError, TypeError, ValueError):
            return message_from_json(kept, text)
    return replace(as_written(text), text=text)


def _written(message: Message) -> str:
    """The text of a message, for files; it must have been told to a reader before."""
    return str(message)


class _SaidInFiles:
    """What pydantic is told of a message: how it is read and written, nothing of its inside.

    PlainValidator and PlainSerializer would have it build the schema of a message, with every
    kind of value, for each field that holds one; that took most of the time of making a plan's
    classes.
    """

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(
            _read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                _written, return_schema=core_schema.str_schema()
            ),
        )

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, str]:
        return {"type": "string"}


# What is said: a key with values inside, a text in files.
Said = Annotated[Message, _SaidInFiles()]
ClockTime = Annotated[
    time, PlainSerializer(lambda t: t.strftime("%H:%M"), return_type=str, when_used="json")
]


class PlanRecord(BaseModel):
    """Base of every record of the plan: frozen, unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True, defer_build=True)


class TaskWindow(PlanRecord):
    """The days on which a task may be done, both included."""

    start: date
    end: date


class Slack(PlanRecord):
    """How far a task can slip while every other keeps its day: the last day on which it may begin.

    `moves` are the tasks that a later day would move; none where the task's own days end there.
    """

    end: date
    moves: tuple[str, ...] = ()


class Amount(PlanRecord):
    """How much of something: SI value and unit, US value and unit, and why this much."""

    item: NamedAmount
    value: float
    unit: str
    value_us: float
    unit_us: str
    reason: Said
    facts: tuple[str, ...] = ()

    @classmethod
    def of(
        cls,
        item: AmountItem,
        value: float,
        unit: str,
        reason: Message | str,
        facts: tuple[FactName, ...] = (),
    ) -> "Amount":
        """An amount from its SI value, with the US twin worked out; at most six decimals are
        kept.
        """
        value_us, unit_us = us_twin(value, unit)
        return cls(
            item=item,
            value=round(value, 6),
            unit=unit,
            value_us=round(value_us, 6),
            unit_us=unit_us,
            reason=said(reason),
            facts=facts,
        )


class Series(PlanRecord):
    """A repeated timed job: every day, or on some weekdays, from one day to another, less the days
    to skip.

    `minutes` are those of water; `elapsed_minutes` pass from the first drop to the last, pauses and
    moves included, where that is longer.
    """

    start: date = Field(alias="from")
    end: date = Field(alias="to")
    start_time: ClockTime
    minutes: int
    weekdays: tuple[str, ...] = ()
    skip: tuple[date, ...] = ()
    # Left out where it says nothing: series of older folders stay as they were written.
    elapsed_minutes: int | None = Field(default=None, exclude_if=lambda minutes: minutes is None)

    @property
    def lasts_minutes(self) -> int:
        """Minutes from the beginning of a run to its end."""
        return self.minutes if self.elapsed_minutes is None else self.elapsed_minutes


class WateringStage(PlanRecord):
    """The stage of watering that a series belongs to: its id, what it is called, how a run is cut.

    The minutes of a run are those of water in `settings` places, one after the other, and in
    `cycles`, between which `soak_minutes` pass in one place. `rate_mm_h` falls where it wets; None
    for several zones in one series. With `stand_in` nobody of the household is there on its days: a
    neighbour or a timer waters.
    """

    id: str
    name: Said
    stand_in: bool = False
    settings: int = 1
    cycles: int = 1
    soak_minutes: int = 0
    rate_mm_h: float | None = None


class WhatHappened(PlanRecord):
    """What really happened."""

    start: date
    end: date
    amounts: tuple[Amount, ...] = ()
    share: float = 1.0


class PublishedEntry(PlanRecord):
    """All that the feed last showed of a task: words, days, runs, reminder; the calendar is written
    from this alone.

    History is re-emitted from here, never made anew. `series` holds what repeats, at clock times of
    `timezone`; `days` are those of an entry of whole days that comes on several. `alarm` is days
    before and clock time. A `hidden` one is kept here and stands in no calendar: another entry
    tells of it, or none.
    """

    summary: str
    description: str
    start: date
    end: date
    category: str
    cancelled: bool = False
    series: Series | None = None
    timezone: str | None = None
    alarm: tuple[int, ClockTime] | None = None
    # Left out where they say nothing: they came later.
    days: tuple[date, ...] = Field(default=(), exclude_if=not_)
    hidden: bool = Field(default=False, exclude_if=not_)


class Task(PlanRecord):
    """One thing to do, with its dates, reasons and amounts; the book says which roles its operation
    plays.

    Days off may lie between its first and its last day; then `worked_on` are those on which it can
    be worked, of which it takes `duration_days`.
    """

    id: str
    uid: str
    operation: str
    phase: Phase
    roles: tuple[Role, ...] = ()
    title: Said
    why: Said = NOTHING
    start: date
    end: date
    best: date
    duration_days: int = 1
    # Left out where every day from first to last is one: it came later.
    worked_on: tuple[date, ...] = Field(default=(), exclude_if=not_)
    person_hours: float = 0.0
    status: Status = "NEEDS-ACTION"
    window: TaskWindow
    not_earlier: tuple[Said, ...] = ()
    not_later: tuple[Said, ...] = ()
    amounts: tuple[Amount, ...] = ()
    how: tuple[Said, ...] = ()
    go: Said | None = None
    fallback: Said | None = None
    fallback_day: date | None = None
    # Left out where nobody reckoned it: it came later.
    slack: Slack | None = Field(default=None, exclude_if=lambda slack: slack is None)
    cautions: tuple[Said, ...] = ()
    depends_on: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    strength: Literal["hard", "strong", "advice", "preference"] = "strong"
    overdue: bool = False
    grade: Grade | None = None
    closed: Outcome | None = None
    held: bool = False
    # Left out where it says nothing: it came later.
    booked: bool = Field(default=False, exclude_if=not_)
    actual: WhatHappened | None = None
    series: Series | None = None
    stage: WateringStage | None = None
    sequence: int = 0
    created: Stamp | None = None
    last_modified: Stamp | None = None
    change: Said | None = None
    published: PublishedEntry | None = None
    alarm: bool = False

    @property
    def days(self) -> tuple[date, date]:
        """Its first and last day: those on which it was worked on, with those still planned of one
        that is done in part, else those that are planned."""
        if self.actual is None:
            return self.start, self.end
        if self.closed is not None:
            return self.actual.start, self.actual.end
        return min(self.actual.start, self.start), max(self.actual.end, self.end)

    @property
    def days_worked(self) -> tuple[date, ...]:
        """The days on which it can be worked, where days off lie between first and last; of what is
        begun the days on which it was, and those that are left for the rest."""
        if self.actual is not None and self.is_open:
            left = self.worked_on or (self.start + timedelta(n) for n in range(self._span_days))
            return tuple(sorted({self.actual.start, self.actual.end, *left}))
        days = self.worked_on
        return days if days and (days[0], days[-1]) == self.days else ()

    @property
    def _span_days(self) -> int:
        return (self.end - self.start).days + 1

    @property
    def is_open(self) -> bool:
        """Whether it is still to be done: neither closed nor out of the calendar."""
        return self.closed is None and self.status != "CANCELLED"

    def plays(self, *roles: Role) -> bool:
        """Whether the task plays one of these roles, as the book gives them to its operation."""
        # Asked of every task by every check: a plain loop is several times as quick as any() over a
        # generator.
        for role in roles:  # noqa: SIM110
            if role in self.roles:
                return True
        return False
