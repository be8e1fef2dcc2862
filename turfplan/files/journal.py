"""The journal file beside a brief: one JSON object a line with a checksum, only ever added to."""

import hashlib
import json
import os
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from filelock import FileLock, Timeout
from pydantic import ValidationError

from turfplan.errors import Problem, TurfplanError, within
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import sync_folder, write_whole
from turfplan.message import Message
from turfplan.phrases import errors
from turfplan.phrases import journal as phrases
from turfplan.records.journal import JournalEntry

LOCK_SECONDS = 20.0
BYTE_ORDER_MARK = b"\xef\xbb\xbf"
# How every line begins that this program writes.
BEGINNING = b'{"sum":"'
# What stands for the words of a note that were left out: a note has some.
NO_WORDS = "…"
DAMAGED = Problem("", phrases.damaged(), hint=phrases.mend_line())
UNKNOWN = Problem("", phrases.newer(), hint=phrases.upgrade())


@dataclass(frozen=True, slots=True)
class JournalFile:
    """The entries of a journal, and what was found damaged but harmless."""

    entries: tuple[JournalEntry, ...]
    warnings: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class AppendedEntry:
    """An entry that stands in a journal, whether it is there only now (else it was there already),
    and what was found damaged but harmless."""

    entry: JournalEntry
    fresh: bool
    warnings: tuple[Message, ...] = ()


def read_journal(path: Path) -> JournalFile:
    """Every entry of a journal; no file is an empty journal.

    Line ends of either kind and byte-order marks do no harm. A torn last line (a crash while
    writing), or one without its end that was written by hand, is told and passed over; for any
    other bad line, with its number, and for a whole line that this version cannot read this raises
    TurfplanError. Keys that it does not know are passed over.
    """
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return JournalFile((), ())
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    found, left = _entries(raw)
    entries = tuple(entry for _, entry in found if isinstance(entry, JournalEntry))
    faults = [
        replace(entry, where=within(str(path), errors.line(number=str(number))))
        for number, entry in found
        if isinstance(entry, Problem)
    ]
    if len({entry.number for entry in entries}) != len(entries):
        faults.append(Problem(str(path), phrases.one_number(), hint=phrases.mend_file()))
    if faults:
        raise TurfplanError(faults)
    return JournalFile(entries, _warnings(path, left))


def _entries(raw: bytes) -> tuple[list[tuple[int, JournalEntry | Problem]], bytes]:
    """What each line says, with its number from 1, and the last one if it is no entry and has no
    end."""
    *lines, last = raw.split(b"\n")
    found = [(number, _entry(line)) for number, line in enumerate(lines, 1) if _bare(line)]
    said = _entry(last) if _bare(last) else None
    if said is not None and said is not DAMAGED:
        found.append((len(lines) + 1, said))
    return found, last if said is DAMAGED else b""


def _bare(line: bytes) -> bytes:
    """A line without its end and without the mark that some editors put before a text."""
    return line.strip().removeprefix(BYTE_ORDER_MARK).strip()


def _warnings(path: Path, left: bytes) -> tuple[Message, ...]:
    """What is said of a last line that does not count."""
    if not left:
        return ()
    line = _bare(left)
    torn = BEGINNING.startswith(line) or (line.startswith(BEGINNING) and not _is_whole(line))
    return ((phrases.torn if torn else phrases.by_hand)(file=path.name),)


def _is_whole(line: bytes) -> bool:
    """Whether a line is all there: one that was cut off while it was written is not."""
    try:
        json.loads(line)
    except ValueError:
        return False
    return True


def append_entry(path: Path, make: Callable[[JournalFile], JournalEntry]) -> AppendedEntry:
    """Add one entry, made from the journal as it stands, under a lock and forced to the disk.

    What `make` gives back of the entries that are there is not written again. A last line that does
    not count is put into a file of its own first, so that neither it nor what comes after is lost.
    When the disk refuses the entry, the file is as it was before: an entry counts exactly when this
    returns. Raises TurfplanError for a journal that is damaged, in use or cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with FileLock(str(path) + ".lock", timeout=LOCK_SECONDS):
            journal = read_journal(path)
            entry = make(journal)
            if entry in journal.entries:
                return AppendedEntry(entry, False, journal.warnings)
            fresh = not path.exists()
            aside = _put_aside(path)
            handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666)
            try:
                _add(handle, _line(entry))
            finally:
                os.close(handle)
            if fresh:
                sync_folder(path.parent)
    except Timeout:
        raise TurfplanError(Problem(str(path), errors.in_use(), hint=errors.wait())) from None
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from None
    return AppendedEntry(entry, True, (*journal.warnings, *aside))


def adopt_journal(path: Path, old: Path) -> tuple[Message, ...]:
    """Takes over the journal that version 0.1 kept in a plan's folder, once: where there is none at
    `path` yet, it holds the entries of `old` from now on, which stays as it is.

    Returns what must be told of it; also of an old journal with entries that the present one does
    not hold. Raises TurfplanError for an old one that is damaged, and a present one that cannot be
    written.
    """
    if not old.is_file() or path.absolute() == old.absolute():
        return ()
    if path.exists():
        return () if _holds_all_of(path, old) else (phrases.not_adopted(file=str(old)),)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with FileLock(str(path) + ".lock", timeout=LOCK_SECONDS):
            if path.exists():
                return ()
            found, raw = read_journal(old), old.read_bytes()
            write_whole({path: raw[: len(raw) - len(_entries(raw)[1])]})
    except Timeout:
        raise TurfplanError(Problem(str(path), errors.in_use(), hint=errors.wait())) from None
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from None
    return (*found.warnings, phrases.adopted(file=old.name, journal=path.name))


def _holds_all_of(path: Path, old: Path) -> bool:
    """Whether a journal holds every entry of an old one; one that cannot be read is not held."""
    try:
        held = read_journal(path).entries
        return all(entry in held for entry in read_journal(old).entries)
    except TurfplanError:
        return False


def put_aside_in(path: Path) -> Path:
    """The file in which the lines of a journal are kept that do not count."""
    return path.with_name(f"{path.stem}.aside.txt")


def _put_aside(path: Path) -> tuple[Message, ...]:
    """Keeps the last line of a journal that does not count in a file beside it, and says so."""
    left = _entries(path.read_bytes())[1] if path.exists() else b""
    if not left:
        return ()
    aside = put_aside_in(path)
    with aside.open("ab") as kept:
        kept.write(left + b"\n")
        kept.flush()
        os.fsync(kept.fileno())
    return (phrases.put_aside(file=path.name, aside=aside.name),)


def _add(handle: int, line: bytes) -> None:
    """Writes a line at the end of an open journal, forced to the disk, or leaves it as it was."""
    size = os.fstat(handle).st_size
    with os.fdopen(os.dup(handle), "rb") as source:
        tail = source.read(size).rsplit(b"\n", 1)[-1]
    torn = bool(_bare(tail)) and _entry(tail) is DAMAGED
    keep = size - len(tail) if torn else size
    if tail.strip(BYTE_ORDER_MARK) and not torn:
        line = b"\n" + line
    try:
        os.ftruncate(handle, keep)
        os.lseek(handle, keep, os.SEEK_SET)
        while line:
            line = line[os.write(handle, line) :]
        os.fsync(handle)
    except OSError:
        os.ftruncate(handle, keep)
        raise


def _line(entry: JournalEntry) -> bytes:
    body = json.dumps(
        entry.model_dump(mode="json", exclude_none=True), ensure_ascii=False, separators=(",", ":")
    )
    return f'{{"sum":"{_sum(body)}","entry":{body}}}\n'.encode()


def without_words(path: Path) -> bytes:
    """A journal without what people wrote into it in their own words, for whoever has the lawn
    next. Every entry stays, by its number, for a plan knows how many there are; raises
    TurfplanError as `read_journal` does: of a line that cannot be read nobody knows what it says.
    """
    return b"".join(
        _line(entry.model_copy(update={"text": NO_WORDS if entry.kind == "note" else None}))
        for entry in read_journal(path).entries
    )


def _sum(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()[:16]


def _entry(line: bytes) -> JournalEntry | Problem:
    """The entry of a line; DAMAGED for bytes that are not what was written.

    UNKNOWN is what a newer turfplan wrote.
    """
    try:
        text = _bare(line).decode("utf-8")
        data = json.loads(text)
        start = text.index('"entry":') + len('"entry":')
        body = text[start : json.JSONDecoder().raw_decode(text, start)[1]]
        if data["sum"] != _sum(body):
            return DAMAGED
    except (ValueError, KeyError, TypeError):
        return DAMAGED
    try:
        return JournalEntry.model_validate_json(body, extra="ignore")
    except ValidationError:
        return UNKNOWN
