"""The index of what is served: lawn folders, tokens (hashed) and the bytes last published, in one
SQLite file.

The folders are the truth: everything here but the tokens can be made again from them.
"""

import json
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import refusal_of, unwritable
from turfplan.files.whole_files import replacing
from turfplan.phrases import errors, files
from turfplan.phrases import index as phrases

BUSY_MS = 10_000
# Numbered migrations: each is run once, in order, inside one transaction with its number; never
# edited, only added to.
MIGRATIONS: tuple[tuple[str, ...], ...] = (
    (
        "CREATE TABLE lawn (id INTEGER PRIMARY KEY, folder TEXT NOT NULL UNIQUE, brief TEXT, "
        "lawn_id TEXT NOT NULL, added TEXT NOT NULL)",
        "CREATE TABLE token (id INTEGER PRIMARY KEY, lawn INTEGER NOT NULL REFERENCES lawn(id), "
        "page INTEGER REFERENCES token(id), kind TEXT NOT NULL "
        "CHECK (kind IN ('feed', 'read', 'edit')), "
        "hash TEXT NOT NULL UNIQUE, label TEXT NOT NULL, created TEXT NOT NULL, revoked TEXT)",
        "CREATE TABLE published (lawn INTEGER PRIMARY KEY REFERENCES lawn(id), "
        "stamp TEXT NOT NULL, bytes BLOB NOT NULL, at TEXT NOT NULL)",
    ),
    ("CREATE INDEX token_by_lawn ON token (lawn)",),
    (
        # The last day of an address, and when something was last read by it.
        "ALTER TABLE token ADD COLUMN ends TEXT",
        "ALTER TABLE token ADD COLUMN read TEXT",
        # Browsers of the owner, and the one-time addresses (`once`) that make them such.
        "CREATE TABLE owner (id INTEGER PRIMARY KEY, once INTEGER NOT NULL, "
        "hash TEXT NOT NULL UNIQUE, label TEXT NOT NULL, created TEXT NOT NULL, "
        "ends TEXT NOT NULL, used TEXT, revoked TEXT)",
        # The answers of an owner who is being asked for a new lawn.
        "CREATE TABLE draft (owner INTEGER PRIMARY KEY REFERENCES owner(id), "
        "answers TEXT NOT NULL)",
    ),
)


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
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
        connection = sqlite3.connect(
            path, timeout=BUSY_MS / 1000, isolation_level=None, check_same_thread=not any_thread
        )
    except (sqlite3.Error, OSError) as error:
        raise _unusable(path, error) from None
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA journal_mode = WAL")
        _migrate(connection, path)
    except sqlite3.Error as error:
        connection.close()
        raise _unusable(path, error) from None
    except TurfplanError:
        connection.close()
        raise
    return connection


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
    return datetime.now(UTC).replace(microsecond=0).isoformat()


def lawn_id_of(folder: Path) -> str | None:
    """The identity that a folder's plan.json carries; None where there is no plan that can be
    read.
    """
    try:
        found = json.loads((folder / "plan.json").read_bytes())["lawn_id"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if isinstance(found, str) else None


def brief_beside(folder: Path) -> Path | None:
    """The brief that a folder's plan is made from by default: the TOML file of its name beside it;
    None without one.
    """
    folder = folder.resolve()
    brief = folder.with_name(folder.name + ".toml")
    return brief if brief.is_file() else None


def add_lawn(connection: sqlite3.Connection, folder: Path, brief: Path | None = None) -> ServedLawn:
    """The lawn of a folder, added when it is new.

    A folder that was moved keeps its lawn, and with it its tokens.

    Raises TurfplanError when the folder holds no plan that can be read.
    """
    lawn_id = lawn_id_of(folder)
    if lawn_id is None:
        raise TurfplanError(
            Problem(
                str(folder),
                files.no_plan(),
                hint=errors.make_plan_first(command="turfplan plan BRIEF -o DIR"),
            )
        )
    place, beside = str(folder.resolve()), str(brief.resolve()) if brief else None
    with changing(connection):
        known = connection.execute("SELECT 1 FROM lawn WHERE folder = ?", (place,)).fetchone()
        for row in () if known else _lawn_rows(connection, "WHERE lawn_id = ?", (lawn_id,)):
            if lawn_id_of(Path(row[1])) is None:
                connection.execute(
                    "UPDATE lawn SET folder = ?, brief = ? WHERE id = ?", (place, beside, row[0])
                )
                break
        connection.execute(
            "INSERT INTO lawn (folder, brief, lawn_id, added) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (folder) "
            "DO UPDATE SET brief = coalesce(excluded.brief, brief), lawn_id = excluded.lawn_id",
            (place, beside, lawn_id, now_text()),
        )
        (row,) = _lawn_rows(connection, "WHERE folder = ?", (place,))
    return lawn_of(row)


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
    connection: sqlite3.Connection, lawn: ServedLawn, content: bytes, stamp: str
) -> PublishedFeed:
    """Keeps the bytes of a feed as the last good ones.

    The moment of publishing changes with the bytes and always rises.

    Two versions never share a moment: a reader that knows only the date must learn of each.
    """
    with changing(connection):
        known = published(connection, lawn)
        if known is not None and known.content == content:
            return known
        at = datetime.now(UTC).replace(microsecond=0)
        if known is not None:
            at = max(at, known.at + timedelta(seconds=1))
        connection.execute(
            "INSERT INTO published (lawn, stamp, bytes, at) VALUES (?, ?, ?, ?) ON CONFLICT (lawn) "
            "DO UPDATE SET stamp = excluded.stamp, bytes = excluded.bytes, at = excluded.at",
            (lawn.id, stamp, content, at.isoformat()),
        )
    return PublishedFeed(content, stamp, at)


def published(connection: sqlite3.Connection, lawn: ServedLawn) -> PublishedFeed | None:
    """The last good bytes of a lawn's feed, or None."""
    row = connection.execute(
        "SELECT bytes, stamp, at FROM published WHERE lawn = ?", (lawn.id,)
    ).fetchone()
    return PublishedFeed(bytes(row[0]), row[1], datetime.fromisoformat(row[2])) if row else None


def backup(path: Path, to: Path) -> None:
    """A whole copy of the index in one file, taken while it may be in use."""
    if to.exists():
        raise TurfplanError(Problem(str(to), phrases.exists(), hint=phrases.another_name()))
    try:
        with (
            opened(path, create=False) as connection,
            replacing(to, mode=0o600) as (temporary,),
            closing(sqlite3.connect(temporary)) as copy,
        ):
            connection.backup(copy)
            # One file, nothing beside it: a copy is carried about.
            copy.execute("PRAGMA journal_mode = DELETE")
    except OSError as error:
        raise TurfplanError(unwritable(to, error)) from None


def restore(path: Path, copy: Path) -> None:
    """Puts a copy in the place of the index, also under a running server, after looking that the
    copy is whole.
    """
    if not copy.is_file():
        raise TurfplanError(Problem(str(copy), errors.no_such_file()))
    try:
        with closing(sqlite3.connect(f"{copy.resolve().as_uri()}?mode=ro", uri=True)) as source:
            whole = source.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
            names = {
                row[0]
                for row in source.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            }
            if (
                not whole
                or not {"lawn", "token", "published"} <= names
                or _version(source) > len(MIGRATIONS)
            ):
                raise TurfplanError(Problem(str(copy), phrases.not_whole()))
            path.parent.mkdir(parents=True, exist_ok=True)
            os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
            with closing(sqlite3.connect(path, timeout=BUSY_MS / 1000)) as target:
                source.backup(target)
    except (sqlite3.Error, OSError) as error:
        raise TurfplanError(
            Problem(str(copy), phrases.unrestored(reason=refusal_of(error)))
        ) from None
    connect(path).close()
