"""What the owner has opened on the page, kept in the index until it is closed there."""

import sqlite3
from datetime import datetime

from turfplan.files.index import changing, moment_text

_PHONES = "phones"


def opened_to_phones(connection: sqlite3.Connection) -> bool:
    """Whether the owner has opened addresses to the home network."""
    found = connection.execute("SELECT 1 FROM opened WHERE what = ?", (_PHONES,)).fetchone()
    return found is not None


def keep_opened_to_phones(connection: sqlite3.Connection, now: datetime | None) -> None:
    """Keeps that addresses are open since a moment, or that they are not."""
    with changing(connection):
        connection.execute("DELETE FROM opened WHERE what = ?", (_PHONES,))
        if now is not None:
            connection.execute("INSERT INTO opened VALUES (?, ?)", (_PHONES, moment_text(now)))
