"""The index of what is served: lawn folders, tokens (hashed) and the bytes last published, in one
SQLite file.

The folders are the truth: everything here but the tokens can be made again from them.
"""

import json
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import PLAN, brief_at
from turfplan.files.index_forms import MIGRATIONS
from turfplan.files.system_faults import refusal_of
from turfplan.phrases import errors, files, identity
from turfplan.phrases import index as phrases

BUSY_MS = 10_000


@dataclass(frozen=True, slots=True)
class ServedLawn:
    """A lawn that is served: its folder, its identity, and, where ticks are taken, its brief."""

    id: int
    folder: Path
    brief: Path | None
    lawn_id: str


@dataclass(frozen=True, slots=True)
class PublishedFeed:
    """The bytes of a feed, the stamp of the plan they came from, and when they were published (UTC,
    whole seconds).
    """

    content: bytes
    stamp: str
    at: datetime


@contextmanager
def opened(path: Path, *, create: bool = True) -> Iterator[sqlite3.Connection]:
    """The index, migrated.

    Raises TurfplanError when it cannot be used, or is not there and may not be made.
    """
    with closing(connect(path, create=create)) as connection:
        try:
            yield connection
        except sqlite3.Error as error:
            raise _unusable(path, error) from None


def connect(path: Path, *, create: bool = True, any_thread: bool = False) -> sqlite3.Connection:
    """A connection to the index, migrated; the caller closes it. Only its owner may read the file.

    It belongs to the thread that opened it, unless `any_thread` leaves it to the caller that one at
    a time uses it.
    """
    if not create and not path.is_file():
        raise TurfplanError(
            Problem(
                str(path),
                phrases.none(),
                hint=phrases.serve_makes_one(command="turfplan serve DIR"),
            )
        )
    made = _Made(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
        connection = sqlite3.connect(
            path, timeout=BUSY_MS / 1000, isolation_level=None, check_same_thread=not any_thread
        )
    except (sqlite3.Error, OSError) as error:
        made.take_away()
        raise _unusable(path, error) from None
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA journal_mode = WAL")
        _migrate(connection, path)
    except sqlite3.Error as error:
        connection.close()
        made.take_away()
        raise _unusable(path, error) from None
    except TurfplanError:
        connection.close()
        raise
    return connection


class _Made:
    """What is made with a new index, so that it can go again where nothing comes of it."""

    def __init__(self, path: Path) -> None:
        """For an index that may be there already."""
        path = path.absolute()
        self.path = None if path.exists() else path
        self.above = [folder for folder in path.parents if not folder.exists()]

    def take_away(self) -> None:
        """Removes the index, unless it was there, and its folders as far as they are empty."""
        if self.path is None:
            return
        with suppress(OSError):
            for end in ("", "-wal", "-shm"):
                self.path.with_name(self.path.name + end).unlink(missing_ok=True)
            for folder in self.above:
                folder.rmdir()


@contextmanager
def kept_on_success(path: Path) -> Iterator[None]:
    """An index that is made within the block stays only where the block ends well."""
    made = _Made(path)
    try:
        yield
    except BaseException:
        made.take_away()
        raise


def _unusable(path: Path, error: Exception) -> TurfplanError:
    return TurfplanError(
        Problem(
            str(path),
            phrases.unusable(reason=refusal_of(error)),
            hint=phrases.restore_brings_back(command="turfplan restore"),
        )
    )


@contextmanager
def changing(connection: sqlite3.Connection) -> Iterator[None]:
    """One change of the index: everything in the block or nothing of it, one writer at a time."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _migrate(connection: sqlite3.Connection, path: Path) -> None:
    """Brings the index to the newest form; another process may do the same at this moment."""
    if _version(connection) > len(MIGRATIONS):
        raise TurfplanError(
            Problem(
                str(path),
                phrases.newer(),
                phrases.form(number=_version(connection)),
                phrases.up_to(number=len(MIGRATIONS)),
            )
        )
    while _version(connection) < len(MIGRATIONS):
        with changing(connection):
            number = _version(connection)
            if number < len(MIGRATIONS):
                for statement in MIGRATIONS[number]:
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {number + 1}")


def now_text() -> str:
    """This moment (UTC, whole seconds) as the index keeps it."""
    return moment_text(datetime.now(UTC))


def moment_text(moment: datetime) -> str:
    """A moment (UTC, whole seconds) as the index keeps it."""
    return moment.astimezone(UTC).replace(microsecond=0).isoformat()


def lawn_id_of(folder: Path) -> str | None:
    """The identity that a folder's plan.json carries; None where there is no plan that can be
    read.
    """
    try:
        found = json.loads((folder / PLAN).read_bytes())["lawn_id"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if isinstance(found, str) else None


def brief_beside(folder: Path) -> Path | None:
    """The brief that a folder's plan is made from by default: the one in it, or the TOML file of
    its name beside it; None without one.
    """
    brief = brief_at(folder.resolve())
    return brief if brief.is_file() else None


def folders_of_lawn(path: Path, lawn_id: str) -> tuple[Path, ...]:
    """The folders under which an index knows a lawn; the index is only read.

    Raises TurfplanError when it cannot be used.
    """
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as asked:
            return tuple(Path(row[1]) for row in _lawn_rows(asked, "WHERE lawn_id = ?", (lawn_id,)))
    except sqlite3.Error as error:
        raise _unusable(path, error) from None


def _planned_id(folder: Path) -> str:
    """The identity of the plan in a folder; raises TurfplanError where none can be read."""
    lawn_id = lawn_id_of(folder)
    if lawn_id is None:
        hint = errors.make_plan_first(command="turfplan plan BRIEF -o DIR")
        raise TurfplanError(Problem(str(folder), files.no_plan(), hint=hint))
    return lawn_id


def add_lawn(connection: sqlite3.Connection, folder: Path, brief: Path | None = None) -> ServedLawn:
    """The lawn of a folder, added when it is new.

    Raises TurfplanError when the folder holds no plan that can be read, and where the index knows
    its lawn in another folder, or another lawn in it: tokens never follow a folder by themselves.
    """
    lawn_id = _planned_id(folder)
    place, beside = str(folder.resolve()), str(brief.resolve()) if brief else None
    with changing(connection):
        for _, known, _, known_id in _lawn_rows(
            connection, "WHERE (lawn_id = ?) != (folder = ?)", (lawn_id, place)
        ):
            raise TurfplanError(
                elsewhere(folder, Path(known), lawn_id)
                if known_id == lawn_id
                else another_there(folder, known_id, lawn_id)
            )
        connection.execute(
            "INSERT INTO lawn (folder, brief, lawn_id, added) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (folder) "
            "DO UPDATE SET brief = coalesce(excluded.brief, brief)",
            (place, beside, lawn_id, now_text()),
        )
        (row,) = _lawn_rows(connection, "WHERE folder = ?", (place,))
    return lawn_of(row)


def move_lawn(
    connection: sqlite3.Connection, folder: Path, brief: Path | None = None
) -> tuple[Path, ServedLawn]:
    """Gives the lawn that lies in a folder now its place there, and with it its tokens; also
    returns where it was.

    Raises TurfplanError when the folder holds no plan that can be read, the index does not know its
    lawn, knows it there already, or where the old folder still holds it.
    """
    lawn_id = _planned_id(folder)
    place, beside = str(folder.resolve()), str(brief.resolve()) if brief else None
    with changing(connection):
        rows = _lawn_rows(connection, "WHERE lawn_id = ?", (lawn_id,))
        if not rows or rows[0][1] == place:
            fault = identity.nothing_moved() if rows else identity.not_known()
            raise TurfplanError(Problem(str(folder), fault, lawn_id))
        old = Path(rows[0][1])
        if lawn_id_of(old) == lawn_id:
            raise TurfplanError(elsewhere(folder, old, lawn_id))
        for row in _lawn_rows(connection, "WHERE folder = ?", (place,)):
            raise TurfplanError(another_there(folder, row[3], lawn_id))
        connection.execute(
            "UPDATE lawn SET folder = ?, brief = ? WHERE id = ?", (place, beside, rows[0][0])
        )
        (row,) = _lawn_rows(connection, "WHERE id = ?", (str(rows[0][0]),))
    return old, lawn_of(row)


def remove_lawn(connection: sqlite3.Connection, lawn: ServedLawn) -> None:
    """Takes a lawn out of the index, with its tokens and the bytes of its feed; its folder stays as
    it is."""
    with changing(connection):
        # Tokens of a page's feed go before the page's.
        connection.execute("DELETE FROM token WHERE lawn = ? AND page IS NOT NULL", (lawn.id,))
        connection.execute("DELETE FROM token WHERE lawn = ?", (lawn.id,))
        connection.execute("DELETE FROM published WHERE lawn = ?", (lawn.id,))
        connection.execute("DELETE FROM lawn WHERE id = ?", (lawn.id,))


def end_addresses(connection: sqlite3.Connection, folder: Path) -> int:
    """Withdraws every address of the lawn of a folder that is still open; returns how many."""
    with changing(connection):
        done = connection.execute(
            "UPDATE token SET revoked = ? WHERE revoked IS NULL AND lawn IN "
            "(SELECT id FROM lawn WHERE folder = ?)",
            (now_text(), str(folder.resolve())),
        )
    return done.rowcount


def elsewhere(folder: Path, other: Path, lawn_id: str) -> Problem:
    """What is said of a folder whose lawn the index knows in another one."""
    if lawn_id_of(other) == lawn_id:
        hint = identity.new_copy(command="turfplan new FILE --from BRIEF")
        fault = identity.known_elsewhere(folder=str(other))
    else:
        hint = identity.take_along(command=f"turfplan tokens move {folder}")
        fault = identity.left(folder=str(other))
    return Problem(str(folder), fault, lawn_id, None, hint)


def another_there(folder: Path, known: str, lawn_id: str) -> Problem:
    """What is said of a folder in which the index knows another lawn."""
    return Problem(str(folder), identity.another_known(), lawn_id, known, identity.other_place())


def _lawn_rows(
    connection: sqlite3.Connection, where: str, values: tuple[str, ...] = ()
) -> list[tuple[int, str, str | None, str]]:
    return connection.execute(
        f"SELECT id, folder, brief, lawn_id FROM lawn {where} ORDER BY id", values
    ).fetchall()


def lawn_of(row: tuple[int, str, str | None, str]) -> ServedLawn:
    """The record of a row of the table of lawns: id, folder, brief, lawn_id."""
    return ServedLawn(row[0], Path(row[1]), Path(row[2]) if row[2] else None, row[3])


def lawns(connection: sqlite3.Connection) -> tuple[ServedLawn, ...]:
    """Every lawn of the index, in the order in which they came."""
    return tuple(lawn_of(row) for row in _lawn_rows(connection, ""))


def publish(
    connection: sqlite3.Connection,
    lawn: ServedLawn,
    content: bytes,
    stamp: str,
    part: str = "all",
) -> PublishedFeed:
    """Keeps the bytes of a feed, or of a part of it, as the last good ones.

    The moment of publishing changes with the bytes and always rises.

    Two versions never share a moment: a reader that knows only the date must learn of each.
    """
    with changing(connection):
        known = published(connection, lawn, part)
        if known is not None and known.content == content:
            return known
        at = datetime.now(UTC).replace(microsecond=0)
        if known is not None:
            at = max(at, known.at + timedelta(seconds=1))
        connection.execute(
            "INSERT INTO published (lawn, part, stamp, bytes, at) VALUES (?, ?, ?, ?, ?) "
            "ON CONFLICT (lawn, part) "
            "DO UPDATE SET stamp = excluded.stamp, bytes = excluded.bytes, at = excluded.at",
            (lawn.id, part, stamp, content, at.isoformat()),
        )
    return PublishedFeed(content, stamp, at)


def published(
    connection: sqlite3.Connection, lawn: ServedLawn, part: str = "all"
) -> PublishedFeed | None:
    """The last good bytes of a lawn's feed, or of a part of it, or None."""
    row = connection.execute(
        "SELECT bytes, stamp, at FROM published WHERE lawn = ? AND part = ?", (lawn.id, part)
    ).fetchone()
    return PublishedFeed(bytes(row[0]), row[1], datetime.fromisoformat(row[2])) if row else None
