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
from turfplan.files.whole_files import sync_folder
from turfplan.message import Message
from turfplan.phrases import errors
from turfplan.phrases import journal as phrases
from turfplan.records.journal import JournalEntry

LOCK_SECONDS = 20.0
DAMAGED = Problem("", phrases.damaged(), hint=phrases.mend_line())
UNKNOWN = Problem("", phrases.newer(), hint=phrases.upgrade())


@dataclass(frozen=True, slots=True)
class JournalFile:
    """The entries of a journal, and what was found damaged but harmless."""

    entries: tuple[JournalEntry, ...]
    warnings: tuple[Message, ...]


def read_journal(path: Path) -> JournalFile:
    """Every entry of a journal; no file is an empty journal.

    A torn last line (a crash while writing) is told and passed over; for any other bad line, with
    its number, and for a whole line that this version cannot read this raises TurfplanError. Keys
    that it does not know are passed over.
    """
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return JournalFile((), ())
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    found, cut_off = _entries(raw)
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
    return JournalFile(entries, (phrases.torn(file=path.name),) if cut_off else ())


def _entries(raw: bytes) -> tuple[list[tuple[int, JournalEntry | Problem]], bool]:
    """What each line says, with its number from 1, and whether the last was cut off."""
    *lines, torn = raw.split(b"\n")
    found = [(number, _entry(line)) for number, line in enumerate(lines, 1) if line.strip()]
    last = _entry(torn) if torn else None
    if last is not None and last is not DAMAGED:
        found.append((len(lines) + 1, last))
    return found, last is DAMAGED


def append_entry(path: Path, make: Callable[[JournalFile], JournalEntry]) -> JournalEntry:
    """Add one entry, made from the journal as it stands, under a lock and forced to the disk.

    A torn last line is taken away first, so that nothing after it is lost. When the disk refuses
    the entry, the file is as it was before: an entry counts exactly when this returns. Raises
    TurfplanError for a journal that is damaged, in use or cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with FileLock(str(path) + ".lock", timeout=LOCK_SECONDS):
            entry = make(read_journal(path))
            fresh = not path.exists()
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
    return entry


def _add(handle: int, line: bytes) -> None:
    """Writes a line at the end of an open journal, forced to the disk, or leaves it as it was."""
    size = os.fstat(handle).st_size
    with os.fdopen(os.dup(handle), "rb") as source:
        tail = source.read(size).rsplit(b"\n", 1)[-1]
    torn = bool(tail) and _entry(tail) is DAMAGED
    keep = size - len(tail) if torn else size
    if tail and not torn:
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


def _sum(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()[:16]


def _entry(line: bytes) -> JournalEntry | Problem:
    """The entry of a line; DAMAGED for bytes that are not what was written.

    UNKNOWN is what a newer turfplan wrote.
    """
    try:
        text = line.decode("utf-8")
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
