"""The journal file beside a brief: one JSON object a line with a checksum, only ever added to."""

import hashlib
import json
import os
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from filelock import FileLock, Timeout
from pydantic import ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.journal import JournalEntry

LOCK_SECONDS = 20.0


@dataclass(frozen=True, slots=True)
class JournalFile:
    """The entries of a journal, and what was found damaged but harmless."""

    entries: tuple[JournalEntry, ...]
    warnings: tuple[str, ...]


def read_journal(path: Path) -> JournalFile:
    """Every entry of a journal; no file is an empty journal.

    A torn last line (a crash while writing) is told and passed over; any other bad line is an error with its number.
    """
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return JournalFile((), ())
    except OSError as error:
        raise TurfplanError(Problem(str(path), f"cannot be read ({error.strerror})")) from None
    entries: list[JournalEntry] = []
    faults: list[Problem] = []
    warnings: list[str] = []
    lines = raw.split(b"\n")
    torn = lines.pop()
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        entry = _entry(line)
        if entry is None:
            faults.append(
                Problem(f"{path}: line {number}", "is damaged", hint="put the line right from a backup, or take it out")
            )
        else:
            entries.append(entry)
    if torn:
        entry = _entry(torn)
        if entry is not None:
            entries.append(entry)
        else:
            warnings.append(f"{path.name}: the last line was cut off while it was written and is passed over")
    numbers = [entry.number for entry in entries]
    if len(set(numbers)) != len(numbers):
        faults.append(Problem(str(path), "holds two entries of one number", hint="put the file right from a backup"))
    if faults:
        raise TurfplanError(faults)
    return JournalFile(tuple(entries), tuple(warnings))


def append_entry(path: Path, make: Callable[[JournalFile], JournalEntry]) -> JournalEntry:
    """Add one entry, made from the journal as it stands, under a lock and forced to the disk.

    A torn last line is taken away first, so that nothing after it is lost. When the disk refuses the entry, the file is as it
    was before: an entry counts exactly when this returns.
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
                _sync_folder(path.parent)
    except Timeout:
        raise TurfplanError(
            Problem(str(path), "is in use by another run of turfplan", hint="wait for it to end")
        ) from None
    except OSError as error:
        raise TurfplanError(Problem(str(path), f"cannot be written ({error.strerror or error})")) from None
    return entry


def _add(handle: int, line: bytes) -> None:
    """Writes a line at the end of an open journal and forces it to the disk, or leaves the file as it was."""
    size = os.fstat(handle).st_size
    with os.fdopen(os.dup(handle), "rb") as source:
        tail = source.read(size).rsplit(b"\n", 1)[-1]
    torn = bool(tail) and _entry(tail) is None
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


def _sync_folder(folder: Path) -> None:
    """Makes a new file's name last through a power cut where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _line(entry: JournalEntry) -> bytes:
    body = json.dumps(entry.model_dump(mode="json", exclude_none=True), ensure_ascii=False, separators=(",", ":"))
    return f'{{"sum":"{_sum(body)}","entry":{body}}}\n'.encode()


def _sum(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()[:16]


def _entry(line: bytes) -> JournalEntry | None:
    """The entry of a line, or None for a damaged one."""
    try:
        text = line.decode("utf-8")
        data = json.loads(text)
        body = text[text.index('"entry":') + len('"entry":') : -1]
        if data["sum"] != _sum(body):
            return None
        return JournalEntry.model_validate_json(body)
    except (ValueError, KeyError, TypeError, ValidationError):
        return None
