"""Writes files whole or not at all: beside their place, forced to the disk, then moved there."""

import os
import secrets
import stat
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

TEMPORARY = ".turfplan-part-"


class PartlyPlacedError(OSError):
    """A write that failed between two renames: some of its files are new, each of them whole."""


@contextmanager
def replacing(
    *targets: Path, prefix: str = TEMPORARY, mode: int = 0o666
) -> Iterator[tuple[Path, ...]]:
    """Temporaries beside the targets, to be filled in the block.

    Then they take the targets' places in this order.

    Every file is on the disk before the first takes its place, and each replaces what was there in
    one step, no more open to others than that was. `prefix` begins the names of the temporaries;
    `mode` is what the user's umask is taken from. After a fault in the block, or OSError before
    the first rename, nothing has changed; PartlyPlacedError after it. No temporary is left.
    """
    temporaries: list[Path] = []
    placed = 0
    try:
        for target in targets:
            temporaries.append(_fresh(target.parent, prefix, mode))
        yield tuple(temporaries)
        for temporary, target in zip(temporaries, targets, strict=True):
            _close_as(temporary, target)
            _force(temporary)
        for temporary, target in zip(temporaries, targets, strict=True):
            os.replace(temporary, target)
            placed += 1
    except OSError as error:
        if placed:
            raise PartlyPlacedError(error.errno, error.strerror) from error
        raise
    finally:
        for temporary in temporaries:
            with suppress(OSError):
                temporary.unlink(missing_ok=True)
    for folder in dict.fromkeys(target.parent for target in targets):
        sync_folder(folder)


def write_whole(
    files: Mapping[Path, bytes], prefix: str = TEMPORARY, private: Collection[Path] = ()
) -> None:
    """The files with their bytes, placed in this order, `private` ones for their owner alone;
    raises as `replacing` does."""
    with replacing(*files, prefix=prefix) as temporaries:
        for temporary, (target, content) in zip(temporaries, files.items(), strict=True):
            if target in private:
                temporary.chmod(0o600)
            temporary.write_bytes(content)


def sweep(folders: Iterable[Path], prefix: str) -> None:
    """Takes away the temporaries that a killed run has left in some folders, for who holds them."""
    for folder in dict.fromkeys(folders):
        for left in folder.iterdir() if folder.is_dir() else ():
            if left.name.startswith(prefix):
                left.unlink(missing_ok=True)


def write_into_folders(
    files: Mapping[Path, bytes], prefix: str = TEMPORARY, private: Collection[Path] = ()
) -> None:
    """The files with their bytes, as `write_whole` writes them, in folders that are made where they
    are missing; where it fails these go again."""
    made: list[Path] = []
    try:
        for path in files:
            for above in reversed([path.parent, *path.parent.parents]):
                if not above.exists():
                    above.mkdir()
                    made.append(above)
        write_whole(files, prefix, private)
    except OSError:
        with suppress(OSError):
            for folder in reversed(made):
                folder.rmdir()
        raise


def sync_folder(folder: Path) -> None:
    """Makes new names in a folder last through a power cut, where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _fresh(folder: Path, prefix: str, mode: int) -> Path:
    """An empty file of a name that nobody else has."""
    path = folder / f"{prefix}{secrets.token_hex(8)}"
    os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode))
    return path


def _close_as(temporary: Path, target: Path) -> None:
    """Gives a file what the one in its place may be read and written by, where that is less: who
    closed it once has closed it for good."""
    try:
        old = target.lstat()
    except OSError:
        return
    mine = stat.S_IMODE(temporary.stat().st_mode)
    if stat.S_ISREG(old.st_mode) and mine & ~stat.S_IMODE(old.st_mode):
        temporary.chmod(mine & stat.S_IMODE(old.st_mode) | stat.S_IRUSR | stat.S_IWUSR)


def _force(path: Path) -> None:
    """Forces a file's bytes to the disk."""
    handle = os.open(path, os.O_RDWR | getattr(os, "O_BINARY", 0))
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
