"""Writes the folder of a plan: every file whole or not at all, plan.json first, one writer at a time."""

import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

from turfplan.errors import Problem, TurfplanError

COMMIT = "plan.json"
LOCK_SECONDS = 20.0
_TEMPORARY = ".turfplan-new-"


@contextmanager
def folder_lock(folder: Path, seconds: float = LOCK_SECONDS) -> Iterator[None]:
    """Holds a plan folder for one writer; makes the folder if need be. A second writer waits, then gives up cleanly."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        lock = FileLock(str(folder / ".lock"))
        lock.acquire(timeout=seconds)
    except Timeout:
        raise TurfplanError(
            Problem(str(folder), "is in use by another run of turfplan", hint="wait for it to end")
        ) from None
    except OSError as error:
        raise TurfplanError(
            Problem(
                str(folder), f"cannot be written to ({error.strerror or error})", hint="choose another folder with -o"
            )
        ) from None
    try:
        _sweep(folder)
        yield
    finally:
        lock.release()
        with suppress(OSError):
            if not any(p.name != ".lock" for p in folder.iterdir()):
                (folder / ".lock").unlink(missing_ok=True)
                folder.rmdir()


def _sweep(folder: Path) -> None:
    """Takes away what a killed run left half-written."""
    for left in folder.glob(f"{_TEMPORARY}*"):
        left.unlink(missing_ok=True)


def write_outputs(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write every file that differs from what is there: first all as temporaries, then renamed, plan.json before the rest.

    When the disk is full or the folder read-only nothing changes and the temporaries go. Returns the names written.
    """
    staged: list[tuple[Path, Path]] = []
    names = sorted(files, key=lambda name: (name != COMMIT, name))
    try:
        for name in names:
            target = folder / name
            if not _same(target, files[name]):
                staged.append((_stage(folder, files[name]), target))
        for temporary, target in staged:
            os.replace(temporary, target)
        _sync_folder(folder)
    except OSError as error:
        raise TurfplanError(
            Problem(
                str(folder),
                f"the outputs could not be written ({error.strerror or error})",
                hint="the previous ones still stand",
            )
        ) from None
    finally:
        for temporary, _ in staged:
            temporary.unlink(missing_ok=True)
    return tuple(target.name for _, target in staged)


def _same(path: Path, content: bytes) -> bool:
    try:
        return path.read_bytes() == content
    except OSError:
        return False


def _stage(folder: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=_TEMPORARY, dir=folder)
    path = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(path, 0o644)
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
