"""What the journal and the calendar say about the tasks of the plan before: done, skipped, held, overdue, still open."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.constraints import Allowed, Constraint, DaySet, Reason, Strength
from turfplan.journal import JournalEntry, standing
from turfplan.plan import Actual, Amount, Plan, Task
from turfplan.revision import Past
from turfplan.rules.draft import Draft
from turfplan.units import System
from turfplan.wording import day_text


@dataclass(frozen=True, slots=True)
class History:
    """The past of a plan, by task id; days are ordinals.

    `done` holds what is over (the last day it was worked on), `part_done` the share of what is begun, `overdue` what is
    over without an entry, `held` what was moved by hand, `not_before` the first day still possible after rain or refusal.
    """

    done: Mapping[str, int] = field(default_factory=dict)
    actual: Mapping[str, Actual] = field(default_factory=dict)
    part_done: Mapping[str, float] = field(default_factory=dict)
    skipped: frozenset[str] = frozenset()
    overdue: Mapping[str, int] = field(default_factory=dict)
    held: Mapping[str, int] = field(default_factory=dict)
    not_before: Mapping[str, tuple[int, str]] = field(default_factory=dict)
    published: Mapping[str, int] = field(default_factory=dict)
    germinated: date | None = None
    missing_mm: float | None = None
    soil: tuple[tuple[date, float], ...] = ()
    rain: Mapping[date, float] = field(default_factory=dict)
    because: Mapping[str, str] = field(default_factory=dict)

    @property
    def fixed(self) -> dict[str, int]:
        """Every task whose day is not to be chosen any more."""
        return {**self.overdue, **self.held, **self.done}

    def as_record(self) -> Past:
        """What the numbering and stamping of a plan needs to know of it."""
        return Past(
            done=self.done, actual=self.actual, part_done=self.part_done, skipped=self.skipped, overdue=self.overdue,
            held=self.held, because=self.because,
        )  # fmt: skip


@dataclass(slots=True)
class _Told:
    """What the entries of a journal have said so far, by task id; it grows entry by entry. Days are ordinals."""

    done: dict[str, int] = field(default_factory=dict)
    actual: dict[str, Actual] = field(default_factory=dict)
    part: dict[str, float] = field(default_factory=dict)
    skipped: set[str] = field(default_factory=set)
    held: dict[str, int] = field(default_factory=dict)
    blocked: dict[str, tuple[int, str]] = field(default_factory=dict)
    because: dict[str, str] = field(default_factory=dict)
    not_done: set[str] = field(default_factory=set)


def read_history(
    book: Book, journal: Sequence[JournalEntry], previous: Plan | None, today: date, *, assume_not_done: bool = False
) -> History:
    """The standing entries of a journal against the plan before."""
    entries = standing(journal)
    tasks = {t.id: t for t in previous.tasks} if previous is not None else {}
    told = _told(book, entries, tasks)
    still_open = [
        t
        for t in tasks.values()
        if t.closed is None and t.status != "CANCELLED" and t.id not in told.done and t.id not in told.skipped
    ]
    return History(
        done=told.done,
        actual=told.actual,
        part_done={name: share for name, share in told.part.items() if share < 1 - 1e-9},
        skipped=frozenset(told.skipped),
        overdue={} if assume_not_done else _overdue(still_open, told, today),
        held={name: day for name, day in told.held.items() if name not in told.done and name not in told.skipped},
        not_before=told.blocked,
        published={t.id: t.start.toordinal() for t in still_open if t.series is None},
        germinated=next((e.on for e in entries if e.quantity == "germination" and e.value), None),
        missing_mm=next((e.value for e in reversed(entries) if e.quantity == "depth_missing"), None),
        soil=tuple(
            (e.on, e.value) for e in entries if e.quantity == "soil_temperature" and e.on and e.value is not None
        ),
        rain={e.on: e.value for e in entries if e.quantity == "rain" and e.on and e.value is not None},
        because=told.because,
    )


def _told(book: Book, entries: Sequence[JournalEntry], tasks: Mapping[str, Task]) -> _Told:
    """What the entries say of tasks, in the order in which they stand: a later one may take back what was held before."""
    told = _Told()
    for entry in entries:
        if entry.kind in ("done", "delivered") and entry.task and entry.on:
            _worked(told, entry, entry.task, entry.on)
        elif entry.kind == "skipped" and entry.task:
            told.skipped.add(entry.task)
        elif entry.kind == "moved" and entry.task and entry.to:
            told.held[entry.task] = entry.to.toordinal()
            told.because[entry.task] = "It was moved by hand."
        elif entry.kind in ("rained_off", "refused") and entry.on:
            _put_off(told, entry.kind, entry.on, _hit(book, entry, tasks, told.held))
        elif entry.kind == "not_done" and entry.task:
            told.not_done.add(entry.task)
    return told


def _worked(told: _Told, entry: JournalEntry, task: str, on: date) -> None:
    """A task was worked on for a day: shares, days and amounts add up, and it is over when all of it is done."""
    before = told.actual.get(task)
    share = min(1.0, told.part.get(task, 0.0) + entry.share)
    # Entries may be written out of order: the work lasted from its earliest to its latest day.
    first, last = (min(before.start, on), max(before.end, on)) if before is not None else (on, on)
    told.part[task] = share
    told.actual[task] = Actual(start=first, end=last, amounts=_used(entry, before), share=share)
    if share >= 1 - 1e-9:
        told.done[task] = last.toordinal()
    told.held.pop(task, None)
    told.because[task] = "It is logged as done." if task in told.done else f"{share:.0%} of it is logged as done."


def _put_off(told: _Told, kind: str, on: date, names: Sequence[str]) -> None:
    """Rain, or a load that was sent back, takes the day from these tasks, and a move by hand with it."""
    words, wait = ("It was rained off.", 1) if kind == "rained_off" else ("The load was refused.", 2)
    for name in names:
        told.blocked[name] = (on.toordinal() + wait, words)
        told.because[name] = words
        told.held.pop(name, None)


def _overdue(still_open: Sequence[Task], told: _Told, today: date) -> dict[str, int]:
    """The last day of every open task that is over without a word of it in the journal; waterings are not asked about."""
    return {
        t.id: (t.actual.end if t.actual and t.actual.share >= 1 else t.end).toordinal()
        for t in still_open
        if t.end < today
        and t.id not in told.not_done
        and t.id not in told.blocked
        and t.id not in told.held
        and t.series is None
    }


def still_missing_mm(history: History, previous: Plan | None) -> float | None:
    """The depth that was last measured as missing, once every pass is done; None before, or where nothing was measured."""
    passes = [t.id for t in previous.tasks if t.plays("spreading") and t.status != "CANCELLED"] if previous else []
    over = bool(passes) and all(name in history.done or name in history.skipped for name in passes)
    return history.missing_mm if over else None


def _used(entry: JournalEntry, before: Actual | None) -> tuple[Amount, ...]:
    """What was logged of a task so far: entries of one unit add up."""
    found = {amount.unit: amount.value for amount in (before.amounts if before is not None else ())}
    if entry.amount is not None and entry.unit is not None:
        found[entry.unit] = found.get(entry.unit, 0.0) + entry.amount
    return tuple(Amount.of("used", value, unit, "As logged.") for unit, value in found.items())


def _hit(book: Book, entry: JournalEntry, tasks: Mapping[str, Task], held: Mapping[str, int]) -> list[str]:
    """The tasks that rain on a day, or a refused load, has put off."""
    if entry.task:
        return [entry.task]
    found = []
    for task in tasks.values():
        day = held.get(task.id)
        starts = date.fromordinal(day) if day is not None else task.start
        ends = starts + (task.end - task.start)
        wet = task.operation in book.operations and book.operations[task.operation].weather in ("dry", "dry_ground")
        if entry.on and starts <= entry.on <= ends and wet and task.closed is None:
            found.append(task.id)
    return found


def history_constraints(
    history: History, drafts: Sequence[Draft], today: date, last_day: int
) -> tuple[Constraint, ...]:
    """Open tasks lie on or after today, and after the day that rain or a refusal took from them."""
    found: list[Constraint] = []
    fixed = history.fixed
    for draft in drafts:
        if draft.id in fixed:
            continue
        first = today.toordinal()
        found.append(
            Allowed(
                f"today:{draft.id}",
                draft.start_node,
                DaySet.of([(first, last_day)]),
                Strength.HARD,
                Reason("history.today", "It is still to be done, and the days before today are over."),
            )
        )
        if draft.id in history.not_before:
            day, words = history.not_before[draft.id]
            found.append(
                Allowed(
                    f"put_off:{draft.id}", draft.start_node, DaySet.of([(day, last_day)]), Strength.HARD,
                    Reason("history.put_off", words),
                )
            )  # fmt: skip
    return tuple(found)


def dry_day_constraints(
    book: Book, drafts: Sequence[Draft], wet_days: Mapping[date, float], work_days: DaySet, first: int, last: int
) -> tuple[Constraint, ...]:
    """Spreading keeps off days with rain in the forecast, and off the day after a real soaking, as long as other rules let it.

    That holds for every day that it takes: a job of two days starts where both are dry.
    """
    if not wet_days:
        return ()
    bad = _bad_days(book, wet_days)
    dry = {length: _dry_starts(bad, work_days, first, last, length) for length in {d.duration_days for d in drafts}}
    reason = Reason(
        "weather.dry_day",
        "Rain is forecast: the mix must be dry, and stay dry until it is worked in.",
        ("weather.dry_day_rain",),
    )
    return tuple(
        Allowed(
            f"dry:{d.id}",
            d.start_node,
            dry[d.duration_days],
            Strength.STRONG if "spreading" in book.operations[d.operation].roles else Strength.ADVICE,
            reason,
        )
        for d in drafts
        if book.operations[d.operation].weather == "dry"
    )


def _dry_starts(bad: set[int], work_days: DaySet, first: int, last: int, length: int) -> DaySet:
    """The days from which a job of so many working days meets none that is too wet."""
    if length == 1:
        return DaySet.from_days(d for d in range(first, last + 1) if d not in bad)
    days = [d for d in work_days.days() if first <= d <= last]
    spans = zip(*(days[k:] for k in range(length)), strict=False)
    return DaySet.from_days(span[0] for span in spans if bad.isdisjoint(span))


def _bad_days(book: Book, wet_days: Mapping[date, float]) -> set[int]:
    """The days that are too wet for dry work: those of rain, and the one after a soaking."""
    slight, soaking = book.si("weather.dry_day_rain"), book.si("weather.soaking_rain")
    bad = {d.toordinal() for d, rain in wet_days.items() if rain > slight}
    return bad | {(d + timedelta(days=1)).toordinal() for d, rain in wet_days.items() if rain > soaking}


def forecast_reasons(
    book: Book, previous: Plan | None, wet_days: Mapping[date, float], system: System
) -> dict[str, str]:
    """By task of the plan before that needs a dry day and was to be on a wet one, why it cannot stay there."""
    if previous is None or not wet_days:
        return {}
    bad = _bad_days(book, wet_days)
    found = {}
    for task in previous.tasks:
        if task.operation in book.operations and book.operations[task.operation].weather == "dry":
            # Of a job of several days the first and the last are known; what lies between may be days off.
            wet = next((day for day in (task.start, task.end) if day.toordinal() in bad), None)
            if wet is not None:
                found[task.id] = f"Rain is forecast: {day_text(wet, system, year=False)} will be too wet."
    return found
