"""Writes the folder of a plan: every file whole or not at all, plan.json first, one writer at a time."""

import os
import secrets
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import BaseFileLock, FileLock, Timeout

from turfplan.errors import Problem, TurfplanError

COMMIT = "plan.json"
LOCK = ".lock"
LOCK_SECONDS = 20.0
_TEMPORARY = ".turfplan-new-"


@contextmanager
def folder_lock(folder: Path, seconds: float = LOCK_SECONDS) -> Iterator[None]:
    """Holds a plan folder for one writer; makes the folder if need be, and takes it away again if nothing came into it.

    A second writer waits, then gives up cleanly. Raises TurfplanError when the folder is in use or cannot be written to.
    """
    made = _missing(folder)
    try:
        lock = _locked(folder, seconds)
    except Timeout:
        raise TurfplanError(
            Problem(str(folder), "is in use by another run of turfplan", hint="wait for it to end")
        ) from None
    except OSError as error:
        _take_away(made)
        raise TurfplanError(
            Problem(
                str(folder), f"cannot be written to ({error.strerror or error})", hint="choose another folder with -o"
            )
        ) from None
    try:
        _sweep(folder)
        yield
    finally:
        # Still under the lock: a writer that waits finds the folder gone and makes it again.
        if made and not any(p.name != LOCK for p in folder.iterdir()):
            (folder / LOCK).unlink(missing_ok=True)
            _take_away(made)
        lock.release()


def _missing(folder: Path) -> tuple[Path, ...]:
    """The folder and those above it that are not there yet, the deepest first."""
    return tuple(path for path in (folder, *folder.parents) if not path.exists())


def _take_away(folders: tuple[Path, ...]) -> None:
    """Removes folders that were made here, as far up as they are empty."""
    with suppress(OSError):
        for path in folders:
            path.rmdir()


def _locked(folder: Path, seconds: float) -> BaseFileLock:
    """The folder's lock, taken; makes the folder, again if the run before took its own empty one away meanwhile."""
    end = time.monotonic() + seconds
    while True:
        folder.mkdir(parents=True, exist_ok=True)
        lock = FileLock(str(folder / LOCK))
        try:
            lock.acquire(timeout=max(0.0, end - time.monotonic()))
        except FileNotFoundError:
            if time.monotonic() > end:
                raise
            continue
        if (folder / LOCK).exists():
            return lock
        lock.release()


def _sweep(folder: Path) -> None:
    """Takes away what a killed run left half-written."""
    for left in folder.glob(f"{_TEMPORARY}*"):
        left.unlink(missing_ok=True)


def write_outputs(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write every file that differs from what is there: first all as temporaries, then renamed, plan.json before the rest.

    When the disk is full or the folder read-only nothing changes and the temporaries go. Returns the names written.
    """
    staged: list[tuple[Path, Path]] = []
    placed = 0
    names = sorted(files, key=lambda name: (name != COMMIT, name))
    _refuse_folders(folder, names)
    try:
        for name in names:
            target = folder / name
            if not _same(target, files[name]):
                staged.append((_stage(folder, files[name]), target))
        for temporary, target in staged:
            os.replace(temporary, target)
            placed += 1
        _sync_folder(folder)
    except OSError as error:
        stands = "the previous ones still stand" if not placed else "run the command again to complete them"
        raise TurfplanError(
            Problem(str(folder), f"the outputs could not be written ({error.strerror or error})", hint=stands)
        ) from None
    finally:
        for temporary, _ in staged:
            with suppress(OSError):
                temporary.unlink(missing_ok=True)
    return tuple(target.name for _, target in staged)


def _refuse_folders(folder: Path, names: list[str]) -> None:
    """A folder in a file's place would stop the renames half-way: it is told before anything is touched."""
    wrong = [
        Problem(str(folder / name), "is a folder where a file is to be written", hint="move it away")
        for name in names
        if (folder / name).is_dir()
    ]
    if wrong:
        raise TurfplanError(wrong)


def _same(path: Path, content: bytes) -> bool:
    try:
        return path.read_bytes() == content
    except OSError:
        return False


def _stage(folder: Path, content: bytes) -> Path:
    """The content as a temporary beside its place, forced to the disk; with the mode that the user's umask asks for."""
    path = folder / f"{_TEMPORARY}{secrets.token_hex(8)}"
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
    except OSError:
        path.unlink(missing_ok=True)
        raise
    return path


def _sync_folder(folder: Path) -> None:
    """Makes the renames last through a power cut where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
