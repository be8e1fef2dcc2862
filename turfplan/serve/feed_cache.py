"""Keeps what the server answers from at hand: the open index, and the last good bytes of each feed
with its forms.
"""

import gzip
import os
import sqlite3
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property
from pathlib import Path

from turfplan.files import index
from turfplan.files.data_folder import known_lawn_id
from turfplan.files.index import ServedLawn
from turfplan.serve import owners, tokens
from turfplan.serve.feed import etag_of

_HEAD, _END = b"BEGIN:VCALENDAR\r\n", b"END:VCALENDAR\r\n"
_Seen = tuple[int, int, int]


@dataclass(frozen=True)
class ServedFeed:
    """The last good bytes of a lawn's feed with what answers need of them, worked out once a
    version.
    """

    published: index.PublishedFeed

    @cached_property
    def etag(self) -> str:
        """The strong validator of the plain bytes."""
        return etag_of(self.published.content)

    @cached_property
    def zipped(self) -> bytes:
        """The bytes in gzip, the same each time."""
        return gzip.compress(self.published.content, 6, mtime=0)


class _HeldConnection:
    """A connection that is closed when its thread, or the shelf, is gone."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def __del__(self) -> None:
        self.connection.close()


class FeedCache:
    """The index for one process: a connection a thread, and each feed read again only when its file
    has changed.
    """

    def __init__(self, path: Path) -> None:
        """For an index file; raises TurfplanError when it cannot be used."""
        self.path = path
        self._threads = threading.local()
        self._feeds: dict[int, tuple[_Seen | None, ServedFeed]] = {}
        self._connection()

    def _connection(self) -> sqlite3.Connection:
        held: _HeldConnection | None = getattr(self._threads, "held", None)
        if held is None:
            # Whichever thread lets go of it last closes it.
            held = self._threads.held = _HeldConnection(index.connect(self.path, any_thread=True))
        return held.connection

    def find(self, token: str) -> tokens.Token | None:
        """What a token opens, or None."""
        return tokens.find(self._connection(), token)

    def revoke(self, token: tokens.Token) -> None:
        """Takes a token of a page back for good, with its feed."""
        tokens.revoke(self._connection(), token.id, token.lawn)

    def was_read(self, token: tokens.Token, now: datetime) -> None:
        """Notes that something was read by a token."""
        tokens.was_read(self._connection(), token, now)

    def addresses(self, lawn: ServedLawn) -> tuple[tokens.Token, ...]:
        """Every address of a lawn that was given, by number."""
        return tokens.listed(self._connection(), lawn)

    def issue(self, lawn: ServedLawn, kind: tokens.TokenKind, label: str, ends: date | None) -> str:
        """A new address of a lawn, shown this once."""
        return tokens.issue(self._connection(), lawn, kind, label, ends)

    def withdraw(self, number: int, lawn: ServedLawn) -> bool:
        """Takes an address of a lawn back; False where it has none of that number."""
        return tokens.revoke(self._connection(), number, lawn)

    def lawns(self) -> tuple[ServedLawn, ...]:
        """Every lawn that is served."""
        return index.lawns(self._connection())

    def lawn(self, number: int) -> ServedLawn | None:
        """The lawn of a number, or None."""
        return next((lawn for lawn in self.lawns() if lawn.id == number), None)

    def owner(self, secret: str, now: datetime) -> owners.Owner | None:
        """The owner's browser that keeps a secret, or None."""
        return owners.find(self._connection(), secret, now)

    def browsers(self, now: datetime) -> tuple[owners.Owner, ...]:
        """Every browser that is the owner's."""
        return owners.owners(self._connection(), now)

    def may_claim(self, once: str, now: datetime) -> bool:
        """Whether a one-time address can still be used."""
        return owners.is_open(self._connection(), once, now)

    def claim(self, once: str, label: str, now: datetime) -> str | None:
        """Uses a one-time address: what the owner's browser keeps, or None."""
        return owners.claim(self._connection(), once, label, now)

    def withdraw_owner(self, number: int, now: datetime) -> bool:
        """Takes the owner's right from a browser."""
        return owners.withdraw(self._connection(), number, now)

    def draft(self, owner: owners.Owner) -> dict[str, str]:
        """What the owner has answered so far about a new lawn."""
        return owners.draft(self._connection(), owner)

    def keep_draft(self, owner: owners.Owner, answers: Mapping[str, str]) -> None:
        """Keeps what the owner has answered about a new lawn."""
        owners.keep_draft(self._connection(), owner, answers)

    def add_lawn(self, folder: Path, brief: Path) -> ServedLawn:
        """The lawn of a folder, served from now on."""
        return index.add_lawn(self._connection(), folder, brief)

    def feed(self, lawn: ServedLawn) -> ServedFeed | None:
        """The feed of a lawn: the folder's bytes when they are whole, else the last good ones; None
        before the first.
        """
        seen = _seen(lawn.folder / "season.ics")
        known = self._feeds.get(lawn.id)
        if known is not None and known[0] == seen:
            return known[1]
        published = self._read(lawn)
        if published is None:
            return None
        feed = (
            known[1]
            if known is not None and known[1].published == published
            else ServedFeed(published)
        )
        self._feeds[lawn.id] = (seen, feed)
        return feed

    def _read(self, lawn: ServedLawn) -> index.PublishedFeed | None:
        connection = self._connection()
        try:
            content = (lawn.folder / "season.ics").read_bytes()
        except OSError:
            content = b""
        if known_lawn_id(lawn.folder) != lawn.lawn_id:
            # Another lawn has come into the folder, or its plan has gone: an address opens none but
            # the lawn that it was given for.
            content = b""
        if content.startswith(_HEAD) and content.endswith(_END):
            return index.publish(connection, lawn, content, etag_of(content))
        return index.published(connection, lawn)


def _seen(path: Path) -> _Seen | None:
    """What changes whenever a file is written anew."""
    try:
        stat = os.stat(path)
    except OSError:
        return None
    return stat.st_mtime_ns, stat.st_ino, stat.st_size
