"""The index of lawns at one look: what was known of each when its files were last as they are now.

Everything in it can be made again from the folders: one that cannot be used is made anew, and
without a place for it commands go on and are slower.
"""

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from turfplan import __version__
from turfplan.files.data_folder import BRIEF, CLIENT, GLANCES, OLD_JOURNAL, PLAN
from turfplan.files.reading.brief import journal_beside

# What is kept has another form, or is reckoned otherwise: all is made again.
FORM = 5
BUSY_S = 5.0
FolderStamp = Mapping[str, tuple[int, int, int] | None]
"""The files that something follows from, each with its time, size and number on the disk."""


@dataclass(frozen=True, slots=True)
class KnownLawn:
    """What is known of a lawn: the sum of its row in the clients file, the stamp of its files, and
    what follows from them (JSON)."""

    row: str
    stamp: FolderStamp
    said: str

    def still_holds(self, folder: Path) -> bool:
        """Whether the files lie in the lawn's folder as they lay when this was known."""
        return stamp_of(folder, self.stamp) == self.stamp


def stamp_of(folder: Path, names: Iterable[str]) -> FolderStamp:
    """The stamp of files of a folder as they lie there now; None for one that is not there."""
    return {name: _state(folder / name) for name in names}


def inputs_in(folder: Path) -> tuple[str, ...]:
    """The names of the files that a lawn is always planned from."""
    return (BRIEF, CLIENT, journal_beside(folder / BRIEF).name, OLD_JOURNAL, PLAN)


def _state(path: Path) -> tuple[int, int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


class GlanceIndex:
    """The index of a data folder, or none where it cannot be used: then nothing is known."""

    def __init__(self, connection: sqlite3.Connection | None) -> None:
        """Over an open index."""
        self._connection = connection

    def known(self) -> dict[str, KnownLawn]:
        """All that is known, by the name of the lawn's folder: a data folder may move."""
        if self._connection is None:
            return {}
        try:
            rows = self._connection.execute("SELECT name, row, stamp, said FROM lawn").fetchall()
        except sqlite3.Error:
            return {}
        return {name: KnownLawn(row, _stamp(stamp), said) for name, row, stamp, said in rows}

    def keep(self, name: str, lawn: KnownLawn) -> None:
        """Keep what is known of a lawn; where that cannot be written it is reckoned again."""
        if self._connection is None:
            return
        values = (name, lawn.row, json.dumps(lawn.stamp), lawn.said)
        with suppress(sqlite3.Error):
            self._connection.execute("INSERT OR REPLACE INTO lawn VALUES (?, ?, ?, ?)", values)


def _stamp(text: str) -> FolderStamp:
    return {name: tuple(state) if state else None for name, state in json.loads(text).items()}


@contextmanager
def glance_index(root: Path) -> Iterator[GlanceIndex]:
    """The index of a data folder, made where there is none."""
    connection = _opened(root / GLANCES)
    try:
        yield GlanceIndex(connection)
    finally:
        if connection is not None:
            with suppress(sqlite3.Error):
                connection.close()


def _opened(path: Path) -> sqlite3.Connection | None:
    for _ in range(2):
        try:
            connection = sqlite3.connect(path, timeout=BUSY_S, isolation_level=None)
            if _is_ready(connection):
                return connection
            connection.close()
        except sqlite3.Error:
            pass
        remove_index(path.parent)
    return None


def remove_index(root: Path) -> None:
    """Take away the index of a data folder: all of it can be made again."""
    with suppress(OSError):
        for end in ("", "-wal", "-shm"):
            (root / f"{GLANCES}{end}").unlink(missing_ok=True)


def _is_ready(connection: sqlite3.Connection) -> bool:
    """Whether an index is of this form and program; a new one is made so."""
    mark = f"{FORM} {__version__}"
    connection.execute("PRAGMA journal_mode = WAL")
    # What a power cut takes is reckoned again.
    connection.execute("PRAGMA synchronous = OFF")
    connection.execute("CREATE TABLE IF NOT EXISTS form (mark TEXT NOT NULL)")
    found = connection.execute("SELECT mark FROM form").fetchone()
    if found is None:
        connection.execute("INSERT INTO form VALUES (?)", (mark,))
        connection.execute(
            "CREATE TABLE IF NOT EXISTS lawn (name TEXT PRIMARY KEY, row TEXT NOT NULL, "
            "stamp TEXT NOT NULL, said TEXT NOT NULL)"
        )
        found = (mark,)
    return bool(found[0] == mark)
