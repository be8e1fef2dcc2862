"""Issues, finds, lists and revokes the tokens that open feeds and pages.

A token is shown once; the index keeps its SHA-256 only. A page's token has a feed of its own, whose
token follows from it one way: the page can show that address, and whoever has the address learns
nothing of the page.
"""

import base64
import hashlib
import hmac
import secrets
import sqlite3
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Literal, get_args

from turfplan.files.index import ServedLawn, changing, lawn_of, now_text

TokenKind = Literal["feed", "read", "edit"]
KINDS: tuple[TokenKind, ...] = get_args(TokenKind)
TOKEN_BYTES = 32
_OF_PAGE = b"turfplan feed of a page"
# Nothing shorter or longer is looked up at all.
SHORTEST, LONGEST = 20, 100


@dataclass(frozen=True, slots=True)
class Token:
    """What is known of a token; `page` is the number of the page's token that a feed belongs to.

    `ends` is its last day, UTC; `read` is when something was last read by it, or by its feed.
    `revoked` is when it was taken back; a `closed` one came back closed with a copy, and opens
    nothing either.
    """

    id: int
    lawn: ServedLawn
    kind: TokenKind
    label: str
    created: str
    revoked: str | None
    page: int | None
    closed: str | None = None
    ends: str | None = None
    read: str | None = None

    @property
    def is_gone(self) -> bool:
        """Whether it opens nothing any more, whatever the day."""
        return self.revoked is not None or self.closed is not None

    def ended(self, now: datetime) -> bool:
        """Whether its last day is over."""
        return self.ends is not None and now.astimezone(UTC).date() > date.fromisoformat(self.ends)


def hash_of(token: str) -> str:
    """What is kept of a token: its SHA-256, so that a stolen index opens no feed."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()


def feed_of_page(token: str) -> str:
    """The token of the feed that belongs to a page's token: 256 bits by HMAC-SHA-256 (RFC 2104)."""
    digest = hmac.digest(token.encode("utf-8", "surrogatepass"), _OF_PAGE, "sha256")
    return base64.urlsafe_b64encode(digest).rstrip(b"=").decode()


def issue(
    connection: sqlite3.Connection,
    lawn: ServedLawn,
    kind: TokenKind,
    label: str = "",
    ends: date | None = None,
) -> str:
    """A new token of 256 bits, one for each subscriber; it is returned this once and only its hash
    is kept. `ends` is its last day.
    """
    token = secrets.token_urlsafe(TOKEN_BYTES)
    with changing(connection):
        rows: list[tuple[TokenKind, str]] = [(kind, token)]
        if kind != "feed":
            rows.append(("feed", feed_of_page(token)))
        number: int | None = None
        for name, text in rows:
            kept = connection.execute(
                "INSERT INTO token (lawn, page, kind, hash, label, created, ends) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                (lawn.id, number, name, hash_of(text), label, now_text(), ends and str(ends)),
            )
            number = kept.lastrowid
    return token


_SELECT = (
    "SELECT token.id, token.kind, token.label, token.created, token.revoked, token.page, "
    "token.hash, token.closed, token.ends, token.read, "
    "lawn.id, lawn.folder, lawn.brief, lawn.lawn_id "
    "FROM token JOIN lawn ON lawn.id = token.lawn"
)
TokenRow = tuple[
    int,
    TokenKind,
    str,
    str,
    str | None,
    int | None,
    str,
    str | None,
    str | None,
    str | None,
    int,
    str,
    str | None,
    str,
]


def _token(row: TokenRow) -> Token:
    number, kind, label, created, revoked, page, _hash, closed, ends, read, *_ = row
    return Token(number, lawn_of(row[10:]), kind, label, created, revoked, page, closed, ends, read)


def was_read(connection: sqlite3.Connection, token: Token, now: datetime) -> None:
    """Notes that something was read by a token, to the hour: a page's calendar counts for it."""
    hour = now.astimezone(UTC).replace(minute=0, second=0, microsecond=0).isoformat()
    if token.read != hour:
        with changing(connection):
            connection.execute(
                "UPDATE token SET read = ? WHERE id = ? OR id = ?", (hour, token.id, token.page)
            )


def find(connection: sqlite3.Connection, token: str) -> Token | None:
    """What a token opens, or None.

    It is looked up by its hash, and the hash compared again in constant time: no answer tells how
    near a guess is.
    """
    if not SHORTEST <= len(token) <= LONGEST:
        return None
    wanted = hash_of(token)
    row = connection.execute(f"{_SELECT} WHERE token.hash = ?", (wanted,)).fetchone()
    return _token(row) if row is not None and hmac.compare_digest(row[6], wanted) else None


def listed(connection: sqlite3.Connection, lawn: ServedLawn | None = None) -> tuple[Token, ...]:
    """Every token that was issued, of one lawn or of all, by number."""
    where, values = ("WHERE lawn.id = ?", (lawn.id,)) if lawn else ("", ())
    return tuple(
        _token(row) for row in connection.execute(f"{_SELECT} {where} ORDER BY token.id", values)
    )


def reopen(connection: sqlite3.Connection, number: int) -> bool:
    """Opens a token that came back closed with a copy, with the feed that belongs to it; False when
    there is none of that number that is closed and was not revoked.
    """
    with changing(connection):
        done = connection.execute(
            "UPDATE token SET closed = NULL WHERE (id = ? OR page = ?) AND closed IS NOT NULL "
            "AND revoked IS NULL",
            (number, number),
        )
    return done.rowcount > 0


def revoke(connection: sqlite3.Connection, number: int, lawn: ServedLawn | None = None) -> bool:
    """Takes a token back for good, with the feed that belongs to it; False when there is none of
    that number.

    With a lawn, only a token of that lawn.
    """
    with changing(connection):
        done = connection.execute(
            "UPDATE token SET revoked = coalesce(revoked, ?) WHERE (id = ? OR page = ?) "
            "AND lawn = coalesce(?, lawn)",
            (now_text(), number, number, lawn.id if lawn else None),
        )
    return done.rowcount > 0
