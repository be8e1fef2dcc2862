"""Says what looks like a slip of who wrote down what happened: a day, an amount, a unit, a kind.

What happened is written whenever it can be true; what looks like a slip is only asked back. The
numbers here tell slips of the pen from what may be so, and are none of turf: those are the book's.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Final, Literal

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS, HALF_A_YEAR
from turfplan.errors import TurfplanError
from turfplan.message import Day, Days, Message, Number, Quantity, Sold, as_written
from turfplan.phrases import slips as phrases
from turfplan.planning.days_to_come import MAY_COME, can_be_so
from turfplan.planning.dropped_slips import told_of_dropped
from turfplan.records.journal import SHARES, YES_OR_NO, JournalEntry, MeasuredQuantity, standing
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount, Task
from turfplan.units import (
    System,
    convert,
    dimension_of,
    parse_quantity,
    pretty_unit,
    us_twin,
)

# A point that slipped by one place makes tenfold of an amount, which itself may be half of what was
# planned, or double: between double, which is so now and then, and fivefold lies what is asked.
SLIPPED = 4.0
# An amount is what the plan has within what rounding to buckets, quarter yards or bags makes of it,
# and it is not where it is off by more than half of what the nearest units differ by (a cubic metre
# is 1.3 cubic yards).
LIKE, UNLIKE = 0.08, 0.15
# What comes in two loads, or is spread on two days, is told apart from the same told twice by not
# being more in all than a generous load.
IN_ALL = 1.25
WHOLE, HAIR = 1.0, 1e-9
# The units in which the reader of a plan counts, by dimension: what was written in another was
# perhaps meant in one of these.
COUNTED_IN: Final[Mapping[System, Mapping[str, tuple[str, ...]]]] = {
    System.US: {
        "volume": ("yd3", "ft3", "gal"),
        "mass": ("lb", "tons", "oz"),
        "area": ("ft2", "yd2"),
    },
    System.METRIC: {"volume": ("m3", "L"), "mass": ("kg", "t", "g"), "area": ("m2",)},
}
SCALES = ("C", "F")
# What was ever measured anywhere, or can be: soil of deserts and of the far north, the wettest day
# on record (1.8 m), grass of the tallest kinds; grubs that lie side by side.
EVER: Final[Mapping[MeasuredQuantity, tuple[float, float]]] = {
    "soil_temperature": (-60.0, 75.0),
    "rain": (0.0, 2000.0),
    "grass_height": (0.0, 3000.0),
    "depth_missing": (0.0, 2000.0),
    "grubs": (0.0, 10000.0),
    "water_ban": (0.0, float(DAYS)),
}
# A day's rain, and a height of grass, of which inches for millimetres or centimetres are likelier.
MUCH_MM: Final[Mapping[MeasuredQuantity, float]] = {"rain": 150.0, "grass_height": 500.0}
Field = Literal["task", "on", "amount", "share", "value"]


@dataclass(frozen=True, slots=True)
class Slip:
    """What looks like a slip, and in which part of an entry; one that cannot be true is not
    `possible`."""

    field: Field
    what: Message
    possible: bool = True


@dataclass(frozen=True)
class _Written:
    """An entry that somebody wants to write, beside what is known: the plan and what stands."""

    entry: JournalEntry
    before: tuple[JournalEntry, ...]
    plan: Plan | None
    book: Book
    today: date | None
    quantity: str

    @cached_property
    def task(self) -> Task | None:
        """The task of the plan that it is about."""
        named = self.entry.task
        return None if self.plan is None or named is None else self.plan.task(named)

    @cached_property
    def of_task(self) -> tuple[JournalEntry, ...]:
        """What stands of the task already."""
        if self.entry.task is None:
            return ()
        return tuple(e for e in self.before if e.task == self.entry.task)

    @cached_property
    def works(self) -> tuple[JournalEntry, ...]:
        """What stands of work on the task."""
        return tuple(e for e in self.of_task if e.kind in ("done", "delivered"))

    @property
    def share_before(self) -> float:
        """The part of the task that was done before."""
        return sum(e.share for e in self.works)


def slips_of(
    entry: JournalEntry,
    journal: Sequence[JournalEntry],
    plan: Plan | None,
    book: Book,
    *,
    today: date | None,
    quantity: str = "",
) -> tuple[Slip, ...]:
    """What looks like a slip in an entry, before it is written; nothing for most.

    `today` is the lawn's date (None: nobody knows, as where a plan was made ahead of the clock);
    `quantity` is the amount or the measured value as it was given. What a wish would break of the
    plan is not asked here (`wishes`).
    """
    written = _Written(entry, standing(journal), plan, book, today, quantity)
    return tuple(slip for asked in _ASKED for slip in asked(written))


def _days(written: _Written) -> Iterator[Slip]:
    """A day to come, or one that is off by what a wrong year, or month, makes."""
    entry, plan, day = written.entry, written.plan, written.entry.on
    undone = entry.kind == "not_done" and day is None
    if undone and written.task is not None and written.today is not None:
        last = written.task.end
        if last > written.today:
            yield Slip("task", phrases.to_come(day=Day(last), n=(last - written.today).days))
    if day is None:
        return
    if written.today is not None and day > written.today and entry.kind not in MAY_COME:
        told = phrases.to_come(day=Day(day), n=(day - written.today).days)
        yield Slip("on", told, can_be_so(entry, written.today))
    elif written.task is not None:
        task = written.task
        off = _off(day, task.start, task.end)
        if off > HALF_A_YEAR:
            days = Days(task.start, task.end)
            far = phrases.far_off(day=Day(day), task=_title(task), days=days, off=off)
            yield Slip("on", far)
    elif plan is not None:
        first, last = plan.horizon.start, plan.horizon.end
        off = _off(day, first, last)
        if off > HALF_A_YEAR:
            outside = phrases.outside_plan(day=Day(day), days=Days(first, last), off=off)
            yield Slip("on", outside)


def _title(task: Task) -> Message:
    """What a task is called, as it was told in its plan."""
    return as_written(str(task.title))


def _off(day: date, first: date, last: date) -> int:
    """How many days lie between a day and some others."""
    return max((first - day).days, (day - last).days, 0)


def _kind(written: _Written) -> Iterator[Slip]:
    """A kind of entry that its task cannot have."""
    task, kind = written.task, written.entry.kind
    if task is None:
        return
    if task.closed == "dropped":
        what = told_of_dropped(written.entry, written.before, written.plan, task)
        yield Slip("task", what)
    if kind in ("delivered", "refused") and not task.plays("delivery", "collecting"):
        yield Slip("task", phrases.not_a_delivery(task=_title(task)))
    operation = written.book.operations.get(task.operation)
    # Of what repeats a day is taken off.
    repeats = task.series is not None
    if kind == "rained_off" and not repeats and operation is not None and operation.in_rain:
        yield Slip("task", phrases.in_any_weather(task=_title(task)))


def _again(written: _Written) -> Iterator[Slip]:
    """What is written already, or what another entry contradicts."""
    entry, task = written.entry, written.task
    if entry.kind in ("note", "undo", "moved", "booked"):
        return
    said = next((e for e in written.before if _same(e, entry)), None)
    if said is not None:
        yield Slip("task" if entry.task else "on", phrases.written_before(number=said.number))
    elif task is None:
        return
    elif entry.kind in ("done", "delivered"):
        yield from _done_again(written, task)
    elif entry.kind in ("skipped", "not_done", "rained_off") and _over(written):
        number = written.works[-1].number
        yield Slip("task", phrases.was_done(task=_title(task), number=number))


def _same(one: JournalEntry, other: JournalEntry) -> bool:
    """Whether two entries say the same."""
    told = ("kind", "task", "on", "to", "share", "amount", "unit", "quantity", "value")
    return all(getattr(one, name) == getattr(other, name) for name in told)


def _over(written: _Written) -> bool:
    """Whether all of the task was done before, and a plan that knows it does not ask for more."""
    task, plan = written.task, written.plan
    known = 0 if plan is None else plan.journal_entries
    again = task is not None and task.is_open and all(e.number <= known for e in written.works)
    return written.share_before >= WHOLE - HAIR and not again


def _done_again(written: _Written, task: Task) -> Iterator[Slip]:
    """Work on what is over: more of it than two loads or days would make."""
    entry, before = written.entry, written.share_before
    skipped = [e for e in written.of_task if e.kind == "skipped"]
    if skipped:
        number = skipped[-1].number
        yield Slip("task", phrases.was_skipped(task=_title(task), number=number))
    if _over(written) and not _another_part(written, task):
        number = written.works[-1].number
        yield Slip("task", phrases.was_done(task=_title(task), number=number))
    # Who says of what was begun that it is done means the rest of it.
    elif not _over(written) and entry.share < WHOLE and before + entry.share > WHOLE + HAIR:
        share = Number(before + entry.share, "percent")
        yield Slip("share", phrases.shares(task=_title(task), share=share))


def _another_part(written: _Written, task: Task) -> bool:
    """Whether what came or was used, with what was written before, is no more than was planned."""
    entries = (*written.works, written.entry)
    amounts = [e.amount for e in entries if e.amount is not None and e.unit == written.entry.unit]
    if len(amounts) < len(entries):
        return False
    planned = [amount.value for amount in _planned(task, written.entry)]
    return bool(planned) and sum(amounts) <= IN_ALL * max(planned)


def _planned(task: Task, entry: JournalEntry) -> list[Amount]:
    """What the plan has of a task in the unit of an entry."""
    return [amount for amount in task.amounts if amount.unit == entry.unit and amount.value > 0]


def _amounts(written: _Written) -> Iterator[Slip]:
    """An amount that is nothing like what was planned, or would be with another unit."""
    entry, task = written.entry, written.task
    if entry.amount is None or entry.unit is None:
        return
    if entry.amount <= 0:
        yield Slip("amount", phrases.nothing(amount=written.quantity), possible=False)
        return
    if task is None:
        return
    planned = _planned(task, entry)
    if not planned:
        yield Slip(
            "amount", phrases.not_counted(amount=_sold(entry.amount, entry.unit), task=_title(task))
        )
        return
    near = min(planned, key=lambda amount: _times(entry.amount or 0, amount.value * entry.share))
    wanted = near.value * entry.share
    told = Sold(near.value, near.unit, near.value_us, near.unit_us)
    wants = [amount.value * entry.share for amount in planned]
    unit = _other_unit(written, entry.amount, wants)
    if unit is not None:
        given = written.quantity
        other = phrases.other_unit(amount=given, planned=told, task=_title(task), unit=unit)
        yield Slip("amount", other)
    elif _times(entry.amount, wanted) > SLIPPED:
        yield Slip("amount", _far(entry.amount, wanted, told, _title(task)))


def _times(one: float, other: float) -> float:
    """How many times the smaller of two goes into the larger."""
    return max(one, other) / min(one, other) if min(one, other) > 0 else float("inf")


def _far(amount: float, wanted: float, planned: Sold, task: Message) -> Message:
    """How an amount and what was planned differ."""
    ratio, given = amount / wanted, _sold(amount, planned.unit)
    if ratio > 1:
        times = Number(ratio, "trimmed" if ratio < 100 else "grouped")
        return phrases.many_times(amount=given, planned=planned, task=task, times=times)
    share = Number(ratio, "percent_tenth")
    return phrases.small_part(amount=given, planned=planned, task=task, share=share)


def _sold(value: float, unit: str) -> Sold | Quantity:
    """A value in an inside unit as people read it."""
    if unit == "C":
        return Quantity(value, "temperature")
    value_us, unit_us = us_twin(value, unit)
    return Sold(value, unit, value_us, unit_us)


def _other_unit(written: _Written, amount: float, wants: Sequence[float]) -> str | None:
    """The unit of the plan's reader with which an amount as given would be what is wanted, where
    with its own it is not."""
    unit = written.quantity.strip().lstrip("+-0123456789./ ")
    dimension = dimension_of(unit)
    if written.plan is None or dimension is None:
        return None
    if any(_is_like(amount, want, UNLIKE) for want in wants):
        return None
    number = amount / convert(1.0, unit, dimension)
    for other in COUNTED_IN[written.plan.lawn.units].get(dimension, ()):
        read = convert(number, other, dimension)
        if any(_is_like(read, want, LIKE) for want in wants):
            return pretty_unit(other)
    return None


def _is_like(value: float, wanted: float, within: float) -> bool:
    return abs(value - wanted) <= within * wanted


def _measured(written: _Written) -> Iterator[Slip]:
    """A value that nothing ever has, or that is not of the season."""
    entry = written.entry
    if entry.kind != "measured" or entry.quantity is None or entry.value is None:
        return
    quantity, value, given = entry.quantity, entry.value, written.quantity
    if quantity in YES_OR_NO and value not in (0, 1):
        yield Slip("value", phrases.yes_or_no(value=given), possible=False)
    if quantity in SHARES and not 0 <= value <= WHOLE:
        yield Slip("value", phrases.whole_share(value=given), possible=False)
    if quantity in (*SHARES, *YES_OR_NO):
        return
    low, high = EVER[quantity]
    unit = entry.unit or ""
    if not low <= value <= high:
        ends = {"low": _sold(low, unit), "high": _sold(high, unit)}
        yield Slip("value", phrases.out_of_range(value=given, **ends), possible=False)
    elif quantity == "soil_temperature":
        yield from _off_season(written, value)
    else:
        most = _much(written, quantity)
        if most is not None and value > most:
            yield Slip("value", phrases.much(value=given, usual=_sold(most, unit)))


def _much(written: _Written, quantity: MeasuredQuantity) -> float | None:
    """More than which of a quantity is likelier a slip, in its inside unit."""
    if quantity == "grubs":
        return SLIPPED * written.book.si("site.grubs_most")
    if quantity == "depth_missing":
        # What is missing once every pass is done is part of what was to be filled.
        fill = written.plan.lawn.depth_mm if written.plan is not None else 0.0
        return SLIPPED * fill if fill > 0 else None
    return MUCH_MM.get(quantity)


def _off_season(written: _Written, value: float) -> Iterator[Slip]:
    """A temperature of the soil that its time of the year has not."""
    usual, swing = _usual_soil_c(written), written.book.si("weather.soil_swing")
    if usual is None or abs(value - usual) <= swing:
        return
    given, told = written.quantity, _sold(usual, "C")
    for other in SCALES:
        read = _read_as(given, other)
        if read is not None and abs(read - usual) <= swing / 2:
            scale = phrases.other_scale(value=given, usual=told, unit=pretty_unit(other))
            yield Slip("value", scale)
            return
    yield Slip("value", phrases.unlike_season(value=given, usual=told))


def _read_as(quantity: str, unit: str) -> float | None:
    """A temperature as given, read in another scale."""
    number = quantity.strip().rstrip("°CFKdeg ")
    try:
        return parse_quantity(f"{number} {unit}", "temperature")
    except TurfplanError:
        return None  # it was given in words, or not at all: there is nothing to read otherwise


def _usual_soil_c(written: _Written) -> float | None:
    """What the soil has there at that time of the year, degC."""
    day, plan = written.entry.on, written.plan
    if day is None or plan is None or not plan.climate.soil_10cm_c:
        return None
    days, curve = plan.climate.day_of_year, plan.climate.soil_10cm_c
    number = day.timetuple().tm_yday - 1
    return curve[max(bisect_right(days, number) - 1, 0)]


_ASKED: tuple[Callable[[_Written], Iterator[Slip]], ...] = (
    _days,
    _kind,
    _again,
    _amounts,
    _measured,
)
