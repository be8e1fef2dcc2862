"""What a thread has found in the index, and the feeds that it has at hand, as long as nothing of it
is new.
"""

import gzip
import math
import os
import sqlite3
from collections import OrderedDict
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from pathlib import Path

from turfplan.files import index
from turfplan.serve import tokens
from turfplan.serve.feed import etag_of
from turfplan.serve.guard import Prepared

FileSeen = tuple[int, int, int]
Conditions = tuple[str, str, bytes | None, bytes | None]
"""A method, what the file is called, If-None-Match and Accept-Encoding as they were sent."""
# Tokens that are kept at hand: beyond these the first are looked up again.
MOST_AT_HAND = 10_000


@dataclass(frozen=True)
class ServedFeed:
    """The last good bytes of a lawn's feed with what answers need of them, worked out once a
    version; `answers` are those that are ready.
    """

    published: index.PublishedFeed
    answers: dict[Conditions, Prepared] = field(default_factory=dict, compare=False)

    @cached_property
    def etag(self) -> str:
        """The strong validator of the plain bytes."""
        return etag_of(self.published.content)

    @cached_property
    def zipped(self) -> bytes:
        """The bytes in gzip, the same each time."""
        return gzip.compress(self.published.content, 6, mtime=0)


@dataclass(slots=True)
class FeedAtHand:
    """The feed of an address while nothing of it is new: the file that it shows as it was seen, and
    the hour for which it is noted that the address was read, outside of which it is looked at
    again. `looked` is when the file was last looked at."""

    file: str
    feed: ServedFeed
    source: str
    state: FileSeen | None
    since: datetime
    until: datetime
    looked: float = -math.inf

    def lasts(self, now: datetime, moment: float, at_latest: float) -> bool:
        """Whether it is still that hour, and that file as far as it was looked at before or is
        now."""
        if not self.since <= now < self.until:
            return False
        if self.looked < at_latest:
            self.looked = moment
            return seen(self.source) == self.state
        return True


class HeldConnection:
    """A connection that is closed when its thread, or the shelf, is gone, and what was found by it
    since others last wrote."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection
        self.version = -1
        self.looked = -math.inf
        self.tokens: OrderedDict[str, tokens.Token] = OrderedDict()
        self.feeds: dict[str, FeedAtHand] = {}

    def look(self) -> None:
        """Forgets what was found where something was written into the index since, by whichever
        connection or process."""
        version: int = self.connection.execute("PRAGMA data_version").fetchone()[0]
        if version != self.version:
            self.tokens.clear()
            self.feeds.clear()
            self.version = version

    def known(self, text: str) -> tokens.Token | None:
        """What a token opens, or None; looked up once for as long as nothing is written into the
        index."""
        self.look()
        key = tokens.hash_of(text)
        found = self.tokens.get(key)
        if found is None and (found := tokens.find(self.connection, text)) is not None:
            self.tokens[key] = found
            if len(self.tokens) > MOST_AT_HAND:
                self.tokens.popitem(last=False)
        return found

    def __del__(self) -> None:
        self.connection.close()


def seen(path: Path | str) -> FileSeen | None:
    """What changes whenever a file is written anew."""
    try:
        stat = os.stat(path)
    except OSError:
        return None
    return stat.st_mtime_ns, stat.st_ino, stat.st_size
