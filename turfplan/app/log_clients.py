"""Writes what happened at many lawns into their journals at once, and takes it back at once."""

import hashlib
import secrets
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from turfplan.app.client_callbacks import (
    CallbackDone,
    callback_number,
    finish_callbacks,
    reopen_batch,
)
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.data_folders import clients_in
from turfplan.app.lawn_day import rain_hinders
from turfplan.app.lawn_journal import adopted_journal, refuse_lost_entries
from turfplan.app.log_entry import Happening, slips_of_ticks, tick_entries, undo_entry
from turfplan.app.typed_amounts import amount_of
from turfplan.business.groups import ClientGroup, in_group
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of, within
from turfplan.files.data_folder import BRIEF, lawns_in
from turfplan.files.journal import read_journal
from turfplan.files.lawn_standing import read_callbacks
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.client_tables import read_table
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message, Worded
from turfplan.phrases import clients as phrases
from turfplan.phrases import errors
from turfplan.phrases import slips as slip_phrases
from turfplan.phrases import standing as standing_phrases
from turfplan.records.form_faults import form_message
from turfplan.records.journal import EntryKind, SpreadRecord, standing
from turfplan.records.plan import Plan
from turfplan.units import parse_quantity

COLUMNS = (
    *("lawn", "task", "day", "kind", "amount", "hours", "by", "note"),
    *("product", "active_ingredient", "area", "time", "wind", "licence"),
)
_OF_PRODUCT = ("product", "active_ingredient", "time", "wind", "licence")
_NEEDED = frozenset({"lawn", "task", "day"})
# What a file may say of a task; moves are wishes and asked for one by one.
KINDS: Mapping[str, EntryKind] = {
    "done": "done",
    "skipped": "skipped",
    "rained-off": "rained_off",
    "not-done": "not_done",
    "delivered": "delivered",
    "refused": "refused",
}
_DAY = TypeAdapter(date)


@dataclass(frozen=True, slots=True)
class BulkLog:
    """What came of a bulk of entries: its name, by which it is taken back, how many were written at
    how many lawns (`at` those of tasks), how many stood already, and what must be told."""

    batch: str
    written: int
    lawns: int
    known: int = 0
    notes: tuple[Message, ...] = ()
    at: frozenset[Path] = frozenset()


@dataclass(slots=True)
class _OfLawn:
    """What is to be written at one lawn, each with the place at which it was said."""

    folder: Path
    ticks: list[tuple[Worded, Happening]] = field(default_factory=list)


def log_file(file: Path, output: Path, today: date, *, sure: bool = False) -> BulkLog:
    """Write every row of a file (lawn, task, day, and as far as they are given kind, amount, hours,
    by, note) into the journals; nothing while one of them is faulty, or looks like a slip of which
    nobody is `sure`. The same file again writes nothing twice.

    Raises TurfplanError with every fault of every row.
    """
    table = read_table(file, lambda heads: "lawn" in {head.casefold() for head in heads})
    heads = [head.casefold() for head in table.heads]
    unknown = [head for head in heads if head not in COLUMNS]
    problems = [
        Problem(str(file), errors.unknown_key(), head, one_of(COLUMNS), did_you_mean(head, COLUMNS))
        for head in unknown
    ]
    problems += [
        Problem(str(file), phrases.no_column(column=head))
        for head in sorted(_NEEDED.difference(heads))
    ]
    if problems:
        raise TurfplanError(problems)
    lawns, batch = lawns_in(output), hashlib.sha256(file.read_bytes()).hexdigest()[:12]
    of_lawn: dict[str, _OfLawn] = {}
    known = {folder.name for folder in clients_in(output)}
    for number, (line, row) in enumerate(table.rows):
        cells = {head: cell.strip() for head, cell in zip(heads, row, strict=False)}
        place = errors.line(number=str(line))
        try:
            if cells["lawn"] not in known:
                near = did_you_mean(cells["lawn"], known)
                raise TurfplanError(Problem("lawn", phrases.no_lawn(), cells["lawn"], None, near))
            happening = replace(_happening(cells), key=f"{batch}:{number}")
        except TurfplanError as error:
            problems += error.located(place).problems
            continue
        lawn = of_lawn.setdefault(cells["lawn"], _OfLawn(lawns / cells["lawn"]))
        lawn.ticks.append((place, happening))
    callbacks = list[CallbackDone]()
    for lawn in of_lawn.values():
        callbacks += _callbacks_of(lawn, problems)
    found = _written(tuple(of_lawn.values()), batch, today, problems, sure=sure)
    return _with_callbacks(found, output, callbacks)


def _callbacks_of(lawn: _OfLawn, problems: list[Problem]) -> Iterator[CallbackDone]:
    """Takes out of what is to be written at a lawn what is said of callbacks, which are in no plan;
    faults go to `problems`."""
    numbers = [callback_number(tick.task or "") for _, tick in lawn.ticks]
    said = [tick for tick, number in zip(lawn.ticks, numbers, strict=True) if number is not None]
    if not said:
        return
    lawn.ticks = [tick for tick in lawn.ticks if tick not in said]
    known = {one.task for one in read_callbacks(lawn.folder)}
    for place, tick in said:
        number = callback_number(tick.task or "")
        if tick.task not in known or number is None:
            problems.append(
                Problem(within(place, "task"), standing_phrases.no_callback(), tick.task)
            )
        elif tick.kind != "done" or tick.on is None:
            problems.append(Problem(within(place, "kind"), phrases.no_kind(), tick.kind, "done"))
        else:
            yield CallbackDone(lawn.folder, number, tick.on, tick.hours)


def _with_callbacks(found: BulkLog, output: Path, callbacks: Sequence[CallbackDone]) -> BulkLog:
    """What came of a bulk with the callbacks that it marks as done."""
    if not callbacks:
        return found
    written, known = finish_callbacks(output, callbacks, found.batch)
    return replace(
        found,
        written=found.written + written,
        known=found.known + known,
        lawns=len(found.at | {one.folder for one in callbacks}),
    )


def _happening(cells: Mapping[str, str]) -> Happening:
    """What a row says; raises TurfplanError with all that is wrong with its cells."""
    problems = []
    kind = KINDS.get(cells.get("kind") or "done")
    if kind is None:
        near = did_you_mean(cells["kind"], KINDS)
        problems.append(Problem("kind", phrases.no_kind(), cells["kind"], one_of(KINDS), near))
    day, hours, amount, unit = None, None, None, None
    try:
        day = _DAY.validate_python(cells["day"])
    except ValidationError:
        fault = Problem("day", phrases.not_a_day(), repr(cells["day"]), phrases.such_a_day())
        problems.append(fault)
    text = cells.get("hours", "").replace(",", ".")
    try:
        hours = float(text) if text else None
    except ValueError:
        problems.append(Problem("hours", phrases.not_hours(), repr(text)))
    try:
        amount, unit = amount_of(cells.get("amount") or None)
    except TurfplanError as error:
        problems += [replace(problem, where="amount") for problem in error.problems]
    spread = None
    try:
        spread = _spread(cells)
    except TurfplanError as error:
        problems += error.problems
    if not cells["task"]:
        problems.append(Problem("task", errors.required()))
    if problems or kind is None:
        raise TurfplanError(problems)
    return Happening(
        kind,
        cells["task"],
        on=day,
        amount=amount,
        unit=unit,
        text=cells.get("note") or None,
        by=cells.get("by", ""),
        way="file",
        given=cells.get("amount", ""),
        hours=hours,
        spread=spread,
    )


def _spread(cells: Mapping[str, str]) -> SpreadRecord | None:
    """What a row says of a product that was spread; raises TurfplanError."""
    said = {name: cells[name] for name in _OF_PRODUCT if cells.get(name)}
    area = cells.get("area")
    if not said and not area:
        return None
    try:
        area_m2 = parse_quantity(area, "area") if area else None
        return SpreadRecord.model_validate({**said, "area_m2": area_m2})
    except TurfplanError as error:
        raise error.located("area") from None
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(map(str, fault["loc"])), form_message(fault))
            for fault in error.errors(include_url=False)
        ) from None


@dataclass(frozen=True, slots=True)
class DayLog:
    """What is said of all jobs of a day: all done, or rained off, but for some lawns, or tasks of a
    lawn (`lawn:task`); of a group alone where one is given; by whom."""

    day: date
    kind: EntryKind
    but: tuple[str, ...] = ()
    group: ClientGroup | None = None
    by: str = ""


def log_day(output: Path, said: DayLog, today: date, *, sure: bool = False) -> BulkLog:
    """Write of the jobs of a day that all were done, or that rain took the day from those that it
    hinders. A job that goes on after that day is not taken as done: it is told.

    Raises TurfplanError for an exception that is no job of the day, and as `log_file` does.
    """
    listed = list_jobs(output, AskedList("day", said.day, said.group))
    batch, notes = secrets.token_hex(6), list(listed.notes)
    left, of_lawn, callbacks = set(said.but), list[_OfLawn](), list[CallbackDone]()
    for lawn in listed.lawns:
        plan, own = read_plan(lawn.folder), _OfLawn(lawn.folder)
        names = {job.task: f"{lawn.id}:{job.task}" for job in lawn.jobs}
        out = {name for name in (lawn.id, *names.values()) if name in said.but}
        left -= out
        jobs = [job for job in lawn.jobs if not {lawn.id, names[job.task]} & out]
        if plan is None:
            continue
        for job in jobs:
            task, number = plan.task(job.task), callback_number(job.task)
            if number is not None and said.kind == "done":
                callbacks.append(CallbackDone(lawn.folder, number, said.day))
            if task is None or (said.kind == "rained_off" and not rain_hinders(plan, task)):
                continue
            if said.kind == "done" and job.end > said.day:
                notes.append(phrases.goes_on(client=lawn.id, task=job.title))
                continue
            happening = Happening(said.kind, job.task, on=said.day, by=said.by, way="command")
            own.ticks.append((names[job.task], replace(happening, key=f"{batch}:{job.task}")))
        if own.ticks:
            of_lawn.append(own)
    if left:
        raise TurfplanError(
            Problem("--except", phrases.no_job_of_day(), name) for name in sorted(left)
        )
    found = _written(of_lawn, batch, today, [], sure=sure)
    found = _with_callbacks(found, output, callbacks)
    return replace(found, notes=(*notes, *found.notes))


def _written(
    lawns: Sequence[_OfLawn],
    batch: str,
    today: date,
    known_faults: Sequence[Problem],
    *,
    sure: bool,
) -> BulkLog:
    """Look at all that is to be written as at single entries, then write it, unless there are
    faults.

    A run that is stopped between two lawns goes on where it was: entries of one key are one.
    """
    problems = list(known_faults)
    notes: list[Message] = []
    ready: list[tuple[_OfLawn, Plan, list[Happening]]] = []
    for lawn in lawns:
        try:
            plan, ticks, told, faults = _looked_at(lawn, today, sure=sure)
        except TurfplanError as error:
            problems += error.problems
            continue
        notes += told
        problems += faults
        if plan is not None:
            ready.append((lawn, plan, ticks))
    if problems:
        raise TurfplanError(problems)
    written = known = 0
    for lawn, plan, ticks in ready:
        done = tick_entries(journal_beside(lawn.folder / BRIEF), plan, ticks, today, sure=True)
        known += len(done.known)
        written += len(done.entries) - len(done.known)
    at = frozenset(lawn.folder for lawn, _, _ in ready)
    return BulkLog(batch, written, len(ready), known, tuple(notes), at)


def _looked_at(
    lawn: _OfLawn, today: date, *, sure: bool
) -> tuple[Plan | None, list[Happening], tuple[Message, ...], list[Problem]]:
    """The plan of a lawn, what is to be written there, what must be told, and what is wrong or
    looks like a slip, each at its place."""
    plan, path = read_plan(lawn.folder), journal_beside(lawn.folder / BRIEF)
    if plan is None:
        fault = phrases.not_planned()
        return None, [], (), [Problem(place, fault, lawn.folder.name) for place, _ in lawn.ticks]
    told = adopted_journal(path, lawn.folder)
    journal = read_journal(path)
    refuse_lost_entries(path, journal, lawn.folder, plan)
    names, problems = [task.id for task in plan.tasks], list[Problem]()
    ticks: list[tuple[Worded, Happening]] = []
    undone = {entry.key for entry in journal.entries} - {e.key for e in standing(journal.entries)}
    for place, tick in lawn.ticks:
        if tick.task not in names:
            near = did_you_mean(tick.task or "", names)
            known = one_of(t.id for t in plan.tasks if t.series is None and t.closed is None)
            where = within(place, "task")
            problems.append(Problem(where, phrases.no_task(), tick.task, known, near))
            continue
        key, again = tick.key, 1
        while key in undone:
            again += 1
            key = f"{tick.key}:{again}"
        ticks.append((place, replace(tick, key=key)))
    places = {tick.key: place for place, tick in ticks}
    happenings = [tick for _, tick in ticks]
    for tick, slip in slips_of_ticks(journal, plan, happenings, today):
        if slip.possible and sure:
            continue
        hint = slip_phrases.keep() if slip.possible else None
        where = within(within(places[tick.key], lawn.folder.name), slip.field)
        problems.append(Problem(where, slip.what, None, None, hint))
    return plan, happenings, (*told, *journal.warnings), problems


def undo_batch(
    output: Path, batch: str, *, by: str = "", group: ClientGroup | None = None
) -> BulkLog:
    """Take back every standing entry of a bulk, at every lawn or those of a group.

    Raises TurfplanError where no entry of it stands, and as `undo_entry` does.
    """
    clients = clients_in(output)
    wanted = in_group(clients, group)
    found = list(_entries_of(wanted, batch))
    reopened = reopen_batch(output, wanted, batch)
    if not found and not reopened:
        raise TurfplanError(Problem("--undo", phrases.no_batch(), batch))
    for folder, number in found:
        undo_entry(folder / BRIEF, folder, number, by=by, key=f"undo:{batch}:{number}")
    lawns = {folder for folder, _ in found} | set(reopened)
    return BulkLog(batch, len(found) + len(reopened), len(lawns))


def _entries_of(folders: Iterable[Path], batch: str) -> Iterable[tuple[Path, int]]:
    for folder in folders:
        for entry in standing(read_journal(journal_beside(folder / BRIEF)).entries):
            if (entry.key or "").startswith(f"{batch}:"):
                yield folder, entry.number
