"""Writes a plan's folder: files whole or not at all, plan.json first, one writer at a time."""

import time
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import BaseFileLock, FileLock, Timeout

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import PLAN
from turfplan.files.system_faults import reason_of
from turfplan.files.whole_files import PartlyPlacedError, sweep, write_whole
from turfplan.phrases import errors
from turfplan.phrases import files as phrases

# Renamed first: what a folder says is what its plan says.
COMMIT = PLAN
LOCK = ".lock"
LOCK_SECONDS = 20.0
_TEMPORARY = ".turfplan-new-"


@contextmanager
def folder_lock(
    folder: Path, seconds: float = LOCK_SECONDS, *, traceless: bool = False
) -> Iterator[None]:
    """Holds a plan folder for one writer; with `traceless` no file of the lock stays in it.

    Makes the folder if need be, and takes it away again if nothing came into it. A second writer
    waits, then gives up cleanly. Raises TurfplanError when the folder is in use or cannot be
    written to.
    """
    made = _missing(folder)
    try:
        lock = _locked(folder, seconds)
    except Timeout:
        raise TurfplanError(Problem(str(folder), errors.in_use(), hint=errors.wait())) from None
    except OSError as error:
        _take_away(made)
        raise TurfplanError(
            Problem(
                str(folder),
                phrases.folder_unwritable(reason=reason_of(error)),
                hint=errors.other_folder(),
            )
        ) from None
    try:
        sweep([folder], _TEMPORARY)
        yield
    finally:
        # Still under the lock: a writer that waits finds the folder gone and makes it again.
        if traceless:
            (folder / LOCK).unlink(missing_ok=True)
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
    """The folder's lock, taken.

    Makes the folder, again if the run before took its own empty one away meanwhile.
    """
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


def write_outputs(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write every file that differs from what is there; returns the names written.

    First all are written as temporaries, then renamed, plan.json before the rest. When the disk is
    full or the folder read-only nothing changes, the temporaries go, and this raises TurfplanError.
    """
    names = sorted(files, key=lambda name: (name != COMMIT, name))
    _refuse_folders(folder / name for name in names)
    differing = {
        folder / name: files[name] for name in names if not _same(folder / name, files[name])
    }
    _write(differing, folder)
    return tuple(target.name for target in differing)


def write_beside(files: Mapping[Path, bytes], private: Collection[Path] = ()) -> None:
    """Write files of several folders whole, in this order, `private` ones for their owner alone,
    unless they hold the same already.

    Raises TurfplanError as `write_outputs` does.
    """
    _refuse_folders(files)
    differing = {path: content for path, content in files.items() if not _same(path, content)}
    *_, last = files
    _write(differing, last.parent, private)


def _write(files: Mapping[Path, bytes], folder: Path, private: Collection[Path] = ()) -> None:
    """Write files whole; raises TurfplanError, which says whether the ones before still stand."""
    try:
        write_whole(files, prefix=_TEMPORARY, private=private)
    except OSError as error:
        partly = isinstance(error, PartlyPlacedError)
        stands = phrases.run_again() if partly else phrases.previous_stand()
        raise TurfplanError(
            Problem(
                str(folder),
                phrases.outputs_unwritten(reason=reason_of(error)),
                hint=stands,
            )
        ) from None


def _refuse_folders(paths: Iterable[Path]) -> None:
    """A folder in a file's place would stop the renames half-way: it is told before any of them."""
    wrong = [
        Problem(str(path), phrases.folder_in_place(), hint=phrases.move_away())
        for path in paths
        if path.is_dir()
    ]
    if wrong:
        raise TurfplanError(wrong)


def _same(path: Path, content: bytes) -> bool:
    try:
        return path.read_bytes() == content
    except OSError:
        return False
