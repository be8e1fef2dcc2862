"""Writes into a lawn's journal what happened, and takes entries back."""

import secrets
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from turfplan.app.entry_effect import Effect, effect_of, wish_effect
from turfplan.app.inputs import checked_file
from turfplan.app.lawn_journal import adopted_journal, refuse_lost_entries
from turfplan.app.next_entry import (
    ToldMeanwhile,
    entry_of_key,
    next_entry,
    unless_told_meanwhile,
)
from turfplan.app.plan_lawn import plan_before
from turfplan.app.reader_language import language_of
from turfplan.book.words import english_of
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.journal import JournalFile, append_entry, read_journal
from turfplan.files.reading.book import load_book
from turfplan.message import Message
from turfplan.messages import Words, words_for
from turfplan.messages.problems import told_error
from turfplan.phrases import errors
from turfplan.phrases import journal as phrases
from turfplan.phrases import slips as slip_phrases
from turfplan.planning.befallen import why_none_lost
from turfplan.planning.slips import Slip, slips_of
from turfplan.records.journal import (
    WISHES,
    EntryKind,
    JournalEntry,
    MeasuredQuantity,
    SpreadRecord,
    Way,
    standing,
)
from turfplan.records.plan import Plan
from turfplan.units import System

# Where a slip stands on the command line, where that is not its name as an option.
_PLACES = {"task": "TASK", "value": "VALUE"}
Sure = Callable[[Sequence[str]], bool]
"""Whether somebody who is told what looks like a slip stands by what they wrote."""


@dataclass(frozen=True, slots=True)
class Happening:
    """What is to be written into a journal: an entry without its number and its moment.

    `given` is the amount or the measured value as it was typed.
    """

    kind: EntryKind
    task: str | None = None
    on: date | None = None
    to: date | None = None
    share: float = 1.0
    amount: float | None = None
    unit: str | None = None
    quantity: MeasuredQuantity | None = None
    value: float | None = None
    text: str | None = None
    by: str = ""
    way: Way = "command"
    key: str | None = None
    given: str = ""
    hours: float | None = None
    spread: SpreadRecord | None = None

    @property
    def fields(self) -> dict[str, Any]:
        """What an entry holds of it; the key is drawn where its writer gave none."""
        names = ("kind", "task", "on", "to", "share", "amount", "unit", "quantity", "value", "text")
        told = {name: getattr(self, name) for name in (*names, "by", "way", "hours", "spread")}
        return {**told, "key": _drawn(self.key)}


@dataclass(frozen=True, slots=True)
class LoggedEntry:
    """An entry that stands now, and what it changes (None: not asked, or not known).

    It is not `fresh` where an entry of its key stood already, and nothing was written. `warnings`
    are what was found of the journal, and why the effect is not known; `reason` is why it changes
    nothing where one would think it does. What is told of any of it is in `words`, and `titles` are
    what the plan calls its tasks, by id.
    """

    entry: JournalEntry
    fresh: bool
    words: Words
    effect: Effect | None = None
    warnings: tuple[Message, ...] = ()
    reason: Message | None = None
    titles: Mapping[str, str] = field(default_factory=dict)


def titles_of(plan: Plan | None) -> Mapping[str, str]:
    """What a plan calls its tasks, by id."""
    return {} if plan is None else {task.id: str(task.title) for task in plan.tasks}


def log_entry(
    brief: Path,
    folder: Path,
    happening: Happening,
    *,
    today: date | None = None,
    sure: Sure = lambda _: False,
    with_effect: bool = True,
) -> LoggedEntry:
    """Write what happened into the journal beside the brief.

    To a task of the plan in `folder`, or to the lawn. What looks like a slip is written only where
    somebody is `sure`, a wish only where it can be planned. Raises TurfplanError for either, for a
    brief that cannot be used, a task that the plan does not hold, or a journal that cannot be
    written; nothing is written then. `today` stands in for the lawn's date.
    """
    file = checked_file(brief)
    plan = plan_before(folder, file.brief.lawn.id)
    words = log_words(plan)
    if happening.task is not None:
        _check_task(happening.task, plan, brief)
    adopted = adopted_journal(file.journal, folder)
    journal = read_journal(file.journal)
    refuse_lost_entries(file.journal, journal, folder, plan)
    entry = next_entry(happening.fields, journal)
    if (known := entry_of_key(entry.key, journal)) is not None:
        told_before = (*adopted, *journal.warnings)
        return LoggedEntry(known, False, words, warnings=told_before, titles=titles_of(plan))
    day = known_today(plan, today)
    _ask_back(happening, entry, journal, plan, day, sure)
    effect: Effect | None = None
    told: tuple[Message, ...] = ()
    if happening.kind in WISHES and plan is not None:
        try:
            now = day_of_log(plan, today)
            effect = wish_effect(brief, plan, journal.entries, entry, now)
        except TurfplanError as error:
            raise told_error(error, words) from None
    while True:
        try:
            added = append_entry(file.journal, unless_told_meanwhile(entry, journal))
            break
        except ToldMeanwhile:
            journal = read_journal(file.journal)
            _ask_back(happening, entry, journal, plan, day, sure)
    if effect is None and with_effect and added.fresh and plan is not None:
        now = day_of_log(plan, today)
        effect, told = effect_of(brief, plan, journal.entries, added.entry, now, words)
    warnings = (*adopted, *added.warnings, *told)
    reason: Message | None = None
    if effect is not None and plan is not None:
        book = load_book(plan.place.region)
        reason = why_none_lost(book, added.entry, plan, journal.entries)
    return LoggedEntry(added.entry, added.fresh, words, effect, warnings, reason, titles_of(plan))


def undo_entry(
    brief: Path,
    folder: Path,
    number: int | None,
    *,
    by: str = "",
    key: str | None = None,
    way: Way = "command",
) -> tuple[LoggedEntry, JournalEntry]:
    """Take back an entry of the journal beside the brief, by another entry; with the one that was
    taken back.

    It is the one of that number, or the last that stands. Raises TurfplanError when no such entry
    stands; nothing is written then.
    """
    file = checked_file(brief)
    plan = plan_before(folder, file.brief.lawn.id)
    adopted = adopted_journal(file.journal, folder)
    refuse_lost_entries(file.journal, read_journal(file.journal), folder, plan)
    given = {"kind": "undo", "by": by, "way": way, "key": _drawn(key)}

    def make(journal: JournalFile) -> JournalEntry:
        known = entry_of_key(key, journal)
        if known is not None:
            return known
        return next_entry({**given, "undoes": _to_undo(number, journal)}, journal)

    added = append_entry(file.journal, make)
    entries = {entry.number: entry for entry in read_journal(file.journal).entries}
    warnings = (*adopted, *added.warnings)
    logged = LoggedEntry(
        added.entry, added.fresh, log_words(plan), warnings=warnings, titles=titles_of(plan)
    )
    return logged, entries[added.entry.undoes or added.entry.number]


def with_undo_effect(
    brief: Path, folder: Path, logged: LoggedEntry, today: date | None
) -> LoggedEntry:
    """An entry that took another back, with what that changes in the plan; as it is where it stood
    already, or there is no plan. Raises TurfplanError for a brief that cannot be used."""
    file = checked_file(brief)
    plan = plan_before(folder, file.brief.lawn.id)
    if plan is None or not logged.fresh:
        return logged
    journal = read_journal(file.journal).entries
    before = [entry for entry in journal if entry.number < logged.entry.number]
    now = day_of_log(plan, today)
    effect, told = effect_of(brief, plan, before, logged.entry, now, logged.words)
    return replace(logged, effect=effect, warnings=(*logged.warnings, *told))


@dataclass(frozen=True, slots=True)
class Ticked:
    """What came of ticks: the entries that stand for them now, of them those that stood before, and
    the slips; with slips nothing was written."""

    entries: tuple[JournalEntry, ...] = ()
    known: tuple[JournalEntry, ...] = ()
    slips: tuple[tuple[Happening, Slip], ...] = ()


def tick_entries(
    journal: Path, plan: Plan, ticks: Sequence[Happening], today: date, *, sure: bool
) -> Ticked:
    """Add to a journal what was ticked on a page, each tick once by its key.

    What looks like a slip comes back unless somebody is sure, and then nothing is written. Raises
    TurfplanError when it cannot be written.
    """
    while True:
        found = read_journal(journal)
        ticks = [_as_told_by_others(tick, found) for tick in ticks]
        slips = slips_of_ticks(found, plan, ticks, today)
        if slips and not (sure and all(slip.possible for _, slip in slips)):
            return Ticked(slips=slips)
        given = [next_entry(tick.fields, found) for tick in ticks]
        try:
            added = [append_entry(journal, unless_told_meanwhile(entry, found)) for entry in given]
        except ToldMeanwhile:
            continue  # what was written already has its key, and is not written again
        known = tuple(one.entry for one in added if not one.fresh)
        return Ticked(tuple(one.entry for one in added), known)


def _as_told_by_others(tick: Happening, found: JournalFile) -> Happening:
    """A tick under the key of the entry that says the same, where somebody wrote that by another
    way since the page was opened: it counts once, and is theirs."""
    if tick.task is None or tick.share != 1 or entry_of_key(tick.key, found) is not None:
        return tick
    _, _, seen = (tick.key or "").rpartition(":")
    if tick.key != f"page:{tick.task}:{seen}" or not seen.isdecimal():
        return tick
    same = [
        entry
        for entry in standing(found.entries)
        if (entry.task, entry.kind, entry.on, entry.share) == (tick.task, tick.kind, tick.on, 1)
        and entry.number > int(seen)
    ]
    return replace(tick, key=same[-1].key) if same and same[-1].key else tick


def slips_of_ticks(
    found: JournalFile, plan: Plan, ticks: Sequence[Happening], today: date
) -> tuple[tuple[Happening, Slip], ...]:
    """What of some ticks cannot be true, or looks like a slip, beside what a journal holds."""
    day = known_today(plan, None, today)
    return tuple(
        (tick, slip)
        for tick in ticks
        if entry_of_key((entry := next_entry(tick.fields, found)).key, found) is None
        for slip in _slips(tick, entry, found, plan, day)
    )


def known_today(plan: Plan | None, given: date | None, here: date | None = None) -> date | None:
    """The lawn's date, as far as it is known: the given one, else that of the clock (`here`); None
    where the plan was made as of a day ahead of the clock, for then nobody told today's."""
    if given is not None or plan is None:
        return given
    clock = here or datetime.now(UTC).astimezone(ZoneInfo(plan.timezone)).date()
    return clock if clock >= _planned_on(plan) else None


def day_of_log(plan: Plan, given: date | None) -> date:
    """The day of which somebody logs: the lawn's date as far as it is known, else the plan's."""
    return known_today(plan, given) or _planned_on(plan)


def _planned_on(plan: Plan) -> date:
    """The lawn's date on which a plan was made."""
    return plan.now.astimezone(ZoneInfo(plan.timezone)).date()


def log_words(plan: Plan | None) -> Words:
    """The words of who logs: their language, in the units of the lawn."""
    if plan is None:
        return words_for(language_of(None), System.METRIC, terminal=True)
    english = english_of(load_book(plan.place.region))
    country = plan.place.country
    return words_for(language_of(None), plan.lawn.units, english, country=country, terminal=True)


def _slips(
    happening: Happening,
    entry: JournalEntry,
    journal: JournalFile,
    plan: Plan | None,
    today: date | None,
) -> tuple[Slip, ...]:
    book = load_book(plan.place.region if plan is not None else None)
    return slips_of(entry, journal.entries, plan, book, today=today, quantity=happening.given)


def _ask_back(
    happening: Happening,
    entry: JournalEntry,
    journal: JournalFile,
    plan: Plan | None,
    today: date | None,
    sure: Sure,
) -> None:
    """Raises TurfplanError for what cannot be true, and for what looks like a slip where nobody is
    sure of it."""
    words = log_words(plan)
    slips = _slips(happening, entry, journal, plan, today)
    never = [slip for slip in slips if not slip.possible]
    if not never and (not slips or sure([words.text(slip.what) for slip in slips])):
        return
    told = [(_PLACES.get(slip.field, f"--{slip.field}"), slip.what) for slip in never or slips]
    problems = [Problem(place, words.text(what)) for place, what in told]
    if not never:
        problems[-1] = replace(problems[-1], hint=words.text(slip_phrases.keep()))
    raise TurfplanError(problems)


def _drawn(key: str | None) -> str:
    """The key of an entry: its writer's, else one drawn at random."""
    return secrets.token_hex(8) if key is None else key


def entry_of(happening: Happening) -> JournalEntry:
    """An entry as it would be the first of a journal; raises what its form forbids."""
    return next_entry(happening.fields, JournalFile((), ()))


def _check_task(task: str, plan: Plan | None, brief: Path) -> None:
    if plan is None:
        raise TurfplanError(
            Problem(
                "TASK",
                phrases.no_plan(),
                task,
                None,
                errors.make_plan_first(command=f"turfplan plan {brief}"),
            )
        )
    names = [t.id for t in plan.tasks]
    if task not in names:
        jobs = one_of(t.id for t in plan.tasks if t.series is None and t.closed is None)
        hint = did_you_mean(task, names)
        raise TurfplanError(Problem("TASK", phrases.no_task(), task, jobs, hint))


def _to_undo(number: int | None, journal: JournalFile) -> int:
    counting = {e.number for e in standing(journal.entries)} | {
        e.number for e in journal.entries if e.kind == "undo"
    }
    if number is None:
        last = max((e.number for e in standing(journal.entries)), default=None)
        if last is None:
            raise TurfplanError(Problem("undo", phrases.nothing_to_undo()))
        return last
    if number not in counting:
        allowed = one_of(map(str, sorted(counting))) if counting else errors.none()
        raise TurfplanError(Problem("N", phrases.not_standing(), str(number), allowed))
    return number
