"""The index of what is served: lawn folders, tokens (hashed) and the bytes last published, in one SQLite file.

The folders are the truth: everything here but the tokens can be made again from them.
"""

import hashlib
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Literal

from turfplan.errors import Problem, TurfplanError

TokenKind = Literal["feed", "read", "edit"]
KINDS: tuple[TokenKind, ...] = ("feed", "read", "edit")
BUSY_MS = 10_000
# Numbered migrations: each is run once, in order, inside one transaction with its number.
MIGRATIONS = (
    """
    CREATE TABLE lawn (id INTEGER PRIMARY KEY, folder TEXT NOT NULL UNIQUE, brief TEXT, added TEXT NOT NULL);
    CREATE TABLE token (
        id INTEGER PRIMARY KEY, lawn INTEGER NOT NULL REFERENCES lawn(id), kind TEXT NOT NULL, hash TEXT NOT NULL UNIQUE,
        label TEXT NOT NULL, made TEXT NOT NULL, revoked TEXT
    );
    CREATE TABLE published (lawn INTEGER PRIMARY KEY REFERENCES lawn(id), bytes BLOB NOT NULL, at TEXT NOT NULL);
    """,
)


@dataclass(frozen=True, slots=True)
class Lawn:
    """A lawn that is served: its folder and, where ticks are taken, its brief."""

    id: int
    folder: Path
    brief: Path | None


@dataclass(frozen=True, slots=True)
class Token:
    """What is known of a token; the token itself is shown once and never kept."""

    id: int
    lawn: Lawn
    kind: TokenKind
    label: str
    made: str
    revoked: str | None


@dataclass(frozen=True, slots=True)
class Published:
    """The bytes of a feed and when they were published (UTC, whole seconds)."""

    content: bytes
    at: datetime


def hash_of(token: str) -> str:
    """What is kept of a token: its SHA-256, so that a stolen index opens no feed."""
    return hashlib.sha256(token.encode()).hexdigest()


@contextmanager
def opened(path: Path) -> Iterator[sqlite3.Connection]:
    """The index, migrated; a transaction is committed when the block ends well."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with closing(sqlite3.connect(path, timeout=BUSY_MS / 1000, isolation_level=None)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
            connection.execute("PRAGMA foreign_keys = ON")
            _migrate(connection)
            yield connection
    except sqlite3.Error as error:
        raise TurfplanError(
            Problem(str(path), f"the index cannot be used ({error})", hint="`turfplan restore` brings a copy back")
        ) from None


def _migrate(connection: sqlite3.Connection) -> None:
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    if version > len(MIGRATIONS):
        raise TurfplanError(Problem("index", "was written by a newer turfplan", str(version), str(len(MIGRATIONS))))
    for number in range(version, len(MIGRATIONS)):
        connection.executescript(f"BEGIN IMMEDIATE; {MIGRATIONS[number]} PRAGMA user_version = {number + 1}; COMMIT;")


def _now() -> str:
    return datetime.now(UTC).replace(microsecond=0).isoformat()


def add_lawn(connection: sqlite3.Connection, folder: Path, brief: Path | None = None) -> Lawn:
    """The lawn of a folder, added when it is new."""
    place = str(folder.resolve())
    connection.execute(
        "INSERT INTO lawn (folder, brief, added) VALUES (?, ?, ?) "
        "ON CONFLICT (folder) DO UPDATE SET brief = coalesce(excluded.brief, brief)",
        (place, str(brief.resolve()) if brief else None, _now()),
    )
    row = connection.execute("SELECT id, folder, brief FROM lawn WHERE folder = ?", (place,)).fetchone()
    return Lawn(row[0], Path(row[1]), Path(row[2]) if row[2] else None)


def issue(connection: sqlite3.Connection, lawn: Lawn, kind: TokenKind, label: str = "") -> str:
    """A new token of 256 bits, one for each subscriber; it is returned once and only its hash is kept."""
    token = secrets.token_urlsafe(32)
    connection.execute(
        "INSERT INTO token (lawn, kind, hash, label, made) VALUES (?, ?, ?, ?, ?)",
        (lawn.id, kind, hash_of(token), label, _now()),
    )
    return token


_SELECT = (
    "SELECT token.id, lawn.id, lawn.folder, lawn.brief, token.kind, token.label, token.made, token.revoked "
    "FROM token JOIN lawn ON lawn.id = token.lawn"
)


def _token(row: tuple[int, int, str, str | None, TokenKind, str, str, str | None]) -> Token:
    lawn = Lawn(row[1], Path(row[2]), Path(row[3]) if row[3] else None)
    return Token(row[0], lawn, row[4], row[5], row[6], row[7])


def find(connection: sqlite3.Connection, token: str) -> Token | None:
    """What a token opens, or None; it is looked up by its hash, so that no comparison tells how near a guess is."""
    row = connection.execute(f"{_SELECT} WHERE token.hash = ?", (hash_of(token),)).fetchone()
    return _token(row) if row else None


def tokens(connection: sqlite3.Connection) -> tuple[Token, ...]:
    """Every token that was issued, by number."""
    return tuple(_token(row) for row in connection.execute(f"{_SELECT} ORDER BY token.id"))


def revoke(connection: sqlite3.Connection, number: int) -> bool:
    """Takes a token back for good; False when there is none of that number."""
    done = connection.execute("UPDATE token SET revoked = coalesce(revoked, ?) WHERE id = ?", (_now(), number))
    return done.rowcount > 0


def publish_bytes(connection: sqlite3.Connection, lawn: Lawn, content: bytes) -> Published:
    """Keeps the bytes of a feed; the moment of publishing changes only with the bytes."""
    known = published(connection, lawn)
    if known is not None and known.content == content:
        return known
    at = _now()
    connection.execute(
        "INSERT INTO published (lawn, bytes, at) VALUES (?, ?, ?) ON CONFLICT (lawn) DO UPDATE SET bytes = excluded.bytes, at = excluded.at",
        (lawn.id, content, at),
    )
    return Published(content, datetime.fromisoformat(at))


def published(connection: sqlite3.Connection, lawn: Lawn) -> Published | None:
    """The last good bytes of a lawn's feed, or None."""
    row = connection.execute("SELECT bytes, at FROM published WHERE lawn = ?", (lawn.id,)).fetchone()
    return Published(bytes(row[0]), datetime.fromisoformat(row[1])) if row else None


def backup(path: Path, to: Path) -> None:
    """A whole copy of the index in one file, taken while it may be in use."""
    if to.exists():
        raise TurfplanError(Problem(str(to), "exists already", hint="choose another name"))
    temporary = to.with_name(f".{to.name}.new")
    with opened(path) as connection, closing(sqlite3.connect(temporary)) as copy:
        connection.backup(copy)
    temporary.replace(to)


def restore(path: Path, copy: Path) -> None:
    """Puts a copy in the place of the index, after looking that it is whole."""
    if not copy.is_file():
        raise TurfplanError(Problem(str(copy), "no such file"))
    try:
        with closing(sqlite3.connect(f"file:{copy}?mode=ro", uri=True)) as source:
            whole = source.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
            whole = (
                whole and source.execute("SELECT count(*) FROM sqlite_master WHERE name = 'token'").fetchone()[0] == 1
            )
            if not whole:
                raise TurfplanError(Problem(str(copy), "is not a whole copy of an index"))
            path.parent.mkdir(parents=True, exist_ok=True)
            with closing(sqlite3.connect(path)) as target:
                source.backup(target)
    except sqlite3.Error as error:
        raise TurfplanError(Problem(str(copy), f"cannot be restored ({error})")) from None
