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

from turfplan.files.index import ServedLawn, changing, lawn_of, moment_text, now_text
from turfplan.records.plan_calendar import FILES, CalendarPart

TokenKind = Literal["feed", "read", "edit"]
KINDS: tuple[TokenKind, ...] = get_args(TokenKind)
PARTS: tuple[CalendarPart, ...] = get_args(CalendarPart)
TOKEN_BYTES = 32
_OF_PAGE = b"turfplan feed of a page"
# Nothing shorter or longer is looked up at all.
SHORTEST, LONGEST = 20, 100


@dataclass(frozen=True, slots=True)
class FeedView:
    """What of a lawn's calendar an address shows: a part of it, on some days (None: on all)."""

    part: CalendarPart = "all"
    days: tuple[date, date] | None = None

    @property
    def key(self) -> str:
        """What its bytes are kept under."""
        return " ".join([self.part, *map(str, self.days or ())])

    @property
    def file(self) -> str:
        """The file of a plan's folder that it is, or is a part of."""
        return FILES[self.part]


WHOLE = FeedView()


@dataclass(frozen=True, slots=True)
class Token:
    """What is known of a token; `page` is the number of the page's token that a feed belongs to.

    `view` is what its feed shows, or the day whose sheets are all that a page shows. `ends` is its
    last day, UTC; `read` is when something was last read by it, or by its feed. `revoked` is when
    it was taken back; a `closed` one came back closed with a copy, and opens nothing either.
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
    view: FeedView = WHOLE

    @property
    def day(self) -> date | None:
        """The day whose sheets a page's address opens alone; None where it opens all."""
        return self.view.days[0] if self.kind != "feed" and self.view.days else None

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
    view: FeedView = WHOLE,
    now: datetime | None = None,
) -> str:
    """A new token of 256 bits, one for each subscriber; it is returned this once and only its hash
    is kept. `ends` is its last day, `view` what its feed shows; a page with days shows the sheets
    of the first of them alone, and has no feed.
    """
    token = secrets.token_urlsafe(TOKEN_BYTES)
    _keep(connection, lawn, kind, token, _Terms(label, ends, view, now))
    return token


def keep(
    connection: sqlite3.Connection, lawn: ServedLawn, kind: TokenKind, token: str, label: str
) -> None:
    """Let a token open a lawn that was made elsewhere, of as many bits; only its hash is kept."""
    _keep(connection, lawn, kind, token, _Terms(label))


@dataclass(frozen=True, slots=True)
class _Terms:
    """For whom a token is, until when, what its feed shows, and when it was made."""

    label: str
    ends: date | None = None
    view: FeedView = WHOLE
    now: datetime | None = None


def _keep(
    connection: sqlite3.Connection, lawn: ServedLawn, kind: TokenKind, token: str, terms: _Terms
) -> None:
    """Keep the hash of a token, with that of the feed which belongs to its page."""
    label, ends, view, now = terms.label, terms.ends, terms.view, terms.now
    days = [str(day) for day in view.days] if view.days else [None, None]
    with changing(connection):
        rows: list[tuple[TokenKind, str]] = [(kind, token)]
        if kind != "feed" and not view.days:
            rows.append(("feed", feed_of_page(token)))
        number: int | None = None
        for name, text in rows:
            kept = connection.execute(
                "INSERT INTO token (lawn, page, kind, hash, label, created, ends, part, "
                "first_day, last_day) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                (
                    lawn.id,
                    number,
                    name,
                    hash_of(text),
                    label,
                    moment_text(now) if now is not None else now_text(),
                    ends and str(ends),
                    view.part,
                    *days,
                ),
            )
            number = kept.lastrowid


_SELECT = (
    "SELECT token.id, token.kind, token.label, token.created, token.revoked, token.page, "
    "token.hash, token.closed, token.ends, token.read, "
    "token.part, token.first_day, token.last_day, "
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
    CalendarPart,
    str | None,
    str | None,
    int,
    str,
    str | None,
    str,
]


def _token(row: TokenRow) -> Token:
    number, kind, label, created, revoked, page, _hash, closed, ends, read, part, *_ = row
    first, last = row[11:13]
    days = (date.fromisoformat(first), date.fromisoformat(last)) if first and last else None
    lawn = lawn_of(row[13:])
    view = WHOLE if part == "all" and days is None else FeedView(part, days)
    return Token(number, lawn, kind, label, created, revoked, page, closed, ends, read, view)


def hour_of(now: datetime) -> str:
    """The hour in which something was read, as it is noted, in UTC."""
    return now.astimezone(UTC).replace(minute=0, second=0, microsecond=0).isoformat()


def is_noted(token: Token, now: datetime) -> bool:
    """Whether it is noted already that something was read by a token in this hour."""
    return token.read == hour_of(now)


def was_read(connection: sqlite3.Connection, token: Token, now: datetime) -> None:
    """Notes that something was read by a token, to the hour: a page's calendar counts for it."""
    if not is_noted(token, now):
        hour = hour_of(now)
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
