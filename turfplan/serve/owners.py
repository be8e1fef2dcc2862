"""Whose browser is the owner's: a one-time address from the machine's terminal makes it so.

Neither the same machine nor the same network is a right: whoever has the address first is the
owner, and an owner who is lost is made anew where the server runs. Only hashes are kept.
"""

import hmac
import json
import secrets
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from turfplan.files.index import changing, moment_text
from turfplan.serve.tokens import LONGEST, SHORTEST, TOKEN_BYTES, hash_of

# As long as a way to the phone in the other room may take, and as long as browsers keep a cookie.
ONCE = timedelta(hours=24)
KEPT = timedelta(days=400)
# Which makes an owner at the machine.
OWNER_COMMAND = "turfplan tokens owner"


@dataclass(frozen=True, slots=True)
class Owner:
    """A browser that is the owner's: its number, what it is called, since when and until when."""

    id: int
    label: str
    created: str
    ends: str


def invite(connection: sqlite3.Connection, now: datetime) -> str:
    """A new one-time address; the ones before it that nobody has used open nothing any more."""
    with changing(connection):
        connection.execute("DELETE FROM owner WHERE once = 1 AND used IS NULL")
        return _kept(connection, "", now, now + ONCE, once=True)


def is_open(connection: sqlite3.Connection, once: str, now: datetime) -> bool:
    """Whether a one-time address can still be used; looking at it does not use it."""
    return _row(connection, once, now, once=True) is not None


def claim(connection: sqlite3.Connection, once: str, label: str, now: datetime) -> str | None:
    """Uses a one-time address: the secret that the browser keeps; None where it is used or over."""
    with changing(connection):
        row = _row(connection, once, now, once=True)
        if row is None:
            return None
        connection.execute("UPDATE owner SET used = ? WHERE id = ?", (moment_text(now), row.id))
        return _kept(connection, label, now, now + KEPT, once=False)


def find(connection: sqlite3.Connection, secret: str, now: datetime) -> Owner | None:
    """The owner's browser that keeps a secret, or None."""
    return _row(connection, secret, now, once=False)


def owners(connection: sqlite3.Connection, now: datetime) -> tuple[Owner, ...]:
    """Every browser that is the owner's now, by number."""
    rows = connection.execute(
        "SELECT id, label, created, ends FROM owner "
        "WHERE once = 0 AND revoked IS NULL AND ends > ? ORDER BY id",
        (moment_text(now),),
    )
    return tuple(Owner(*row) for row in rows)


def withdraw(connection: sqlite3.Connection, number: int, now: datetime) -> bool:
    """Takes the owner's right from a browser; False when there is none of that number."""
    with changing(connection):
        done = connection.execute(
            "UPDATE owner SET revoked = ? WHERE id = ? AND once = 0 AND revoked IS NULL",
            (moment_text(now), number),
        )
    return done.rowcount > 0


def draft(connection: sqlite3.Connection, owner: Owner) -> dict[str, str]:
    """What the owner has answered so far about a new lawn, by question."""
    row = connection.execute("SELECT answers FROM draft WHERE owner = ?", (owner.id,)).fetchone()
    return dict(json.loads(row[0])) if row is not None else {}


def keep_draft(connection: sqlite3.Connection, owner: Owner, answers: Mapping[str, str]) -> None:
    """Keeps what the owner has answered, in the place of what was kept."""
    with changing(connection):
        connection.execute(
            "INSERT INTO draft (owner, answers) VALUES (?, ?) "
            "ON CONFLICT (owner) DO UPDATE SET answers = excluded.answers",
            (owner.id, json.dumps(dict(answers))),
        )


def _kept(
    connection: sqlite3.Connection, label: str, now: datetime, ends: datetime, *, once: bool
) -> str:
    secret = secrets.token_urlsafe(TOKEN_BYTES)
    connection.execute(
        "INSERT INTO owner (once, hash, label, created, ends) VALUES (?, ?, ?, ?, ?)",
        (int(once), hash_of(secret), label, moment_text(now), moment_text(ends)),
    )
    return secret


def _row(connection: sqlite3.Connection, secret: str, now: datetime, *, once: bool) -> Owner | None:
    if not SHORTEST <= len(secret) <= LONGEST:
        return None
    wanted = hash_of(secret)
    row = connection.execute(
        "SELECT id, label, created, ends, hash FROM owner WHERE hash = ? AND once = ? "
        "AND used IS NULL AND revoked IS NULL AND ends > ?",
        (wanted, int(once), moment_text(now)),
    ).fetchone()
    return Owner(*row[:4]) if row is not None and hmac.compare_digest(row[4], wanted) else None
