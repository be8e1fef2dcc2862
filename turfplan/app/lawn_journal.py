"""The journal of a lawn: one home for it, taken over from version 0.1, and held against what its
plan knows.
"""

from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import BRIEF, OLD_JOURNAL
from turfplan.files.journal import JournalFile, adopt_journal, read_journal
from turfplan.files.reading.brief import journal_beside
from turfplan.message import Message
from turfplan.phrases import journal as phrases
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan


def adopted_journal(journal: Path, folder: Path) -> tuple[Message, ...]:
    """Take over what version 0.1 kept in a plan's folder into the journal beside the brief; returns
    what must be told. Raises TurfplanError as `adopt_journal` does."""
    return adopt_journal(journal, folder / OLD_JOURNAL)


def journal_of_lawn(journal: Path, folder: Path) -> JournalFile:
    """The journal of a lawn for who only reads: the old one where it is not taken over yet.

    Raises TurfplanError for a damaged one.
    """
    old = folder / OLD_JOURNAL
    return read_journal(old if old.is_file() and not journal.exists() else journal)


def entries_of_lawn(folder: Path) -> tuple[JournalEntry, ...]:
    """The entries of the lawn that lies in a folder, as `journal_of_lawn` reads them."""
    return journal_of_lawn(journal_beside(folder / BRIEF), folder).entries


def refuse_lost_entries(
    journal: Path, happened: JournalFile, folder: Path, before: Plan | None
) -> None:
    """Raises TurfplanError for a journal with fewer entries than the plan of its lawn knew: what
    they said would be gone from the plan without a word."""
    entries = len(happened.entries)
    if before is not None and entries < before.journal_entries:
        fault, known = phrases.fewer(n=entries), str(before.journal_entries)
        hint = phrases.bring_back(folder=str(folder))
        raise TurfplanError(Problem(str(journal), fault, None, known, hint))
