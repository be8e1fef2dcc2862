"""Issues, finds, lists and revokes the addresses that open all lawns of a house.

They are made and kept as those of a lawn are: shown once, by their hash. None of a lawn's addresses
opens the house, and none of the house's stands among a lawn's.
"""

import hmac
import secrets
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from turfplan.files.index import PublishedFeed, changing, moment_text
from turfplan.records.plan_calendar import CalendarPart
from turfplan.serve.tokens import (
    LONGEST,
    SHORTEST,
    TOKEN_BYTES,
    TokenKind,
    feed_of_page,
    hash_of,
    hour_of,
)


@dataclass(frozen=True, slots=True)
class HouseToken:
    """What is known of an address of a house; `page` is the number of the page's that a feed
    belongs to, `read` when something was last read by it, or by its feed. `revoked` is when it was
    taken back; a `closed` one came back closed with a copy, and opens nothing either."""

    id: int
    house: Path
    kind: TokenKind
    label: str
    created: str
    revoked: str | None
    page: int | None
    read: str | None
    part: CalendarPart
    closed: str | None = None

    @property
    def is_gone(self) -> bool:
        """Whether it opens nothing any more."""
        return self.revoked is not None or self.closed is not None


_SELECT = (
    "SELECT id, house, kind, label, created, revoked, page, read, part, closed, hash "
    "FROM house_token"
)


_HouseTokenRow = tuple[
    int,
    str,
    TokenKind,
    str,
    str,
    str | None,
    int | None,
    str | None,
    CalendarPart,
    str | None,
    str,
]


def _token(row: _HouseTokenRow) -> HouseToken:
    number, house, kind, label, created, revoked, page, read, part, closed, _ = row
    return HouseToken(number, Path(house), kind, label, created, revoked, page, read, part, closed)


def issue(
    connection: sqlite3.Connection,
    house: Path,
    kind: TokenKind,
    label: str,
    part: CalendarPart = "all",
    now: datetime | None = None,
) -> str:
    """A new address of a house, returned this once; a page has a feed of its own besides."""
    token = secrets.token_urlsafe(TOKEN_BYTES)
    made = moment_text(now or datetime.now(UTC))
    rows: list[tuple[TokenKind, str]] = [(kind, token)]
    if kind != "feed":
        rows.append(("feed", feed_of_page(token)))
    with changing(connection):
        number: int | None = None
        for name, text in rows:
            kept = connection.execute(
                "INSERT INTO house_token (house, page, kind, hash, label, created, part) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                (str(house.resolve()), number, name, hash_of(text), label, made, part),
            )
            number = kept.lastrowid
    return token


def find(connection: sqlite3.Connection, token: str) -> HouseToken | None:
    """What an address opens, or None; looked up as those of lawns are."""
    if not SHORTEST <= len(token) <= LONGEST:
        return None
    wanted = hash_of(token)
    row = connection.execute(f"{_SELECT} WHERE hash = ?", (wanted,)).fetchone()
    return _token(row) if row is not None and hmac.compare_digest(row[-1], wanted) else None


def listed(connection: sqlite3.Connection, house: Path | None = None) -> tuple[HouseToken, ...]:
    """Every address of a house, or of all, by number."""
    where, values = ("WHERE house = ?", (str(house.resolve()),)) if house else ("", ())
    return tuple(map(_token, connection.execute(f"{_SELECT} {where} ORDER BY id", values)))


def revoke(connection: sqlite3.Connection, number: int, house: Path) -> bool:
    """Takes an address of a house back for good, with the feed that belongs to it; False where it
    has none of that number."""
    with changing(connection):
        done = connection.execute(
            "UPDATE house_token SET revoked = coalesce(revoked, ?) "
            "WHERE (id = ? OR page = ?) AND house = ?",
            (moment_text(datetime.now(UTC)), number, number, str(house.resolve())),
        )
    return done.rowcount > 0


def reopen(connection: sqlite3.Connection, number: int) -> bool:
    """Opens an address that came back closed with a copy, with the feed that belongs to it; False
    when there is none of that number that is closed and was not revoked."""
    with changing(connection):
        done = connection.execute(
            "UPDATE house_token SET closed = NULL WHERE (id = ? OR page = ?) "
            "AND closed IS NOT NULL AND revoked IS NULL",
            (number, number),
        )
    return done.rowcount > 0


def is_noted(token: HouseToken, now: datetime) -> bool:
    """Whether it is noted already that something was read by an address in this hour."""
    return token.read == hour_of(now)


def was_read(connection: sqlite3.Connection, token: HouseToken, now: datetime) -> None:
    """Notes that something was read by an address, to the hour."""
    if not is_noted(token, now):
        with changing(connection):
            connection.execute(
                "UPDATE house_token SET read = ? WHERE id = ? OR id = ?",
                (hour_of(now), token.id, token.page),
            )


def publish(
    connection: sqlite3.Connection, house: Path, content: bytes, stamp: str, part: CalendarPart
) -> PublishedFeed:
    """Keeps the bytes of a house's calendar as the last good ones; the moment of publishing changes
    with them and always rises."""
    with changing(connection):
        known = published(connection, house, part)
        if known is not None and known.content == content:
            return known
        at = datetime.now(UTC).replace(microsecond=0)
        if known is not None:
            at = max(at, known.at + timedelta(seconds=1))
        connection.execute(
            "INSERT INTO house_published (house, part, stamp, bytes, at) VALUES (?, ?, ?, ?, ?) "
            "ON CONFLICT (house, part) "
            "DO UPDATE SET stamp = excluded.stamp, bytes = excluded.bytes, at = excluded.at",
            (str(house.resolve()), part, stamp, content, at.isoformat()),
        )
    return PublishedFeed(content, stamp, at)


def published(
    connection: sqlite3.Connection, house: Path, part: CalendarPart
) -> PublishedFeed | None:
    """The last good bytes of a house's calendar, or None."""
    row = connection.execute(
        "SELECT bytes, stamp, at FROM house_published WHERE house = ? AND part = ?",
        (str(house.resolve()), part),
    ).fetchone()
    return PublishedFeed(bytes(row[0]), row[1], datetime.fromisoformat(row[2])) if row else None
