"""What a page writes into the journal, and the planning after it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from turfplan.app.lawn_journal import adopted_journal, refuse_lost_entries
from turfplan.app.log_entry import Happening, log_entry, tick_entries, undo_entry
from turfplan.errors import TurfplanError
from turfplan.files.index import ServedLawn
from turfplan.files.journal import read_journal
from turfplan.files.reading.brief import journal_beside
from turfplan.message import Message, said
from turfplan.records.journal import WISHES, JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve.apart import apart
from turfplan.serve.ways_out import NotPlanned, ways_out


@dataclass(frozen=True, slots=True)
class WrittenTicks:
    """The entries that stand now for what a page sent, those of them that somebody wrote before,
    what looks like a slip, and what cannot be written; with either of the last two nothing was.

    `sure_helps`: all that is asked back can be kept as it stands.
    """

    entries: tuple[JournalEntry, ...] = ()
    known: tuple[JournalEntry, ...] = ()
    asked: tuple[Message, ...] = ()
    sure_helps: bool = False
    errors: tuple[Message, ...] = field(default=())


def write_ticks(
    lawn: ServedLawn, plan: Plan, ticks: Sequence[Happening], today: date, *, sure: bool
) -> WrittenTicks:
    """Writes what was ticked, all of it or nothing; a wish is planned first."""
    assert lawn.brief is not None  # a page without a journal has no forms
    try:
        if any(tick.kind in WISHES for tick in ticks):
            logged = [
                log_entry(
                    lawn.brief,
                    lawn.folder,
                    tick,
                    today=today,
                    sure=lambda _: sure,
                    with_effect=False,
                )
                for tick in ticks
            ]
            known = tuple(one.entry for one in logged if not one.fresh)
            return WrittenTicks(tuple(one.entry for one in logged), known)
        journal = journal_beside(lawn.brief)
        adopted_journal(journal, lawn.folder)
        refuse_lost_entries(journal, read_journal(journal), lawn.folder, plan)
        ticked = tick_entries(journal, plan, ticks, today, sure=sure)
    except TurfplanError as error:
        return WrittenTicks(errors=_said(error))
    return WrittenTicks(
        ticked.entries,
        ticked.known,
        tuple(slip.what for _, slip in ticked.slips),
        all(slip.possible for _, slip in ticked.slips),
    )


def take_back(lawn: ServedLawn, number: int, holder: str) -> WrittenTicks:
    """Takes an entry back by another; one that is taken back already stays so."""
    assert lawn.brief is not None  # a page without a journal has no forms
    key = f"page:undo:{number}"
    try:
        logged, _ = undo_entry(lawn.brief, lawn.folder, number, by=holder, key=key, way="page")
    except TurfplanError as error:
        return WrittenTicks(errors=_said(error))
    return WrittenTicks((logged.entry,), () if logged.fresh else (logged.entry,))


def _said(error: TurfplanError) -> tuple[Message, ...]:
    """What is wrong and what helps, without their places: the page has no fields for files."""
    told: list[Message] = []
    for problem in error.problems:
        told.append(said(problem.message))
        if problem.hint is not None:
            told.append(said(problem.hint))
    return tuple(told)


def replan_apart(lawn: ServedLawn) -> NotPlanned:
    """Plan a lawn again after a tick, in a process of its own: seconds of work that hold up no
    feed. Returns why it cannot be planned, nothing where it was, and what would do instead.
    """
    if lawn.brief is None:
        return NotPlanned()
    reasons = apart(_replan, lawn.brief, lawn.folder)
    return NotPlanned(("",)) if reasons is None else reasons


def _replan(brief: Path, folder: Path) -> NotPlanned:
    """Plan in this process; what cannot be planned leaves the last good plan in place, and is told
    to who serves and to who asks.
    """
    import sys

    from turfplan.app.plan_lawn import replan_lawn
    from turfplan.app.reader_language import language_of
    from turfplan.messages.problems import problem_lines, words_for_errors

    reasons: list[str] = []
    try:
        plan = replan_lawn(brief, folder, tell=lambda _: None).plan
        if plan.conflict is not None:
            return NotPlanned(tuple(map(str, plan.conflict.reasons)), ways_out(plan))
    except TurfplanError as error:
        words = words_for_errors(language_of(None))
        for problem in error.problems:
            reasons.append(words.text(said(problem.message)))
            for line in problem_lines(problem, words):
                print(line, file=sys.stderr)
    return NotPlanned(tuple(reasons))
